package planner

import (
	"encoding/json"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

// The search in the background. Workers of another role try with a seed each
// and report better plans and heartbeats; the planner says when they start
// and when they are ended. Times are in milliseconds, told by the caller.
const (
	// calm is how long nothing must change before a search is worth starting.
	calm = 350
	// patience is how long a search goes on without a better plan, longest
	// how long at all.
	patience = 10_000
	longest  = 60_000
)

// An Order says which search should run. Workers of an order with another
// Seq are to be ended.
type Order struct {
	// Seq numbers the job; 0 for no search.
	Seq int
	// Wait is how long to wait before starting, in ms.
	Wait int
	// Seeds has one seed for each worker; [Planner.Task] is the text for all.
	Seeds []uint64
}

// A task is an order as a search worker reads it: a job to be planned, or a
// document and sizes of it, to see what they would cost otherwise.
type task struct {
	Job   nest.Job
	Plan  *nest.Plan
	Proof *proof          `json:",omitempty"` // what a mistake would cost, instead
	Doc   json.RawMessage `json:",omitempty"`
	Sizes []string        `json:",omitempty"`
}

// A Find is what a search worker reports: a heartbeat, or a better plan; with
// a Size, what was found about it, see [engine.Near], or that it is done.
type Find struct {
	Seq   int        `json:"seq"`
	Seed  uint64     `json:"seed"`
	Tries int        `json:"tries"`
	Plan  *nest.Plan `json:"plan,omitempty"`
	// Insured answers an order of the other kind.
	Insured *work.Insurance `json:"insured,omitempty"`

	Size   string         `json:"size,omitempty"`
	By     measure.Length `json:"by"`
	Sheets int            `json:"sheets,omitempty"`
	Cost   measure.Money  `json:"cost"`
	Done   bool           `json:"done,omitempty"`
}

// News reports whether f is more than a heartbeat.
func (f Find) News() bool {
	return f.Plan != nil || f.Insured != nil || f.Sheets > 0 || f.Cost > 0 || f.Done
}

// A hunt is the search for the plan that is on the screen.
type hunt struct {
	seq     int            // of the job, counts up
	on      bool           // a search is ordered
	started int64          // when the first report came, 0 before
	gained  int64          // when the plan last got better
	tries   map[uint64]int // by seed
	seed    uint64         // that found the plan on the screen
	done    bool           // it was searched as long as it is worth
	spent   int            // how much of the patience is used up, in percent
}

// order is what should be searched now.
func (p *Planner) order() Order {
	switch {
	case p.moving != nil:
		return Order{}
	case !p.hunt.on && p.policy.seq != 0 && p.policy.in == nil && p.insurable():
		return Order{Seq: p.policy.seq, Wait: calm, Seeds: []uint64{p.doc.Seed}}
	case !p.hunt.on:
		return Order{}
	}
	return Order{Seq: p.hunt.seq, Wait: calm, Seeds: []uint64{p.doc.Seed*2 + 1, p.doc.Seed*2 + 2}}
}

// Task returns what the workers of the present order must know, for [Hunt].
func (p *Planner) Task() []byte {
	job, plan := p.quarry()
	t := task{Job: *job, Plan: plan}
	if !p.hunt.on {
		t = task{Job: p.out.Job, Plan: &p.out.Plan, Proof: p.proof()}
	}
	text, err := json.Marshal(t)
	if err != nil {
		panic("planner: " + err.Error()) // a job always marshals
	}
	return text
}

// quarry is what is searched: the plan on offer, else the one on the screen.
func (p *Planner) quarry() (*nest.Job, *nest.Plan) {
	if p.offer != nil {
		return &p.offer.job, &p.offer.plan
	}
	return &p.out.Job, &p.out.Plan
}

// restart begins a new hunt, for a new job.
func (p *Planner) restart() {
	_, plan := p.quarry()
	p.hunt = hunt{seq: p.hunt.seq + 1, on: (p.held == nil || p.offer != nil) && !p.readOnly && !p.cfg.Embedded && len(plan.Sheets) > 0, tries: map[uint64]int{}}
}

// Found takes the report of a search worker.
func (p *Planner) Found(f Find, now int64) Reply {
	if f.Size != "" {
		return p.priced(f, now)
	}
	h := &p.hunt
	if f.Insured != nil {
		return p.covered(f)
	}
	if !h.on || f.Seq != h.seq {
		return p.answer(func() error { return nil })
	}
	if h.started == 0 {
		h.started, h.gained = now, now
	}
	h.tries[f.Seed] = f.Tries
	better := f.Plan != nil && p.improves(f)
	if better {
		h.gained, h.seed = now, f.Seed
	}
	if now-h.gained > patience || now-h.started > longest {
		h.on, h.done = false, true
	}
	spent := int(max((now-h.gained)*100/patience, (now-h.started)*100/longest))
	told := spent/10 != h.spent/10
	h.spent = spent
	if !better && h.on && !told {
		return p.quiet()
	}
	return p.answer(func() error {
		if better && p.offer != nil {
			p.weigh(*f.Plan)
		} else if better {
			p.finish(*f.Plan)
			if p.place == page.Saw {
				p.turnToNext()
			}
		}
		return nil
	})
}

// improves reports whether a found plan is to be shown: better, or as good and
// of a smaller seed, so that the order in which reports come does not count.
// At the saw a plan gives way only to one that costs less, so that the drawing
// does not change under the finger for a nicety.
func (p *Planner) improves(f Find) bool {
	job, now := p.quarry()
	switch {
	case p.offer == nil && p.place == page.Saw && len(f.Plan.Left) >= len(p.out.Plan.Left) && f.Plan.Cost >= p.out.Plan.Cost:
		return false
	case f.Plan.Better(now):
	case now.Better(f.Plan), p.hunt.seed <= f.Seed:
		return false
	}
	return !nest.Verify(*job, *f.Plan).Blocked()
}

// stop ends the search, for other sizes as well; more takes it up again.
func (p *Planner) stop() { p.hunt.on, p.hunt.done, p.prices.stopped = false, true, true }

func (p *Planner) more() {
	seq := p.hunt.seq
	p.restart()
	p.hunt.seq = seq + 1
	p.prices.again()
}

func (p *Planner) triesMade() int {
	n := 0
	for _, t := range p.hunt.tries {
		n += t
	}
	return n
}

// Hunt does an order with one seed. It calls report with the first plan that
// is better than the one of the order, with each better one after it, and with
// a heartbeat at least every [nest.Beat] tries, until report says stop.
func Hunt(job []byte, seq int, seed uint64, report func(Find) bool) error {
	var t task
	if err := json.Unmarshal(job, &t); err != nil {
		return err
	}
	if q := t.Proof; q != nil {
		in := work.Insure(t.Job, *t.Plan, q.Steps, q.Done)
		report(Find{Seq: seq, Seed: seed, Insured: &in})
		return nil
	}
	if len(t.Sizes) > 0 {
		return pricesOf(t, seq, seed, report)
	}
	best := t.Plan
	quarry, o := t.Job, nest.Options{Seed: seed, Previous: t.Plan}
	// One of two workers looks for plans with a reserve for what is measured late.
	larger, any := nest.Reserving(t.Job)
	any = any && seed%2 == 0 && best != nil
	if any {
		quarry, o.PreviousJob, o.Sketch = larger, &t.Job, true
	}
	for at := range nest.Search(quarry, o) {
		f := Find{Seq: seq, Seed: seed, Tries: at.Tries}
		if plan := at.Plan; plan != nil {
			if any {
				q := plan.Bounded(*best)
				plan = &q
			}
			// Compared as it would be shown, or what that costs is found for ever.
			if q, ok := nest.Settled(t.Job, *plan); ok && (best == nil || q.Better(best)) {
				best, f.Plan = &q, &q
			}
		}
		if !report(f) {
			return nil
		}
	}
	return nil
}
