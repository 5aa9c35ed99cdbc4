package work

import (
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
)

// TestSupplies, by hand from the cut list of the jointer stand: its drawer
// fronts are 16 5/16 by 4, 6 1/4 and 8 3/8, so 2 × (3 × 16 5/16 + 18 5/8) = 135
// 1/8 in of edge; the case has strips. Bare, three uprights of 19 and a bottom
// of 36 come to it. 81 ft² take a sheet of each grit for 20 ft², and 3 coats at
// 100 ft² a quart: 2.43, so 3 cans.
func TestSupplies(t *testing.T) {
	p := startingPoints(t)["jointer-stand"]
	rows := func() map[string]design.Hardware {
		c, _ := design.Build(p)
		out := map[string]design.Hardware{}
		for _, h := range supplies(p, c) {
			if _, twice := out[h.ID]; twice {
				t.Errorf("two rows are %q", h.ID)
			}
			out[h.ID] = h
		}
		return out
	}
	c, _ := design.Build(p)
	if l := plyEdges(p, c); l != in("135 1/8") {
		t.Errorf("edges %v", measure.Tape{}.Text(l))
	}
	r := rows()
	for id, n := range map[string]int{"edging": 1, "abrasive": 15, "finish": 3, "pocket-screw": 46, "pocket-screw/2": 27, "wood-screw": 11, "glue": 1} {
		if r[id].Count != n {
			t.Errorf("%s: %+v, want %d", id, r[id], n)
		}
	}
	if !strings.Contains(r["pocket-screw/2"].Name, ", 1 in") || !strings.Contains(r["edging"].Why, "135") {
		t.Errorf("%+v, %+v", r["pocket-screw/2"], r["edging"])
	}
	p.Cabinet.Face.Kind = "bare"
	c, _ = design.Build(p)
	if l := plyEdges(p, c); l != in("228 1/8") {
		t.Errorf("bare: edges %v", measure.Tape{}.Text(l))
	}
	p.Tape.Unit = "metric"
	if h := rows()["edging"]; !strings.Contains(h.Name, "7.5 m") || h.Count != 1 {
		t.Errorf("metric: %+v", h)
	}
	for i := range p.Stock.Materials {
		p.Stock.Materials[i].Finish = "lacquer"
	}
	if r := rows(); r["finish"].Count+r["abrasive"].Count != 0 {
		t.Errorf("finished as bought: %+v", r)
	}
}
