package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// Sizes of the catalogue of patterns of a shelf.
const (
	catalogue = 3000 // patterns at most
	perSlice  = 64   // samples a slice

	signPlaces = 1 << 13 // for the signs of a catalogue
)

// A sketch is the memory in which patterns are tried; only one that is wanted
// gets memory of its own.
type sketch struct {
	pattern pattern
	blocks  []block
}

// kids returns n blocks for the pattern that is tried.
func (k *sketch) kids(n int) []block {
	at := len(k.blocks)
	if at+n > cap(k.blocks) { // those handed out stay where they are
		k.blocks, at = make([]block, 0, 2*cap(k.blocks)+n+32), 0
	}
	k.blocks = k.blocks[:at+n]
	return k.blocks[at : at+n : at+n]
}

// tree is the tree of pattern p, in the memory of the sketch.
func (k *sketch) tree(p *pattern) block {
	b, _ := k.unfold(p.tree)
	return b
}

// unfold makes a block of the first of f and what is below it, and returns the
// rest.
func (k *sketch) unfold(f []flat) (block, []flat) {
	b := block{l: f[0].l, w: f[0].w, dir: Dir(f[0].dir), leaf: int(f[0].leaf), e: f[0].e}
	n := int(f[0].kids)
	f = f[1:]
	if n > 0 {
		b.kids = k.kids(n)
		for i := range b.kids {
			b.kids[i], f = k.unfold(f)
		}
	}
	return b, f
}

// kept is a copy of the pattern that was tried.
func (k *sketch) kept() *pattern {
	p := k.pattern
	p.tree, p.leaves, p.real = slices.Clone(p.tree), slices.Clone(p.leaves), slices.Clone(p.real)
	return &p
}

// A signs is a set of the signs of patterns.
type signs []uint64

// add adds z and reports whether it was not there yet.
func (s signs) add(z uint64) bool {
	z = max(z, 1) // 0 is an empty place
	mask := uint64(len(s) - 1)
	i := z & mask
	for ; s[i] != 0; i = (i + 1) & mask {
		if s[i] == z {
			return false
		}
	}
	s[i] = z
	return true
}

// grow adds random patterns to the shelves' catalogues, and neighbours to the
// patterns of d.
func (h *hunt) grow(d *draft) {
	for range 2 {
		h.shift(d)
	}
	for j := range h.shelf {
		s := &h.shelf[j]
		if s.yard.stock.AtShop || len(h.job.Car) == 0 || len(h.kinds) == 0 || len(s.pats) == 0 || len(s.pats) >= catalogue || s.pats[0].cuts == 0 {
			continue // nothing to cut, or nothing to choose, or enough
		}
		if s.known == nil {
			s.known = make(signs, signPlaces)
			for _, p := range s.pats {
				s.known.add(p.sign)
			}
		}
		for range perSlice {
			if len(s.pats) >= catalogue {
				break
			}
			if !h.sample(j) {
				continue
			}
			if p := &h.sketch.pattern; p.cuts <= s.pats[0].cuts+3 && s.known.add(p.sign) {
				s.pats = slices.Insert(s.pats, fewest(s.pats, p.cuts), h.sketch.kept())
			}
		}
	}
}

// sample tries a random pattern of shelf j in two or three stages: strips
// along one axis, each cut across, each of those cut along again. Their widths
// come from the car, from sums of the kinds' sizes and from equal shares. It
// reports whether there is one.
func (h *hunt) sample(j int) bool {
	y := &h.shelf[j].yard
	l, w := usable(y.stock)
	root := block{l: l, w: w}
	stages := 2
	if h.dice.oneIn(3) {
		stages = 3
	}
	h.sketch.blocks = h.sketch.blocks[:0]
	return h.breakDown(y, &root, Dir(h.dice.below(2)), stages) && y.finishIn(&h.sketch.pattern, &root)
}

// breakDown cuts block b at random, first along dir, in so many stages.
func (h *hunt) breakDown(y *yard, b *block, dir Dir, stages int) bool {
	size, span := b.along(dir), b.along(Y-dir)
	if y.carries(b.l, b.w) && stages < 3 && !h.dice.oneIn(8) {
		return true
	}
	most := size - 1
	switch stages {
	case 0:
		return y.carries(b.l, b.w)
	case 1:
		most = y.longest(span)
	case 2:
		most = y.widest()
	}
	var room [16]measure.Length
	sizes := h.split(y, room[:0], size, most)
	if sizes == nil {
		return false
	}
	if len(sizes) == 1 { // nothing to cut along this axis
		return h.breakDown(y, b, Y-dir, stages-1)
	}
	b.dir, b.kids = dir, h.sketch.kids(len(sizes))
	for i, s := range sizes {
		k := &b.kids[i]
		*k = block{l: s, w: b.w}
		if dir == Y {
			*k = block{l: b.l, w: s}
		}
		if !h.breakDown(y, k, Y-dir, stages-1) {
			return false
		}
	}
	return true
}

// split appends to sizes a random way to cut size into pieces no longer than
// most. It returns nil if it finds none.
func (h *hunt) split(y *yard, sizes []measure.Length, size, most measure.Length) []measure.Length {
	k := y.job.Store.Kerf
	rest := size
	var room [16]measure.Length
	far := room[:0] // pieces from the far end
	for n := 0; ; n++ {
		if n > 12 {
			return nil
		}
		if rest <= most && (n > 0 || h.dice.oneIn(3)) && !h.dice.oneIn(8) {
			sizes = append(sizes, rest)
			break
		}
		var s measure.Length
		rough := measure.Length(2)
		if n == 0 {
			rough = 1
		}
		switch h.dice.below(8) {
		case 0:
			s = most
		case 1: // the other sides of the car
			c := y.job.Car[h.dice.below(len(y.job.Car))]
			s = c.L
			if h.dice.oneIn(2) {
				s = c.W
			}
		case 2: // an equal share of the rest
			n := measure.Length(2 + h.dice.below(3))
			s = y.round((rest - (n-1)*k + n - 1) / n)
		default:
			s = y.round(h.sum(rest) + rough*y.job.Store.Trim + (2-rough)*y.job.FactoryTrim + y.thin())
		}
		if s <= 0 || s > most || s+k >= rest || s < y.job.Store.Least {
			continue
		}
		rest -= s + k
		if h.dice.oneIn(2) {
			far = append(far, s)
		} else {
			sizes = append(sizes, s)
		}
	}
	for i := len(far) - 1; i >= 0; i-- {
		sizes = append(sizes, far[i])
	}
	return sizes
}

// sum is what one to five random kinds take side by side, kerfs between them
// included, in random turns.
func (h *hunt) sum(most measure.Length) measure.Length {
	var total measure.Length
	for range 1 + h.dice.below(5) {
		c := &h.kinds[h.dice.below(len(h.kinds))]
		n := c.w
		if h.dice.oneIn(2) {
			n = c.h
		}
		times := measure.Length(1)
		if c.n > 1 && h.dice.oneIn(2) {
			times = measure.Length(1 + h.dice.below(min(c.n, 6)))
		}
		if next := total + times*measure.Length(n); next <= most {
			total = next
		}
	}
	return total - h.job.Kerf
}
