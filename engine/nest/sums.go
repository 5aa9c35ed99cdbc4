package nest

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

// offer adds thing i, from 0 to 63.
func (f *front) offer(i int, size, value int32) {
	f.all, f.was = f.was[:0], f.all
	was, m := f.was, uint64(1)<<i
	best, limit := int32(-1), f.room-size
	a, b := 0, 0
	all := f.all
	for b < len(was) && was[b].size <= limit {
		next := was[b]
		next.size += size
		if a < len(was) && was[a].size <= next.size {
			next = was[a]
			a++
		} else {
			next.value += value
			next.mask |= m
			b++
		}
		if next.value > best {
			best = next.value
			all = append(all, next)
		}
	}
	for ; a < len(was); a++ {
		if was[a].value > best {
			best = was[a].value
			all = append(all, was[a])
		}
	}
	f.all = all
}

// most is the greatest value, and what makes it.
func (f *front) most() (value int32, mask uint64) {
	s := &f.all[len(f.all)-1]
	return s.value, s.mask
}
