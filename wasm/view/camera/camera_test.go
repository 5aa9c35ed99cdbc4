package camera

import (
	"math"
	"testing"
)

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

func TestFit(t *testing.T) {
	tests := []struct {
		name           string
		vw, vh, pw, ph float64
		scale, ox, oy  float64
	}{
		{"laid out for the frame", 744, 702, 744, 702, 1, 0, 0},
		{"half a pixel more", 744.5, 702, 744, 702, 1, 0.25, 0},
		{"a wider frame", 800, 300, 400, 300, 1, 200, 0},
		{"half the frame", 200, 150, 400, 300, 0.5, 0, 0},
		{"no drawing yet", 200, 150, 0, 0, 1, 100, 75},
	}
	for _, tt := range tests {
		c := Camera{ViewW: tt.vw, ViewH: tt.vh, PaperW: tt.pw, PaperH: tt.ph}
		if x, y := c.Origin(); !near(c.Scale(), tt.scale) || !near(x, tt.ox) || !near(y, tt.oy) {
			t.Errorf("%s: scale %g, origin %g %g", tt.name, c.Scale(), x, y)
		}
	}
}

func TestZoomKeepsThePointUnderTheFinger(t *testing.T) {
	c := Camera{ViewW: 400, ViewH: 300, PaperW: 400, PaperH: 300}
	c = c.ZoomAt(2, 200, 150, 0, 0)
	x0, y0 := c.ToPaper(230, 110)
	c = c.ZoomAt(2.5, 230, 110, 7, -3)
	if x, y := c.ToPaper(237, 107); !near(x, x0) || !near(y, y0) || !near(c.Scale(), 5) {
		t.Errorf("point %g %g, was %g %g; scale %g", x, y, x0, y0, c.Scale())
	}
	if x, y := c.ToView(x0, y0); !near(x, 237) || !near(y, 107) {
		t.Errorf("back at %g %g", x, y)
	}
}

func TestNoGap(t *testing.T) {
	c := Camera{ViewW: 400, ViewH: 300, PaperW: 400, PaperH: 300}.ZoomAt(3, 0, 0, 0, 0)
	for _, d := range [][2]float64{{1e4, 1e4}, {-1e4, -1e4}} {
		p := c.Pan(d[0], d[1])
		x, y := p.Origin()
		if x > 0 || y > 0 || x+1200 < 400 || y+900 < 300 {
			t.Errorf("panned by %v: paper at %g %g", d, x, y)
		}
	}
	if out := c.ZoomAt(0.01, 50, 50, 0, 0); !out.Fitted() || out.Scale() != 1 {
		t.Errorf("zoomed out to %g", out.Scale())
	}
	if in := c.ZoomAt(1e9, 50, 50, 0, 0); in.Scale() != MaxZoom {
		t.Errorf("zoomed in to %g", in.Scale())
	}
}

func TestStateSurvivesAnotherFrame(t *testing.T) {
	c := Camera{ViewW: 400, ViewH: 300, PaperW: 400, PaperH: 300}.ZoomAt(4, 100, 200, 0, 0)
	px, py := c.ToPaper(200, 150)
	d := Camera{ViewW: 800, ViewH: 600, PaperW: 800, PaperH: 600, State: c.State}
	if x, y := d.ToPaper(400, 300); !near(x, 2*px) || !near(y, 2*py) {
		t.Errorf("middle at %g %g, want %g %g", x, y, 2*px, 2*py)
	}
}
