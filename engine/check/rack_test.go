package check

import (
	"math"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/project"
)

// changed is the report on a starting point with fields set.
func changed(t *testing.T, name string, fields ...string) (*run, Report) {
	t.Helper()
	p := samples(t)[name].Clone()
	for i := 0; i < len(fields); i += 2 {
		if err := project.Set(p, fields[i], fields[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	c, _ := design.Build(p)
	return start(p, c), Run(p, c)
}

// sumOf is the sum of that title.
func sumOf(t *testing.T, r Report, title string) Sum {
	t.Helper()
	for _, s := range r.Sums {
		if s.Title == title {
			return s
		}
	}
	t.Fatalf("no sum is called %q", title)
	return Sum{}
}

// TestCorners: the case without a back, by hand. Three uprights stand on the
// bottom and under the worktop with four screws at each end, 24 in all. In ply of
// 680 kg/m³ G is .650 on oven-dry volume (.607 ÷ (1 − .108 × .607)); a No. 8 holds
// 2850 × .650² × .164 ÷ 2 = 98.7 lb an inch, half an inch of it 49.3 lb, on a lever
// of half of .719 in 17.73 lb·in; all together 425.5, ÷ 19 in 22.4 lb. In ply of
// 400 kg/m³ G is .371 and all of it (.371 ÷ .650)² as much.
func TestCorners(t *testing.T) {
	for _, tt := range []struct {
		density string
		moment  float64
		state   State
	}{{"680", 425.5, Fact}, {"400", 139.1, Fails}} {
		r, rep := changed(t, "jointer-stand", "cabinet.back.kind", "none", "stock.materials.0.density", tt.density)
		m, n := r.corners()
		if got := m / (lbf * inch); n != 24 || math.Abs(got-tt.moment) > .5 {
			t.Errorf("at %s kg/m³: %d screws carry %.1f lb·in, by hand 24 and %.1f", tt.density, n, got, tt.moment)
		}
		s := sumOf(t, rep, "Racking of the case")
		if s.State != tt.state || rep.Findings.Has(Corners) != (tt.state == Fails) {
			t.Errorf("at %s kg/m³: %s", tt.density, s.Verdict)
		}
		if len(s.Mends) == 0 || !s.Mends[0].Mends || !strings.Contains(s.Verdict, "corners hold") {
			t.Errorf("at %s kg/m³: %q, mends %+v", tt.density, s.Verdict, s.Mends)
		}
	}
	// A push that they do not hold fails, and nothing without a back is fine.
	for push, want := range map[string]State{"22 lb": Fact, "23 lb": Fails} {
		_, rep := changed(t, "jointer-stand", "cabinet.back.kind", "none", "loads.push", push)
		if s := sumOf(t, rep, "Racking of the case"); s.State != want {
			t.Errorf("push %s: %s", push, s.Verdict)
		}
	}
	// With its back: 20 lb × 19 in ÷ (950,000/16 psi × .219 in × 36 in), twice as
	// much under twice the push.
	for push, want := range map[string]float64{"20 lb": .00081, "40 lb": .00162} {
		r, _ := changed(t, "jointer-stand", "loads.push", push)
		q, _ := r.part("back-skin")
		m, _ := r.p.Material(q.Material)
		e, _ := Modulus(m)
		if got := Lean(r.p.Loads.Push.Kg()*gravity, 36*inch, 19*inch, m.Thick().Metres(), e/16) / inch; math.Abs(got-want) > .00002 {
			t.Errorf("push %s: leans %.5f in, by hand %.5f", push, got, want)
		}
	}
}
