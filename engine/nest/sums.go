package nest

import "slices"

// A sum is the value of some things, which of them, and their size.
type sum struct {
	size, value int32
	mask        uint64
}

// A front finds what makes the greatest value within a size, as a knapsack
// does, where things are few: it lists the sums that no smaller one equals in
// value. Its memory is used again.
type front struct {
	room     int32
	all, was []sum
}

func (f *front) clear(room int32) {
	f.room = room
	f.all = append(f.all[:0], sum{})
}

// offer adds thing i, from 0 to 63. There is room beforehand and each sum is
// written, kept or not: the loop calls nothing and guesses little.
func (f *front) offer(i int, size, value int32) {
	was, m := f.all, uint64(1)<<i
	all := slices.Grow(f.was[:0], 2*len(was))[:2*len(was)]
	best, limit := int32(-1), f.room-size
	n, a, b := 0, 0, 0
	for b < len(was) && was[b].size <= limit {
		s, v, mask := was[b].size+size, was[b].value+value, was[b].mask|m
		if a < len(was) && was[a].size <= s {
			s, v, mask = was[a].size, was[a].value, was[a].mask
			a++
		} else {
			b++
		}
		if v > best {
			best = v
			all[n] = sum{s, v, mask}
			n++
		}
	}
	for ; a < len(was); a++ {
		if was[a].value > best {
			best = was[a].value
			all[n] = was[a]
			n++
		}
	}
	f.all, f.was = all[:n], was
}

// most is the greatest value, and what makes it.
func (f *front) most() (value int32, mask uint64) {
	s := &f.all[len(f.all)-1]
	return s.value, s.mask
}
