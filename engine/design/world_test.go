package design

import (
	"testing"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// TestThicknessRanges takes both ends of what a standard allows through a whole
// cart: softwood panels by Voluntary Product Standard PS 1-19 (±1/32 in up to
// 13/16), birch plywood by a mill's size sheet (after EN 315). The laws hold,
// nothing blocks, and what the ply takes of the height is taken off the sides:
// 35 5/16 − 4 5/8 − 10 1/4 = 20 7/16, less bottom and top.
func TestThicknessRanges(t *testing.T) {
	for _, tt := range []struct{ ply, box, bottom measure.Length }{{in * 23 / 32, in * 15 / 32, in / 4}, {in * 3 / 4, in / 2, in * 11 / 32}, {in * 5 / 8, in * 3 / 8, in / 4}} {
		for end := range 2 {
			of := func(category measure.Length) measure.Length {
				least, most := stock.PlyRange(category)
				return [2]measure.Length{least, most}[end]
			}
			p := open(t, "jointer-stand")
			p.Stock.Materials[0].Measured, p.Stock.Materials[1].Measured, p.Stock.Materials[2].Measured = of(tt.ply), of(tt.box), of(tt.bottom)
			c, f := Build(p)
			if f.Blocked() {
				t.Errorf("%v ply: %v", of(tt.ply), f)
			}
			laws(t, "ply", c)
			if got, want := get(t, c, "side-left").Length, c.Tape.Ceil(20*in+in*7/16-2*of(tt.ply)); got != want {
				t.Errorf("sides %v in %v ply, by hand %v", got, of(tt.ply), want)
			}
			// Box front: 16 1/2 − 2 × 1/2 − 1/32 − two sides.
			if got, want := get(t, c, "bay1/drawer1/box-front").Length, c.Tape.Floor(15*in+in*15/32-2*of(tt.box)); got != want {
				t.Errorf("box front %v in %v ply, by hand %v", got, of(tt.box), want)
			}
		}
	}
	for _, tt := range []struct{ ply, box, bottom measure.Length }{{18*mm - 900*measure.UM, 12*mm - 700*measure.UM, 6*mm + 100*measure.UM}, {18*mm + 700*measure.UM, 12*mm + 500*measure.UM, 6*mm + 900*measure.UM}} {
		p := open(t, "sharpening-cart")
		for i := range p.Stock.Materials {
			switch m := &p.Stock.Materials[i]; {
			case m.Nominal >= 15*mm:
				m.Measured = tt.ply
			case m.Nominal >= 9*mm:
				m.Measured = tt.box
			default:
				m.Measured = tt.bottom
			}
		}
		c, f := Build(p)
		if f.Blocked() {
			t.Errorf("%v ply: %v", tt.ply, f)
		}
		laws(t, "birch", c)
	}
}

// TestOutfeedHeight: a table saw of standard size stands about 34 in high, an
// outfeed table goes from 33 1/2 to 35 1/4 in (American Woodworker, 2014). The
// outfeed cabinet takes work from the saw: level or up to 1/8 lower, never higher
// (common practice, no source). Another floor, 1/2 in lower by one builder's
// account, lowers the cabinet's sides by as much.
func TestOutfeedHeight(t *testing.T) {
	p := open(t, "outfeed-cabinet")
	c, _ := Build(p)
	if c.Surface != 34*in || c.Reached > c.Surface || c.Reached < c.Surface-in/8 || c.Reached < 33*in+in/2 {
		t.Errorf("the saw stands at %v, the cabinet at %v", c.Surface, c.Reached)
	}
	var sum measure.Length
	for _, l := range c.Chain {
		sum += l.Height
	}
	if sum != c.Reached {
		t.Errorf("the chain adds up to %v", sum)
	}
	was := get(t, c, "side-left").Length
	set(t, p, "lineUp.surface", "33 1/2")
	if c, _ = Build(p); get(t, c, "side-left").Length != was-in/2 {
		t.Errorf("sides %v on another floor, %v before", get(t, c, "side-left").Length, was)
	}
}

// TestBadInput: what a slip of the finger gives is told, with a number, and the
// rest of the cart is still there.
func TestBadInput(t *testing.T) {
	for _, tt := range []struct {
		name string
		slip func(*project.Project)
		code issue.Code
	}{
		{"openings that do not add up", func(p *project.Project) { p.Cabinet.Bays[0].Openings[0].Height = 30 * in }, Openings},
		{"a negative gap", func(p *project.Project) { p.Drawers.Gap = -in / 8 }, Gap},
		{"a gap as wide as a box side", func(p *project.Project) { p.Drawers.Gap = 2 * in }, Gap},
		{"slides longer than the case is deep", func(p *project.Project) { p.Drawers.SlideLength = 28 * in }, SlideLong},
		{"a face frame wider than the bay", func(p *project.Project) { p.Cabinet.Face.Kind, p.Cabinet.Face.Stile = "frame", 20*in }, FrameWide},
		{"sixty drawers", func(p *project.Project) {
			p.Cabinet.Bays[0].Openings = make([]project.Opening, 60)
			for i := range p.Cabinet.Bays[0].Openings {
				p.Cabinet.Bays[0].Openings[i].Kind = "drawer"
			}
		}, Many},
		{"a front lower than a box", func(p *project.Project) { p.Cabinet.Bays[0].Openings[0].Height = in }, DrawerLow},
		{"a machine wider than the top", func(p *project.Project) { p.Machine.Width = 60 * in }, MachineWide},
		{"diagonals that no opening has", func(p *project.Project) {
			p.Cabinet.Bays[0].Measured = &project.Measured{DiagonalA: 30 * in, DiagonalB: 30 * in}
		}, Contradict},
		{"a width that no tape reads", func(p *project.Project) { p.Cabinet.Bays[0].Measured = &project.Measured{Front: 2 * in} }, Doubt},
		{"a crank through the worktop", func(p *project.Project) {
			p.Machine.Needs = []project.Need{{Side: "left", Reach: 2 * in, Low: -2 * in}}
		}, InWay},
		{"legs a foot out", func(p *project.Project) { p.LineUp.Legs = 12 * in }, Legs},
		{"rails higher than the case", func(p *project.Project) {
			p.Cabinet.Face.Kind, p.Cabinet.Face.Rail, p.Cabinet.Face.Mid = "frame", 50*in, true
		}, Openings},
	} {
		p := open(t, "jointer-stand")
		tt.slip(p)
		c, f := Build(p)
		number := false
		for _, x := range f {
			if x.Code == tt.code {
				for _, a := range x.Args {
					switch a.(type) {
					case measure.Length, int:
						number = true
					}
				}
			}
			switch x.Code {
			case Overlap, Loose, OpenJoint, Undeclared, Stuck:
				t.Errorf("%s: a mistake of the program: %v", tt.name, x)
			}
		}
		if !number {
			t.Errorf("%s: no %s with a number in %v", tt.name, tt.code, f)
		}
		if len(c.Parts) < 10 {
			t.Errorf("%s: only %d parts are left", tt.name, len(c.Parts))
		}
	}
}
