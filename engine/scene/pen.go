package scene

// Width returns the width of p's stroke.
func (p Pen) Width() Unit {
	return [pens]Unit{
		Fine: 12, Thin: 16, Medium: 32, Heavy: 40, Select: 56,
		Ghost: 20, Hidden: 20, ToDo: 28, DashDot: 48, Level: 28, Rough: 20,
		Next: 6 * PX,
	}[p]
}

// Band is the width of the band of [Now] that the pen [Next] lies in.
const Band = 18 * PX

// Dash returns the lengths of dashes and gaps in turn, nil for a solid pen.
func (p Pen) Dash() []Unit {
	switch p {
	case Ghost:
		return []Unit{5 * PX, 4 * PX}
	case Hidden:
		return []Unit{3 * PX, 40}
	case ToDo:
		return []Unit{9 * PX, 5 * PX}
	case DashDot:
		return []Unit{14 * PX, 5 * PX, 4 * PX, 5 * PX}
	case Level:
		return []Unit{18 * PX, 4 * PX, 3 * PX, 4 * PX, 3 * PX, 4 * PX}
	}
	return nil
}

// A Seg is a straight stroke.
type Seg struct{ A, B Pt }

// Segs returns the strokes from point to point, back to the first if closed.
func Segs(pts []Pt, closed bool) []Seg {
	if len(pts) < 2 {
		return nil
	}
	out := make([]Seg, 0, len(pts))
	for i := 1; i < len(pts); i++ {
		out = append(out, Seg{pts[i-1], pts[i]})
	}
	if closed {
		out = append(out, Seg{pts[len(pts)-1], pts[0]})
	}
	return out
}

// most bounds what one item is cut into, so that no scene, however large its
// numbers, can tie up a renderer.
const most = 1 << 13

// Dashed cuts segs into dashes, the pattern running on from one stroke to the
// next. A pattern without length leaves segs as they are.
func Dashed(segs []Seg, pattern []Unit) []Seg {
	var sum int64
	for _, u := range pattern {
		if u <= 0 {
			return segs
		}
		sum += int64(u)
	}
	if sum == 0 {
		return segs
	}
	var out []Seg
	i, left := 0, int64(pattern[0])
	for _, s := range segs {
		long := s.length()
		if long/sum > most {
			return segs
		}
		for at := int64(0); at < long; {
			step := min(left, long-at)
			if i%2 == 0 {
				out = append(out, Seg{s.point(at, long), s.point(at+step, long)})
				if len(out) > most {
					return out
				}
			}
			at += step
			if left -= step; left == 0 {
				i = (i + 1) % len(pattern)
				left = int64(pattern[i])
			}
		}
	}
	return out
}

// Zigzag returns the run of strokes that pts becomes as a rough edge: a half
// wave every 5.5 px or so, a whole number of them on each stroke, 3.5 px to
// both sides.
func Zigzag(pts []Pt) []Pt {
	const half = 88 // half a wave: 5.5 px
	if len(pts) == 0 {
		return nil
	}
	out := []Pt{pts[0]}
	for _, s := range Segs(pts, false) {
		long := s.length()
		n := min(long/half, most)
		if n < 2 {
			out = append(out, s.B)
			continue
		}
		dx, dy := int64(s.B.X)-int64(s.A.X), int64(s.B.Y)-int64(s.A.Y)
		for k := int64(0); k < n; k++ {
			m := s.point(long*(2*k+1)/(2*n), long)
			side := int64(56) * (1 - 2*(k%2))
			out = append(out, Pt{m.X + Unit(-dy*side/long), m.Y + Unit(dx*side/long)})
		}
		out = append(out, s.B)
	}
	return out
}

// length returns the length of s, rounded down.
func (s Seg) length() int64 {
	dx, dy := int64(s.B.X)-int64(s.A.X), int64(s.B.Y)-int64(s.A.Y)
	switch {
	case dx == 0:
		return max(dy, -dy)
	case dy == 0:
		return max(dx, -dx)
	}
	return root(uint64(dx*dx) + uint64(dy*dy))
}

// point returns the point of s at a of its length long.
func (s Seg) point(a, long int64) Pt {
	if a >= long {
		return s.B
	}
	dx, dy := int64(s.B.X)-int64(s.A.X), int64(s.B.Y)-int64(s.A.Y)
	return Pt{s.A.X + Unit(along(dx, a, long)), s.A.Y + Unit(along(dy, a, long))}
}

// along returns d·a/long rounded to the nearest.
func along(d, a, long int64) int64 {
	if d < 0 {
		return -along(-d, a, long)
	}
	return (d*a + long/2) / long
}

// root returns the square root of n, rounded down.
func root(n uint64) int64 {
	var r uint64
	for bit := uint64(1) << 31; bit != 0; bit >>= 1 {
		if t := r | bit; t*t <= n {
			r = t
		}
	}
	return int64(r)
}
