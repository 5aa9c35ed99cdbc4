package nest

import "slices"

// An archive keeps sheets of climbs that got nowhere. A new climb may set off
// from well filled sheets of many: that joins what each of them did well.
type archive struct {
	sheets []int32 // indices in hunt.pool, held
	need   []int32 // pieces of the sheet at hand, by kind; else all zero
	none   draft   // without sheets
}

const (
	archiveLeast = 40  // sheets from which on it is of use
	archiveMost  = 300 // sheets kept
	archiveTries = 60  // sheets in a row that do not fit before it is left
)

// note puts the sheets of d into the archive. If it is full, the emptier of
// two by chance gives way.
func (h *hunt) note(d *draft) {
	a := &h.archive
	for _, id := range d.sheets {
		if h.pool[id].items < 2 || slices.Contains(a.sheets, id) {
			continue
		}
		h.pool[id].refs++
		if len(a.sheets) < archiveMost {
			a.sheets = append(a.sheets, id)
			continue
		}
		i, j := h.dice.below(len(a.sheets)), h.dice.below(len(a.sheets))
		if h.pool[a.sheets[j]].value > h.pool[a.sheets[i]].value {
			i = j
		}
		h.release(a.sheets[i])
		a.sheets[i] = id
	}
}

// recombine sets climb c off from sheets of the archive that go together, the
// well filled ones rather than others. The rest is placed as in a try.
func (h *hunt) recombine(c *climb) {
	a := &h.archive
	if a.need == nil {
		a.need, a.none = make([]int32, len(h.kinds)), h.blank()
	}
	h.start(&a.none)
	for misses := 0; misses < archiveTries; misses++ {
		id := a.sheets[h.dice.below(len(a.sheets))]
		for range 2 {
			if o := a.sheets[h.dice.below(len(a.sheets))]; h.pool[o].value < h.pool[id].value {
				id = o
			}
		}
		if h.join(id, &c.lim) {
			misses = 0
		}
	}
	h.collect()
	h.blink, h.taste, h.even = oversight, taste(h.dice.below(int(tastes))), false
	h.recreate(&c.lim)
	h.settle()
	h.hold(&c.cur, &h.cand)
	h.setOff(c)
}

// join adds sheet id of the archive to cand, if all its pieces are still to be
// placed and the limits allow it.
func (h *hunt) join(id int32, lim *limits) bool {
	s, need := &h.pool[id], h.archive.need
	fits := h.allows(lim, s.shelf, s.pat)
	for i := range s.twigs {
		if k := s.twigs[i].what; k >= 0 {
			need[k]++
			fits = fits && need[k] <= h.cand.out[k]
		}
	}
	for i := range s.twigs {
		if k := s.twigs[i].what; k >= 0 {
			if fits {
				h.cand.out[k]--
			}
			need[k] = 0
		}
	}
	if !fits {
		return false
	}
	s.refs++
	h.cand.sheets, h.own = append(h.cand.sheets, id), append(h.own, false)
	h.account(&h.cand, s, 1)
	return true
}
