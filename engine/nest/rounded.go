package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// Rounded returns p with its store cuts moved to whole or half inches, or to
// whole centimetres where the store's scale is metric, as measured from the
// factory edge they are set from: each to the nearest such measure that both
// pieces beside it have room for. Nothing is lost by it but some of the rest:
// an offcut may be a little smaller. A cut that cannot move stays.
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
			if r.move(path, i, sign*b) {
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
// as good.
func (r *rounder) move(path []int, i int, by measure.Length) bool {
	was := r.plan
	r.plan.Sheets = slices.Clone(was.Sheets)
	r.plan.Sheets[r.sheet].Root = copied(was.Sheets[r.sheet].Root)
	n := r.node(path)
	r.rest = 0
	if r.stretch(n.Kids[i], n.Dir, by) && r.stretch(n.Kids[i+1], n.Dir, -by) {
		r.plan.Rest += r.rest
		if len(Verify(*r.job, r.plan)) == 0 {
			return true
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
		if keeps := max(n.L, n.W) >= r.keep.L && min(n.L, n.W) >= r.keep.W; keeps != (n.Kind == Offcut) {
			return false
		}
		if n.Kind == Offcut {
			r.rest += worth(n.L, n.W) - was
		}
		return true
	case Trim:
		*size += by
		return r.stretch(n.Core, d, by)
	case Cut:
		*size += by
		if n.Dir != d {
			for _, k := range n.Kids {
				if !r.stretch(k, d, by) {
					return false
				}
			}
			return true
		}
		for _, k := range n.Kids {
			if n.Tier == ShopTier && (k.Kind == Waste || k.Kind == Offcut) {
				return r.stretch(k, d, by)
			}
		}
	}
	return false
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
