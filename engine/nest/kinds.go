package nest

import (
	"cmp"
	"math"
	"slices"

	"cartwright/engine/measure"
)

// A kind is equal rectangles of one material: parts of one size and grain, or
// one chain. Sizes are grown by one kerf, so that cuts have no width.
type kind struct {
	w, h  int32 // along x and y as given, kerf included
	n     int   // how many
	area  float64
	share float64 // area in largest sheets, squared: a large piece left out is worse than its halves
	parts []int   // Job.Parts indices, once a piece; empty for a chain
	run   *run    // the chain
	late  uint8   // what of it is measured late if it lies as given: see [allLate]
}

// A shelf is one kind of stock of the material.
type shelf struct {
	stock  int // index in Job.Stock
	price  measure.Money
	count  int     // negative: as many as needed
	bought bool    // counts as a sheet
	apart  int     // store cuts it takes at least to bring all of one home
	loss   float64 // room that each cut less loses at least; 0: not reckoned yet
	pats   []*pattern
	known  signs // of pats, once they grow
	yard   yard
	area   float64
	value  float64 // of the whole stock if it is at home for nothing
}

// Ways a kind may lie on a shelf.
const (
	asGiven = 1 << iota
	turned
)

// A trade is the cutting problem of one material.
type trade struct {
	job      *Job
	kinds    []kind
	shelf    []shelf
	lie      []uint8 // ways kind i may lie on shelf j, at i*len(shelf)+j
	short    int     // the shortest side of any kind
	long     int     // the shortest long side of any kind
	unit     float64 // one over the area of the largest shelf
	lost     []int   // parts that fit nothing, once a piece
	floor    limits  // lower bounds of cost and sheets
	loose    int     // the least number of pieces that the store cuts; 0: unknown
	measured bool    // some parts are measured late
}

// trades splits a job into its materials, in the order of the first part.
func trades(job *Job) []*trade {
	var all []*trade
	var names []string
	var runs []string // chains done
	for i, q := range job.Parts {
		if q.Count <= 0 {
			continue
		}
		at := slices.Index(names, q.Material)
		if at < 0 {
			at = len(names)
			names = append(names, q.Material)
			all = append(all, &trade{job: job})
		}
		t := all[at]
		if !soundPart(q) {
			t.lose(i, q.Count)
			continue
		}
		if q.Chain == "" {
			t.add(q.L, q.W, q.Grain, i, q.Count)
			continue
		}
		if slices.Contains(runs, q.Chain) {
			continue
		}
		runs = append(runs, q.Chain)
		if r, ok := chainOf(*job, q.Chain); ok && r.l <= MaxSide && r.w <= MaxSide {
			late := job.lateRun(r.order)
			t.measured = t.measured || late != 0
			t.kinds = append(t.kinds, kind{w: int32(r.l + job.Kerf), h: int32(r.w + job.Kerf), n: 1, run: &r, late: late})
			continue
		}
		for j, c := range job.Parts {
			if c.Chain == q.Chain && c.Count > 0 {
				t.lose(j, c.Count)
			}
		}
	}
	for i, t := range all {
		t.stockUp(names[i])
	}
	return all
}

func (t *trade) lose(part, n int) {
	for range n {
		t.lost = append(t.lost, part)
	}
}

// add puts n pieces of a part to the kind of their size and grain. The grain
// is looked up in the part itself.
func (t *trade) add(l, w measure.Length, g Grain, part, n int) {
	k, late := t.job.Kerf, t.job.Parts[part].late(false)
	for i := range t.kinds {
		c := &t.kinds[i]
		if c.run == nil && c.w == int32(l+k) && c.h == int32(w+k) && t.job.Parts[c.parts[0]].Grain == g && c.late == late {
			c.n += n
			for range n {
				c.parts = append(c.parts, part)
			}
			return
		}
	}
	t.measured = t.measured || late != 0
	c := kind{w: int32(l + k), h: int32(w + k), n: n, late: late}
	for range n {
		c.parts = append(c.parts, part)
	}
	t.kinds = append(t.kinds, c)
}

func (t *trade) grain(c *kind) Grain {
	if c.run != nil {
		return c.run.grain
	}
	return t.job.Parts[c.parts[0]].Grain
}

// stockUp gathers the stock of the material, finds how each kind may lie on
// it and drops the kinds that fit nothing.
func (t *trade) stockUp(material string) {
	for i, s := range t.job.Stock {
		if s.Material != material || s.Count == 0 || !soundStock(s) {
			continue
		}
		y := newYard(t.job, s)
		sh := shelf{stock: i, price: s.Price, count: s.Count, pats: y.plain(), yard: y,
			bought: s.Price > 0 || s.Count < 0 || !s.AtShop}
		if l, w := usable(s); l > 0 && w > 0 {
			sh.area = float64(l+t.job.Kerf) * float64(w+t.job.Kerf)
			t.shelf = append(t.shelf, sh)
		}
	}
	var kept []kind
	for i := range t.kinds {
		c := t.kinds[i]
		c.area = float64(c.w) * float64(c.h)
		row := make([]uint8, len(t.shelf))
		fits := false
		for j := range t.shelf {
			row[j] = t.place(&c, j)
			fits = fits || row[j] != 0
		}
		if !fits {
			t.lost = append(t.lost, c.pieces()...)
			continue
		}
		kept = append(kept, c)
		t.lie = append(t.lie, row...)
	}
	t.kinds = kept
	t.short, t.long = math.MaxInt32, math.MaxInt32
	for _, c := range t.kinds {
		t.short = min(t.short, int(c.w), int(c.h))
		t.long = min(t.long, int(max(c.w, c.h)))
	}
	most := 1.0
	for i := range t.shelf {
		most = max(most, t.shelf[i].area)
	}
	t.unit = 1 / most
	for i := range t.kinds {
		k := &t.kinds[i]
		k.share = float64(k.area*t.unit) * (k.area * t.unit)
	}
	for i := range t.shelf {
		if s := &t.shelf[i]; !s.bought {
			s.value = power(s.area * t.unit)
		}
	}
}

// place finds how kind c may lie on shelf j, and sees to it that a pattern of
// the shelf has room for it if any can.
func (t *trade) place(c *kind, j int) (ways uint8) {
	s := &t.shelf[j]
	k := t.job.Kerf
	for _, rot := range turns(measure.Length(c.w), measure.Length(c.h), t.grain(c), s.yard.stock.Grain) {
		l, w, way := measure.Length(c.w), measure.Length(c.h), uint8(asGiven)
		if rot {
			l, w, way = w, l, turned
		}
		fits := slices.ContainsFunc(s.pats, func(p *pattern) bool { return p.holds(l, w) })
		if !fits && !s.yard.stock.AtShop {
			if p := s.yard.around(l-k, w-k); p != nil {
				fits = true
				s.pats = addPattern(s.pats, p)
			}
		}
		if fits {
			ways |= way
		}
	}
	return ways
}

// pieces lists the parts of a kind, once a piece.
func (c *kind) pieces() []int {
	if c.run != nil {
		return c.run.order
	}
	return c.parts
}

// power is a to the 5/4: the value of a leftover of area a. A large one is
// worth more than its halves.
func power(a float64) float64 { return a * math.Sqrt(math.Sqrt(a)) }

// useful reports whether any kind may fit an empty w by h rectangle, kerf
// included.
func (t *trade) useful(w, h int) bool {
	return w >= t.short && h >= t.short && (w >= t.long || h >= t.long)
}

// area is the area of an empty rectangle in largest sheets, or nothing if no
// kind fits it.
func (t *trade) area(w, h int) float64 {
	if w < t.short || h < t.short || w < t.long && h < t.long {
		return 0
	}
	return float64(w) * float64(h) * t.unit
}

// leftover is the value of an empty w by h rectangle, kerf included: nothing
// if no kind fits it.
func (t *trade) leftover(w, h int32) float64 { return power(t.area(int(w), int(h))) }

// A taste is how a try weighs what a place leaves empty. Different tries have
// different tastes, so that the same hole is not filled the same way for ever.
type taste int

const (
	likesArea    taste = iota // as leftover
	likesLarger               // area to the 3/2
	likesLargest              // area squared
	likesOne                  // area cubed: all in one piece
	likesAny                  // area to the 9/8
	likesLong                 // the longer side; from here on not by area
	likesWide                 // the shorter side
	tastes
)

// weight is what try h's taste makes of an empty w by d rectangle.
func (h *hunt) weight(w, d int) float64 {
	a := h.area(w, d)
	if a == 0 {
		return 0
	}
	switch h.taste {
	case likesLarger:
		return a * math.Sqrt(a)
	case likesLargest:
		return a * a
	case likesOne:
		return a * a * a
	case likesAny:
		return a * math.Sqrt(math.Sqrt(math.Sqrt(a)))
	case likesLong:
		return float64(max(w, d))
	case likesWide:
		return float64(min(w, d))
	}
	return power(a)
}

// byArea lists the kinds, the largest first.
func (t *trade) byArea() []int32 {
	order := make([]int32, len(t.kinds))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(t.kinds[b].area, t.kinds[a].area) })
	return order
}
