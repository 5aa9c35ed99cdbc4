package check

import (
	"strconv"
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// tries of the sampling: a standard error of 1.1 % at most.
const tries = 2000

// noLimit stands for a gap that may be as wide as it likes.
const noLimit = 1e3

// with says how the chains are built: as the project stands, or with a change.
type with struct {
	measured bool    // every sheet's thickness measured with a caliper
	after    bool    // boxes and fronts cut once the case stands
	accuracy float64 // of cuts, in metres; 0: the user's
}

// A chainer builds the chains of a cart over shared sources.
type chainer struct {
	*run
	with
	src    []Source
	at     map[string]int
	half   float64 // of the accuracy of a cut
	mean   float64 // learned offset of cuts
	chains []Chain
}

const caliper = 1e-4 // ± of a thickness read with a caliper: common practice, no source

// source returns the index of a source, made when it is first asked for.
func (k *chainer) source(name string, tol, mean float64) int {
	i, ok := k.at[name]
	if !ok {
		i = len(k.src)
		k.at[name] = i
		k.src = append(k.src, Source{name, tol, mean})
	}
	return i
}

// thick is how far a material can be from the thickness planned with.
func (k *chainer) thick(id string) int {
	m, _ := k.p.Material(id)
	tol := inch / 32 // PS 1-19, unsanded panels up to 13/16
	switch {
	case k.measured || m.Measured > 0:
		tol = caliper
	case m.Kind == "mdf":
		tol = 2.5e-4 // A208.2: average and within a panel, 0.125 mm each
	case m.Kind == "solid":
		tol = inch / 64 // common practice, no source
	}
	if m.Scatter > 0 && !k.measured {
		tol = m.Scatter.Metres()
	}
	return k.source("thickness of "+or(m.Name, id), tol, 0)
}

// cut adds a cut of one setting and its own scatter: half of the accuracy each.
func (k *chainer) cut(c *Chain, times float64, setting, own string) {
	c.Terms = append(c.Terms, Term{k.source("setting of "+setting, k.half, k.mean), times}, Term{k.source("cut of "+own, k.half, 0), times})
}

// opening adds what the clear width of a bay comes of.
func (k *chainer) opening(c *Chain, i int) {
	p, name := k.p, k.c.Bays[i].Name
	if i < len(p.Cabinet.Bays) {
		if m := p.Cabinet.Bays[i].Measured; k.after || m != nil && (m.Front > 0 || m.Back > 0) {
			c.Terms = append(c.Terms, Term{k.source("measuring "+name, k.t.Least().Metres()/2, 0), 1})
			return
		}
	}
	bays := p.Cabinet.Bays
	fixed := func(j int) bool { return j < len(bays) && bays[j].Width > 0 }
	layout := func(j int, times float64) {
		c.Terms = append(c.Terms, Term{k.source("laying out bay "+strconv.Itoa(j+1), 2*k.half, 0), times})
	}
	if fixed(i) || p.Cabinet.Face.Kind == "frame" {
		layout(i, 1)
		return
	}
	// It takes what the case leaves: every upright's thickness counts, and the
	// other bays as they were laid out.
	k.cut(c, 1, "the bottom's length", "the bottom")
	t := k.thick(p.Cabinet.Material)
	uprights := len(k.c.Bays) + 1
	if p.Cabinet.Bottom == "between" {
		uprights -= 2
	}
	for range uprights {
		c.Terms = append(c.Terms, Term{t, -1})
	}
	for j := range k.c.Bays {
		if j != i {
			layout(j, -1)
		}
	}
}

func (k *chainer) add(c Chain) { k.chains = append(k.chains, c) }

// build makes all chains of the cart.
func (k *chainer) build() {
	p, c := k.p, k.c
	box := k.thick(p.Drawers.Box)
	slide := positive(p.Drawers.SlideThick.Metres(), inch/2)
	least, most := .0004, inch/16 // a slide maker's guide; a carpenter's account
	if p.Drawers.Slide == "wood" {
		slide, most = 0, inch/4 // common practice, no source
	}
	for i, d := range c.Drawers {
		name := k.drawerName(i)
		ch := Chain{Name: name + " on its slides", Gap: 2 * (d.Side.Metres() - slide), Least: least, Most: most, Path: "drawers.allowance", drawer: true}
		k.opening(&ch, d.Bay)
		// Front and back of a box are cut together at one stop.
		k.cut(&ch, -1, "box fronts of "+k.t.Text(d.Inside.Size(geom.X)), "the box of drawer "+strconv.Itoa(i+1))
		ch.Terms = append(ch.Terms, Term{box, -1}, Term{box, -1})
		k.add(ch)
	}
	if p.Drawers.Fit != "overlay" {
		k.fronts()
	}
	for i, b := range p.Cabinet.Bays {
		for _, o := range b.Openings {
			if o.Holds == nil || o.Holds.Width <= 0 || i >= len(c.Bays) {
				continue
			}
			gap := c.Bays[i].Width - o.Holds.Width
			ch := Chain{Name: or(o.Holds.Name, "what it holds") + " in " + c.Bays[i].Name, Gap: gap.Metres(), Most: noLimit, Path: "cabinet.bays." + strconv.Itoa(i) + ".width"}
			k.opening(&ch, i)
			k.add(ch)
		}
	}
	k.height()
}

// fronts adds the reveals of inset fronts, across and up.
func (k *chainer) fronts() {
	c := k.c
	for i, d := range c.Drawers {
		gap := (d.GapLeft + d.GapRight).Metres()
		ch := Chain{Name: "front of " + k.drawerName(i) + ", sideways", Gap: gap, Least: inch / 32, Most: 2*gap + inch/32, Path: "drawers.gap"}
		k.opening(&ch, d.Bay)
		k.cut(&ch, -1, "fronts of "+k.t.Text(d.Front.Size(geom.X)), "the front of drawer "+strconv.Itoa(i+1))
		k.add(ch)
	}
	for j, b := range c.Bays {
		ch := Chain{Name: "fronts of " + b.Name + ", up", Path: "drawers.gap"}
		n := 0
		last := measure.Length(0)
		for i, d := range c.Drawers {
			if d.Bay != j {
				continue
			}
			n++
			ch.Gap += d.GapAbove.Metres()
			last = d.GapBelow
			k.cut(&ch, -1, "fronts "+k.t.Text(d.Front.Size(geom.Z))+" high", "the height of front "+strconv.Itoa(i+1))
		}
		if n == 0 || n != len(b.Openings) {
			continue // an open cell takes what is left
		}
		ch.Gap += last.Metres()
		ch.Least, ch.Most = float64(n+1)*inch/64, 2*ch.Gap+inch/32
		k.cut(&ch, 1, "the sides' height", "a side")
		if u := k.p.Cabinet.Upper; u != "" && u != "sides" {
			ch.Terms = append(ch.Terms, Term{k.thick(k.p.Cabinet.Material), -1})
		}
		if k.p.Cabinet.Bottom == "between" {
			ch.Terms = append(ch.Terms, Term{k.thick(k.p.Cabinet.Material), -1})
		}
		k.add(ch)
	}
}

// height adds the line-up of the machine's table with the other surface.
func (k *chainer) height() {
	p, c := k.p, k.c
	if c.Surface <= 0 {
		return
	}
	step := positive(p.LineUp.Step.Metres(), inch/16)
	ch := Chain{Name: "line-up with the " + or(p.LineUp.Name, "other surface"), Gap: (c.Reached - c.Surface).Metres(), Least: -step, Most: step, Path: "lineUp.step"}
	switch p.LineUp.Role {
	case "", "receives":
		ch.Least, ch.Most = 0, 3*step
	case "feeds":
		ch.Least, ch.Most = -3*step, 0
	}
	k.cut(&ch, 1, "the sides' height", "a side")
	tape := k.t.Least().Metres() / 2
	if p.Cabinet.Bottom != "between" {
		ch.Terms = append(ch.Terms, Term{k.thick(p.Cabinet.Material), 1})
	}
	top := k.thick(or(p.Cabinet.Top.Material, p.Cabinet.Material))
	for range min(max(p.Cabinet.Top.Layers, 1), 2) {
		ch.Terms = append(ch.Terms, Term{top, 1})
	}
	ch.Terms = append(ch.Terms,
		Term{k.source("measuring the casters", tape, 0), 1},
		Term{k.source("measuring the machine", tape, 0), 1},
		Term{k.source("measuring the other surface", tape, 0), -1})
	k.add(ch)
}

// chained builds the chains of the cart, with a change or without.
func (r *run) chained(w with) ([]Source, []Chain) {
	k := &chainer{run: r, with: w, at: map[string]int{}}
	a, _ := r.accuracy()
	if w.accuracy > 0 {
		a = w.accuracy
	}
	k.half = a / 2
	if r.Saw.Pieces >= 5 && r.Saw.sure() {
		k.mean = r.Saw.Mean
	}
	k.build()
	return k.src, k.chains
}

// accuracy is ± of one cut and where that comes from.
func (r *run) accuracy() (a float64, from string) {
	if l := r.Saw; l.Pieces >= 5 && l.Scatter > 0 {
		return 3 * l.Scatter, "three deviations of your measured pieces"
	}
	if v := r.p.Shop.Accuracy; v > 0 {
		return v.Metres(), "your accuracy"
	}
	if r.t.Metric {
		return .0008, "the default, common practice"
	}
	return inch / 32, "the default, common practice"
}

// fits tells whether drawers, fronts and height will come out.
func (r *run) fits() {
	src, chains := r.chained(with{})
	a, from := r.accuracy()
	s := Sum{Title: "Will it fit", Source: "Each gap as a chain of sources, ± three deviations each. Worst case Σ|n·T|; likely √Σ(n·T)² (Scholz, 1995), what is shared counted n-fold; odds by " + strconv.Itoa(tries) + " carts made by chance, normal by the sum of eight even numbers. Half of a cut's ± is its fence setting, shared by all parts cut on it, half its own (common practice, no source). Thickness: ± 0.1 mm measured, else by PS 1-19 or A208.2. Slides run with 0.4 mm to 1/16 in of play. The tape's rounding is in the planned gaps. Store cuts are in none of them: every finished edge is sawn at home."}
	if len(chains) == 0 {
		s.end(NotChecked, "Not checked: there is no drawer, no thing to hold and no height to meet.")
		r.add(s)
		return
	}
	s.row("a cut, ±", from, r.size(a))
	s.row("each gap, "+r.t.Unit(), "planned ± likely", "comes out")
	r.Odds = Sample(src, chains, tries, r.p.Seed)
	o := r.Odds
	weak, shared := 0, 0
	for i, c := range o.Chains {
		s.row(c.Name, r.bare(c.Gap)+" ± "+r.bare(c.Likely)+", at worst ± "+r.bare(c.Worst), percent(c.Fits)+" %")
		if c.Fits < o.Chains[weak].Fits {
			weak = i
		}
		if ch := o.Chains[shared]; c.Likely-c.Apart > ch.Likely-ch.Apart {
			shared = i
		}
	}
	if c := o.Chains[shared]; c.Likely > c.Apart*1.05 {
		s.row("as if no error were shared, "+c.Name, "too small: likely ± "+r.size(c.Likely), "± "+r.size(c.Apart))
	}
	w := chains[weak]
	for _, t := range w.factors() {
		s.row("in "+w.Name+": "+src[t.Source].Name, times(t.Times)+" ± "+r.size(src[t.Source].Tol), "± "+r.size(max(t.Times, -t.Times)*src[t.Source].Tol))
	}
	for i, d := range r.c.Drawers {
		id := part.ID("bay" + strconv.Itoa(d.Bay+1) + "/drawer" + strconv.Itoa(d.Opening+1) + "/box-front")
		if q, ok := r.part(id); ok && w.drawer && strings.HasPrefix(w.Name, r.drawerName(i)) {
			s.row("in "+w.Name+": rounded to your tape", "known, and in the planned gap", r.size((-q.Reasons[0].Off).Metres()))
			break
		}
	}
	if w.drawer {
		s.row("in "+w.Name+": store cuts", "trimmed off at home", r.size(0))
	}
	se := func(p float64) string { return " (± " + fixed(Error(p, o.Tries)*100, 1) + ")" }
	p, what := o.All, "All gaps come out"
	word := what + " without a shim: " + percent(o.All) + " %" + se(o.All) + "."
	if n := len(r.c.Drawers); n > 0 {
		p, what = o.Drawers, "All "+strconv.Itoa(n)+" drawers run"
		if n == 1 {
			what = "The drawer runs"
		}
		word = what + " without a shim: " + percent(o.Drawers) + " %" + se(o.Drawers) + ". All gaps together: " + percent(o.All) + " %."
	}
	switch {
	case p >= .95:
		s.end(Fine, "Fine. "+word)
	case p >= .8:
		s.end(Fact, word)
	default:
		level := issue.Note
		s.end(Fact, word)
		if p < .5 {
			level = issue.Warn
			s.end(Fails, word)
		}
		r.Findings.Add(level, OddsLow, []string{"shop.accuracy"}, what, percent(p), fixed(Error(p, o.Tries)*100, 1), w.Name, r.size(o.Chains[weak].Worst))
	}
	if p < .95 {
		r.fitMends(&s, p)
	}
	r.add(s)
}

// only returns the drawers' chains and the sources that stand in them.
func only(src []Source, chains []Chain) ([]Source, []Chain) {
	at := make([]int, len(src))
	var s []Source
	var out []Chain
	for _, c := range chains {
		if !c.drawer {
			continue
		}
		terms := c.Terms
		c.Terms = make([]Term, len(terms))
		for i, t := range terms {
			if at[t.Source] == 0 {
				s = append(s, src[t.Source])
				at[t.Source] = len(s)
			}
			c.Terms[i] = Term{at[t.Source] - 1, t.Times}
		}
		out = append(out, c)
	}
	return s, out
}

func times(n float64) string {
	if n < 0 {
		n = -n
	}
	return fixed(n, 0) + " ×"
}

func percent(p float64) string { return fixed(p*100, 0) }

// fitMends tries one change at a time, the most helpful first.
func (r *run) fitMends(s *Sum, now float64) {
	if r.quick {
		return
	}
	chance := func(q *run, w with) float64 {
		src, chains := q.chained(w)
		if len(q.c.Drawers) > 0 {
			src, chains = only(src, chains)
		}
		return Sample(src, chains, tries/2, q.p.Seed).All
	}
	a, _ := r.accuracy()
	play := r.p.Drawers.Allowance
	if play <= 0 {
		play = measure.Inch / 32
		if r.t.Metric {
			play = 4 * measure.MM / 5
		}
	}
	type option struct {
		m Mend
		p float64
	}
	var found []option
	try := func(w with, path, value, text string) {
		q := r
		if path == "drawers.allowance" { // what the tape makes of it
			if q = r.try(path, value); q == nil {
				return
			}
			q.Saw = r.Saw
		}
		p := chance(q, w)
		if p > now+.01 {
			found = append(found, option{Mend{path, value, text, percent(p) + " %, now " + percent(now) + " %", p >= .95}, p})
		}
	}
	if m := r.unmeasured(); m >= 0 {
		try(with{measured: true}, "", "", "Measure the sheets with a caliper and enter it at Material")
	}
	if len(r.c.Drawers) > 0 {
		try(with{after: true}, "", "", "Cut boxes and fronts after the case stands, by the measured opening")
		step := r.t.Least()
		try(with{}, "drawers.allowance", r.t.Exact(play+step), "Boxes "+r.t.Text(step)+" narrower")
		if play > step {
			try(with{}, "drawers.allowance", r.t.Exact(play-step), "Boxes "+r.t.Text(step)+" wider")
		}
	}
	half := metres(a / 2)
	try(with{accuracy: a / 2}, "shop.accuracy", r.t.Exact(half), "Cut twice as closely, with stops and test pieces")
	for len(found) > 0 {
		best := 0
		for i := range found {
			if found[i].p > found[best].p {
				best = i
			}
		}
		s.Mends = append(s.Mends, found[best].m)
		found = append(found[:best], found[best+1:]...)
	}
}

// unmeasured is the index of the first sheet material in use that was not
// measured, -1 for none.
func (r *run) unmeasured() int {
	for i, m := range r.p.Stock.Materials {
		if m.Measured > 0 || m.Kind == "solid" {
			continue
		}
		for _, q := range r.c.Parts {
			if q.Material == m.ID {
				return i
			}
		}
	}
	return -1
}
