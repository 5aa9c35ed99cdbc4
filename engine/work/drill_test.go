package work

import (
	"math/rand/v2"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// drillLaws counts the holes against what is bought, and checks from the boxes
// alone that each lies on its face.
func drillLaws(t *testing.T, name string, c design.Cart, d Drilling) {
	t.Helper()
	holes := map[HoleKind]int{}
	ids := map[string]bool{}
	for _, h := range d.Drills {
		if ids[h.ID] {
			t.Errorf("%s: %s comes twice", name, h.ID)
		}
		ids[h.ID] = true
		p := c.Parts[h.Part]
		if !strings.HasPrefix(h.ID, "drill/"+string(p.ID)+"/") || strings.Contains(h.ID, " ") {
			t.Errorf("%s: bad name %q", name, h.ID)
		}
		if h.Along == h.Face.Axis || h.Across == h.Face.Axis || h.Along == h.Across {
			t.Errorf("%s, %s: measured along %v and %v on a face across %v", name, h.ID, h.Along, h.Across, h.Face.Axis)
		}
		for _, s := range h.Spots {
			holes[h.Kind]++
			if s.At[h.Face.Axis] != h.Face.Of(p.Box) || p.Box.Min[h.Along]+s.A != s.At[h.Along] || p.Box.Min[h.Across]+s.B != s.At[h.Across] {
				t.Errorf("%s, %s: %v is not where its measures say", name, h.ID, s)
			}
			if s.A < 0 || s.B < 0 || s.A > p.Box.Size(h.Along) || s.B > p.Box.Size(h.Across) {
				if !d.Findings.Has(HoleEdge) {
					t.Errorf("%s, %s: %v is beside the part and nobody says so", name, h.ID, s)
				}
			}
		}
		if h.Depth >= p.Box.Size(h.Face.Axis) && h.Kind != CasterHole {
			t.Errorf("%s, %s: %v deep in %v", name, h.ID, h.Depth, p.Box.Size(h.Face.Axis))
		}
	}
	bought := map[string]int{}
	for _, h := range c.Hardware {
		bought[h.ID] = h.Count
	}
	spare := func(n int) int { return n + (n+9)/10 }
	doors := 0
	for range c.Doors {
		doors++
	}
	for _, w := range []struct {
		kind HoleKind
		want int
		of   string
	}{
		{PocketHole, bought["pocket-screw"], "pocket-screw"}, {Clearance, bought["wood-screw"], "wood-screw"},
		{FrontHole, bought["front-screw"], "front-screw"}, {PinHole, bought["pin"], "pin"},
	} {
		if spare(holes[w.kind]) != w.want {
			t.Errorf("%s: %d %s holes, %d %s bought", name, holes[w.kind], w.kind, w.want, w.of)
		}
	}
	if holes[CasterHole] != bought["caster-screw"] {
		t.Errorf("%s: %d caster holes, %d screws bought", name, holes[CasterHole], bought["caster-screw"])
	}
	if holes[FootHole] != bought["machine-bolt"] {
		t.Errorf("%s: %d holes for the machine, %d bolts bought", name, holes[FootHole], bought["machine-bolt"])
	}
	if holes[ShelfHole] != bought["shelf-pin"] {
		t.Errorf("%s: %d holes for %d shelf pins", name, holes[ShelfHole], bought["shelf-pin"])
	}
	// A pull has two screws, through the front and, in a drawer, the box.
	if want := 4*(bought["pull"]-doors) + 2*doors; holes[PullHole] != want {
		t.Errorf("%s: %d pull holes, want %d", name, holes[PullHole], want)
	}
	if holes[HingeHole] != 2*bought["hinge"] {
		t.Errorf("%s: %d places for %d hinges", name, holes[HingeHole], bought["hinge"])
	}
	if holes[SlotHole] != holes[RoundHole] {
		t.Errorf("%s: %d slots, %d round holes", name, holes[SlotHole], holes[RoundHole])
	}
}

// TestDrills: all starting points, and carts that differ from them.
func TestDrills(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 6))
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		d := Drills(p, c)
		drillLaws(t, name, c, d)
		for _, f := range d.Findings {
			t.Errorf("%s: %v", name, f)
		}
		for range 10 {
			q := p.Clone()
			pick := func(words ...string) string { return words[r.IntN(len(words))] }
			q.Cabinet.Back.Kind = pick("frame", "panel", "between", "let-in")
			q.Cabinet.Face.Kind = pick("bare", "strips", "frame")
			q.Machine.Foot = []project.FootHole{{Right: 2 * inch, Back: 2 * inch}, {Right: 8 * inch, Back: 2 * inch}, {Right: 8 * inch, Back: 6 * inch}}[:r.IntN(4)]
			q.Drawers.Slide, q.Drawers.Fit = pick("ball", "wood"), pick("inset", "overlay")
			if c, _ := design.Build(q); len(c.Parts) > 0 {
				drillLaws(t, name+" "+q.Cabinet.Face.Kind+" "+q.Drawers.Slide+" "+q.Drawers.Fit, c, Drills(q, c))
			}
		}
	}
}

// TestSlidesMatch: both members of a slide are screwed on one line: the holes
// in the box's side and those in the upright are at the same height and depth
// in the cart.
func TestSlidesMatch(t *testing.T) {
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		if strings.Contains(p.Drawers.Slide, "wood") || len(c.Drawers) == 0 {
			continue
		}
		at := map[[2]measure.Length]int{}
		for _, h := range Drills(p, c).Drills {
			if h.Kind == SlotHole {
				for _, s := range h.Spots {
					at[[2]measure.Length{s.At[geom.Y], s.At[geom.Z]}]++
				}
			}
		}
		if len(at) < 2*len(c.Drawers) {
			t.Errorf("%s: slots at %d places for %d drawers", name, len(at), len(c.Drawers))
		}
		for k, n := range at {
			if n%2 != 0 {
				t.Errorf("%s: %d slots at %v: one member has none there", name, n, k)
			}
		}
	}
}

// TestPullScrew: a front of 23/32 and a box of 15/32 with 1/4 in for the thread
// make 1 7/16, so 1 1/2 in.
func TestPullScrew(t *testing.T) {
	in := measure.Inch
	if got := screwThrough(in*23/32 + in*15/32); got != in*3/2 {
		t.Errorf("%v", got)
	}
}
