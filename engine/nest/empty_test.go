package nest

import (
	"testing"

	"cartwright/engine/measure"
)

// TestNothingFits: stock of which no part can be made is searched without
// harm; found by a bay too wide for the car.
func TestNothingFits(t *testing.T) {
	in := measure.Inch
	job := Job{Kerf: in / 8,
		Parts: []Part{{ID: "A", Material: "ply", L: 90 * in, W: 40 * in, Count: 1}},
		Stock: []Stock{{ID: "s", Material: "ply", L: 96 * in, W: 48 * in, Count: -1, Grain: Along}},
		Store: Store{Cuts: -1, Kerf: in / 8, Trim: in / 4}, Car: []Size{{L: 60 * in, W: 30 * in}}}
	n := 0
	for p := range Search(job, Options{Tries: 1000}) {
		if p.Plan != nil {
			n++
			if len(p.Plan.Left) != 1 {
				t.Errorf("left %v, want the one part", p.Plan.Left)
			}
		}
	}
	if n == 0 || !Check(job).Has(NoCar) {
		t.Errorf("%d plans, findings %v", n, Check(job))
	}
}
