package draw_test

import (
	"os"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/project"
	"cartwright/engine/scene"
)

// opened is a starting point.
func opened(t *testing.T, name string) *project.Project {
	t.Helper()
	data, err := os.ReadFile("../../testdata/projects/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := project.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func cartOf(t *testing.T, name string) design.Cart {
	t.Helper()
	c, _ := design.Build(opened(t, name))
	return c
}

func texts(s scene.Scene) string {
	var out []string
	for _, it := range s.Items {
		if l, ok := it.(scene.Label); ok {
			out = append(out, l.Text)
		}
	}
	return strings.Join(out, "|")
}

// TestPlanLook: from above the worktop's four edges have handles where they
// stand, wider apart than the case, and the plan says its depth and overhangs.
func TestPlanLook(t *testing.T) {
	for _, size := range [][2]int{{700, 640}, {360, 372}} {
		for _, name := range []string{"jointer-stand", "tall-tool-cabinet", "options/framed", "options/strips"} {
			s := draw.Cart(cartOf(t, name), size[0], size[1], draw.CartOptions{Look: draw.PlanLook})
			at := map[string]scene.Pt{}
			for _, sp := range s.Spots {
				at[sp.Ref] = sp.At.Mid()
				if sp.Drag != 0 && (sp.At.Min.X < 0 || sp.At.Max.X > s.W || sp.At.Min.Y < 0 || sp.At.Max.Y > s.H) {
					t.Errorf("%s at %v: the handle %s lies outside", name, size, sp.Ref)
				}
			}
			if at["top/left"].X >= at["top/right"].X || at["top/back"].Y >= at["top/front"].Y {
				t.Errorf("%s: the edges stand at %v", name, at)
			}
		}
	}
	s := draw.Cart(cartOf(t, "jointer-stand"), 700, 640, draw.CartOptions{Look: draw.PlanLook})
	for _, want := range []string{"from above", "36", "22", "16 1⁄2", "17 11⁄32", "jointer"} {
		if !strings.Contains("|"+texts(s)+"|", "|"+want+"|") {
			t.Errorf("the plan does not say %q: %s", want, texts(s))
		}
	}
}

// TestSideLook: the side stands alone and larger than beside the front.
func TestSideLook(t *testing.T) {
	c := cartOf(t, "jointer-stand")
	width := func(o draw.CartOptions) scene.Unit {
		var l, r scene.Unit
		for _, sp := range draw.Cart(c, 700, 640, o).Spots {
			switch sp.Ref {
			case "side/front":
				l = sp.At.Mid().X
			case "side/back":
				r = sp.At.Mid().X
			}
		}
		return r - l
	}
	if a, b := width(draw.CartOptions{}), width(draw.CartOptions{Look: draw.SideLook}); a <= 0 || b <= a {
		t.Errorf("the side is %v wide, alone %v", a, b)
	}
}

// TestPartFace: a part is drawn at its proportions with its sizes; a mitred
// strip has its corner cut, a drawer side its groove.
func TestPartFace(t *testing.T) {
	c := cartOf(t, "jointer-stand")
	for _, p := range c.Parts {
		s := draw.PartFace(c, p, 440, 300)
		if !strings.Contains(texts(s), c.Tape.Show(p.Length)) || !strings.Contains(texts(s), c.Tape.Show(p.Width)) {
			t.Errorf("%s: %s", p.ID, texts(s))
		}
		areas := 0
		for _, it := range s.Items {
			if _, ok := it.(scene.Area); ok {
				areas++
			}
		}
		if want := 1 + len(p.Features); areas != want {
			t.Errorf("%s: %d outlines, its own and %d cut into it", p.ID, areas, len(p.Features))
		}
	}
}
