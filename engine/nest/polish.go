package nest

// A polish makes room on the sheets of a draft: part of a sheet after the
// other is laid afresh, with the pieces of a hoard of some sheets' worth to
// choose from, and what comes of it is kept if the hoard is worth no more.
// What lies in the hoard in more than its share grows dearer, so that the
// hoard stays a mixture; then it is laid, a sheet at a time, and the last
// ones by tries like those of a climb.
type polish struct {
	main   int   // the shelf of what is bought
	all    draft // the sheets outside the hoard, within limits
	last   climb // its cur is what is laid of the hoard; all's figures count
	goal   int   // sheets for everything
	out    int   // pieces in the hoard
	area   float64
	tried  float64 // area when it was last laid in vain
	wait   int     // windows until it is tried again
	ending int     // tries to come at laying it
	left   int     // windows to come in this stage
	long   int     // windows a stage
	dear   []float64
	bulk   []float64 // how much dearer a piece is for its size
	worth  []float64 // of a piece: its area, corrected
	rest   []int32   // for unite
}

const (
	polishCosts = 32 // a window counts for so many tries
	drafts      = 2  // of buildings, before the first polish
	leastGoal   = 8  // sheets below which there is no polish

	hoardMost   = 4    // sheets in the hoard, at first
	hoardLeast  = 1    // and when it is laid
	polishBegin = 500  // windows a stage, at first
	polishMost  = 4000 // and at last
	polishTries = 12   // attempts a window
	endTries    = 2000 // at laying the hoard
	endAgain    = 50   // windows until it is laid again, if it has not shrunk
	endShrink   = 0.003
	endRoom     = 0.03 // sheets that the hoard must leave empty
	endEasy     = 0.9  // and if it takes less of them it is laid at once
	endDear     = 0.05 // how much dearer it makes what is left over
)

// oneSize reports whether what is bought is of one kind, and nobody cuts any
// stock before the shop does.
func (h *hunt) oneSize() bool {
	j, p := h.onlyOffer()
	return p != nil && h.shelf[j].bought && h.plain()
}

// polishes reports whether there is a champion worth a polish.
func (h *hunt) polishes() bool {
	return h.polish.worth != nil || h.champ.area == 0 && h.champ.bought > leastGoal && h.building != nil && h.building.drafts >= drafts
}

// makeRoom does as much as n tries would and reports whether that has led to a
// new champion.
func (h *hunt) makeRoom(n int) bool {
	p := &h.polish
	if p.worth == nil {
		p.all, p.last.cur, p.last.ring = h.blank(), h.blank(), make([]score, ringLen)
		p.dear, p.worth = make([]float64, len(h.kinds)), make([]float64, len(h.kinds))
		p.long = polishBegin
		h.weighBulk()
		p.main, _ = h.onlyOffer()
		leaf := h.shelf[p.main].pats[0].leaves[0]
		h.whole()
		h.pairUp(p.main, 0, leaf.w, leaf.h)
		h.pairUp(p.main, 1, leaf.h, leaf.w)
		h.hold(&p.all, &h.champ)
		p.goal = h.champ.bought
	}
	if p.goal != h.champ.bought-1 {
		p.goal, p.left, p.ending = h.champ.bought-1, 0, 0
	}
	for n > 0 {
		if p.ending > 0 {
			n--
			p.ending--
			if h.try(&p.last) {
				h.unite(&p.last.cur)
				h.hold(&h.champ, &p.all)
				h.reset(cheaper)
				return true
			}
			if p.ending == 0 {
				h.miss()
			}
			continue
		}
		n -= polishCosts
		if p.left--; p.left < 0 {
			h.nextStage()
			continue
		}
		h.correct()
		if h.relay(int32(h.dice.below(len(p.all.sheets)))) {
			h.count()
		}
		q := p.goal - p.all.bought
		room := float64(float64(q) * h.shelf[p.main].area * h.unit)
		fits := p.area < endEasy*room || q == hoardLeast && p.area < room-endRoom
		if p.wait--; fits && (p.area < p.tried-endShrink || p.wait <= 0) {
			h.beginEnd()
		}
	}
	return false
}

// correct makes dearer what there is much of in the hoard.
func (h *hunt) correct() {
	p := &h.polish
	const step, keep = 0.0001, 0.98
	for i := range h.kinds {
		k := &h.kinds[i]
		want := float64(p.out) * float64(k.n) / float64(h.pieces)
		p.dear[i] = float64(keep*p.dear[i]) + float64(step*(float64(p.all.out[i])-want)/(1+want))
		p.worth[i] = k.area * h.unit * (1 + p.dear[i] + p.bulk[i])
	}
}

// weighBulk makes large pieces a little dearer than small ones: a hoard of
// small ones is easier to lay.
func (h *hunt) weighBulk() {
	p := &h.polish
	const most, least = 0.01, -0.01
	mean := 0.0
	for i := range h.kinds {
		mean += float64(float64(h.kinds[i].n) * h.kinds[i].area)
	}
	mean /= float64(h.pieces)
	p.bulk = make([]float64, len(h.kinds))
	for i := range h.kinds {
		p.bulk[i] = min(least+float64(most*h.kinds[i].area)/mean, most)
	}
}

// count finds how much there is in the hoard.
func (h *hunt) count() {
	p := &h.polish
	p.out, p.area = 0, 0
	for k, n := range p.all.out {
		p.out += int(n)
		p.area += float64(float64(n) * h.kinds[k].area * h.unit)
	}
}

// price gives b the worth of pieces, each a little more by chance.
func (h *hunt) price() {
	for i, v := range h.polish.worth {
		h.building.worth[i] = int32(v * sheetWorth * (1 + float64(h.dice.below(1024))/(50*1024)))
	}
}

// relay lays part of sheet i afresh and keeps that if it is worth as much. It
// reports whether it did.
func (h *hunt) relay(i int32) bool {
	p, b := &h.polish, h.building
	id := p.all.sheets[i]
	g, ok := h.uncover(id)
	if !ok {
		return false
	}
	gap := h.pool[h.cand.sheets[0]].twigs[g]
	h.hold(&b.cur, &h.cand)
	h.price()
	b.ways = h.grained(h.pool[id].shelf)
	b.within(gap.w, gap.h)
	b.begin()
	for b.at < len(b.ways[0].wide)+len(b.ways[1].wide) {
		h.valueNext()
	}
	for b.tries < polishTries {
		h.attempt(b.tries % 2)
		b.tries++
	}
	if b.top.value == 0 {
		return false
	}
	h.start(&b.cur)
	h.layIn(h.touch(0), g)
	h.refresh()
	h.local, h.blink, h.taste, h.even = false, oversight, taste(h.dice.below(int(tastes))), false
	h.collect()
	same := h.cand.limits
	h.recreate(&same)
	h.settle()
	more := 0.0
	for k, n := range h.cand.out {
		more += float64(float64(n-p.all.out[k]) * p.worth[k])
	}
	if more > 0 {
		return false
	}
	for _, now := range h.cand.sheets {
		h.pool[now].refs++
	}
	h.release(id)
	p.all.sheets[i] = h.cand.sheets[0]
	p.all.sheets = append(p.all.sheets, h.cand.sheets[1:]...) // what is at home for nothing
	copy(p.all.out, h.cand.out)
	copy(p.all.used, h.cand.used)
	p.all.limits, p.all.area = h.cand.limits, h.cand.area
	return true
}

// uncover makes a draft of sheet id alone in cand, takes part of it off and
// returns the twig that is empty then.
func (h *hunt) uncover(id int32) (g int32, ok bool) {
	h.only(id)
	s := h.touch(0)
	c := int32(0)
	if h.dice.oneIn(3) {
		c = int32(h.dice.below(len(s.twigs)))
	}
	if w := s.twigs[c].what; w != cutX && w != cutY {
		return 0, false
	}
	n := 0
	for k := s.twigs[c].kid; k >= 0; k = s.twigs[k].next {
		if s.twigs[k].what != empty {
			n++
		}
	}
	most := n
	if c > 0 {
		most-- // else there would be no telling what c has become
	}
	if most < 1 {
		return 0, false
	}
	for r := 1 + h.dice.below(most); r > 0; r-- {
		at := h.dice.below(n)
		k := s.twigs[c].kid
		for ; at > 0 || s.twigs[k].what == empty; k = s.twigs[k].next {
			if s.twigs[k].what != empty {
				at--
			}
		}
		s.remove(k, h.cand.out)
		n--
	}
	if n > 0 {
		return s.twigs[c].kid, true
	}
	return 0, true
}

// only makes cand a draft of one sheet of the polish, or of none (below zero),
// with the figures of all.
func (h *hunt) only(id int32) {
	all := &h.polish.all
	for _, i := range h.cand.sheets {
		h.release(i)
	}
	one := h.cand.sheets[:0]
	h.cand.copyFrom(all)
	h.cand.sheets, h.own, h.was = one, h.own[:0], h.was[:0]
	if id >= 0 {
		h.pool[id].refs++
		h.cand.sheets, h.own = append(one, id), append(h.own, false)
	}
}

// nextStage makes the hoard smaller by a sheet, or large again.
func (h *hunt) nextStage() {
	p, b := &h.polish, h.building
	if p.goal-p.all.bought > hoardLeast {
		p.left = p.long
		h.whole()
		h.correct()
		h.price()
		h.only(-1)
		h.hold(&b.cur, &h.cand)
		b.begin()
		for b.at < len(b.ways[0].wide)+len(b.ways[1].wide) {
			h.valueNext()
		}
		for b.tries < buildMost {
			h.attempt(b.tries % 2)
			b.tries++
		}
		if b.top.value > 0 {
			h.layStrips()
			h.unite(&b.cur)
		}
	} else {
		p.left = p.long
		p.long = min(2*p.long, polishMost)
		h.start(&p.all)
		for h.cand.bought > max(1, p.goal-hoardMost) {
			h.dropSheet(h.leastFull())
		}
		h.settle()
		h.hold(&p.all, &h.cand)
	}
	h.count()
	h.again()
	p.tried = p.area + 1
}

// again has the building begin a new draft.
func (h *hunt) again() {
	none := h.blank()
	b := h.building
	h.hold(&b.cur, &none)
	b.begin()
	b.offers.again()
}

// leastFull is the sheet of cand, of those bought, with the least on it.
func (h *hunt) leastFull() (at int32) {
	least := 2.0
	for i, id := range h.cand.sheets {
		if !h.shelf[h.pool[id].shelf].bought {
			continue
		}
		full := 0.0
		for _, t := range h.pool[id].twigs {
			if t.what >= 0 {
				full += float64(h.kinds[t.what].area * h.unit)
			}
		}
		if full < least {
			at, least = int32(i), full
		}
	}
	return at
}

// unite adds the sheets of d, a draft with the figures of all and its own, to
// all.
func (h *hunt) unite(d *draft) {
	p := &h.polish
	p.rest = append(p.rest[:0], p.all.sheets...)
	for _, id := range d.sheets {
		h.pool[id].refs++
	}
	p.all.copyFrom(d)
	p.all.sheets = append(p.all.sheets, p.rest...)
}

// miss makes dearer for a while what is left over after the last try to lay the
// hoard.
func (h *hunt) miss() {
	p := &h.polish
	for k, n := range p.last.cur.out {
		if n > 0 {
			p.dear[k] += endDear
		}
	}
}

// beginEnd begins to lay the hoard on what sheets the goal leaves.
func (h *hunt) beginEnd() {
	p := &h.polish
	p.tried, p.wait, p.ending = p.area, endAgain, endTries
	c := &p.last
	h.only(-1)
	h.settle()
	h.hold(&c.cur, &h.cand)
	c.lim = limits{cost: unlimited.cost, bought: p.goal, cuts: unlimited.cuts}
	c.now = h.rate(c)
	for i := range c.ring {
		c.ring[i] = c.now
	}
	c.at = 0
}
