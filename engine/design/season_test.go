package design

import (
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/stock"
)

// TestGrowthTakenFromGaps: fronts of sugar maple, flat-sawn .00353 for each 1 %
// (Wood Handbook FPL-GTR-190, Table 13-5). Air of 40 and 65 % makes wood of 7.7
// and 12.0 %. The lowest front of the jointer stand is 8 3/8 in high: it grows
// 8.375 × .00353 × 4.3 = .127 in; with a step of 1/32 left that is .158, on the
// tape 3/16. Fronts of 4, 6 1/4 and 19 − 10 1/4 − 4 × 3/16 = 8.
func TestGrowthTakenFromGaps(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "drawers.gap", "")
	set(t, p, "loads.dry", "40")
	set(t, p, "loads.damp", "65")
	c, f := Build(p)
	if c.Gap != in*3/32 || f.Has(Swells) {
		t.Fatalf("plywood: gap %v", c.Gap)
	}
	set(t, p, "drawers.front", "maple")
	set(t, p, "stock.materials.4.species", "sugar maple")
	if g := float64(stock.Growth(8*in+in*3/8, "sugar maple", 40, 65)) / float64(in); g < .120 || g > .134 {
		t.Errorf("8 3/8 in grow %.4f in, by hand .127", g)
	}
	c, f = Build(p)
	if c.Gap != in*3/16 || !f.Has(Swells) {
		t.Errorf("maple: gap %v, by hand 3/16 in; %v", c.Gap, f)
	}
	if got := c.Drawers[2].Front.Size(geom.Z); got != 8*in {
		t.Errorf("lowest front %v, by hand 8 in", got)
	}
	// Steady air: nothing grows. What the user sets is not touched.
	set(t, p, "loads.dry", "65")
	if c, _ = Build(p); c.Gap != in*3/32 {
		t.Errorf("steady air: gap %v", c.Gap)
	}
	set(t, p, "loads.dry", "40")
	set(t, p, "drawers.gap", "1/16")
	if c, f = Build(p); c.Gap != in/16 || f.Has(Swells) {
		t.Errorf("gap set to 1/16: %v", c.Gap)
	}
	// Upright grain: the front grows sideways, half of it on each side. 16 5/16 ×
	// .00353 × 4.3 ÷ 2 = .124, with a step .155: 5/32 or 3/16.
	set(t, p, "drawers.gap", "")
	set(t, p, "drawers.grain", "up")
	if c, _ = Build(p); c.Gap != in*5/32 && c.Gap != in*3/16 {
		t.Errorf("upright: gap %v", c.Gap)
	}
}
