package nest

import (
	"math"

	"cartwright/engine/measure"
)

// Lower bounds on store cuts, for plans that may leave pieces at the store. A
// sheet with too few cuts to fit the car leaves one that is too large for it,
// and with it so much room; only the room that the sheets have to spare can be
// left so.

// A leaving is the search for the most room that some store cuts free.
type leaving struct {
	y     yard
	loads []Size // what fits the car, each way round
	steps int    // that may still be tried
}

// leavingSteps is how many blocks of a sheet are looked at before the rest is
// reckoned roughly.
const leavingSteps = 1000

// perCut is the least room that a sheet of shelf s loses for each cut that it
// has less than it takes to bring all of it home, of all that it can offer.
// Without a cut it offers nothing, and nobody buys it.
func (s *shelf) perCut(job *Job, all float64) float64 {
	f := leaving{y: s.yard, steps: leavingSteps}
	largest := 0.0
	for _, c := range job.Car {
		f.loads = append(f.loads, c, Size{c.W, c.L})
		largest = max(largest, float64(c.L+job.Kerf)*float64(c.W+job.Kerf))
	}
	least := math.Inf(1)
	for n := 1; n < s.apart; n++ {
		room := f.most(block{l: s.yard.stock.L, w: s.yard.stock.W}, n)
		if f.steps <= 0 {
			room = float64(n) * largest // of n+1 pieces one stays there
		}
		least = min(least, (all-room)/float64(s.apart-n))
	}
	return least
}

// most is the most room, one kerf added each way, that n cuts of block b free
// for the car. Along a cut's way it grows or shrinks evenly, or ever faster, so
// that it is greatest where a piece beside the cut is as long as the car takes
// it: only sums of such lengths, from either side, need be tried.
func (f *leaving) most(b block, n int) (room float64) {
	if f.steps--; f.steps <= 0 || b.l <= 0 || b.w <= 0 { // the cut ran off the edge
		return 0
	}
	job := f.y.job
	if f.y.carries(b.l, b.w) {
		l, w := f.y.content(&b)
		return float64(max(0, l+job.Kerf)) * float64(max(0, w+job.Kerf))
	}
	if n == 0 {
		return 0
	}
	h := breakage{loads: f.loads, kerf: job.Store.Kerf}
	var many [64]measure.Length
	for _, dir := range [2]Dir{X, Y} {
		size := b.along(dir)
		sums := h.sums(many[:0], size, n, int(dir))
		for i := range 2 * len(sums) {
			a := sums[i/2]
			if i%2 == 1 { // from the far side
				a = size - a - job.Store.Kerf
			}
			one, two := b, b
			if rest := size - a - job.Store.Kerf; dir == X {
				one.l, two.l = a, rest
				one.e.right, two.e.left = true, true
			} else {
				one.w, two.w = a, rest
				one.e.top, two.e.bottom = true, true
			}
			for c := range n {
				room = max(room, f.most(one, c)+f.most(two, n-1-c))
			}
		}
	}
	return room
}

// spare is how many cuts fewer than it takes to bring all of the champion's
// sheets home their room allows.
func (h *hunt) spare() int {
	room, least, all := 0.0, math.Inf(1), 0
	for i := range h.kinds {
		room -= float64(h.kinds[i].n) * h.kinds[i].area
	}
	for j, used := range h.champ.used {
		s := &h.shelf[j]
		room += float64(used) * h.sheetArea(s)
		if used > 0 && s.apart > 0 {
			if s.loss == 0 {
				s.loss = s.perCut(h.job, h.sheetArea(s))
			}
			least = min(least, s.loss)
			all += int(used) * s.apart
		}
	}
	if room < 0 || all == 0 {
		return 0
	}
	if least <= 0 || room >= least*float64(all) {
		return all
	}
	return int(room/least + 1e-6)
}
