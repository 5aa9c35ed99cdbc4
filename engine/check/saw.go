package check

import (
	"math"
	"strconv"

	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// Learned is what measured pieces tell about the user's saw. Metres.
type Learned struct {
	Pieces      int
	Mean        float64 // pieces come out longer than planned by this
	Scatter     float64 // deviation of a single piece
	MeanError   float64 // half of the 95 % interval of Mean
	ScatterFrom float64 // the 95 % interval of Scatter, nearly
	ScatterTo   float64
	Kerf        float64 // true kerf, 0 if no cut has both its pieces measured
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

// offsets reads the measured pieces of the journal: one for each piece and
// axis, the latest entry that nobody took back. Slips of more than half an inch
// are mis-cuts, not scatter.
func offsets(journal []mark.Mark) (offs, kerfs []float64) {
	type spot struct {
		plan string
		p    mark.Piece
		axis string
	}
	var undone []mark.Ref
	all := mark.Merge(journal, nil)
	for _, m := range all {
		if m.Kind == mark.Undone && m.Undoes != nil {
			undone = append(undone, *m.Undoes)
		}
	}
	void := func(m mark.Mark) bool {
		for _, u := range undone {
			if u == m.Ref() {
				return true
			}
		}
		return false
	}
	var spots []spot
	at := func(k spot) int {
		for i, s := range spots {
			if s == k {
				return i
			}
		}
		return -1
	}
	var sizes []measure.Length
	for _, m := range all {
		if m.Kind != mark.Measured || m.Piece == nil || void(m) || m.Value <= 0 {
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
		i := at(k)
		if i < 0 {
			i = len(offs)
			spots = append(spots, k)
			offs, sizes = append(offs, 0), append(sizes, 0)
		}
		offs[i], sizes[i] = (m.Value - plan).Metres(), m.Value
	}
	// A cut whose both pieces were measured, from a piece that was too, tells
	// its kerf.
	for _, m := range all {
		if m.Kind != mark.Done || m.Piece == nil || len(m.Pieces) != 2 || void(m) {
			continue
		}
		got := func(p mark.Piece) (measure.Length, bool) {
			if i := at(spot{m.Plan, p, m.Axis}); i >= 0 {
				return sizes[i], true
			}
			return 0, false
		}
		whole, ok := got(*m.Piece)
		a, okA := got(m.Pieces[0])
		b, okB := got(m.Pieces[1])
		if k := whole - a - b; ok && okA && okB && k > 0 && k < measure.Inch/2 {
			kerfs = append(kerfs, k.Metres())
		}
	}
	return offs, kerfs
}

// learn tells what the marks say about the saw.
func (r *run) learn() {
	offs, kerfs := offsets(r.p.Journal)
	l := Learn(offs)
	for _, k := range kerfs {
		l.Kerf += k / float64(len(kerfs))
	}
	l.Kerfs = len(kerfs)
	s := Sum{Title: "What your saw does", Source: "Mean of measured less planned sizes with its 95 % interval by Student's t; standard deviation with about its own. Mis-cuts of more than half an inch are left out. From five pieces on the odds below use it."}
	if l.Pieces < 3 {
		if l.Pieces > 0 {
			s.end(NotChecked, "Not known yet: "+count(l.Pieces, "piece is", "pieces are")+" measured, three are needed.")
			r.add(s)
		}
		if l.Pieces == 1 {
			l.MeanError = 0 // not a number to keep
		}
		r.Saw = l
		return
	}
	r.Saw = l
	s.row("pieces measured", "", strconv.Itoa(l.Pieces))
	s.row("come out longer by", "± "+r.size(l.MeanError), r.size(l.Mean))
	s.row("scatter, one deviation", r.size(l.ScatterFrom)+" to "+r.size(l.ScatterTo), r.size(l.Scatter))
	if l.Kerfs > 0 {
		s.row("kerf", "from "+count(l.Kerfs, "cut", "cuts"), r.size(l.Kerf))
	} else {
		s.row("kerf", "measure a piece and both that come of it", "not known")
	}
	if !l.sure() {
		s.end(Fine, "Fine: no offset beyond chance; scatter ± "+r.size(3*l.Scatter)+".")
		r.add(s)
		return
	}
	// The setting that corrects it, for the piece that is asked for most.
	word, by := "long", l.Mean
	if by < 0 {
		word, by = "short", -by
	}
	fix := ""
	if len(r.c.Lines) > 0 {
		best := r.c.Lines[0]
		for _, q := range r.c.Lines {
			if q.Width > 3*measure.Inch && (q.Count > best.Count || best.Width <= 3*measure.Inch) {
				best = q // strips are planed to fit
			}
		}
		set := best.Width - metres(l.Mean)
		fine := r.t
		if fine.Step = measure.Inch64; r.t.Metric {
			fine.Step = measure.MM / 10
		}
		fix = " For " + r.t.Show(best.Width) + " set " + fine.Show(fine.Round(set)) + "."
	}
	s.end(Fact, "Pieces come out "+r.size(by)+" "+word+", ± "+r.size(l.MeanError)+"."+fix)
	r.Findings.Add(issue.Note, Offset, []string{"shop.accuracy"}, word, r.size(by), r.size(l.MeanError), l.Pieces, fix)
	s.Mends = append(s.Mends, Mend{Text: "Move the fence by " + r.size(by), Result: "centres the pieces; scatter stays", Mends: true})
	r.add(s)
}

// metres is the Length nearest to m metres.
func metres(m float64) measure.Length {
	v := m * float64(measure.Metre)
	if v < 0 {
		return -measure.Length(-v + .5)
	}
	return measure.Length(v + .5)
}
