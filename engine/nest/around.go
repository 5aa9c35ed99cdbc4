package nest

// A nook is what could be one gap if strips that lie side by side in a cut node
// were made one: what is empty beside them, and at one end of each.
type nook struct{ w, h, twig int32 }

// around makes room for kind w where no gap has any: it wraps strips that have
// room at the same end, and what is empty beside them, in a node cut the other
// way. Pieces put in round a filled node: Fleszar, "Three insertion heuristics
// and a justification improvement heuristic for two-dimensional bin packing
// with guillotine cuts", Computers & Operations Research 40, 2013. It reports
// whether there is room now. Where settings count it adds to them, and of many
// pieces it has been seen to cost a sheet: not there.
func (h *hunt) around(w *want) bool {
	if h.even || h.pieces >= manyPieces {
		return false
	}
	n := 0
	var at int32
	var to nook // of the size that is needed
	ww, wh := int(w.w), int(w.h)
	for i, id := range h.cand.sheets {
		if h.local && !h.own[i] {
			continue
		}
		s := &h.pool[id]
		if !s.known {
			s.explore(h.trade)
		}
		lie := h.lies(w, s.shelf)
		for _, k := range s.nooks {
			if within(ww, wh, int(k.w), int(k.h))&lie != 0 {
				if n++; h.dice.oneIn(n) {
					at, to = int32(i), nook{w.w, w.h, k.twig}
				}
			}
			if within(wh, ww, int(k.w), int(k.h))&(lie>>1) != 0 {
				if n++; h.dice.oneIn(n) {
					at, to = int32(i), nook{w.h, w.w, k.twig}
				}
			}
		}
	}
	if n == 0 {
		return false
	}
	for i := len(h.gaps) - 1; i >= 0; i-- {
		if g := h.gaps[i]; g.sheet == at {
			last := len(h.gaps) - 1
			h.gaps[i] = h.gaps[last]
			h.gaps = h.gaps[:last]
			h.gone(&g)
		}
	}
	s := h.touch(at)
	s.gather(to)
	for i := range s.twigs {
		if s.twigs[i].what == empty {
			h.come(s.gap(int32(i), at))
		}
	}
	return true
}

// explore lists the nooks of s that any kind fits.
func (s *sheet) explore(t *trade) {
	s.nooks, s.known = s.nooks[:0], true
	for p := range s.twigs {
		dir := s.twigs[p].what
		if dir != cutX && dir != cutY {
			continue
		}
		first := s.twigs[p].kid
		spare := int32(0) // empty beside the strips
		if s.twigs[first].what == empty {
			spare = s.size(first, dir)
		}
		for i := first; i >= 0; i = s.twigs[i].next {
			room := s.slack(i, dir)
			if room <= 0 {
				continue
			}
			along, strips := spare, 0
			for k := first; k >= 0; k = s.twigs[k].next {
				if s.slack(k, dir) >= room {
					along += s.size(k, dir)
					strips++
				}
			}
			if spare == 0 && strips < 2 {
				continue // a gap as it is
			}
			w, h := along, room
			if dir == cutY {
				w, h = h, w
			}
			if t.useful(int(w), int(h)) {
				s.nooks = append(s.nooks, nook{w, h, int32(p)})
			}
		}
	}
}

// gather makes one gap, no smaller than k, of what is empty in the cut node
// k.twig.
func (s *sheet) gather(k nook) {
	p := k.twig
	dir := s.twigs[p].what
	other := cutX + cutY - dir
	along, across := k.w, k.h
	if dir == cutY {
		along, across = across, along
	}
	spare := s.twigs[p].kid
	got := int32(0)
	if s.twigs[spare].what == empty {
		got = s.size(spare, dir)
	} else {
		spare = -1
	}
	// Which strips, and the room at the end of all of them.
	var strips [32]int32
	n, all := 0, true
	room := max(s.twigs[p].w, s.twigs[p].h)
	for i := s.twigs[p].kid; i >= 0; i = s.twigs[i].next {
		if i == spare {
			continue
		}
		if free := s.slack(i, dir); free >= across && got < along && n < len(strips) {
			got += s.size(i, dir)
			room = min(room, free)
			strips[n] = i
			n++
		} else {
			all = false
		}
	}
	if got < along || n == 0 || n == 1 && spare < 0 {
		return
	}
	w, h := s.twigs[p].w, s.twigs[p].h
	q := p
	if !all {
		if dir == cutX {
			w = got
		} else {
			h = got
		}
		q = s.take(w, h, other, p)
	}
	var g, c int32 // the gap, and what holds the strips
	if dir == cutX {
		g = s.take(w, room, empty, q)
		c = s.take(w, h-room, dir, q)
	} else {
		g = s.take(room, h, empty, q)
		c = s.take(w-room, h, dir, q)
	}
	if spare >= 0 {
		s.unlink(spare)
		if dir == cutX {
			s.twigs[spare].h -= room
		} else {
			s.twigs[spare].w -= room
		}
		s.link(c, spare)
	}
	for _, i := range strips[:n] {
		s.unlink(i)
		s.adopt(c, s.narrow(i, dir, room))
	}
	if up := s.twigs[p].up; all && up >= 0 { // p's parent is cut as p would be
		s.unlink(p)
		s.drop(p)
		s.giveRoom(up, g)
		s.link(up, c)
		return
	}
	if all {
		s.twigs[p].what = other
	} else {
		s.link(p, q)
	}
	s.link(q, g)
	s.link(q, c)
}

// adopt makes twig k, unlinked, a kid of c; if it is cut the same way, its
// kids.
func (s *sheet) adopt(c, k int32) {
	if s.twigs[k].what != s.twigs[c].what {
		s.link(c, k)
		return
	}
	for i := s.twigs[k].kid; i >= 0; {
		next := s.twigs[i].next
		if s.twigs[i].what == empty {
			s.giveRoom(c, i)
		} else {
			s.link(c, i)
		}
		i = next
	}
	s.drop(k)
}

// size is that of twig i along dir.
func (s *sheet) size(i, dir int32) int32 {
	if dir == cutX {
		return s.twigs[i].w
	}
	return s.twigs[i].h
}
