package work

import (
	"math"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/stock"
)

// TestPocketTable: screws of pocket holes by thickness, the trade's long-standing
// table (from memory; its row for 3/4 in is read: a home magazine has 1 1/4 in
// as the one for 3/4 in). True ply goes by its nearest mark.
func TestPocketTable(t *testing.T) {
	for _, tt := range [][3]string{{"1/2", "1/2", "1"}, {"5/8", "5/8", "1"}, {"3/4", "3/4", "1 1/4"}, {"7/8", "7/8", "1 1/2"}, {"1", "1", "1 1/2"},
		{"1 1/4", "1 1/4", "2"}, {"1 1/2", "1 1/2", "2 1/2"}, {"23/32", "3/4", "1 1/4"}, {"15/32", "1/2", "1"}} {
		mark, long, seat := design.Collar(inches(t, tt[0]))
		if mark != inches(t, tt[1]) || long != inches(t, tt[2]) || seat <= 0 {
			t.Errorf("%s: collar %v, screw %v, seat %v", tt[0], mark, long, seat)
		}
	}
	// At 15° (a woodworking magazine, 2003) a screw of 1 1/4 reaches 1.207 in
	// from its seat along the face: 1.25 × cos 15°, by hand.
	mark, long, seat := design.Collar(inches(t, "3/4"))
	reach := (seat + mark*2/3).Metres() / 0.0254 // into the other part, and the seat
	if math.Abs(reach-1.25*math.Cos(15*math.Pi/180)) > .001 || math.Abs(reach-1.207) > .001 {
		t.Errorf("%v from its seat reaches %.4f in, by hand 1.207", long, reach)
	}
	// Holes by length (common practice): one near each end, then every 6 to 8 in.
	for _, tt := range []struct {
		long string
		n    int
	}{{"1/2", 0}, {"1", 1}, {"2", 2}, {"8", 2}, {"12", 3}, {"22", 4}, {"36", 6}} {
		if n := design.Screws(inches(t, tt.long)); n != tt.n {
			t.Errorf("%s in: %d pocket screws, want %d", tt.long, n, tt.n)
		}
		if l := inches(t, tt.long); l > 4*measure.Inch {
			if step := float64(l-4*measure.Inch) / float64(tt.n-1) / float64(measure.Inch); step > 8 {
				t.Errorf("%s in: a screw every %.1f in", tt.long, step)
			}
		}
	}
}

// TestHoleSpacings: pulls are sold in whole millimetres; what is called 3 3/4 in
// is 96 mm, 3/4 mm more than 95.25 (arithmetic). A schedule keeps the exact
// spacing: shown to 1/32 it is 3 25/32.
func TestHoleSpacings(t *testing.T) {
	for _, tt := range []struct {
		mm    int64
		exact float64 // in
	}{{96, 3.7795}, {128, 5.0394}, {160, 6.2992}, {192, 7.5591}} {
		l := measure.Length(tt.mm) * mm
		if got := l.Metres() / 0.0254; math.Abs(got-tt.exact) > 5e-5 {
			t.Errorf("%d mm = %.4f in, want %.4f", tt.mm, got, tt.exact)
		}
	}
	p := startingPoints(t)["jointer-stand"]
	p.Drawers.Pull = 96 * mm
	c, _ := design.Build(p)
	n := 0
	for _, h := range Drills(p, c).Drills {
		if h.Kind == PullHole {
			n++
			if d := (h.Spots[1].At[0] - h.Spots[0].At[0]).Abs(); d != 96*mm || d == inches(t, "3 3/4") {
				t.Errorf("%s: %v apart", h.ID, d)
			}
			if s := c.Tape.Plain(c.Tape.Round(96 * mm)); s != "3 25/32" {
				t.Errorf("96 mm shows as %s", s)
			}
		}
	}
	if n != 2*len(c.Drawers) {
		t.Errorf("%d rows for %d pulls", n, len(c.Drawers))
	}
}

// TestSystem32: shelf pins by the 32-mm system: holes of 5 mm, 37 mm from the
// front edge (an encyclopaedia and two practitioners; no standards body), and a
// slide's round holes 32 mm behind its slots.
func TestSystem32(t *testing.T) {
	pins := 0
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		for _, h := range Drills(p, c).Drills {
			if h.Kind != ShelfHole {
				continue
			}
			pins++
			if h.Dia != 5*mm {
				t.Errorf("%s, %s: bit %v", name, h.ID, h.Dia)
			}
			for _, q := range c.Parts {
				if !q.Loose || q.Box.Size(1) < 4*37*mm || h.ID[len(h.ID)-len(q.ID):] != string(q.ID) {
					continue
				}
				for _, s := range h.Spots {
					if f, b := s.At[1]-q.Box.Min[1], q.Box.Max[1]-s.At[1]; f != 37*mm && b != 37*mm {
						t.Errorf("%s, %s: %v from the front, %v from the back of the shelf", name, h.ID, f, b)
					}
				}
			}
		}
		for _, s := range design.Slides(c) {
			for i := range s.Slots {
				if d := s.Holes[s.Slots+i][1] - s.Holes[i][1]; d != 32*mm {
					t.Errorf("%s: a round hole %v behind its slot", name, d)
				}
			}
		}
	}
	if pins == 0 {
		t.Error("no shelf pins anywhere")
	}
}

// TestSlideRoom: a certification question for cabinetmakers has 1/2 in of room on
// each side of a drawer; a slide maker's guide has 12.9 to 13.2 mm. What the
// cards say of a box as built is judged by that window.
func TestSlideRoom(t *testing.T) {
	if stock.LeastPlay != mm*2/5 { // 2 × (12.9 − 12.7)
		t.Errorf("least play %v", stock.LeastPlay)
	}
	p := startingPoints(t)["jointer-stand"]
	c, _ := design.Build(p)
	d := c.Drawers[0]
	bay := c.Bays[d.Bay].Inside.Size(0)
	if got := d.Box.Size(0); got != bay-measure.Inch-measure.Inch/32 {
		t.Errorf("box %v in a bay of %v", got, bay)
	}
}

// TestDrying: three coats of a drying oil at 24 h (24 to 72 h a coat is common
// practice), then a day: light use on day 5, hard use a week after the last coat
// began to dry on (common practice, no source).
func TestDrying(t *testing.T) {
	p := startingPoints(t)["jointer-stand"]
	c, _ := design.Build(p)
	f := Finish(p, c)
	var coats []int
	for _, e := range f.Plan {
		if e.Long == 2 {
			coats = append(coats, e.At)
		}
	}
	last := f.Plan[len(f.Plan)-1]
	if len(coats) != 3 || coats[0] != 0 || coats[1] != 24 || coats[2] != 48 || last.At != 96 || last.At+last.Long != 96+144 {
		t.Errorf("coats at %v, then %+v", coats, last)
	}
	for i := 1; i < len(f.Plan); i++ {
		if a, b := f.Plan[i-1], f.Plan[i]; a.At+a.Long > b.At {
			t.Errorf("%+v runs into %+v", a, b)
		}
	}
	// An oil seller's figures: 1 gal covers 400 ft², 32 oz (a quart) 100 ft².
	if one := 400 * ft2 / gallon * quart; math.Abs(one-100*ft2) > 1e-9 {
		t.Errorf("a quart covers %.3f m², want 100 ft²", one)
	}
}

// TestDiagonals: a published case of squareness: 24 × 30 in has diagonals of
// 38.42 in (geometry of the rectangle).
func TestDiagonals(t *testing.T) {
	b := assembler{}
	s := b.square("", 24*inch, 30*inch)
	if got := s.Diagonal.Metres() / 0.0254; math.Abs(got-38.42) > 1./64 {
		t.Errorf("%.3f", got)
	}
}
