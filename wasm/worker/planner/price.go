package planner

import (
	"encoding/json"
	"slices"
	"strings"

	"cartwright/engine"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/project"
)

// What other sizes would cost. One worker looks, after the search for the plan
// itself has ended, size by size, that in hand first; and at once for a handle
// that is being dragged. It is ended by the next edit, by "stop", and when the
// user leaves Size.

// longestPrices is how long other sizes are looked at, in ms: a slow tablet gets
// through about half of them.
const longestPrices = 120_000

// prices is what is known of other sizes of one document.
type prices struct {
	seq     int              // of the order, counts up
	doc     *project.Project // that they belong to
	only    string           // the handle that is being dragged, or ""
	todo    []string         // sizes still to be looked at
	listed  bool             // todo is made
	all     int              // how many sizes there are
	done    map[string]bool
	offers  []nearer // the best first
	dear    []page.Dear
	stopped bool
	started int64 // when the first report came, 0 before
}

// A nearer is a value of a size that saves something, with what follows from it.
type nearer struct {
	page.Nearer
	result engine.Result
}

// at is the document and its result that prices are looked for: as it was when
// a handle was taken hold of.
func (p *Planner) at() (*project.Project, *engine.Result) {
	if p.moving != nil {
		return p.moving.from, &p.moving.out
	}
	return p.doc, &p.out.Result
}

// price is the order for other sizes that should run now.
func (p *Planner) price() Order {
	doc, r := p.at()
	s, only := &p.prices, ""
	if p.moving != nil {
		only = engine.SizeOf(p.moving.ref)
	}
	if s.doc != doc {
		*s = prices{seq: s.seq + 1, doc: doc, only: only, done: map[string]bool{}}
	} else if s.only != only {
		s.seq++
		s.only, s.listed, s.started = only, false, 0
	}
	if p.hunt.on && p.moving == nil || s.stopped || p.place != page.Size || p.noPrices() != "" {
		return Order{}
	}
	if !s.listed && only != "" {
		s.list([]string{only}, only)
	} else if !s.listed {
		s.list(engine.Sizes(doc, r.Cart), p.hand)
	}
	if len(s.todo) == 0 {
		return Order{}
	}
	return Order{Seq: s.seq, Seeds: []uint64{doc.Seed}}
}

// mostPieces is up to how many pieces other sizes are looked at: with more, one
// plan takes seconds.
const mostPieces = 1000

// noPrices says why no other sizes are looked at: "held", "mend", "many" or "".
func (p *Planner) noPrices() string {
	_, r := p.at()
	switch {
	case p.held != nil || p.readOnly || p.cfg.Embedded:
		return "held"
	case r.Findings.Blocked() || len(r.Plan.Left) > 0 || len(r.Plan.Sheets) == 0:
		return "mend"
	}
	n := 0
	for _, q := range r.Job.Parts {
		if n += q.Count; n > mostPieces {
			return "many"
		}
	}
	return ""
}

// list makes the list of sizes to be looked at, the one in hand first; while a
// handle is dragged no others.
func (s *prices) list(all []string, hand string) {
	s.todo, s.listed, s.all = nil, true, len(all)
	for _, size := range all {
		switch {
		case s.done[size] || s.only != "" && size != s.only:
		case size == hand:
			s.todo = append([]string{size}, s.todo...)
		default:
			s.todo = append(s.todo, size)
		}
	}
}

// again looks at what is left, or at all sizes anew if none is.
func (s *prices) again() {
	if s.listed && len(s.todo) == 0 {
		s.doc = nil
	}
	s.seq++
	s.stopped, s.listed, s.started = false, false, 0
}

// Prices returns what the worker of the present order for other sizes must
// know, for [Hunt].
func (p *Planner) Prices() []byte {
	doc, r := p.at()
	bare := *doc
	bare.Journal, bare.Plan = nil, nil
	text, err := json.Marshal(task{Plan: &r.Plan, Doc: project.Save(&bare), Sizes: p.prices.todo})
	if err != nil {
		panic("planner: " + err.Error())
	}
	return text
}

// inHand notes which size was changed last, by the path of its field: that of
// a cell is its handle's, the last cell's that of the handle before it.
func (p *Planner) inHand(path string) {
	p.hand = path
	w := strings.Split(path, ".")
	if len(w) < 4 || w[1] != "bays" {
		return
	}
	before := func(n string, cells int) string {
		if at, ok := engine.Indices("/" + n); ok && at[0] > 0 && at[0] == cells-1 {
			return itoa(at[0] - 1)
		}
		return n
	}
	bays := p.doc.Cabinet.Bays
	switch at, ok := engine.Indices("/" + w[2]); {
	case !ok || at[0] >= len(bays):
	case len(w) == 4 && w[3] == "width":
		p.hand = "bay/" + before(w[2], len(bays))
	case len(w) == 6 && w[5] == "height":
		p.hand = "opening/" + w[2] + "/" + before(w[4], len(bays[at[0]].Openings))
	}
}

// priced takes the report of the worker that looks at other sizes.
func (p *Planner) priced(f Find, now int64) Reply {
	s := &p.prices
	if f.Seq != s.seq || p.price().Seq != f.Seq {
		return p.quiet()
	}
	if s.started == 0 {
		s.started = now
	}
	seen := false
	switch {
	case f.Plan != nil && f.By == 0:
		if p.moving == nil && f.Plan.Better(&p.out.Plan) && !nest.Verify(p.out.Job, *f.Plan).Blocked() {
			p.finish(*f.Plan)
			seen = true
		}
	case f.Plan != nil:
		seen = p.keepNear(f)
	case f.Sheets > 0 || f.Cost > 0:
		s.dear = append(s.dear, page.Dear{Size: f.Size, By: f.By, Sheets: f.Sheets, Cost: f.Cost})
		seen = p.moving != nil
	case f.Done:
		s.done[f.Size] = true
		s.todo = slices.DeleteFunc(slices.Clone(s.todo), func(size string) bool { return size == f.Size })
		seen = true
	}
	if now-s.started > longestPrices && len(s.todo) > 0 {
		s.stopped, seen = true, true
	}
	if !seen {
		return p.quiet()
	}
	return p.answer(func() error { return nil })
}

// Lost tells that the last worker of an order has died: that of the search for
// the plan, or that which looks at other sizes. The search ends with what it
// has found; of the sizes the one at hand is left out, and the rest goes on.
func (p *Planner) Lost(seq int, prices bool) Reply {
	s := &p.prices
	switch {
	case !prices && p.hunt.on && seq == p.hunt.seq:
		p.hunt.on, p.hunt.done = false, true
	case prices && seq == s.seq && len(s.todo) > 0:
		s.todo = s.todo[1:]
		s.all--
		s.seq++
	default:
		return p.quiet()
	}
	return p.answer(func() error { return nil })
}

// quiet is the answer if nothing on the screen has changed.
func (p *Planner) quiet() Reply {
	return Reply{Quiet: true, Search: p.order(), Price: p.price(), Searching: p.hunt.on, Place: p.place, Title: p.title(), ID: p.id, Planned: p.doc != nil}
}

// keepNear checks what a worker found for another size, and keeps it if it stands.
func (p *Planner) keepNear(f Find) bool {
	s := &p.prices
	doc, r := p.at()
	next := doc.Clone()
	was, ok := engine.Size(doc, r.Cart, f.Size)
	if !ok || !engine.Turn(next, r.Cart, f.Size, f.By) {
		return false
	}
	d := engine.Design(next)
	if is, _ := engine.Size(next, d.Cart, f.Size); is != was+f.By || d.Findings.Blocked() || len(f.Plan.Left) > 0 || nest.Verify(d.Job, *f.Plan).Blocked() {
		return false
	}
	d.Moving = true // no ways to mend it are looked for
	d = engine.Finish(next, d, *f.Plan)
	if !engine.Saves(&d, r) {
		return false
	}
	o := nearer{page.Nearer{Size: f.Size, By: f.By, Value: was + f.By, Cart: d.Cart, Job: d.Job, Plan: d.Plan, Buy: d.Buy, Findings: d.Findings}, d}
	at := len(s.offers)
	for at > 0 && engine.Saves(&o.result, &s.offers[at-1].result) {
		at--
	}
	s.offers = slices.Insert(s.offers, at, o)
	return true
}

// nears lists what still saves something: the plan may have got better.
func (p *Planner) nears() (out []page.Nearer) {
	doc, r := p.at()
	if p.prices.doc != doc || p.noPrices() != "" {
		return nil
	}
	for i := range p.prices.offers {
		if o := &p.prices.offers[i]; engine.Saves(&o.result, r) {
			out = append(out, o.Nearer)
			out[len(out)-1].Trips = engine.Trips(&o.result) - engine.Trips(r)
		}
	}
	return out
}

// cheaper takes an offer: the size becomes what was offered, and its plan is
// the one to go on from.
func (p *Planner) cheaper(size, by string) error {
	for _, o := range p.nears() {
		if o.Size != size || o.By.String() != by {
			continue
		}
		next := p.doc.Clone()
		if !engine.Turn(next, p.out.made, size, o.By) {
			break
		}
		p.before()
		p.hand = size
		p.change(next)
		p.keepDoc()
		p.known = &plan{o.Job, o.Plan}
		return nil
	}
	return refuse("That offer has gone: something has changed since it was made.")
}

// pricesOf does an order for other sizes; see [Hunt].
func pricesOf(t task, seq int, seed uint64, report func(Find) bool) error {
	doc, err := project.Open(t.Doc)
	if err != nil {
		return err
	}
	r := engine.Design(doc)
	r.Plan = *t.Plan
	for _, size := range t.Sizes {
		for n := range engine.Nearby(doc, r, size) {
			if n.Plan != nil && n.By == 0 {
				r.Plan = *n.Plan
			}
			if !report(Find{Seq: seq, Seed: seed, Size: size, By: n.By, Plan: n.Plan, Sheets: n.Sheets, Cost: n.Cost}) {
				return nil
			}
		}
		if !report(Find{Seq: seq, Seed: seed, Size: size, Done: true}) {
			return nil
		}
	}
	return nil
}

// besides is what the size that is being dragged would cost elsewhere.
func (p *Planner) besides() []string {
	r := &p.moving.out
	v := page.View{Project: p.moving.from, Cart: r.Cart, Job: r.Job, Plan: r.Plan, Buy: r.Buy, Findings: r.Findings}
	v.Nearby = page.Nearby{Offers: p.nears(), Dear: p.prices.dear}
	return page.DragNote(v, engine.SizeOf(p.moving.ref))
}
