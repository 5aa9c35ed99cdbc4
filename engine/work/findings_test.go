package work

import (
	"reflect"
	"testing"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
)

// one returns the only finding with the code, and fails if there is none.
func one(t *testing.T, l issue.List, code issue.Code) issue.Finding {
	t.Helper()
	var out []issue.Finding
	for _, f := range l {
		if f.Code == code {
			out = append(out, f)
		}
	}
	if len(out) != 1 {
		t.Fatalf("%d findings %s, want one: %v", len(out), code, l)
	}
	return out[0]
}

// TestSplit: two matched parts of 10 in. The second is freed by a crosscut at
// 20, which is freed by the crosscut of the first: the stop must leave 10 and
// come back. Without the match nobody minds.
func TestSplit(t *testing.T) {
	job := nest.Job{Kerf: in("1/8"),
		Stock: []nest.Stock{{ID: "s", L: in("60"), W: in("8"), Grain: nest.Along, Price: 1}},
		Parts: []nest.Part{
			{ID: "a", L: in("10"), W: in("8"), Count: 1, Match: "rails"},
			{ID: "b", L: in("10"), W: in("3"), Count: 1, Match: "rails"},
			{ID: "c", L: in("10"), W: in("4 7/8"), Count: 1},
		}}
	t1 := planter{job}
	// 60 = 10 + 20 + 29 3/4 of waste; the piece of 20 is ripped, and its
	// strip crosscut at 10.
	strip := t1.x(t1.part(1), waste("9 7/8", "3"))
	twenty := t1.y(strip, waste("20", "4 7/8"))
	root := t1.x(t1.part(0), twenty, waste("29 3/4", "8"))
	plan := nest.Plan{Sheets: []nest.Layout{{Root: root}}}
	s := Saw(job, plan, nil, nil, measure.Tape{})
	outcome(t, job, plan, s)
	// 10 for a must come first, and 10 for b only after 20 and the rip.
	f := one(t, s.Findings, Split)
	last := s.Shop[len(s.Shop)-1]
	if last.Set != in("10") || last.SetBy != 1 {
		t.Errorf("%s is set by cut %d, want 1", say(last), last.SetBy)
	}
	if f.Level != issue.Note || !reflect.DeepEqual(f.Args, []any{"rails", in("10")}) {
		t.Errorf("%+v", f)
	}
	job.Parts[1].Match = ""
	if s := Saw(job, plan, nil, nil, measure.Tape{}); s.Findings.Has(Split) || s.Moves != 4 || s.Settings != 3 {
		t.Errorf("without the match: %d moves, %d settings, %v", s.Moves, s.Settings, s.Findings)
	}
}

// TestStoreEdge: the middle of three strips is parted again along the same
// axis; it has no factory edge that way.
func TestStoreEdge(t *testing.T) {
	job := nest.Job{Kerf: in("1/8"), Store: nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")},
		Stock: []nest.Stock{{ID: "s", L: in("96"), W: in("48"), Price: 1}}}
	t1 := planter{job}
	k := func(l string) *nest.Node { return keep(l, "48") }
	middle := t1.sx(k("20"), k("19 7/8"))
	plan := nest.Plan{Sheets: []nest.Layout{{Root: t1.sx(k("24"), middle, k("31 3/4"))}}}
	s := Saw(job, plan, nil, nil, measure.Tape{})
	outcome(t, job, plan, s)
	one(t, s.Findings, StoreEdge)
	// The outer cuts are measured from the ends, never from each other.
	if a, b := s.Store[0], s.Store[1]; a.Set != in("24") || a.Ride != LeftEdge || b.Set != in("31 3/4") || b.Ride != RightEdge {
		t.Errorf("%s; %s", say(a), say(b))
	}
	// Four pieces side by side keep the right end to measure from.
	plan.Sheets[0].Root = t1.sx(k("24"), k("20"), k("19 7/8"), k("31 3/4"))
	s = Saw(job, plan, nil, nil, measure.Tape{})
	outcome(t, job, plan, s)
	if len(s.Findings) != 0 || len(s.Store) != 3 {
		t.Errorf("%d cuts, %v", len(s.Store), s.Findings)
	}
	// 24 from the left; then from the right 31 3/4 + 1/8 + 19 7/8; then 31 3/4.
	for i, want := range []string{"24", "51 3/4", "31 3/4"} {
		if s.Store[i].Set != in(want) || s.Store[i].RideIs != FactoryEdge {
			t.Errorf("store cut %s, want %s", say(s.Store[i]), want)
		}
	}
}

// TestNoTrueEdge: a piece from the middle of a sheet has four rough edges. It
// starts on the track; without one, that is said.
func TestNoTrueEdge(t *testing.T) {
	job := nest.Job{Kerf: in("1/8"), Store: nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")},
		Stock: []nest.Stock{{ID: "s", L: in("96"), W: in("48"), Grain: nest.Along, Price: 1}},
		Parts: []nest.Part{{ID: "p", L: in("19 1/2"), W: in("19 1/2"), Count: 1}}}
	t1 := planter{job}
	col := t1.sy(keep("20", "12"), trim("20", "20", t1.part(0)), keep("20", "15 3/4"))
	plan := nest.Plan{Sheets: []nest.Layout{{Root: t1.sx(keep("30", "48"), col, keep("45 3/4", "48"))}}}
	saws := shop()
	s := Saw(job, plan, []part.Line{{Tag: "A"}}, saws, measure.Tape{})
	outcome(t, job, plan, s)
	if s.Findings.Has(NoTrueEdge) || len(s.Shop) != 4 || s.Shop[0].SawIs != "track" || s.Shop[0].RideIs != RoughEdge {
		t.Errorf("with a track: %+v %v", s.Shop, s.Findings)
	}
	s = Saw(job, plan, []part.Line{{Tag: "A"}}, saws[:1], measure.Tape{})
	if f := one(t, s.Findings, NoTrueEdge); !reflect.DeepEqual(f.Args, []any{"R2"}) && !reflect.DeepEqual(f.Args, []any{"R3"}) {
		t.Errorf("%+v", f)
	}
}

// TestBadPlan: a tree that does not add up is left out, and said so.
func TestBadPlan(t *testing.T) {
	job, plan, lines := planer()
	plan.Sheets[0].Root.Kids[0].Kids[0].Core.Kids[0].Kids[0].L += 8
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	if !s.Findings.Blocked() || !s.Findings.Has(BadPlan) || len(s.Shop) == 0 {
		t.Errorf("%d cuts, %v", len(s.Shop), s.Findings)
	}
	for _, root := range []*nest.Node{nil, {}, {Kind: nest.Cut}, {Kind: nest.Trim, L: in("96"), W: in("48")}, {Kind: 99}} {
		plan.Sheets[0].Root = root
		Saw(job, plan, lines, shop(), measure.Tape{}) // no panic
	}
}
