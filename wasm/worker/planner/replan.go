package planner

import (
	"slices"
	"strconv"

	"cartwright/engine"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/work"
)

// replanTries is how long the uncut is planned: a moment, since what comes of
// it is held at once.
const replanTries = 20_000

// replan plans what is not yet cut again, for the project as it is now, from
// the pieces that exist. If nothing is cut, the plan is a draft again.
func (p *Planner) replan() error {
	if p.held == nil {
		return refuse("This plan is a draft: it follows every change by itself.")
	}
	next := p.doc.Clone()
	if p.out.stands.Done == 0 {
		next.Plan = nil
		p.before()
		p.change(next)
		p.held = nil
		p.keepDoc()
		return nil
	}
	d := engine.Design(p.doc)
	d.Job = p.rest(d.Job)
	var plan *nest.Plan
	for at := range nest.Search(d.Job, nest.Options{Seed: p.doc.Seed, Tries: replanTries}) {
		if at.Plan != nil {
			plan = at.Plan
		}
	}
	if plan == nil || nest.Verify(d.Job, *plan).Blocked() {
		return refuse("The uncut could not be planned again. The plan in use stays.")
	}
	p.before()
	p.out.Result = d
	p.out.Plan = *plan
	p.hold(next)
	p.holdWith(next)
	p.held = nil
	p.sheet = 0
	return nil
}

// rest takes from a job what is made already, and offers it the pieces that
// exist besides new stock. The order of parts and the index of each stay.
func (p *Planner) rest(job nest.Job) nest.Job {
	old := p.held.Job
	job.Parts, job.Stock = slices.Clone(job.Parts), slices.Clone(job.Stock)
	used := make([]bool, len(p.held.plan.Sheets)) // sheets that a cut was made on
	var pieces []nest.Stock
	for _, e := range p.pieces(used) {
		stock := old.Stock[p.held.plan.Sheets[e.sheet].Stock]
		if e.part >= 0 && takeOne(job.Parts, old.Parts[e.part]) {
			continue
		}
		pieces = append(pieces, nest.Stock{Material: stock.Material, L: e.l, W: e.w, Count: 1, Grain: stock.Grain,
			Trim: e.trim, AtShop: true})
	}
	for i, yes := range used {
		id := old.Stock[p.held.plan.Sheets[i].Stock].ID
		for j := range job.Stock {
			if s := &job.Stock[j]; yes && s.ID == id && s.Count > 0 {
				s.Count--
			}
		}
	}
	for i := range pieces {
		pieces[i].ID = "piece " + strconv.Itoa(i+1)
	}
	job.Stock = append(pieces, job.Stock...)
	return job
}

// takeOne takes a part that is made off the list of those to be made.
func takeOne(parts []nest.Part, made nest.Part) bool {
	for i := range parts {
		q := &parts[i]
		if q.Count > 0 && q.Material == made.Material && q.L == made.L && q.W == made.W && q.Grain == made.Grain {
			q.Count--
			return true
		}
	}
	return false
}

// An extant is a piece that exists: on which sheet it lay, which part of the
// held job it is (-1 for none), its size, and what must come off its edges.
type extant struct {
	sheet, part int
	l, w, trim  measure.Length
}

// pieces lists what has come of the cuts that are made and was not cut
// further, waste left out.
func (p *Planner) pieces(used []bool) []extant {
	var out []extant
	all := slices.Concat(p.out.Steps.Store, p.out.Steps.Shop)
	for _, c := range all {
		if !p.isDone(c.ID) {
			continue
		}
		used[c.Sheet] = true
		for i, m := range c.Makes {
			is, line := c.Kinds[i], -1
			if len(c.Lines) > i {
				line = c.Lines[i]
			}
			if is == work.ToWaste || slices.ContainsFunc(all, func(d work.Cut) bool { return d.Piece == m && p.isDone(d.ID) }) {
				continue
			}
			e := extant{sheet: c.Sheet, part: -1, l: m.L, w: m.W}
			if is == work.ToPart {
				e.part = line
			} else if slices.ContainsFunc(p.out.Steps.Rough, func(r work.Rough) bool { return r.Piece == m && len(r.RoughEdges) > 0 }) {
				e.trim = p.held.Job.Store.Trim
			}
			out = append(out, e)
		}
	}
	return out
}
