package work

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A grower makes random plans: trees that obey the rules of a plan, whatever
// a search would think of them.
type grower struct {
	*rand.Rand
	job   nest.Job
	known map[[2]measure.Length]int
}

const step = measure.Inch / 8

// pick returns a random size from lo to hi, in steps.
func (g *grower) pick(lo, hi measure.Length) measure.Length {
	if hi <= lo {
		return lo
	}
	return lo + measure.Length(g.Int64N(int64((hi-lo)/step)+1))*step
}

func (g *grower) leaf(l, w measure.Length) *nest.Node {
	switch n := g.IntN(10); {
	case n < 2:
		return &nest.Node{Kind: nest.Waste, L: l, W: w}
	case n < 4:
		return &nest.Node{Kind: nest.Offcut, L: l, W: w}
	}
	key := [2]measure.Length{l, w}
	i, ok := g.known[key]
	if !ok {
		i = len(g.job.Parts)
		g.known[key] = i
		p := nest.Part{ID: "p" + strconv.Itoa(i), Material: "ply", L: l, W: w}
		if g.IntN(3) == 0 {
			p.Match = "m" + strconv.Itoa(g.IntN(3))
		}
		g.job.Parts = append(g.job.Parts, p)
	}
	g.job.Parts[i].Count++
	return &nest.Node{Kind: nest.Piece, L: l, W: w, Part: i}
}

// shopNode grows shop cuts in l by w.
func (g *grower) shopNode(l, w measure.Length, depth int) *nest.Node {
	if depth == 0 || g.IntN(5) == 0 || l < 6*measure.Inch || w < 6*measure.Inch {
		return g.leaf(l, w)
	}
	n := &nest.Node{Kind: nest.Cut, L: l, W: w, Dir: nest.Dir(g.IntN(2))}
	g.split(n, g.job.Kerf, 2*measure.Inch, func(l, w measure.Length, _, _ bool) *nest.Node {
		return g.shopNode(l, w, depth-1)
	})
	return n
}

// split fills n with kids along its axis. first and last tell a kid where it
// lies.
func (g *grower) split(n *nest.Node, kerf, least measure.Length, kid func(l, w measure.Length, first, last bool) *nest.Node) {
	size := n.L
	if n.Dir == nest.Y {
		size = n.W
	}
	var sizes []measure.Length
	same := g.pick(least, size/2)
	for want := 1 + g.IntN(4); want > 0 && size > 2*least+kerf; want-- {
		k := same
		if g.IntN(2) == 0 {
			k = g.pick(least, size-kerf-least)
		}
		if k > size-kerf-least {
			break
		}
		sizes = append(sizes, k)
		size -= k + kerf
	}
	if g.IntN(3) == 0 && size > kerf+least { // the last pass runs off the edge
		size -= g.pick(step, kerf)
	}
	sizes = append(sizes, size)
	for i, k := range sizes {
		l, w := k, n.W
		if n.Dir == nest.Y {
			l, w = n.L, k
		}
		n.Kids = append(n.Kids, kid(l, w, i == 0, i == len(sizes)-1))
	}
}

// storeNode grows store cuts, then rough pieces.
func (g *grower) storeNode(l, w measure.Length, depth int, rims [4]bool) *nest.Node {
	if depth == 0 || g.IntN(4) == 0 || l < 26*measure.Inch || w < 26*measure.Inch {
		if g.IntN(8) == 0 {
			return &nest.Node{Kind: nest.Waste, L: l, W: w}
		}
		lost := func(i int) measure.Length {
			if rims[i] {
				return g.job.Store.Trim
			}
			return g.job.FactoryTrim
		}
		core := g.shopNode(l-lost(0)-lost(1), w-lost(2)-lost(3), 4)
		return &nest.Node{Kind: nest.Trim, L: l, W: w, Core: core}
	}
	n := &nest.Node{Kind: nest.Cut, Tier: nest.StoreTier, L: l, W: w, Dir: nest.Dir(g.IntN(2))}
	g.split(n, g.job.Store.Kerf, 12*measure.Inch, func(kl, kw measure.Length, first, last bool) *nest.Node {
		r := rims
		lo, hi := low(n.Dir), high(n.Dir)
		r[lo] = r[lo] || !first
		if !last {
			r[hi] = true
		} else if n.Dir == nest.X && !g.fills(n, kl) || n.Dir == nest.Y && !g.fills(n, kw) {
			r[hi] = true // a store pass ran off the edge
		}
		return g.storeNode(kl, kw, depth-1, r)
	})
	return n
}

// fills reports whether a last kid of the given size ends at the edge of n.
func (g *grower) fills(n *nest.Node, last measure.Length) bool {
	total := last
	for _, k := range n.Kids {
		total += along(k, n.Dir) + g.job.Store.Kerf
	}
	return total == along(n, n.Dir)
}

// randomPlan returns a job and a plan for it that a search might not make,
// but that can be cut.
func randomPlan(seed uint64) (nest.Job, nest.Plan, []part.Line, []project.Saw) {
	g := &grower{Rand: rand.New(rand.NewPCG(seed, 1)), known: map[[2]measure.Length]int{}}
	g.job = nest.Job{
		Kerf:  step,
		Store: nest.Store{Cuts: -1, Kerf: step * measure.Length(1+g.IntN(2)), Trim: step * measure.Length(1+g.IntN(3))},
		Stock: []nest.Stock{
			{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Grain(g.IntN(3)), Price: 7200},
			{ID: "rest", Material: "ply", L: in("40"), W: in("30"), Count: 9, Grain: nest.Along, AtShop: true, Trim: step * measure.Length(g.IntN(3))},
		},
	}
	if g.IntN(3) == 0 {
		g.job.FactoryTrim = step
	}
	var plan nest.Plan
	for n := 1 + g.IntN(3); n > 0; n-- {
		if g.IntN(4) == 0 {
			t := 2 * g.job.Stock[1].Trim
			plan.Sheets = append(plan.Sheets, nest.Layout{Stock: 1, Root: g.shopNode(in("40")-t, in("30")-t, 4)})
		} else {
			plan.Sheets = append(plan.Sheets, nest.Layout{Stock: 0, Root: g.storeNode(in("96"), in("48"), 2, [4]bool{})})
		}
	}
	all := []project.Saw{
		{Name: "Table", Kind: "table", Rip: in("25"), Crosscut: in("12")},
		{Name: "Track", Kind: "track"},
		{Name: "Mitre", Kind: "mitre", Crosscut: in("9")},
		{Name: "Hand", Kind: "hand-held"},
	}
	var saws []project.Saw
	for _, s := range all {
		if g.IntN(2) == 0 {
			saws = append(saws, s)
		}
	}
	var lines []part.Line
	for i, p := range g.job.Parts {
		lines = append(lines, part.Line{Tag: part.Tag(i), Name: p.ID, Length: p.L, Width: p.W, Count: p.Count})
	}
	return g.job, plan, lines, saws
}

// TestRandomPlans cuts a thousand random plans with real rectangles: every
// prefix of the order can be done, what lies on the bench at the end is what
// the plan promised, and no order moves a fence more often than going sheet by
// sheet would.
func TestRandomPlans(t *testing.T) {
	var moves, naive, least, cuts int
	for seed := range uint64(1000) {
		job, plan, lines, saws := randomPlan(seed)
		s := Saw(job, plan, lines, saws, measure.Tape{})
		if s.Findings.Has(BadPlan) {
			t.Fatalf("seed %d: %v", seed, s.Findings)
		}
		outcome(t, job, plan, s)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
		if s.Moves > s.Naive || s.Moves < s.Settings {
			t.Errorf("seed %d: %d moves, %d sheet by sheet, %d settings", seed, s.Moves, s.Naive, s.Settings)
		}
		moves, naive, least, cuts = moves+s.Moves, naive+s.Naive, least+s.Settings, cuts+len(s.Shop)
		rules(t, s, saws)
	}
	t.Logf("%d cuts: %d moves, %d sheet by sheet, %d at least", cuts, moves, naive, least)
}

// rules checks what no cut may break, whatever the plan.
func rules(t *testing.T, s Steps, saws []project.Saw) {
	t.Helper()
	for _, c := range s.Shop {
		line := c.Piece.W
		if c.Dir != 0 {
			line = c.Piece.L
		}
		if c.SawIs == "table" && c.Guide == Fence && (line < c.Set || c.Set > in("25") || c.RideIs == RoughEdge) {
			t.Errorf("%s: %v of %s on the fence, blade at %v", c.ID, line, c.RideIs, c.Set)
		}
		// A stop may stand against a rough end: a straight edge across it
		// holds the piece square. A fence may not.
		if c.RideIs == RoughEdge && c.Guide == Fence && c.Saw != "" {
			t.Errorf("%s: a rough edge on the fence of the %s saw", c.ID, c.SawIs)
		}
		if c.SawIs == "mitre" && line > in("9") {
			t.Errorf("%s: %v wide at the mitre saw", c.ID, line)
		}
		if c.Saw == "" && len(saws) > 0 && !s.Findings.Has(NoSaw) && !s.Findings.Has(ShortOnFence) {
			t.Errorf("%s has no saw and no finding", c.ID)
		}
	}
	for _, c := range s.Store {
		if c.RideIs != FactoryEdge && !s.Findings.Has(StoreEdge) {
			t.Errorf("%s is measured from a %s", c.ID, c.RideIs)
		}
	}
	seen := map[string]bool{}
	for _, c := range append(append([]Cut(nil), s.Store...), s.Shop...) {
		if seen[c.ID] {
			t.Errorf("two cuts are called %s", c.ID)
		}
		seen[c.ID] = true
	}
}
