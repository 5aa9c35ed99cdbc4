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
	mu   int // twice this less one is the most nodes removed at once
	on   bool
	// Goals beyond the limits: fewer settings than this, more rest.
	settings int
	rest     float64
}

// A goal is what a climb is after.
type goal int

const (
	fewer  goal = iota // less cost, or fewer sheets at the same cost
	calmer             // fewer store cuts at the same cost and sheets
	evener             // fewer fence settings
	neater             // a better rest
	goals
)

// A score orders drafts: less is better, the first figure first.
type score struct{ a, b float64 }

func (s score) over(o score) bool { return s.a > o.a || s.a == o.a && s.b > o.b }

const ringLen = 40

// try makes one try of climb c and reports whether the goal is reached; then
// c.cur is the better draft.
func (h *hunt) try(c *climb) bool {
	h.start(&c.cur)
	h.ruin(c)
	h.collect()
	h.blink = 20
	h.recreate(&c.lim)
	h.settle()
	s := h.rate(c)
	done := h.complete() && h.reached(c)
	if !done && s.over(c.ring[c.at]) && s.over(c.now) {
		h.next(c)
		return false
	}
	h.hold(&c.cur, &h.cand)
	c.now = s
	h.next(c)
	return done
}

func (h *hunt) next(c *climb) {
	if c.ring[c.at].over(c.now) {
		c.ring[c.at] = c.now
	}
	c.at++
	if c.at == len(c.ring) {
		c.at = 0
	}
}

// complete reports whether cand leaves nothing out.
func (h *hunt) complete() bool {
	for _, n := range h.cand.out {
		if n > 0 {
			return false
		}
	}
	return true
}

// rate scores cand for climb c.
func (h *hunt) rate(c *climb) score {
	d := &h.cand
	return score{d.area, -d.value}
}

// reached reports whether cand, complete and within the limits, is what c
// was after.
func (h *hunt) reached(c *climb) bool {
	return true
}

// ruin takes random nodes, and now and then a whole sheet, off cand.
func (h *hunt) ruin(c *climb) {
	n := 1 + h.dice.below(2*c.mu-1)
	if len(h.cand.sheets) > 0 && h.dice.oneIn(12) {
		h.dropSheet(int32(h.dice.below(len(h.cand.sheets))))
		n /= 2
	}
	for range n {
		if len(h.cand.sheets) == 0 {
			break
		}
		h.prune(int32(h.dice.below(len(h.cand.sheets))))
	}
	h.refresh()
}

// refresh makes the gaps of changed sheets and the value of cand true.
func (h *hunt) refresh() {
	h.cand.value = 0
	for i, id := range h.cand.sheets {
		s := &h.pool[id]
		if h.own[i] {
			s.survey(h.trade)
		}
		h.cand.value += s.value - h.shelf[s.shelf].value
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
	for len(h.cand.sheets) > 0 && (h.cand.cost > lim.cost || h.cand.bought > lim.bought || h.cand.cuts > lim.cuts) {
		h.dropSheet(int32(h.dice.below(len(h.cand.sheets))))
	}
	h.refresh()
	h.settle()
	h.hold(&c.cur, &h.cand)
	c.now = h.rate(c)
	if c.ring == nil {
		c.ring = make([]score, ringLen)
		c.mu = 4
	}
	for i := range c.ring {
		c.ring[i] = c.now
	}
	c.at, c.on = 0, true
}
