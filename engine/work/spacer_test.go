package work

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// length reads a length or fails.
func length(t *testing.T, s string) measure.Length {
	t.Helper()
	l, err := measure.Parse(s)
	if err != nil {
		t.Fatal(s, err)
	}
	return l
}

// blocks are the blocks of a set as sold: from, step and count, in ten
// thousandths of an inch or in half micrometres.
func blocks(t *testing.T, unit string, div int, rows ...[3]int) []project.Scrap {
	var out []project.Scrap
	for _, r := range rows {
		for i := range r[2] {
			n := r[0] + i*r[1]
			text := itoa(n/div) + "." + strings.Repeat("0", len(itoa(div))-1-len(itoa(n%div))) + itoa(n%div) + " " + unit
			out = append(out, project.Scrap{Name: text, Thick: length(t, text)})
		}
	}
	return out
}

// TestGaugeBlocks: published stacks of an 81-piece inch set and of a metric set
// (a maker's guide). The same code finds one as small, exact to the rounding
// of a ten thousandth of an inch to ticks (half a tick a block).
func TestGaugeBlocks(t *testing.T) {
	inches := blocks(t, "in", 10000, [3]int{1001, 1, 9}, [3]int{1010, 10, 49}, [3]int{500, 500, 19}, [3]int{10000, 10000, 4})
	metric := blocks(t, "mm", 10000, [3]int{10005, 1, 1}, [3]int{10010, 10, 9}, [3]int{10100, 100, 49}, [3]int{5000, 5000, 19}, [3]int{100000, 100000, 10})
	if len(inches) != 81 || len(metric) != 88 {
		t.Fatalf("%d and %d blocks", len(inches), len(metric))
	}
	for _, tt := range []struct {
		want      string
		set       []project.Scrap
		published []string
		tol       measure.Length
	}{
		{"3.9762 in", inches, []string{"0.1002 in", "0.126 in", "0.750 in", "3.0 in"}, 2},
		{"5.0073 in", inches, []string{"0.1003 in", "0.107 in", "0.800 in", "4.0 in"}, 2},
		{"37.385 mm", metric, []string{"1.005 mm", "1.38 mm", "5 mm", "30 mm"}, 0},
	} {
		want := length(t, tt.want)
		var sum measure.Length
		for _, b := range tt.published {
			sum += length(t, b)
		}
		if (sum - want).Abs() > tt.tol {
			t.Errorf("%s: the published stack adds up to %v", tt.want, sum)
		}
		s, ok := Stacks(want, tt.set, tt.tol, tt.tol)
		var own measure.Length
		for _, i := range s.Pieces {
			own += tt.set[i].Thick
		}
		if !ok || own != s.Sum || (own-want).Abs() > tt.tol || len(s.Pieces) > len(tt.published) {
			t.Errorf("%s: %v of %d blocks, %t; published are %d", tt.want, own, len(s.Pieces), ok, len(tt.published))
		}
	}
}

// exhaust finds the fewest pieces within the limits by going through all sets.
func exhaust(want measure.Length, set []measure.Length, under measure.Length) (pieces int, off measure.Length) {
	pieces, off = 99, 1<<40
	for bits := 1; bits < 1<<len(set); bits++ {
		n, sum := 0, measure.Length(0)
		for i, s := range set {
			if bits>>i&1 == 1 {
				n, sum = n+1, sum+s
			}
		}
		if o := want - sum; n <= 5 && o >= 0 && o <= under && (n < pieces || n == pieces && o < off) {
			pieces, off = n, o
		}
	}
	return pieces, off
}

// TestStacksExhaustive compares small cases with all sets there are.
func TestStacksExhaustive(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 6))
	hits, misses := 0, 0
	for range 400 {
		n := 1 + r.IntN(10)
		var scraps []project.Scrap
		var set []measure.Length
		for range n {
			th := measure.Length(1+r.IntN(64)) * measure.Inch / 32
			scraps = append(scraps, project.Scrap{Thick: th, Count: 1})
			set = append(set, th)
		}
		want := measure.Length(1+r.IntN(160)) * measure.Inch / 32
		under := measure.Length(r.IntN(3)) * measure.Inch / 32
		s, ok := Stacks(want, scraps, under, 0)
		pieces, off := exhaust(want, set, under)
		if ok != (pieces < 99) {
			t.Fatalf("%v from %v: found %t", want, set, ok)
		}
		if s.Sum > want {
			t.Fatalf("%v from %v: %v is over", want, set, s.Sum)
		}
		if !ok {
			misses++
			if _, least := exhaust(want, set, want); len(s.Pieces) > 0 && want-s.Sum > least && least < 1<<40 {
				// The nearest below, by all sets of up to five.
				best := measure.Length(0)
				for u := measure.Inch / 32; u <= want; u += measure.Inch / 32 {
					if k, o := exhaust(want, set, u); k < 99 {
						best = want - o
						break
					}
				}
				if s.Sum != best {
					t.Fatalf("%v from %v: highest below %v, by all sets %v", want, set, s.Sum, best)
				}
			}
			continue
		}
		hits++
		if len(s.Pieces) != pieces || want-s.Sum != off {
			t.Fatalf("%v from %v: %d pieces off by %v, by all sets %d off by %v", want, set, len(s.Pieces), want-s.Sum, pieces, off)
		}
	}
	if hits < 30 || misses < 30 {
		t.Errorf("%d hits, %d misses", hits, misses)
	}
}

// TestScrapExamples: gap 1 15/32 from scraps: 23/32 + 3/4 exactly, worked by
// hand; over is taken only where it may be.
func TestScrapExamples(t *testing.T) {
	in := measure.Inch
	scraps := []project.Scrap{{Thick: in / 4}, {Thick: in / 2}, {Thick: in * 45 / 64}, {Thick: in * 23 / 32}, {Thick: in * 3 / 4}}
	s, ok := Stacks(in*47/32, scraps, 0, 0)
	if !ok || len(s.Pieces) != 2 || s.Sum != in*47/32 {
		t.Errorf("%+v %t", s, ok)
	}
	// 0.95 from 1/4, 1/2, 45/64, 23/32: .25 + .703 is over by .003, the best
	// that is not over is .25 + .5.
	want := length(t, "0.95 in")
	if s, ok := Stacks(want, scraps[:4], in/64, 0); ok || s.Sum != in*3/4 {
		t.Errorf("not over: %v %t", s.Sum, ok)
	}
	if s, ok := Stacks(want, scraps[:4], in/64, in/64); !ok || s.Sum != in*61/64 {
		t.Errorf("over allowed: %v %t", s.Sum, ok)
	}
	if s, ok := Stacks(in, nil, in/64, 0); ok || len(s.Pieces) != 0 {
		t.Errorf("without scraps: %+v", s)
	}
}

// TestSpacers: without scraps each set-out has a block to rip, no higher than
// asked for; both members of a slide are set out.
func TestSpacers(t *testing.T) {
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		all := Spacers(p, c)
		names := ""
		for _, s := range all {
			names += strings.Join(s.Names, ";") + ";"
			if s.Block > s.Want || s.Want-s.Block >= c.Tape.Least() || s.Fits {
				t.Errorf("%s: %+v", name, s)
			}
		}
		if p.Drawers.Slide != "wood" && len(c.Drawers) > 0 {
			for n := range c.Drawers {
				for _, w := range []string{"slide of drawer " + itoa(n+1) + ", on the upright", "slide of drawer " + itoa(n+1) + ", on its box", "gap below the front of drawer " + itoa(n+1)} {
					if !slices.Contains(strings.Split(names, ";"), w) {
						t.Errorf("%s: no spacer for the %s", name, w)
					}
				}
			}
		}
	}
}

// TestSharedSpacers: with overlay fronts the bottom drawer's box stands as high
// over the bottom as its front reaches below it, so that is what the spacers of
// its slide differ by, worked by hand. A step of the tape, 1/32, or less: one
// spacer, the smaller, sets both members. 1/16: two, called near. 1/4: two.
func TestSharedSpacers(t *testing.T) {
	find := func(all []SetOut, name string) int {
		return slices.IndexFunc(all, func(s SetOut) bool { return slices.Contains(s.Names, name) })
	}
	for _, tt := range []struct {
		below        string
		shared, near bool
	}{{"1/64", true, false}, {"1/32", true, false}, {"1/16", false, true}, {"1/4", false, false}} {
		p := startingPoints(t)["jointer-stand"]
		p.Drawers.Fit, p.Drawers.Below = "overlay", inches(t, tt.below)
		c, _ := design.Build(p)
		all := Spacers(p, c)
		i, k := find(all, "slide of drawer 3, on the upright"), find(all, "slide of drawer 3, on its box")
		if i < 0 || k < 0 || (i == k) != tt.shared {
			t.Errorf("below %s: spacers %d and %d", tt.below, i, k)
			continue
		}
		// The box takes its line less half a slide of 45 mm, from its edge.
		line := design.Slides(c)[4].Holes[0][2] - 45*mm/2
		if want := line - c.Drawers[2].Box.Min[2]; all[k].Want != want {
			t.Errorf("below %s: set to %v, the box takes %v", tt.below, all[k].Want, want)
		}
		if tt.shared {
			continue
		}
		by := inches(t, tt.below)
		if all[i].Want-all[k].Want != by || (all[k].Near == i) != tt.near || tt.near && all[k].By != -by {
			t.Errorf("below %s: %v and %v, near %d by %v", tt.below, all[i].Want, all[k].Want, all[k].Near, all[k].By)
		}
	}
}
