package nest

// A twig is a node of a sheet's tree while it is searched. Sizes include one
// kerf, so that kids add up exactly.
type twig struct {
	w, h           int32
	what           int32 // a kind, or one of the values below
	up             int32 // parent, or -1
	kid, next, pre int32 // first kid; neighbours among the parent's kids; -1: none
}

// What a twig is if it is not a kind. An empty twig is always the first kid
// of its parent, so that there is at most one.
const (
	empty int32 = -1 - iota
	cutX        // kids lie side by side along x
	cutY
	unused // in the free list, linked by next
)

// A sheet is one sheet of a plan while it is searched: a pattern and, for
// each leaf of it, a tree. Twig i is the root of leaf i.
type sheet struct {
	shelf int32
	pat   *pattern
	twigs []twig
	free  int32
	items int32   // pieces on it
	gaps  []gap   // the empty twigs that are of use, in the order of twigs
	value float64 // of the gaps
	nooks []nook  // if they are known
	known bool
	refs  int32  // solutions that hold it
	dists []dist // distinct fence distances; only where settings count
	rest  int64  // value of the offcuts as Plan.Rest; only where it counts
	fresh bool   // dists and rest are up to date
}

func (s *sheet) reset(shelf int32, p *pattern) {
	s.shelf, s.pat, s.free, s.items, s.value, s.fresh = shelf, p, -1, 0, 0, false
	s.twigs, s.gaps = s.twigs[:0], s.gaps[:0]
	for _, b := range p.leaves {
		s.twigs = append(s.twigs, twig{b.w, b.h, empty, -1, -1, -1, -1})
	}
}

func (s *sheet) copyFrom(o *sheet) {
	s.shelf, s.pat, s.free, s.items, s.value, s.fresh = o.shelf, o.pat, o.free, o.items, o.value, false
	s.twigs = append(s.twigs[:0], o.twigs...)
	s.gaps = append(s.gaps[:0], o.gaps...)
}

// take returns the index of a twig that is not in use.
func (s *sheet) take(w, h, what, up int32) int32 {
	i := s.free
	if i >= 0 {
		s.free = s.twigs[i].next
	} else {
		i = int32(len(s.twigs))
		s.twigs = append(s.twigs, twig{})
	}
	s.twigs[i] = twig{w, h, what, up, -1, -1, -1}
	return i
}

func (s *sheet) drop(i int32) {
	s.twigs[i] = twig{what: unused, next: s.free, up: -1, kid: -1, pre: -1}
	s.free = i
}

// link puts twig i among the kids of p: an empty one first, another behind
// the empty one.
func (s *sheet) link(p, i int32) {
	t := s.twigs
	first := t[p].kid
	t[i].up = p
	if t[i].what != empty && first >= 0 && t[first].what == empty {
		n := t[first].next
		t[first].next, t[i].pre, t[i].next = i, first, n
		if n >= 0 {
			t[n].pre = i
		}
		return
	}
	t[i].pre, t[i].next = -1, first
	if first >= 0 {
		t[first].pre = i
	}
	t[p].kid = i
}

func (s *sheet) unlink(i int32) {
	t := s.twigs
	if p := t[i].pre; p >= 0 {
		t[p].next = t[i].next
	} else {
		t[t[i].up].kid = t[i].next
	}
	if n := t[i].next; n >= 0 {
		t[n].pre = t[i].pre
	}
}

// insert puts a w by h piece of kind k into the empty twig g, first cutting
// along dir (cutX or cutY). It returns the empty twigs that are there
// instead, or -1.
func (s *sheet) insert(g, k, w, h, dir int32) (a, b int32) {
	s.items++
	gw, gh := s.twigs[g].w, s.twigs[g].h
	if gw == w && gh == h {
		s.twigs[g].what = k
		return -1, -1
	}
	if gw == w {
		dir = cutY
	} else if gh == h {
		dir = cutX
	}
	up := s.twigs[g].up
	if up < 0 || s.twigs[up].what != dir {
		// g becomes a cut node of its own.
		s.twigs[g].what = dir
		up = g
		g = s.take(gw, gh, empty, up)
		s.link(up, g)
	}
	a, b = -1, -1
	if dir == cutX {
		if gw == w {
			panic("nest: degenerate cut")
		}
		s.twigs[g].w = gw - w
		a = g
		b = s.column(up, k, w, h, w, gh, cutY)
	} else {
		s.twigs[g].h = gh - h
		a = g
		b = s.column(up, k, w, h, gw, h, cutX)
	}
	return a, b
}

// column adds to the kids of up a cw by ch strip that holds a w by h piece
// and, if there is room, an empty twig, which is returned.
func (s *sheet) column(up, k, w, h, cw, ch, dir int32) int32 {
	if w == cw && h == ch {
		s.link(up, s.take(w, h, k, up))
		return -1
	}
	c := s.take(cw, ch, dir, up)
	s.link(up, c)
	e := s.take(cw, ch, empty, c)
	if dir == cutX {
		s.twigs[e].w -= w
	} else {
		s.twigs[e].h -= h
	}
	s.link(c, e)
	s.link(c, s.take(w, h, k, c))
	return e
}

// remove takes the piece or the cut node i off the sheet and counts its
// pieces into out. Its room joins what is empty beside it.
func (s *sheet) remove(i int32, out []int32) {
	s.clear(i, out)
	for {
		t := s.twigs
		p := t[i].up
		if p < 0 {
			t[i].what, t[i].kid = empty, -1
			return
		}
		// Is anything but i and the empty kid left in p?
		only := true
		for k := t[p].kid; k >= 0; k = t[k].next {
			if k != i && t[k].what != empty {
				only = false
				break
			}
		}
		if only {
			for k := t[p].kid; k >= 0; {
				n := t[k].next
				s.drop(k)
				k = n
			}
			t[p].kid = -1
			i = p
			continue
		}
		s.unlink(i)
		first := t[p].kid
		if t[first].what == empty {
			if t[p].what == cutX {
				t[first].w += t[i].w
			} else {
				t[first].h += t[i].h
			}
			s.drop(i)
		} else {
			t[i].what, t[i].kid = empty, -1
			s.link(p, i)
		}
		return
	}
}

// clear drops all below i and counts the pieces of i and below into out.
func (s *sheet) clear(i int32, out []int32) {
	if w := s.twigs[i].what; w >= 0 {
		out[w]++
		s.items--
		return
	}
	for k := s.twigs[i].kid; k >= 0; {
		n := s.twigs[k].next
		if s.twigs[k].what != empty {
			s.clear(k, out)
		}
		s.drop(k)
		k = n
	}
	s.twigs[i].kid = -1
}

// gap describes empty twig g of s, which is the i-th sheet of a draft.
func (s *sheet) gap(g, i int32) gap {
	t := &s.twigs[g]
	e := gap{w: t.w, h: t.h, sheet: i, twig: g, shelf: s.shelf, full: -1}
	if t.up >= 0 {
		if e.dir = s.twigs[t.up].what; e.dir == cutX {
			e.strip = t.w
		} else {
			e.strip = t.h
		}
	}
	return e
}

// list lists afresh the empty twigs that any kind fits.
func (s *sheet) list(t *trade) {
	s.gaps = s.gaps[:0]
	for i := range s.twigs {
		if w := &s.twigs[i]; w.what == empty && t.useful(int(w.w), int(w.h)) {
			s.gaps = append(s.gaps, s.gap(int32(i), 0))
		}
	}
}

// survey is list, and sums the value of what it lists.
func (s *sheet) survey(t *trade) {
	s.list(t)
	s.value = 0
	for i := range s.gaps {
		s.value += t.leftover(s.gaps[i].w, s.gaps[i].h)
	}
}
