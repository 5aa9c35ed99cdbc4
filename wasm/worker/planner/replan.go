package planner

import (
	"slices"
	"strings"

	"cartwright/engine"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// An offer is another plan that waits for a yes: nothing has changed yet. The
// search in the background makes it better meanwhile.
type offer struct {
	title  string
	doc    *project.Project // as it would be, but for the plan
	design engine.Result
	job    nest.Job // that is searched, and its best plan so far
	plan   nest.Plan
	real   nest.Job    // where a bad corner parts a piece, the job with the piece
	split  *nest.Split // nil: job is the real one
	rest   *rest       // nil for a draft
	out    engine.Result
	hunt   hunt // what was searched before
	lists  []string
}

// replan offers a plan for what is not yet cut, for the project as it is now,
// from the pieces that exist. If nothing is cut, the plan is a draft again.
func (p *Planner) replan() error {
	if p.held == nil {
		return refuse("This plan is a draft: it follows every change by itself.")
	}
	if p.untouched() && len(p.newFlaws()) == 0 {
		next := p.doc.Clone()
		next.Plan = nil
		p.before()
		p.change(next)
		p.held = nil
		p.keepDoc()
		return nil
	}
	return p.propose("The uncut planned again", p.doc.Clone())
}

// untouched reports whether nothing was cut, under this plan or one before.
func (p *Planner) untouched() bool {
	return p.out.stands.Done == 0 && len(p.held.Spent) == 0 && len(p.held.Flaws) == 0 &&
		!slices.ContainsFunc(p.held.before(), func(n int) bool { return n > 0 })
}

// propose plans for next and offers what comes of it.
func (p *Planner) propose(title string, next *project.Project) error {
	o := &offer{title: title, doc: next, design: engine.Design(next)}
	o.job = o.design.Job
	opt := nest.Options{Previous: &p.out.Plan, PreviousJob: &p.out.Job}
	ways := 1
	if p.held != nil {
		r := p.rest(o.job)
		if !r.left() {
			return refuse("Every part is cut: nothing is left to plan.")
		}
		o.rest = &r
		opt = nest.Options{Previous: &r.sketch, PreviousJob: &r.sketchJob, Sketch: true}
		ways = 1 << min(len(r.flaws), 2)
		o.lists = r.again
	}
	var best *nest.Plan
	at := 0
	for way := range ways {
		job := o.design.Job
		if o.rest != nil {
			job = o.rest.around(way, -1)
		}
		opt.Tries = offerTries
		plan := p.quick(job, opt)
		if best == nil || plan.Better(best) {
			best, o.job, at = &plan, job, way
		}
	}
	for k := 0; o.rest != nil && k < 2*min(len(o.rest.flaws), 2); k++ {
		real, split := o.rest.parted(at, k/2, nest.Dir(k%2))
		if job, ok := split.Job(real); ok {
			if plan := p.quick(job, opt); plan.Better(best) && !nest.Verify(job, plan).Blocked() {
				best, o.job, o.real, o.split = &plan, job, real, &split
			}
		}
	}
	if best == nil || nest.Verify(o.job, *best).Blocked() || o.split != nil && nest.Verify(o.real, o.split.Plan(o.real, *best)).Blocked() {
		return refuse("That could not be planned. Everything stays as it is.")
	}
	p.drop()
	o.hunt = p.hunt
	p.offer = o
	p.weigh(*best)
	p.restart()
	return nil
}

// proposed ends an action that offers a plan: what is on the screen stands,
// unless there is none to offer after all.
func (p *Planner) proposed(err error) error {
	if err == nil && p.offer == nil {
		p.run()
	}
	return err
}

// weigh finds what follows from the plan on offer.
func (p *Planner) weigh(plan nest.Plan) {
	o := p.offer
	r := o.design
	r.Job, o.plan = o.job, plan
	if o.split != nil {
		r.Job, plan = o.real, o.split.Plan(o.real, plan)
	}
	if o.rest != nil {
		r.Past = o.rest.past
	}
	o.out = engine.Weigh(o.doc, r, plan)
}

// drop forgets the offer, if there is one; the search goes back to where it was.
func (p *Planner) drop() {
	if p.offer == nil {
		return
	}
	seq := p.hunt.seq
	p.hunt, p.offer = p.offer.hunt, nil
	p.hunt.seq = seq + 1
}

// take makes the plan on offer the one in use; nothing that is cut moves.
func (p *Planner) take() error {
	o := p.offer
	switch {
	case o == nil:
		return refuse("There is nothing to accept.")
	case len(o.out.Plan.Left) > 0:
		return refuse("Some parts would have no place: this plan cannot be used.")
	}
	p.drop()
	p.before()
	p.out.Result, p.out.made, p.out.base = o.out, o.design.Cart, o.design.Findings
	if o.rest == nil { // run finds its job planned already
		p.change(o.doc)
		p.keepDoc()
		p.restart()
		return nil
	}
	p.out.flaws = o.rest.flaws
	p.hold(o.doc)
	p.holdWith(o.doc)
	p.held = nil
	p.sheet = 0
	return nil
}

// offered is the offer as the page shows it.
func (p *Planner) offered() *page.Offer {
	o := p.offer
	if o == nil {
		return nil
	}
	r := o.out
	out := &page.Offer{Title: o.title, Again: o.lists, Searching: p.hunt.on, Next: page.View{Project: o.doc, Cart: o.design.Cart, Job: r.Job, Plan: r.Plan,
		Steps: r.Steps, Buy: r.Buy, Past: r.Past}}
	for _, i := range r.Plan.Left {
		if tag := r.Job.Parts[i].ID; !slices.Contains(out.Left, tag) {
			out.Left = append(out.Left, tag)
		}
	}
	return out
}

// strays lists the parts of the plan in use, by letter, that the project wants
// otherwise now; those of which one is cut already apart.
func (p *Planner) strays() (uncut, cut []page.Stray) {
	now := map[part.ID]part.Line{}
	for _, l := range p.out.made.Lines {
		for _, id := range l.Parts {
			now[id] = l
		}
	}
	made := p.madeOf()
	for i, l := range p.held.Lines {
		for _, id := range l.Parts {
			n, ok := now[id]
			if !ok || n.Length == l.Length && n.Width == l.Width && n.Material == l.Material {
				continue
			}
			s := page.Stray{Tag: l.Tag, Was: [2]int64{int64(l.Length), int64(l.Width)}, Now: [2]int64{int64(n.Length), int64(n.Width)}}
			if len(made[i]) > 0 {
				cut = append(cut, s)
			} else {
				uncut = append(uncut, s)
			}
			break
		}
	}
	return uncut, cut
}

// answers lists the actions that leave an offer as it is: all others that
// change something withdraw it.
var answers = map[string]bool{"take": true, "leave": true}

// counter reads what is said at the counter: To names the answer, and opens its
// form; "plan" makes an offer of what is in it, "" closes it.
func (p *Planner) counter(to, value string) error {
	c := &p.atCounter
	switch to {
	case "":
		p.closeCounter()
		return nil
	case "few", "size", "delivered", "none":
		p.closeCounter()
		c.Open, c.Doc = to, p.doc.Clone()
		c.Sheet = max(0, p.sheetInPlan())
		switch to {
		case "few":
			c.Left = max(0, p.sheetsOf(c.Sheet)-1)
		case "delivered":
			c.Doc.Car.Delivered = true
		case "none":
			c.Doc.Store.Cuts = "none"
			defer p.closeCounter()
			return p.propose("No cuts today", c.Doc)
		}
		return nil
	case "kind":
		for i := range p.doc.Stock.Sheets {
			if itoa(i) == value && c.Doc != nil {
				c.Sheet, c.Left = i, max(0, p.sheetsOf(i)-1)
			}
		}
		return nil
	case "more", "less":
		if c.Left++; to == "less" {
			c.Left = max(0, c.Left-2)
		}
		c.Left = min(c.Left, 99)
		return nil
	case "plan":
	default:
		return refuse("The counter has no such answer.")
	}
	if c.Doc == nil {
		return refuse("Say first what it is.")
	}
	if slices.ContainsFunc(p.counterPaths(), func(path string) bool { _, bad := p.wrong[path]; return bad }) {
		return refuse("One of the fields could not be read: mend it first.")
	}
	title := "Have it delivered"
	switch c.Open {
	case "few":
		if c.Sheet < len(c.Doc.Stock.Sheets) {
			s := &c.Doc.Stock.Sheets[c.Sheet]
			if s.Count = c.Left + p.spentOf(s.ID); s.Count == 0 { // 0 means as many as needed
				c.Doc.Stock.Sheets = slices.Delete(c.Doc.Stock.Sheets, c.Sheet, c.Sheet+1)
			}
		}
		title = "Only " + itoa(c.Left) + " left"
		if c.Left == 0 {
			title = "None left"
		}
	case "size":
		if s := c.Doc.Stock.Sheets; c.Sheet < len(s) && min(s[c.Sheet].Length, s[c.Sheet].Width) <= 0 {
			return refuse("Say how long and how wide the sheets are.")
		}
		title = "Sheets of another size"
	}
	err := p.propose(title, c.Doc)
	p.closeCounter()
	return err
}

func (p *Planner) counterPaths() (out []string) {
	for path := range p.wrong {
		if strings.HasPrefix(path, page.CounterPath) {
			out = append(out, path)
		}
	}
	slices.Sort(out)
	return out
}

func (p *Planner) closeCounter() {
	for _, path := range p.counterPaths() {
		delete(p.wrong, path)
	}
	p.atCounter = page.Counter{}
}

// sheetInPlan is the index of the kind of sheet on the screen, or of the first
// that the plan uses; -1 for none.
func (p *Planner) sheetInPlan() int {
	first := -1
	for i, l := range p.out.Plan.Sheets {
		id := base(p.out.Job.Stock[l.Stock].ID)
		at := slices.IndexFunc(p.doc.Stock.Sheets, func(s project.Sheet) bool { return s.ID == id })
		if at >= 0 && (first < 0 || i == p.sheet) {
			first = at
		}
	}
	return first
}

// sheetsOf counts the sheets of a kind in the plan.
func (p *Planner) sheetsOf(kind int) (n int) {
	for _, l := range p.out.Plan.Sheets {
		if kind < len(p.doc.Stock.Sheets) && base(p.out.Job.Stock[l.Stock].ID) == p.doc.Stock.Sheets[kind].ID {
			n++
		}
	}
	return n
}

func (p *Planner) spentOf(id string) int {
	if p.held == nil {
		return 0
	}
	return p.held.Spent[id]
}
