package engine

import (
	"os"
	"testing"

	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// TestFenceMoves: the order of the saw moves a fence or stop at least 40 % less
// often than going sheet by sheet, on the cart the program opens with.
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
		if s.Moves > s.Naive || tries > 1000 && s.Moves*10 > s.Naive*6 {
			t.Errorf("%d tries: %d moves, sheet by sheet %d", tries, s.Moves, s.Naive)
		}
	}
}
