package design

import (
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
)

// TestPulls: on a front of 16 5/16 in (16 1/2 less two gaps of 3/32) one pull, a
// third of that is 138 mm: 128 is sold. Two have 8 5/32 in each, a third is 69 mm:
// 64 is sold, their middles 4 5/64 in from the front's ends. Half way down a front
// of 4 in is 2 in; asked for at 1 in, it is 1 in. 3/4 in over the box nothing holds:
// the box begins 1/2 in under the edge less the 1/4 in it stands up, and the pull
// is 12 mm high.
func TestPulls(t *testing.T) {
	p := open(t, "jointer-stand")
	c, _ := Build(p)
	things := func(drawer int) (out []Thing) {
		for _, x := range c.Things {
			if x.Kind == PullThing && x.Drawer == drawer {
				out = append(out, x)
			}
		}
		return out
	}
	mid := func(x Thing, a geom.Axis) measure.Length { return (x.Box.Min[a] + x.Box.Max[a]) / 2 }
	front := func() geom.Box { return c.Drawers[0].Front }
	if x := things(1); len(x) != 1 || c.Drawers[0].Pull != 128*mm || front().Max[geom.Z]-mid(x[0], geom.Z) != 2*in {
		t.Errorf("as it is: %v, %v", c.Drawers[0], x)
	}
	set(t, p, "drawers.pulls", "2")
	set(t, p, "drawers.pullAt", "1 1/2")
	c, f := Build(p)
	x := things(1)
	if len(x) != 2 || c.Drawers[0].Pull != 64*mm || f.Has(PullWide) || f.Has(PullHigh) {
		t.Fatalf("two: %v, %v, %v", c.Drawers[0], x, f)
	}
	if got, want := mid(x[0], geom.X)-front().Min[geom.X], 4*in+in*5/64; (got - want).Abs() > measure.UM {
		t.Errorf("the left pull stands %v from the end, by hand 4 5/64", got)
	}
	for n := range c.Drawers {
		for _, y := range things(n + 1) {
			if got := c.Drawers[n].Front.Max[geom.Z] - mid(y, geom.Z); got != in*3/2 {
				t.Errorf("drawer %d: the pull stands %v under the edge, want 1 1/2", n+1, got)
			}
		}
	}
	pulls := 0
	for _, h := range c.Hardware {
		if h.ID == "pull" {
			pulls = h.Count
		}
	}
	if pulls != 6 {
		t.Errorf("%d pulls are bought for three fronts with two each", pulls)
	}
	// Above the box there is nothing to screw to.
	set(t, p, "drawers.pullAt", "1/8")
	c, f = Build(p)
	if !f.Has(PullHigh) {
		t.Errorf("1/8 under the edge: %v", f)
	}
	for _, s := range things(1)[0].Screws() {
		if s[geom.Z] > c.Drawers[0].Box.Max[geom.Z] {
			t.Errorf("a screw at %v, the box ends at %v", s[geom.Z], c.Drawers[0].Box.Max[geom.Z])
		}
	}
	// Two pulls of 224 mm have no room on it; 64 is used.
	set(t, p, "drawers.pullAt", "")
	set(t, p, "drawers.pull", "224 mm")
	if c, f = Build(p); !f.Has(PullWide) || c.Drawers[0].Pull != 64*mm {
		t.Errorf("two of 224 mm: %v, %v", c.Drawers[0].Pull, f)
	}
	set(t, p, "drawers.pulls", "1")
	if c, f = Build(p); f.Has(PullWide) || c.Drawers[0].Pull != 224*mm {
		t.Errorf("one of 224 mm: %v, %v", c.Drawers[0].Pull, f)
	}
	set(t, p, "drawers.pulls", "60")
	if c, f = Build(p); !f.Has(Many) || c.Drawers[0].Pulls != 2 {
		t.Errorf("60 pulls: %v, %v", c.Drawers[0].Pulls, f)
	}
}
