package nest

import "cartwright/engine/measure"

// Where stock is of several kinds, or the store cuts it, a building weighs
// some ways to open its next sheet: what is at home for nothing first, then of
// those tried the one that gives most for its price.

// grains are the ways to lay strips, which depend on how pieces may lie. On a
// smaller leaf than the largest less of the grid is used; see [building.within].
type grains struct {
	ways [][2]stripes
	of   []int32 // by shelf: index in ways
}

// An offer is strips for all leaves of a sheet.
type offer struct {
	shelf  int32
	pat    *pattern // nil: none
	value  int32
	leaves []filled
	ends   []int32 // where each strip ends in rows
	rows   []row
}

// A filled is the strips of a leaf: side by side along axis way, up to index
// end in ends and rows.
type filled struct {
	way        int
	ends, rows int
}

// offers are what is weighed for a sheet.
type offers struct {
	now      offer         // at hand
	top      offer         // the best one
	tried    int           // offers so far
	most     int           // and how many there are to be
	attempts int           // for a leaf
	one      int           // the shelf of all of them, or -1
	best     int           // the shelf that was the cheapest alone
	least    measure.Money // what it cost
	vain     int           // sheets for which none held anything
	spent    []bool        // by shelf at home: what is left in this draft has no use for it
}

const (
	fewOffers     = 3 // that are weighed if there is a choice
	leastAttempts = 4 // a leaf
	vainMost      = 5
	lastSheets    = 1.5 // in the end all shelves are looked at
)

func (o *offer) clear(shelf int32, pat *pattern) {
	o.shelf, o.pat, o.value = shelf, pat, 0
	o.leaves, o.ends, o.rows = o.leaves[:0], o.ends[:0], o.rows[:0]
}

// again forgets what was weighed.
func (o *offers) again() {
	o.now.pat, o.top.pat, o.tried, o.vain = nil, nil, 0, 0
	clear(o.spent)
}

// free reports whether the stock is at home for nothing.
func (s *shelf) free() bool { return s.price == 0 && !s.bought }

// newGrains lists the ways to lay strips on the largest leaf there is.
func (h *hunt) newGrains() (g grains) {
	var w, t int32
	for _, s := range h.shelf {
		for _, p := range s.pats {
			for _, b := range p.leaves {
				w, t = max(w, b.w), max(t, b.h)
			}
		}
		if len(s.pats) > 1 { // others may come, with larger leaves
			w, t = max(w, int32(s.yard.stock.L+h.job.Kerf)), max(t, int32(s.yard.stock.W+h.job.Kerf))
		}
	}
	for j := range h.shelf {
		if like := h.sameGrain(j); like < j {
			g.of = append(g.of, g.of[like])
			continue
		}
		mx, my := w, t
		for i := range h.kinds {
			k := &h.kinds[i]
			lie := h.lie[i*len(h.shelf)+j]
			if lie&asGiven != 0 {
				mx, my = gcd(mx, k.w), gcd(my, k.h)
			}
			if lie&turned != 0 {
				mx, my = gcd(mx, k.h), gcd(my, k.w)
			}
		}
		g.of = append(g.of, int32(len(g.ways)))
		g.ways = append(g.ways, [2]stripes{h.stripes(j, 0, w, t, mx, my), h.stripes(j, 1, t, w, my, mx)})
	}
	return g
}

// sameGrain is the first shelf on which all kinds may lie as on shelf j.
func (h *hunt) sameGrain(j int) int {
	n := len(h.shelf)
next:
	for o := range j {
		for i := range h.kinds {
			if h.lie[i*n+o] != h.lie[i*n+j] {
				continue next
			}
		}
		return o
	}
	return j
}

// offered sees to it that an offer is at hand and reports whether one is.
func (h *hunt) offered() bool {
	o := &h.building.offers
	if o.now.pat == nil && o.vain < vainMost {
		if o.tried == 0 && h.offerFree() {
			return true
		}
		if j, p := h.onlyOffer(); p != nil {
			o.most, o.attempts = 1, h.building.most
			if h.stocked(j) {
				h.beginOffer(int32(j), p)
			}
		} else {
			h.offerOne()
		}
	}
	return o.now.pat != nil
}

// offerFree begins an offer of what is at home, if there is any.
func (h *hunt) offerFree() bool {
	b := h.building
	o := &b.offers
	for j := range h.shelf {
		if s := &h.shelf[j]; s.free() && !o.spent[j] && h.stocked(j) && len(s.pats) > 0 {
			o.most, o.attempts = 1, b.most
			h.beginOffer(int32(j), s.pats[0])
			return true
		}
	}
	return false
}

// offerOne begins one of some offers of stock that is bought. Some
// drafts keep to one shelf as long as much is left.
func (h *hunt) offerOne() {
	b := h.building
	o := &b.offers
	if o.tried == 0 {
		o.one, o.most, o.attempts = -1, fewOffers, max(leastAttempts, b.most/fewOffers)
		if j := h.draftShelf(); j >= 0 && h.areaOut() > lastSheets {
			o.one = j
			if len(h.shelf[j].pats) == 1 {
				o.most, o.attempts = 1, b.most
			}
		}
	}
	for try := range 20 {
		j := o.one
		if j < 0 {
			j = h.dice.below(len(h.shelf))
		}
		pats := h.shelf[j].pats
		if len(pats) == 0 {
			continue
		}
		p := pats[h.dice.below(len(pats))]
		var like *sheet
		switch {
		case o.one >= 0 && o.most == 1:
		case o.tried == 0 && try == 0 && len(b.cur.sheets) > 0: // another one of the kind
			like = &h.pool[b.cur.sheets[len(b.cur.sheets)-1]]
		case h.dice.oneIn(2): // one with few cuts
			least := pats[0].cuts
			p = pats[h.dice.below(fewest(pats, least+h.dice.below(pats[len(pats)-1].cuts-least+1)))]
		case len(h.champ.sheets) > 0:
			like = &h.pool[h.champ.sheets[h.dice.below(len(h.champ.sheets))]]
		}
		if like != nil {
			j, p = int(like.shelf), like.pat
		}
		if !h.shelf[j].free() && h.stocked(j) {
			h.beginOffer(int32(j), p)
			return
		}
	}
}

// draftShelf is the shelf that the draft at hand keeps to, or -1: each in turn,
// then every other time the one that was the cheapest.
func (h *hunt) draftShelf() int {
	b := h.building
	j := b.drafts
	if n := len(h.shelf); j >= n {
		if j = -1; (b.drafts-n)%2 == 0 {
			j = b.offers.best
		}
	}
	if j >= 0 && h.shelf[j].free() {
		return -1
	}
	return j
}

// onlyOffer is the one pattern of stock that is bought, or nil if there are
// more.
func (h *hunt) onlyOffer() (at int, only *pattern) {
	for j := range h.shelf {
		s := &h.shelf[j]
		if s.free() {
			continue
		}
		if only != nil && len(s.pats) > 0 || len(s.pats) > 1 {
			return 0, nil
		}
		if len(s.pats) == 1 {
			at, only = j, s.pats[0]
		}
	}
	return at, only
}

// areaOut is the area of what the building has not laid, in largest sheets.
func (h *hunt) areaOut() (a float64) {
	for k, n := range h.building.cur.out {
		a += float64(float64(n) * h.kinds[k].area * h.unit)
	}
	return a
}

// stocked reports whether there is another sheet of shelf j for the building.
func (h *hunt) stocked(j int) bool {
	n := h.shelf[j].count
	return n < 0 || int(h.building.cur.used[j]) < n
}

func (h *hunt) beginOffer(shelf int32, p *pattern) {
	b := h.building
	b.offers.now.clear(shelf, p)
	copy(b.there, b.cur.out)
	h.beginLeaf()
}

// beginLeaf turns to the next leaf of the offer at hand.
func (h *hunt) beginLeaf() {
	b := h.building
	o := &b.offers.now
	leaf := o.pat.leaves[len(o.leaves)]
	b.ways = h.grained(o.shelf)
	b.within(leaf.w, leaf.h)
	b.top.value, b.at, b.tries = 0, 0, 0
}

// nextLeaf ends the leaf at hand, and the offer with the last one, and the
// sheet with the last offer.
func (h *hunt) nextLeaf() {
	b := h.building
	o := &b.offers
	if b.top.value > 0 {
		o.now.value += b.top.value
		o.now.rows = append(o.now.rows, b.top.rows...)
		o.now.ends = append(o.now.ends, b.top.ends...)
		for _, r := range b.top.rows {
			b.there[r.kind] -= r.n * r.times
		}
	}
	o.now.leaves = append(o.now.leaves, filled{b.top.way, len(o.now.ends), len(o.now.rows)})
	if len(o.now.leaves) < len(o.now.pat.leaves) {
		h.beginLeaf()
		return
	}
	if h.pays(&o.now) > h.pays(&o.top) {
		o.now, o.top = o.top, o.now
	}
	o.now.pat = nil
	if o.tried++; o.tried < o.most {
		return
	}
	o.tried = 0
	switch j := o.now.shelf; {
	case o.top.pat != nil:
		h.layOffer()
		o.vain = 0
	case h.shelf[j].free():
		o.spent[j] = true
	case o.most == 1:
		o.vain = vainMost
	default:
		o.vain++
	}
	o.top.clear(0, nil)
}

// pays is what an offer gives for its price.
func (h *hunt) pays(o *offer) float64 {
	if o.pat == nil || o.value == 0 {
		return 0
	}
	s := &h.shelf[o.shelf]
	cuts := h.building.cur.cuts
	price := s.price + h.extra(cuts+o.pat.cuts) - h.extra(cuts)
	return float64(o.value) / (float64(price) + float64(s.area*h.unit))
}

// layOffer puts the best offer on a new sheet.
func (h *hunt) layOffer() {
	b := h.building
	o := &b.offers.top
	h.start(&b.cur)
	s := &h.pool[h.cand.sheets[h.open(o.shelf, o.pat)]]
	ends, rows := 0, 0
	for i, f := range o.leaves {
		h.layRows(s, int32(i), o.rows[rows:f.rows], o.ends[ends:f.ends], f.way)
		ends, rows = f.ends, f.rows
	}
	h.settle()
	h.hold(&b.cur, &h.cand)
}
