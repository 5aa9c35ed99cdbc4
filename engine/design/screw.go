package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

const (
	// ThinJoint: a part is too thin for pocket holes; the joint is glued and
	// pinned instead. Told once for all parts of a name. Args: its name
	// (string), its thickness (Length), the least (Length). Example: thin-joint.json
	ThinJoint issue.Code = "design.thin-joint"
	// ShortJoint: a joint is too short for a screw. Args: two names (string),
	// its length (Length), the least (Length). Example: short-joint.json
	ShortJoint issue.Code = "design.short-joint"
	// NoPlace: a screw finds no place clear of others, of holes and of
	// grooves. Args: the part it is driven from (string), the other part
	// (string), how many are missing (int). Example: no-place.json
	NoPlace issue.Code = "design.no-place"
)

// A ScrewKind is how a joint is fastened.
type ScrewKind int

const (
	Pocket  ScrewKind = iota // at 15° through a face, out of the edge that meets
	Through                  // straight through one part
	Pinned                   // a brad, straight through one part
)

// A Side is a face of a part: the axis across it, and which end.
type Side struct {
	Axis geom.Axis
	High bool
}

// Of returns where the face lies in b.
func (s Side) Of(b geom.Box) measure.Length {
	if s.High {
		return b.Max[s.Axis]
	}
	return b.Min[s.Axis]
}

// Out returns v moved by d out of the face.
func (s Side) Out(v, d measure.Length) measure.Length {
	if s.High {
		return v + d
	}
	return v - d
}

// Back is the face across the part.
func (s Side) Back() Side { return Side{s.Axis, !s.High} }

// A Screw fastens a joint: a pocket screw, a screw through one part, a pin.
type Screw struct {
	Kind     ScrewKind
	Joint    int // index in Cart.Joints
	In, Into int // indices of parts: bored, and held
	// Face is the face of In that it is driven from. Toward is the face of In
	// that lies against Into.
	Face, Toward Side
	// At is where its axis leaves In: for a pocket screw the middle of In's
	// thickness.
	At geom.Pt
	// Long is its length; Reach how deep it is in Into, across the joint.
	Long, Reach measure.Length
}

// Rules of fastening, where nothing else is said common practice without a
// source.
const (
	thinnest = in * 7 / 16 // for pocket holes: 1/2 in ply as it really is
	shortest = in * 3 / 4  // joint for one screw
	shortTwo = in * 5 / 4  // joint for two
	leave    = in / 16     // wood before the point of a screw
	// LeastReach is how deep a screw must be in the part it holds.
	LeastReach = in / 4
	// Bore is the width of a pocket hole, BoreThrough of a clearance hole for
	// a No. 8 screw, whose thread is .164 in.
	Bore        = in * 3 / 8
	BoreThrough = in * 11 / 64
	// about is what a screw and the wood it needs reach out from its axis.
	about      = in * 7 / 64
	pinSpacing = 6 * in
)

// pockets are the marks of a collar, by thickness of the part that is bored,
// with the screw of each: the trade's long-standing table.
var pockets = []struct{ mark, long measure.Length }{
	{in / 2, in}, {in * 5 / 8, in}, {in * 3 / 4, in * 5 / 4}, {in * 7 / 8, in * 3 / 2}, {in, in * 3 / 2}, {in * 5 / 4, 2 * in}, {in * 3 / 2, in * 5 / 2},
}

// screwLengths are those that pocket screws and wood screws are sold in.
var screwLengths = []measure.Length{in * 3 / 4, in, in * 5 / 4, in * 3 / 2, 2 * in, in * 5 / 2, 3 * in}

// Collar returns the mark to set for boring pockets in a part of the given
// thickness, the usual screw, and how far from the edge its head comes to sit.
// The hole runs at 15° to the face (a woodworking magazine, 2003) and leaves
// the edge in the middle of the thickness; the head sits so that the usual
// screw reaches two thirds of the mark into the other part.
func Collar(thick measure.Length) (mark, long, seat measure.Length) {
	best := pockets[0]
	for _, k := range pockets[1:] {
		if (k.mark - thick).Abs() < (best.mark - thick).Abs() {
			best = k
		}
	}
	return best.mark, best.long, along15(best.long) - best.mark*2/3
}

// along15 is l seen along the face of a screw at 15° to it: l × cos 15°.
func along15(l measure.Length) measure.Length { return l * 965926 / 1000000 }

// Mouth is how far from the edge the axis of a pocket comes out of the face:
// half the thickness × cot 15°. The hole in the face reaches Bore ÷ (2 sin 15°)
// further.
func Mouth(thick measure.Length) measure.Length { return thick / 2 * 3732 / 1000 }

// Screws returns how many pocket screws a joint of length l takes: one near
// each end, then one about every 7 in (common practice, no source). Two keep a
// rail from twisting; a joint under 1 1/4 in takes one, one under 3/4 in none.
func Screws(l measure.Length) int {
	switch {
	case l < shortest:
		return 0
	case l < shortTwo:
		return 1
	}
	return 2 + every(l, 7*in)
}

func every(l, step measure.Length) int {
	if rest := l - 4*in; rest > 0 {
		return int((rest - 1) / step)
	}
	return 0
}

// spread places n screws over a length l: the outer ones 2 in from its ends, on
// short joints a quarter of it, at least 1/2 in.
func spread(l measure.Length, n int) []measure.Length {
	if n == 1 {
		return []measure.Length{l / 2}
	}
	e := min(2*in, max(in/2, l/4))
	out := make([]measure.Length, n)
	for i := range out {
		out[i] = e + (l-2*e)*measure.Length(i)/measure.Length(max(n-1, 1))
	}
	return out
}

// A region is where two parts meet: across axis a, In below or above.
type region struct {
	a    geom.Axis
	face geom.Box // flat along a
}

// meeting returns the region where p and q meet, to within tol.
func meeting(p, q geom.Box, tol measure.Length) (region, bool) {
	for a := geom.X; a <= geom.Z; a++ {
		if (p.Max[a]-q.Min[a]).Abs() > tol && (q.Max[a]-p.Min[a]).Abs() > tol {
			continue
		}
		r := p.Intersect(q)
		r.Min[a], r.Max[a] = 0, 1
		if !r.Empty() {
			return region{a, r}, true
		}
	}
	return region{}, false
}
