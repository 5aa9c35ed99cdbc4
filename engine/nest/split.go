package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// A Split takes what a bad corner leaves of a stock as two pieces: the first cut
// runs along one of its edges right through, the second along the other.
type Split struct {
	Stock int // index in Job.Stock; it is AtShop, and there is one of it
	// Dir is the axis along which the first cut parts the stock.
	Dir Dir
	// Bad is how far the corner reaches into what can be used of the stock.
	Bad Size
	// Right, Low: it is at the high end of x, of y.
	Right, Low bool
}

// sizes are those of the stock in use, of its larger rest and of the other one.
func (s Split) sizes(job *Job) (all, rest, beside Size) {
	st := job.Stock[s.Stock]
	all = Size{st.L - job.EdgeOff(st, 0) - job.EdgeOff(st, 1), st.W - job.EdgeOff(st, 2) - job.EdgeOff(st, 3)}
	rest, beside = all, s.Bad
	l, w := all.L-s.Bad.L-job.Kerf, all.W-s.Bad.W-job.Kerf
	if s.Dir == X {
		rest.L, beside.W = l, w
	} else {
		rest.W, beside.L = w, l
	}
	return all, rest, beside
}

// Job is job with the two pieces instead of the stock, the second one last. It
// reports false if there are no two.
func (s Split) Job(job Job) (Job, bool) {
	if s.Bad.L <= 0 || s.Bad.W <= 0 {
		return job, false
	}
	_, rest, beside := s.sizes(&job)
	if min(rest.L, rest.W, beside.L, beside.W) <= 0 {
		return job, false
	}
	job.Stock = slices.Clone(job.Stock)
	st := &job.Stock[s.Stock]
	st.Trim, st.Off, st.L, st.W = 0, [4]measure.Length{}, rest.L, rest.W
	other := *st
	other.ID, other.L, other.W = st.ID+" beside", beside.L, beside.W
	job.Stock = append(job.Stock, other)
	return job, true
}

// Plan makes of a plan for [Split.Job] one for job.
func (s Split) Plan(job Job, p Plan) Plan {
	all, rest, beside := s.sizes(&job)
	b := build{job: &job, dists: map[measure.Length]uint32{}, keep: keepOf(&job)}
	var sheets []Layout
	var roots [2]*Node
	for _, sh := range p.Sheets {
		switch sh.Stock {
		case s.Stock:
			roots[0] = sh.Root
		case len(job.Stock):
			roots[1] = sh.Root
		default:
			sheets = append(sheets, sh)
		}
	}
	if roots[0] != nil || roots[1] != nil {
		for i, size := range [2]Size{rest, beside} {
			if roots[i] == nil {
				roots[i] = &Node{L: size.L, W: size.W}
				b.spare(roots[i])
			}
		}
		strip := &Node{Kind: Cut, Dir: Y, L: s.Bad.L, W: all.W}
		if s.Dir == Y {
			strip.Dir, strip.L, strip.W = X, all.L, s.Bad.W
		}
		root := &Node{Kind: Cut, Dir: s.Dir, L: all.L, W: all.W}
		pair := func(bad, good *Node, high bool) []*Node {
			if high {
				return []*Node{good, bad}
			}
			return []*Node{bad, good}
		}
		ends := [2]bool{s.Right, s.Low}
		strip.Kids = pair(&Node{L: s.Bad.L, W: s.Bad.W}, roots[1], ends[strip.Dir])
		if roots[1].Kind == Waste {
			strip.Kind, strip.Kids, strip.Dir = Waste, nil, X
		}
		root.Kids = pair(strip, roots[0], ends[s.Dir])
		sheets = append(sheets, Layout{s.Stock, root})
	}
	p.Sheets = sheets
	for _, sh := range sheets {
		b.grain = job.Stock[sh.Stock].Grain
		b.tally(sh.Root, false)
	}
	p.ShopCuts, p.Settings, p.Rest, p.Bought = b.plan.ShopCuts, b.settings(), 0, 0
	for _, sh := range sheets {
		if st := job.Stock[sh.Stock]; !st.AtShop || st.Price != 0 || st.Count < 0 {
			p.Bought++
		}
		p.Rest += restOf(sh.Root)
	}
	p.Reserved = held(&job, p)
	return p
}

// restOf is the value of the offcuts under n.
func restOf(n *Node) (rest int64) {
	if n.Kind == Offcut {
		return worth(n.L, n.W)
	}
	if n.Core != nil {
		return restOf(n.Core)
	}
	for _, k := range n.Kids {
		rest += restOf(k)
	}
	return rest
}
