package design

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// starts are the starting points.
var starts = []string{"jointer-stand", "low-assembly-cart", "open-bench", "outfeed-cabinet", "plain-box", "sharpening-cart", "tall-tool-cabinet"}

// A rod is a stretch of a drilled hole or of a screw, in millimetres.
type rod struct {
	a, b  [3]float64
	r     float64
	screw int
	what  string
	wood  int // the part that it lies in
}

func flat(p geom.Pt) (v [3]float64) {
	for i := range p {
		v[i] = p[i].Metres() * 1000
	}
	return v
}

func unit(s Side) (v [3]float64) {
	v[s.Axis] = -1
	if s.High {
		v[s.Axis] = 1
	}
	return v
}

func plus(a, b [3]float64, k float64) [3]float64 {
	for i := range a {
		a[i] += k * b[i]
	}
	return a
}

// drill drills s in solid geometry: what the hole and the thread take, from
// the angle of 15° and the length alone.
func drill(c Cart, n int, s Screw) (hole, thread rod) {
	at := flat(s.At)
	p := c.Parts[s.In]
	if s.Kind != Pocket {
		thick := p.Box.Size(s.Toward.Axis).Metres() * 1000
		long := s.Long.Metres() * 1000
		d := unit(s.Toward)
		return rod{plus(at, d, -thick), at, 2.2, n, "hole", s.In}, rod{at, plus(at, d, long-thick), 2.1, n, "thread", s.Into}
	}
	sin, cos := math.Sin(15*math.Pi/180), math.Cos(15*math.Pi/180)
	d := plus([3]float64{}, unit(s.Toward), cos)
	d = plus(d, unit(s.Face), -sin)
	half := p.Thick.Metres() * 1000 / 2
	return rod{plus(at, d, -half/sin-4.76/math.Tan(15*math.Pi/180)), at, 4.76, n, "pocket", s.In}, rod{at, plus(at, d, s.Reach.Metres()*1000/cos), 2.1, n, "thread", s.Into}
}

// near returns the least distance of the axes of two rods where both are in
// the wood, from points on them.
func near(p, q rod, wood geom.Box) float64 {
	lo, hi := flat(wood.Min), flat(wood.Max)
	least := math.Inf(1)
	for i := range 25 {
		for k := range 25 {
			x, y := plus(p.a, plus(p.b, p.a, -1), float64(i)/24), plus(q.a, plus(q.b, q.a, -1), float64(k)/24)
			d := plus(x, y, -1)
			in := true
			for a := range d {
				m := (x[a] + y[a]) / 2
				in = in && m >= lo[a] && m <= hi[a]
			}
			if in {
				least = min(least, math.Sqrt(d[0]*d[0]+d[1]*d[1]+d[2]*d[2]))
			}
		}
	}
	return least
}

// apart reports whether the boxes round p and q do not touch.
func (p rod) apart(q rod) bool {
	for a := range p.a {
		if max(p.a[a], p.b[a])+p.r < min(q.a[a], q.b[a])-q.r || max(q.a[a], q.b[a])+q.r < min(p.a[a], p.b[a])-p.r {
			return true
		}
	}
	return false
}

// inside reports whether the rod lies in b, with its thickness, but for its
// ends along axis a.
func (p rod) inside(b geom.Box, a geom.Axis) bool {
	lo, hi := flat(b.Min), flat(b.Max)
	for i := range lo {
		r := p.r
		if geom.Axis(i) == a {
			r = -0.01
		}
		if min(p.a[i], p.b[i])-r < lo[i] || max(p.a[i], p.b[i])+r > hi[i] {
			return false
		}
	}
	return true
}

// meets reports whether the rod comes into b.
func (p rod) meets(b geom.Box) bool {
	lo, hi := flat(b.Min), flat(b.Max)
	for i := range 50 {
		x := plus(p.a, plus(p.b, p.a, -1), float64(i)/49)
		in := true
		for k := range x {
			in = in && x[k]+p.r > lo[k] && x[k]-p.r < hi[k]
		}
		if in {
			return true
		}
	}
	return false
}

// screwLaws drills a cart in solid geometry, with trigonometry of its own: no
// screw leaves its parts, none meets another, a groove or a hole; each holds.
func screwLaws(t *testing.T, name string, c Cart, f issue.List) {
	t.Helper()
	fail := func(n int, format string, args ...any) {
		s := c.Screws[n]
		t.Errorf("%s: screw %d, %s into %s at %v: %s", name, n, c.Parts[s.In].ID, c.Parts[s.Into].ID, s.At, fmt.Sprintf(format, args...))
	}
	var rods []rod
	perJoint := make([]int, len(c.Joints))
	pockets, others, fronts, pins := 0, 0, 0, 0
	tol := c.Tape.Least()
	for n, s := range c.Screws {
		p, q := c.Parts[s.In], c.Parts[s.Into]
		j := c.Joints[s.Joint]
		if !(j.A == p.ID && j.B == q.ID || j.A == q.ID && j.B == p.ID) {
			fail(n, "not of joint %v", j)
		}
		perJoint[s.Joint]++
		switch {
		case s.Kind == Pocket:
			pockets++
		case s.Kind == Pinned:
			pins++
		case p.Drawer > 0 && q.Front == "face":
			fronts++
		default:
			others++
		}
		hole, thread := drill(c, n, s)
		rods = append(rods, hole, thread)
		in, into := p.Box, q.Box
		if s.Kind == Pocket { // it opens in the face
			in = slack(in, s.Face.Axis, 20*mm)
			head := s.Long.Metres()*1000 - s.Reach.Metres()*1000/math.Cos(15*math.Pi/180)
			if open := p.Thick.Metres() * 500 / math.Sin(15*math.Pi/180); head < 5 || head > open {
				fail(n, "the head sits %.1f mm up a pocket of %.1f", head, open)
			}
			if d := (s.Face.Of(p.Box) - s.At[s.Face.Axis]).Abs() - p.Thick/2; d.Abs() > p.Proud+1 {
				fail(n, "%v off the middle", d)
			}
		}
		if !hole.inside(in, s.Toward.Axis) {
			fail(n, "the hole leaves %v: %v", p.ID, hole)
		}
		if into = slack(into, s.Toward.Axis, tol); !thread.inside(into, s.Toward.Axis) {
			fail(n, "the thread leaves %v: %v", q.ID, thread)
		}
		// Deep enough to hold, and not through.
		far := s.Toward.Of(q.Box)
		tip := s.Toward.Out(s.At[s.Toward.Axis], s.Reach)
		if s.Reach < in4 || (far-tip).Abs() < measure.MM || s.Toward.High != (far > tip) {
			fail(n, "%v deep in %v of wood", s.Reach, (far - s.At[s.Toward.Axis]).Abs())
		}
		for _, part := range []part.Part{p, q} {
			for _, g := range part.Features {
				if hole.meets(g.Box.Intersect(part.Box)) || thread.meets(g.Box.Intersect(part.Box)) {
					fail(n, "meets a groove or hole of %s", part.ID)
				}
			}
		}
		for a := geom.X; a <= geom.Z; a++ { // on the tape, where it is measured
			if s.Kind == Pocket && a != s.Toward.Axis && a != s.Face.Axis && !c.Tape.On(s.At[a]-p.Box.Min[a]) {
				fail(n, "%v from the edge is not on the tape", s.At[a]-p.Box.Min[a])
			}
		}
	}
	for i, p := range rods {
		for _, q := range rods[:i] {
			if p.screw == q.screw || p.wood != q.wood || p.apart(q) {
				continue
			}
			if d := near(p, q, c.Parts[p.wood].Box); d < p.r+q.r {
				s := c.Screws[q.screw]
				fail(p.screw, "its %s is %.1f mm from the %s of one from %s into %s", p.what, d, q.what, c.Parts[s.In].ID, c.Parts[s.Into].ID)
			}
		}
	}
	for i, j := range c.Joints {
		if perJoint[i] > 0 {
			continue
		}
		told := false
		for _, x := range f {
			if x.Code == ShortJoint || x.Code == NoPlace {
				told = told || x.Where[0] == string(j.A) && x.Where[1] == string(j.B) || x.Where[0] == string(j.B) && x.Where[1] == string(j.A)
			}
		}
		a, b := get(t, c, j.A), get(t, c, j.B)
		outside := a.Front == "face" || b.Front == "face" // glued: no screw from the face
		if !told && (j.Kind == part.Butt || j.Kind == part.Nailed || j.Kind == part.Faced && !outside) {
			t.Errorf("%s: nothing holds %s to %s", name, j.A, j.B)
		}
	}
	bought := map[string]int{}
	for _, h := range c.Hardware {
		bought[h.ID] = h.Count
	}
	for id, n := range map[string]int{"pocket-screw": pockets, "wood-screw": others, "front-screw": fronts, "pin": pins} {
		if got := bought[id]; got != n+(n+9)/10 {
			t.Errorf("%s: %d %s on the shopping list, the joints take %d", name, got, id, n)
		}
	}
}

const in4 = measure.Inch / 4

func slack(b geom.Box, a geom.Axis, by measure.Length) geom.Box {
	b.Min[a] -= by
	b.Max[a] += by
	return b
}

// TestScrewLaws drills all starting points.
func TestScrewLaws(t *testing.T) {
	for _, name := range starts {
		c, f := Build(open(t, name))
		if len(c.Screws) < 80 {
			t.Errorf("%s: only %d screws", name, len(c.Screws))
		}
		for _, x := range f {
			if x.Code == NoPlace && x.Level > issue.Note {
				t.Errorf("%s: %v", name, x)
			}
		}
		screwLaws(t, name, c, f)
	}
}

// TestScrewLawsOnMany drills carts that a person could want.
func TestScrewLawsOnMany(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for k := range 60 {
		name := starts[k%len(starts)]
		c, f := Build(random(r, open(t, name)))
		screwLaws(t, fmt.Sprint(name, " ", k), c, f)
		if t.Failed() {
			break
		}
	}
}

// TestCollar: the trade's table of pocket screws; the 3/4 row read in a
// magazine, the others from memory of the same table. A board of 18.3 mm is
// bored on the mark 3/4.
func TestCollar(t *testing.T) {
	for _, tt := range []struct{ thick, mark, long measure.Length }{
		{in / 2, in / 2, in}, {in * 15 / 32, in / 2, in}, {12 * mm, in / 2, in},
		{in * 3 / 4, in * 3 / 4, in * 5 / 4}, {183 * mm / 10, in * 3 / 4, in * 5 / 4},
		{in, in, in * 3 / 2}, {in * 3 / 2, in * 3 / 2, in * 5 / 2},
	} {
		mark, long, seat := Collar(tt.thick)
		if mark != tt.mark || long != tt.long {
			t.Errorf("Collar(%v) = %v, %v, want %v, %v", tt.thick, mark, long, tt.mark, tt.long)
		}
		// A 1 1/4 in screw at 15° reaches 1.25 cos 15° = 1.207 from its seat.
		if long == in*5/4 && (seat+in/2-in*1207/1000).Abs() > in/1000 {
			t.Errorf("the seat of a 1 1/4 in screw is %v", seat)
		}
	}
}
