package planner

import (
	"slices"
	"strconv"

	"cartwright/engine"
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
	old, plan := p.held.Job, p.held.plan
	job.Parts, job.Stock = slices.Clone(job.Parts), slices.Clone(job.Stock)
	begun := make([]bool, len(plan.Sheets))
	var pieces []nest.Stock
	for _, l := range work.LyingNow(old, plan, p.out.Steps, p.out.stands) {
		if l.By == "" {
			continue // nobody has cut into it: it is stock like any other
		}
		begun[l.Sheet] = true
		stock := old.Stock[plan.Sheets[l.Sheet].Stock]
		if l.Is == work.ToWaste || l.Is == work.ToPart && takeOne(job.Parts, old.Parts[l.Line], l) {
			continue
		}
		pieces = append(pieces, nest.Stock{ID: "piece " + strconv.Itoa(len(pieces)+1), Material: stock.Material,
			L: l.L, W: l.W, Count: 1, Grain: stock.Grain, Trim: max(l.Off[0], l.Off[1], l.Off[2], l.Off[3]), AtShop: true})
	}
	for i, yes := range begun {
		id := old.Stock[plan.Sheets[i].Stock].ID
		for j := range job.Stock {
			if s := &job.Stock[j]; yes && s.ID == id && s.Count > 0 {
				s.Count--
			}
		}
	}
	job.Stock = append(pieces, job.Stock...)
	return job
}

// takeOne takes a part that is made off the list of those to be made, if it
// came out at its size.
func takeOne(parts []nest.Part, made nest.Part, l work.Lying) bool {
	if l.L != l.Piece.L || l.W != l.Piece.W {
		return false
	}
	for i := range parts {
		q := &parts[i]
		if q.Count > 0 && q.Material == made.Material && q.L == made.L && q.W == made.W && q.Grain == made.Grain {
			q.Count--
			return true
		}
	}
	return false
}
