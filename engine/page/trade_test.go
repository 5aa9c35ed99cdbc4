package page

import (
	"strings"
	"testing"

	"cartwright/engine/check"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// TestBottomTrade: beside the choice of the bottoms' sheet stands what another
// one weighs and sags. By hand: three bottoms of 14 29/32 × 19 7/16 in are
// .5608 m²; 15/32 in at 680 kg/m³ against 7/32 in at 600 is 2.671 kg, 5.9 lb, at
// 480 kg/m³ 1.335 kg, 2.9 lb. Taken, the same stands there the other way round.
// The sags are those of Check.
func TestBottomTrade(t *testing.T) {
	var now, other string
	for _, tt := range []struct {
		density float64
		bottom  string
		says    string
	}{{680, "ply-6", "Birch plywood 1/2 in: 5.9 lb more in all 3, sags "}, {480, "ply-6", "Birch plywood 1/2 in: 2.9 lb more in all 3, sags "},
		{680, "birch-12", "Plywood 1/4 in: 5.9 lb less in all 3, sags "}} {
		v := started(t, "jointer-stand", func(p *project.Project) {
			p.Stock.Materials[1].Density = tt.density
			p.Drawers.Bottom = tt.bottom
		})
		v.Place = Size
		v.Report = check.Run(v.Project, v.Cart)
		got := plainPanel(v, "f-drawers")
		if !strings.Contains(got, tt.says) {
			t.Errorf("at %v kg/m³, of %s: Size does not say %q: %s", tt.density, tt.bottom, tt.says, got)
		}
		b := v.Report.Bottom
		if tt.density == 680 {
			switch tt.bottom {
			case "ply-6":
				now, other = b.Sag, b.Others[0].Result
			default: // the same two sags, taken the other way round
				if b.Sag != other || b.Others[0].Result != now {
					t.Errorf("told %s instead of %s; taken, %s instead of %s", other, now, b.Others[0].Result, b.Sag)
				}
			}
			for _, s := range v.Report.Sums {
				if s.Title == "Bottom of Bottom drawer" && !strings.Contains(s.Verdict, b.Sag) {
					t.Errorf("Size says %s, Check %q", b.Sag, s.Verdict)
				}
			}
		}
	}
	// The drawer that is told is the one nearest its limit: with 60 lb in the
	// top drawer, that one.
	v := started(t, "jointer-stand", func(p *project.Project) { p.Cabinet.Bays[0].Openings[0].Load = 60 * measure.Pound })
	if d := check.Run(v.Project, v.Cart).Bottom.Drawer; d != "Top drawer" {
		t.Errorf("told is %q, want the top drawer", d)
	}
	if d := check.Quick(v.Project, v.Cart).Bottom; len(d.Others) == 0 {
		t.Error("while something is dragged, the trade is not told")
	}
	// No drawers, nothing to weigh.
	v = started(t, "open-bench", nil)
	if d := check.Run(v.Project, v.Cart).Bottom.Drawer; d != "" {
		t.Errorf("without drawers, told is %q", d)
	}
}
