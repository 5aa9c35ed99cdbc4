package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// Rounded returns p with its store cuts moved to whole or half inches, or to
// whole centimetres where the store's scale is metric, as measured from the
// factory edge they are set from: each to the nearest such measure that both
// pieces beside it have room for. Nothing is lost by it but some of the rest:
// an offcut may be a little smaller. A piece that its parts fill may become a
// little larger: what is too much comes off with the rough edge. A cut that
// cannot move stays.
func Rounded(job Job, p Plan) Plan {
	r := rounder{job: &job, keep: keepOf(&job)}
	for i := range p.Sheets {
		s := p.Sheets[i].Stock
		if s < 0 || s >= len(job.Stock) || job.Stock[s].AtShop || p.Sheets[i].Root == nil {
			continue
		}
		y := yard{job: &job, stock: job.Stock[s]}
		if r.step = measure.CM; y.step()%measure.Inch64 == 0 {
			r.step = measure.Inch / 2
		}
		r.plan, r.sheet = p, i
		for r.moved = true; r.moved; { // one may make room for another
			r.moved = false
			r.cuts(r.plan.Sheets[i].Root, nil, edges{})
		}
		p = r.plan
	}
	return p
}

// A rounder moves the store cuts of one sheet of a plan, one after the other.
type rounder struct {
	job   *Job
	keep  Size
	step  measure.Length
	plan  Plan
	sheet int
	rest  int64 // what a move adds to the plan's rest
	moved bool
	// While a piece is stretched: it has rough edges, its parts lie at the high
	// edge, how many of its nodes have become larger than they need, and whether
	// any in the plan has.
	rough, low bool
	pads       int
	padded     bool
}

// cuts moves the store cuts of n and below. path leads there from the root; e
// are the edges that the store made.
func (r *rounder) cuts(n *Node, path []int, e edges) {
	if n.Kind != Cut || n.Tier != StoreTier {
		return
	}
	size, lo, hi := n.L, !e.left, !e.right
	if n.Dir == Y {
		size, lo, hi = n.W, !e.bottom, !e.top
	}
	kerf := r.job.Store.Kerf
	all := -kerf
	for _, k := range n.Kids {
		all += kerf + *k.along(n.Dir)
	}
	var at measure.Length // where kid i ends
	for i := range len(n.Kids) - 1 {
		if i > 0 {
			at += kerf
		}
		at += *r.node(path).Kids[i].along(n.Dir)
		set, sign := at, measure.Length(1)
		switch {
		case !lo && !hi:
			continue // it is set from no factory edge
		case !lo || hi && all == size && i > 0:
			set, sign = size-at-kerf, -1
		}
		d := set % r.step
		if d == 0 {
			continue
		}
		by := [2]measure.Length{-d, r.step - d}
		if r.step-d < d {
			by[0], by[1] = by[1], by[0]
		}
		for _, b := range by {
			if r.move(path, i, sign*b, !hi) {
				at += sign * b
				r.moved = true
				break
			}
		}
	}
	for i, k := range n.Kids {
		r.cuts(k, append(slices.Clip(path), i), e.kid(n, i))
	}
}

// node is the node at the end of path, in the plan as it is now.
func (r *rounder) node(path []int) *Node {
	n := r.plan.Sheets[r.sheet].Root
	for _, i := range path {
		n = n.Kids[i]
	}
	return n
}

// move makes kid i larger by by and the next one smaller, if the plan is then
// as good. high: the store made the high edge of them all.
func (r *rounder) move(path []int, i int, by measure.Length, high bool) bool {
	was := r.plan
	r.plan.Sheets = slices.Clone(was.Sheets)
	r.plan.Sheets[r.sheet].Root = copied(was.Sheets[r.sheet].Root)
	n := r.node(path)
	r.rest, r.low, r.padded = 0, false, false
	if r.stretch(n.Kids[i], n.Dir, by) {
		r.low = i+2 == len(n.Kids) && !high
		if r.stretch(n.Kids[i+1], n.Dir, -by) {
			r.plan.Rest += r.rest
			if r.padded {
				r.count()
			}
			if len(Verify(*r.job, r.plan)) == 0 {
				return true
			}
		}
	}
	r.plan = was
	return false
}

// stretch makes n larger by by along d: what is left over gives or takes it.
func (r *rounder) stretch(n *Node, d Dir, by measure.Length) bool {
	size := n.along(d)
	if *size+by <= 0 {
		return false
	}
	switch n.Kind {
	case Waste, Offcut:
		was := worth(n.L, n.W)
		*size += by
		if r.keep.least(n.L, n.W) != (n.Kind == Offcut) {
			return false
		}
		if n.Kind == Offcut {
			r.rest += worth(n.L, n.W) - was
		}
		return true
	case Trim:
		*size += by
		core, rest := copied(n.Core), r.rest
		r.pads, r.rough = 0, r.job.Store.Trim > 0
		ok := r.stretch(n.Core, d, by)
		if r.rough && by > 0 && (!ok || r.pads > 1) {
			n.Core, r.rest = core, rest
			ok = r.pad(core, d, by)
		}
		r.rough = false
		return ok
	case Piece:
		return r.rough && by > 0 && r.pad(n, d, by)
	case Cut:
		if n.Dir != d {
			*size += by
			for _, k := range n.Kids {
				if !r.stretch(k, d, by) {
					return false
				}
			}
			return true
		}
		for _, k := range n.Kids {
			if n.Tier == ShopTier && spare(k) {
				*size += by
				return r.stretch(k, d, by)
			}
		}
		return r.rough && by > 0 && r.pad(n, d, by)
	}
	return false
}

// pad makes n, of which nothing is left over along d, larger by by. The pass that
// takes it off takes the rough edge too, so it is none more; but there should
// not be several.
func (r *rounder) pad(n *Node, d Dir, by measure.Length) bool {
	if n.Kind != Cut || n.Dir != d {
		in := *n
		*n = Node{Kind: Cut, Dir: d, L: n.L, W: n.W, Kids: []*Node{&in}}
	}
	slack := *n.along(d) + r.job.Kerf
	for _, k := range n.Kids {
		slack -= *k.along(d) + r.job.Kerf
	}
	if slack == 0 {
		r.pads++
	}
	*n.along(d) += by
	r.padded = true
	if slack += by - r.job.Kerf; slack <= 0 { // the pass runs off the edge
		return true
	}
	over := &Node{L: n.L, W: n.W}
	*over.along(d) = slack
	if r.low {
		n.Kids = slices.Insert(n.Kids, 0, over)
	} else {
		n.Kids = append(n.Kids, over)
	}
	return !r.keep.least(over.L, over.W)
}

// count counts the plan's shop cuts and settings anew.
func (r *rounder) count() {
	b := build{job: r.job, dists: map[measure.Length]uint32{}}
	for _, sh := range r.plan.Sheets {
		b.grain = r.job.Stock[sh.Stock].Grain
		b.tally(sh.Root, false)
	}
	r.plan.ShopCuts, r.plan.Settings = b.plan.ShopCuts, b.settings()
}

// along is the size of n along d.
func (n *Node) along(d Dir) *measure.Length {
	if d == X {
		return &n.L
	}
	return &n.W
}

// copied is a copy of the tree under n.
func copied(n *Node) *Node {
	c := *n
	c.Kids = nil
	for _, k := range n.Kids {
		c.Kids = append(c.Kids, copied(k))
	}
	if n.Core != nil {
		c.Core = copied(n.Core)
	}
	return &c
}
