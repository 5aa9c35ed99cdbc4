package design

import (
	"testing"

	"cartwright/engine/measure"
)

// TestLevelling, by hand. With casters of 4 5/8 in the sides come out at 19 in
// and the table at its target. With casters of 117 mm it does not: 117 + 19 1/32
// (483.39375 mm) + 2 × 23/32 (36.5125) + 10 1/4 (260.35) = 897.25625 mm, and 35 1/4
// + 1/16 = 896.9375 mm: .31875 mm high. On a floor out by 1/4 in (6.35 mm) it is
// screwed out by 6.03125 or in by 6.66875 mm: 1/4 in is short of that by .31875.
func TestLevelling(t *testing.T) {
	for _, tt := range []struct {
		mount, floor, level string
		out, in, short      measure.Length
		word                string
	}{
		{"4 5/8", "", "", 0, 0, 0, ""},
		{"4 5/8", "", "1/4", 0, 0, 0, ""},
		{"4 5/8", "1/4", "1/4", in / 4, in / 4, 0, ""},
		{"4 5/8", "9/32", "1/4", in * 9 / 32, in * 9 / 32, in / 32, "out"},
		{"4 5/8", "1/4", "", in / 4, in / 4, in / 4, "out"},
		{"117 mm", "", "1/4", 0, 31875 * mm / 100000, 0, ""},
		{"117 mm", "1/4", "1/4", 603125 * mm / 100000, 666875 * mm / 100000, 31875 * mm / 100000, "in"},
		{"117 mm", "1/4", "3/8", 603125 * mm / 100000, 666875 * mm / 100000, 0, ""},
		{"117 mm", "", "0.2 mm", 0, 31875 * mm / 100000, 11875 * mm / 100000, "in"},
	} {
		p := open(t, "jointer-stand")
		set(t, p, "base.caster.mount", tt.mount)
		set(t, p, "base.floor", tt.floor)
		set(t, p, "base.level", tt.level)
		c, f := Build(p)
		l := c.Levelling
		if l.Out != tt.out || l.In != tt.in {
			t.Errorf("casters %s, floor %s: out %v, in %v, by hand %v and %v", tt.mount, tt.floor, l.Out, l.In, tt.out, tt.in)
		}
		var short measure.Length
		word := ""
		for _, x := range f {
			if x.Code == LevelShort {
				word, short = x.Args[0].(string), x.Args[3].(measure.Length)
			}
		}
		if word != tt.word || short != tt.short {
			t.Errorf("casters %s, floor %s, range %s: %q short by %v, by hand %q by %v", tt.mount, tt.floor, tt.level, word, short, tt.word, tt.short)
		}
		if f.Has(LevelShort) && (f.Has(Levels) || f.Has(OffTape)) {
			t.Errorf("casters %s: told twice: %v", tt.mount, f)
		}
	}
	// What nobody can mean is told, not used.
	for _, floor := range []string{"-1", "900 in"} {
		p := open(t, "jointer-stand")
		set(t, p, "base.floor", floor)
		if c, f := Build(p); !f.Has(Limit) || c.Levelling.Floor < 0 || c.Levelling.Floor > 4*in {
			t.Errorf("floor %s: %v, %v", floor, c.Levelling, f)
		}
	}
}
