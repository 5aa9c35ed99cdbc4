package check

import (
	"math"
	"strconv"
	"strings"

	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// Learned is what measured pieces tell about one of the user's saws. Metres.
type Learned struct {
	Saw         string // its name; "" if nobody noted which
	Pieces      int
	Mean        float64 // pieces come out longer than planned by this
	Scatter     float64 // deviation of a single piece
	MeanError   float64 // half of the 95 % interval of Mean
	ScatterFrom float64 // the 95 % interval of Scatter, nearly
	ScatterTo   float64
	Kerf        float64 // true kerf, 0 if no cut has both its pieces measured
	KerfError   float64 // half of its 95 % interval, 0 from a single cut
	Kerfs       int     // from how many cuts
}

// students are Student's t for 95 %, two-sided, by degrees of freedom from 1
// (printed in every table of it).
var students = [...]float64{12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160, 2.145, 2.131}

// Learn returns the mean of the offsets with its 95 % interval by Student's t,
// and their deviation, with about its own: s·(1 ± 2/√(2(n − 1))). Fewer than two
// tell no scatter.
func Learn(offsets []float64) Learned {
	n := len(offsets)
	l := Learned{Pieces: n}
	if n == 0 {
		return l
	}
	for _, v := range offsets {
		l.Mean += v
	}
	l.Mean /= float64(n)
	if n == 1 {
		l.MeanError = math.Inf(1)
		return l
	}
	var sum float64
	for _, v := range offsets {
		sum += float64((v - l.Mean) * (v - l.Mean))
	}
	l.Scatter = math.Sqrt(sum / float64(n-1))
	t := 1.96 + 2.5/float64(n-1)
	if n-2 < len(students) {
		t = students[n-2]
	}
	l.MeanError = t * l.Scatter / math.Sqrt(float64(n))
	rel := 2 / math.Sqrt(2*float64(n-1))
	l.ScatterFrom, l.ScatterTo = l.Scatter*max(1-rel, 0), l.Scatter*(1+rel)
	return l
}

// sure reports whether the mean is more than chance.
func (l Learned) sure() bool { return l.Pieces >= 3 && math.Abs(l.Mean) > l.MeanError }

// A sample is what the journal says of one saw, in metres.
type sample struct {
	saw         string
	offs, kerfs []float64
}

// offsets reads the test cuts and the measured pieces of the journal, saw by saw:
// one offset for each piece and axis, by the latest entry that nobody took back. An entry that
// names no saw and says that a piece is as planned takes an earlier one back.
// Slips of more than half an inch are mis-cuts, not scatter. Where the saw was
// not noted it is the only one there is.
func offsets(p *project.Project) []sample {
	saws := p.Shop.Saws
	only := ""
	if len(saws) == 1 {
		only = or(saws[0].Name, saws[0].Kind)
	}
	var out []sample
	of := func(saw string) *sample {
		for i := range out {
			if out[i].saw == saw {
				return &out[i]
			}
		}
		out = append(out, sample{saw: saw})
		return &out[len(out)-1]
	}
	for _, w := range saws {
		for _, t := range w.Trials {
			s := of(or(w.Name, w.Kind))
			if off := t.Got - t.Set; t.Set > 0 && t.Got > 0 && off.Abs() <= measure.Inch/2 {
				s.offs = append(s.offs, off.Metres())
			}
			if k := t.From - t.Got - t.Rest; t.Got > 0 && t.Rest > 0 && k > 0 && k < measure.Inch/2 {
				s.kerfs = append(s.kerfs, k.Metres())
			}
		}
	}
	type spot struct {
		plan string
		p    mark.Piece
		axis string
	}
	undone := map[mark.Ref]bool{}
	all := mark.Sorted(p.Journal)
	for _, m := range all {
		if m.Kind == mark.Undone && m.Undoes != nil {
			undone[*m.Undoes] = true
		}
	}
	type seen struct {
		saw     string
		is, off measure.Length
		gone    bool
	}
	var pieces []seen
	index := map[spot]int{} // in pieces
	for _, m := range all {
		if m.Kind != mark.Measured || m.Piece == nil || undone[m.Ref()] || m.Value <= 0 {
			continue
		}
		k := spot{m.Plan, *m.Piece, m.Axis}
		plan := m.Piece.W
		if m.Axis == "x" {
			plan = m.Piece.L
		}
		if (m.Value - plan).Abs() > measure.Inch/2 {
			continue
		}
		i, ok := index[k]
		if !ok {
			i = len(pieces)
			index[k], pieces = i, append(pieces, seen{saw: only})
		}
		if m.Saw != "" {
			pieces[i].saw = m.Saw
		}
		pieces[i].is, pieces[i].off, pieces[i].gone = m.Value, m.Value-plan, m.Saw == "" && m.Value == plan
	}
	for _, q := range pieces {
		if !q.gone {
			s := of(q.saw)
			s.offs = append(s.offs, q.off.Metres())
		}
	}
	// A cut whose both pieces were measured, from a piece that was too, tells
	// its kerf.
	for _, m := range all {
		if m.Kind != mark.Done || m.Piece == nil || len(m.Pieces) != 2 || undone[m.Ref()] {
			continue
		}
		got := func(p mark.Piece) (measure.Length, bool) {
			if i, ok := index[spot{m.Plan, p, m.Axis}]; ok && !pieces[i].gone {
				return pieces[i].is, true
			}
			return 0, false
		}
		whole, ok := got(*m.Piece)
		a, okA := got(m.Pieces[0])
		b, okB := got(m.Pieces[1])
		if k := whole - a - b; ok && okA && okB && k > 0 && k < measure.Inch/2 {
			s := of(or(m.Saw, only))
			s.kerfs = append(s.kerfs, k.Metres())
		}
	}
	return out
}

// learn tells what the marks say about each saw.
func (r *run) learn() {
	var pool []float64
	for _, s := range offsets(r.p) {
		l := Learn(s.offs)
		l.Saw = s.saw
		if k := Learn(s.kerfs); k.Pieces > 0 {
			l.Kerf, l.Kerfs = k.Mean, k.Pieces
			if k.Pieces > 1 {
				l.KerfError = k.MeanError
			}
		}
		if l.Pieces == 1 {
			l.MeanError = 0 // not a number to keep
		}
		pool = append(pool, s.offs...)
		r.Saws = append(r.Saws, l)
		r.learned(l)
	}
	if r.pool = Learn(pool); r.pool.Pieces == 1 {
		r.pool.MeanError = 0
	}
}

// learned tells what the marks say about one saw.
func (r *run) learned(l Learned) {
	name := or(l.Saw, "your saw")
	if l.Saw != "" {
		name = "the " + name
	}
	s := Sum{Title: "What " + name + " does", Cost: Time, Source: "Mean of measured less planned sizes with its 95 % interval by Student's t; standard deviation with about its own. Kerf: a piece less both that come of it. Mis-cuts of more than half an inch are left out. Measure pieces that came out right too, or it seems worse than it is. From five pieces on the odds use it."}
	if l.Pieces < 3 {
		s.end(NotChecked, "Not known yet: "+count(l.Pieces, "piece is", "pieces are")+" measured, three are needed.")
		if l.Pieces > 0 {
			r.add(s)
		}
		return
	}
	s.row("pieces measured", "", strconv.Itoa(l.Pieces))
	s.row("come out longer by", "± "+r.size(l.MeanError), r.size(l.Mean))
	s.row("scatter, one deviation", r.size(l.ScatterFrom)+" to "+r.size(l.ScatterTo), r.size(l.Scatter))
	r.kerf(&s, l)
	if !l.sure() {
		s.end(Fine, "Fine: no offset beyond chance; scatter ± "+r.size(3*l.Scatter)+".")
		r.add(s)
		return
	}
	word, by := "long", l.Mean
	if by < 0 {
		word, by = "short", -by
	}
	fix := ""
	if sub := r.settings(l); len(sub.Rows) > 0 {
		s.Subs = append(s.Subs, sub)
		fix = " For " + sub.Rows[0].Factors + " " + sub.Rows[0].Result + "."
	}
	s.end(Fact, "Pieces come out "+r.size(by)+" "+word+", ± "+r.size(l.MeanError)+"."+fix)
	r.Findings.Add(issue.Note, Offset, []string{"shop.accuracy"}, word, r.size(by), r.size(l.MeanError), l.Pieces, fix)
	s.Mends = append(s.Mends, Mend{Text: "Move the fence by " + r.size(by), Result: "centres the pieces; scatter stays", Mends: true})
	r.add(s)
}

// kerf holds the kerf that was learned against the one that is planned with.
func (r *run) kerf(s *Sum, l Learned) {
	if l.Kerfs == 0 {
		s.row("kerf", "measure in a test cut what it is from and what is left", "not known")
		return
	}
	how := "from " + count(l.Kerfs, "cut", "cuts")
	if l.KerfError > 0 {
		how += ", ± " + r.size(l.KerfError)
	}
	s.row("kerf", how, r.size(l.Kerf))
	for i, w := range r.p.Shop.Saws {
		if or(w.Name, w.Kind) != l.Saw {
			continue
		}
		s.row("kerf planned with", "", r.size(w.Kerf.Metres()))
		if k := metres(l.Kerf); (k-w.Kerf).Abs() > measure.MM/10 && l.Kerfs > 1 && (k-w.Kerf).Abs().Metres() > l.KerfError {
			v := r.fine().Exact(r.fine().Ceil(k))
			s.Mends = append(s.Mends, Mend{"shop.saws." + strconv.Itoa(i) + ".kerf", v, "Plan with a kerf of " + v, "as it was measured", true})
		}
	}
}

// fine is the user's tape to 1/64 in or 0.1 mm.
func (r *run) fine() measure.Tape {
	t := r.t
	if t.Step = measure.Inch64; t.Metric {
		t.Step = measure.MM / 10
	}
	return t
}

// settings are the corrected settings of a saw for the parts that it brings to
// size, the size that is asked for most first.
func (r *run) settings(l Learned) Sub {
	sub := Sub{Title: "Settings that correct it", Result: r.size(l.Mean) + " less"}
	if l.Mean < 0 {
		sub.Result = r.size(-l.Mean) + " more"
	}
	type want struct {
		size measure.Length
		tags string
		n    int
	}
	var all []want
	for i, q := range r.c.Lines {
		for _, size := range [...]measure.Length{q.Length, q.Width} {
			if on := r.sawOf(i, size); size <= 3*measure.Inch || on != "" && l.Saw != "" && on != l.Saw {
				continue // strips are planed to fit
			}
			k := 0
			for k < len(all) && all[k].size != size {
				k++
			}
			if k == len(all) {
				all = append(all, want{size: size})
			}
			if !strings.Contains(all[k].tags+",", " "+q.Tag+",") {
				all[k].tags += ", " + q.Tag
			}
			all[k].n += q.Count
		}
	}
	for len(all) > 0 {
		best := 0
		for i := range all {
			if all[i].n > all[best].n {
				best = i
			}
		}
		w := all[best]
		all = append(all[:best], all[best+1:]...)
		fine := r.fine()
		sub.Rows = append(sub.Rows, SumRow{Cause: strings.TrimPrefix(w.tags, ", "), Factors: r.t.Show(w.size), Result: "set " + fine.Show(fine.Round(w.size-metres(l.Mean)))})
	}
	return sub
}

// sawOf is the saw that brings the parts of a line to a size, "" if no cut is
// known that does: the cut that frees the part, or an earlier one on what it was
// cut from.
func (r *run) sawOf(line int, size measure.Length) string {
	for i := range r.steps.Shop {
		c := &r.steps.Shop[i]
		for k, kind := range c.Kinds {
			if kind != work.ToPart || k >= len(c.Lines) || c.Lines[k] != line {
				continue
			}
			m := c.Makes[k]
			for range 50 {
				if c.Along(m.L, m.W) == size {
					return c.On()
				}
				m = c.Piece
				if c = r.makes(m); c == nil {
					return ""
				}
			}
		}
	}
	return ""
}

// makes is the shop cut that a piece comes of.
func (r *run) makes(p mark.Piece) *work.Cut {
	p.Name = ""
	for i := range r.steps.Shop {
		for _, m := range r.steps.Shop[i].Makes {
			if m.Name = ""; m == p {
				return &r.steps.Shop[i]
			}
		}
	}
	return nil
}

// metres is the Length nearest to m metres.
func metres(m float64) measure.Length {
	v := m * float64(measure.Metre)
	if v < 0 {
		return -measure.Length(-v + .5)
	}
	return measure.Length(v + .5)
}
