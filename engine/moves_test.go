package engine

import (
	"os"
	"testing"

	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// TestFenceMoves: on the cart the program opens with the order moves a fence or
// stop as often as there are different settings, so that no order of this plan
// is better, or once more where matched parts want it; and a fifth less often
// than going sheet by sheet. How much less is the plan's doing: one that cuts
// equal sizes from one strip leaves little to save.
func TestFenceMoves(t *testing.T) {
	file, err := os.ReadFile("../testdata/projects/jointer-stand.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := project.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, tries := range []int{1000, 10_000, 50_000} {
		r := Design(p)
		var plan nest.Plan
		for at := range nest.Search(r.Job, nest.Options{Seed: p.Seed, Tries: tries}) {
			if at.Plan != nil {
				plan = *at.Plan
			}
		}
		s := Finish(p, r, plan).Steps
		t.Logf("%d tries: %d moves, sheet by sheet %d, settings %d", tries, s.Moves, s.Naive, s.Settings)
		if s.Moves > s.Settings+1 || s.Moves*5 > s.Naive*4 {
			t.Errorf("%d tries: %d moves, sheet by sheet %d", tries, s.Moves, s.Naive)
		}
	}
}
