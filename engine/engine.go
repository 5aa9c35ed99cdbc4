// Package engine runs the stations in order: project, design, nest, work,
// check. It has no clock and no goroutines; callers decide how long to search.
package engine

import (
	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A Result is everything that follows from a project and a plan for it.
type Result struct {
	Cart   design.Cart
	Job    nest.Job
	Plan   nest.Plan
	Steps  work.Steps
	Buy    work.Shopping
	Report check.Report
	Bench  work.Bench
	// Findings of all stages, the heaviest first.
	Findings issue.List
	// Past, set before [Finish], is what was done under earlier plans.
	Past work.Past
	// Moving, set before [Finish]: a divider is being dragged, and no ways to
	// mend what fails are looked for.
	Moving bool `json:"-"`
	// trips of the car by weight, see [Saves]; 0 before [Finish].
	trips int
}

// Design derives the cart and the job to be cut. Result.Plan is still empty.
func Design(p *project.Project) Result {
	var r Result
	r.Cart, r.Findings = design.Build(p)
	r.Job = Job(p, r.Cart)
	r.Findings = append(r.Findings, nest.Check(r.Job)...)
	r.Findings.Sort()
	return r
}

// Weigh adds to a designed result what a plan for it costs: the cuts, and what to
// buy.
func Weigh(p *project.Project, r Result, plan nest.Plan) Result {
	r.Plan = plan
	r.Steps = work.SawAfter(r.Job, plan, r.Cart.Lines, p.Shop.Saws, r.Cart.Tape, r.Past)
	r.Buy = work.Shop(p, r.Cart, r.Job, plan)
	r.Buy.Before(p, plan, r.Past)
	return r
}

// Finish adds to a designed result what follows from its plan: the steps at
// the saws, what to buy, the checks.
func Finish(p *project.Project, r Result, plan nest.Plan) Result {
	r = Weigh(p, r, plan)
	r.Steps.Mills = work.Mills(p, r.Cart, r.Steps)
	r.Report = check.After(p, r.Cart, r.Steps, r.Moving)
	r.Bench = work.AtBench(p, r.Cart)
	r.Report.Haul(p, r.Job, plan, r.Steps)
	r.trips = trips(p, &r)
	r.Report.Building(p, r.Bench.Building.Steps)
	all := append(issue.List(nil), r.Findings...)
	all = append(all, nest.Short(r.Job, plan)...)
	all = append(all, nest.Verify(r.Job, plan)...)
	all = append(all, r.Steps.Findings...)
	all = append(all, r.Report.Findings...)
	all = append(all, r.Bench.Told()...)
	all.Sort()
	r.Findings = all
	return r
}

// Job turns a cut list into the job of cutting it: Job.Parts[i] is
// cart.Lines[i], same order, same count.
func Job(p *project.Project, c design.Cart) nest.Job {
	t := p.Measure()
	def := func(v, inch, metric measure.Length) measure.Length {
		switch {
		case v > 0:
			return v
		case t.Metric:
			return metric
		}
		return inch
	}
	in, mm := measure.Inch, measure.MM
	var j nest.Job
	wanted := map[string]int{}
	for _, l := range c.Lines {
		grain := nest.Along
		switch l.Grain {
		case part.AlongWidth:
			grain = nest.Across
		case part.AnyWay:
			grain = nest.Free
		}
		q := nest.Part{ID: l.Tag, Material: l.Material, L: l.Length, W: l.Width, Count: l.Count,
			Grain: grain, Match: l.Match, Chain: l.Chain, Link: l.Link}
		if l.Late[0] {
			q.Reserve.L = c.Reserve
		}
		if l.Late[1] {
			q.Reserve.W = c.Reserve
		}
		j.Parts = append(j.Parts, q)
		wanted[l.Material] += l.Count
	}

	// Offcuts first: they are free, and ties go to the first.
	limit := func(n int) int {
		if n <= 0 {
			return -1
		}
		return n
	}
	add := func(s nest.Stock) {
		if s.L > 0 && s.W > 0 && wanted[s.Material] > 0 {
			j.Stock = append(j.Stock, s)
		}
	}
	for _, o := range p.Stock.Offcuts {
		add(nest.Stock{ID: o.ID, Material: o.Material, L: o.Length, W: o.Width, Count: max(o.Count, 1), Grain: grainOf(o.Grain), Trim: o.Trim, AtShop: true})
	}
	for _, s := range p.Stock.Sheets {
		add(nest.Stock{ID: s.ID, Material: s.Material, L: s.Length, W: s.Width, Price: s.Price, Count: limit(s.Count), Grain: grainOf(s.Grain)})
	}
	for _, s := range p.Stock.Boards {
		add(nest.Stock{ID: s.ID, Material: s.Material, L: s.Length, W: s.Width, Price: s.Price, Count: limit(s.Count), Grain: nest.Along})
	}
	for _, s := range p.Shop.Saws {
		j.Kerf = max(j.Kerf, s.Kerf)
	}
	if j.Kerf == 0 {
		j.Kerf = def(0, in/8, mm*16/5)
	}
	s := p.Store
	j.Store = nest.Store{Cuts: cutLimit(s.Cuts), Kerf: def(s.Kerf, in/8, mm*16/5), Trim: def(s.Trim, in/4, 6*mm),
		Least: s.Least, FreeCuts: s.FreeCuts, Price: s.Price}
	j.Saws = work.Takes(p.Shop.Saws)
	j.Car = Car(p)
	return j
}

func grainOf(word string) nest.Grain {
	switch word {
	case "length":
		return nest.Along
	case "width":
		return nest.Across
	}
	return nest.Free
}

// cutLimit reads the most cuts per sheet: "" for no limit, "none" for a store
// that does not cut.
func cutLimit(s string) int {
	switch s {
	case "":
		return -1
	case "none":
		return 0
	}
	n := 0
	for _, r := range s {
		if r < '0' || r > '9' || n > 1000 {
			return -1
		}
		n = n*10 + int(r-'0')
	}
	return n
}
