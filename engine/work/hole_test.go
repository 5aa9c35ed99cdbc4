package work

import (
	"reflect"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// inches reads a length without its unit.
func inches(t *testing.T, s string) measure.Length { return length(t, s+" in") }

// TestHoleChecks: the jointer stand raises none of these; one change raises
// each, with the numbers worked by hand where there are any.
func TestHoleChecks(t *testing.T) {
	L := func(s string) measure.Length { return inches(t, s) }
	foot := func(right, back string) func(*project.Project) {
		return func(p *project.Project) {
			p.Machine.Foot = []project.FootHole{{Right: L("1"), Back: L("1")}, {Right: L(right), Back: L(back)}}
		}
	}
	all := func(p *project.Project) issue.List {
		c, f := design.Build(p)
		return append(f, AtBench(p, c).Told()...)
	}
	for _, tt := range []struct {
		name   string
		change func(*project.Project)
		code   issue.Code
		args   []any // nil: not looked at
	}{
		// The worktop is 38 wide with its overhang of 1 on both sides, its
		// strips stand out 1/4: a sheet of 37 1/2. The machine of 30 stands in
		// its middle, its left edge 3 3/4 from the sheet's: 33 1/2 from there
		// is 1/4 from the right edge, less half a bolt of 5/16.
		{"a bolt near the edge of the worktop", foot("33 1/2", "5"), FootOff, []any{"jointer", 2, L("3/32"), L("1/4")}},
		// The same 1 1/2 further right: off the top by 1 1/4 and half a bolt.
		{"a bolt off the worktop", foot("35", "5"), FootOff, []any{"jointer", 2, L("-1 13/32"), L("1/4")}},
		{"a bolt over the partition", foot("14 1/2", "5"), FootHits, []any{"jointer", 2, "Partition"}},
		{"a hole for a hose in the line of a slide", func(p *project.Project) {
			c, _ := design.Build(p)
			for _, h := range Drills(p, c).Drills {
				if h.ID == "drill/side-left/slot/2" {
					p.Cabinet.Holes = []project.PanelHole{{Name: "hose", Panel: "side-left", Diameter: L("2"), Along: h.Spots[0].A + L("1/2"), Across: h.Spots[0].B + L("1/2")}}
				}
			}
		}, HoleMeets, nil},
		{"a pull wider than its front lets", func(p *project.Project) { p.Drawers.Pull = L("16") }, HoleEdge, nil},
		{"a bay too narrow for a driver", func(p *project.Project) {
			p.Cabinet.Bays[0].Width, p.Cabinet.Bays[0].Openings = L("2 1/2"), nil
		}, Reach, nil},
		{"a joint too short for a screw", func(p *project.Project) { p.Cabinet.Back.Rail = L("5/8") }, design.ShortJoint, nil},
		{"sides too thin for pocket holes", func(p *project.Project) { p.Stock.Materials[0].Measured = L("3/8") }, design.ThinJoint, nil},
		{"no clamps at all", func(p *project.Project) { p.Shop.Clamps = nil }, Clamps, nil},
	} {
		p := startingPoints(t)["jointer-stand"]
		if f := all(p); tt.code != Clamps && f.Has(tt.code) {
			t.Fatalf("the jointer stand raises %s: %v", tt.code, f)
		}
		tt.change(p)
		f := all(p)
		if !f.Has(tt.code) {
			t.Errorf("%s: %s is not raised, but %v", tt.name, tt.code, f)
			continue
		}
		if tt.args != nil {
			if got := one(t, f, tt.code); !reflect.DeepEqual(got.Args, tt.args) {
				t.Errorf("%s: %v, want %v", tt.name, got.Args, tt.args)
			}
		}
	}
}

// TestFootPattern: the bolts lie where the foot has its holes: the machine's
// body, 30 × 11, stands in the middle of the sheet of the worktop; a hole 2 from
// its left and 3 from its front edge is there, in the schedule and in what is
// bought, and no screw of the case comes near it.
func TestFootPattern(t *testing.T) {
	p := startingPoints(t)["jointer-stand"]
	p.Machine.Foot = []project.FootHole{{Right: 2 * inch, Back: 3 * inch}, {Right: 28 * inch, Back: 3 * inch}, {Right: 2 * inch, Back: 8 * inch}}
	c, _ := design.Build(p)
	d := Drills(p, c)
	drillLaws(t, "with a pattern", c, d)
	if len(d.Findings) > 0 {
		t.Errorf("%v", d.Findings)
	}
	n := 0
	for _, h := range d.Drills {
		if h.Kind != FootHole {
			continue
		}
		b := c.Parts[h.Part].Box
		for i, s := range h.Spots {
			n++
			wantX := b.Min[0] + (b.Size(0)-30*inch)/2 + p.Machine.Foot[i].Right
			wantY := b.Min[1] + (b.Size(1)-11*inch)/2 + p.Machine.Foot[i].Back
			if s.At[0] != wantX || s.At[1] != wantY || s.At[2] != b.Max[2] || h.Depth != 0 || h.Dia != inch*11/32 || h.When != InPlace {
				t.Errorf("hole %d at %v, bit %v, %d", i+1, s.At, h.Dia, h.When)
			}
		}
	}
	if n != 3 {
		t.Errorf("%d holes for a foot with 3", n)
	}
	bolts := 0
	for _, h := range c.Hardware {
		if h.ID == "machine-bolt" {
			bolts = h.Count
		}
	}
	if bolts != 3 {
		t.Errorf("%d bolts bought", bolts)
	}
	// One bolt right over a screw of the worktop: the screw moves away.
	for _, s := range c.Screws {
		if c.Parts[s.Into].ID != "top" || s.Kind != design.Pocket {
			continue
		}
		b := c.Parts[s.Into].Box
		q := p.Clone()
		q.Machine.Foot = []project.FootHole{{Right: s.At[0] - b.Min[0] - (b.Size(0)-30*inch)/2, Back: s.At[1] - b.Min[1] - (b.Size(1)-11*inch)/2}}
		if q.Machine.Foot[0].Right < 0 || q.Machine.Foot[0].Back < 0 {
			continue
		}
		made, _ := design.Build(q)
		at := made.Things
		for _, th := range at {
			for _, h := range th.Holes {
				for _, o := range made.Screws {
					if made.Parts[o.Into].ID == "top" && (o.At[0]-h[0]).Abs() < inch/4 && (o.At[1]-h[1]).Abs() < inch/4 {
						t.Errorf("a screw at %v under the bolt at %v", o.At, h)
					}
				}
			}
		}
	}
}
