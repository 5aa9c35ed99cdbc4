package nest

import "cartwright/engine/measure"

// A dist is a fence distance, kerf included, and what its cuts can be set on:
// see [settings].
type dist struct {
	d  int32
	on uint32
}

// A rack counts settings. Clearing it costs nothing.
type rack struct {
	keys  []dist
	marks []uint32
	mark  uint32
	n     int // settings
	used  int // distances
}

func (r *rack) clear() {
	if r.keys == nil {
		r.keys, r.marks = make([]dist, 1<<10), make([]uint32, 1<<10)
	}
	r.mark++
	r.n, r.used = 0, 0
	if r.mark == 0 {
		clear(r.marks)
		r.mark = 1
	}
}

// slot finds where d is or would be.
func (r *rack) slot(d int32) uint32 {
	mask := uint32(len(r.keys) - 1)
	i := uint32(d) * 0x9e3779b1 >> 7 & mask
	for r.marks[i] == r.mark && r.keys[i].d != d {
		i = (i + 1) & mask
	}
	return i
}

func (r *rack) has(d int32) bool { return r.marks[r.slot(d)] == r.mark }

func (r *rack) add(d dist) {
	i := r.slot(d.d)
	if r.marks[i] == r.mark {
		if k := &r.keys[i]; k.on|d.on != k.on {
			r.n -= settings(k.on)
			k.on |= d.on
			r.n += settings(k.on)
		}
		return
	}
	r.keys[i], r.marks[i] = d, r.mark
	r.n += settings(d.on)
	r.used++
	if r.used*2 > len(r.keys) { // grows until the job's distances fit
		old, marks := r.keys, r.marks
		r.keys, r.marks = make([]dist, 2*len(old)), make([]uint32, 2*len(old))
		for j, k := range old {
			if marks[j] == r.mark {
				i := r.slot(k.d)
				r.keys[i], r.marks[i] = k, r.mark
			}
		}
	}
}

// distances lists the fence distances of sheet s, each once.
func (h *hunt) distances(s *sheet) {
	s.dists = s.dists[:0]
	for i := range s.twigs {
		t := &s.twigs[i]
		if t.what == unused || t.what == empty {
			continue
		}
		up := t
		if t.up >= 0 {
			up = &s.twigs[t.up]
		}
		if t.what >= 0 && h.kinds[t.what].run != nil {
			if h.runDistances(s, t, up, int32(i)) {
				continue
			}
		}
		late := h.measured && h.waits(s, int32(i))
		switch up.what {
		case cutX:
			h.jot(s, up, cutX, t.w, s.before(up, int32(i)), late)
		case cutY:
			h.jot(s, up, cutY, t.h, s.before(up, int32(i)), late)
		}
	}
}

// before is how much of twig up is cut off before its kid i is, if the large
// kids go first. Only what is too big for the bench is asked.
func (s *sheet) before(up *twig, i int32) (sum int32) {
	if !Big(measure.Length(up.w), measure.Length(up.h)) {
		return 0
	}
	size := func(i int32) int32 {
		if up.what == cutX {
			return s.twigs[i].w
		}
		return s.twigs[i].h
	}
	for k := up.kid; k >= 0; k = s.twigs[k].next {
		if s.twigs[k].what != empty && (size(k) > size(i) || size(k) == size(i) && k < i) {
			sum += size(k)
		}
	}
	return sum
}

// jot adds to the distances of s that at which twig t, less what was cut off
// before, is cut along dir; late: it waits until the case is measured.
func (h *hunt) jot(s *sheet, t *twig, dir, d, off int32, late bool) {
	way, k := X, h.job.Kerf
	l, w := measure.Length(t.w)-k, measure.Length(t.h)-k
	if dir == cutY {
		way = Y
		w -= measure.Length(off)
	} else {
		l -= measure.Length(off)
	}
	on := h.job.asks(h.job.Saws.takes(l, w, measure.Length(d)-k, way, h.shelf[s.shelf].yard.stock.Grain), late)
	for i := range s.dists {
		if n := &s.dists[i]; n.d == d {
			n.on |= on
			return
		}
	}
	s.dists = append(s.dists, dist{d, on})
}

// waits reports whether the cut that frees twig i of s waits until the case is
// measured, or comes after one that does.
func (h *hunt) waits(s *sheet, i int32) bool {
	for up := s.twigs[i].up; up >= 0; i, up = up, s.twigs[up].up {
		switch s.twigs[up].what {
		case cutX:
			if waits(h.late(s, i), X) {
				return true
			}
		case cutY:
			if waits(h.late(s, i), Y) {
				return true
			}
		}
	}
	return false
}

// late is what of the pieces under twig i of s is measured late.
func (h *hunt) late(s *sheet, i int32) uint8 {
	t := &s.twigs[i]
	if t.what >= 0 {
		late := h.kinds[t.what].late
		if h.rotated(t, int(s.shelf)) {
			late = late&allLate | late&lateX<<1 | late&lateY>>1
		}
		return late
	}
	late := uint8(allLate)
	for k := t.kid; k >= 0; k = s.twigs[k].next {
		if s.twigs[k].what != empty {
			late = both(late, h.late(s, k))
		}
	}
	return late
}

// runDistances adds the distances of the parts of chain t, twig i, which is a
// piece of up. It reports whether the chain as a whole needs none, since its parts lie
// along the cut it is part of.
func (h *hunt) runDistances(s *sheet, t, up *twig, i int32) bool {
	c := &h.kinds[t.what]
	if len(c.run.order) < 2 {
		return false
	}
	rot := h.rotated(t, int(s.shelf))
	along, dir := int32(cutX), X
	if c.run.alongW != rot {
		along, dir = cutY, Y
	}
	if up.what != along {
		up = t
	} else {
		i = t.up
	}
	late := h.measured && h.waits(s, i)
	for _, i := range c.run.order {
		q := &h.job.Parts[i]
		d := q.L
		if c.run.alongW {
			d = q.W
		}
		h.jot(s, up, along, int32(d+h.job.Kerf), 0, late || waits(q.late(rot), dir))
	}
	return up != t
}

// offcuts is what sheet s adds to Plan.Rest.
func (h *hunt) offcuts(s *sheet) (rest int64) {
	for g := range s.twigs {
		t := &s.twigs[g]
		if t.what != empty {
			continue
		}
		l, w := measure.Length(t.w)-h.job.Kerf, measure.Length(t.h)-h.job.Kerf
		if g < len(s.pat.real) {
			l, w = s.pat.real[g].L, s.pat.real[g].W
		}
		if h.keep.least(l, w) {
			rest += worth(l, w)
		}
	}
	return rest
}

// inspect finds the fence settings of d, beyond those of the other materials,
// and the value of its rest.
func (h *hunt) inspect(d *draft) {
	r := &h.rack
	r.clear()
	for _, n := range h.outside.dists {
		r.add(n)
	}
	base := r.n
	d.rest = 0
	for _, id := range d.sheets {
		s := &h.pool[id]
		if !s.fresh {
			h.distances(s)
			s.rest = h.offcuts(s)
			s.fresh = true
		}
		for _, n := range s.dists {
			r.add(n)
		}
		d.rest += s.rest
	}
	d.sets = r.n - base
}
