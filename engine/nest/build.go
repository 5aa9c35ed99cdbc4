package nest

import (
	"cmp"
	"slices"

	"cartwright/engine/measure"
)

// A build turns drafts into a plan.
type build struct {
	job   *Job
	plan  Plan
	dists map[measure.Length]uint32 // see [settings]
	next  []int                     // by kind of the hunt at hand: pieces handed out
	hunt  *hunt
	shelf int   // of the sheet at hand, in hunt.shelf
	grain Grain // of that sheet
	keep  Size
}

// assemble makes the plan of the hunts' best drafts.
func assemble(job *Job, hunts []*hunt) *Plan {
	b := build{job: job, dists: map[measure.Length]uint32{}, keep: keepOf(job)}
	for _, h := range hunts {
		b.add(h, &h.champ)
	}
	p := &b.plan
	p.Cost += job.Store.Price * measure.Money(max(p.StoreCuts-job.Store.FreeCuts, 0))
	p.Settings = b.settings()
	slices.Sort(p.Left)
	return p
}

// settings counts those of the trees tallied so far.
func (b *build) settings() (n int) {
	for _, on := range b.dists {
		n += settings(on)
	}
	return n
}

// keepOf is the least offcut worth keeping, the longer side first.
func keepOf(job *Job) Size {
	k := job.Keep
	if k.L <= 0 && k.W <= 0 {
		k = Size{300 * measure.MM, 100 * measure.MM}
	}
	return Size{max(k.L, k.W), min(k.L, k.W)}
}

// least reports whether an l by w rectangle is worth keeping, if s is the least
// that is.
func (s Size) least(l, w measure.Length) bool { return max(l, w) >= s.L && min(l, w) >= s.W }

func (b *build) add(h *hunt, d *draft) {
	b.hunt = h
	b.next = make([]int, len(h.kinds))
	type entry struct {
		id    int32
		stock int
	}
	var sheets []entry
	for _, id := range d.sheets {
		sheets = append(sheets, entry{id, h.shelf[h.pool[id].shelf].stock})
	}
	// Free stock last, then the fullest sheet first.
	slices.SortStableFunc(sheets, func(x, y entry) int {
		return cmp.Or(cmp.Compare(x.stock, y.stock),
			cmp.Compare(h.pool[x.id].value, h.pool[y.id].value))
	})
	for _, e := range sheets {
		s := &h.pool[e.id]
		sh := &h.shelf[s.shelf]
		b.plan.Cost += sh.price
		if sh.bought {
			b.plan.Bought++
		}
		b.plan.StoreCuts += s.pat.cuts
		b.shelf, b.grain = int(s.shelf), sh.yard.stock.Grain
		h.sketch.blocks = h.sketch.blocks[:0]
		tree := h.sketch.tree(s.pat)
		root := b.block(s, &tree)
		b.tally(root, false)
		b.plan.Sheets = append(b.plan.Sheets, Layout{sh.stock, root})
	}
	b.plan.Left = append(b.plan.Left, h.lost...)
	for k, n := range d.out {
		c := &h.kinds[k]
		if c.run != nil {
			if n > 0 {
				b.plan.Left = append(b.plan.Left, c.run.order...)
			}
			continue
		}
		b.plan.Left = append(b.plan.Left, c.parts[b.next[k]:]...)
	}
}

// block turns a store block, and the tree of its leaf, into nodes.
func (b *build) block(s *sheet, k *block) *Node {
	n := &Node{L: k.l, W: k.w}
	if len(k.kids) > 0 {
		n.Kind, n.Tier, n.Dir = Cut, StoreTier, k.dir
		for i := range k.kids {
			n.Kids = append(n.Kids, b.block(s, &k.kids[i]))
		}
		return n
	}
	if k.leaf < 0 {
		return n // waste
	}
	root := &s.twigs[k.leaf]
	if root.what == empty {
		b.spare(n)
		return n
	}
	l, w := measure.Length(root.w)-b.job.Kerf, measure.Length(root.h)-b.job.Kerf
	if l == k.l && w == k.w && !b.trimmed(s, k) {
		return b.twig(s, int32(k.leaf))
	}
	n.Kind = Trim
	n.Core = b.twig(s, int32(k.leaf))
	settle(n.Core, k.e)
	if st := b.hunt.shelf[s.shelf].yard.stock; !st.AtShop {
		for e, rough := range []bool{k.e.left, k.e.right, k.e.bottom, k.e.top} {
			if rough && b.job.Store.Trim > 0 || !rough && b.job.EdgeOff(st, e) > 0 {
				b.plan.Trims++
			}
		}
	}
	return n
}

// trimmed reports whether any edge of a store piece is trimmed.
func (b *build) trimmed(s *sheet, k *block) bool {
	l, w := b.hunt.shelf[s.shelf].yard.content(k)
	return l != k.l || w != k.w
}

// spare makes n an offcut or waste, by its size.
func (b *build) spare(n *Node) {
	if b.keep.least(n.L, n.W) {
		n.Kind = Offcut
		b.plan.Rest += worth(n.L, n.W)
	}
}

// twig turns twig i and all below it into nodes.
func (b *build) twig(s *sheet, i int32) *Node {
	t := &s.twigs[i]
	k := b.job.Kerf
	n := &Node{L: measure.Length(t.w) - k, W: measure.Length(t.h) - k}
	switch {
	case t.what == empty:
		b.spare(n)
		return n
	case t.what >= 0:
		return b.piece(n, t)
	}
	n.Kind, n.Dir = Cut, X
	if t.what == cutY {
		n.Dir = Y
	}
	var kids []int32
	spare := int32(-1)
	for c := t.kid; c >= 0; c = s.twigs[c].next {
		if s.twigs[c].what == empty {
			spare = c
		} else {
			kids = append(kids, c)
		}
	}
	size := func(c int32) int32 {
		if n.Dir == X {
			return s.twigs[c].w
		}
		return s.twigs[c].h
	}
	// Big cuts first; equal ones together; the empty rest last.
	slices.SortStableFunc(kids, func(x, y int32) int {
		return cmp.Or(cmp.Compare(size(y), size(x)), cmp.Compare(s.twigs[y].what, s.twigs[x].what))
	})
	for _, c := range kids {
		kid := b.twig(s, c)
		if kid.Kind == Cut && kid.Dir == n.Dir { // a chain along the same cut
			n.Kids = append(n.Kids, kid.Kids...)
			continue
		}
		n.Kids = append(n.Kids, kid)
	}
	if spare >= 0 && measure.Length(size(spare)) > k {
		n.Kids = append(n.Kids, b.twig(s, spare))
	}
	return n
}

// tally counts the shop cuts and the fence distances of the tree under n; late:
// n comes of a cut that waits.
func (b *build) tally(n *Node, late bool) {
	if n.Kind == Trim {
		b.tally(n.Core, late)
	}
	var sum measure.Length
	for _, kid := range n.Kids {
		late := late || n.Tier == ShopTier && b.job.Waits(kid, n.Dir)
		b.tally(kid, late)
		along := kid.L
		if n.Dir == Y {
			along = kid.W
		}
		l, w := n.L-sum, n.W // what is left of n
		if n.Dir == Y {
			l, w = n.L, n.W-sum
		}
		sum += along + b.job.Kerf
		if n.Tier == ShopTier && !spare(kid) {
			b.dists[along] |= b.job.asks(b.job.Saws.takes(l, w, along, n.Dir, b.grain), late)
		}
	}
	if n.Kind == Cut && n.Tier == ShopTier {
		b.plan.ShopCuts += len(n.Kids) - 1
		if n.Dir == X && sum-b.job.Kerf < n.L || n.Dir == Y && sum-b.job.Kerf < n.W {
			b.plan.ShopCuts++ // the last pass runs off the edge
		}
	}
}

// piece makes n the next piece of the twig's kind, or its whole chain.
func (b *build) piece(n *Node, t *twig) *Node {
	c := &b.hunt.kinds[t.what]
	rot := b.hunt.rotated(t, b.shelf)
	if c.run == nil {
		n.Kind, n.Part, n.Rot = Piece, c.parts[b.next[t.what]], rot
		b.next[t.what]++
		return n
	}
	n.Kind, n.Dir = Cut, X
	if c.run.alongW != rot {
		n.Dir = Y
	}
	for _, i := range c.run.order {
		q := b.job.Parts[i]
		kid := &Node{Kind: Piece, L: q.L, W: q.W, Part: i, Rot: rot}
		if rot {
			kid.L, kid.W = q.W, q.L
		}
		n.Kids = append(n.Kids, kid)
	}
	if len(n.Kids) == 1 {
		return n.Kids[0]
	}
	return n
}

// rotated reports whether piece t lies on shelf j with its length along y.
func (h *hunt) rotated(t *twig, j int) bool {
	c := &h.kinds[t.what]
	if t.w == c.w && t.h == c.h && c.w == c.h { // a square lies as its grain must
		return h.lie[int(t.what)*len(h.shelf)+j] == turned
	}
	return t.w != c.w || t.h != c.h
}
