package work

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// startingPoints opens every starting point.
func startingPoints(t *testing.T) map[string]*project.Project {
	t.Helper()
	files, err := filepath.Glob("../../testdata/projects/*.json")
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	all := map[string]*project.Project{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		p, err := project.Open(data)
		if err != nil {
			t.Fatal(f, err)
		}
		all[strings.TrimSuffix(filepath.Base(f), ".json")] = p
	}
	return all
}

// clash reports whether a, moved by d, and b are in one place, grooves and
// holes of both taken off.
func clash(a part.Part, d geom.Pt, b part.Part) bool {
	common := a.Box.Add(d).Intersect(b.Box)
	if common.Empty() {
		return false
	}
	for _, f := range a.Features {
		if f.Box.Add(d).Contains(common) {
			return false
		}
	}
	for _, f := range b.Features {
		if f.Box.Contains(common) {
			return false
		}
	}
	return true
}

// drawnOut pulls the parts in steps out of the others, as far as the cart is
// large: at every distance at which a face passes a face, and between. It
// returns what is hit.
func drawnOut(c design.Cart, move, others []int, s design.Side) (string, bool) {
	for _, i := range move {
		a := c.Parts[i]
		for _, k := range others {
			b := c.Parts[k]
			// Where faces of a and b, features included, pass each other.
			var edges []measure.Length
			faces := func(p part.Part) []measure.Length {
				out := []measure.Length{p.Box.Min[s.Axis], p.Box.Max[s.Axis]}
				for _, f := range p.Features {
					out = append(out, f.Box.Min[s.Axis], f.Box.Max[s.Axis])
				}
				return out
			}
			for _, x := range faces(a) {
				for _, y := range faces(b) {
					if d := (y - x).Abs(); s.High == (y > x) {
						edges = append(edges, d)
					}
				}
			}
			slices.Sort(edges)
			was := measure.Length(0)
			for _, e := range append(edges, 5*measure.Metre) {
				var d geom.Pt
				d[s.Axis] = s.Out(0, (was+e)/2)
				if e > was && clash(a, d, b) {
					return string(a.ID) + " hits " + string(b.ID), false
				}
				was = e
			}
		}
	}
	return "", true
}

// orderLaws takes a cart apart in the reverse of the order: every unit can be
// drawn out the way it came in, past what is still there; every part is there
// once; every joint is closed in exactly one step; every new part is held to
// what stands, but for what hangs on slides, hinges and pins.
func orderLaws(t *testing.T, name string, c design.Cart, b Building) {
	t.Helper()
	seen := map[int]bool{}
	closed := map[int]int{}
	screws := 0
	for _, s := range b.Steps {
		for _, n := range s.Screws {
			screws += n.N
		}
		if s.ID == "build/casters" || s.ID == "build/slides" {
			screws -= s.Screws[0].N
		}
		sub := strings.HasPrefix(s.ID, "build/sub/")
		there := slices.Clone(s.Have)
		for n := 0; n < len(s.Adds); {
			m := n
			var unit []int
			for ; m < len(s.Adds) && s.Adds[m].Unit == s.Adds[n].Unit; m++ {
				unit = append(unit, s.Adds[m].Part)
			}
			if hit, ok := drawnOut(c, unit, there, s.Adds[n].From); !ok {
				t.Errorf("%s, %s: %s", name, s.ID, hit)
			}
			holds := len(there) == 0
			for i, j := range c.Joints {
				in := func(list []int, id part.ID) bool {
					return slices.ContainsFunc(list, func(k int) bool { return c.Parts[k].ID == id })
				}
				if in(unit, j.A) && in(there, j.B) || in(unit, j.B) && in(there, j.A) {
					closed[i]++
					holds = holds || j.Kind.Holds()
				}
			}
			if p := c.Parts[unit[0]]; !holds && p.Drawer == 0 && p.Door == 0 && !p.Loose {
				t.Errorf("%s, %s: %s is held to nothing that stands", name, s.ID, p.ID)
			}
			for _, i := range unit {
				if !sub && seen[i] {
					t.Errorf("%s: %s comes twice", name, c.Parts[i].ID)
				}
				seen[i] = seen[i] || !sub
			}
			there = append(there, unit...)
			n = m
		}
	}
	for i, p := range c.Parts {
		if !seen[i] {
			t.Errorf("%s: %s is never built in", name, p.ID)
		}
	}
	for i, j := range c.Joints {
		if closed[i] != 1 {
			t.Errorf("%s: the joint of %s and %s is closed %d times", name, j.A, j.B, closed[i])
		}
	}
	if screws != len(c.Screws) {
		t.Errorf("%s: the steps drive %d screws, the joints take %d", name, screws, len(c.Screws))
	}
}

// TestOrder takes every starting point apart, and many that differ from them.
func TestOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 6))
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		b := Build(p, c)
		orderLaws(t, name, c, b)
		for _, f := range b.Findings {
			if f.Code != Clamps {
				t.Errorf("%s: %v", name, f)
			}
		}
		if b.Flips > 3 {
			t.Errorf("%s: the case is turned %d times", name, b.Flips)
		}
		for range 12 {
			q := p.Clone()
			pick := func(words ...string) string { return words[r.IntN(len(words))] }
			q.Cabinet.Back.Kind = pick("frame", "panel", "between", "let-in", "none")
			q.Cabinet.Face.Kind = pick("bare", "strips", "frame")
			q.Cabinet.Bottom = pick("under", "between")
			q.Cabinet.Upper = pick("sides", "stretchers", "sub-top")
			q.Drawers.Joint = pick("groove", "under", "inside")
			q.Drawers.Slide = pick("ball", "wood")
			q.Drawers.Fit = pick("inset", "overlay")
			c, f := design.Build(q)
			if len(c.Parts) == 0 || f.Has(design.Overlap) {
				continue
			}
			orderLaws(t, name+" "+q.Cabinet.Back.Kind+" "+q.Cabinet.Face.Kind+" "+q.Cabinet.Bottom+" "+q.Cabinet.Upper+" "+q.Drawers.Joint+" "+q.Drawers.Slide, c, Build(q, c))
		}
	}
}

// TestDrawnOut: the test itself must bite. A drawer's bottom cannot leave a
// closed box, nor a partition a case with its worktop on.
func TestDrawnOut(t *testing.T) {
	p := startingPoints(t)["jointer-stand"]
	c, _ := design.Build(p)
	index := map[part.ID]int{}
	var all []int
	for i, q := range c.Parts {
		index[q.ID] = i
		all = append(all, i)
	}
	for _, id := range []part.ID{"bay1/drawer1/bottom", "partition-1", "bay1/drawer2/box-front"} {
		i := index[id]
		others := slices.DeleteFunc(slices.Clone(all), func(k int) bool { return k == i })
		for _, s := range allWays {
			if _, ok := drawnOut(c, []int{i}, others, s); ok {
				t.Errorf("%s comes out of the whole cart towards %v", id, s)
			}
		}
	}
	if _, ok := drawnOut(c, []int{index["top"]}, []int{index["side-left"], index["back-skin"]}, design.Side{Axis: geom.Z, High: true}); !ok {
		t.Error("the worktop does not lift off")
	}
}

// TestClampRules: a published example: 3/4 × 36 in at 450 psi with clamps of
// 1350 lb takes 9 (a hand-tool woodworker's page after Prof. R. Rabiej, Western
// Michigan University); a board 6 in wide spreads a clamp's force over 12 in (a
// woodworking magazine, 2010).
func TestClampRules(t *testing.T) {
	if n := ClampsFor(0.75*36, 450, 1350); n != 9 {
		t.Errorf("%d clamps, published are 9", n)
	}
	if s := ClampSpacing(6 * measure.Inch); s != 12*measure.Inch {
		t.Errorf("a cone of %v, published are 12 in", s)
	}
}

// TestNoClamps: a shop without clamps gets another way for every glue-up.
func TestNoClamps(t *testing.T) {
	for name, p := range startingPoints(t) {
		p.Shop.Clamps = nil
		c, _ := design.Build(p)
		needs := 0
		for _, s := range Build(p, c).Steps {
			for _, n := range s.Clamps {
				needs++
				if n.Have != 0 || n.Way == "" || n.Count < 1 {
					t.Errorf("%s, %s: %+v", name, s.ID, n)
				}
			}
		}
		if needs == 0 {
			t.Errorf("%s: nothing is clamped", name)
		}
	}
}

// TestSquares: diagonals by Pythagoras in whole triples: 30 × 40 → 50.
func TestSquares(t *testing.T) {
	b := assembler{}
	if s := b.square("", 30*measure.Inch, 40*measure.Inch); s.Diagonal != 50*measure.Inch {
		t.Errorf("diagonal %v", s.Diagonal)
	}
	if s := b.square("", 36*measure.Inch, 19*measure.Inch); (measure.Tape{}).Plain(s.Diagonal) != "40 23/32" { // 40.706
		t.Errorf("diagonal %v", s.Diagonal)
	}
}
