package nest

// first makes a first draft: each order of the kinds is tried once, without
// limits, and the best is kept.
func (h *hunt) first() {
	none := limits{cost: 1 << 62, bought: 1 << 30, cuts: 1 << 30}
	d := h.blank()
	h.start(&d)
	h.collect()
	h.blink = 0
	h.recreate(&none)
	h.settle()
	h.hold(&h.champ, &h.cand)
	h.reset()
}

// reset sets the climbs off from the champion.
func (h *hunt) reset() {
	lim := h.champ.limits
	c := &h.climbs[fewer]
	if h.champ.area > 0 {
		h.aim(c, &h.champ, limits{cost: 1 << 62, bought: 1 << 30, cuts: 1 << 30})
		return
	}
	if len(h.champ.sheets) == 0 {
		return
	}
	if lim.cost > 0 {
		lim.cost--
	} else {
		lim.bought--
	}
	lim.cuts = 1 << 30
	h.aim(c, &h.champ, lim)
}

// work makes n tries and reports whether the champion has changed.
func (h *hunt) work(n int) (better bool) {
	c := &h.climbs[fewer]
	for range n {
		if !c.on {
			continue
		}
		if h.try(c) {
			h.hold(&h.champ, &c.cur)
			h.reset()
			better = true
		}
	}
	return better
}
