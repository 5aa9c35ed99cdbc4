package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// Reserving returns job with every part as large as its reserve may want it:
// a plan for it, settled for job, holds every reserve. It reports whether there
// is any.
func Reserving(job Job) (larger Job, any bool) {
	larger = job
	larger.Parts = slices.Clone(job.Parts)
	for i := range larger.Parts {
		q := &larger.Parts[i]
		any = any || q.Count > 0 && q.Reserve != Size{}
		q.L, q.W = q.L+q.Reserve.L, q.W+q.Reserve.W
	}
	return larger, any
}

// Settled makes p, which a search has found for job or for what [Reserving]
// made of it, a plan of job as it is used: parts have their size, those with a
// reserve stand last in their strip, beside what is left over, what strips have
// left over comes off in one cut across, and store cuts are [Rounded]. It reports false if p is no plan of job then. Bound, AtLeast
// and Tries are taken over as they are.
func Settled(job Job, p Plan) (Plan, bool) {
	_, any := Reserving(job)
	tidy := func(p Plan) (Plan, bool) {
		q := p
		if any {
			s := settler{build: build{job: &job, dists: map[measure.Length]uint32{}, keep: keepOf(&job)}}
			q = s.plan(p)
		}
		if r := across(&job, q); len(Verify(job, r)) == 0 {
			return r, true
		}
		return q, len(Verify(job, q)) == 0
	}
	if q, ok := tidy(p); ok {
		p = q
	} else if p.Reserved = 0; len(Verify(job, p)) > 0 {
		return p, false
	}
	for range 4 { // each may give the other room
		p = Rounded(job, p)
		q, ok := tidy(p)
		if !ok {
			break
		}
		same := q.ShopCuts == p.ShopCuts && q.Settings == p.Settings && q.Rest == p.Rest
		if p = q; same {
			break
		}
	}
	p.Reserved = held(&job, p)
	return p, true
}

// Bounded is p, found for what [Reserving] made of the job of q, with the bounds
// of q.
func (p Plan) Bounded(q Plan) Plan {
	p.Bound, p.AtLeast = q.Bound, q.AtLeast
	p.Proven = len(p.Left) == 0 && p.Bought <= p.AtLeast
	if p.LeastCuts, p.LeastLeaving = 0, 0; slices.Equal(p.stocks(), q.stocks()) {
		p.LeastCuts, p.LeastLeaving = q.LeastCuts, q.LeastLeaving
	}
	return p
}

// stocks lists the stock of every sheet, in order.
func (p Plan) stocks() (all []int) {
	for i := range p.Sheets {
		all = append(all, p.Sheets[i].Stock)
	}
	slices.Sort(all)
	return all
}

// A settler makes the trees of a plan anew, cut by cut.
type settler struct {
	build
	high [2]bool // by Dir: parts of the piece at hand begin at its high edge, see [settle]
}

func (s *settler) plan(p Plan) Plan {
	p.Sheets = slices.Clone(p.Sheets)
	for i := range p.Sheets {
		if p.Sheets[i].Root == nil {
			return p
		}
		root := s.store(p.Sheets[i].Root, edges{})
		s.grain = s.job.Stock[p.Sheets[i].Stock].Grain
		s.tally(root, false)
		p.Sheets[i].Root = root
	}
	p.ShopCuts, p.Settings, p.Rest = s.build.plan.ShopCuts, s.settings(), s.build.plan.Rest
	p.Reserved = held(s.job, p)
	return p
}

// held counts the reserves that p holds.
func held(job *Job, p Plan) (sum int) {
	for _, n := range Reserved(*job, p) {
		sum += n
	}
	return sum
}

// store keeps what the store cuts as it is.
func (s *settler) store(n *Node, e edges) *Node {
	c := *n
	s.high = [2]bool{e.left && !e.right, e.bottom && !e.top}
	switch {
	case n.Kind == Trim:
		c.Core = s.fill(n.Core, n.Core.L, n.Core.W)
	case n.Kind == Cut && n.Tier == StoreTier:
		c.Kids = nil
		for i, k := range n.Kids {
			c.Kids = append(c.Kids, s.store(k, e.kid(n, i)))
		}
	default:
		return s.fill(n, n.L, n.W)
	}
	return &c
}

// fill cuts from a piece of l by w what n holds, in the order of n, each as
// large as it must be: the rest is left over.
func (s *settler) fill(n *Node, l, w measure.Length) *Node {
	c := &Node{Kind: n.Kind, L: l, W: w, Dir: n.Dir, Part: n.Part, Rot: n.Rot}
	switch n.Kind {
	case Piece:
		switch at := s.size(n); {
		case at.L < l:
			c.Dir = X
		case at.W < w:
			c.Dir = Y
		default:
			return c
		}
		c.Kind, c.Part, c.Rot = Cut, 0, false
		n = &Node{Kind: Cut, Dir: c.Dir, Kids: []*Node{n}}
	case Cut:
	default: // a whole piece that the store leaves over
		if n.Kind == Offcut {
			s.build.plan.Rest += worth(l, w)
		}
		return c
	}
	rest := *c.along(c.Dir)
	kids := n.Kids
	if s.high[c.Dir] {
		kids = slices.Clone(kids)
		slices.Reverse(kids)
	}
	for _, waits := range [2]bool{false, true} { // what waits comes last, beside what is left over
		for _, k := range kids {
			if spare(k) || s.job.Waits(k, c.Dir) != waits {
				continue
			}
			kl, kw := l, w
			if size := s.need(k, c.Dir, false); c.Dir == X {
				kl = size
			} else {
				kw = size
			}
			c.Kids = append(c.Kids, s.fill(k, kl, kw))
			rest -= *c.Kids[len(c.Kids)-1].along(c.Dir) + s.job.Kerf
		}
	}
	if len(c.Kids) == 1 && rest == -s.job.Kerf {
		return c.Kids[0]
	}
	if rest > 0 {
		over := &Node{L: rest, W: w}
		if c.Dir == Y {
			over.L, over.W = l, rest
		}
		s.spare(over)
		c.Kids = append(c.Kids, over)
	}
	if s.high[c.Dir] {
		slices.Reverse(c.Kids)
	}
	return c
}

// size is that of a piece, and how it may grow.
func (s *settler) size(n *Node) Size { return lying(s.job.Parts[n.Part], n.Rot) }

// lying is the size of a part as it lies on its stock.
func lying(q Part, rot bool) Size {
	if rot {
		return Size{q.W, q.L}
	}
	return Size{q.L, q.W}
}

// late reports whether n holds pieces, all of them with a reserve.
func (s *settler) late(n *Node) bool {
	pieces, all := 0, true
	s.pieces(n, func(p *Node) {
		pieces++
		all = all && s.job.Parts[p.Part].Reserve != Size{}
	})
	return all && pieces > 0
}

// pieces calls f for each piece of n.
func (s *settler) pieces(n *Node, f func(*Node)) {
	if n.Kind == Piece {
		f(n)
	}
	for _, k := range n.Kids {
		s.pieces(k, f)
	}
}

// need is what the pieces of n take along d, with their reserves if larger.
func (s *settler) need(n *Node, d Dir, larger bool) measure.Length {
	if n.Kind == Piece {
		at := s.size(n)
		if larger {
			q := s.job.Parts[n.Part]
			q.L, q.W = q.L+q.Reserve.L, q.W+q.Reserve.W
			at = lying(q, n.Rot)
		}
		if d == X {
			return at.L
		}
		return at.W
	}
	sum, most := -s.job.Kerf, measure.Length(0)
	for _, k := range n.Kids {
		if !spare(k) {
			size := s.need(k, d, larger)
			sum, most = sum+size+s.job.Kerf, max(most, size)
		}
	}
	if n.Dir == d {
		return max(sum, 0)
	}
	return most
}

// Holds reports whether all pieces of n have a reserve, and l by w is room for
// them with it.
func Holds(job Job, n *Node, l, w measure.Length) bool {
	s := settler{build: build{job: &job}}
	return s.late(n) && s.need(n, X, true) <= l && s.need(n, Y, true) <= w
}

// Reserved counts for each part the pieces whose reserve p holds.
func Reserved(job Job, p Plan) []int {
	s := settler{build: build{job: &job}}
	out := make([]int, len(job.Parts))
	for _, sh := range p.Sheets {
		if sh.Root != nil {
			s.reserved(sh.Root, out)
		}
	}
	return out
}

// reserved counts the pieces of n. Those last in a cut, with what is left over
// behind them, are one piece of wood until they are cut.
func (s *settler) reserved(n *Node, out []int) {
	if n.Core != nil {
		n = n.Core
	}
	late := s.late(n)
	if n.Kind == Cut && n.Tier == ShopTier && !late {
		kids := sawn(n)
		from := len(kids)
		for i := len(kids) - 1; i >= 0; i-- {
			if k := kids[i]; s.late(k) {
				from = i
			} else if from < len(kids) || !spare(k) {
				break
			}
		}
		rest := *n
		rest.Kids = kids[from:]
		for _, k := range kids[:from] {
			*rest.along(n.Dir) -= *k.along(n.Dir) + s.job.Kerf
			s.reserved(k, out)
		}
		if from == len(kids) {
			return
		}
		n, late = &rest, true
	}
	if late && (n.Kind != Cut || n.Tier == ShopTier) {
		if Holds(*s.job, n, n.L, n.W) {
			s.pieces(n, func(p *Node) { out[p.Part]++ })
		}
		return
	}
	for _, k := range n.Kids {
		s.reserved(k, out)
	}
}
