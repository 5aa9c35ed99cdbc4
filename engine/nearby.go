package engine

import (
	"iter"

	"cartwright/engine/check"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A Near is what [Nearby] found about another value of a size.
type Near struct {
	// By is how far it lies from the present value. 0 with a plan: a better
	// plan was found for the project as it is.
	By measure.Length
	// Plan saves something there; nil if there is nothing to save.
	Plan *nest.Plan
	// Sheets and Cost are what every plan there takes more than the present
	// one, at the least: sheets and boards, and the price of the stock.
	Sheets int
	Cost   measure.Money
}

// nearTries is how long each plan that is compared is searched, for a job of
// up to 60 pieces.
const nearTries = 2048

// Nearby looks what another value of a size would cost, r.Plan being the plan
// for p as it is. For each direction it yields the nearest values found at
// which cost, trips, sheets or store cuts become less, each saving a tenth more
// than the one before, and the nearest at which more is proven to be needed.
// Between them come zero values, one for each value tried.
//
// All plans are found by equal effort: as many tries, from the plan of a
// neighbour. The present size is tried from each plan that saves something as
// well: what it gains from it is no saving of the size. Costs do not fall
// evenly with a size, so values are tried 1/4 in or 5 mm apart as far as 3 in
// or 60 mm, and the place of a change is halved down to the tape's step: a
// gain that comes and goes within a stride is missed. Values that design
// refuses, or at which something new is wrong, are none; three in a row end a
// direction. The sequence is a function of project, plan and size.
func Nearby(p *project.Project, r Result, size string) iter.Seq[Near] {
	return func(yield func(Near) bool) {
		l, ok := Size(p, r.Cart, size)
		if !ok || len(r.Plan.Left) > 0 || len(r.Plan.Sheets) == 0 {
			return
		}
		pieces := 0
		for _, q := range r.Job.Parts {
			pieces += max(q.Count, 0)
		}
		n := &nearby{p: p, cart: &r, size: size, l: l, yield: yield, base: &at{Result: r}, wrong: Design(p).Findings,
			tries: max(256, nearTries*60/max(60, min(pieces, nest.MaxPieces)))}
		if n.wrong.Blocked() || len(nest.Verify(r.Job, r.Plan)) > 0 {
			return
		}
		settle(p, &n.base.Result)
		if n.present(n.base) {
			_ = n.walk(false) && n.walk(true)
		}
	}
}

// An at is the project with one value of the size.
type at struct {
	Result
	by measure.Length
	// atLeast and bound are lower bounds of sheets and cost.
	atLeast int
	bound   measure.Money
}

type nearby struct {
	p     *project.Project
	cart  *Result // of the project as it is
	size  string
	l     measure.Length
	wrong issue.List // with it
	tries int
	base  *at // the present value
	yield func(Near) bool
}

// plan designs and plans the project with the size by so much larger, from a
// neighbour's plan. It returns nil if nothing sound comes of it. With bound
// alone no plan is looked for.
func (n *nearby) plan(by measure.Length, from *at, bound bool) *at {
	p := n.p
	if by != 0 {
		p = p.Clone()
		if !Turn(p, n.cart.Cart, n.size, by) {
			return nil
		}
	}
	got := &at{Result: Design(p), by: by}
	l, ok := Size(p, got.Cart, n.size)
	if !ok || l != n.l+by || got.Findings.Blocked() || got.Findings.Problems() > n.wrong.Problems() {
		return nil
	}
	o := nest.Options{Seed: p.Seed, Tries: n.tries, Previous: &from.Plan, PreviousJob: &from.Job}
	for s := range nest.Search(got.Job, o) {
		if s.Plan != nil {
			got.Plan = *s.Plan
			got.atLeast, got.bound = got.Plan.AtLeast, got.Plan.Bound
		}
		// Where no sheet can be saved, store cuts alone are worth a quarter.
		if bound || s.Tries >= n.tries/4 && by != 0 && got.atLeast >= n.base.Plan.Bought && got.bound >= n.base.Plan.Cost {
			break
		}
	}
	if len(got.Plan.Sheets) == 0 || !bound && (len(got.Plan.Left) > 0 || len(nest.Verify(got.Job, got.Plan)) > 0) {
		return nil
	}
	settle(p, &got.Result)
	return got
}

// present tries the present value from a plan; it reports false to end.
func (n *nearby) present(from *at) bool {
	got := n.plan(0, from, false)
	if got == nil || !got.Plan.Better(&n.base.Plan) {
		return n.yield(Near{})
	}
	n.base = got
	return n.yield(Near{Plan: &got.Plan})
}

// walk tries the values in one direction; it reports false to end.
func (n *nearby) walk(up bool) bool {
	marks, stride := around(n.size, n.l, n.cart.Cart.Tape, up)
	best, from := n.base, n.base
	dear := false
	last, misses := -1, 0
	for i := min(stride, len(marks)) - 1; i >= 0 && i < len(marks) && misses < 3; i += stride {
		got := n.plan(marks[i], from, false)
		if !n.yield(Near{}) {
			return false
		}
		if got == nil {
			misses++
			continue
		}
		misses, from = 0, got
		if !dear && n.dearer(got) {
			dear = true
			first := n.nearest(got, marks, last, i, true, n.dearer)
			if first == nil || !n.yield(Near{By: first.by, Sheets: max(0, first.atLeast-n.base.Plan.Bought), Cost: max(0, first.bound-n.base.Plan.Cost)}) {
				return false
			}
		}
		if n.more(got, best) {
			far := got
			first := n.nearest(got, marks, last, i, false, func(m *at) bool { return !Saves(&far.Result, &m.Result) })
			if first == nil || !n.present(first) {
				return false
			}
			if Saves(&first.Result, &n.base.Result) {
				best = first
				if !n.yield(Near{By: first.by, Plan: &first.Plan}) {
					return false
				}
			}
		}
		last = i
	}
	return true
}

// more reports whether a saves more than b does: a tenth more at least.
func (n *nearby) more(a, b *at) bool {
	if !Saves(&a.Result, &b.Result) {
		return false
	}
	now := n.base.Plan.Cost
	return b == n.base || 10*(now-a.Plan.Cost) >= 11*(now-b.Plan.Cost)
}

// dearer reports whether every plan takes more than the present one.
func (n *nearby) dearer(a *at) bool {
	return a.atLeast > n.base.Plan.Bought || a.bound > n.base.Plan.Cost
}

// nearest halves the way from mark lo, which is not like got, to mark hi, which
// got stands for, and returns the nearest that is; nil to end.
func (n *nearby) nearest(got *at, marks []measure.Length, lo, hi int, bound bool, like func(*at) bool) *at {
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if m := n.plan(marks[mid], got, bound); m != nil && like(m) {
			hi, got = mid, m
		} else {
			lo = mid
		}
		if !n.yield(Near{}) {
			return nil
		}
	}
	return got
}

// settle adds what counts in a comparison: what is bought, and the trips.
func settle(p *project.Project, r *Result) {
	r.Buy = work.Shop(p, r.Cart, r.Job, r.Plan)
	r.trips = trips(p, r)
}

// trips is how often the car must go by the weight of what it brings home. How
// the pieces stow is left out: no search looks for that.
func trips(p *project.Project, r *Result) int {
	most := p.Car.Most.Kg()
	if most <= 0 || p.Car.Delivered {
		return 1
	}
	gross := 0.0 // as if nothing stayed at the store
	for _, sh := range r.Plan.Sheets {
		if sh.Stock < 0 || sh.Stock >= len(r.Job.Stock) {
			continue
		}
		st := r.Job.Stock[sh.Stock]
		m, _ := p.Material(st.Material)
		rho, _ := check.Density(m)
		gross += st.L.Metres() * st.W.Metres() * m.Thick().Metres() * rho
	}
	if gross <= most {
		return 1
	}
	if r.Steps.Rough == nil {
		r.Steps = work.Saw(r.Job, r.Plan, r.Cart.Lines, p.Shop.Saws, r.Cart.Tape)
	}
	kg := 0.0
	for _, t := range check.Load(p, r.Job, r.Plan, r.Steps) {
		kg += t.Kg
	}
	return 1 + int(min(kg/most, 1e6))
}

// Saves reports whether a costs less than b in stock and store cuts; or as
// much, with fewer trips, else sheets, else store cuts. All together may not
// cost more, nor may trips or what has no price become more.
func Saves(a, b *Result) bool {
	free := func(r *Result) (n int) {
		for _, sh := range r.Plan.Sheets {
			if st := r.Job.Stock[sh.Stock]; st.Price == 0 && !st.AtShop {
				n++
			}
		}
		return n
	}
	if free(a) > free(b) || a.trips > b.trips || a.Buy.Total > b.Buy.Total {
		return false
	}
	for _, c := range [...][2]int64{
		{int64(a.Plan.Cost), int64(b.Plan.Cost)},
		{int64(a.trips), int64(b.trips)},
		{int64(a.Plan.Bought), int64(b.Plan.Bought)},
		{int64(a.Plan.StoreCuts), int64(b.Plan.StoreCuts)},
	} {
		if c[0] != c[1] {
			return c[0] < c[1]
		}
	}
	return false
}

// Trips is how often the car must go for a finished result, by weight.
func Trips(r *Result) int { return r.trips }
