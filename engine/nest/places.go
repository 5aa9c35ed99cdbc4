package nest

import "math"

// A gap is an empty twig of the draft.
type gap struct {
	w, h  int32
	sheet int32 // index in draft.sheets
	twig  int32
	shelf int32
	dir   int32   // how its parent is cut; 0 at a root
	strip int32   // its size along that: a fence distance if the gap is cut across
	full  float64 // its weight in the try's taste; below zero: not yet known
}

// A want is a kind that waits for a place.
type want struct {
	kind int32
	n    int32
	w, h int32
	ways int   // places it has
	lie  uint8 // how it may lie on the first shelf
}

// A place is a place spotted for a piece.
type place struct {
	gap  int
	w, h int32
	dir  int32
	loss float64
}

// collect lists the gaps of cand and what waits, with the number of places
// each has.
func (h *hunt) collect() {
	h.gaps, h.todo = h.gaps[:0], h.todo[:0]
	for i, id := range h.cand.sheets {
		if h.local && !h.own[i] {
			continue
		}
		n := len(h.gaps)
		h.gaps = append(h.gaps, h.pool[id].gaps...)
		for ; n < len(h.gaps); n++ {
			h.gaps[n].sheet = int32(i)
		}
	}
	for _, k := range h.order {
		if n := h.cand.out[k]; n > 0 {
			c := &h.kinds[k]
			w := want{kind: k, n: n, w: c.w, h: c.h, lie: h.lie[int(k)*len(h.shelf)]}
			if len(h.shelf) == 1 {
				w.ways = h.waysOnOne(&w)
			} else {
				for i := range h.gaps {
					w.ways += h.ways(&w, &h.gaps[i])
				}
			}
			h.todo = append(h.todo, w)
		}
	}
}

// lies tells how kind w may lie on shelf j.
func (h *hunt) lies(w *want, j int32) int {
	if j == 0 {
		return int(w.lie)
	}
	return int(h.lie[int(w.kind)*len(h.shelf)+int(j)])
}

// ways counts how many ways kind w may lie in gap g.
func (h *hunt) ways(w *want, g *gap) int {
	lie := h.lies(w, g.shelf)
	ww, wh, gw, gh := int(w.w), int(w.h), int(g.w), int(g.h)
	return within(ww, wh, gw, gh)&lie + within(wh, ww, gw, gh)&(lie>>1)
}

// within is 1 if a w by h piece fits a gw by gh gap as it lies, else 0. It has
// no branch: the answer is as good as random. Whole words are what wasm
// reckons in fastest.
func within(w, h, gw, gh int) int {
	return int(uint64(int64((w-1-gw)&(h-1-gh))) >> 63)
}

// waysOnOne counts the ways over all gaps if there is but one shelf.
func (h *hunt) waysOnOne(w *want) (n int) {
	ww, wh := int(w.w), int(w.h)
	gaps := h.gaps
	switch w.lie {
	case asGiven:
		for i := range gaps {
			n += within(ww, wh, int(gaps[i].w), int(gaps[i].h))
		}
	case turned:
		for i := range gaps {
			n += within(wh, ww, int(gaps[i].w), int(gaps[i].h))
		}
	default:
		for i := range gaps {
			gw, gh := int(gaps[i].w), int(gaps[i].h)
			n += within(ww, wh, gw, gh) + within(wh, ww, gw, gh)
		}
	}
	return n
}

// gone and come keep the places of what waits up to date.
func (h *hunt) gone(g *gap) {
	todo := h.todo
	for i := range todo {
		todo[i].ways -= h.ways(&todo[i], g)
	}
}

func (h *hunt) come(g gap) {
	if !h.useful(int(g.w), int(g.h)) {
		return
	}
	h.gaps = append(h.gaps, g)
	todo := h.todo
	for i := range todo {
		todo[i].ways += h.ways(&todo[i], &g)
	}
}

// best finds the place for kind w that loses least of what is empty.
func (h *hunt) best(w *want) (p place, ok bool) {
	p.loss, p.gap = math.MaxFloat64, -1
	ww, wh := int(w.w), int(w.h)
	gaps := h.gaps
	for i := range gaps {
		g := &gaps[i]
		lie := int(w.lie)
		if g.shelf != 0 {
			lie = h.lies(w, g.shelf)
		}
		gw, gh := int(g.w), int(g.h)
		a, b := within(ww, wh, gw, gh)&lie, within(wh, ww, gw, gh)&(lie>>1)
		if a|b == 0 {
			continue
		}
		if g.full < 0 {
			g.full = h.weight(gw, gh)
		}
		if a != 0 {
			h.weigh(&p, i, g, ww, wh)
		}
		if b != 0 {
			h.weigh(&p, i, g, wh, ww)
		}
	}
	return p, p.gap >= 0
}

// newSetting is the loss that a strip of a new width counts for where
// settings count.
const newSetting = 0.05

// weigh compares the ways to put a w by d piece into gap g with p. All is in
// one function, since a call is dear in wasm.
func (h *hunt) weigh(p *place, i int, g *gap, w, d int) {
	gw, gh := int(g.w), int(g.h)
	one, two := int32(cutX), int32(cutY) // first cut along x, or along y
	var x, y float64                     // what is left over
	switch {
	case w == gw:
		one, y = 0, h.weight(gw, gh-d)
	case d == gh:
		two, x = 0, h.weight(gw-w, gh)
	case h.taste >= likesLong:
		x = h.weight(gw-w, gh) + h.weight(w, gh-d)
		y = h.weight(gw, gh-d) + h.weight(gw-w, d)
	default:
		x1, x2, y1, y2 := h.area(gw-w, gh), h.area(w, gh-d), h.area(gw, gh-d), h.area(gw-w, d)
		switch h.taste {
		case likesLarger:
			x = float64(x1*math.Sqrt(x1)) + float64(x2*math.Sqrt(x2))
			y = float64(y1*math.Sqrt(y1)) + float64(y2*math.Sqrt(y2))
		case likesLargest:
			x, y = float64(x1*x1)+float64(x2*x2), float64(y1*y1)+float64(y2*y2)
		case likesOne:
			x, y = float64(x1*x1*x1)+float64(x2*x2*x2), float64(y1*y1*y1)+float64(y2*y2*y2)
		case likesAny:
			x = float64(x1*math.Sqrt(math.Sqrt(math.Sqrt(x1)))) + float64(x2*math.Sqrt(math.Sqrt(math.Sqrt(x2))))
			y = float64(y1*math.Sqrt(math.Sqrt(math.Sqrt(y1)))) + float64(y2*math.Sqrt(math.Sqrt(math.Sqrt(y2))))
		default:
			x = float64(power(x1)) + float64(power(x2))
			y = float64(power(y1)) + float64(power(y2))
		}
	}
	for n := range 2 {
		dir, rest := one, x
		if n == 1 {
			dir, rest = two, y
		}
		if dir == 0 {
			continue
		}
		if h.blink > 0 {
			if h.skip--; h.skip <= 0 {
				h.skip = 1 + h.dice.below(2*h.blink)
				continue // overlooked
			}
		}
		loss := g.full - rest
		if h.even && g.dir != dir && g.dir != 0 && !h.rack.has(g.strip) {
			loss += newSetting
		}
		if loss < p.loss {
			p.gap, p.w, p.h, p.dir, p.loss = i, int32(w), int32(d), dir, loss
		}
	}
}

// put carries out place p for kind k.
func (h *hunt) put(k int32, p place) {
	g := h.gaps[p.gap]
	last := len(h.gaps) - 1
	h.gaps[p.gap] = h.gaps[last]
	h.gaps = h.gaps[:last]
	h.gone(&g)
	s := h.touch(g.sheet)
	a, b := s.insert(g.twig, k, p.w, p.h, p.dir)
	h.cand.out[k]--
	if a >= 0 {
		h.come(s.gap(a, g.sheet))
	}
	if b >= 0 {
		h.come(s.gap(b, g.sheet))
	}
}

// recreate puts back what waits, the piece with the fewest places first, and
// opens sheets within lim, or makes room, where there is none.
func (h *hunt) recreate(lim *limits) {
	for len(h.todo) > 0 {
		todo := h.todo
		at, least, ties := 0, todo[0].ways, 1
		for i := 1; i < len(todo); i++ {
			ways := todo[i].ways
			if ways > least {
				continue
			}
			if ways < least {
				at, least, ties = i, ways, 1
			} else if ties++; h.dice.oneIn(ties) {
				at = i
			}
		}
		w := &todo[at]
		if least == 0 {
			if h.openFor(w.kind, lim) {
				continue
			}
			if !h.around(w) {
				h.giveUp(at)
				continue
			}
		}
		p, ok := h.best(w)
		if !ok {
			h.giveUp(at)
			continue
		}
		k := w.kind
		if w.n--; w.n == 0 {
			h.giveUp(at)
		}
		h.put(k, p)
	}
}

// giveUp takes want i off the list.
func (h *hunt) giveUp(i int) {
	last := len(h.todo) - 1
	h.todo[i] = h.todo[last]
	h.todo = h.todo[:last]
}
