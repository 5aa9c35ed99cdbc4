package work

import (
	"slices"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// flushed builds a cart and returns, for each part that is flushed, by how
// much, and the places in the order of building.
func flushed(p *project.Project) (by map[string]measure.Length, at map[string]int) {
	c, _ := design.Build(p)
	by, at = map[string]measure.Length{}, map[string]int{}
	for i, s := range Build(p, c).Steps {
		at[s.ID] = i
		for _, k := range s.Flush {
			by[string(c.Parts[k].ID)] = c.Parts[k].Flush
		}
	}
	return by, at
}

// TestFlush: strips of a 3/4 board on 23/32 ply stand 1/32 proud and are flushed
// once their glue is hard, the case before boxes are hung; asked for 1/64, they
// are planed first and 1/64 is flushed; ply measured at 11/16 leaves 1/16.
func TestFlush(t *testing.T) {
	for _, tt := range []struct {
		edit func(*project.Project)
		want measure.Length
	}{
		{func(*project.Project) {}, measure.Inch / 32},
		{func(p *project.Project) { p.Cabinet.Face.Proud = measure.Inch64 }, measure.Inch64},
		{func(p *project.Project) { p.Cabinet.Face.Proud = measure.Inch }, measure.Inch / 32}, // no more than there is
		{func(p *project.Project) { p.Stock.Materials[0].Measured = measure.Inch * 11 / 16 }, measure.Inch / 16},
	} {
		p := startingPoints(t)["jointer-stand"]
		tt.edit(p)
		by, at := flushed(p)
		for _, id := range []string{"strip-side-left", "strip-side-right", "strip-partition-1", "strip-bottom", "strip-top-left", "strip-top-right", "strip-top-front"} {
			if by[id] != tt.want {
				t.Errorf("%s: %v is flushed, want %v", id, by[id], tt.want)
			}
		}
		if len(by) != 7 {
			t.Errorf("flushed: %v, want the seven strips", by)
		}
		for _, pair := range [][2]string{{"build/face", "build/flush/case"}, {"build/flush/case", "build/finish"}, {"build/flush/case", "build/drawers"},
			{"build/sub/top", "build/flush/top"}, {"build/flush/top", "build/top"}} {
			x, ok := at[pair[0]]
			y, ok2 := at[pair[1]]
			if !ok || !ok2 || x >= y {
				t.Errorf("%s is step %d, %s step %d", pair[0], x+1, pair[1], y+1)
			}
		}
	}
}

// TestFlushNone: a face frame that stands past the sides is meant to; a strip
// as thick as the ply, or thinner, has nothing to be flushed.
func TestFlushNone(t *testing.T) {
	p := startingPoints(t)["low-assembly-cart"]
	p.Cabinet.Face.Proud = measure.Inch / 8
	if by, _ := flushed(p); len(by) > 0 {
		t.Errorf("of a proud frame, %v is flushed", by)
	}
	for _, thick := range []measure.Length{measure.Inch * 23 / 32, measure.Inch * 5 / 8} {
		p = startingPoints(t)["jointer-stand"]
		k := slices.IndexFunc(p.Stock.Materials, func(m project.Material) bool { return m.ID == "maple" })
		p.Stock.Materials[k].Measured = thick
		if by, _ := flushed(p); len(by) > 0 {
			t.Errorf("a strip of %v on ply of 23/32: %v is flushed", thick, by)
		}
	}
}
