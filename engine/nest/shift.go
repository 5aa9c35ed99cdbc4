package nest

import "cartwright/engine/measure"

// nearPatterns is how many neighbours a pattern remembers.
const nearPatterns = 12

// shift makes a neighbour of the pattern of a random sheet of d: one store
// cut moves so that the piece on one side is just as large as what is on it
// needs, and the other side gets the rest.
func (h *hunt) shift(d *draft) {
	if len(d.sheets) == 0 {
		return
	}
	s := &h.pool[d.sheets[h.dice.below(len(d.sheets))]]
	p := s.pat
	if p.cuts == 0 {
		return
	}
	h.form.size(len(s.twigs))
	for i := range p.leaves {
		h.form.measure(s, int32(i))
	}
	h.sketch.blocks = h.sketch.blocks[:0]
	root := h.sketch.tree(p)
	y := &h.shelf[s.shelf].yard
	if !h.shiftIn(y, &root) {
		return
	}
	q := &h.sketch.pattern
	if !y.finishIn(q, &root) || q.sign == p.sign || len(q.leaves) != len(p.leaves) {
		return
	}
	for _, n := range p.near {
		if n.sign == q.sign {
			return
		}
	}
	if len(p.near) < nearPatterns {
		p.near = append(p.near, h.sketch.kept())
	} else {
		p.near[h.dice.below(nearPatterns)] = h.sketch.kept()
	}
}

// shiftIn moves one cut of block b, or of a block below it, by chance.
func (h *hunt) shiftIn(y *yard, b *block) bool {
	var below []int
	for i := range b.kids {
		if len(b.kids[i].kids) > 0 {
			below = append(below, i)
		}
	}
	if n := len(below); n > 0 && h.dice.oneIn(2) {
		return h.shiftIn(y, &b.kids[below[h.dice.below(n)]])
	}
	i := h.dice.below(len(b.kids) - 1)
	left, right := &b.kids[i], &b.kids[i+1]
	both := left.along(b.dir) + right.along(b.dir)
	var l measure.Length
	if h.dice.oneIn(2) {
		l = y.round(h.needs(y, left, b.dir))
	} else {
		l = both - y.round(h.needs(y, right, b.dir))
	}
	if l <= 0 || l >= both || l == left.along(b.dir) {
		return false
	}
	left.stretch(b.dir, l)
	right.stretch(b.dir, both-l)
	return true
}

// along is the block's size along dir.
func (b *block) along(dir Dir) measure.Length {
	if dir == X {
		return b.l
	}
	return b.w
}

// stretch gives block b a new size along dir; of kids along dir the last one
// takes the difference.
func (b *block) stretch(dir Dir, size measure.Length) {
	by := size - b.along(dir)
	if dir == X {
		b.l = size
	} else {
		b.w = size
	}
	for i := range b.kids {
		k := &b.kids[i]
		if b.dir != dir {
			k.stretch(dir, size)
		} else if i == len(b.kids)-1 {
			k.stretch(dir, k.along(dir)+by)
		}
	}
}

// needs is what block b needs along dir for what lies on its leaves, as the
// reshaper has measured it.
func (h *hunt) needs(y *yard, b *block, dir Dir) measure.Length {
	if len(b.kids) == 0 {
		if b.leaf < 0 {
			return 0
		}
		l, w := y.content(b)
		n, lost := measure.Length(h.form.needW[b.leaf]), b.l-l
		if dir == Y {
			n, lost = measure.Length(h.form.needH[b.leaf]), b.w-w
		}
		return max(n-h.job.Kerf, 0) + lost
	}
	var sum, most measure.Length
	for i := range b.kids {
		n := h.needs(y, &b.kids[i], dir)
		sum, most = sum+n, max(most, n)
	}
	if b.dir == dir {
		return sum + measure.Length(len(b.kids)-1)*y.job.Store.Kerf
	}
	return most
}

// moveCut replaces the pattern of sheet i of cand by a neighbour of it; trees
// that no longer fit are left out.
func (h *hunt) moveCut(i int32) {
	near := h.pool[h.cand.sheets[i]].pat.near
	if len(near) == 0 {
		return
	}
	q := near[h.dice.below(len(near))]
	n := h.grab()
	old := h.cand.sheets[i]
	h.form.lay(&h.pool[n], &h.pool[old], q, h.cand.out)
	h.release(old)
	h.cand.sheets[i], h.own[i] = n, true
}
