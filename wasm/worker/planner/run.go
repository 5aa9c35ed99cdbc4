package planner

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"

	"cartwright/engine"
	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A result is what follows from the document and the plan on the screen.
type result struct {
	engine.Result
	// made is the cart as the document now says. Result.Cart differs from it
	// in its lines while a plan is held: they are those of the plan.
	made design.Cart
	// differ counts the lines of the cut list that a held plan does not know.
	differ int
	// state and stands are what the journal says of the plan.
	state  mark.State
	stands work.Standing
	// flaws are the rectangles not to be used; see snapshot.
	flaws []mark.Piece
	// base holds the findings that do not depend on the plan.
	base issue.List
}

// quickTries is how long a plan is searched within an edit or a movement of a
// drag: some milliseconds. The rest is for the search in the background.
const (
	quickTries = 1024
	dragTries  = 512
	offerTries = 384 // the first answer is not waited for
)

// quick plans a job at once, starting from the plan before it.
func (p *Planner) quick(job nest.Job, o nest.Options) (plan nest.Plan) {
	if o.Seed = p.doc.Seed; o.Tries == 0 {
		o.Tries = quickTries
	}
	if p.moving != nil {
		o.Tries = dragTries
	}
	for at := range nest.Search(job, o) {
		if at.Plan != nil {
			plan = *at.Plan
		}
	}
	plan, _ = nest.Settled(job, plan)
	larger, any := nest.Reserving(job)
	if !any || p.moving != nil || len(plan.Sheets) == 0 {
		return plan
	}
	o = nest.Options{Seed: o.Seed, Tries: o.Tries / 2, Previous: &plan, PreviousJob: &job, Sketch: true}
	for at := range nest.Search(larger, o) {
		if at.Plan != nil {
			if q, ok := nest.Settled(job, at.Plan.Bounded(plan)); ok && q.Better(&plan) {
				plan = q
			}
		}
	}
	return plan
}

// run passes the document through all stations. A draft starts from the plan
// before it; a held plan is left alone.
func (p *Planner) run() {
	old, known := p.out, p.known
	p.known = nil
	d := engine.Design(p.doc)
	p.out = result{Result: d, made: d.Cart, base: d.Findings}
	if p.moving != nil && p.showsCart() {
		p.send(p.drawCart()) // what is under the finger does not wait for the plan
	}
	p.readHeld()
	if p.held != nil {
		p.out.differ = differ(p.held.Lines, d.Cart.Lines)
		p.out.Job = p.held.Job
		p.out.Cart.Lines = p.held.Lines
		p.out.Past, p.out.flaws = p.held.Past, p.held.Flaws
		if p.hunt.seq == 0 || p.hunt.on {
			p.restart()
		}
		p.finish(p.held.plan)
		return
	}
	if sameJob(old.Job, d.Job) && old.Plan.Sheets != nil {
		p.finish(old.Plan)
		return
	}
	var o nest.Options
	if old.Plan.Sheets != nil {
		o.Previous, o.PreviousJob = &old.Plan, &old.Job
	}
	if known != nil && sameJob(known.job, d.Job) {
		o.Previous, o.PreviousJob = &known.plan, nil
	} else {
		known = nil
	}
	plan := p.quick(d.Job, o)
	if known != nil && known.plan.Better(&plan) {
		plan = known.plan
	}
	p.out.Plan = plan
	p.restart()
	p.finish(plan)
}

// sameJob reports whether two jobs ask for the same.
func sameJob(a, b nest.Job) bool {
	same := slices.Equal(a.Parts, b.Parts) && slices.Equal(a.Stock, b.Stock) && slices.Equal(a.Car, b.Car)
	a.Parts, a.Stock, a.Car, b.Parts, b.Stock, b.Car = nil, nil, nil, nil, nil, nil
	return same && fmt.Sprint(a) == fmt.Sprint(b)
}

// finish adds what follows from the plan.
func (p *Planner) finish(plan nest.Plan) {
	r := p.out.Result
	r.Findings = p.out.base
	r.Moving = p.moving != nil
	p.out.Result = engine.Finish(p.doc, r, plan)
	p.fold()
	p.out.Steps.Bad = p.bad()
	p.out.Findings = append(p.out.Findings, p.out.state.Findings()...)
	p.out.Findings = append(p.out.Findings, p.out.stands.Findings...)
	p.out.Findings = append(p.out.Findings, p.asCut()...)
	p.out.Findings = append(p.out.Findings, p.out.Bench.Lost(p.out.state)...)
	p.out.Findings.Sort()
	p.sheet = min(p.sheet, max(0, len(plan.Sheets)-1))
}

// held is a plan that is in use, with its job and its cut list, as they were
// when it was held.
type held struct {
	snapshot
	digest string
	plan   nest.Plan
}

// A snapshot is the job of a held plan. The cut list rides along, so that
// names stay what they are written on the wood.
type snapshot struct {
	nest.Job
	Lines []part.Line
	work.Past
	// Flaws are the rectangles of stock that are not to be used, by the name
	// of the stock; Piece.Sheet does not count.
	Flaws []mark.Piece `json:",omitempty"`
}

// hold makes the plan on the screen the one that is used: it is data from now
// on, and nothing searches it anew.
func (p *Planner) hold(doc *project.Project) {
	lines := slices.Clone(p.out.Cart.Lines)
	for i := range lines {
		lines[i].Reasons = [3]part.Reason{} // they belong to the document
	}
	job, err := json.Marshal(snapshot{p.out.Job, lines, p.out.Past, p.out.flaws})
	if err != nil {
		panic("planner: " + err.Error())
	}
	plan, err := json.Marshal(p.out.Plan)
	if err != nil {
		panic("planner: " + err.Error())
	}
	doc.Plan = &project.Held{Digest: digest(job, plan), Job: job, Plan: plan}
}

// digest names a plan.
func digest(job, plan []byte) string {
	h := fnv.New64a()
	h.Write(job)
	h.Write([]byte{0})
	h.Write(plan)
	return strconv.FormatUint(h.Sum64(), 36)
}

// readHeld makes held what the document says. A plan that does not stand up to
// its own snapshot is not used: its marks stay in the journal.
func (p *Planner) readHeld() {
	h := p.doc.Plan
	if h == nil {
		p.held = nil
		return
	}
	if p.held != nil && p.held.digest == h.Digest {
		return // it was read already, in this project
	}
	fresh := &held{digest: h.Digest}
	if json.Unmarshal(h.Job, &fresh.snapshot) != nil || json.Unmarshal(h.Plan, &fresh.plan) != nil {
		p.badPlan("it is damaged")
		return
	}
	if found := nest.Verify(fresh.Job, fresh.plan); found.Blocked() {
		p.badPlan("it breaks " + string(found[0].Code))
		return
	}
	if len(fresh.Lines) != len(fresh.Job.Parts) {
		fresh.Lines = linesOf(fresh.Job)
	}
	p.held = fresh
}

func (p *Planner) badPlan(why string) {
	p.held = nil
	p.doc = p.doc.Clone()
	p.doc.Plan = nil
	if p.reply != nil {
		p.reply.Alert = "The plan in this project cannot be used: " + why + ". It was planned anew; what was marked stays in the journal."
	}
}

// linesOf makes a cut list of a job that has none.
func linesOf(job nest.Job) []part.Line {
	out := make([]part.Line, len(job.Parts))
	for i, q := range job.Parts {
		out[i] = part.Line{Tag: q.ID, Name: "Part " + q.ID, Material: q.Material, Length: q.L, Width: q.W, Count: q.Count}
	}
	return out
}

// differ counts the lines of two cut lists that have no twin in the other, the
// larger of both sides.
func differ(a, b []part.Line) int {
	type key struct {
		material   string
		l, w, t    int64
		grain      part.Grain
		chain      string
		link, many int
	}
	of := func(l part.Line) key {
		return key{l.Material, int64(l.Length), int64(l.Width), int64(l.Thick), l.Grain, l.Chain, l.Link, l.Count}
	}
	have := map[key]int{}
	for _, l := range a {
		have[of(l)]++
	}
	alone := 0
	for _, l := range b {
		if have[of(l)] > 0 {
			have[of(l)]--
		} else {
			alone++
		}
	}
	return max(alone, len(a)-len(b)+alone)
}

// accept holds the plan on the screen.
func (p *Planner) accept() error {
	switch {
	case p.held != nil:
		return refuse("This plan is accepted already.")
	case len(p.out.Plan.Sheets) == 0:
		return refuse("There is no plan to accept yet.")
	case len(p.out.Plan.Left) > 0:
		return refuse("Some parts found no place: buy more, or change the sizes, before you accept this plan.")
	}
	next := p.doc.Clone()
	p.hold(next)
	p.holdWith(next)
	return nil
}

// turnToNext shows the sheet of the next cut.
func (p *Planner) turnToNext() {
	if c, ok := p.nextCut(); ok {
		p.sheet = c.Sheet
	}
}
