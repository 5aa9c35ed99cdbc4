package draw_test

import (
	"math"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/scene"
)

func sided(t *testing.T, side string, edit func(*project.Project)) design.Cart {
	t.Helper()
	p := opened(t, "jointer-stand")
	p.LineUp.Side = side
	if edit != nil {
		edit(p)
	}
	c, _ := design.Build(p)
	return c
}

// slabOf returns the outlines that are hatched like the ground, the floor
// left out, and the floor's height.
func slabOf(s scene.Scene) (slabs []scene.Rect, floor scene.Unit) {
	for _, it := range s.Items {
		a, ok := it.(scene.Area)
		if !ok || a.Hatch != scene.GroundHatch {
			continue
		}
		r := scene.Rect{Min: a.Pts[0], Max: a.Pts[0]}
		for _, p := range a.Pts {
			r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
			r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
		}
		if r.H() == 8*scene.PX {
			floor = r.Min.Y
			continue
		}
		slabs = append(slabs, r)
	}
	return slabs, floor
}

// TestSurfaceSide: the surface to line up with is drawn on its side. By hand:
// the worktop of the stand reaches 1 in over each side and the front of a case
// of 36 by 22 in, and 1/2 in over its back; pulls reach 32 mm (1.26 in) before
// it. The surface is drawn 2 in from the furthest, 5 in of it: on the left from
// −8 to −3, on the right from 39 to 44, in front from −8.26 to −3.26, behind
// from 24.5 to 29.5; its top is at 35 1/4, 1 1/2 in thick.
func TestSurfaceSide(t *testing.T) {
	for _, tt := range []struct {
		side, ref string // the handle whose place is known
		look      draw.Look
		flank     bool
		at        float64 // of the handle, in
		from, to  float64 // of the surface, in
	}{
		{"left", "top/left", draw.FrontAndSide, false, -1, -8, -3},
		{"", "top/left", draw.FrontAndSide, false, -1, -8, -3},
		{"right", "top/right", draw.FrontAndSide, false, 37, 39, 44},
		{"front", "side/front", draw.FrontAndSide, true, -1, -8.26, -3.26},
		{"back", "side/back", draw.FrontAndSide, true, 22.5, 24.5, 29.5},
		{"front", "side/front", draw.SideLook, true, -1, -8.26, -3.26},
		{"left", "top/left", draw.PlanLook, false, -1, -8, -3},
		{"right", "top/right", draw.PlanLook, false, 37, 39, 44},
		{"front", "top/front", draw.PlanLook, false, -1, -8.26, -3.26},
		{"back", "top/back", draw.PlanLook, false, 22.5, 24.5, 29.5},
	} {
		s := draw.Cart(sided(t, tt.side, nil), 900, 700, draw.CartOptions{Look: tt.look})
		slabs, floor := slabOf(s)
		if len(slabs) != 1 {
			t.Errorf("%s, look %d: %d surfaces are drawn, want 1", tt.side, tt.look, len(slabs))
			continue
		}
		r := slabs[0]
		for _, sp := range s.Spots {
			if sp.Ref != tt.ref {
				continue
			}
			inch := func(d scene.Unit) float64 {
				return float64(d) * float64(sp.PerPX) / float64(scene.PX) / float64(measure.Inch)
			}
			from, to := inch(r.Min.X-sp.At.Mid().X)+tt.at, inch(r.Max.X-sp.At.Mid().X)+tt.at
			if tt.look == draw.PlanLook && (tt.side == "front" || tt.side == "back") {
				from, to = inch(sp.At.Mid().Y-r.Max.Y)+tt.at, inch(sp.At.Mid().Y-r.Min.Y)+tt.at
			}
			if math.Abs(from-tt.from) > 0.2 || math.Abs(to-tt.to) > 0.2 {
				t.Errorf("%s, look %d: the surface is drawn from %.2f to %.2f in, want %.2f to %.2f", tt.side, tt.look, from, to, tt.from, tt.to)
			}
			if top := inch(floor - r.Min.Y); tt.look != draw.PlanLook && math.Abs(top-35.25) > 0.1 {
				t.Errorf("%s: its top is drawn %.2f in over the floor, want 35.25", tt.side, top)
			}
		}
		if tt.look == draw.PlanLook && !strings.Contains(texts(s), "assembly table, 35 1⁄4") {
			t.Errorf("%s: the plan does not name the surface: %s", tt.side, texts(s))
		}
	}
}

// TestSurfaceStep: the step beside the surface is what the user asked for, and
// none is drawn where both stand level.
func TestSurfaceStep(t *testing.T) {
	for _, side := range []string{"left", "right", "front", "back"} {
		s := draw.Cart(sided(t, side, func(p *project.Project) { p.LineUp.Step = measure.Inch * 3 / 32 }), 900, 700, draw.CartOptions{})
		if !strings.Contains("|"+texts(s)+"|", "|3⁄32|") {
			t.Errorf("%s: the step of 3/32 is not drawn: %s", side, texts(s))
		}
		s = draw.Cart(sided(t, side, func(p *project.Project) { p.LineUp.Role = "beside" }), 900, 700, draw.CartOptions{})
		if strings.Contains("|"+texts(s)+"|", "|1⁄16|") {
			t.Errorf("%s: level, yet a step is drawn: %s", side, texts(s))
		}
	}
	// Where the side is not shown, the front says where the surface stands.
	s := draw.Cart(sided(t, "back", nil), 360, 372, draw.CartOptions{Front: true})
	if slabs, _ := slabOf(s); len(slabs) != 0 || !strings.Contains(texts(s), "35 1⁄4 behind") {
		t.Errorf("front alone: %d surfaces, %s", len(slabs), texts(s))
	}
}

// TestPlanWordsClear: from above, no words lie on a handle.
func TestPlanWordsClear(t *testing.T) {
	for _, name := range []string{"jointer-stand", "low-assembly-cart", "open-bench", "outfeed-cabinet", "plain-box", "sharpening-cart", "tall-tool-cabinet"} {
		for _, size := range [][2]int{{700, 560}, {820, 480}, {360, 372}} {
			s := draw.Cart(cartOf(t, name), size[0], size[1], draw.CartOptions{Look: draw.PlanLook})
			for _, it := range s.Items {
				l, ok := it.(scene.Label)
				if !ok {
					continue
				}
				for _, sp := range s.Spots {
					if sp.Drag != 0 && sp.At.Meets(l.Extent()) {
						t.Errorf("%s at %v: %q lies on the handle %s", name, size, l.Text, sp.Ref)
					}
				}
			}
		}
	}
}
