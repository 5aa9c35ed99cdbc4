package nest

import (
	"cmp"
	"slices"
)

// A pair is two blocks of equal pieces that are about as long, side by side
// across a strip. A strip that is wide for each kind alone is filled so.
type pair struct {
	a, b  int32 // in stripes.blocks
	w     int32 // of both
	cells int32 // of the longer one's length
}

const (
	blockMost = 6      // pieces in a block of a pair
	pairLoss  = 30     // 1000ths of a pair that may be lost beside the shorter block
	pairsMost = 50_000 // along an axis
	pairSlack = 40     // a pair may be narrower than its strip by 1/40
	pairSome  = 40     // pairs that a strip is chosen from
)

// pairUp lists the pairs that may lie on shelf j in strips along an axis.
func (h *hunt) pairUp(j, axis int, span, long int32) {
	s := &h.grained(int32(j))[axis]
	s.blocks = s.blocks[:0]
	for i := range h.kinds {
		k := &h.kinds[i]
		for turn, size := range [2][2]int32{{k.w, k.h}, {k.h, k.w}} {
			if lie := h.lie[i*len(h.shelf)+j]; lie>>turn&1 == 0 || turn == 1 && k.w == k.h && lie&asGiven != 0 {
				continue
			}
			w, l, most := size[axis], size[1-axis], int32(min(blockMost, k.n))
			for n := int32(1); n <= most && n*w <= span; n++ {
				for m := int32(1); n*m <= most && m*l <= long; m++ {
					s.blocks = append(s.blocks, row{kind: int32(i), n: n, w: w, h: l, times: m})
				}
			}
		}
	}
	slices.SortStableFunc(s.blocks, func(a, b row) int { return cmp.Compare(a.h*a.times, b.h*b.times) })
	for loss := int64(pairLoss); !h.listPairs(s, span, loss); loss /= 2 {
	}
	slices.SortStableFunc(s.pairs, func(a, b pair) int { return cmp.Compare(a.w, b.w) })
	n := int32(0)
	for i := range s.wide {
		for int(n) < len(s.pairs) && s.pairs[n].w <= s.wide[i].w {
			n++
		}
		s.wide[i].lastPair = n - 1
	}
}

// listPairs lists those that lose no more than so many 1000ths, unless they are
// too many. Of those that lose nothing it lists so many.
func (h *hunt) listPairs(s *stripes, span int32, loss int64) bool {
	s.pairs = s.pairs[:0]
	for i, a := range s.blocks {
		l := a.h * a.times
		for j := i - 1; j >= 0; j-- {
			b := s.blocks[j]
			less := int64(l - b.h*b.times)
			if less*1000 > int64(l)*loss*2 {
				break
			}
			w := a.n*a.w + b.n*b.w
			if w > span || less*int64(b.n*b.w)*1000 > int64(l)*int64(w)*loss {
				continue
			}
			if a.kind == b.kind && (a.w == b.w || a.n*a.times+b.n*b.times > int32(h.kinds[a.kind].n)) {
				continue
			}
			if len(s.pairs) == pairsMost {
				return loss == 0
			}
			s.pairs = append(s.pairs, pair{int32(i), int32(j), w, s.long.of(l)})
		}
	}
	return true
}

// offerPairs adds some pairs, by chance, to what the strip of width w is chosen
// from. The pieces they take are not there for others.
func (b *building) offerPairs(s *stripes, w *width) {
	if len(s.pairs) == 0 {
		return
	}
	for i := w.lastPair; i >= 0 && len(b.batches) < pairSome; i-- {
		p := &s.pairs[i]
		if p.w < w.w-w.w/pairSlack {
			break
		}
		x, y := &s.blocks[p.a], &s.blocks[p.b]
		nx, ny := x.n*x.times, y.n*y.times
		if b.spare[x.kind] < nx || b.spare[y.kind] < ny || x.kind == y.kind && b.spare[x.kind] < nx+ny {
			continue
		}
		if p.cells > s.long.cells || b.dice.below(5) < 2 {
			continue
		}
		b.spare[x.kind] -= nx
		b.spare[y.kind] -= ny
		b.offer(^i, 1, p.cells, nx*b.worth[x.kind]+ny*b.worth[y.kind])
	}
}

// keepPair takes the pieces of pair p and lists its rows.
func (b *building) keepPair(s *stripes, p *pair, left []int32) {
	x, y := s.blocks[p.a], s.blocks[p.b]
	x.cell = x.h * x.times
	for _, r := range [2]row{x, y} {
		left[r.kind] -= r.n * r.times
		b.rows = append(b.rows, r)
	}
}

// layPair puts rows a and b side by side along dir at the near end of strip g,
// and returns what is left of the strip, or -1.
func (s *sheet) layPair(g int32, a, b row, dir int32) (rest int32) {
	rest, cell := s.split(g, a.cell, cutX+cutY-dir)
	for _, r := range [2]row{a, b} {
		was, side, own := cell, cell, int32(-1)
		cell, side = s.split(cell, r.n*r.w, dir)
		if side != was {
			own = s.twigs[side].up
		}
		s.lay(side, r, cutX+cutY-dir)
		if own >= 0 {
			s.merge(own)
		}
	}
	return rest
}
