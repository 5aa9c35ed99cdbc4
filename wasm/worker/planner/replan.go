package planner

import (
	"maps"
	"slices"
	"strconv"
	"strings"

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
	if p.out.stands.Done == 0 && len(p.held.Spent) == 0 && !slices.ContainsFunc(p.held.before(), func(n int) bool { return n > 0 }) {
		next.Plan = nil
		p.before()
		p.change(next)
		p.held = nil
		p.keepDoc()
		return nil
	}
	d := engine.Design(p.doc)
	job, spent := p.rest(d.Job)
	d.Job = job
	if !slices.ContainsFunc(job.Parts, func(q nest.Part) bool { return q.Count > 0 }) {
		return refuse("Every part is cut: nothing is left to plan.")
	}
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
	p.out.Plan, p.out.spent = *plan, spent
	p.hold(next)
	p.holdWith(next)
	p.held = nil
	p.sheet = 0
	return nil
}

// rest takes from a job what is made already, under this plan or one before it,
// and offers it the pieces that exist besides new stock. The order of parts and
// the index of each stay. spent counts the stock that was cut into.
func (p *Planner) rest(job nest.Job) (_ nest.Job, spent map[string]int) {
	h, old, plan := p.held, p.held.Job, p.held.plan
	job.Parts, job.Stock = slices.Clone(job.Parts), slices.Clone(job.Stock)
	if spent = maps.Clone(h.Spent); spent == nil {
		spent = map[string]int{}
	}
	var pieces []nest.Stock
	keep := func(s nest.Stock) {
		if s.L > 2*s.Trim && s.W > 2*s.Trim && s.Count > 0 {
			pieces = append(pieces, s)
		}
	}
	for i, n := range h.before() {
		q := old.Parts[i]
		for ; n > 0 && takeOne(job.Parts, q, i); n-- {
		}
		keep(nest.Stock{Material: q.Material, L: q.L, W: q.W, Count: min(n, 99), Grain: q.Grain, AtShop: true})
	}
	begun := make([]int, len(old.Stock))
	sheets := make([]bool, len(plan.Sheets))
	for _, l := range work.LyingNow(old, plan, p.out.Steps, p.out.stands) {
		if l.By == "" {
			continue // nobody has cut into it: it is stock like any other
		}
		at := plan.Sheets[l.Sheet].Stock
		if !sheets[l.Sheet] {
			sheets[l.Sheet] = true
			begun[at]++
		}
		if l.Is == work.ToWaste || l.Is == work.ToPart && l.L == l.Piece.L && l.W == l.Piece.W &&
			takeOne(job.Parts, old.Parts[l.Line], l.Line) {
			continue
		}
		s := old.Stock[at]
		s.L, s.W, s.Price, s.Count, s.Trim, s.AtShop = l.L, l.W, 0, 1, max(l.Off[0], l.Off[1], l.Off[2], l.Off[3]), true
		keep(s)
	}
	for i, s := range old.Stock {
		switch {
		case !isPiece(s, job):
			spent[s.ID] += begun[i]
		case s.Count > 0:
			s.Count -= begun[i]
			keep(s)
		}
	}
	for j := range job.Stock {
		if s := &job.Stock[j]; s.Count > 0 {
			s.Count = max(0, s.Count-spent[s.ID])
		}
	}
	n := 0
	for i := range pieces {
		for n++; named(job, pieceName(n)); n++ {
		}
		pieces[i].ID = pieceName(n)
	}
	job.Stock = append(pieces, job.Stock...)
	return job, spent
}

func pieceName(n int) string { return "piece " + strconv.Itoa(n) }

// isPiece reports whether stock of a held plan is what an earlier one left.
func isPiece(s nest.Stock, job nest.Job) bool {
	return s.AtShop && strings.HasPrefix(s.ID, "piece ") && !named(job, s.ID)
}

func named(job nest.Job, id string) bool {
	return slices.ContainsFunc(job.Stock, func(s nest.Stock) bool { return s.ID == id })
}

// before counts for each line the parts that were made before this plan.
func (h *held) before() []int {
	out := make([]int, len(h.Job.Parts))
	for i, q := range h.Job.Parts {
		out[i] = max(0, h.Lines[i].Count-q.Count)
	}
	return out
}

// takeOne takes a part that is made off the list of those to be made: off its
// own line if that still asks for it, else off any that asks for the same.
func takeOne(parts []nest.Part, made nest.Part, line int) bool {
	for k := range parts {
		q := &parts[(line+k)%len(parts)]
		if q.Count > 0 && q.Material == made.Material && q.L == made.L && q.W == made.W && q.Grain == made.Grain {
			q.Count--
			return true
		}
	}
	return false
}
