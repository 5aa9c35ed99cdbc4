// Package ink turns strokes and shapes into triangles, in device pixels.
//
// Straight strokes along the axes are snapped to the pixel grid. The edges of
// all others fade over one pixel by the colours of their corners: that costs a
// few triangles, while the canvas library's own antialiasing draws everything
// several times over.
package ink

import "math"

// A Pt is a point in device pixels.
type Pt struct{ X, Y float64 }

// A Color is red, green, blue and alpha from 0 to 1, premultiplied.
type Color [4]float32

// A Vertex is a corner of a triangle.
type Vertex struct {
	X, Y float32
	Color
}

// A Mesh is a list of triangles: three of I for each. The zero Mesh is empty.
type Mesh struct {
	V []Vertex
	I []uint16
}

// Full says that a mesh should be drawn and emptied before more is added:
// indices have 16 bits.
func (m *Mesh) Full() bool { return len(m.V) > 48000 }

// Reset empties m and keeps its memory.
func (m *Mesh) Reset() { m.V, m.I = m.V[:0], m.I[:0] }

func (m *Mesh) vertex(x, y float64, c Color) { m.V = append(m.V, Vertex{float32(x), float32(y), c}) }

func (m *Mesh) triangle(a, b, c int) { m.I = append(m.I, uint16(a), uint16(b), uint16(c)) }

// room reports whether n more vertices have indices left. What has no room is
// left out: only a drawing with tens of thousands of points in one shape.
func (m *Mesh) room(n int) bool { return len(m.V)+n < 65535 }

// Rect fills the rectangle between whole pixels nearest to x0, y0, x1, y1.
func (m *Mesh) Rect(x0, y0, x1, y1 float64, c Color) {
	x0, y0, x1, y1 = math.Round(x0), math.Round(y0), math.Round(x1), math.Round(y1)
	if x0 >= x1 || y0 >= y1 || !m.room(4) {
		return
	}
	n := len(m.V)
	m.vertex(x0, y0, c)
	m.vertex(x1, y0, c)
	m.vertex(x1, y1, c)
	m.vertex(x0, y1, c)
	m.triangle(n, n+1, n+2)
	m.triangle(n, n+2, n+3)
}

// Fill fills the closed shape pts, which should not cross itself.
func (m *Mesh) Fill(pts []Pt, c Color) {
	if len(pts) < 3 || !m.room(len(pts)) {
		return
	}
	n := len(m.V)
	for _, p := range pts {
		m.vertex(math.Round(p.X), math.Round(p.Y), c)
	}
	for _, t := range ears(pts) {
		m.triangle(n+t[0], n+t[1], n+t[2])
	}
}

// Disc fills a circle.
func (m *Mesh) Disc(at Pt, r float64, c Color) {
	k := segments(r)
	if r <= 0 || !m.room(2*k+1) {
		return
	}
	n := len(m.V)
	m.vertex(at.X, at.Y, c)
	for i := range k {
		s, o := math.Sincos(2 * math.Pi * float64(i) / float64(k))
		m.vertex(at.X+(r-0.5)*o, at.Y+(r-0.5)*s, c)
		m.vertex(at.X+(r+0.5)*o, at.Y+(r+0.5)*s, Color{})
	}
	for i := range k {
		a, b := n+1+2*i, n+1+2*((i+1)%k)
		m.triangle(n, a, b)
		m.triangle(a, a+1, b+1)
		m.triangle(a, b+1, b)
	}
}

// Circle returns the points of a circle, for Stroke.
func Circle(at Pt, r float64) []Pt {
	pts := make([]Pt, segments(r))
	for i := range pts {
		s, o := math.Sincos(2 * math.Pi * float64(i) / float64(len(pts)))
		pts[i] = Pt{at.X + r*o, at.Y + r*s}
	}
	return pts
}

func segments(r float64) int { return int(max(12, min(96, 6*math.Sqrt(max(r, 0))))) }

// Width returns the width in which a stroke of w pixels is drawn: whole, and
// never nothing.
func Width(w float64) float64 { return max(1, math.Round(w)) }

// Snap returns p where a stroke of whole width w along an axis is sharp.
func Snap(p Pt, w float64) Pt {
	if int(w)%2 == 1 {
		return Pt{math.Floor(p.X) + 0.5, math.Floor(p.Y) + 0.5}
	}
	return Pt{math.Round(p.X), math.Round(p.Y)}
}

// Stroke draws a run of strokes of whole width, snapped, with mitred corners
// and blunt ends.
func (m *Mesh) Stroke(pts []Pt, closed bool, w float64, c Color) {
	w = Width(w)
	snapped := make([]Pt, 0, len(pts))
	for _, p := range pts {
		if s := Snap(p, w); len(snapped) == 0 || s != snapped[len(snapped)-1] {
			snapped = append(snapped, s)
		}
	}
	if closed && len(snapped) > 1 && snapped[0] == snapped[len(snapped)-1] {
		snapped = snapped[:len(snapped)-1]
	}
	m.Curve(snapped, closed, w, c)
}

// Curve is Stroke without snapping: for circles and hatches. No two points in
// a row may be the same.
func (m *Mesh) Curve(pts []Pt, closed bool, w float64, c Color) {
	k := len(pts)
	if k < 2 || !m.room(4*k) {
		return
	}
	if k == 2 {
		closed = false
	}
	in, out := max(0, w/2-0.5), w/2+0.5
	n := len(m.V)
	for i, p := range pts {
		before, after := i-1, i+1
		if closed {
			before, after = (i+k-1)%k, (i+1)%k
		}
		var a, b Pt // normals of the strokes that meet here
		switch {
		case before < 0:
			b = normal(p, pts[after])
			a = b
		case after >= k:
			a = normal(pts[before], p)
			b = a
		default:
			a, b = normal(pts[before], p), normal(p, pts[after])
		}
		d := miter(a, b)
		m.vertex(p.X+d.X*out, p.Y+d.Y*out, Color{})
		m.vertex(p.X+d.X*in, p.Y+d.Y*in, c)
		m.vertex(p.X-d.X*in, p.Y-d.Y*in, c)
		m.vertex(p.X-d.X*out, p.Y-d.Y*out, Color{})
	}
	last := k - 1
	if closed {
		last = k
	}
	for i := range last {
		a, b := n+4*i, n+4*((i+1)%k)
		for j := range 3 {
			m.triangle(a+j, a+j+1, b+j+1)
			m.triangle(a+j, b+j+1, b+j)
		}
	}
}

// normal returns the unit normal of the stroke from a to b.
func normal(a, b Pt) Pt {
	dx, dy := b.X-a.X, b.Y-a.Y
	d := math.Hypot(dx, dy)
	if d == 0 {
		return Pt{}
	}
	return Pt{-dy / d, dx / d}
}

// miter returns the way from a corner to the point of its mitre, for strokes
// with normals a and b and half a width of 1; very sharp corners are cut short.
func miter(a, b Pt) Pt {
	x, y := a.X+b.X, a.Y+b.Y
	d := x*a.X + y*a.Y // 1 + cos of the turn
	if d < 0.2 {
		return a
	}
	return Pt{x / d, y / d}
}

// ears cuts the shape pts into triangles of its corners. Where it crosses
// itself the result is some cover of it.
func ears(pts []Pt) [][3]int {
	var area float64
	ring := make([]int, len(pts))
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		area += p.X*q.Y - q.X*p.Y
		ring[i] = i
	}
	sign := 1.0
	if area < 0 {
		sign = -1
	}
	out := make([][3]int, 0, len(pts)-2)
	for len(ring) > 3 {
		cut := -1
		for i := range ring {
			if ear(pts, ring, i, sign) {
				cut = i
				break
			}
		}
		if cut < 0 {
			cut = 0
		}
		k := len(ring)
		out = append(out, [3]int{ring[(cut+k-1)%k], ring[cut], ring[(cut+1)%k]})
		ring = append(ring[:cut:cut], ring[cut+1:]...)
	}
	return append(out, [3]int{ring[0], ring[1], ring[2]})
}

// ear reports whether the corner i of ring can be cut off.
func ear(pts []Pt, ring []int, i int, sign float64) bool {
	k := len(ring)
	a, b, c := ring[(i+k-1)%k], ring[i], ring[(i+1)%k]
	if sign*cross(pts[a], pts[b], pts[c]) <= 0 {
		return false
	}
	for _, j := range ring {
		p := pts[j]
		if j == a || j == b || j == c || p == pts[a] || p == pts[b] || p == pts[c] {
			continue
		}
		if sign*cross(pts[a], pts[b], p) >= 0 && sign*cross(pts[b], pts[c], p) >= 0 && sign*cross(pts[c], pts[a], p) >= 0 {
			return false
		}
	}
	return true
}

func cross(a, b, c Pt) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
