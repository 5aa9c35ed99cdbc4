package check

import (
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// The findings of this package. Numbers in their arguments that are not
// lengths or masses are texts with their unit.
const (
	// Caster: a caster carries more than it is rated for. Args: the load on
	// one, three of four carrying (Mass), its rating (Mass), over by (Mass).
	// Example: caster.json
	Caster issue.Code = "check.caster"

	// Dense: no wood has the density that is entered. Args: material, kg/m³.
	// Example: dense.json
	Dense issue.Code = "check.dense"

	// Sag: a top, bottom or shelf sags more than the chosen limit. Args: name,
	// sag, limit, what the limit is called.
	// Example: sag.json
	Sag issue.Code = "check.sag"

	// Bottom: a drawer's bottom sags more than the limit, or so much that the
	// formula does not hold. Args: drawer, sag, limit or half the thickness.
	// Example: bottom.json
	Bottom issue.Code = "check.bottom"

	// Slide: a drawer weighs more than its slides are rated for. Args: drawer,
	// weight (Mass), rating (Mass), over by (Mass).
	// Example: slide.json
	Slide issue.Code = "check.slide"

	// Tips: the cart falls forward with drawers open. Args: how many open, of
	// how many, short by (moment), how many it stands with.
	// Example: tips.json
	Tips issue.Code = "check.tips"

	// Barely: the cart stands with its drawers open, but a light pull tips it.
	// Args: how many open, the pull.
	// Example: barely.json
	Barely issue.Code = "check.barely"

	// Push: a push at the top tips the cart. Args: which way, the push, the
	// push that tips it.
	// Example: push.json
	Push issue.Code = "check.push"

	// Sill: wheels that meet a sill of 1/4 in at a walk stop, and the cart can
	// fall forward. Args: the speed that rolls over it, the speed that trips
	// it, in m/s.
	// Example: sill.json
	Sill issue.Code = "check.sill"

	// Racks: the back does not keep the case square. Args: how far it leans,
	// the push, the limit.
	// Example: racks.json
	Racks issue.Code = "check.racks"

	// Corners: without a back the screwed corners do not keep the case upright
	// under the push. Args: what they hold, the push.
	// Example: corner.json
	Corners issue.Code = "check.corner"

	// Creeps: the braked wheels do not hold against the feed. Args: feed, hold.
	// Example: creeps.json
	Creeps issue.Code = "check.creeps"

	// Screws: screws carry more than their working load. Args: where, how many
	// times as much.
	// Example: screws.json
	Screws issue.Code = "check.screws"

	// OddsLow: the chance that all fits without rework is low. Args: what, chance
	// in percent, its standard error, the weakest gap, its worst case.
	// Example: odds.json
	OddsLow issue.Code = "check.odds"

	// Heavy: the pieces weigh more than the car may carry. Args: weight, limit,
	// trips.
	// Example: heavy.json
	Heavy issue.Code = "check.heavy"

	// Moves: solid wood moves more over the seasons than its gap takes. Args:
	// part, by how much, gap.
	// Example: moves.json
	Moves issue.Code = "check.moves"

	// Offset: measured pieces come out long or short, more than chance.
	// Args: "long" or "short", by how much, ± of that, pieces, what to set.
	// Example: offset.json
	Offset issue.Code = "check.offset"
)

// A run is a report in the making.
type run struct {
	Report
	p      *project.Project
	c      design.Cart
	t      measure.Tape
	told   map[string]bool
	bodies []body
	// quick leaves mends out: it is a mend that is being tried.
	quick bool
	// steps are the cuts at home, if they are known; pool is what all measured
	// pieces tell together, where nobody knows which saw.
	steps work.Steps
	pool  Learned
}

// Run checks a cart. Nothing in it is fine by silence: what could not be
// checked has a sum that says so.
func Run(p *project.Project, c design.Cart) Report { return After(p, c, work.Steps{}, false) }

// Quick does the same and looks for no changes that mend what fails: each
// takes a cart to be built.
func Quick(p *project.Project, c design.Cart) Report { return After(p, c, work.Steps{}, true) }

// After is [Run] or [Quick] with the cuts at the saws, which tell whose errors
// stand in which part.
func After(p *project.Project, c design.Cart, steps work.Steps, quick bool) Report {
	if len(c.Parts) == 0 {
		return Report{}
	}
	r := start(p, c)
	r.quick, r.steps = quick, steps
	r.tipping()
	r.pushed()
	r.casters()
	r.rolling()
	r.brakes()
	r.beams()
	r.bottoms()
	r.slides()
	r.screws()
	r.racking()
	r.learn()
	r.fits()
	r.lifting()
	r.seasons()
	r.sort()
	return r.Report
}

// sort orders the sums: what fails, what could not be checked, facts, what is
// fine; then by what it costs, then by how near to its limit it is; then as
// they were made.
func (r *Report) sort() {
	rank := [...]int{NotChecked: 1, Fails: 0, Fact: 2, Fine: 3}
	before := func(a, b *Sum) bool {
		if a.State != b.State {
			return rank[a.State] < rank[b.State]
		}
		if a.Cost != b.Cost {
			return a.Cost < b.Cost
		}
		return a.Used > b.Used
	}
	for i := 1; i < len(r.Sums); i++ { // some thirty: by insertion
		for k := i; k > 0 && before(&r.Sums[k], &r.Sums[k-1]); k-- {
			r.Sums[k], r.Sums[k-1] = r.Sums[k-1], r.Sums[k]
		}
	}
}

// start weighs a cart.
func start(p *project.Project, c design.Cart) *run {
	r := &run{p: p, c: c, t: c.Tape, told: map[string]bool{}}
	r.bodies = r.weigh()
	return r
}

// add adds a check under a title of its own: two drawers may have one name.
func (r *run) add(s Sum) {
	title := s.Title
	for n := 2; r.told["sum "+s.Title]; n++ {
		s.Title = title + " (" + strconv.Itoa(n) + ")"
	}
	r.told["sum "+s.Title] = true
	r.Sums = append(r.Sums, s)
}

func (r *run) warn(code issue.Code, path string, args ...any) {
	r.Findings.Add(issue.Warn, code, []string{path}, args...)
}

func (s *Sum) row(cause, factors, result string) {
	s.Rows = append(s.Rows, SumRow{Cause: cause, Factors: factors, Result: result})
}

func (s *Sum) total(cause, result string) {
	s.Rows = append(s.Rows, SumRow{Cause: cause, Result: result, Total: true})
}

func (s *Sum) end(st State, verdict string) { s.State, s.Verdict = st, verdict }

// within ends a sum by whether v is at most limit, and says how much of it v is.
func (s *Sum) within(v, limit float64, fine, bad string) bool {
	if limit > 0 && v >= 0 && v < 1e6*limit {
		s.Used = v / limit
		s.row("margin", "asked for ÷ allowed", percent(s.Used)+" %")
	}
	if v <= limit {
		s.end(Fine, "Fine: "+fine)
		return true
	}
	s.end(Fails, bad) // also what is not a number
	return false
}

// drawerName is what a drawer is called, from 0.
func (r *run) drawerName(i int) string {
	d := r.c.Drawers[i]
	if d.Bay < len(r.c.Bays) && d.Opening < len(r.c.Bays[d.Bay].Openings) {
		return r.c.Bays[d.Bay].Openings[d.Opening].Name
	}
	return "drawer " + strconv.Itoa(i+1)
}

func (r *run) drawerPath(i int) string {
	d := r.c.Drawers[i]
	return "cabinet.bays." + strconv.Itoa(d.Bay) + ".openings." + strconv.Itoa(d.Opening)
}

// try makes a change in a copy of the project and returns the run of the cart
// that comes of it; nil if it cannot be made or built.
func (r *run) try(path, value string) *run {
	if r.quick {
		return nil
	}
	p := r.p.Clone()
	if project.SetAll(p, path, value) != nil {
		return nil
	}
	c, f := design.Build(p)
	if len(c.Parts) == 0 || f.Blocked() || len(c.Drawers) != len(r.c.Drawers) {
		return nil
	}
	q := start(p, c)
	q.quick = true
	return q
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// positive is v, or the default if there is no sensible one.
func positive(v, def float64) float64 {
	if v > 0 {
		return v
	}
	return def
}

func fixed(v float64, places int) string { return strconv.FormatFloat(v, 'f', places, 64) }

// The user's units for what is no length of the tape.

func (r *run) kg(kg float64) string { // a weight
	return r.t.ShowMass(mass(kg)) + " " + r.t.MassUnit()
}

func (r *run) force(n float64) string {
	if r.t.Metric {
		return fixed(n, 0) + " N"
	}
	return fixed(n/lbf, 1) + " lb"
}

func (r *run) moment(nm float64) string {
	if r.t.Metric {
		return fixed(nm, 1) + " N·m"
	}
	return fixed(nm/(lbf*inch), 1) + " lb·in"
}

func (r *run) size(m float64) string { // a small or computed length
	if r.t.Metric {
		return fixed(m*1000, 2) + " mm"
	}
	return fixed(m/inch, 3) + " in"
}

func (r *run) bare(m float64) string { // the same without its unit
	return plain(r.size(m))
}

// plain is a quantity without its unit, plainUnit the unit alone.
func plain(s string) string {
	s, _, _ = strings.Cut(s, " ")
	return s
}

func plainUnit(s string) string {
	_, u, _ := strings.Cut(s, " ")
	return u
}

func (r *run) long(m float64) string {
	if r.t.Metric {
		return fixed(m*1000, 0)
	}
	return fixed(m/inch, 1)
}

func (r *run) unit(m float64) string { return r.long(m) + " " + r.t.Unit() }

func (r *run) stiff(pa float64) string {
	if r.t.Metric {
		return fixed(pa/1e6, 0) + " N/mm²"
	}
	return strconv.Itoa(int(min(pa/psi, 1e9)+0.5)/1000) + ",000 psi"
}
