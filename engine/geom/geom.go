// Package geom holds exact points, rectangles and boxes in cabinet space:
// x to the right, y to the back, z up, the origin on the floor at the front
// left corner.
package geom

import "cartwright/engine/measure"

// An Axis is a direction of cabinet space.
type Axis int

const (
	X Axis = iota // across the front, to the right
	Y             // from front to back
	Z             // up
)

// String returns "x", "y" or "z".
func (a Axis) String() string { return [...]string{"x", "y", "z"}[a] }

// A Pt is a point of cabinet space.
type Pt [3]measure.Length

// A Box holds the points with Min[i] <= p[i] < Max[i] on each axis, so two
// parts that share a face do not overlap. The zero Box is empty.
type Box struct{ Min, Max Pt }

// At returns the box with its low corner at (x, y, z) and the given size.
func At(x, y, z, dx, dy, dz measure.Length) Box {
	return Box{Pt{x, y, z}, Pt{x + dx, y + dy, z + dz}}
}

// Size returns the extent of b along a.
func (b Box) Size(a Axis) measure.Length { return b.Max[a] - b.Min[a] }

// Empty reports whether b holds no point.
func (b Box) Empty() bool {
	return b.Min[X] >= b.Max[X] || b.Min[Y] >= b.Max[Y] || b.Min[Z] >= b.Max[Z]
}

// Intersect returns the common part of b and c, which may be empty.
func (b Box) Intersect(c Box) Box {
	for i := range b.Min {
		b.Min[i] = max(b.Min[i], c.Min[i])
		b.Max[i] = min(b.Max[i], c.Max[i])
	}
	return b
}

// Overlaps reports whether b and c share any point.
func (b Box) Overlaps(c Box) bool { return !b.Intersect(c).Empty() }

// Contains reports whether every point of c is in b. Any box contains an
// empty one.
func (b Box) Contains(c Box) bool { return c.Empty() || b.Intersect(c) == c }

// Contact returns the area over which b and c touch face to face, and the
// axis across that face. Boxes that overlap, or meet only along an edge, do
// not touch: area 0.
func (b Box) Contact(c Box) (measure.Area, Axis) {
	for a := X; a <= Z; a++ {
		if b.Max[a] != c.Min[a] && c.Max[a] != b.Min[a] {
			continue
		}
		u, v := (a+1)%3, (a+2)%3
		du := min(b.Max[u], c.Max[u]) - max(b.Min[u], c.Min[u])
		dv := min(b.Max[v], c.Max[v]) - max(b.Min[v], c.Min[v])
		if du > 0 && dv > 0 {
			return du.Times(dv), a
		}
	}
	return 0, X
}

// Add returns b moved by d.
func (b Box) Add(d Pt) Box {
	for i := range d {
		b.Min[i] += d[i]
		b.Max[i] += d[i]
	}
	return b
}

// Union returns the smallest box that holds both; an empty box adds nothing.
func (b Box) Union(c Box) Box {
	switch {
	case b.Empty():
		return c
	case c.Empty():
		return b
	}
	for i := range b.Min {
		b.Min[i] = min(b.Min[i], c.Min[i])
		b.Max[i] = max(b.Max[i], c.Max[i])
	}
	return b
}
