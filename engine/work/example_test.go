package work_test

import (
	"fmt"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A board of 48 × 6 in gives two shelves of 20 in. The first is marked off.
func Example() {
	in := measure.Inch
	job := nest.Job{
		Kerf:  in / 8,
		Stock: []nest.Stock{{ID: "board", L: 48 * in, W: 6 * in, Grain: nest.Along, Price: 900}},
		Parts: []nest.Part{{ID: "shelf", L: 20 * in, W: 6 * in, Count: 2, Grain: nest.Along}},
	}
	shelf := &nest.Node{Kind: nest.Piece, L: 20 * in, W: 6 * in}
	rest := &nest.Node{Kind: nest.Offcut, L: 8*in - in/4, W: 6 * in}
	plan := nest.Plan{Sheets: []nest.Layout{{Root: &nest.Node{
		Kind: nest.Cut, Dir: nest.X, L: 48 * in, W: 6 * in, Kids: []*nest.Node{shelf, shelf, rest},
	}}}}
	lines := []part.Line{{Tag: "A", Name: "Shelf"}}
	saws := []project.Saw{{Name: "mitre saw", Kind: "mitre", Crosscut: 12 * in}}

	steps := work.Saw(job, plan, lines, saws, measure.Tape{})
	journal := []mark.Mark{steps.Shop[0].Mark("digest", mark.Next(nil, "tablet", "2026-05-02T09:10:00Z"))}
	now := work.Progress(steps, mark.Fold(journal), "digest")

	for i, c := range steps.Shop {
		fmt.Printf("%s, %s, from the %s (%s)", c.Say(measure.Tape{}), c.Saw, c.Ride, c.RideIs)
		if c.Same {
			fmt.Print(", stop as it is")
		}
		if now.Shop[i].Done {
			fmt.Print(", done")
		}
		fmt.Println()
	}
	fmt.Println("next:", now.Next)
	// Output:
	// Cut 1: crosscut R1 at 20, mitre saw, from the left (factory edge), done
	// Cut 2: crosscut R1 at 20, mitre saw, from the left (sawn edge), stop as it is
	// next: cut/0/0-1
}
