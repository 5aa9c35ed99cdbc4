package nest_test

import (
	"fmt"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

func ExampleSearch() {
	job := nest.Job{
		Kerf:  3 * measure.MM,
		Stock: []nest.Stock{{ID: "ply", L: 1220 * measure.MM, W: 610 * measure.MM, Price: 3500, Count: -1, AtShop: true}},
		Parts: []nest.Part{
			{ID: "side", L: 700 * measure.MM, W: 300 * measure.MM, Count: 2},
			{ID: "shelf", L: 500 * measure.MM, W: 290 * measure.MM, Count: 2},
		},
	}
	var best *nest.Plan
	for p := range nest.Search(job, nest.Options{Seed: 1}) {
		if p.Plan != nil {
			best = p.Plan // show it at once
		}
		if best.Proven || p.Tries > 2000 {
			break
		}
	}
	fmt.Println(len(best.Sheets), "sheet for", best.Cost, "proven:", best.Proven)
	fmt.Println("findings:", len(nest.Verify(job, *best)))
	// Output:
	// 1 sheet for 35.00 proven: true
	// findings: 0
}
