package nest

// A climb is one chain of tries toward a goal: late acceptance (Burke and
// Bykov, "The late acceptance hill-climbing heuristic", EJOR 258, 2017) over
// drafts that may leave pieces out but never break the goal's limits.
// Ruin and recreate towards a goal: Gardeyn and Wauters, "A goal-driven ruin
// and recreate heuristic for the 2D variable-sized bin packing problem with
// guillotine constraints", EJOR 301, 2022.
type climb struct {
	goal goal
	lim  limits
	cur  draft
	now  score
	ring []score
	at   int
	on   bool
	runs int // tries since it set off
	long int // length at which the ring is cut back
	// aside lists sheets that are left as they are, for the sake of speed.
	// They are not in cur, but its figures count them.
	aside []int32
	price []float64 // by kind; nil: all are equal
}

// A goal is what a climb is after.
type goal int

const (
	cheaper goal = iota // less cost, or fewer sheets if they cost nothing
	fewer               // fewer sheets at the same cost
	calmer              // fewer store cuts at the same cost and sheets
	neater              // fewer fence settings, then a better rest
	goals
)

// A score orders drafts: less is better, the first figure first.
type score struct{ a, b float64 }

func (s score) over(o score) bool { return s.a > o.a || s.a == o.a && s.b > o.b }

const (
	ringLen   = 40   // of late acceptance, at first
	ringMost  = 2560 // after many fresh starts
	patience  = 500  // a climb sets off afresh after so many times its ring at most
	mostRuin  = 7    // nodes removed at once
	fewRuined = 4    // sheets they are removed from
	wholeRuin = 12   // a whole sheet is thrown out once in so many tries
	wholeCut  = 4    // where the store cuts it: another may be cut another way
	cutShift  = 4    // a store cut is moved once in so many tries
	oversight = 20   // a place is overlooked once in so many
)

// unlimited limits nothing.
var unlimited = limits{cost: 1 << 62, bought: 1 << 30, cuts: 1 << 30}

// try makes one try of climb c and reports whether the goal is reached; then
// c.cur is the better draft.
func (h *hunt) try(c *climb) bool {
	h.start(&c.cur)
	h.ruin()
	h.collect()
	h.blink, h.taste = oversight, taste(h.dice.below(int(tastes)))
	if h.even = c.goal == neater; h.even {
		h.inspect(&h.cand) // the distances that are there already
	}
	h.recreate(&c.lim)
	h.settle()
	s := h.rate(c)
	done := h.reached(c)
	c.runs++
	if done || !s.over(c.ring[c.at]) || !s.over(c.now) {
		h.hold(&c.cur, &h.cand)
		c.now = s
	}
	if c.price != nil && c.runs%(dearerAfter*len(c.ring)) == 0 {
		h.reprice(c)
	}
	if c.ring[c.at].over(c.now) {
		c.ring[c.at] = c.now
	}
	c.at++
	if c.at == len(c.ring) {
		c.at = 0
	}
	return done
}

// left is the number of pieces that are left out.
func (h *hunt) left(d *draft) (n int) {
	for k, out := range d.out {
		if c := &h.kinds[k]; c.run != nil {
			n += int(out) * len(c.run.order)
		} else {
			n += int(out)
		}
	}
	return n
}

// rate scores cand for climb c.
func (h *hunt) rate(c *climb) score {
	d := &h.cand
	if c.goal != neater {
		return score{h.priced(c, d), -d.value}
	}
	h.inspect(d)
	return score{d.area, float64(d.sets) - float64(settingWorth*d.value)}
}

// neaterPatience is after how many times its ring the climb for fewer settings
// sets off afresh, slack how many settings more it then puts up with.
const (
	neaterPatience = 20
	slack          = 1.5
)

// settingWorth is how many settings the value of a whole empty sheet makes
// up for, while the search goes on.
const settingWorth = 4.0

// reached reports whether cand, within the limits, is what c was after.
func (h *hunt) reached(c *climb) bool {
	d, b := &h.cand, &h.champ
	if b.area > 0 {
		was := h.left(b)
		now := h.left(d)
		return now < was || now == was && d.area < b.area*(1-1e-9)
	}
	if d.area > 0 {
		return false
	}
	if c.goal == neater {
		return d.sets < b.sets || d.sets == b.sets && d.rest > b.rest
	}
	return true
}

// ruin takes random nodes, and now and then a whole sheet, off cand.
func (h *hunt) ruin() {
	h.local = false
	n := 1 + h.dice.below(mostRuin)
	if len(h.cand.sheets) > 0 && h.dice.oneIn(h.tosses) {
		h.dropSheet(int32(h.dice.below(len(h.cand.sheets))))
		if len(h.shelf) > 1 && len(h.cand.sheets) > 0 && h.dice.oneIn(2) {
			h.dropSheet(int32(h.dice.below(len(h.cand.sheets)))) // room for another mix of stock
		}
		n /= 2
	}
	if len(h.cand.sheets) > 0 && h.dice.oneIn(cutShift) {
		h.moveCut(int32(h.dice.below(len(h.cand.sheets))))
	}
	if len(h.cand.sheets) > 0 {
		var few [fewRuined]int32
		for i := range few {
			few[i] = int32(h.dice.below(len(h.cand.sheets)))
		}
		for range n {
			h.prune(few[h.dice.below(len(few))])
		}
	}
	for i, id := range h.cand.sheets {
		if h.own[i] && h.dice.oneIn(2) {
			h.regroup(&h.pool[id])
		}
	}
	h.refresh()
}

// refresh makes the gaps of changed sheets true.
func (h *hunt) refresh() {
	for i, id := range h.cand.sheets {
		if h.own[i] {
			h.pool[id].list(h.trade)
		}
	}
}

// prune removes a random node of sheet i.
func (h *hunt) prune(i int32) {
	s := h.touch(i)
	for range 50 {
		n := int32(h.dice.below(len(s.twigs)))
		if w := s.twigs[n].what; w != empty && w != unused {
			h.cutDown(s, n)
			return
		}
	}
}

// aim sets climb c off from d, toward lim: sheets are thrown out, by chance,
// until the limits hold.
func (h *hunt) aim(c *climb, d *draft, lim limits) {
	h.start(d)
	c.lim = lim
	h.setAside(c)
	for len(h.cand.sheets) > 0 && (h.cand.cost > lim.cost || h.cand.bought > lim.bought || h.cand.cuts > lim.cuts) {
		h.dropSheet(h.emptiest())
	}
	h.refresh()
	h.settle()
	h.hold(&c.cur, &h.cand)
	h.setOff(c)
}

// setOff begins the tries of climb c at cand, which it holds.
func (h *hunt) setOff(c *climb) {
	c.now = h.rate(c)
	if c.ring == nil {
		c.ring, c.long = make([]score, ringLen, ringMost), 4*ringLen
	}
	for i := range c.ring {
		c.ring[i] = c.now
	}
	c.at, c.on, c.runs = 0, true, 0
}

// setAside leaves to climb c, if there are many pieces, the emptiest sheets of
// cand and some by chance.
func (h *hunt) setAside(c *climb) {
	for _, id := range c.aside {
		h.release(id)
	}
	c.aside = c.aside[:0]
	if h.pieces < manyPieces || c.goal == neater || c.lim == unlimited {
		return
	}
	all := h.cand.sheets
	n, kept := 0, 0
	for n < windowPieces && kept < len(all) {
		at := kept + h.dice.below(len(all)-kept)
		for i := kept; i < len(all) && n < windowPieces*3/4; i++ {
			if h.pool[all[i]].value > h.pool[all[at]].value {
				at = i
			}
		}
		all[kept], all[at] = all[at], all[kept]
		n += int(h.pool[all[kept]].items)
		kept++
	}
	c.aside = append(c.aside, all[kept:]...) // the references go along
	h.cand.sheets, h.own = all[:kept], h.own[:kept]
}

// windowPieces is how many pieces a climb moves if there are many.
const windowPieces = 80

// crown makes what climb c has reached the champion.
func (h *hunt) crown(c *climb) {
	h.hold(&h.champ, &c.cur)
	for _, id := range c.aside {
		h.pool[id].refs++
	}
	h.champ.sheets = append(h.champ.sheets, c.aside...)
}

// emptiest is the emptiest of three random sheets of cand.
func (h *hunt) emptiest() int32 {
	at := int32(h.dice.below(len(h.cand.sheets)))
	for range 2 {
		i := int32(h.dice.below(len(h.cand.sheets)))
		if h.pool[h.cand.sheets[i]].value > h.pool[h.cand.sheets[at]].value {
			at = i
		}
	}
	return at
}

// freshen sets climb c off again if it has got nowhere for long: with a ring
// twice as long, up to a length that itself doubles each time it is reached.
func (h *hunt) freshen(c *climb) {
	if c.goal == neater { // it never leaves its limits: it goes on from the best, less choosy for a while
		if c.runs < neaterPatience*len(c.ring) {
			return
		}
		h.hold(&c.cur, &h.champ)
		c.now = score{h.champ.area, float64(h.champ.sets) - float64(settingWorth*h.champ.value)}
		for i := range c.ring {
			c.ring[i] = score{c.now.a, c.now.b + slack}
		}
		c.at, c.runs = 0, 0
		return
	}
	if c.runs < min(patience, 20+5*h.pieces)*len(c.ring) {
		return
	}
	if len(c.ring) >= c.long {
		c.long = min(2*max(c.long, 2*ringLen), ringMost)
		c.ring = c.ring[:ringLen]
	} else {
		c.ring = c.ring[:2*len(c.ring)]
	}
	if c.goal == cheaper && len(h.shelf) == 1 && h.pieces < manyPieces {
		h.note(&c.cur)
		if len(h.archive.sheets) >= archiveLeast && h.dice.oneIn(2) {
			h.recombine(c)
			return
		}
	}
	h.aim(c, &h.champ, c.lim)
}
