package page

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// TestLevelSaid: under the heights stands what the base must be screwed, part by
// part. By hand: 117 mm of casters leave the table .31875 mm high; a floor out
// by 1/4 in (6.35 mm) makes it 6.03 mm out and 6.67 mm in.
func TestLevelSaid(t *testing.T) {
	v := started(t, "jointer-stand", func(p *project.Project) {
		p.Tape.Unit, p.Tape.Step = "metric", 0
		p.Base.Caster.Mount, p.Base.Floor, p.Base.Level = 117*measure.MM, 6350*measure.UM, 6*measure.MM
	})
	v.Place = Size
	got := plainPanel(v, "f-chain")
	for _, want := range []string{"floor, up or down6.35", "to screw out where it is low", "base screws out, and in, by6"} {
		if !strings.Contains(got, want) {
			t.Errorf("the heights do not say %q: %s", want, got)
		}
	}
	v = started(t, "jointer-stand", nil)
	v.Place = Size
	if got := plainPanel(v, "f-chain"); strings.Contains(got, "screw") {
		t.Errorf("nothing is said of the floor, yet: %s", got)
	}
}
