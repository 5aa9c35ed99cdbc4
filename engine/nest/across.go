package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// across makes p tidier: where strips of a rough piece all end in spare wood at
// the same edge, one cut across the piece takes it off before they are parted.
// That is a pass less for each strip but one, and one large offcut instead of
// several. It is done wherever it costs no reserve and no setting. The trees of
// p stay as they are.
func across(job *Job, p Plan) Plan {
	if len(p.Sheets) > acrossMost {
		return p
	}
	p.Sheets = slices.Clone(p.Sheets)
	var pieces []*Node
	for i := range p.Sheets {
		if p.Sheets[i].Root == nil {
			return p
		}
		p.Sheets[i].Root = copied(p.Sheets[i].Root)
		pieces = byShop(pieces, p.Sheets[i].Root)
	}
	a := crosser{build{job: job, keep: keepOf(job)}}
	now := a.figures(p)
	for more := true; more; { // a setting that is there now may serve another piece
		more = false
		for _, n := range pieces {
			next := copied(n)
			if !a.cross(next) {
				continue
			}
			was := *n
			*n = *next
			if then := a.figures(p); then.better(now) {
				now, more = then, true
			} else {
				*n = was
			}
		}
	}
	p.Reserved, p.Settings, p.ShopCuts, p.Rest = now.reserved, now.settings, now.cuts, now.rest
	return p
}

// acrossMost is the greatest number of sheets that are gone through: every
// change is weighed by the settings of the whole plan.
const acrossMost = 12

// byShop adds the trees under n that the shop cuts.
func byShop(out []*Node, n *Node) []*Node {
	switch {
	case n.Kind == Trim:
		return append(out, n.Core)
	case n.Kind == Cut && n.Tier == StoreTier:
		for _, k := range n.Kids {
			out = byShop(out, k)
		}
		return out
	}
	return append(out, n)
}

// A crosser cuts across.
type crosser struct{ build }

// figures are what a change of the shop's cuts can change.
type figures struct {
	reserved, settings, cuts int
	rest                     int64
}

func (a *crosser) figures(p Plan) figures {
	a.dists, a.plan = map[measure.Length]uint32{}, Plan{}
	for _, sh := range p.Sheets {
		a.grain = a.job.Stock[sh.Stock].Grain
		a.tally(sh.Root, false)
	}
	f := figures{settings: a.settings(), cuts: a.plan.ShopCuts}
	for _, sh := range p.Sheets {
		f.rest += restOf(sh.Root)
	}
	f.reserved = held(a.job, p)
	return f
}

// better compares as [Plan.Better] does, but fewer passes go before what is left
// over.
func (f figures) better(g figures) bool {
	switch {
	case f.reserved != g.reserved:
		return f.reserved > g.reserved
	case f.settings != g.settings:
		return f.settings < g.settings
	case f.cuts != g.cuts:
		return f.cuts < g.cuts
	}
	return f.rest > g.rest
}

// cross lays the tree of a rough piece anew, if its strips allow it.
func (a *crosser) cross(n *Node) bool {
	if n.Kind != Cut {
		return false
	}
	o, kerf := Y-n.Dir, a.job.Kerf
	var low bool            // spare wood lies at the low end
	var used measure.Length // by the longest strip
	strips := 0
	for _, k := range n.Kids {
		if spare(k) {
			continue
		}
		if k.Kind != Cut || k.Dir != o {
			return false
		}
		first := spare(k.Kids[0])
		if first == spare(k.Kids[len(k.Kids)-1]) || strips > 0 && first != low {
			return false
		}
		low = first
		used = max(used, *k.along(o)-*k.over(low).along(o)-kerf)
		strips++
	}
	if strips < 2 {
		return false
	}
	over := &Node{L: n.L, W: n.W}
	*over.along(o) -= used + kerf
	a.spare(over)
	main := &Node{Kind: Cut, Dir: n.Dir, L: n.L, W: n.W}
	*main.along(o) = used
	for _, k := range n.Kids {
		if spare(k) {
			k.Kind, *k.along(o) = Waste, used
			a.spare(k)
		} else {
			k = a.shorten(k, o, low, used)
		}
		main.Kids = append(main.Kids, k)
	}
	n.Dir, n.Kids = o, []*Node{main, over}
	if low {
		slices.Reverse(n.Kids)
	}
	return true
}

// over is the spare wood at an end of n.
func (n *Node) over(low bool) *Node {
	if low {
		return n.Kids[0]
	}
	return n.Kids[len(n.Kids)-1]
}

// shorten makes strip n l long along o.
func (a *crosser) shorten(n *Node, o Dir, low bool, l measure.Length) *Node {
	over := n.over(low)
	left := *over.along(o) - (*n.along(o) - l)
	*n.along(o) = l
	if left > 0 {
		over.Kind, *over.along(o) = Waste, left
		a.spare(over)
		return n
	}
	if low {
		n.Kids = n.Kids[1:]
	} else {
		n.Kids = n.Kids[:len(n.Kids)-1]
	}
	if len(n.Kids) == 1 && left == -a.job.Kerf {
		return n.Kids[0]
	}
	return n
}
