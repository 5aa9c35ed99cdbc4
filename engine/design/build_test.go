package design

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

func open(t testing.TB, name string) *project.Project {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../testdata/projects", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := project.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// set edits p or fails.
func set(t testing.TB, p *project.Project, path, text string) {
	t.Helper()
	if err := project.Set(p, path, text); err != nil {
		t.Fatalf("%s = %q: %v", path, text, err)
	}
}

func get(t testing.TB, c Cart, id part.ID) part.Part {
	t.Helper()
	p, ok := find(c.Parts, id)
	if !ok {
		t.Fatalf("no part %s", id)
	}
	return p
}

// TestHandWorked changes one field at a time of the jointer stand and compares
// one size with the sum worked by hand.
//
// As it stands: 35 1/4 + 1/16 = 35 5/16 = 4 5/8 casters + 23/32 bottom + 19
// sides + 23/32 top + 10 1/4 machine. Width 36 − 3 × 23/32 = 33 27/32 clear; bays
// 16 1/2 and 17 11/32. Depth 22 − 1/4 strip − 3/4 frame − 7/32 skin = 20 25/32.
func TestHandWorked(t *testing.T) {
	length := func(id part.ID) func(Cart) measure.Length {
		return func(c Cart) measure.Length { return get(t, c, id).Length }
	}
	width := func(id part.ID) func(Cart) measure.Length {
		return func(c Cart) measure.Length { return get(t, c, id).Width }
	}
	for _, tt := range []struct {
		path, text string
		what       string
		of         func(Cart) measure.Length
		before     string
		after      string
	}{
		{"machine.table", "10 3/4", "sides", length("side-left"), "19", "18 1/2"},
		{"lineUp.surface", "36", "sides", length("side-left"), "19", "19 3/4"},
		{"base.caster.mount", "5", "sides", length("side-left"), "19", "18 5/8"},
		{"lineUp.role", "feeds", "sides", length("side-left"), "19", "18 7/8"},                 // 35 1/4 − 1/16
		{"lineUp.role", "both", "sides", length("side-left"), "19", "18 15/16"},                // 35 1/4
		{"lineUp.step", "1/8", "sides", length("side-left"), "19", "19 1/16"},                  // 1/16 more
		{"stock.materials.0.measured", "11/16", "sides", length("side-left"), "19", "19 1/16"}, // bottom and top 1/32 thinner each
		{"cabinet.bottom", "between", "sides", length("side-left"), "19", "19 23/32"},          // they reach down past the bottom
		{"cabinet.depth", "23", "depth of the sides", width("side-left"), "20 25/32", "21 25/32"},
		{"cabinet.back.kind", "none", "depth of the sides", width("side-left"), "20 25/32", "21 3/4"},
		{"cabinet.face.kind", "bare", "depth of the sides", width("side-left"), "20 25/32", "21 1/32"},
		{"cabinet.width", "37", "bottom", length("bottom"), "36", "37"},
		{"cabinet.top.overhang.left", "2", "worktop", length("top"), "37 1/2", "38 1/2"}, // 36 + 1 + 1 − 2 × 1/4
		{"cabinet.back.rail", "3", "back rail", length("back-rail-top"), "31", "30"},
		// Box: 16 1/2 − 2 × 1/2 − 1/32 − 2 × 15/32 = 14 17/32 between the sides.
		{"cabinet.bays.0.width", "17", "box front", length("bay1/drawer1/box-front"), "14 17/32", "15 1/32"},
		{"drawers.allowance", "1/16", "box front", length("bay1/drawer1/box-front"), "14 17/32", "14 1/2"},
		{"stock.materials.1.measured", "1/2", "box front", length("bay1/drawer1/box-front"), "14 17/32", "14 15/32"},
		// Front: 16 1/2 − 2 × 3/32 = 16 5/16.
		{"drawers.gap", "1/8", "front", length("bay1/drawer1/front"), "16 5/16", "16 1/4"},
		// Fronts and gaps: 19 − 4 − 6 1/4 − 4 × 3/32 = 8 3/8.
		{"cabinet.bays.0.openings.0.height", "5", "bottom front", width("bay1/drawer3/front"), "8 3/8", "7 3/8"},
		// Box height: 4 − 1/4 below − 1/2 above = 3 1/4.
		{"drawers.below", "3/8", "box side height", width("bay1/drawer1/side-left"), "3 1/4", "3 1/8"},
		// Inside: 1/4 + 20 25/32 − 23/32 front = 20 5/16: slides of 20.
		{"cabinet.depth", "21 1/2", "slide", func(c Cart) measure.Length { return c.Drawers[0].Slide }, "20", "18"},
		{"drawers.slideLength", "16", "box side", length("bay1/drawer1/side-left"), "20", "16"},
	} {
		p := open(t, "jointer-stand")
		c, f := Build(p)
		if f.Blocked() {
			t.Fatalf("the demo is blocked: %v", f)
		}
		if got := c.Tape.Plain(tt.of(c)); got != tt.before {
			t.Errorf("%s is %s, by hand %s", tt.what, got, tt.before)
		}
		set(t, p, tt.path, tt.text)
		c, f = Build(p)
		if f.Blocked() {
			t.Errorf("%s = %s is blocked: %v", tt.path, tt.text, f)
			continue
		}
		if got := c.Tape.Plain(tt.of(c)); got != tt.after {
			t.Errorf("%s = %s: %s is %s, by hand %s", tt.path, tt.text, tt.what, got, tt.after)
		}
	}
}

// TestSlideClearance: the box is narrower than the opening by two slides and
// the play, as a slide maker's guide says: for 12.7-mm slides and a 22-in
// opening the box is 20.961 to 20.984 in wide; and a published account of 22-in
// openings with boxes of 15/32-in ply: front and back are 20 1/16 in, not 20,
// when no play is taken.
func TestSlideClearance(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "cabinet.bays.0.width", "22")
	set(t, p, "cabinet.width", "48")
	c, _ := Build(p)
	box := c.Drawers[0].Box.Size(geom.X)
	lo, _ := measure.Parse("20.961 in")
	hi, _ := measure.Parse("20.984 in")
	if box < lo || box > hi {
		t.Errorf("box for a 22 in opening is %v, the guide says %v to %v", box, lo, hi)
	}
	if got, want := get(t, c, "bay1/drawer1/box-front").Length, 20*in+in/32; got != want {
		t.Errorf("front between the sides is %v, with 1/32 play it is %v", got, want)
	}
	// The play is never a plus: 4 × the narrowest window up to the widest.
	for _, play := range []string{"0.4 mm", "1 mm", "1/32", "1/16"} {
		set(t, p, "drawers.allowance", play)
		c, _ = Build(p)
		if box := c.Drawers[0].Box.Size(geom.X); box+2*(in/2) >= 22*in {
			t.Errorf("play %s: box %v and two slides do not go in", play, box)
		}
	}
}

// TestReveals: gaps round fronts are equal to within one step of the tape, and
// fronts and gaps fill the opening to the tick.
func TestReveals(t *testing.T) {
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		c, _ := Build(open(t, name))
		reveals(t, c)
	}
	// Three equal shares of 19 in: 19 − 4 × 3/32 = 18 5/8, a third is 6.2083:
	// fronts of 6 3/16 and gaps of (19 − 3 × 6 3/16) ÷ 4 = 7/64.
	p := open(t, "jointer-stand")
	set(t, p, "cabinet.bays.0.openings.0.height", "")
	set(t, p, "cabinet.bays.0.openings.1.height", "")
	c, f := Build(p)
	if f.Blocked() {
		t.Fatal(f)
	}
	reveals(t, c)
	for _, d := range c.Drawers {
		if got := d.Front.Size(geom.Z); got != 6*in+in*3/16 {
			t.Errorf("front is %v, by hand 6 3/16 in", got)
		}
		if d.GapAbove != in*7/64 {
			t.Errorf("gap is %v, by hand 7/64 in", d.GapAbove)
		}
	}
}

func reveals(t *testing.T, c Cart) {
	t.Helper()
	step := c.Tape.Least()
	for i, b := range c.Bays {
		sum := measure.Length(0)
		z := b.Clear.Max[geom.Z]
		for _, op := range b.Openings {
			sum += op.Above + op.Cell.Size(geom.Z)
			if op.Cell.Max[geom.Z] > z {
				t.Errorf("bay %d: cells overlap", i)
			}
			z = op.Cell.Min[geom.Z]
		}
		if rest := z - b.Clear.Min[geom.Z]; rest < 0 || rest > in {
			t.Errorf("bay %d: %v left below", i, rest)
		}
	}
	for n, d := range c.Drawers {
		if d.GapLeft+d.Front.Size(geom.X)+d.GapRight != c.Bays[d.Bay].Width {
			t.Errorf("drawer %d: gaps and front do not fill the bay", n+1)
		}
		for _, g := range []measure.Length{d.GapRight, d.GapAbove} {
			if (g - d.GapLeft).Abs() > step {
				t.Errorf("drawer %d: gaps %v and %v differ by more than a step", n+1, d.GapLeft, g)
			}
		}
	}
}

// TestReasons: the terms of every reason add up to its result, with what
// rounding took.
func TestReasons(t *testing.T) {
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		c, _ := Build(open(t, name))
		laws(t, name, c)
	}
}

// TestSwappingTheTape: an inch project read with a metric tape of 0.5 mm has the
// same parts to within one step.
func TestSwappingTheTape(t *testing.T) {
	p := open(t, "jointer-stand")
	a, _ := Build(p)
	set(t, p, "tape.unit", "metric")
	set(t, p, "tape.step", "0.5 mm")
	set(t, p, "drawers.allowance", "1/32 in") // defaults differ between tapes
	set(t, p, "drawers.slideLength", "20 in")
	set(t, p, "drawers.below", "1/4 in")
	set(t, p, "drawers.above", "1/2 in")
	b, _ := Build(p)
	if len(a.Parts) != len(b.Parts) {
		t.Fatalf("%d parts, with the other tape %d", len(a.Parts), len(b.Parts))
	}
	for i, q := range a.Parts {
		r := b.Parts[i]
		if (q.Length-r.Length).Abs() > 2*mm || (q.Width-r.Width).Abs() > 2*mm || q.Thick != r.Thick {
			t.Errorf("%s: %v × %v, with the other tape %v × %v", q.ID, q.Length, q.Width, r.Length, r.Width)
		}
	}
}

func TestLines(t *testing.T) {
	c, _ := Build(open(t, "jointer-stand"))
	seen, n := map[part.ID]bool{}, 0
	for i, l := range c.Lines {
		if l.Tag != part.Tag(i) {
			t.Errorf("line %d has tag %s", i, l.Tag)
		}
		if len(l.Parts) > 0 && len(l.Parts) != l.Count {
			t.Errorf("%s: %d parts, count %d", l.Tag, len(l.Parts), l.Count)
		}
		for _, id := range l.Parts {
			if seen[id] {
				t.Errorf("%s is listed twice", id)
			}
			seen[id] = true
			p := get(t, c, id)
			if p.Length != l.Length || p.Width != l.Width || p.Thick != l.Thick || p.Material != l.Material {
				t.Errorf("%s differs from its line %s", id, l.Tag)
			}
			n++
		}
	}
	if n != len(c.Parts) {
		t.Errorf("%d parts in the list, %d in the cart", n, len(c.Parts))
	}
	if last := c.Lines[len(c.Lines)-1]; last.Name != "Push block" || last.Count != 2 || last.Length != 10*in {
		t.Errorf("the extra part is %+v", last)
	}
}

// TestHolds: the hose reel needs 15 + 2 × 1 = 17 in, the bay has 17 11/32. Half an
// inch off the bay leaves it 5/32 short.
func TestHolds(t *testing.T) {
	p := open(t, "jointer-stand")
	if _, f := Build(p); f.Has(Holds) {
		t.Fatalf("it fits: %v", f)
	}
	set(t, p, "cabinet.bays.0.width", "17")
	_, f := Build(p)
	if !f.Has(Holds) {
		t.Fatal("17 in do not fit 16 27/32")
	}
	for _, x := range f {
		if x.Code == Holds {
			if got := (measure.Tape{}).Plain(x.Args[5].(measure.Length)); got != "5/32" || x.Args[2] != "wide" {
				t.Errorf("short by %s %v, by hand 5/32 wide", got, x.Args[2])
			}
		}
	}
}

// TestPocketScrews: one near each end and one about every 7 in; a short joint
// takes one or none.
func TestPocketScrews(t *testing.T) {
	for l, want := range map[measure.Length]int{in / 2: 0, in: 1, 5 * in / 4: 2, 2 * in: 2, 4 * in: 2, 4*in + 1: 2, 12 * in: 3, 20*in + in/2: 4} {
		if got := Screws(l); got != want {
			t.Errorf("Screws(%v) = %d, want %d", l, got, want)
		}
	}
}

func codes(f issue.List) string {
	s := ""
	for _, x := range f {
		s += fmt.Sprintf("%v %s %v %v\n", x.Level, x.Code, x.Where, x.Args)
	}
	return s
}

// TestOutOf: squareness from diagonals. 24 × 30 in, diagonals 1/16 in apart:
// 1/16 × 38.42 ÷ 48 = 0.050 in over the height of 30 (plane geometry).
func TestOutOf(t *testing.T) {
	got := float64(OutOf(24*in, 30*in, in/16)) / float64(in)
	if got < 0.0499 || got > 0.0501 {
		t.Errorf("leans %.4f in, by hand 0.050", got)
	}
	if OutOf(0, 30*in, in) != 0 {
		t.Error("no width, no answer")
	}
}

// TestGrainOn: fronts whose grain runs on stand upright in one chain, from the
// top down.
func TestGrainOn(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "drawers.grain", "on")
	c, _ := Build(p)
	n := 0
	for _, l := range c.Lines {
		if l.Name != "Drawer front" {
			continue
		}
		n++
		if l.Chain == "" || l.Link != n || l.Width != 16*in+in*5/16 {
			t.Errorf("front %d: chain %q, link %d, %v wide", n, l.Chain, l.Link, l.Width)
		}
	}
	if n != 3 {
		t.Errorf("%d lines of fronts", n)
	}
}

// TestTallestTool: the top drawer of the jointer stand has a front of 4 in; its
// bottom lies 1/4 + 1/4 + 7/32 over the front's lower edge, so 3 9/32 are left
// under the front's upper edge. A plane 3 5/16 high does not go in.
func TestTallestTool(t *testing.T) {
	p := open(t, "jointer-stand")
	set(t, p, "cabinet.bays.0.openings.0.holds.name", "plane")
	set(t, p, "cabinet.bays.0.openings.0.holds.height", "3 9/32")
	if _, f := Build(p); f.Has(Holds) {
		t.Error("3 9/32 go in")
	}
	set(t, p, "cabinet.bays.0.openings.0.holds.height", "3 5/16")
	if _, f := Build(p); arg(t, f, Holds, 5) != "1/32" {
		t.Errorf("3 5/16 do not go in: short by %q", arg(t, f, Holds, 5))
	}
}

// TestNuts: the lowest box stands 3/32 + 1/4 = 11/32 over the bottom: nuts need
// 3/8. With 5/16 below the box there is room.
func TestNuts(t *testing.T) {
	p := open(t, "jointer-stand")
	why := func() string {
		c, _ := Build(p)
		for _, h := range c.Hardware {
			if h.ID == "caster-screw" {
				return h.Why
			}
		}
		return ""
	}
	if s := why(); !strings.Contains(s, "no bolts") || !strings.Contains(s, "11\u204432") {
		t.Errorf("%q", s)
	}
	set(t, p, "drawers.below", "5/16")
	if s := why(); strings.Contains(s, "no bolts") || !strings.Contains(s, "13\u204432") {
		t.Errorf("%q", s)
	}
}
