package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// A pattern is one way in which the store breaks a sheet down, or the whole
// sheet if it is not cut. Only its list of neighbours grows.
type pattern struct {
	tree   []flat // the sheet and all below it, each before its kids
	cuts   int
	leaves []box  // content of the pieces, in the order of the tree
	real   []Size // the pieces themselves
	area   float64
	sign   uint64     // digest of the content boxes
	near   []*pattern // neighbours: as many cuts and leaves, one cut elsewhere
}

// A block is a piece of the sheet in the store's tree, at its real size.
type block struct {
	l, w measure.Length
	dir  Dir
	kids []block // empty: a piece to carry home
	leaf int     // index in leaves, or -1 if it is waste
	e    edges   // which edges the store's saw made
}

// A flat is a block in a pattern's list: it has no pointer, so that the many
// patterns of a catalogue cost the garbage collector nothing.
type flat struct {
	l, w            measure.Length
	dir, leaf, kids int32
	e               edges
}

// flatten appends block b and all below it to f.
func (b *block) flatten(f []flat) []flat {
	f = append(f, flat{b.l, b.w, int32(b.dir), int32(b.leaf), int32(len(b.kids)), b.e})
	for i := range b.kids {
		f = b.kids[i].flatten(f)
	}
	return f
}

// edges tells rough edges from factory edges.
type edges struct{ left, right, bottom, top bool }

// A box is the usable rectangle of a piece, grown by one shop kerf.
type box struct{ w, h int32 }

// holds reports whether an l by w rectangle, kerf included, fits a leaf as it
// lies.
func (p *pattern) holds(l, w measure.Length) bool {
	for _, b := range p.leaves {
		if l <= measure.Length(b.w) && w <= measure.Length(b.h) {
			return true
		}
	}
	return false
}

// A yard makes patterns for one kind of stock.
type yard struct {
	job   *Job
	stock Stock
	// match: parts must match, and the store's edges are not trimmed. Then a
	// tick is kept off them, so that the fence sets every size.
	match bool
}

func newYard(job *Job, s Stock) yard {
	y := yard{job: job, stock: s}
	for i := range job.Parts {
		y.match = y.match || job.Parts[i].Match != "" && job.Store.Trim == 0 && !s.AtShop
	}
	return y
}

// finish turns a tree of sizes into a pattern: it finds the edges, the leaves
// and the number of cuts. ok is false if the store cannot do it.
func (y *yard) finish(root block) (p *pattern, ok bool) {
	p = new(pattern)
	return p, y.finishIn(p, &root)
}

// finishIn is finish in the memory of p.
func (y *yard) finishIn(p *pattern, root *block) bool {
	*p = pattern{tree: p.tree[:0], leaves: p.leaves[:0], real: p.real[:0]}
	if !y.walk(p, root) {
		return false
	}
	if lim := y.job.Store.Cuts; lim >= 0 && p.cuts > lim || y.stock.AtShop && p.cuts > 0 {
		return false
	}
	if len(p.leaves) == 0 {
		return false
	}
	p.tree = root.flatten(p.tree)
	p.sign = uint64(p.cuts)
	for _, b := range p.leaves {
		p.area += float64(b.w) * float64(b.h)
		z := (uint64(uint32(b.w))<<32 | uint64(uint32(b.h))) * 0x9e3779b97f4a7c15
		z = (z ^ z>>29) * 0xbf58476d1ce4e5b9
		p.sign += z ^ z>>32
	}
	return true
}

func (y *yard) walk(p *pattern, b *block) bool {
	s := y.job.Store
	if b.l <= 0 || b.w <= 0 {
		return false
	}
	if len(b.kids) == 0 {
		l, w := y.content(b)
		b.leaf = -1
		if l > 0 && w > 0 {
			if !y.carries(b.l, b.w) {
				return false
			}
			b.leaf = len(p.leaves)
			p.real = append(p.real, Size{b.l, b.w})
			p.leaves = append(p.leaves, box{int32(l + y.job.Kerf), int32(w + y.job.Kerf)})
		}
		return true
	}
	p.cuts += len(b.kids) - 1
	for i := range b.kids {
		kid := &b.kids[i]
		kid.e = b.e
		first, last := i == 0, i == len(b.kids)-1
		if b.dir == X {
			kid.e.left, kid.e.right = kid.e.left && first || !first, kid.e.right && last || !last
			if kid.l < s.Least {
				return false
			}
		} else {
			kid.e.bottom, kid.e.top = kid.e.bottom && first || !first, kid.e.top && last || !last
			if kid.w < s.Least {
				return false
			}
		}
		if !y.walk(p, kid) {
			return false
		}
	}
	return true
}

// content is the size of a piece after its edges are trimmed.
func (y *yard) content(b *block) (l, w measure.Length) {
	if y.stock.AtShop {
		return b.l, b.w
	}
	t := func(rough bool, e int) measure.Length {
		if rough {
			return y.job.Store.Trim
		}
		return y.job.EdgeOff(y.stock, e)
	}
	l = b.l - t(b.e.left, 0) - t(b.e.right, 1)
	w = b.w - t(b.e.bottom, 2) - t(b.e.top, 3)
	if b.e.right {
		l -= y.thin()
	}
	if b.e.top {
		w -= y.thin()
	}
	if y.match {
		if b.e.left || b.e.right {
			l--
		}
		if b.e.bottom || b.e.top {
			w--
		}
	}
	return l, w
}

// thin is what a far rough edge loses beyond its trim, so that parts on both
// sides of a store cut are a planning kerf apart even if the store's saw is
// thin and its edges are not trimmed.
func (y *yard) thin() measure.Length {
	return max(0, y.job.Kerf-y.job.Store.Kerf-2*y.job.Store.Trim)
}

// carries reports whether a piece fits the car.
func (y *yard) carries(l, w measure.Length) bool {
	if y.stock.AtShop || len(y.job.Car) == 0 {
		return true
	}
	return y.longest(w) >= l
}

// longest is how long a piece of width w may be to fit the car.
func (y *yard) longest(w measure.Length) measure.Length {
	if len(y.job.Car) == 0 {
		return 4 * MaxSide
	}
	var most measure.Length
	for _, c := range y.job.Car {
		if w <= c.W {
			most = max(most, c.L)
		}
		if w <= c.L {
			most = max(most, c.W)
		}
	}
	return most
}

// widest is the greatest width of a strip that can be cut into pieces that
// fit the car.
func (y *yard) widest() measure.Length {
	if len(y.job.Car) == 0 {
		return 4 * MaxSide
	}
	var most measure.Length
	for _, c := range y.job.Car {
		most = max(most, c.L, c.W)
	}
	return most
}

// row appends to sizes the fewest equal pieces no longer than most that make
// up size, with store kerfs between them. ok is false if it takes more than
// a hundred.
func (y *yard) row(sizes []measure.Length, size, most measure.Length) ([]measure.Length, bool) {
	k := y.job.Store.Kerf
	for n := measure.Length(1); n <= 100; n++ {
		rest := size - (n-1)*k
		if rest <= 0 {
			return sizes, false
		}
		s := (rest + n - 1) / n
		if s > most {
			continue
		}
		if even := y.round(s); even <= most && (n-1)*(even+k) < size {
			s = even
		}
		for range n - 1 {
			sizes = append(sizes, s)
		}
		return append(sizes, size-(n-1)*(s+k)), true
	}
	return sizes, false
}

// round returns s rounded up to what the store's scale shows.
func (y *yard) round(s measure.Length) measure.Length {
	step := y.step()
	return (s + step - 1) / step * step
}

// step is what the store's scale shows.
func (y *yard) step() measure.Length {
	step := y.job.Store.Step
	if step <= 0 {
		const sixteenth = measure.Inch / 16
		step = measure.MM
		if y.stock.L%sixteenth == 0 && y.stock.W%sixteenth == 0 {
			step = sixteenth
		}
	}
	return step
}

// lay makes the pattern that cuts strips along dir and each strip across into
// the given lengths.
func (y *yard) lay(dir Dir, strips []measure.Length, across func(width measure.Length) ([]measure.Length, bool)) (*pattern, bool) {
	l, w := usable(y.stock)
	span := w
	if dir == Y {
		span = l
	}
	piece := func(along, other measure.Length) block {
		if dir == X {
			return block{l: along, w: other}
		}
		return block{l: other, w: along}
	}
	root := block{l: l, w: w, dir: dir}
	for _, s := range strips {
		lens, ok := across(s)
		if !ok {
			return nil, false
		}
		b := piece(s, span)
		if len(lens) > 1 {
			b.dir = Y - dir
			for _, n := range lens {
				b.kids = append(b.kids, piece(s, n))
			}
		}
		root.kids = append(root.kids, b)
	}
	if len(root.kids) == 1 {
		root = root.kids[0]
	}
	return y.finish(root)
}

// plain lists the simplest patterns: the whole sheet if it fits, else equal
// pieces, strips first along either axis, for each rectangle of the car in
// either turn; fewest cuts first.
func (y *yard) plain() []*pattern {
	l, w := usable(y.stock)
	if l <= 0 || w <= 0 {
		return nil
	}
	if p, ok := y.finish(block{l: l, w: w}); ok {
		return []*pattern{p}
	}
	if y.job.Store.Cuts == 0 || y.stock.AtShop {
		return nil
	}
	var all []*pattern
	for _, dir := range []Dir{X, Y} {
		size, span := l, w
		if dir == Y {
			size, span = w, l
		}
		for _, c := range y.job.Car {
			for _, most := range []measure.Length{c.L, c.W} {
				strips, ok := y.row(nil, size, most)
				if !ok {
					continue
				}
				if p, ok := y.lay(dir, strips, func(s measure.Length) ([]measure.Length, bool) {
					return y.row(nil, span, y.longest(s))
				}); ok {
					all = addPattern(all, p)
				}
			}
		}
	}
	return all
}

// around makes the pattern with a piece that holds a pl by pw part as it
// lies, in a corner of the sheet, and the rest in equal pieces; nil if there
// is none.
func (y *yard) around(pl, pw measure.Length) *pattern {
	l, w := usable(y.stock)
	var best *pattern
	for _, dir := range []Dir{X, Y} {
		size, span, along, other := l, w, pl, pw
		if dir == Y {
			size, span, along, other = w, l, pw, pl
		}
		first := func(size, need, most measure.Length) ([]measure.Length, bool) {
			if size-2*y.job.FactoryTrim >= need && size <= most {
				return []measure.Length{size}, true
			}
			s := need + y.job.FactoryTrim + y.job.Store.Trim + y.thin()
			if y.match {
				s++
			}
			s = max(s, y.job.Store.Least)
			if even := y.round(s); even <= most {
				s = even
			}
			rest := size - s - y.job.Store.Kerf
			if s > most || rest <= 0 {
				return nil, false
			}
			return y.row([]measure.Length{s}, rest, most)
		}
		// A strip as wide as the sheet may be too wide to carry once it is
		// cut across; then it is cut to the part.
		strips, ok := first(size, along, y.widest())
		if ok && len(strips) == 1 && y.longest(size) < other {
			strips, ok = first(size, along, size-1)
		}
		if !ok {
			continue
		}
		n := 0
		p, ok := y.lay(dir, strips, func(s measure.Length) ([]measure.Length, bool) {
			n++
			if n == 1 {
				return first(span, other, y.longest(s))
			}
			return y.row(nil, span, y.longest(s))
		})
		if ok && (best == nil || p.cuts < best.cuts) {
			best = p
		}
	}
	return best
}

func addPattern(all []*pattern, p *pattern) []*pattern {
	for _, q := range all {
		if q.sign == p.sign && q.cuts == p.cuts {
			return all
		}
	}
	return slices.Insert(all, fewest(all, p.cuts), p)
}

// patternsOf lists the plain patterns of a stock.
func patternsOf(job Job, s Stock) []*pattern {
	y := newYard(&job, s)
	return y.plain()
}

// patternFor returns a pattern of stock s that holds a pl by pw part as it
// lies, or nil.
func patternFor(job Job, s Stock, pl, pw measure.Length) *pattern {
	y := newYard(&job, s)
	return y.around(pl, pw)
}
