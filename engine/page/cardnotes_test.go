package page

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// TestCutCost, by hand: three sheets of 2, 3 and 1 cuts, four of them free,
// $1.50 each after: the second sheet pays one of its three, the third its one.
func TestCutCost(t *testing.T) {
	b := &builder{View: View{Project: &project.Project{}, Job: nest.Job{Store: nest.Store{FreeCuts: 4, Price: 150}}}}
	for sheet, n := range []int{2, 3, 1} {
		for range n {
			b.Steps.Store = append(b.Steps.Store, work.Cut{Sheet: sheet})
		}
	}
	want := func(free int, all ...string) {
		b.Job.Store.FreeCuts = free
		for sheet, n := range []int{2, 3, 1} {
			if got := b.cutCost(sheet, n); got != all[sheet] {
				t.Errorf("%d free, sheet %d: %q, want %q", free, sheet+1, got, all[sheet])
			}
		}
	}
	want(4, "2 cuts, free of charge.", "3 cuts, 2 free: $1.50.", "1 cut: $1.50.")
	want(5, "2 cuts, free of charge.", "3 cuts, free of charge.", "1 cut: $1.50.")
	want(0, "2 cuts: $3.00.", "3 cuts: $4.50.", "1 cut: $1.50.")
}

// TestCardWeight: 96 × 48 × 3/4 in at 36 lb/ft³, the plywood trade's 3 lb to the
// square foot and inch, weigh 72 lb; half of it 36.
func TestCardWeight(t *testing.T) {
	in := measure.Inch
	b := &builder{View: View{Project: &project.Project{Stock: project.Stock{Materials: []project.Material{{ID: "ply", Kind: "plywood", Nominal: in * 3 / 4}}}}}}
	st := nest.Stock{Material: "ply"}
	if got := b.heavy(b.kg(st, 96*in, 48*in)); got != "72 lb" {
		t.Error(got)
	}
	if got := b.heavy(b.kg(st, 48*in, 48*in)); got != "36 lb" {
		t.Error(got)
	}
}
