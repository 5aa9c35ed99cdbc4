package nest

// slack is the room beside what kid i of a node cut along dir holds, across
// that direction.
func (s *sheet) slack(i int32, dir int32) int32 {
	t := &s.twigs[i]
	if t.what >= 0 || t.what == empty || t.kid < 0 {
		return 0
	}
	if e := &s.twigs[t.kid]; e.what == empty {
		if dir == cutY {
			return e.w
		}
		return e.h
	}
	return 0
}

// narrow takes by off kid i of a node cut along dir, across that direction,
// from its slack. A node left with a single kid is replaced by it; the index
// of what stands there now is returned, unlinked.
func (s *sheet) narrow(i, dir, by int32) int32 {
	t := s.twigs
	e := t[i].kid
	if dir == cutY {
		t[i].w -= by
		t[e].w -= by
		if t[e].w > 0 {
			return i
		}
	} else {
		t[i].h -= by
		t[e].h -= by
		if t[e].h > 0 {
			return i
		}
	}
	s.unlink(e)
	s.drop(e)
	k := t[i].kid
	if t[k].next >= 0 {
		return i
	}
	// A single kid: it takes the place of i.
	s.drop(i)
	return k
}

// join makes one strip of kids a and b of a node, so that the room beside
// them is one.
func (s *sheet) join(a, b int32) bool {
	p := s.twigs[a].up
	dir := s.twigs[p].what
	by := min(s.slack(a, dir), s.slack(b, dir))
	if by <= 0 {
		return false
	}
	others := false
	for k := s.twigs[p].kid; k >= 0; k = s.twigs[k].next {
		others = others || k != a && k != b
	}
	if !others {
		return false
	}
	w, h := s.twigs[a].w, s.twigs[a].h
	var n, g, c int32
	s.unlink(a)
	s.unlink(b)
	if dir == cutY {
		h += s.twigs[b].h
		n = s.take(w, h, cutX, p)
		g = s.take(by, h, empty, n)
		c = s.take(w-by, h, cutY, n)
	} else {
		w += s.twigs[b].w
		n = s.take(w, h, cutY, p)
		g = s.take(w, by, empty, n)
		c = s.take(w, h-by, cutX, n)
	}
	s.link(p, n)
	s.link(n, g)
	s.link(n, c)
	for _, i := range [2]int32{a, b} {
		s.adopt(c, s.narrow(i, dir, by))
	}
	return true
}

// giveRoom makes empty twig q, unlinked, part of what is empty in p.
func (s *sheet) giveRoom(p, q int32) {
	t := s.twigs
	if e := t[p].kid; e >= 0 && t[e].what == empty {
		if t[p].what == cutX {
			t[e].w += t[q].w
		} else {
			t[e].h += t[q].h
		}
		s.drop(q)
		return
	}
	s.link(p, q)
}

// part undoes a join: n holds nothing but room and one strip, whose kids move
// up into n's parent, each with the room beside it.
func (s *sheet) part(n int32) bool {
	t := s.twigs
	p := t[n].up
	if p < 0 || t[n].what >= 0 || t[n].kid < 0 {
		return false
	}
	g := t[n].kid
	c := t[g].next
	if t[g].what != empty || c < 0 || t[c].next >= 0 || t[c].what >= 0 {
		return false
	}
	dir := t[p].what // = what of c
	by := t[g].w
	if dir == cutX {
		by = t[g].h
	}
	s.unlink(n)
	for k := t[c].kid; k >= 0; {
		next := t[k].next
		what := t[k].what
		kw, kh := t[k].w, t[k].h
		if dir == cutY {
			kw += by
		} else {
			kh += by
		}
		switch {
		case what == empty:
			t[k].w, t[k].h = kw, kh
			s.giveRoom(p, k)
		case what >= 0:
			m := s.take(kw, kh, cutX+cutY-dir, p)
			e := int32(0)
			if dir == cutY {
				e = s.take(by, kh, empty, m)
			} else {
				e = s.take(kw, by, empty, m)
			}
			t = s.twigs
			s.link(m, e)
			s.link(m, k)
			s.link(p, m)
		default:
			t[k].w, t[k].h = kw, kh
			if e := t[k].kid; t[e].what == empty {
				if dir == cutY {
					t[e].w += by
				} else {
					t[e].h += by
				}
			} else {
				if dir == cutY {
					e = s.take(by, kh, empty, k)
				} else {
					e = s.take(kw, by, empty, k)
				}
				t = s.twigs
				s.link(k, e)
			}
			s.link(p, k)
		}
		k = next
	}
	s.drop(g)
	s.drop(c)
	s.drop(n)
	return true
}

// regroup joins or parts strips of sheet s by chance.
func (h *hunt) regroup(s *sheet) {
	n := len(s.twigs)
	for range 8 {
		a := int32(h.dice.below(n))
		t := &s.twigs[a]
		if t.what != cutX && t.what != cutY || t.up < 0 {
			continue
		}
		if h.dice.oneIn(2) {
			if s.part(a) {
				return
			}
			continue
		}
		dir := s.twigs[t.up].what
		if s.slack(a, dir) <= 0 {
			continue
		}
		b, m := int32(-1), 0
		for k := s.twigs[t.up].kid; k >= 0; k = s.twigs[k].next {
			if k != a && s.slack(k, dir) > 0 {
				m++
				if h.dice.oneIn(m) {
					b = k
				}
			}
		}
		if b >= 0 && s.join(a, b) {
			return
		}
	}
}
