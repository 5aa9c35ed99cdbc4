package nest

import (
	"sort"

	"cartwright/engine/measure"
)

// limits bound a solution: what it may cost, how many bought sheets and store
// cuts it may have.
type limits struct {
	cost   measure.Money
	bought int
	cuts   int
}

// A draft is a solution while it is searched: sheets and what is on none.
type draft struct {
	sheets []int32 // indices in hunt.pool
	out    []int32 // pieces left out, by kind
	used   []int32 // sheets used, by shelf
	limits         // what it comes to
	area   float64 // weight of what is left out: the sum of the kinds' shares
	value  float64 // of what is empty, less that of free stock used
	sets   int     // fence settings; only known of champions and where they count
	rest   int64   // as Plan.Rest; known with sets
}

func (d *draft) copyFrom(o *draft) {
	d.sheets = append(d.sheets[:0], o.sheets...)
	d.out = append(d.out[:0], o.out...)
	d.used = append(d.used[:0], o.used...)
	d.limits, d.area, d.value, d.sets, d.rest = o.limits, o.area, o.value, o.sets, o.rest
}

// A hunt is the search for one material. All memory is kept and used again:
// a try does not allocate once the hunt has warmed up.
type hunt struct {
	*trade
	dice dice
	pool []sheet
	idle []int32 // free indices of pool

	champ  draft // the best so far
	cand   draft
	own    []bool // cand.sheets[i] is a copy of its own
	gaps   []gap  // of cand
	was    []worn // sheets of the draft that cand set out from
	todo   []want
	order  []int32 // kinds by area
	keep   Size    // the least offcut worth keeping
	pieces int     // to be placed
	tosses int     // a whole sheet is thrown out once in so many tries

	climbs   [goals]climb
	archive  archive
	building *building
	polish   polish

	outside struct { // the other materials of the plan
		cuts  int    // store cuts
		dists []dist // fence distances
	}
	rack   rack
	sketch sketch
	form   reshaper
	blink  int  // one place in so many is overlooked; 0: none
	skip   int  // places until the next one that is overlooked
	even   bool // settings count
	taste  taste
	local  bool // only sheets that were touched are filled
}

func newHunt(t *trade, seed uint64) *hunt {
	h := &hunt{trade: t, dice: dice{seed}, order: t.byArea(), keep: keepOf(t.job), tosses: wholeRuin}
	for i := range h.shelf {
		if pats := h.shelf[i].pats; len(pats) > 0 && pats[0].cuts > 0 {
			h.tosses = wholeCut
		}
	}
	for i := range h.kinds {
		h.pieces += h.kinds[i].n
	}
	h.cand, h.champ = h.blank(), h.blank()
	for g := range h.climbs {
		c := &h.climbs[g]
		if c.cur, c.goal = h.blank(), goal(g); c.goal != neater && h.pieces < manyPieces {
			c.price = make([]float64, len(h.kinds))
			for k := range c.price {
				c.price[k] = 1
			}
		}
	}
	return h
}

// blank is a draft without sheets.
func (h *hunt) blank() draft {
	d := draft{out: make([]int32, len(h.kinds)), used: make([]int32, len(h.shelf))}
	for i, k := range h.kinds {
		d.out[i] = int32(k.n)
		d.area += float64(k.n) * k.share
	}
	return d
}

func (h *hunt) grab() int32 {
	if n := len(h.idle); n > 0 {
		i := h.idle[n-1]
		h.idle = h.idle[:n-1]
		h.pool[i].refs, h.pool[i].known = 1, false
		return i
	}
	h.pool = append(h.pool, sheet{refs: 1})
	return int32(len(h.pool) - 1)
}

func (h *hunt) release(i int32) {
	h.pool[i].refs--
	if h.pool[i].refs == 0 {
		h.idle = append(h.idle, i)
	}
}

// worn is a pattern of the draft that a try set out from.
type worn struct {
	shelf int32
	pat   *pattern
}

// hold makes d a copy of o that shares its sheets.
func (h *hunt) hold(d *draft, o *draft) {
	for _, i := range o.sheets {
		h.pool[i].refs++
	}
	for _, i := range d.sheets {
		h.release(i)
	}
	d.copyFrom(o)
}

// start makes cand a working copy of d.
func (h *hunt) start(d *draft) {
	h.hold(&h.cand, d)
	h.own, h.was = h.own[:0], h.was[:0]
	for _, id := range h.cand.sheets {
		h.own = append(h.own, false)
		h.was = append(h.was, worn{h.pool[id].shelf, h.pool[id].pat})
	}
}

// touch makes sheet i of cand its own copy and returns it.
func (h *hunt) touch(i int32) *sheet {
	old := h.cand.sheets[i]
	if h.own[i] || h.pool[old].refs == 1 {
		h.own[i], h.pool[old].known = true, false
		return &h.pool[old]
	}
	h.own[i] = true
	n := h.grab()
	h.pool[n].copyFrom(&h.pool[old])
	h.release(old)
	h.cand.sheets[i] = n
	return &h.pool[n]
}

// account adds (sign 1) or takes away (sign -1) what sheet s costs.
func (h *hunt) account(d *draft, s *sheet, sign int) {
	sh := &h.shelf[s.shelf]
	d.used[s.shelf] += int32(sign)
	before := h.extra(d.cuts)
	d.cuts += sign * s.pat.cuts
	d.cost += measure.Money(sign)*sh.price + h.extra(d.cuts) - before
	if sh.bought {
		d.bought += sign
	}
	d.value -= float64(sign) * sh.value
}

// extra is the price of so many store cuts on top of those of the other
// materials.
func (h *hunt) extra(cuts int) measure.Money {
	s := &h.job.Store
	over := func(n int) measure.Money { return measure.Money(max(n-s.FreeCuts, 0)) * s.Price }
	return over(cuts+h.outside.cuts) - over(h.outside.cuts)
}

// dropSheet takes sheet i off cand; its pieces are left out.
func (h *hunt) dropSheet(i int32) {
	s := h.touch(i)
	for r := range s.pat.leaves {
		h.cutDown(s, int32(r))
	}
	h.account(&h.cand, s, -1)
	h.release(h.cand.sheets[i])
	last := len(h.cand.sheets) - 1
	h.cand.sheets[i], h.own[i] = h.cand.sheets[last], h.own[last]
	h.cand.sheets, h.own = h.cand.sheets[:last], h.own[:last]
}

// cutDown removes twig i of s; its pieces are left out.
func (h *hunt) cutDown(s *sheet, i int32) {
	if s.twigs[i].what != empty {
		s.remove(i, h.cand.out)
	}
}

// open adds a sheet of shelf j with pattern p to cand and returns its index.
func (h *hunt) open(j int32, p *pattern) int32 {
	n := h.grab()
	s := &h.pool[n]
	s.reset(j, p)
	s.survey(h.trade)
	h.account(&h.cand, s, 1)
	h.cand.sheets = append(h.cand.sheets, n)
	h.own = append(h.own, true)
	return int32(len(h.cand.sheets) - 1)
}

// allows reports whether a sheet of shelf j with pattern p may be added
// within lim.
func (h *hunt) allows(lim *limits, j int32, p *pattern) bool {
	s := &h.shelf[j]
	d := &h.cand
	if s.count >= 0 && int(d.used[j]) >= s.count {
		return false
	}
	if s.bought && d.bought >= lim.bought || d.cuts+p.cuts > lim.cuts {
		return false
	}
	return d.cost+s.price+h.extra(d.cuts+p.cuts)-h.extra(d.cuts) <= lim.cost
}

// openFor opens a sheet with room for kind k within lim: half the time with a
// pattern of the draft at hand, else of the catalogue, by chance. It reports
// whether it did.
func (h *hunt) openFor(k int32, lim *limits) bool {
	if len(h.shelf) == 1 && len(h.shelf[0].pats) == 1 && h.shelf[0].pats[0].cuts == 0 {
		p := h.shelf[0].pats[0]
		if !h.allows(lim, 0, p) {
			return false
		}
		h.opened(h.open(0, p))
		return true
	}
	for range 6 {
		j := h.dice.below(len(h.shelf))
		pats := h.shelf[j].pats
		if len(pats) == 0 {
			continue
		}
		// Patterns with few cuts are few; each number of cuts has its chance.
		least := pats[0].cuts
		most := min(lim.cuts-h.cand.cuts, pats[len(pats)-1].cuts)
		if most < least {
			continue
		}
		p := pats[h.dice.below(fewest(pats, least+h.dice.below(most-least+1)))]
		if n := len(h.was); n > 0 && h.dice.oneIn(2) {
			w := &h.was[h.dice.below(n)]
			j, p = int(w.shelf), w.pat
		}
		if h.allows(lim, int32(j), p) && h.fitsPattern(k, int32(j), p) {
			h.opened(h.open(int32(j), p))
			return true
		}
	}
	n := 0
	var bj int32
	var bp *pattern
	for j := range h.shelf {
		for _, p := range h.shelf[j].pats {
			if !h.allows(lim, int32(j), p) {
				if len(h.shelf[j].pats) > 50 {
					break // fewest cuts first: the others need no less
				}
				continue
			}
			if !h.fitsPattern(k, int32(j), p) {
				continue
			}
			n++
			if h.dice.oneIn(n) {
				bj, bp = int32(j), p
			}
			if n > 50 {
				break
			}
		}
	}
	if n == 0 {
		return false
	}
	h.opened(h.open(bj, bp))
	return true
}

// fewest is how many of the patterns, which are in the order of their cuts,
// have at most so many.
func fewest(pats []*pattern, cuts int) int {
	return sort.Search(len(pats), func(i int) bool { return pats[i].cuts > cuts })
}

// opened adds the gaps of sheet i, which is new.
func (h *hunt) opened(i int32) {
	s := &h.pool[h.cand.sheets[i]]
	for _, g := range s.gaps {
		g.sheet = i
		h.come(g)
	}
}

// fitsPattern reports whether kind k has room on an empty sheet of shelf j
// with pattern p.
func (h *hunt) fitsPattern(k, j int32, p *pattern) bool {
	c := &h.kinds[k]
	lie := h.lie[int(k)*len(h.shelf)+int(j)]
	for _, b := range p.leaves {
		if lie&asGiven != 0 && c.w <= b.w && c.h <= b.h || lie&turned != 0 && c.h <= b.w && c.w <= b.h {
			return true
		}
	}
	return false
}

// settle surveys the sheets that cand changed, drops those that are empty and
// makes its figures exact.
func (h *hunt) settle() {
	d := &h.cand
	for i := len(d.sheets) - 1; i >= 0; i-- {
		if s := &h.pool[d.sheets[i]]; h.own[i] && s.items == 0 {
			h.dropSheet(int32(i))
		}
	}
	d.value = 0
	for i, id := range d.sheets {
		s := &h.pool[id]
		if h.own[i] {
			s.survey(h.trade)
		}
		d.value += s.value - h.shelf[s.shelf].value
	}
	d.area = 0
	for k, n := range d.out {
		if n > 0 {
			d.area += float64(float64(n) * h.kinds[k].share)
		}
	}
}
