package design

import (
	"testing"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// TestAsCut: with gaps of 1/8, a front cut 1/32 short leaves 5/32 on the right;
// one cut 1/8 too large has none left. A box's front cut 1/32 short has that
// much more play than the 1/32 planned.
func TestAsCut(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "drawers.gap", "1/8")
	c, _ := Build(p)
	at := func(l issue.List, k int) string {
		t.Helper()
		if len(l) != 1 {
			t.Fatalf("%v", l)
		}
		return (measure.Tape{}).Plain(l[0].Args[k].(measure.Length))
	}
	q := get(t, c, "bay1/drawer1/front")
	if l := AsCut(c, q.ID, q.Length, q.Width); len(l) != 0 {
		t.Errorf("cut as planned: %v", l)
	}
	l := AsCut(c, q.ID, q.Length-in/32, q.Width)
	if at(l, 1) != "1/32" || at(l, 2) != "5/32" || l[0].Args[3] != "on the right" || l[0].Level != issue.Note {
		t.Errorf("1/32 short: %v", l)
	}
	l = AsCut(c, q.ID, q.Length, q.Width-in/16)
	if at(l, 2) != "3/16" || l[0].Args[3] != "above" {
		t.Errorf("1/16 low: %v", l)
	}
	if l = AsCut(c, q.ID, q.Length+in/8, q.Width); at(l, 2) != "0" || l[0].Level != issue.Warn {
		t.Errorf("1/8 too long: %v", l)
	}
	f := get(t, c, "bay1/drawer1/box-front")
	if l = AsCut(c, f.ID, f.Length-in/32, f.Width); at(l, 2) != "1/16" || l[0].Code != BoxCut || l[0].Level != issue.Note {
		t.Errorf("box front 1/32 short: %v", l)
	}
	if l = AsCut(c, f.ID, f.Length+in/32, f.Width); at(l, 2) != "0" || l[0].Level != issue.Warn {
		t.Errorf("box front 1/32 long: %v", l)
	}
	s := get(t, c, "side-left")
	if l = AsCut(c, s.ID, s.Length-in/16, s.Width); l[0].Code != OffCut || at(l, 2) != "18 15/16" || at(l, 3) != "19" {
		t.Errorf("side 1/16 short: %v", l)
	}
}

// TestContradict: an opening 16 1/2 × 19 has diagonals of √(16.5² + 19²) =
// 25.164 in. Racked by a little, one is longer and the other shorter: their
// squares' mean stays (law of the parallelogram).
func TestContradict(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		told bool
	}{{"25.164 in", "25.164 in", false}, {"25.3 in", "25.03 in", false}, {"25.4 in", "25.4 in", true}, {"24.9 in", "24.9 in", true}, {"25.4 in", "24.93 in", false}} {
		p := open(t, "jointer-stand")
		set(t, p, "cabinet.bays.0.measured.diagonalA", tt.a)
		set(t, p, "cabinet.bays.0.measured.diagonalB", tt.b)
		if _, f := Build(p); f.Has(Contradict) != tt.told {
			t.Errorf("%s and %s: told %v", tt.a, tt.b, !tt.told)
		}
	}
}

// TestMeasuredDepth: 20 5/16 inside takes slides of 20; measured 1/2 in less,
// they go down to 18. Deeper than planned changes nothing.
func TestMeasuredDepth(t *testing.T) {
	p := open(t, "jointer-stand")
	slide := func() measure.Length { c, _ := Build(p); return c.Drawers[0].Slide }
	if slide() != 20*in {
		t.Fatal(slide())
	}
	set(t, p, "cabinet.bays.0.measured.depth", "20 5/8 in") // planned 21 1/32, front edges included
	if got := slide(); got != 18*in {
		t.Errorf("measured 13/32 less: slides of %v", got)
	}
	set(t, p, "cabinet.bays.0.measured.depth", "21 3/32 in")
	if got := slide(); got != 20*in {
		t.Errorf("measured deeper: slides of %v", got)
	}
}
