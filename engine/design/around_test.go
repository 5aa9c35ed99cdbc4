package design

import (
	"testing"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// need gives the jointer of the demo one need. Its body is 30 × 11 in and stands
// in the middle of a worktop of 38 × (22 + overhangs) in: 4 in are free on each
// side. The worktop is 25 1/16 in up, on it the table 10 1/4.
func need(t *testing.T, p *project.Project, set func(*project.Need)) (f issue.List) {
	t.Helper()
	n := project.Need{Name: "crank", Side: "right", Reach: 3 * in}
	set(&n)
	p.Machine.Needs = []project.Need{n}
	_, f = Build(p)
	return f
}

func arg(t *testing.T, f issue.List, code issue.Code, k int) string {
	t.Helper()
	for _, x := range f {
		if x.Code == code {
			return (measure.Tape{}).Plain(x.Args[k].(measure.Length))
		}
	}
	return ""
}

func TestNeeds(t *testing.T) {
	p := open(t, "jointer-stand")
	f := need(t, p, func(n *project.Need) {})
	for _, code := range []issue.Code{InWay, NoTop, Neighbour, Legs} {
		if f.Has(code) {
			t.Errorf("3 in over a worktop with 4 free: %v", f)
		}
	}
	// A crank that hangs 2 in below the foot meets the worktop all the way: 3 in.
	f = need(t, p, func(n *project.Need) { n.Low = -2 * in })
	if got := arg(t, f, InWay, 2); got != "3" {
		t.Errorf("a crank through the worktop: %q", got)
	}
	// Reaching 6 in, 4 of them lie over the worktop, 1/4 over its strip.
	f = need(t, p, func(n *project.Need) { n.Low, n.Reach = -2*in, 6*in })
	if got := arg(t, f, InWay, 2); got != "3 3/4" {
		t.Errorf("a long crank through the worktop: %q", got)
	}
	// Hold-downs of 5 in need 1 more than there is; of 4 they have it.
	f = need(t, p, func(n *project.Need) { n.Top, n.Reach = true, 5*in })
	if got := arg(t, f, NoTop, 4); got != "1" {
		t.Errorf("hold-downs: short by %q", got)
	}
	f = need(t, p, func(n *project.Need) { n.Top, n.Reach = true, 4*in })
	if f.Has(NoTop) {
		t.Error("hold-downs of 4 in fit")
	}
	// The assembly table stands on the left, its edge at the worktop's.
	f = need(t, p, func(n *project.Need) { n.Side, n.Reach = "left", 6*in })
	if got := arg(t, f, Neighbour, 4); got != "2" {
		t.Errorf("a port against the table: short by %q", got)
	}
	f = need(t, p, func(n *project.Need) { n.Side, n.Reach, n.Low = "left", 6*in, 10*in+in/4 })
	if f.Has(Neighbour) {
		t.Error("what stands out over the table is free")
	}
	p.LineUp.Side = "right"
	f = need(t, p, func(n *project.Need) { n.Side, n.Reach = "left", 6*in })
	if f.Has(Neighbour) {
		t.Error("the table stands on the other side")
	}
	// A crank in front, 4 in below the foot and reaching 12 in, meets a drawer
	// on its way out.
	p.LineUp.Side = ""
	p.Cabinet.Top.Overhang.Front = 0
	f = need(t, p, func(n *project.Need) {
		n.Side, n.Reach, n.Low, n.High = "front", 14*in, -4*in, -in
	})
	if !f.Has(InWay) {
		t.Errorf("a crank before the drawers: %v", f)
	}
}

// TestLegs: the worktop stands over by 1 in on the left. Legs that stand out 1
// in let the tops meet; at 1 1/2 a gap of 1/2 stays.
func TestLegs(t *testing.T) {
	p := open(t, "jointer-stand")
	p.Base.Caster.Lead = 0
	set(t, p, "lineUp.legs", "1")
	if _, f := Build(p); f.Has(Legs) {
		t.Error("legs that stand out as far as the worktop stands over")
	}
	set(t, p, "lineUp.legs", "1 1/2")
	if _, f := Build(p); arg(t, f, Legs, 2) != "1/2" {
		t.Errorf("gap %q, by hand 1/2", arg(t, f, Legs, 2))
	}
	set(t, p, "cabinet.top.overhang.left", "2")
	if _, f := Build(p); f.Has(Legs) {
		t.Error("2 in stand over 1 1/2")
	}
}

// TestLevels: the table stands off by less than a step of the tape. Feet that
// can be screwed by 1/4 in take it up; the finding says by how much.
func TestLevels(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "base.caster.mount", "117 mm")
	if _, f := Build(p); !f.Has(OffTape) || f.Has(Levels) {
		t.Fatalf("117 mm is on the tape: %v", f)
	}
	set(t, p, "base.level", "1/4")
	c, f := Build(p)
	if f.Has(OffTape) || !f.Has(Levels) || c.Levelling.Range != in/4 {
		t.Errorf("levelled: %v", f)
	}
}
