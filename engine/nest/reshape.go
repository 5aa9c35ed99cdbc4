package nest

// A reshaper lays the trees of a sheet anew, as tight as they go: every cut
// node is only as wide as what it holds needs, and the slack joins what is
// empty beside it. It keeps its memory.
type reshaper struct {
	needW, needH []int32
}

// measure finds the least size of twig i and all below it.
func (r *reshaper) measure(s *sheet, i int32) (w, h int32) {
	t := &s.twigs[i]
	switch {
	case t.what >= 0:
		w, h = t.w, t.h
	case t.what == cutX:
		for k := t.kid; k >= 0; k = s.twigs[k].next {
			if s.twigs[k].what != empty {
				kw, kh := r.measure(s, k)
				w, h = w+kw, max(h, kh)
			}
		}
	case t.what == cutY:
		for k := t.kid; k >= 0; k = s.twigs[k].next {
			if s.twigs[k].what != empty {
				kw, kh := r.measure(s, k)
				w, h = max(w, kw), h+kh
			}
		}
	}
	r.needW[i], r.needH[i] = w, h
	return w, h
}

// size makes room for the needs of n twigs.
func (r *reshaper) size(n int) {
	if cap(r.needW) < n {
		r.needW, r.needH = make([]int32, 2*n), make([]int32, 2*n)
	}
	r.needW, r.needH = r.needW[:cap(r.needW)], r.needH[:cap(r.needH)]
}

// lay builds into dst, which is fresh, the trees of src on pattern p of the
// same shelf. Leaf i of p takes the tree of leaf i of src if it fits; the
// pieces of trees that do not fit are counted into out.
func (r *reshaper) lay(dst, src *sheet, p *pattern, out []int32) {
	dst.reset(src.shelf, p)
	r.size(len(src.twigs))
	for i := range src.pat.leaves {
		root := int32(i)
		if src.twigs[root].what == empty {
			continue
		}
		if i < len(p.leaves) {
			if w, h := r.measure(src, root); w <= p.leaves[i].w && h <= p.leaves[i].h {
				r.root(dst, src, root)
				continue
			}
		}
		lose(src, root, out)
	}
}

// lose counts the pieces under twig i into out.
func lose(s *sheet, i int32, out []int32) {
	if w := s.twigs[i].what; w >= 0 {
		out[w]++
		return
	}
	for k := s.twigs[i].kid; k >= 0; k = s.twigs[k].next {
		if s.twigs[k].what != empty {
			lose(s, k, out)
		}
	}
}

// root lays the tree of leaf i.
func (r *reshaper) root(dst, src *sheet, i int32) {
	d := dst.twigs[i]
	n := i
	for src.twigs[n].what < 0 && r.fills(src, n, d.w, d.h) {
		n = r.only(src, n) // it takes its parent's place
	}
	t := &src.twigs[n]
	if t.what >= 0 {
		dst.insert(i, t.what, t.w, t.h, cutX)
		return
	}
	dst.twigs[i].what = t.what
	r.kids(dst, src, i, n)
}

// only is the first kid of twig i that is not empty.
func (r *reshaper) only(s *sheet, i int32) int32 {
	k := s.twigs[i].kid
	for s.twigs[k].what == empty {
		k = s.twigs[k].next
	}
	return k
}

// fills reports whether cut node i has a single kid that needs all of w or h
// along the node's own direction, so that the node cuts nothing.
func (r *reshaper) fills(s *sheet, i, w, h int32) bool {
	k := r.only(s, i)
	for n := s.twigs[k].next; n >= 0; n = s.twigs[n].next {
		if s.twigs[n].what != empty {
			return false
		}
	}
	if s.twigs[i].what == cutX {
		return r.needW[k] == w
	}
	return r.needH[k] == h
}

// kids lays what cut node n of src holds into cut node up of dst, which has
// its size and the same direction.
func (r *reshaper) kids(dst, src *sheet, up, n int32) {
	w, h := dst.twigs[up].w, dst.twigs[up].h
	dir := dst.twigs[up].what
	sum := int32(0)
	for k := src.twigs[n].kid; k >= 0; k = src.twigs[k].next {
		if src.twigs[k].what == empty {
			continue
		}
		if dir == cutX {
			sum += r.needW[k]
		} else {
			sum += r.needH[k]
		}
	}
	if dir == cutX && sum < w {
		dst.link(up, dst.take(w-sum, h, empty, up))
	} else if dir == cutY && sum < h {
		dst.link(up, dst.take(w, h-sum, empty, up))
	}
	r.each(dst, src, up, n, w, h)
}

// each lays the kids of twig n of src side by side in up.
func (r *reshaper) each(dst, src *sheet, up, n, w, h int32) {
	dir := dst.twigs[up].what
	for k := src.twigs[n].kid; k >= 0; k = src.twigs[k].next {
		if src.twigs[k].what == empty {
			continue
		}
		kw, kh := r.needW[k], h
		if dir == cutY {
			kw, kh = w, r.needH[k]
		}
		r.kid(dst, src, up, k, kw, kh)
	}
}

// kid lays twig k of src as a w by h kid of up. Along up's direction it has
// just what it needs.
func (r *reshaper) kid(dst, src *sheet, up, k, w, h int32) {
	t := &src.twigs[k]
	dir := dst.twigs[up].what
	if t.what >= 0 {
		dst.items++
		dst.column(up, t.what, t.w, t.h, w, h, cutX+cutY-dir)
		return
	}
	if r.fills(src, k, w, h) {
		// Its only kid stands for it; a cut node below lies along dir.
		only := r.only(src, k)
		if what := src.twigs[only].what; what >= 0 {
			dst.items++
			dst.column(up, what, src.twigs[only].w, src.twigs[only].h, w, h, t.what)
		} else {
			r.each(dst, src, up, only, w, h)
		}
		return
	}
	c := dst.take(w, h, t.what, up)
	dst.link(up, c)
	r.kids(dst, src, c, k)
}
