package check

import (
	"strconv"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// chained builds the chains of the cart, with a change or without.
func (r *run) chained(w with) ([]Source, []Chain) {
	k := &chainer{run: r, with: w, at: map[string]int{}}
	a, _ := r.accuracy()
	if k.half = a / 2; w.closer {
		k.half /= 2
	}
	if r.p.Store.Cuts != "none" {
		k.store = max(r.p.Store.Accuracy-r.trim(), 0).Metres()
	}
	k.build()
	return k.src, k.chains
}

// trim is what is taken off each store edge at home.
func (r *run) trim() measure.Length {
	switch t := r.p.Store.Trim; {
	case t > 0:
		return t
	case r.t.Metric:
		return 6 * measure.MM
	}
	return measure.Inch / 4
}

// accuracy is ± of one cut and where that comes from.
func (r *run) accuracy() (a float64, from string) {
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
	s := Sum{Title: "Will it fit", Cost: Spoils, Source: "Each gap as a chain of sources, ± three deviations each. Worst case Σ|n·T|; likely √Σ(n·T)² (Scholz, 1995), what is shared counted n-fold; odds by " + strconv.Itoa(tries) + " carts made by chance, normal by the sum of eight even numbers. Of a saw that was measured (see What your saw does) its offset is shared by all it cuts, and ± three of its deviations are each cut's own; of another, half of a cut's ± is its fence setting, shared by all parts cut on it, half its own (common practice, no source). Thickness: ± 0.1 mm measured, else by PS 1-19 or A208.2. Slides run with 0.4 mm to 1/16 in of play. What rounding to the tape does is known, and in the planned gaps. Finished edges are sawn at home: a store cut counts as far as it is off by more than the trim."}
	if len(chains) == 0 {
		s.end(NotChecked, "Not checked: there is no drawer, no thing to hold and no height to meet.")
		r.add(s)
		return
	}
	s.row("a cut, ±", from, r.size(a))
	for _, l := range r.Saws {
		if l.Pieces >= 5 && l.Scatter > 0 {
			s.row("a cut of "+or(l.Saw, "your saw")+", ±", "three deviations of "+strconv.Itoa(l.Pieces)+" pieces", r.size(3*l.Scatter))
		}
	}
	switch off := r.p.Store.Accuracy; {
	case r.p.Store.Cuts == "none":
	case off <= 0:
		s.row("store cuts", "their accuracy is not entered; the trim takes off", r.size(r.trim().Metres()))
	default:
		s.row("store cuts beyond the trim", r.size(off.Metres())+" − "+r.size(r.trim().Metres()), r.size(max(off-r.trim(), 0).Metres()))
	}
	r.Odds = Sample(src, chains, tries, r.p.Seed)
	o := r.Odds
	weak, shared := 0, 0
	for i, c := range o.Chains {
		s.Subs = append(s.Subs, r.links(src, chains[i], c))
		if c.Fits < o.Chains[weak].Fits {
			weak = i
		}
		if ch := o.Chains[shared]; c.Likely-c.Apart > ch.Likely-ch.Apart {
			shared = i
		}
	}
	s.row("the weakest, "+o.Chains[weak].Name, "± "+r.size(o.Chains[weak].Likely)+", at worst ± "+r.size(o.Chains[weak].Worst), percent(o.Chains[weak].Fits)+" %")
	if c := o.Chains[shared]; c.Likely > c.Apart*1.05 {
		s.row("as if no error were shared, "+c.Name, "too small: likely ± "+r.size(c.Likely), "± "+r.size(c.Apart))
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
		r.Findings.Add(level, OddsLow, []string{"shop.accuracy"}, what, percent(p), fixed(Error(p, o.Tries)*100, 1), o.Chains[weak].Name, r.size(o.Chains[weak].Worst))
	}
	if p < .95 {
		r.fitMends(&s, p)
	}
	r.add(s)
}

// links is the sum of one chain: the planned gap, what rounding did, every
// source with what it can do, what they do together.
func (r *run) links(src []Source, c Chain, o ChainOdds) Sub {
	sub := Sub{Title: c.Name, Result: r.bare(c.Gap) + " ± " + r.bare(o.Likely) + ": " + percent(o.Fits) + " %"}
	put := func(cause, factors, result string) {
		sub.Rows = append(sub.Rows, SumRow{Cause: cause, Factors: factors, Result: result})
	}
	put("planned gap", "", r.size(c.Gap))
	if c.Most < noLimit {
		put("it may be", r.size(c.Least)+" to "+r.size(c.Most), "")
	} else {
		put("it may be", "from "+r.size(c.Least)+" on", "")
	}
	for i, k := range c.Known {
		n := 1.0
		for _, x := range c.Known[:i] {
			if x == k {
				n = 0
			}
		}
		for _, x := range c.Known[i+1:] {
			if x == k {
				n++
			}
		}
		if n > 0 && k.Off != 0 {
			put("in it: rounding to the tape, "+k.Name, "known", r.size(n*k.Off))
		}
	}
	for _, t := range c.factors() {
		v := src[t.Source]
		how := times(t.Times) + " ± " + r.size(v.Tol)
		if v.Mean != 0 {
			how = times(t.Times) + " (" + r.size(v.Mean) + " ± " + r.size(v.Tol) + ")"
		}
		put(v.Name, how, "± "+r.size(max(t.Times, -t.Times)*v.Tol))
	}
	if c.drawer && r.p.Store.Cuts != "none" && r.p.Store.Accuracy <= r.trim() {
		put("store cuts", "trimmed off at home", r.size(0))
	}
	put("worst case", "all of them added up", "± "+r.size(o.Worst))
	put("likely", "root of the sum of their squares", "± "+r.size(o.Likely))
	if o.Likely > o.Apart*1.0001 {
		put("as if no error were shared", "too small", "± "+r.size(o.Apart))
	}
	sub.Rows = append(sub.Rows, SumRow{Cause: "comes out", Factors: "± " + fixed(Error(o.Fits, r.Odds.Tries)*100, 1) + ", of " + strconv.Itoa(r.Odds.Tries) + " carts", Result: percent(o.Fits) + " %", Total: true})
	return sub
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

// fitMends tries one change at a time, the most helpful first, and says what
// each of them gives.
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
			q.Saws, q.pool, q.steps = r.Saws, r.pool, r.steps
		}
		p := chance(q, w)
		found = append(found, option{Mend{path, value, text, percent(p) + " %, now " + percent(now) + " %", p >= .95}, p})
	}
	if m := r.unmeasured(); m >= 0 {
		try(with{measured: true}, "stock.materials."+strconv.Itoa(m)+".measured", "", "Measure the sheets with a caliper and enter it")
	}
	if len(r.c.Drawers) > 0 {
		try(with{after: true}, "", "", "Cut boxes and fronts after the case stands, by the measured opening")
		step := r.t.Least()
		try(with{}, "drawers.allowance", r.t.Exact(play+step), "Boxes "+r.t.Text(step)+" narrower")
		if play > step {
			try(with{}, "drawers.allowance", r.t.Exact(play-step), "Boxes "+r.t.Text(step)+" wider")
		}
	}
	path, v := "shop.accuracy", r.t.Exact(metres(a/2))
	if len(r.Saws) > 0 {
		path, v = "", "" // what was measured counts, not what is entered
	}
	try(with{closer: true}, path, v, "Cut twice as closely, with stops and test pieces")
	sub := Sub{Title: "What one change gives"}
	for len(found) > 0 {
		best := 0
		for i := range found {
			if found[i].p > found[best].p {
				best = i
			}
		}
		f := found[best]
		found = append(found[:best], found[best+1:]...)
		if len(sub.Rows) == 0 {
			sub.Result = "most: " + f.m.Text
			if f.p <= now+.01 {
				sub.Result = "none helps by itself"
			}
		}
		sub.Rows = append(sub.Rows, SumRow{Cause: f.m.Text, Result: percent(f.p) + " %"})
		if f.p > now+.01 {
			s.Mends = append(s.Mends, f.m)
		}
	}
	s.Subs = append(s.Subs, sub)
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
