package work

import (
	"math/rand/v2"
	"slices"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A kerf is what one pass takes of the section of a part, from the edge that
// rides the fence.
type kerf struct{ from, to measure.Length }

// sawn cuts the section: what the blade takes at each setting is joined, and
// what of it lies before the edge is the board's. It returns the gaps.
func sawn(fences []measure.Length, blade measure.Length) []kerf {
	var out []kerf
	for _, f := range fences {
		out = append(out, kerf{max(f, 0), f + blade})
	}
	slices.SortFunc(out, func(a, b kerf) int { return int(a.from - b.from) })
	gaps := out[:1]
	for _, k := range out[1:] {
		if last := &gaps[len(gaps)-1]; k.from <= last.to {
			last.to = max(last.to, k.to)
		} else {
			gaps = append(gaps, k)
		}
	}
	return gaps
}

// TestPassesCut saws random grooves, dadoes and rabbets as the steps say: with
// the blade of the saw they name, the named edge on the fence, that open face
// down. What is gone is what was asked for, to the tick: not wider, not
// deeper, nothing left standing. Only a groove that is narrower than every
// blade gets wider, by what the step says. Set on the tape, too, nothing is
// left standing, and either side is off by half its step at most.
func TestPassesCut(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 0))
	mm, inch := measure.MM, measure.Inch
	blades := []measure.Length{0, inch * 3 / 32, inch / 8, inch / 4, mm * 22 / 10, mm * 28 / 10, mm * 32 / 10, inch * 7 / 64, mm * 16 / 10}
	tapes := []project.Tape{{}, {Step: inch / 16}, {Step: inch / 64}, {Unit: "metric"}, {Unit: "metric", Step: mm}}
	kinds := []string{"table", "table", "track", "mitre", "hand-held"}
	seen := map[string]int{}
	for round := range 20000 {
		p := &project.Project{Tape: tapes[rng.IntN(len(tapes))]}
		tape := p.Measure()
		for i := range rng.IntN(4) {
			s := project.Saw{Name: string(rune('a' + i)), Kind: kinds[rng.IntN(len(kinds))], Kerf: blades[rng.IntN(len(blades))]}
			if rng.IntN(3) == 0 {
				s.Length = measure.Length(rng.IntN(40)) * inch
			}
			p.Shop.Saws = append(p.Shop.Saws, s)
		}
		la := geom.Axis(rng.IntN(3))
		wa := (la + geom.Axis(1+rng.IntN(2))) % 3
		ta := 3 - la - wa
		q := part.Part{ID: "q", LengthAxis: la, WidthAxis: wa, Grain: part.Grain(rng.IntN(3))}
		q.Length, q.Width, q.Thick = measure.Length(6+rng.IntN(40))*inch, measure.Length(4+rng.IntN(20))*inch, inch*measure.Length(8+rng.IntN(20))/32
		at := geom.Pt{3 * inch, 5 * inch, 7 * inch}
		q.Box.Min, q.Box.Max = at, at
		q.Box.Max[la] += q.Length
		q.Box.Max[wa] += q.Width
		q.Box.Max[ta] += q.Thick

		// What is asked for: a groove along run, its width along across.
		run, across, dado := la, wa, rng.IntN(3) == 0
		if dado {
			run, across = wa, la
		}
		wide := tape.Least() * measure.Length(2+rng.IntN(30))
		if rng.IntN(3) == 0 {
			wide = mm/10*measure.Length(15+rng.IntN(200)) + measure.Length(rng.IntN(9))
		}
		set := tape.Least() * measure.Length(rng.IntN(40))
		if rng.IntN(4) == 0 {
			set = 0
		}
		if set+wide > q.Box.Size(across)/2 {
			continue
		}
		deep := q.Thick * measure.Length(1+rng.IntN(5)) / 6
		high, open := rng.IntN(2) == 0, rng.IntN(2) == 0 // the edge it is measured from, and the face it is cut into
		f := q.Box
		if high {
			f.Max[across] -= set
			f.Min[across] = f.Max[across] - wide
		} else {
			f.Min[across] += set
			f.Max[across] = f.Min[across] + wide
		}
		if open {
			f.Min[ta] = f.Max[ta] - deep
		} else {
			f.Max[ta] = f.Min[ta] + deep
		}
		q.Features = []part.Feature{{Kind: part.Groove, Box: f}}
		c := design.Cart{Tape: tape, Parts: []part.Part{q}, Lines: []part.Line{{Tag: "A", Parts: []part.ID{"q"}}}}
		mills := Mills(p, c, Steps{})
		if len(mills) != 1 {
			t.Fatalf("round %d: %d steps", round, len(mills))
		}
		m := mills[0]
		fail := func(why string) {
			t.Fatalf("round %d: %s: asked for %v wide, %v deep, %v from the edge, tape step %v, saws %+v: %+v", round, why, wide, deep, set, tape.Least(), p.Shop.Saws, m)
		}
		edges := [3][2]string{{"left", "right"}, {"front", "back"}, {"bottom", "top"}}[across]
		edge := edges[0]
		if high {
			edge = edges[1]
		}
		if m.Edge != edge+" edge" {
			fail("another edge than the " + edge)
		}
		if (m.Verb == "Rabbet") != (set == 0) || m.Long != q.Box.Size(run) {
			fail("verb or length")
		}

		// Who can make it.
		var with *project.Saw
		fits, any := false, false
		for i, s := range p.Shop.Saws {
			if s.Kind == "table" && (s.Length == 0 || s.Length >= m.Long) {
				any = true
				fits = fits || s.Kerf > 0 && s.Kerf <= wide || s.Kerf == 0 && inch/8 <= wide
				if s.Name == m.Saw {
					with = &p.Shop.Saws[i]
				}
			}
		}
		if any != (with != nil) || any == (m.Saw == "") {
			fail("the saw")
		}
		if with == nil {
			seen["router"]++
			was := measure.Length(0)
			for _, d := range m.Depths {
				if d <= was || d-was > inch/8+tape.Least() {
					fail("a depth")
				}
				was = d
			}
			if was != deep || len(m.Fences) > 0 {
				fail("the depths")
			}
			continue
		}
		blade := with.Kerf
		if blade == 0 {
			blade = inch / 8
		}
		want := kerf{set, set + wide}
		over := measure.Length(0)
		if blade > wide {
			if fits {
				fail("there is a thinner blade")
			}
			over = blade - wide
			if set > 0 {
				want.to = set + blade
			}
		}
		if m.Over != over || m.Deep != deep {
			fail("over, or depth")
		}
		if got := sawn(m.Fences, blade); len(got) != 1 || got[0] != want {
			fail("the passes do not make it")
		}
		shown := make([]measure.Length, len(m.Fences))
		for i, f := range m.Fences {
			shown[i] = tape.Round(f)
			if i > 0 && m.Fences[i] == m.Fences[i-1] {
				fail("a pass twice")
			}
		}
		half := tape.Least() / 2
		got := sawn(shown, blade)
		if len(got) != 1 || max(got[0].from-want.from, want.from-got[0].from) > half || max(got[0].to-want.to, want.to-got[0].to) > half {
			fail("set on the tape, the passes do not make it")
		}
		kind := "groove"
		if set == 0 {
			kind = "rabbet"
		}
		if over > 0 {
			kind += " narrower than the blade"
		}
		if len(m.Fences) > 2 {
			kind += " of many passes"
		}
		if dado {
			kind += " across"
		}
		seen[kind]++
	}
	for _, kind := range []string{"groove", "rabbet", "groove across", "rabbet across", "groove of many passes", "rabbet of many passes",
		"groove narrower than the blade", "rabbet narrower than the blade", "router"} {
		if seen[kind] < 30 {
			t.Errorf("%d times %s: %v", seen[kind], kind, seen)
		}
	}
}
