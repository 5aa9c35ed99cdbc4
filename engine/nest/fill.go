package nest

// A filling builds a draft sheet by sheet, each filled as well as some tries
// can do it from all that is still to be placed. For many pieces that gets
// further, faster, than trying all sheets at once.
type filling struct {
	cur   draft
	now   score
	ring  [10]score
	at    int
	tries int // on the sheet at hand
	most  int // tries a sheet in this filling; 0: not begun
}

const (
	manyPieces = 150    // from here on sheets are also filled one by one
	fillTries  = 1_000  // a sheet, in the first filling
	fillMost   = 30_000 // and in the last
)

// fill makes n tries on a filling and reports whether it has led to a new
// champion.
func (h *hunt) fill(n int) bool {
	f := &h.filling
	if f.most == 0 {
		f.most = fillTries
		f.cur = h.blank()
	}
	for range n {
		if f.cur.area == 0 {
			return h.filled(true)
		}
		if f.cur.cost > h.champ.cost || f.tries == 0 && !h.nextSheet() {
			return h.filled(false)
		}
		h.fillOnce()
		if f.tries++; f.tries >= f.most {
			f.tries = 0
		}
	}
	return false
}

// nextSheet opens a sheet with room for the largest piece that waits.
func (h *hunt) nextSheet() bool {
	f := &h.filling
	h.start(&f.cur)
	h.local = true
	h.collect()
	if len(h.todo) == 0 || !h.openFor(h.todo[0].kind, &unlimited) {
		return false
	}
	h.hold(&f.cur, &h.cand)
	f.now = score{1e300, 0}
	for i := range f.ring {
		f.ring[i] = f.now
	}
	return true
}

// fillOnce ruins the last sheet in part and fills it again.
func (h *hunt) fillOnce() {
	f := &h.filling
	h.start(&f.cur)
	i := int32(len(h.cand.sheets) - 1)
	s := h.touch(i)
	for range 1 + h.dice.below(1+int(s.items)/4) {
		h.prune(i)
	}
	if h.dice.oneIn(2) {
		h.regroup(s)
	}
	h.refresh()
	h.local = true
	h.collect()
	h.blink, h.taste, h.even = oversight, taste(h.dice.below(int(tastes))), false
	same := h.cand.limits
	h.recreate(&same)
	if s := &h.pool[h.cand.sheets[i]]; s.items == 0 {
		return
	}
	h.settle()
	now := score{0, -h.pool[h.cand.sheets[i]].value}
	for k, n := range h.cand.out {
		now.a += float64(float64(n)*h.kinds[k].area) * h.unit
	}
	if !now.over(f.ring[f.at]) || !now.over(f.now) {
		h.hold(&f.cur, &h.cand)
		f.now = now
	}
	if f.ring[f.at].over(f.now) {
		f.ring[f.at] = f.now
	}
	if f.at++; f.at == len(f.ring) {
		f.at = 0
	}
}

// filled ends a filling, makes it the champion if it is better, and begins
// another with more patience.
func (h *hunt) filled(whole bool) (better bool) {
	f, b := &h.filling, &h.champ
	if whole && (b.area > 0 || f.cur.cost < b.cost || f.cur.cost == b.cost && f.cur.bought < b.bought) {
		h.hold(b, &f.cur)
		h.reset(cheaper)
		better = true
	}
	none := h.blank()
	h.hold(&f.cur, &none)
	f.most, f.tries = min(3*f.most, fillMost), 0
	return better
}
