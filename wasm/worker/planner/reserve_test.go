package planner

import (
	"regexp"
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/work"
)

// cutEarly marks all cuts that do not wait for the case.
func (d *desk) cutEarly() {
	d.t.Helper()
	d.do(Action{Do: "place", To: "saw"})
	for range 300 {
		c, ok := d.nextCut()
		if !ok || c.Late {
			return
		}
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			d.t.Fatal(d.last.Alert)
		}
	}
}

// TestReserveServes: the case stands, and both its openings are 1/8 in wider
// than planned. Each front, box and bottom is to be 1/8 larger, by hand: all
// are cut from the wood that was held for them, at no price. Without a reserve
// nothing waits and nothing is said of it.
func TestReserveServes(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "saw"})
	says := func(panel string) string {
		return strings.Join(strings.Fields(regexp.MustCompile(`<span class="see".*?</span></span>|<[^>]*>`).ReplaceAllString(d.panels[panel], " ")), " ")
	}
	if !strings.Contains(says("list"), "All 12 have a reserve: each can be up to 1/8 in larger") {
		t.Errorf("nothing is said of the reserve: %s", says("list"))
	}
	d.cutEarly()
	c, ok := d.nextCut()
	if !ok || !strings.Contains(says("block"), "When the case stands") {
		t.Fatalf("the next cut does not wait: %v, %s", c, d.panels["block"])
	}
	left, held := work.HeldBack(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands)
	total, bays := d.out.Buy.Total, len(d.out.made.Bays)
	was := map[string]measure.Length{}
	for i, l := range d.out.Cart.Lines {
		if left[i] != held[i] {
			t.Errorf("%s: %d of %d have a reserve", l.Name, held[i], left[i])
		}
		if l.Name == "Drawer front" {
			was[string(l.Parts[0])] = l.Length
		}
	}
	for i := range bays {
		b := d.out.Cart.Bays[i]
		d.do(Action{Do: "set", Path: "cabinet.bays." + itoa(i) + ".measured.front", Value: d.Planner.doc.Measure().Exact(b.Clear.Size(0) + measure.Inch/8)})
	}
	for _, l := range d.out.made.Lines {
		if len(l.Parts) == 0 {
			continue
		}
		if old, ok := was[string(l.Parts[0])]; ok && l.Length != old+measure.Inch/8 {
			t.Errorf("%s is to be %v, it was %v", l.Name, l.Length, old)
		}
	}
	d.do(Action{Do: "replan"})
	if d.offer == nil {
		t.Fatal(d.last.Alert)
	}
	if got := d.offer.out; len(got.Plan.Left) > 0 || got.Plan.Bought != 0 || got.Buy.Total != total {
		t.Errorf("it takes %d more sheets and costs %v, it was %v; no room for %v", got.Plan.Bought, got.Buy.Total, total, got.Plan.Left)
	}
	d.do(Action{Do: "take"})
	if d.out.Buy.Total != total || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
		t.Errorf("taken: %v, it was %v", d.out.Buy.Total, total)
	}
	if s := says("list"); strings.Contains(s, "have a reserve") || strings.Contains(s, "Stand the case up") {
		t.Errorf("measured, it still waits: %s", s)
	}

	d = demoDesk(t, "jointer-stand")
	d.do(Action{Do: "set", Path: "drawers.reserve", Value: "0"})
	d.do(Action{Do: "place", To: "saw"})
	if s := says("list"); strings.Contains(s, "reserve") || d.out.Plan.Reserved != 0 || d.last.Alert != "" {
		t.Errorf("with no reserve it says %s", s)
	}
	for _, c := range d.out.Steps.Shop {
		if c.Late {
			t.Errorf("with no reserve cut %d waits", c.N)
		}
	}
	for _, v := range []string{"-1/8", "x", "99 ft"} {
		d.do(Action{Do: "set", Path: "drawers.reserve", Value: v})
		if len(d.out.Plan.Left) > 0 || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
			t.Errorf("%q: %v", v, d.out.Findings)
		}
	}
	d.do(Action{Do: "set", Path: "drawers.reserve", Value: ""})
	if d.Planner.doc.Drawers.Reserve != nil || d.out.Cart.Reserve != measure.Inch/8 {
		t.Errorf("cleared it is %v", d.out.Cart.Reserve)
	}
}
