package check

import "testing"

// TestBottomInstead: the bottom of another sheet, by hand. Three bottoms of
// 14 29/32 × 19 7/16 in are .5608 m². A square metre of 7/32 in at 600 kg/m³
// weighs 3.334 kg, of 15/32 in at 680 kg/m³ 8.096 kg: 2.671 kg, 5.9 lb more; at
// 480 kg/m³ 5.715 kg: 1.335 kg, 2.9 lb more. And whoever takes the other sheet is
// shown the sag that was told, which has its own weight in it and not that of the
// sheet that went.
func TestBottomInstead(t *testing.T) {
	const title = "Bottom of Bottom drawer"
	row := func(s Sum, cause string) SumRow {
		for _, r := range s.Rows {
			if r.Cause == cause {
				return r
			}
		}
		t.Fatalf("no row %q in %+v", cause, s.Rows)
		return SumRow{}
	}
	for _, tt := range []struct{ density, more string }{{"680", "5.9 lb more in all 3"}, {"480", "2.9 lb more in all 3"}, {"30000", ""}} {
		set := []string{"stock.materials.1.density", tt.density, "cabinet.bays.0.openings.2.load", "5 lb"}
		_, told := changed(t, "jointer-stand", set...)
		r := row(sumOf(t, told, title), "Birch plywood 1/2 in instead")
		if tt.more != "" && r.Factors != tt.more {
			t.Errorf("at %s kg/m³: %q, by hand %q", tt.density, r.Factors, tt.more)
		}
		_, taken := changed(t, "jointer-stand", append(set, "drawers.bottom", "birch-12")...)
		if got := row(sumOf(t, taken, title), "after years").Result; got != r.Result {
			t.Errorf("at %s kg/m³: told %s, then %s", tt.density, r.Result, got)
		}
	}
}
