package work

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// in reads an inch size: in("23 1/4").
func in(s string) measure.Length {
	l, err := measure.Tape{}.Parse(s)
	if err != nil {
		panic(err)
	}
	return l
}

// A planter makes trees by hand for one job.
type planter struct {
	job nest.Job
}

func (t planter) part(i int) *nest.Node {
	p := t.job.Parts[i]
	return &nest.Node{Kind: nest.Piece, L: p.L, W: p.W, Part: i}
}

func keep(l, w string) *nest.Node  { return &nest.Node{Kind: nest.Offcut, L: in(l), W: in(w)} }
func waste(l, w string) *nest.Node { return &nest.Node{Kind: nest.Waste, L: in(l), W: in(w)} }

func trim(l, w string, core *nest.Node) *nest.Node {
	return &nest.Node{Kind: nest.Trim, L: in(l), W: in(w), Core: core}
}

// cut joins kids along d with a kerf between each two.
func (t planter) cut(tier nest.Tier, d nest.Dir, kids ...*nest.Node) *nest.Node {
	kerf := t.job.Kerf
	if tier == nest.StoreTier {
		kerf = t.job.Store.Kerf
	}
	n := &nest.Node{Kind: nest.Cut, Tier: tier, Dir: d, Kids: kids, L: kids[0].L, W: kids[0].W}
	for _, k := range kids[1:] {
		if d == nest.X {
			n.L += kerf + k.L
		} else {
			n.W += kerf + k.W
		}
	}
	return n
}

func (t planter) x(kids ...*nest.Node) *nest.Node  { return t.cut(nest.ShopTier, nest.X, kids...) }
func (t planter) y(kids ...*nest.Node) *nest.Node  { return t.cut(nest.ShopTier, nest.Y, kids...) }
func (t planter) sx(kids ...*nest.Node) *nest.Node { return t.cut(nest.StoreTier, nest.X, kids...) }
func (t planter) sy(kids ...*nest.Node) *nest.Node { return t.cut(nest.StoreTier, nest.Y, kids...) }

// saws of a small shop.
func shop() []project.Saw {
	return []project.Saw{
		{Name: "Table saw", Kind: "table", Rip: in("24")},
		{Name: "Track saw", Kind: "track"},
	}
}

// mitre is a mitre saw for that shop.
var mitre = project.Saw{Name: "Mitre saw", Kind: "mitre", Crosscut: in("12")}

// planer is the sheet of the pictures in the direction of the look: four
// pieces from the store, three matched uprights, a bottom, a top, two fronts.
func planer() (nest.Job, nest.Plan, []part.Line) {
	job := nest.Job{
		Kerf:  in("1/8"),
		Store: nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")},
		Stock: []nest.Stock{{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Along, Price: 7200}},
		Parts: []nest.Part{
			{ID: "A", L: in("23 1/4"), W: in("21"), Count: 1, Grain: nest.Along, Match: "uprights"},
			{ID: "B", L: in("23 1/4"), W: in("21"), Count: 1, Grain: nest.Along, Match: "uprights"},
			{ID: "C", L: in("23 1/4"), W: in("21"), Count: 1, Grain: nest.Along, Match: "uprights"},
			{ID: "D", L: in("34"), W: in("21 7/32"), Count: 1, Grain: nest.Along},
			{ID: "E", L: in("36"), W: in("22 1/2"), Count: 1, Grain: nest.Along},
			{ID: "F", L: in("8 1/2"), W: in("15 21/32"), Count: 1, Grain: nest.Along},
			{ID: "G", L: in("14 15/32"), W: in("15 21/32"), Count: 1, Grain: nest.Along},
		},
	}
	t := planter{job}
	var lines []part.Line
	names := []string{"Side, left", "Side, right", "Partition", "Bottom", "Top", "Upper front", "Lower front"}
	for i := range job.Parts {
		lines = append(lines, part.Line{Tag: part.Tag(i), Name: names[i], Count: 1,
			Length: job.Parts[i].L, Width: job.Parts[i].W})
	}
	fronts := t.x(t.part(5), t.part(6), waste("1 5/32", "15 21/32"))
	root := t.sx(
		t.sy(
			trim("48", "24", t.y(t.x(t.part(0), t.part(1), waste("1", "21")), keep("47 3/4", "2 5/8"))),
			trim("48", "23 7/8", t.y(keep("47 3/4", "2 1/2"),
				t.x(t.part(2), t.y(keep("24 3/8", "5 7/32"), fronts)))),
		),
		t.sy(
			trim("47 7/8", "24", t.y(t.x(keep("13 1/2", "21 7/32"), t.part(3)), keep("47 5/8", "2 13/32"))),
			trim("47 7/8", "23 7/8", t.y(waste("47 5/8", "1"), t.x(keep("11 1/2", "22 1/2"), t.part(4)))),
		),
	)
	return job, nest.Plan{Sheets: []nest.Layout{{Stock: 0, Root: root}}}, lines
}

// A rect is a piece of wood for the simulator.
type rect struct {
	sheet      int
	x, y, l, w measure.Length
}

// simulate cuts real rectangles: it knows a cut only as "this piece, this far
// from its low edge, this thick", and fails if the piece is not there. It
// returns what lies on the bench at the end.
func simulate(t *testing.T, job nest.Job, plan nest.Plan, s Steps) map[rect]int {
	t.Helper()
	have := map[rect]int{}
	for i, sh := range plan.Sheets {
		st := job.Stock[sh.Stock]
		have[rect{i, 0, 0, st.L, st.W}]++
	}
	made := map[string]bool{}
	for _, c := range append(append([]Cut(nil), s.Store...), s.Shop...) {
		for _, id := range c.After {
			if !made[id] {
				t.Fatalf("%s comes before %s, which it waits for", c.ID, id)
			}
		}
		made[c.ID] = true
		p := rect{c.Piece.Sheet, c.Piece.X, c.Piece.Y, c.Piece.L, c.Piece.W}
		if have[p] == 0 {
			t.Fatalf("%s cuts %v, which is not there", c.ID, p)
		}
		have[p]--
		size, full := p.l, job.Kerf
		if c.Dir == nest.Y {
			size = p.w
		}
		if c.Tier == nest.StoreTier {
			full = job.Store.Kerf
		}
		if c.At < 0 || c.Kerf <= 0 || c.At+c.Kerf > size || c.Kerf != full && c.At != 0 && c.At+c.Kerf != size {
			t.Fatalf("%s at %v, kerf %v of %v", c.ID, c.At, c.Kerf, size)
		}
		part := func(a, b measure.Length) {
			if a >= b {
				return
			}
			q := p
			if c.Dir == nest.X {
				q.x, q.l = p.x+a, b-a
			} else {
				q.y, q.w = p.y+a, b-a
			}
			have[q]++
			for _, m := range c.Makes {
				if (rect{m.Sheet, m.X, m.Y, m.L, m.W}) == q {
					return
				}
			}
			t.Fatalf("%s makes %v but does not say so", c.ID, q)
		}
		part(0, c.At)
		part(c.At+c.Kerf, size)
		wantSet := c.At
		if c.Ride == RightEdge || c.Ride == BottomEdge {
			wantSet = size - c.At - c.Kerf
		}
		if c.Set != wantSet {
			t.Fatalf("%s: set %v from the %s edge, want %v", c.ID, c.Set, c.Ride, wantSet)
		}
	}
	for r, n := range have {
		if n == 0 {
			delete(have, r)
		}
	}
	return have
}

// outcome checks that what lies on the bench is what the plan promised.
func outcome(t *testing.T, job nest.Job, plan nest.Plan, s Steps) {
	t.Helper()
	have := simulate(t, job, plan, s)
	want := make([]int, len(job.Parts))
	var count func(n *nest.Node)
	count = func(n *nest.Node) {
		if n == nil {
			return
		}
		if n.Kind == nest.Piece {
			want[n.Part]++
		}
		count(n.Core)
		for _, k := range n.Kids {
			count(k)
		}
	}
	for _, sh := range plan.Sheets {
		count(sh.Root)
	}
	for _, e := range s.Ends {
		r := rect{e.Piece.Sheet, e.Piece.X, e.Piece.Y, e.Piece.L, e.Piece.W}
		if have[r] != 1 {
			t.Fatalf("%v %q is listed %d times on the bench", r, e.Piece.Name, have[r])
		}
		delete(have, r)
		if e.Is != ToPart {
			continue
		}
		p := job.Parts[e.Line]
		l, w := p.L, p.W
		if e.Rot {
			l, w = w, l
		}
		if r.l != l || r.w != w {
			t.Fatalf("part %s came out %v × %v, want %v × %v", p.ID, r.l, r.w, l, w)
		}
		// No part uses what a rough edge loses.
		rough := s.Rough[e.Rough]
		q, lost := rough.Piece, job.Store.Trim
		for _, edge := range rough.RoughEdges {
			if edge == LeftEdge && r.x < q.X+lost || edge == RightEdge && r.x+r.l > q.X+q.L-lost ||
				edge == TopEdge && r.y < q.Y+lost || edge == BottomEdge && r.y+r.w > q.Y+q.W-lost {
				t.Fatalf("part %s at %v uses the %s rough edge of %v", p.ID, r, edge, q)
			}
		}
		want[e.Line]--
	}
	for i, n := range want {
		if n != 0 {
			t.Fatalf("part %s: %d missing", job.Parts[i].ID, n)
		}
	}
	if len(have) != 0 {
		t.Fatalf("left on the bench, not listed: %v", have)
	}
}
