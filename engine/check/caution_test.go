package check

import (
	"strings"
	"testing"

	"cartwright/engine/work"
)

// TestEveryDangerHasACaution: each hazard and each kind of step has one
// sentence, its source, and what it defers to.
func TestEveryDangerHasACaution(t *testing.T) {
	hazards, steps := map[work.Hazard]int{}, map[Step]int{}
	for _, c := range Cautions() {
		switch {
		case c.Hazard != "" && c.Step == "":
			hazards[c.Hazard]++
		case c.Step != "" && c.Hazard == "":
			steps[c.Step]++
		default:
			t.Errorf("%q belongs to %q and %q", c.Say, c.Hazard, c.Step)
		}
		for what, s := range map[string]string{"sentence": c.Say, "deference": c.Defers, "source": c.Source} {
			if strings.TrimSpace(s) != s || len(s) < 10 {
				t.Errorf("%s%s: %s %q", c.Hazard, c.Step, what, s)
			}
		}
		if !strings.HasSuffix(c.Say, ".") || strings.ContainsAny(c.Say, "!?") {
			t.Errorf("%q is not said calmly", c.Say)
		}
	}
	for _, h := range work.Hazards {
		if hazards[h] != 1 {
			t.Errorf("hazard %s has %d cautions", h, hazards[h])
		}
		if c, ok := CautionAt([]work.Hazard{h}); !ok || c.Hazard != h {
			t.Errorf("hazard %s finds %q", h, c.Hazard)
		}
		delete(hazards, h)
	}
	for _, s := range Steps {
		if steps[s] != 1 || CautionFor(s).Step != s {
			t.Errorf("step %s has %d cautions", s, steps[s])
		}
		delete(steps, s)
	}
	if len(hazards)+len(steps) != 0 {
		t.Errorf("cautions to nothing: %v %v", hazards, steps)
	}
	if _, ok := CautionAt(nil); ok {
		t.Error("a cut without danger has a caution")
	}
}

// TestGravestFirst: of the dangers of one cut the piece that can be thrown
// comes before the push stick, and the push stick before the riving knife.
func TestGravestFirst(t *testing.T) {
	all := []work.Hazard{work.Kickback, work.PushStick, work.ShortAtFence}
	for _, want := range []work.Hazard{work.ShortAtFence, work.PushStick, work.Kickback} {
		c, _ := CautionAt(all)
		if c.Hazard != want {
			t.Errorf("of %v the gravest is %s, want %s", all, c.Hazard, want)
		}
		for i, h := range all {
			if h == want {
				all = append(all[:i:i], all[i+1:]...)
				break
			}
		}
	}
}

// TestFigures: the numbers in the sentences are those of the sources. The
// riving knife stands within 8 mm (5/16 in is 7.9), the push stick is used for
// the last 300 mm (12 in is 305) and is at least 450 mm (18 in is 457) long,
// and one person lifts 23 kg (51 lb) at most.
func TestFigures(t *testing.T) {
	for _, tt := range []struct {
		c     Caution
		wants []string
	}{
		{first(work.Kickback), []string{"5/16 in", "8 mm"}},
		{first(work.PushStick), []string{"18 in", "12 in", "450 mm", "300 mm"}},
		{CautionFor(LiftSheet), []string{"51 lb (23 kg)", "two people"}},
		{CautionFor(Finishing), []string{"1926.252(e)", "flat outside"}},
		{CautionFor(AtSaw), []string{"1 mg/m³"}},
	} {
		for _, w := range tt.wants {
			if !strings.Contains(tt.c.Say+tt.c.Source, w) {
				t.Errorf("%s%s does not say %q", tt.c.Hazard, tt.c.Step, w)
			}
		}
	}
}

func first(h work.Hazard) Caution {
	c, _ := CautionAt([]work.Hazard{h})
	return c
}
