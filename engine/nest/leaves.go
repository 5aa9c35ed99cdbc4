package nest

import (
	"cmp"
	"math"
	"slices"

	"cartwright/engine/measure"
)

// Lower bounds on store cuts, for plans that bring all of their sheets home.
// One is how many cuts it takes until all of a sheet fits the car. The other:
// a sheet with n store cuts falls into n+1 pieces, so that plans which need so
// many pieces on so many sheets need at least the difference in cuts. How many
// pieces are needed is found by what crosses the middle of a piece: of the
// parts longer than half of it, no two lie side by side, so that their widths
// add up to no more than its own. That leaves a packing along a line, which is
// tried out in full.

// A waist is such a packing: bins of several sizes, as many of each as are
// wanted, and things that need room in them.
type waist struct {
	size  []int64 // of each kind of bin
	group []stout // the stoutest first
	steps int     // that may still be tried
	// dead tells how many bins are too few for what is left, which is read
	// as a number with a digit for each group. It is nil if there is no room
	// for that number.
	dead map[uint64]int
}

// A stout is n equal things.
type stout struct {
	n     int // not yet packed
	all   int
	need  []int64 // room taken in each kind of bin; negative: it fits none
	share float64 // of a bin, at least
}

// waistSteps is how often a group is looked at before it stays unknown whether
// fewer pieces would do.
const waistSteps = 200_000

// countPieces finds how many pieces, each of which fits the car, any plan of
// the kinds must cut its sheets into, and how many cuts it takes until all of
// a sheet does.
func (t *trade) countPieces() {
	for i := range t.shelf {
		t.shelf[i].apart = t.shelf[i].wholeCuts(t.job)
	}
	if len(t.shelf) != 1 || !t.shelf[0].bought || len(t.kinds) == 0 {
		return
	}
	s := t.shelf[0].yard.stock
	if s.AtShop || len(t.job.Car) == 0 || t.shelf[0].yard.carries(s.L, s.W) {
		return
	}
	loads := t.loads()
	if len(loads) == 0 {
		return
	}
	area, most := 0.0, 0.0
	for i := range t.kinds {
		area += float64(t.kinds[i].n) * t.kinds[i].area
	}
	for _, b := range loads {
		most = max(most, float64(b.L)*float64(b.W))
	}
	t.loose = whole(area / most)
	for axis := range 2 {
		w := t.waist(loads, axis)
		w.steps = waistSteps
		n := max(t.loose, w.floor())
		for !w.pack(n) {
			n++
		}
		t.loose = n
	}
}

// loads lists the largest usable rectangles that fit the car, each way round,
// with one kerf added. A piece shorter than its sheet has a rough edge.
func (t *trade) loads() (all []Size) {
	s := t.shelf[0].yard.stock
	side := func(car, sheet measure.Length, e int) measure.Length {
		trim := t.job.Store.Trim
		a, b := t.job.EdgeOff(s, e), t.job.EdgeOff(s, e+1)
		rough := trim + min(trim, a, b)
		if car >= sheet {
			return sheet - min(rough, a+b) + t.job.Kerf
		}
		return car - rough + t.job.Kerf
	}
	for _, c := range t.job.Car {
		for _, l := range [2]Size{c, {c.W, c.L}} {
			b := Size{side(l.L, s.L, 0), side(l.W, s.W, 2)}
			if b.L > 0 && b.W > 0 && !slices.Contains(all, b) {
				all = append(all, b)
			}
		}
	}
	return all
}

// waist is the packing of what crosses the middle of the pieces along axis 0
// (x) or 1 (y).
func (t *trade) waist(loads []Size, axis int) (w waist) {
	for _, b := range loads {
		w.size = append(w.size, int64(b.W))
		if axis == 1 {
			w.size[len(w.size)-1] = int64(b.L)
		}
	}
	for i := range t.kinds {
		c := &t.kinds[i]
		g := stout{n: c.n, all: c.n, share: 1}
		for j, b := range loads {
			need := int64(-1)
			for turn, p := range [2]Size{{measure.Length(c.w), measure.Length(c.h)}, {measure.Length(c.h), measure.Length(c.w)}} {
				if t.lie[i]>>turn&1 == 0 || p.L > b.L || p.W > b.W {
					continue
				}
				along, across, room := p.L, p.W, b.L
				if axis == 1 {
					along, across, room = p.W, p.L, b.W
				}
				n := int64(across)
				if 2*along <= room {
					n = 0
				}
				if need < 0 || n < need {
					need = n
				}
			}
			g.need = append(g.need, need)
			if need >= 0 {
				g.share = min(g.share, float64(need)/float64(w.size[j]))
			}
		}
		if slices.Max(g.need) > 0 {
			w.group = append(w.group, g)
		}
	}
	slices.SortStableFunc(w.group, func(a, b stout) int { return cmp.Compare(b.share, a.share) })
	states := 1.0
	for i := range w.group {
		states *= float64(w.group[i].n + 1)
	}
	if states < 1<<62 {
		w.dead = map[uint64]int{}
	}
	return w
}

// floor is the number of bins that the shares alone make necessary.
func (w *waist) floor() int {
	sum := 0.0
	for i := range w.group {
		sum += float64(w.group[i].n) * w.group[i].share
	}
	return int(math.Ceil(sum - 1e-9))
}

// pack reports whether what is left goes into n bins, or whether that is not
// known after so many steps.
func (w *waist) pack(n int) bool {
	first := slices.IndexFunc(w.group, func(g stout) bool { return g.n > 0 })
	if first < 0 {
		return true
	}
	if n < max(1, w.floor()) {
		return false
	}
	left := uint64(0)
	for i := range w.group {
		left = left*uint64(w.group[i].all+1) + uint64(w.group[i].n)
	}
	if dead, ok := w.dead[left]; ok && n <= dead {
		return false
	}
	g := &w.group[first]
	for j, size := range w.size {
		if need := g.need[j]; need >= 0 {
			g.n--
			ok := w.fill(first, j, size-need, size+1, n-1)
			g.n++
			if ok {
				return true
			}
		}
	}
	if w.dead != nil {
		w.dead[left] = n
	}
	return false
}

// fill tries all ways to fill a bin of kind j, of which so much room is left,
// with things of group i and later ones, and to pack the rest into n bins. It
// is enough to try bins that nothing more goes into; spare is the least room
// that something passed over needs.
func (w *waist) fill(i, j int, room, spare int64, n int) bool {
	if w.steps -= len(w.group) - i; w.steps <= 0 {
		return true
	}
	more := room - spare // what must still go in for that
	for k := i; more >= 0 && k < len(w.group); k++ {
		more -= int64(w.group[k].n) * max(0, w.group[k].need[j])
	}
	if more >= 0 {
		return false
	}
	if i == len(w.group) {
		return w.pack(n)
	}
	g := &w.group[i]
	need, all := g.need[j], g.n
	take := 0
	switch {
	case need == 0:
		take = all
	case need > 0:
		take = min(all, int(room/need))
	}
	for m := take; m >= 0; m-- {
		if m < all && need > 0 {
			spare = min(spare, need)
		}
		g.n = all - m
		ok := w.fill(i+1, j, room-int64(m)*max(need, 0), spare, n)
		g.n = all
		if ok {
			return true
		}
		if need == 0 {
			break // all of them go in for nothing
		}
	}
	return false
}

// wholeSteps is how many blocks are looked at before it stays unknown whether
// more cuts are needed.
const wholeSteps = 2000

// wholeCuts is a number of store cuts that it takes at least until all of a
// sheet of shelf s fits the car, but for slivers that are nothing without
// their rough edges.
func (s *shelf) wholeCuts(job *Job) int {
	if s.yard.stock.AtShop || len(job.Car) == 0 {
		return 0
	}
	h := breakage{kerf: job.Store.Kerf, steps: wholeSteps}
	for _, c := range job.Car {
		for _, l := range [2]Size{c, {c.W, c.L}} {
			if l.L > 0 && l.W > 0 && !slices.Contains(h.loads, l) {
				h.loads = append(h.loads, l)
			}
		}
	}
	off := job.Store.Trim
	for e := range 4 {
		off = max(off, job.EdgeOff(s.yard.stock, e))
	}
	if sliver := 2*off + s.yard.thin(); sliver > 0 {
		h.loads = append(h.loads, Size{sliver, s.yard.stock.W}, Size{s.yard.stock.L, sliver})
	}
	n := 0
	for !h.whole(s.yard.stock.L, s.yard.stock.W, n) {
		n++
	}
	return n
}

// A breakage is the search for it.
type breakage struct {
	loads []Size // what fits the car, each way round, and slivers
	kerf  measure.Length
	steps int // that may still be tried
}

// whole reports whether n cuts can break all of an l by w block down, or
// whether that is not known after so many steps. If any can, they still do
// when all pieces but one beside each other are made as long as the car takes
// them: only sums of such lengths need be tried.
func (h *breakage) whole(l, w measure.Length, n int) bool {
	if h.steps--; h.steps <= 0 {
		return true
	}
	area := 0.0
	for _, b := range h.loads {
		if l <= b.L && w <= b.W {
			return true
		}
		area = max(area, float64(b.L)*float64(b.W))
	}
	if n == 0 || float64(l)*float64(w) > float64(n+1)*area+float64(n)*float64(h.kerf)*float64(max(l, w)) {
		return false
	}
	var room [64]measure.Length
	for dir := range 2 {
		size := l
		if dir == 1 {
			size = w
		}
		for _, a := range h.sums(room[:0], size, n, dir) {
			for near := range n {
				one, two := Size{a, w}, Size{size - a - h.kerf, w}
				if dir == 1 {
					one, two = Size{l, a}, Size{l, size - a - h.kerf}
				}
				if two.L > 0 && two.W > 0 && h.whole(one.L, one.W, near) && h.whole(two.L, two.W, n-1-near) {
					return true
				}
			}
		}
	}
	return false
}

// sums appends to all what up to n pieces take side by side along dir, with
// cuts between them, if that is less than size.
func (h *breakage) sums(all []measure.Length, size measure.Length, n, dir int) []measure.Length {
	all = append(all, -h.kerf) // of no piece
	from := 0
	for range n {
		to := len(all)
		for ; from < to; from++ {
			for _, b := range h.loads {
				next := all[from] + h.kerf + b.L
				if dir == 1 {
					next += b.W - b.L
				}
				if next < size && !slices.Contains(all, next) {
					all = append(all, next)
				}
			}
		}
	}
	return all[1:]
}
