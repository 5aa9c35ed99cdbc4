package nest

import (
	"math"
	"slices"

	"cartwright/engine/measure"
)

// Lower bounds. A dual feasible function f keeps the promise that numbers
// which sum to at most 1 are mapped to numbers which sum to at most 1. So if
// pieces fit a sheet, the products f(w)·g(h) of their sizes, as shares of the
// sheet's, also sum to at most 1, for any two such functions, and the sum over
// all pieces, rounded up, is a number of sheets that no plan can go below.
// Fekete and Schepers, "New classes of fast lower bounds for bin packing
// problems", Math. Programming 91, 2001, give the functions used here.

// A dual maps a length x of a whole W to a share.
type dual struct {
	what int
	p    int64 // the function's parameter
}

const (
	share  = iota // x/W
	tails         // under p nothing, over W−p all, else x/W
	counts        // (k+1)x/W: itself if whole, else rounded down, over k
	halves        // pieces of p: whole ones of x below W/2, all but those of the rest above
)

// of is the value of the function at x.
func (d dual) of(x, whole int64) float64 {
	switch d.what {
	case tails:
		switch {
		case x > whole-d.p:
			return 1
		case x < d.p:
			return 0
		}
	case counts:
		n := (d.p + 1) * x
		if n%whole == 0 {
			return float64(x) / float64(whole)
		}
		return float64(n/whole) / float64(d.p)
	case halves:
		all := whole / d.p
		switch {
		case 2*x > whole:
			return 1 - float64((whole-x)/d.p)/float64(all)
		case 2*x < whole:
			return float64(x/d.p) / float64(all)
		}
		return 0.5
	}
	return float64(x) / float64(whole)
}

// duals lists functions worth trying for the given sizes, at most n of them.
func duals(sizes []int64, whole int64, n int) []dual {
	all := []dual{{share, 0}}
	for k := int64(1); k <= 6; k++ {
		all = append(all, dual{counts, k})
	}
	var half []int64 // parameters: sizes up to half, and what they leave
	for _, x := range sizes {
		if x > 0 && 2*x <= whole {
			half = append(half, x)
		}
		if r := whole - x; r > 0 && 2*r <= whole {
			half = append(half, r, r+1)
		}
	}
	slices.Sort(half)
	half = slices.Compact(half)
	room := max((n-len(all))/2, 1)
	step := max(1, (len(half)+room-1)/room)
	for i := 0; i < len(half); i += step {
		if p := half[i]; 2*p <= whole {
			all = append(all, dual{tails, p}, dual{halves, p})
		}
	}
	return all
}

// sheetArea is the most room, kerfs included, that a sheet of shelf s can
// offer. A sheet that must be cut to fit the car loses a fat cut for every
// metre of store cut: pieces no larger than a by b have a perimeter of at
// least 2(1/a+1/b) times their area, and every metre of cut adds two of
// perimeter.
func (t *trade) sheetArea(s *shelf) float64 {
	k := float64(t.job.Kerf)
	l, w := usable(s.yard.stock)
	if !s.yard.stock.AtShop {
		f := t.job.FactoryTrim
		l, w = l-2*f, w-2*f
	}
	full := (float64(l) + k) * (float64(w) + k)
	if s.yard.stock.AtShop || len(t.job.Car) == 0 || s.yard.carries(s.yard.stock.L, s.yard.stock.W) {
		return full
	}
	r := math.Inf(1)
	for _, c := range t.job.Car {
		if c.L > 0 && c.W > 0 {
			r = min(r, 1/float64(c.L)+1/float64(c.W))
		}
	}
	L, W := float64(s.yard.stock.L), float64(s.yard.stock.W)
	sk, trim := float64(t.job.Store.Kerf), float64(t.job.Store.Trim)
	lost := sk + 2*trim - k // width that a store cut takes beyond a shop cut
	m := float64(t.short) - k
	length := (r*L*W - L - W) / (1 + r*sk)
	if lost <= 0 || length <= 0 || m <= 0 || math.IsInf(r, 0) {
		return full
	}
	// A cut's ends may lie in the trim of other cuts; none is shorter than m,
	// else nothing on either side of it is of use.
	real := max(0, (m-2*trim+k)/m)
	if lost*real*r > 1+r*sk {
		return full
	}
	return full - lost*real*length
}

// bound is the least number of bought sheets, and the least cost of stock,
// that any plan which leaves none of the kinds out can have.
func (t *trade) bound() (sheets int, cost measure.Money) {
	defer func() { t.floor.bought, t.floor.cost = sheets, cost }()
	need := 0.0
	for i := range t.kinds {
		need += float64(t.kinds[i].n) * t.kinds[i].area
	}
	var sizes []*shelf // bought
	free := false
	for i := range t.shelf {
		s := &t.shelf[i]
		if s.bought {
			sizes = append(sizes, s)
			continue
		}
		free = true
		need -= float64(s.count) * t.sheetArea(s)
	}
	if need <= 0 || len(sizes) == 0 {
		return 0, 0
	}
	largest, cheapest := 0.0, math.Inf(1)
	least := measure.Money(math.MaxInt64)
	for _, s := range sizes {
		a := t.sheetArea(s)
		largest = max(largest, a)
		cheapest = min(cheapest, float64(s.price)/a)
		least = min(least, s.price)
	}
	sheets = whole(need / largest)
	if len(sizes) == 1 && !free {
		sheets = max(sheets, t.dualBound(sizes[0]))
	}
	cost = max(measure.Money(whole(need*cheapest)), measure.Money(sheets)*least)
	return sheets, cost
}

// whole rounds x up, but lets float error pass.
func whole(x float64) int { return int(math.Ceil(x - 1e-6*max(1, x*1e-3))) }

// dualBound is the best bound of all pairs of functions for a single shelf.
// A piece that may be turned counts as the lesser of its two products.
func (t *trade) dualBound(s *shelf) int {
	l, w := usable(s.yard.stock)
	if !s.yard.stock.AtShop {
		l, w = l-2*t.job.FactoryTrim, w-2*t.job.FactoryTrim
	}
	wx, wy := int64(l+t.job.Kerf), int64(w+t.job.Kerf)
	n := min(80, 8+int(math.Sqrt(2e6/float64(len(t.kinds)+1))))
	var xs, ys []int64
	for i := range t.kinds {
		c := &t.kinds[i]
		lie := t.lie[i*len(t.shelf)]
		if lie&asGiven != 0 {
			xs, ys = append(xs, int64(c.w)), append(ys, int64(c.h))
		}
		if lie&turned != 0 {
			xs, ys = append(xs, int64(c.h)), append(ys, int64(c.w))
		}
	}
	table := func(sizes []int64, whole int64) [][]float64 {
		var rows [][]float64
		for _, d := range duals(slices.Clone(sizes), whole, n) {
			row := make([]float64, len(sizes))
			for i, x := range sizes {
				row[i] = d.of(x, whole)
			}
			rows = append(rows, row)
		}
		return rows
	}
	fx, fy := table(xs, wx), table(ys, wy)
	best := 0.0
	for _, f := range fx {
		for _, g := range fy {
			sum, at := 0.0, 0
			for i := range t.kinds {
				lie := t.lie[i*len(t.shelf)]
				v := f[at] * g[at]
				at++
				if lie == asGiven|turned {
					v = min(v, f[at]*g[at])
					at++
				}
				sum += float64(float64(t.kinds[i].n) * v)
			}
			best = max(best, sum)
		}
	}
	return whole(best)
}
