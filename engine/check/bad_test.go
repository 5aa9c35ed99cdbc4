package check

import (
	"strings"
	"testing"

	"cartwright/engine/issue"
)

// TestBadInput: what nobody should enter is told, and no check passes by silence.
// Title and State are what a check must then say, Code a finding that must be
// there, Row a text that a row must hold.
func TestBadInput(t *testing.T) {
	const load = "cabinet.bays.0.openings.2.load"
	for _, tt := range []struct {
		name   string
		fields []string
		title  string
		state  State
		code   issue.Code
		row    string
	}{
		{"no density: that of its kind", []string{"stock.materials.0.density", "0"}, "Full sheets", Fact, "", "plywood trade association"},
		{"a density of nothing", []string{"stock.materials.0.density", "0.000001"}, "Full sheets", Fact, Dense, ""},
		{"a density of a planet", []string{"stock.materials.0.density", "1000000"}, "Load on one caster", Fails, Dense, ""},
		{"a tonne in a drawer, rating not entered", []string{load, "1000 kg", "drawers.slideRating", ""}, "Load on the slides", NotChecked, "", ""},
		{"a tonne in a drawer, rated", []string{load, "1000 kg", "drawers.slideRating", "100 lb"}, "Load on the slides", Fails, Slide, ""},
		{"a tonne on a bottom", []string{load, "1000 kg"}, "Bottom of Bottom drawer", NotChecked, Bottom, "half the thickness"},
		{"a tonne pulled out", []string{load, "1000 kg"}, "Tipping, drawers open", Fails, Tips, ""},
		{"a tonne on casters", []string{load, "1000 kg"}, "Load on one caster", Fails, Caster, ""},
		{"a tonne at the slide's screws", []string{load, "1000 kg"}, "Screws", Fails, Screws, ""},
		{"a tonne on the worktop", []string{"machine.weight", "1000 kg"}, "Sag of the worktop", NotChecked, Sag, ""},
		{"wooden runners", []string{"drawers.slide", "wood"}, "Drawers on wooden runners", NotChecked, "", ""},
		{"accuracy of zero is the default", []string{"shop.accuracy", "0"}, "Will it fit", Fact, "", "the default, common practice"},
		{"accuracy of an inch", []string{"shop.accuracy", "1 in"}, "Will it fit", Fails, OddsLow, ""},
		{"a store that is off by an inch", []string{"store.accuracy", "1 in"}, "Will it fit", Fails, OddsLow, "store cuts beyond the trim"},
		{"no casters' rating", []string{"base.caster.rating", ""}, "Load on one caster", NotChecked, "", ""},
		{"no wheel", []string{"base.caster.wheel", ""}, "Pushing it along", NotChecked, "", ""},
		{"no back", []string{"cabinet.back.kind", "none"}, "Racking of the case", Fact, "", ""},
		{"air too damp for the coefficients", []string{"loads.damp", "95"}, "Wood over the seasons", NotChecked, "", "not checked"},
		{"air that dries when it is damp", []string{"loads.dry", "60", "loads.damp", "40"}, "Wood over the seasons", NotChecked, "", "not checked"},
		{"a machine that weighs nothing", []string{"machine.weight", ""}, "Lifting the jointer up", NotChecked, "", ""},
		{"no brakes", []string{"base.caster.brakes", "0"}, "Stays put under the feed", Fails, Creeps, ""},
		{"a push of a tonne", []string{"loads.push", "1000 kg"}, "A push at the top", Fails, Push, ""},
	} {
		_, r := changed(t, "jointer-stand", tt.fields...)
		sound(t, tt.name, r)
		s := sumOf(t, r, tt.title)
		if s.State != tt.state {
			t.Errorf("%s: %s: state %d, %s", tt.name, tt.title, s.State, s.Verdict)
		}
		if tt.code != "" && !r.Findings.Has(tt.code) {
			t.Errorf("%s: no finding %s", tt.name, tt.code)
		}
		found := tt.row == ""
		for _, x := range s.Rows {
			found = found || strings.Contains(x.Cause+" "+x.Factors+" "+x.Result, tt.row)
		}
		if !found {
			t.Errorf("%s: no row says %q", tt.name, tt.row)
		}
	}
}
