package work

import (
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
)

// TestGuides: laid on their work, the holes of every guide lie where the
// schedule has them: from the upper edge and the middle of a front, from the
// front edge of an upright and the top of the spacer. Every pull and every
// slide has one.
func TestGuides(t *testing.T) {
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		guides := Guides(p, c)
		all := ""
		for _, g := range guides {
			all += strings.Join(g.For, ";") + ";"
			if len(g.Cuts) != 2 || g.Cuts[0].Length != g.Plate.Length || g.Cuts[0].Width != g.Plate.Width || g.Cuts[0].Material != p.Cabinet.Material {
				t.Errorf("%s, %s: cuts %+v", name, g.ID, g.Cuts)
			}
			for _, r := range g.Rows {
				for _, s := range r.Spots {
					if s.A < measure.Inch || s.A > g.Plate.Length-measure.Inch || s.B < measure.Inch/2 || s.B > g.Plate.Width-measure.Inch/2 {
						t.Errorf("%s, %s: a hole at %v × %v of a plate %v × %v", name, g.ID, s.A, s.B, g.Plate.Length, g.Plate.Width)
					}
				}
			}
			if len(g.Rows) == 0 {
				t.Errorf("%s, %s has no holes", name, g.ID)
			}
		}
		for n, d := range c.Drawers {
			if !strings.Contains(all, "pull of drawer "+itoa(n+1)+";") {
				t.Errorf("%s: no guide for pull of drawer %d", name, n+1)
			}
			if p.Drawers.Slide != "wood" && (!strings.Contains(all, "left slide of drawer "+itoa(n+1)+";") || !strings.Contains(all, "right slide of drawer "+itoa(n+1)+";")) {
				t.Errorf("%s: no guide for the slides of drawer %d", name, n+1)
			}
			// The pull: half the spacing left and right of the plate's middle.
			for _, g := range guides {
				if g.Kind != PullHole || !strings.Contains(strings.Join(g.For, ";")+";", "pull of drawer "+itoa(n+1)+";") {
					continue
				}
				a, b := g.Rows[0].Spots[0], g.Rows[0].Spots[1]
				if b.A-a.A != d.Pull || a.A+b.A != g.Plate.Length && a.A+b.A != g.Plate.Length-1 {
					t.Errorf("%s, drawer %d: holes at %v and %v of %v, spacing %v", name, n+1, a.A, b.A, g.Plate.Length, d.Pull)
				}
			}
		}
		// The slides: hole by hole, at the front edge of their upright.
		for _, s := range design.Slides(c) {
			up := c.Parts[0].Box // the left side
			if c.Parts[0].ID != "side-left" {
				for _, q := range c.Parts {
					if q.ID == "side-left" {
						up = q.Box
					}
				}
			}
			want := map[measure.Length]bool{}
			for _, pt := range s.Holes {
				want[pt[geom.Y]-up.Min[geom.Y]] = true
			}
			side := [2]string{"left", "right"}[btoi(s.Right)]
			for _, g := range guides {
				if g.Kind == SlotHole && strings.Contains(strings.Join(g.For, ";")+";", side+" slide of drawer "+itoa(s.Drawer+1)+";") {
					n := 0
					for _, r := range g.Rows {
						for _, sp := range r.Spots {
							if !want[sp.A] {
								t.Errorf("%s, %s: a hole at %v, the slide has none there", name, g.ID, sp.A)
							}
							n++
						}
					}
					if n != len(s.Holes) || g.Setback != c.Drawers[s.Drawer].Box.Min[geom.Y]-up.Min[geom.Y] {
						t.Errorf("%s, %s: %d holes of %d, setback %v", name, g.ID, n, len(s.Holes), g.Setback)
					}
				}
			}
		}
	}
}
