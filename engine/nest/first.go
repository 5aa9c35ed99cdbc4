package nest

import "cmp"

// first makes a first draft, without limits and without chance in the choice
// of places. Few pieces are laid more than once, in different tastes, and the
// best draft is kept.
func (h *hunt) first() {
	none := h.blank()
	for i := range min(int(tastes), 1+150/(h.pieces+1)) {
		h.start(&none)
		h.blink, h.taste, h.even, h.local = 0, taste(i), false, false
		h.collect()
		h.recreate(&unlimited)
		h.settle()
		if i == 0 || h.before(&h.cand, &h.champ) {
			h.hold(&h.champ, &h.cand)
		}
	}
}

// before reports whether draft a is better than b: fewer pieces left out,
// then less cost, fewer sheets and store cuts.
func (h *hunt) before(a, b *draft) bool {
	return cmp.Or(cmp.Compare(h.left(a), h.left(b)), cmp.Compare(a.area, b.area), cmp.Compare(a.cost, b.cost),
		cmp.Compare(a.bought, b.bought), cmp.Compare(a.cuts, b.cuts)) < 0
}

// reset sets the climbs from goal g on off from the champion.
func (h *hunt) reset(g goal) {
	b := &h.champ
	for i := g; i < goals; i++ {
		h.climbs[i].on = false
	}
	if len(h.kinds) == 0 {
		return
	}
	if b.area > 0 {
		h.aim(&h.climbs[cheaper], b, unlimited)
		return
	}
	same := b.limits
	if lim := same; g <= cheaper && (lim.cost > h.floor.cost || lim.cost == 0 && lim.bought > h.floor.bought) {
		if lim.cost > 0 {
			lim.cost, lim.bought = lim.cost-1, 1<<30
		} else {
			lim.bought--
		}
		lim.cuts = 1 << 30
		h.aim(&h.climbs[cheaper], b, lim)
	}
	if lim := same; g <= fewer && len(h.shelf) > 1 && lim.cost > 0 && lim.bought > h.floor.bought {
		lim.bought--
		lim.cuts = 1 << 30
		h.aim(&h.climbs[fewer], b, lim)
	}
	if lim := same; g <= calmer && lim.cuts > h.leastCuts() {
		lim.cuts--
		h.aim(&h.climbs[calmer], b, lim)
	}
	if g <= neater {
		h.inspect(b)
		h.aim(&h.climbs[neater], b, same)
	}
}

// leastCuts is the number of store cuts below which no search is worth while:
// what is proven, or that of the simplest pattern for each sheet of the
// champion.
func (h *hunt) leastCuts() (n int) {
	for j, used := range h.champ.used {
		if pats := h.shelf[j].pats; len(pats) > 0 {
			n += int(used) * pats[0].cuts
		}
	}
	return max(n, h.homeCuts())
}

// homeCuts is a number of store cuts that no plan on as many sheets as the
// champion's, of which all comes home, goes below.
func (h *hunt) homeCuts() (n int) {
	for j, used := range h.champ.used {
		n += int(used) * h.shelf[j].apart
	}
	return max(n, h.loose-len(h.champ.sheets))
}

// leavingCuts is the same for any plan.
func (h *hunt) leavingCuts() int {
	return max(h.homeCuts()-h.spare(), h.loose-len(h.champ.sheets))
}

// rounds says which goal has its turn; the others follow if it is off.
var rounds = [...]goal{cheaper, cheaper, calmer, cheaper, neater, cheaper, cheaper, cheaper,
	cheaper, cheaper, calmer, cheaper, cheaper, cheaper, fewer, cheaper}

// work makes n tries and reports whether the champion has changed.
func (h *hunt) work(turn, n int) (better bool) {
	if h.pieces >= manyPieces && h.climbs[cheaper].on {
		turns := 2 // every other one is a climb's
		switch {
		case h.oneSize():
			turns = 8
		case h.plain():
			turns = 4
		}
		switch {
		case turn%turns == 0:
			turn /= turns
		case h.oneSize() && h.polishes():
			return h.makeRoom(n)
		default:
			return h.build(n)
		}
	}
	g := rounds[turn%len(rounds)]
	for _, other := range [...]goal{cheaper, fewer, calmer, neater} {
		if h.climbs[g].on {
			break
		}
		g = other
	}
	if !h.climbs[g].on {
		return false
	}
	c := &h.climbs[g]
	h.freshen(c)
	h.grow(&c.cur)
	for range n {
		if !h.try(c) {
			continue
		}
		better = true
		whole := h.champ.area == 0
		h.crown(c)
		switch {
		case !whole || g <= fewer:
			h.reset(cheaper)
		case g == calmer:
			h.reset(calmer)
		default:
			continue // the climb goes on from the new champion
		}
		break // another goal may come first now
	}
	return better
}
