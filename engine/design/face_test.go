package design

import (
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// framed is the jointer stand with a face frame of 3/4 maple, stiles and rails
// 1 1/2 in. Bay 1 is left 15 21/64 clear: from 1 1/2 to 17 7/32 − (1 1/2 −
// 23/32) ÷ 2. Its height is 19 − 1 1/2 − (1 1/2 − 23/32) = 16 23/32.
func framed(t *testing.T) *project.Project {
	p := open(t, "jointer-stand")
	set(t, p, "cabinet.face.kind", "frame")
	return p
}

// TestMidRails: fronts of 4, 6 1/4 and the rest. Without rails between them 16
// 23/32 − 10 1/4 − 4 × 3/32 = 6 3/32 is left; two rails and two gaps more leave
// 16 23/32 − 10 1/4 − 2 × 1 1/2 − 6 × 3/32 = 2 29/32.
func TestMidRails(t *testing.T) {
	p := framed(t)
	last := func() measure.Length {
		c, f := Build(p)
		if f.Blocked() {
			t.Fatal(f)
		}
		return get(t, c, "bay1/drawer3/front").Width
	}
	if got := last(); got != 6*in+in*3/32 {
		t.Errorf("without rails between: %v, by hand 6 3/32", got)
	}
	set(t, p, "cabinet.face.mid", "true")
	if got := last(); got != 2*in+in*29/32 {
		t.Errorf("with rails between: %v, by hand 2 29/32", got)
	}
	c, _ := Build(p)
	rail := get(t, c, "rail-mid-1-1")
	d := c.Drawers[0]
	if rail.Length != 15*in+in*5/16 || rail.Box.Size(geom.Z) != in*3/2 {
		t.Errorf("a rail is %v × %v, by hand 15 5/16 × 1 1/2", rail.Length, rail.Box.Size(geom.Z))
	}
	if gap := d.Front.Min[geom.Z] - rail.Box.Max[geom.Z]; gap != d.GapBelow || gap < in*3/32 || gap > in/8 {
		t.Errorf("the front stands %v over its rail, the gap is %v", gap, d.GapBelow)
	}
	if _, ok := find(c.Parts, "rail-mid-2-1"); ok {
		t.Error("a bay of one opening has a rail")
	}
	// Overlay fronts hide the rails and keep their height: the boxes give way.
	set(t, p, "drawers.fit", "overlay")
	c, _ = Build(p)
	rail = get(t, c, "rail-mid-1-1")
	for n, d := range c.Drawers[:2] {
		if d.Box.Max[geom.Z] > rail.Box.Min[geom.Z] && d.Box.Min[geom.Z] < rail.Box.Max[geom.Z] {
			t.Errorf("box %d runs into the rail", n+1)
		}
	}
}

// TestFrameProud: a frame that stands 1/8 past the sides leaves bay 1 that much
// wider: 15 29/64, so rails of 15 7/16.
func TestFrameProud(t *testing.T) {
	p := framed(t)
	rail := func() measure.Length { c, _ := Build(p); return get(t, c, "rail-top-1").Length }
	if got := rail(); got != 15*in+in*5/16 {
		t.Errorf("flush: %v, by hand 15 5/16", got)
	}
	set(t, p, "cabinet.face.proud", "1/8")
	if got := rail(); got != 15*in+in*7/16 {
		t.Errorf("proud: %v, by hand 15 7/16", got)
	}
	c, _ := Build(p)
	if x := get(t, c, "stile-side-left").Box.Min[geom.X]; x != -in/8 {
		t.Errorf("the left stile begins at %v", x)
	}
	if x := get(t, c, "stile-side-right").Box.Max[geom.X]; x != c.Case.Max[geom.X]+in/8 {
		t.Errorf("the right stile ends at %v of %v", x, c.Case.Max[geom.X])
	}
	// 1 in past the sides would leave 1/2 of the stile on an edge of 23/32.
	set(t, p, "cabinet.face.proud", "1")
	if c, f := Build(p); !f.Has(FrameProud) || get(t, c, "stile-side-left").Box.Min[geom.X] != -(in*3/2-in*23/32) {
		t.Error("a stile that leaves the edge bare is not told")
	}
}

// TestStripsProud: a 3/4 board on a 23/32 edge stands 1/32 proud; asked for 1/64,
// another 1/64 is planed off first. On thicker ply nothing is.
func TestStripsProud(t *testing.T) {
	p := open(t, "jointer-stand")
	terms := func() []part.Term { c, _ := Build(p); return get(t, c, "strip-side-left").Reasons[2].Terms }
	if got := terms(); len(got) != 2 || got[0].Value != in*23/32 || got[1].Value != in/32 {
		t.Errorf("strip: %v", got)
	}
	set(t, p, "cabinet.face.proud", "1/64 in")
	if got := terms(); len(got) != 3 || got[1].Value != in/64 || got[2].Value != in/64 {
		t.Errorf("planed: %v", got)
	}
	set(t, p, "stock.materials.0.measured", "47/64 in")
	if got := terms(); len(got) != 2 || got[0].Value != in*47/64 || got[1].Value != in/64 {
		t.Errorf("thicker ply: %v", got)
	}
}

// TestStripEdges: strips on the uprights alone leave the bottom 1/4 deeper;
// with the shelves, each fixed one has its strip.
func TestStripEdges(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "cabinet.bays.1.openings.0.kind", "shelf")
	if err := project.Insert(p, "cabinet.bays.1.openings", -1); err != nil {
		t.Fatal(err)
	}
	c, _ := Build(p)
	was := get(t, c, "bottom").Width
	if _, ok := find(c.Parts, "strip-bay2/shelf1"); ok {
		t.Error("a shelf has a strip unasked")
	}
	set(t, p, "cabinet.face.edges", "shelves")
	c, _ = Build(p)
	if s := get(t, c, "strip-bay2/shelf1"); s.Length != get(t, c, "bay2/shelf1").Length {
		t.Errorf("the shelf's strip is %v", s.Length)
	}
	set(t, p, "cabinet.face.edges", "uprights")
	c, _ = Build(p)
	if got := get(t, c, "bottom").Width; got != was+in/4 {
		t.Errorf("the bottom is %v deep, with a strip %v", got, was)
	}
	if _, ok := find(c.Parts, "strip-bottom"); ok {
		t.Error("the bottom has a strip")
	}
	laws(t, "uprights", c)
}

// TestMitre: mitred side strips reach into the corner, a strip's thickness of
// 1/4 further than butted ones; the front one is as long either way, 36 + 1
// overhang left and 1 right.
func TestMitre(t *testing.T) {
	p := open(t, "jointer-stand")
	c, _ := Build(p)
	side, front := get(t, c, "strip-top-left").Length, get(t, c, "strip-top-front").Length
	set(t, p, "cabinet.face.corner", "mitre")
	c, _ = Build(p)
	l, r, f := get(t, c, "strip-top-left"), get(t, c, "strip-top-right"), get(t, c, "strip-top-front")
	if l.Length != side+in/4 || r.Length != l.Length || f.Length != front {
		t.Errorf("mitred %v, %v, %v; butted %v and %v", l.Length, r.Length, f.Length, side, front)
	}
	if len(l.Features) != 1 || len(f.Features) != 2 || l.Features[0].Kind != part.Mitre {
		t.Errorf("mitres: %v, %v", l.Features, f.Features)
	}
	for _, line := range c.Lines {
		if len(line.Parts) > 1 && line.Parts[0] == l.ID {
			t.Error("two mitred strips of different hand are on one line")
		}
	}
}

// TestHands: of every pair that differs by its hand, each has a line of its own.
func TestHands(t *testing.T) {
	p := framed(t)
	set(t, p, "cabinet.back.kind", "frame")
	set(t, p, "cabinet.upper", "stretchers")
	c, _ := Build(p)
	for _, pair := range [][2]part.ID{{"side-left", "side-right"}, {"back-stile-left", "back-stile-right"}, {"stile-side-left", "stile-side-right"},
		{"bay1/drawer1/side-left", "bay1/drawer1/side-right"}, {"stretcher-front", "stretcher-back"}} {
		a, b := get(t, c, pair[0]), get(t, c, pair[1])
		if a.Name == b.Name {
			t.Errorf("%s and %s are both called %s", a.ID, b.ID, a.Name)
		}
		for _, l := range c.Lines {
			n := 0
			for _, id := range l.Parts {
				if id == a.ID || id == b.ID {
					n++
				}
			}
			if n > 1 {
				t.Errorf("%s and %s share line %s", a.ID, b.ID, l.Tag)
			}
		}
	}
	// A left side shows its left face, a right side its right one.
	if get(t, c, "side-left").GoodHigh || !get(t, c, "side-right").GoodHigh {
		t.Error("the good faces of the sides do not lie outside")
	}
	if get(t, c, "top").GoodHigh == false || get(t, c, "bay1/drawer1/front").GoodHigh {
		t.Error("the worktop's good face is above, a front's is in front")
	}
	// The partition shows in the open bay on its right.
	if !get(t, c, "partition-1").GoodHigh {
		t.Error("the partition turns its good face to the drawers")
	}
}
