package check

import (
	"math"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// TestSampleAgainstClosedForm: one source is normal, so the chance that it stays
// within k deviations is erf(k/√2); a sum of sources is normal again; a gap
// that only has a lower bound fits with Φ. Sums of eight even numbers are normal
// to within 0.004 here.
func TestSampleAgainstClosedForm(t *testing.T) {
	const n = 100_000
	two := func(k float64) float64 { return math.Erf(k / math.Sqrt2) }
	for _, tt := range []struct {
		name        string
		src         []Source
		terms       []Term
		least, most float64
		want        float64
	}{
		{"one deviation", []Source{{Tol: 3}}, []Term{{0, 1}}, -1, 1, two(1)},
		{"two deviations", []Source{{Tol: 3}}, []Term{{0, 1}}, -2, 2, two(2)},
		{"three", []Source{{Tol: 3}}, []Term{{0, 1}}, -3, 3, two(3)},
		{"two sources", []Source{{Tol: 3}, {Tol: 4}}, []Term{{0, 1}, {1, -1}}, -5. / 3, 5. / 3, two(1)},
		{"one source twice", []Source{{Tol: 3}}, []Term{{0, 1}, {0, 1}}, -2, 2, two(1)},
		{"one source against itself", []Source{{Tol: 3}}, []Term{{0, 1}, {0, -1}}, -.001, .001, 1},
		{"off its middle", []Source{{Tol: 3, Mean: 1}}, []Term{{0, 1}}, 0, noLimit, (1 + two(1)) / 2},
		{"no error", []Source{{Tol: 0}}, []Term{{0, 1}}, -1, 1, 1},
	} {
		o := Sample(tt.src, []Chain{{Least: tt.least, Most: tt.most, Terms: tt.terms}}, n, 7)
		got := o.Chains[0].Fits
		if d := math.Abs(got - tt.want); d > 4*Error(tt.want, n)+.004 {
			t.Errorf("%s: %.4f, closed form %.4f", tt.name, got, tt.want)
		}
		if again := Sample(tt.src, []Chain{{Least: tt.least, Most: tt.most, Terms: tt.terms}}, n, 7); again.All != o.All {
			t.Errorf("%s: another run of the same seed finds %v, not %v", tt.name, again.All, o.All)
		}
	}
	// Two chains over one source hold together; over two sources they multiply.
	pair := func(second int) float64 {
		c := Chain{Least: -1, Most: 1, Terms: []Term{{0, 1}}}
		d := Chain{Least: -1, Most: 1, Terms: []Term{{second, 1}}}
		return Sample([]Source{{Tol: 3}, {Tol: 3}}, []Chain{c, d}, n, 7).All
	}
	if p := two(1); math.Abs(pair(0)-p) > .01 || math.Abs(pair(1)-p*p) > .01 {
		t.Errorf("together %.3f and %.3f, want %.3f and %.3f", pair(0), pair(1), p, p*p)
	}
	// The standard error is that of a binomial: of 200 samples of 500 about 68 %
	// lie within it.
	in := 0
	for seed := range uint64(200) {
		o := Sample([]Source{{Tol: 3}}, []Chain{{Least: -1, Most: 1, Terms: []Term{{0, 1}}}}, 500, seed)
		if math.Abs(o.All-.6797) <= Error(.68, 500) {
			in++
		}
	}
	if in < 116 || in > 156 {
		t.Errorf("%d of 200 samples lie within their standard error, want about 136", in)
	}
}

// TestSharedErrors: in the sample project every upright comes from one sheet
// that nobody measured, and each box from another. Reckoned as if each part had
// an error of its own the drawers seem much better than they are.
func TestSharedErrors(t *testing.T) {
	p := samples(t)["odds"]
	c, _ := design.Build(p)
	r := start(p, c)
	src, chains := r.chained(with{})
	src, chains = only(src, chains)
	if len(chains) != 3 {
		t.Fatalf("%d drawers", len(chains))
	}
	var apartSrc []Source
	apart := make([]Chain, len(chains))
	for i, ch := range chains {
		apart[i] = ch
		apart[i].Terms = nil
		for _, tm := range ch.Terms {
			apart[i].Terms = append(apart[i].Terms, Term{len(apartSrc), tm.Times})
			apartSrc = append(apartSrc, src[tm.Source])
		}
	}
	true_ := Sample(src, chains, 20_000, 1)
	naive := Sample(apartSrc, apart, 20_000, 1)
	for i, ch := range true_.Chains {
		if ch.Apart > .75*ch.Likely || math.Abs(naive.Chains[i].Likely-ch.Apart) > 1e-12 {
			t.Errorf("%s: likely %.5f, as if apart %.5f, %.5f", ch.Name, ch.Likely, ch.Apart, naive.Chains[i].Likely)
		}
		if d := naive.Chains[i].Fits - ch.Fits; d < .08 {
			t.Errorf("%s fits with %.3f, as if apart %.3f: not plainly wrong", ch.Name, ch.Fits, naive.Chains[i].Fits)
		}
	}
	// Together it errs the other way: three drawers hang on one sheet, and fail
	// or run as one.
	if naive.All > true_.All-.05 {
		t.Errorf("all three: %.3f, as if apart %.3f", true_.All, naive.All)
	}
	worst := 0.0
	for _, tm := range chains[0].Terms {
		worst += math.Abs(tm.Times) * src[tm.Source].Tol
	}
	if got := chains[0].Worst(src); math.Abs(got-worst) > 1e-12 {
		t.Errorf("worst case %.5f, term by term %.5f", got, worst)
	}
}

// TestLearn: 1 to 5 have the mean 3 and the deviation √2.5; with Student's
// t 2.776 for four degrees of freedom the mean is known to ± 1.963.
func TestLearn(t *testing.T) {
	l := Learn([]float64{1, 2, 3, 4, 5})
	if math.Abs(l.Mean-3) > 1e-12 || math.Abs(l.Scatter-math.Sqrt(2.5)) > 1e-12 || math.Abs(l.MeanError-1.963) > .001 || !l.sure() {
		t.Errorf("%+v", l)
	}
	if l := Learn([]float64{-1, 1, -1, 1}); l.sure() || l.Mean != 0 {
		t.Errorf("no offset, and %+v is sure", l)
	}
	if l := Learn([]float64{5}); l.sure() || l.Scatter != 0 {
		t.Errorf("one piece, and %+v", l)
	}
	if l := Learn(nil); l.Pieces != 0 || l.sure() {
		t.Errorf("nothing, and %+v", l)
	}
}

// TestJournal: the latest measure of a piece counts, what was taken back does
// not, a mis-cut is no scatter, and a cut between three measured pieces tells
// its kerf.
func TestJournal(t *testing.T) {
	in := measure.Inch
	var j []mark.Mark
	put := func(m func(s mark.Stamp) mark.Mark) mark.Mark {
		x := m(mark.Next(j, "bench", ""))
		j = append(j, x)
		return x
	}
	size := func(p mark.Piece, axis string, v measure.Length) mark.Mark {
		return put(func(s mark.Stamp) mark.Mark { return s.Measure("plan", p, axis, v) })
	}
	whole := mark.Piece{L: 48 * in, W: 24 * in, Name: "R1"}
	a := mark.Piece{L: 48 * in, W: 10 * in, Name: "A"}
	b := mark.Piece{Y: 10*in + in/8, L: 48 * in, W: 14*in - in/8, Name: "R1b"}
	size(a, "y", 11*in)        // a mis-cut
	size(a, "y", 10*in+in/16)  // measured badly
	size(a, "y", 10*in+in/64)  // and again
	size(b, "y", b.W+in/128)   //
	x := size(b, "x", 50*in/1) // another slip, taken back
	put(func(s mark.Stamp) mark.Mark { return s.Undo(x) })
	y := size(a, "x", 48*in+in/8)
	put(func(s mark.Stamp) mark.Mark { return s.Undo(y) })
	put(func(s mark.Stamp) mark.Mark { // measured, and right
		m := s.Measure("plan", whole, "y", 24*in)
		m.Saw = "table saw"
		return m
	})
	put(func(s mark.Stamp) mark.Mark {
		m := s.Entry(mark.Done, "cut/0/r")
		m.Plan, m.Piece, m.Axis, m.At, m.Pieces = "plan", &whole, "y", 10*in, []mark.Piece{a, b}
		return m
	})
	got := offsets(&project.Project{Journal: j, Shop: project.Shop{Saws: []project.Saw{{Name: "table saw"}}}})
	if len(got) != 1 || got[0].saw != "table saw" {
		t.Fatalf("%+v", got)
	}
	offs, kerfs := got[0].offs, got[0].kerfs
	want := []float64{(in / 64).Metres(), (in / 128).Metres(), 0}
	if len(offs) != 3 {
		t.Fatalf("offsets %v", offs)
	}
	for i := range want {
		if math.Abs(offs[i]-want[i]) > 1e-9 {
			t.Errorf("offset %d is %v, want %v", i, offs[i], want[i])
		}
	}
	if k := (24*in - 10*in - in/64 - b.W - in/128).Metres(); len(kerfs) != 1 || math.Abs(kerfs[0]-k) > 1e-9 {
		t.Errorf("kerfs %v, want %v", kerfs, k)
	}
}

// TestLearnedSawCounts: seven pieces that all came out long shift the drawers'
// gap, and name the corrected setting.
func TestLearnedSawCounts(t *testing.T) {
	r := checked(samples(t)["offset"])
	if len(r.Saws) != 1 || r.Saws[0].Pieces != 7 || !r.Saws[0].sure() || math.Abs(r.Saws[0].Mean-471.4e-6) > 1e-6 {
		t.Errorf("%+v", r.Saws)
	}
	without := checked(samples(t)["jointer-stand"])
	if r.Odds.Drawers >= without.Odds.Drawers {
		t.Errorf("with boxes half a millimetre long the drawers run with %.2f, without with %.2f", r.Odds.Drawers, without.Odds.Drawers)
	}
}
