package design

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/stock"
)

// TestEveryThickness takes both ends of every category of Voluntary Product
// Standard PS 1-19 (±1/32 in up to 13/16, ±5 % above) through a whole cart, each
// as case, as box and as bottom as far as it is used so. The laws hold, nothing
// blocks, and the sizes are those by hand.
func TestEveryThickness(t *testing.T) {
	n := 0
	for _, of := range []measure.Length{in / 4, in * 11 / 32, in * 3 / 8, in * 15 / 32, in / 2, in * 19 / 32, in * 5 / 8, in * 23 / 32, in * 3 / 4, in * 7 / 8, in * 9 / 8} {
		least, most := stock.PlyRange(of)
		for _, thick := range []measure.Length{least, most} {
			for i, part := range []string{"case", "box", "bottom"} {
				switch {
				case i == 0 && of < in*15/32, i == 1 && (of < in*3/8 || of > in*3/4), i == 2 && of > in/2:
					continue
				}
				n++
				p := open(t, "jointer-stand")
				p.Stock.Materials[i].Measured = thick
				c, f := Build(p)
				if f.Blocked() {
					t.Errorf("%s of %v: %v", part, thick, f)
					continue
				}
				laws(t, part, c)
				var got, want measure.Length
				switch part {
				case "case": // 35 5/16 − 4 5/8 − 10 1/4, less bottom and top
					got, want = get(t, c, "side-left").Length, c.Tape.Ceil(20*in+in*7/16-2*thick)
				case "box": // 16 1/2 − 2 × 1/2 − 1/32, less two sides
					got, want = get(t, c, "bay1/drawer1/box-front").Length, c.Tape.Floor(15*in+in*15/32-2*thick)
				default: // a bottom takes of the inside height what it is thick
					d := c.Drawers[0]
					got, want = d.Inside.Min[2]-get(t, c, "bay1/drawer1/bottom").Box.Min[2], thick
				}
				if got != want {
					t.Errorf("%s of %v: %v, by hand %v", part, thick, got, want)
				}
			}
		}
	}
	if n != 2*(8+7+5) {
		t.Errorf("%d carts were built, want both ends of 8 cases, 7 boxes and 5 bottoms", n)
	}
}

// TestEveryMetricThickness does the same for a birch mill's size sheet (after
// EN 315), sanded: nominal, and how much less and more.
func TestEveryMetricThickness(t *testing.T) {
	for _, of := range [][3]measure.Length{{4000, 500, 300}, {6500, 500, 400}, {9000, 500, 400}, {12000, 700, 500}, {15000, 800, 600}, {18000, 900, 700}, {21000, 1000, 800}} {
		for _, thick := range []measure.Length{(of[0] - of[1]) * measure.UM, (of[0] + of[2]) * measure.UM} {
			p := open(t, "sharpening-cart")
			for i := range p.Stock.Materials {
				switch m := &p.Stock.Materials[i]; {
				case m.Nominal >= 15*mm && of[0] >= 15000, m.Nominal >= 9*mm && m.Nominal < 15*mm && of[0] >= 9000 && of[0] < 15000, m.Nominal < 9*mm && of[0] < 9000:
					m.Measured = thick
				}
			}
			c, f := Build(p)
			if f.Blocked() {
				t.Errorf("%v: %v", thick, f)
			}
			laws(t, "birch", c)
			// 850 − 128 mm, less two layers of worktop; the bottom stands
			// between the sides.
			if of[0] >= 15000 {
				if got, want := get(t, c, "side-left").Length, 722*mm-2*thick; (got - want).Abs() >= c.Tape.Least() {
					t.Errorf("%v: sides %v, by hand %v", thick, got, want)
				}
			}
		}
	}
}

// TestNoPlus: an opening of 22 in takes a box of 21 in and no more: a slide
// maker's guide wants 12.9 to 13.2 mm beside it, a carpenter's account "no plus
// in the clearance, only minus". 21 31/32 − 21 − 1/32 of play is tight and told;
// a box made wider than its room cannot be asked for.
func TestNoPlus(t *testing.T) {
	for _, tt := range []struct {
		play string
		told bool
		box  measure.Length
	}{
		{"1/32", false, 20*in + in*31/32}, // 0.8 mm: within the window of 0.4 to 1.0
		{"1/128", true, 20*in + in*31/32}, // 0.2 mm is less than 0.4: told; the box is a whole step
		{"1/16", false, 20*in + in*15/16}, // 1/32 on each side, as makers print
		{"3/32", true, 20*in + in*29/32},  // more than any of them
		{"-1/32", true, 20*in + in*31/32}, // less than none: told, the usual is used
	} {
		p := open(t, "jointer-stand")
		set(t, p, "cabinet.bays.0.width", "22")
		set(t, p, "cabinet.width", "48")
		set(t, p, "drawers.allowance", tt.play)
		c, f := Build(p)
		if got := f.Has(Play) || f.Has(Limit); got != tt.told {
			t.Errorf("play %s: told %v: %v", tt.play, got, f)
		}
		if got := c.Drawers[0].Box.Size(0); got != tt.box {
			t.Errorf("play %s: box %v, by hand %v", tt.play, got, tt.box)
		}
	}
}

// TestEqualReveals: three inset fronts in 24 in with gaps of 1/8: (24 − 4 × 1/8)
// ÷ 3 = 7.8333 in (equal-reveal sum, arithmetic). On a tape of 1/32 that is 7 13/16,
// and the gaps take the rest: (24 − 3 × 7 13/16) ÷ 4 = 9/64.
func TestEqualReveals(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "lineUp.surface", "40 1/4") // 5 in higher: 19 + 5 = 24 in inside
	set(t, p, "cabinet.bays.0.openings.0.height", "")
	set(t, p, "cabinet.bays.0.openings.1.height", "")
	set(t, p, "drawers.gap", "1/8")
	c, _ := Build(p)
	if h := c.Bays[0].Clear.Size(2); h != 24*in {
		t.Fatalf("the opening is %v high", h)
	}
	for n, d := range c.Drawers {
		if got := d.Front.Size(2); got != 7*in+in*13/16 || d.GapAbove != in*9/64 {
			t.Errorf("front %d: %v under a gap of %v, by hand 7 13/16 and 9/64", n+1, got, d.GapAbove)
		}
	}
}

// TestStack: the height as a stack: a saw of standard size at 34 in, 1/16 lower;
// casters of 3 7/8, a bottom and two layers of 3/4: 33 15/16 − 3 7/8 − 3 × 3/4 leaves
// sides of 27 13/16 (sum of parts equals target: arithmetic; 34 in, and 1/16 below:
// American Woodworker, 2014, and common practice).
func TestStack(t *testing.T) {
	p := open(t, "outfeed-cabinet")
	set(t, p, "base.caster.mount", "3 7/8")
	for i := range p.Stock.Materials {
		if m := &p.Stock.Materials[i]; m.ID == p.Cabinet.Material {
			m.Measured = in * 3 / 4
		}
	}
	c, _ := Build(p)
	if got := get(t, c, "side-left").Length; got != 27*in+in*13/16 || c.Reached != 34*in-in/16 {
		t.Errorf("sides %v to a height of %v, by hand 27 13/16 to 33 15/16", got, c.Reached)
	}
}
