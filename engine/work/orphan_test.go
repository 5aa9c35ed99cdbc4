package work

import (
	"slices"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/mark"
)

// TestOrphans: three things are marked; the doors and the third drawer go. Their
// marks are told and kept; when they come back the finding is gone.
func TestOrphans(t *testing.T) {
	p := startingPoints(t)["jointer-stand"]
	c, _ := design.Build(p)
	b := AtBench(p, c)
	s := mark.Stamp{Device: "d"}
	var journal []mark.Mark
	for i, on := range []string{"build/bottom", "drill/bay1/drawer3/front/pull/3", "build/sub/drawer-3", "cut/0/r"} {
		s.Seq, s.Lamport = i+1, i+1
		journal = append(journal, s.Entry(mark.Done, on))
	}
	if l := b.Lost(mark.Fold(journal)); len(l) != 0 {
		t.Fatalf("whole: %v", l)
	}
	bay := &p.Cabinet.Bays[0]
	bay.Openings = bay.Openings[:2]
	bay.Openings[1].Height = 0
	c, _ = design.Build(p)
	state := mark.Fold(journal)
	l := AtBench(p, c).Lost(state)
	if len(l) != 2 || !l.Has(mark.Orphan) || l[0].Level != issue.Warn {
		t.Fatalf("without the third drawer: %v", l)
	}
	if _, ok := state.Step("build/sub/drawer-3"); !ok {
		t.Error("the mark is lost")
	}
	got := []any{l[0].Args[0], l[1].Args[0]}
	if want := []any{"Drilling of bay1 drawer3 front: pull, 3", "Sub-assembly “drawer-3”"}; !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	if n := StepName("build/uprights-2"); n != "“Stand the uprights on the bottom”" {
		t.Error(n)
	}
}
