package nest

// A building makes a draft sheet by sheet, each from the best of some attempts
// to lay strips of what is still to be placed. What lay badly in one draft is
// dearer in the next ("sequential value correction": Mukhacheva and others,
// "Method of sequential value correction for cutting stock problems", 2000).
type building struct {
	ways   *[2]stripes // for the leaf at hand: strips side by side along x, along y
	grains grains
	cur    draft
	plain  []int32 // value of a piece of each kind: its area
	worth  []int32 // the same, corrected
	at     int     // widths of the leaf at hand that have been valued
	tries  int     // attempts for it
	most   int     // attempts a sheet in this draft
	drafts int     // that are done
	offers offers  // for the sheet at hand
	there  []int32 // pieces for the leaf at hand

	sack    knapsack // of strips
	sums    front    // of rows
	picks   []option // for the strip at hand
	batches []batch  // of them
	spare   []int32  // pieces that are in no batch
	dice    *dice
	rows    []row    // of the attempt at hand
	ends    []int32  // of the attempt at hand: where each strip ends in rows
	left    []int32  // of the attempt at hand
	order   []int32  // widths of its strips
	top     struct { // the best attempt for the sheet at hand
		rows  []row
		ends  []int32
		way   int
		value int32
	}
}

const (
	manyPieces = 150 // from here on drafts are also built

	buildTries = 6  // attempts a sheet, in the first draft
	buildMost  = 24 // and in the last

	manyWidths = 500 // from here on some are passed over
	someWidths = 24  // that an attempt chooses from, or so
	buildCosts = 8   // an attempt counts for so many tries
	unsure     = 20  // a strip's value is understated by chance, by up to so many 1024ths
	twice      = 16  // and so much less is a second one of its width worth
)

// plain reports whether nobody cuts any stock before the shop does.
func (h *hunt) plain() bool {
	for i := range h.shelf {
		if p := h.shelf[i].pats; len(p) > 1 || len(p) == 1 && len(p[0].leaves) > 1 {
			return false
		}
	}
	return true
}

func (h *hunt) newBuilding() *building {
	n := len(h.kinds)
	b := &building{cur: h.blank(), plain: make([]int32, n), worth: make([]int32, n), left: make([]int32, n), most: buildTries, dice: &h.dice}
	for i := range h.kinds {
		b.plain[i] = int32(float64(h.kinds[i].area*h.unit) * sheetWorth)
	}
	copy(b.worth, b.plain)
	b.grains = h.newGrains()
	b.ways = &b.grains.ways[0]
	b.there, b.offers.spent = make([]int32, n), make([]bool, len(h.shelf))
	return b
}

// within has strips laid in a w by h rectangle.
func (b *building) within(w, h int32) {
	x, y := &b.ways[0], &b.ways[1]
	x.across.cells, x.long.cells = w/x.across.per, h/x.long.per
	y.across.cells, y.long.cells = h/y.across.per, w/y.long.per
}

// begin has strips laid from all pieces that are out.
func (b *building) begin() {
	copy(b.there, b.cur.out)
	b.top.value, b.at, b.tries = 0, 0, 0
}

// whole has strips laid on whole sheets of the one kind that is bought.
func (h *hunt) whole() {
	j, p := h.onlyOffer()
	h.building.ways = h.grained(int32(j))
	h.building.within(p.leaves[0].w, p.leaves[0].h)
}

// grained is how strips may lie on shelf j.
func (h *hunt) grained(j int32) *[2]stripes {
	g := &h.building.grains
	return &g.ways[g.of[j]]
}

// gcd is the greatest common divisor of two numbers above zero.
func gcd(a, b int32) int32 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// build does as much as n tries would and reports whether that has led to a
// new champion.
func (h *hunt) build(n int) bool {
	if h.building == nil {
		h.building = h.newBuilding()
	}
	b := h.building
	for n > 0 {
		if b.cur.area == 0 || b.cur.cost > h.champ.cost || !h.offered() {
			return h.built()
		}
		if b.at < len(b.ways[0].wide)+len(b.ways[1].wide) {
			h.valueNext()
			n--
			continue
		}
		if b.tries < b.offers.attempts {
			h.attempt(b.tries % 2)
			b.tries++
			n -= buildCosts
			continue
		}
		h.nextLeaf()
	}
	return false
}

// valueNext finds what a strip of the next width is worth. Of many widths it
// passes some over, by chance.
func (h *hunt) valueNext() {
	b := h.building
	all := len(b.ways[0].wide) + len(b.ways[1].wide)
	if over := all / manyWidths; over > 0 {
		for range min(h.dice.below(2*over+1), all-1-b.at) {
			_, w := b.nextWidth()
			w.value = 0
		}
	}
	s, w := b.nextWidth()
	w.value = 0
	if w.cells <= s.across.cells && b.there[s.opts[w.last].kind] > 0 {
		w.value = b.strip(s, w, b.there, false)
	}
}

// nextWidth is the next width, and its stripes.
func (b *building) nextWidth() (*stripes, *width) {
	s, i := &b.ways[0], b.at
	if i >= len(s.wide) {
		s, i = &b.ways[1], i-len(s.wide)
	}
	b.at++
	return s, &s.wide[i]
}

// attempt makes a sheet's worth of strips side by side along an axis: a
// knapsack chooses their widths by what they are worth each alone, then they
// are filled in random order. It is kept if it is the best so far.
func (h *hunt) attempt(way int) {
	b := h.building
	s := &b.ways[way]
	b.sack.clear(s.across.cells)
	b.order = b.order[:0]
	n := 0
	for i := range s.wide {
		if s.wide[i].value > 0 {
			n++
		}
	}
	for i := range s.wide {
		w := &s.wide[i]
		if w.value == 0 || h.dice.below(n) >= someWidths {
			continue
		}
		times := min(max(2, 2*someWidths/n), int(s.across.cells/w.cells)) // the fewer widths, the more of each
		for again := range times {
			if len(b.order) == 64 || again > 0 && times == 2 && !h.dice.oneIn(3) {
				break
			}
			less := int64(w.value) * int64(h.dice.below(unsure)+min(again, 1)*twice) / 1024
			b.sack.offer(len(b.order), w.cells, w.value-int32(less))
			b.order = append(b.order, int32(i))
		}
	}
	_, chosen := b.sack.most()
	k := 0
	for i, w := range b.order {
		if chosen>>i&1 != 0 {
			b.order[k] = w
			k++
		}
	}
	b.order = b.order[:k]
	for i := k - 1; i > 0; i-- {
		j := h.dice.below(i + 1)
		b.order[i], b.order[j] = b.order[j], b.order[i]
	}
	copy(b.left, b.there)
	b.rows, b.ends = b.rows[:0], b.ends[:0]
	var total int32
	for _, i := range b.order {
		total += b.strip(s, &s.wide[i], b.left, true)
		b.ends = append(b.ends, int32(len(b.rows)))
	}
	if total > b.top.value {
		b.top.value, b.top.way = total, way
		b.top.rows = append(b.top.rows[:0], b.rows...)
		b.top.ends = append(b.top.ends[:0], b.ends...)
	}
}

// layStrips puts the strips of the best attempt on a new sheet of the one kind
// that is bought.
func (h *hunt) layStrips() {
	h.start(&h.building.cur)
	j, p := h.onlyOffer()
	s := &h.pool[h.cand.sheets[h.open(int32(j), p)]]
	h.layIn(s, 0)
	h.settle()
	h.hold(&h.building.cur, &h.cand)
}

// layIn puts the strips of the best attempt in empty twig gap of s.
func (h *hunt) layIn(s *sheet, gap int32) {
	t := &h.building.top
	h.layRows(s, gap, t.rows, t.ends, t.way)
}

// layRows puts strips, side by side along axis way, in empty twig gap of s.
func (h *hunt) layRows(s *sheet, gap int32, all []row, ends []int32, way int) {
	dir := cutX
	if way == 1 {
		dir = cutY
	}
	var strip, from int32
	for _, end := range ends {
		rows := all[from:end]
		from = end
		var width int32
		for i, r := range rows {
			w := r.n * r.w
			if r.cell > 0 {
				w += rows[i+1].n * rows[i+1].w
			}
			width = max(width, w)
			h.cand.out[r.kind] -= r.n * r.times
		}
		if width == 0 {
			continue
		}
		was, own := gap, int32(-1)
		gap, strip = s.split(gap, width, dir)
		if strip != was {
			own = s.twigs[strip].up
		}
		for i := 0; i < len(rows); i++ {
			if rows[i].cell > 0 {
				strip = s.layPair(strip, rows[i], rows[i+1], dir)
				i++
				continue
			}
			strip = s.lay(strip, rows[i], cutX+cutY-dir)
		}
		if own >= 0 {
			s.merge(own)
		}
	}
}

// built ends a draft and begins another, with more patience. A whole one that
// is better becomes the champion; from one that is as good the climb goes on.
func (h *hunt) built() (better bool) {
	b, top := h.building, &h.champ
	if d := &b.cur; d.area == 0 {
		c := &h.climbs[cheaper]
		switch {
		case top.area > 0 || d.cost < top.cost || d.cost == top.cost && d.bought < top.bought:
			h.hold(top, d)
			h.reset(cheaper)
			better = true
		case d.cost == top.cost && c.on:
			h.aim(c, d, c.lim)
		}
		h.learn()
		if j := h.draftShelf(); j >= 0 && (b.offers.least == 0 || d.cost < b.offers.least) {
			b.offers.best, b.offers.least = j, d.cost
		}
	}
	b.most = min(4*b.most, buildMost)
	b.drafts++
	h.again()
	return better
}

// learn corrects the worth of pieces by the waste of the sheets that they lie
// on. The last sheet does not count: it is what happened to be left.
func (h *hunt) learn() {
	b := h.building
	lost := make([]float64, len(h.kinds))
	for _, id := range b.cur.sheets[:len(b.cur.sheets)-1] {
		s := &h.pool[id]
		waste := float64(h.shelf[s.shelf].area * h.unit)
		for i := range s.twigs {
			if k := s.twigs[i].what; k >= 0 {
				waste -= float64(h.kinds[k].area * h.unit)
			}
		}
		for i := range s.twigs {
			if k := s.twigs[i].what; k >= 0 {
				lost[k] += min(waste, 0.3)
			}
		}
	}
	for k, e := range lost {
		e /= float64(h.kinds[k].n)
		b.worth[k] = (b.worth[k] + b.plain[k] + int32(e*float64(b.plain[k]))) / 2
	}
}
