package nest

import (
	"cmp"
	"slices"
)

// Many equal pieces are laid strip by strip: a knapsack fills a strip with
// pieces of about its width, another fills a sheet with strips (two- and
// three-stage patterns; Gilmore and Gomory, "Multistage cutting stock problems
// of two and more dimensions", Operations Research 13, 1965).

// A stripes is the ways to lay strips side by side along one axis of a sheet.
type stripes struct {
	long, across grid
	opts         []option // by width
	wide         []width
	blocks       []row  // that pairs are made of, by length
	pairs        []pair // by width
}

// A grid divides a length into cells for a knapsack. Sizes are rounded up to
// whole cells, which costs nothing if all are multiples of one measure.
type grid struct{ per, cells int32 }

func (g grid) of(size int32) int32 { return (size + g.per - 1) / g.per }

// An option is n pieces of a kind side by side across a strip, each w wide and
// h along the strip.
type option struct {
	kind, n, w, h int32
	cells         int32 // of h
	copies        int32 // that are left, in the strip at hand
}

// A width is a width of strips.
type width struct {
	w, cells int32
	last     int32 // the last of the options that are no wider
	lastPair int32 // the same of the pairs
	value    int32 // of the best strip of that width
}

// A row is an option as laid, so many times one after the other.
type row struct {
	kind, n, w, h, times int32
	cell                 int32 // length of the cell that it shares with the next row; 0: none
}

// A batch is some copies of one of the picks for a strip, or of pair ^pick.
type batch struct{ pick, copies int32 }

const (
	gridCells  = 4096    // at most
	sheetWorth = 1 << 28 // value of the area of a sheet
	sideBySide = 4       // pieces of a kind across a strip
	stripSlack = 12      // a piece may be narrower than its strip by 1/12
	batchMost  = 64      // batches that a strip is chosen from
)

// A knapsack finds what makes the greatest value within a size. Its memory is
// used again.
type knapsack struct {
	best []int32  // value by size
	mask []uint64 // what makes it
}

func (k *knapsack) clear(cells int32) {
	if k.best == nil {
		k.best, k.mask = make([]int32, gridCells+1), make([]uint64, gridCells+1)
	}
	k.best, k.mask = k.best[:cells+1], k.mask[:cells+1]
	clear(k.best)
	clear(k.mask)
}

// offer adds thing i, from 0 to 63.
func (k *knapsack) offer(i int, cells, value int32) {
	if int(cells) >= len(k.best) {
		return
	}
	m := uint64(1) << i
	hi, hm := k.best[cells:], k.mask[cells:]
	lo, lm := k.best[:len(hi)], k.mask[:len(hi)]
	hm, lm = hm[:len(hi)], lm[:len(hi)]
	for j := len(hi) - 1; j >= 0; j-- {
		if v := lo[j] + value; v > hi[j] {
			hi[j], hm[j] = v, lm[j]|m
		}
	}
}

// most is the greatest value, and what makes it.
func (k *knapsack) most() (value int32, mask uint64) {
	n := len(k.best) - 1
	return k.best[n], k.mask[n]
}

// stripes lists the ways to lay strips across an axis: span is the sheet's
// size along that axis, long the other one; measure and other divide all
// sizes of the kinds along them.
func (h *hunt) stripes(j, axis int, span, long, measure, other int32) (s stripes) {
	s.across.per = max(measure, (span+gridCells-1)/gridCells)
	s.across.cells = span / s.across.per
	s.long.per = max(other, (long+gridCells-1)/gridCells)
	s.long.cells = long / s.long.per
	for i := range h.kinds {
		k := &h.kinds[i]
		for turn, size := range [2][2]int32{{k.w, k.h}, {k.h, k.w}} {
			if lie := h.lie[i*len(h.shelf)+j]; lie>>turn&1 == 0 || turn == 1 && k.w == k.h && lie&asGiven != 0 {
				continue
			}
			w, l := size[axis], size[1-axis]
			for n := int32(1); n <= sideBySide && n*w <= span && int(n) <= k.n; n++ {
				s.opts = append(s.opts, option{kind: int32(i), n: n, w: w, h: l, cells: s.long.of(l)})
			}
		}
	}
	slices.SortStableFunc(s.opts, func(a, b option) int { return cmp.Compare(a.n*a.w, b.n*b.w) })
	for i, o := range s.opts {
		if o.n > 1 {
			continue
		}
		if n := len(s.wide); n == 0 || s.wide[n-1].w != o.w {
			s.wide = append(s.wide, width{w: o.w, cells: s.across.of(o.w)})
		}
		s.wide[len(s.wide)-1].last = int32(i)
	}
	return s
}

// strip finds the best strip of width w from the pieces that are left. If
// keep is set they are taken, and its rows are listed in b.rows.
func (b *building) strip(s *stripes, w *width, left []int32, keep bool) (value int32) {
	b.picks, b.batches = b.picks[:0], b.batches[:0]
	b.sums.clear(s.long.cells)
	b.spare = append(b.spare[:0], left...)
	b.offerPairs(s, w)
	for i := w.last; i >= 0 && len(b.batches) < batchMost; i-- {
		o := s.opts[i]
		if o.n*o.w < w.w-w.w/stripSlack {
			break
		}
		o.copies = min(b.spare[o.kind]/o.n, s.long.cells/o.cells)
		if o.copies <= 0 {
			continue
		}
		b.spare[o.kind] -= o.copies * o.n
		rest := o.copies
		for c := int32(1); rest > 0 && len(b.batches) < batchMost; c *= 2 {
			c = min(c, rest)
			rest -= c
			b.offer(int32(len(b.picks)), c, c*o.cells, c*o.n*b.worth[o.kind])
		}
		b.picks = append(b.picks, o)
	}
	value, mask := b.sums.most()
	for i := 0; keep && i < len(b.batches); i++ {
		if mask>>i&1 == 0 {
			continue
		}
		pick, times := b.batches[i].pick, b.batches[i].copies
		if pick < 0 {
			b.keepPair(s, &s.pairs[^pick], left)
			continue
		}
		o := &b.picks[pick]
		left[o.kind] -= o.n * times
		b.rows = append(b.rows, row{o.kind, o.n, o.w, o.h, times, 0})
	}
	return value
}

// offer adds a batch to what the strip at hand is chosen from.
func (b *building) offer(pick, copies, size, value int32) {
	b.sums.offer(len(b.batches), size, value)
	b.batches = append(b.batches, batch{pick, copies})
}

// split cuts a strip of the given width off the empty twig g along dir. It
// returns what is left of g, or -1, and the strip.
func (s *sheet) split(g, width, dir int32) (rest, strip int32) {
	w, h := s.twigs[g].w, s.twigs[g].h
	if dir == cutX && w == width || dir == cutY && h == width {
		return -1, g
	}
	up := s.twigs[g].up
	if up < 0 || s.twigs[up].what != dir {
		s.twigs[g].what = dir
		up = g
		g = s.take(w, h, empty, up)
		s.link(up, g)
	}
	other := cutY
	if dir == cutX {
		s.twigs[g].w -= width
		w = width
	} else {
		s.twigs[g].h -= width
		h, other = width, cutX
	}
	c := s.take(w, h, other, up)
	s.link(up, c)
	e := s.take(w, h, empty, c)
	s.link(c, e)
	return g, e
}

// lay puts row r at the near end of strip g, whose pieces lie one after the
// other along dir, and returns what is left of the strip, or -1.
func (s *sheet) lay(g int32, r row, dir int32) int32 {
	other := cutX + cutY - dir
	w, l := r.w, r.h
	if dir == cutX {
		w, l = l, w
	}
	for range r.times {
		t := s.twigs[g]
		rest, side := s.insert(g, r.kind, w, l, dir)
		if dir == cutY && t.h == l && t.w != w || dir == cutX && t.w == w && t.h != l {
			rest, side = -1, rest // it filled the strip's length: what is empty lies beside it
		}
		for range r.n - 1 {
			side, _ = s.insert(side, r.kind, w, l, other)
		}
		g = rest
	}
	return g
}

// merge makes cut node c its kid if it has but one that is not empty. What is
// cut along the same axis as the node above c goes up into that.
func (s *sheet) merge(c int32) {
	k := s.twigs[c].kid
	t := s.twigs[k]
	if t.what == empty || t.next >= 0 {
		return
	}
	s.twigs[c].what, s.twigs[c].kid = t.what, t.kid
	for i := t.kid; i >= 0; i = s.twigs[i].next {
		s.twigs[i].up = c
	}
	s.drop(k)
	if up := s.twigs[c].up; up >= 0 && s.twigs[up].what == t.what {
		s.unlink(c)
		s.adopt(up, c)
	}
}
