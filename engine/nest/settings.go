package nest

import "cartwright/engine/measure"

// A rack counts distinct fence distances. Clearing it costs nothing.
type rack struct {
	keys  []int32
	marks []uint32
	mark  uint32
	n     int
}

func (r *rack) clear() {
	if r.keys == nil {
		r.keys, r.marks = make([]int32, 1<<10), make([]uint32, 1<<10)
	}
	r.mark++
	r.n = 0
	if r.mark == 0 {
		clear(r.marks)
		r.mark = 1
	}
}

// slot finds where d is or would be.
func (r *rack) slot(d int32) uint32 {
	mask := uint32(len(r.keys) - 1)
	i := uint32(d) * 0x9e3779b1 >> 7 & mask
	for r.marks[i] == r.mark && r.keys[i] != d {
		i = (i + 1) & mask
	}
	return i
}

func (r *rack) has(d int32) bool { return r.marks[r.slot(d)] == r.mark }

func (r *rack) add(d int32) {
	i := r.slot(d)
	if r.marks[i] == r.mark {
		return
	}
	r.keys[i], r.marks[i] = d, r.mark
	r.n++
	if r.n*2 > len(r.keys) { // grows until the job's distances fit
		old, marks := r.keys, r.marks
		r.keys, r.marks = make([]int32, 2*len(old)), make([]uint32, 2*len(old))
		for j, k := range old {
			if marks[j] == r.mark {
				i := r.slot(k)
				r.keys[i], r.marks[i] = k, r.mark
			}
		}
	}
}

// distances lists the fence distances of sheet s, kerf included, each once.
func (h *hunt) distances(s *sheet) {
	s.dists = s.dists[:0]
	for i := range s.twigs {
		t := &s.twigs[i]
		if t.what == unused || t.what == empty {
			continue
		}
		dir := int32(unused)
		if t.up >= 0 {
			dir = s.twigs[t.up].what
		}
		if t.what >= 0 && h.kinds[t.what].run != nil {
			if h.runDistances(s, t, dir) {
				continue
			}
		}
		switch dir {
		case cutX:
			s.note(t.w)
		case cutY:
			s.note(t.h)
		}
	}
}

// note adds distance d to those of s.
func (s *sheet) note(d int32) {
	for _, n := range s.dists {
		if n == d {
			return
		}
	}
	s.dists = append(s.dists, d)
}

// runDistances adds the distances of the parts of a chain. It reports whether
// the chain as a whole needs none, since its parts lie along the cut it is
// part of.
func (h *hunt) runDistances(s *sheet, t *twig, dir int32) bool {
	c := &h.kinds[t.what]
	if len(c.run.order) < 2 {
		return false
	}
	rot := t.w != c.w || t.h != c.h
	along := int32(cutX)
	if c.run.alongW != rot {
		along = cutY
	}
	for _, i := range c.run.order {
		q := &h.job.Parts[i]
		d := q.L
		if c.run.alongW {
			d = q.W
		}
		s.note(int32(d + h.job.Kerf))
	}
	return dir == along
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
		if max(l, w) >= h.keep.L && min(l, w) >= h.keep.W {
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
