package nest

import (
	"iter"

	"cartwright/engine/measure"
)

// Options tune [Search]. The zero Options is a good search without end.
type Options struct {
	// Seed chooses the sequence of tries. Equal jobs, previous plans and
	// seeds give equal plans.
	Seed uint64
	// Tries is the number of tries after which the search ends. The default
	// (zero) is no end: the caller stops listening.
	Tries int
	// Previous is a plan to start from, if it can be mended: it is the first
	// candidate, so that a small edit makes a small change. One that does not
	// verify is ignored. The default (nil) is none.
	Previous *Plan
	// Sketch: the sizes of Previous are not to be trusted, nor its figures:
	// only its pieces and the order of its cuts count, and the sizes of its
	// roots. The default (false) ignores a plan that does not verify.
	Sketch bool
	// PreviousJob is the job that Previous was made for; parts and stock are
	// recognised by ID. The default (nil) is the job that is searched.
	PreviousJob *Job
}

// Progress is what [Search] yields.
type Progress struct {
	// Plan is a plan that is better than all before it, or nil: a heartbeat.
	Plan *Plan
	// Tries is the number of tries made so far.
	Tries int
}

// Beat is the greatest number of tries between two heartbeats.
const Beat = 256

// Better reports whether p is to be preferred to q: fewer pieces left, less
// cost, fewer sheets and store cuts, more reserves, fewer settings, a better
// rest, in this order.
func (p *Plan) Better(q *Plan) bool {
	for _, c := range [...][2]int64{
		{int64(len(p.Left)), int64(len(q.Left))},
		{int64(p.Cost), int64(q.Cost)},
		{int64(p.Bought), int64(q.Bought)},
		{int64(p.StoreCuts), int64(q.StoreCuts)},
		{int64(q.Reserved), int64(p.Reserved)},
		{int64(p.Settings), int64(q.Settings)},
		{q.Rest, p.Rest},
	} {
		if c[0] != c[1] {
			return c[0] < c[1]
		}
	}
	return false
}

// Search plans job. It yields a first plan at once, then better and better
// ones, and a heartbeat at least every [Beat] tries, until the tries are used
// up or the caller stops. Pieces that fit nothing, or for which the stock
// does not suffice, are listed in the plan's Left; see [Check] and [Short].
// A job whose kerfs, store price or number of pieces Check refuses gives no
// plan at all: the sequence is empty.
func Search(job Job, o Options) iter.Seq[Progress] {
	return func(yield func(Progress) bool) {
		if !soundJob(job) {
			return
		}
		s := newSearch(&job, o)
		s.run(o, yield)
	}
}

// A search is the hunts of a job and its best plan.
type search struct {
	job   *Job
	hunts []*hunt
	best  *Plan
	tries int
	bound struct {
		sheets int
		cost   measure.Money
	}
}

// Seeds lie far apart on the dice's one long cycle. Were they a roll or two
// apart, searches with seeds side by side would soon be one and the same: after
// a try that comes to nothing one stands where the other did.
const (
	seedStep = 0xd1342543de82ef95
	seedBase = 0xcd035475a0c78c81
)

func newSearch(job *Job, o Options) *search {
	s := &search{job: job}
	for i, t := range trades(job) {
		h := newHunt(t, seedBase+o.Seed*seedStep+uint64(i))
		s.hunts = append(s.hunts, h)
		t.countPieces()
		n, c := t.bound()
		s.bound.sheets += n
		s.bound.cost += c
	}
	return s
}

// share keeps what the hunts must know of one another up to date.
func (s *search) share() {
	all := 0
	for _, h := range s.hunts {
		all += h.champ.cuts
	}
	for i, h := range s.hunts {
		h.outside.cuts = all - h.champ.cuts
		if len(s.hunts) == 1 {
			break
		}
		h.outside.dists = h.outside.dists[:0]
		for j, o := range s.hunts {
			if i == j {
				continue
			}
			for _, id := range o.champ.sheets {
				h.outside.dists = append(h.outside.dists, o.pool[id].dists...)
			}
		}
	}
	for _, h := range s.hunts {
		h.inspect(&h.champ)
	}
}

// take makes the plan of the best drafts; it returns it if it is better than
// all before.
func (s *search) take() *Plan {
	p := assemble(s.job, s.hunts)
	if s.best != nil && !p.Better(s.best) {
		return nil
	}
	p.Tries = s.tries
	p.Bound, p.AtLeast = s.bound.cost, s.bound.sheets
	p.Proven = len(p.Left) == 0 && p.Bought <= s.bound.sheets
	for _, h := range s.hunts {
		p.LeastCuts += h.homeCuts()
	}
	for _, h := range s.hunts {
		if p.StoreCuts <= p.LeastCuts { // else nothing is said of it
			p.LeastLeaving += h.leavingCuts()
		}
	}
	s.best = p
	return p
}

func (s *search) run(o Options, yield func(Progress) bool) {
	old := o.PreviousJob
	if old == nil {
		old = s.job
	}
	previous := o.Previous != nil && (o.Sketch || len(Verify(*old, *o.Previous)) == 0)
	for _, h := range s.hunts {
		h.first()
		if previous {
			h.mend(old, o.Previous)
		}
		h.inspect(&h.champ)
		s.share()
	}
	if !yield(Progress{s.take(), 0}) {
		return
	}
	if len(s.hunts) == 0 {
		return
	}
	for _, h := range s.hunts {
		h.reset(cheaper)
	}
	// The tries are dealt out by the number of pieces: there is little to find
	// for three strips of one board.
	slice, all := 32, 0
	if len(s.hunts) == 1 {
		slice = 64
	}
	for _, h := range s.hunts {
		all += h.pieces
	}
	for turn := 0; ; turn++ {
		for _, h := range s.hunts {
			n := min(max(slice/8, slice*h.pieces*len(s.hunts)/max(all, 1)), Beat)
			if o.Tries > 0 {
				n = min(n, o.Tries-s.tries)
			}
			if n <= 0 {
				return
			}
			var p *Plan
			if h.work(turn, n) {
				s.share()
				p = s.take()
			}
			s.tries += n
			if !yield(Progress{p, s.tries}) {
				return
			}
		}
	}
}
