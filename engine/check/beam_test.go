package check

import (
	"math"
	"testing"

	"cartwright/engine/stock"
)

// TestTable: the rows of the Wood Handbook's Table 9-1 are found again by the
// unit-load method: sag = ∫ M·m/E·I dx + ∫ V·v/G·A′ dx with the moments M, V of the
// load and m, v of a unit load where the sag is asked, added up in strips.
func TestTable(t *testing.T) {
	const l, w = 1.0, 1.0
	simple := func(x float64) (m, v float64) { // unit load at mid-span
		if x < .5 {
			return x / 2, .5
		}
		return (1 - x) / 2, -.5
	}
	end := func(x float64) (m, v float64) { return -(1 - x), 1 } // cantilever, held at 0
	quarter := func(x float64) (m, v float64) {                  // unit load at a quarter
		if x < .25 {
			return .75 * x, .75
		}
		return .25 * (1 - x), -.25
	}
	spread := func(x float64) (m, v float64) { return x/2 - x*x/2, .5 - x }
	middle := func(x float64) (m, v float64) {
		m, v = simple(x)
		return m, v
	}
	quarters := func(x float64) (m, v float64) {
		switch {
		case x < .25:
			return x / 2, .5
		case x < .75:
			return .125, 0
		}
		return (1 - x) / 2, -.5
	}
	fixed := func(load func(float64) (float64, float64), at float64) func(float64) (float64, float64) {
		return func(x float64) (m, v float64) { m, v = load(x); return m - at, v }
	}
	for _, tt := range []struct {
		name string
		beam Beam
		load func(float64) (float64, float64)
		unit func(float64) (float64, float64)
	}{
		{"spread, simple", SpreadSimple, spread, simple},
		{"spread, clamped", SpreadFixed, fixed(spread, 1./12), simple},
		{"middle, simple", PointSimple, middle, simple},
		{"middle, clamped", PointFixed, fixed(middle, 1./8), simple},
		{"quarters, at mid-span", QuarterSimple, quarters, simple},
		{"quarters, at a load", QuarterAtLoad, quarters, quarter},
		{"spread, cantilever", SpreadOut, func(x float64) (m, v float64) { return -(1 - x) * (1 - x) / 2, 1 - x }, end},
		{"end, cantilever", PointOut, end, end},
	} {
		const n = 20_000
		var bend, shear float64
		for i := range n {
			x := (float64(i) + .5) / n
			m, v := tt.load(x)
			um, uv := tt.unit(x)
			bend += m * um / n
			shear += v * uv / n
		}
		b, s := tt.beam.Sag(w, l, Section{1, 1})
		if math.Abs(b-bend) > 1e-6 || math.Abs(s-shear) > 1e-6 {
			t.Errorf("%s: kb %.6f, ks %.6f; by unit load %.6f, %.6f", tt.name, b, s, bend, shear)
		}
	}
	// A load anywhere: at mid-span it is the row of the table, and loads add up
	// to a spread one.
	b, s := PointAt(1, .5, 1, Section{1, 1})
	if math.Abs(b-1./48) > 1e-12 || s != .25 {
		t.Errorf("in the middle %v, %v", b, s)
	}
	b, s = 0, 0
	for i := range 1000 {
		db, ds := PointAt(.001, (float64(i)+.5)/1000, 1, Section{1, 1})
		b, s = b+db, s+ds
	}
	if math.Abs(b-5./384) > 1e-7 || math.Abs(s-.125) > 1e-6 {
		t.Errorf("spread by a thousand loads: %v, %v", b, s)
	}
}

// TestNavier: Roark's factors at all ratios, and between, are found again by
// Navier's double series for a simply supported plate, ν = 0.3. Between the
// rows of the table it is at most 2 % off.
func TestNavier(t *testing.T) {
	series := func(r float64) float64 { // α for a = r, b = 1
		var w float64
		for m := 1; m < 60; m += 2 {
			for n := 1; n < 60; n += 2 {
				sign := 1.0
				if (m+n)/2%2 == 0 {
					sign = -1
				}
				k := float64(m*m)/(r*r) + float64(n*n)
				w += sign / (float64(m*n) * k * k)
			}
		}
		return w * 16 / math.Pow(math.Pi, 6) * 12 * (1 - .3*.3)
	}
	for _, row := range plates {
		if got := series(row[0]); math.Abs(got-row[1]) > .0004 {
			t.Errorf("sides %.1f: α %.4f, by Navier %.4f", row[0], row[1], got)
		}
	}
	for r := 1.05; r < 6; r += .1 {
		a, _ := plateFactors(r)
		if got := series(r); math.Abs(a/got-1) > .02 {
			t.Errorf("sides %.2f: α %.4f, by Navier %.4f", r, a, got)
		}
	}
}

// TestPlateLimits: outside small deflections the formula does not bless.
func TestPlateLimits(t *testing.T) {
	for _, tt := range []struct {
		a, b, t, q float64
		ok         bool
	}{
		{1, 1, .01, 100, true},
		{1, 1, .01, 2000, false}, // sags more than half of its thickness
		{1, 1, .3, 100, false},   // thicker than a quarter of its side
		{1, 0, .01, 100, false},
		{1, 1, 0, 100, false},
		{1, 1, .01, -1, false},
		{math.NaN(), 1, .01, 1, false},
	} {
		if _, _, ok := Plate(tt.a, tt.b, tt.t, 1e9, tt.q); ok != tt.ok {
			t.Errorf("%+v: %v", tt, ok)
		}
	}
}

// TestTwoGravities: gravity on oven-dry volume and at 12 % are not the same
// number, and a swap shows.
func TestTwoGravities(t *testing.T) {
	if d := WoodDensity(.5, 12)/DryDensity(.5, 12) - 1; d < .05 || d > .06 {
		t.Errorf("the two differ by %.3f", d)
	}
	for g := .3; g < .8; g += .05 {
		if got := DryGravity(DryDensity(g, 12)); math.Abs(got-g) > 1e-12 {
			t.Errorf("G %.2f comes back as %.4f", g, got)
		}
	}
}

// TestMoves: no flat-sawn hardwood of the table moves half a percent of its
// width for 1 % of moisture, and quarter-sawn moves less (Wood Handbook, Table
// 13-5): a slip of a factor of ten shows. Outside 6 to 14 % nothing is said.
func TestMoves(t *testing.T) {
	for _, w := range stock.Woods {
		if w.CT >= .005 || w.CR > w.CT || w.CT != 0 && w.CR < .0005 {
			t.Errorf("%s: %g, %g", w.Name, w.CR, w.CT)
		}
	}
	for _, tt := range []struct {
		from, to float64
		ok       bool
	}{{6, 14, true}, {5, 12, false}, {6, 28, false}} {
		if _, ok := stock.Movement(1, .003, tt.from, tt.to); ok != tt.ok {
			t.Errorf("from %v to %v: %v", tt.from, tt.to, ok)
		}
	}
	if m := stock.Moisture(50, 70); math.Abs(m-9.2) > .1 {
		t.Errorf("at 50 %% and 70 °F wood has %.2f %%", m)
	}
	for h := 1.0; h < 99; h++ {
		if !(stock.Moisture(h+1, 70) > stock.Moisture(h, 70)) {
			t.Errorf("damper air does not make damper wood at %v", h)
		}
	}
}

// TestLimits: outside its limits the lifting equation says 0, and within them
// it never says more than 51 lb.
func TestLimits(t *testing.T) {
	for _, l := range []Lift{{H: 26, V: 30, D: 10}, {H: 10, V: 71, D: 10}, {H: 10, V: 30, D: 71}, {H: 10, V: 30, D: 10, A: 136}, {H: 10, V: -1, D: 10}, {H: math.NaN(), V: 30}} {
		if got := l.Limit(); got != 0 {
			t.Errorf("%+v: %v", l, got)
		}
	}
	for h := 5.0; h <= 25; h += 5 {
		for v := 0.0; v <= 70; v += 10 {
			for d := 0.0; d <= 70; d += 10 {
				if got := (Lift{H: h, V: v, D: d}).Limit(); !(got > 0 && got <= 51) {
					t.Errorf("H %v, V %v, D %v: %v", h, v, d, got)
				}
			}
		}
	}
}

// TestSill: a wheel climbs no sill as high as its axle; a higher sill takes
// more; a cart that stands taller trips more easily.
func TestSill(t *testing.T) {
	if !math.IsInf(Climb(1, .05, .05), 1) || Climb(1, .05, 0) != 0 {
		t.Error("at the ends")
	}
	// A sill of (1 − 1/√2)·R is met at 45°: push equals weight.
	if got := Climb(100, 1, 1-1/math.Sqrt2); math.Abs(got-100) > 1e-9 {
		t.Errorf("at 45° %v", got)
	}
	for s := .001; s < .048; s += .001 {
		if Climb(1, .05, s+.001) <= Climb(1, .05, s) {
			t.Errorf("a sill of %v takes less than a lower one", s)
		}
	}
	if !(TripSpeed(.3, .5) > TripSpeed(.3, .8)) || !(TripSpeed(.4, .5) > TripSpeed(.3, .5)) {
		t.Error("tall or shallow carts should trip first")
	}
	// Energy by hand: x 0.3, h 0.4: ρ 0.5, rise 0.1 m, √(2·9.80665·0.1)·0.5/0.4.
	if got := TripSpeed(.3, .4); math.Abs(got-1.7506) > .0001 {
		t.Errorf("TripSpeed = %v", got)
	}
}
