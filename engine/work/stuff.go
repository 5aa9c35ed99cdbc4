package work

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// A side numbers the edges of a piece: 2·Dir for the low edge of an axis,
// 2·Dir+1 for the high one.
type side int

func low(d nest.Dir) side  { return side(2 * d) }
func high(d nest.Dir) side { return side(2*d + 1) }

// dir is the axis that s ends.
func (s side) dir() nest.Dir { return nest.Dir(s / 2) }

// far is the edge across from s.
func (s side) far() side { return s ^ 1 }

// edge names s.
func (s side) edge() Edge {
	return [...]Edge{LeftEdge, RightEdge, TopEdge, BottomEdge}[s]
}

// other is the axis across d.
func other(d nest.Dir) nest.Dir { return 1 - d }

// A rim is what one edge of a piece is like.
type rim struct {
	is string // FactoryEdge, …
	// off is how much lies beyond what the plan counts on: a rough edge to
	// be taken off, or what a strip is left with at its end.
	off measure.Length
}

// straight reports whether the edge can ride a fence.
func (r rim) straight() bool { return r.is != RoughEdge }

// A stuff is a piece as it really is at some moment.
type stuff struct {
	at   mark.Piece
	rims [4]rim
	by   int // the cut that freed it, in the builder's list; -1 for none
	// rough is its rough piece, -1 while it is in the store's hands.
	rough int
}

// size is the real size of s along d.
func (s stuff) size(d nest.Dir) measure.Length {
	if d == nest.X {
		return s.at.L
	}
	return s.at.W
}

// core is the size that the plan counts on.
func (s stuff) core(d nest.Dir) measure.Length {
	return s.size(d) - s.rims[low(d)].off - s.rims[high(d)].off
}

// span returns the part of s from a to b along d, measured from its low edge,
// with sawn edges where it was parted.
func (s stuff) span(d nest.Dir, a, b measure.Length, sawn string, by int) stuff {
	t := s
	t.by = by
	if a > 0 {
		t.rims[low(d)] = rim{is: sawn}
	}
	if b < s.size(d) {
		t.rims[high(d)] = rim{is: sawn}
	}
	if d == nest.X {
		t.at.X, t.at.L = s.at.X+a, b-a
	} else {
		t.at.Y, t.at.W = s.at.Y+a, b-a
	}
	return t
}

// along is the size of n along d.
func along(n *nest.Node, d nest.Dir) measure.Length {
	if d == nest.X {
		return n.L
	}
	return n.W
}

// scrap reports whether n takes whatever size it comes out at.
func scrap(n *nest.Node) bool { return n.Kind == nest.Waste || n.Kind == nest.Offcut }

// touch counts the parts of n that need its edge at s to be true: full are
// those that reach from there to the opposite edge, chain those that end a run
// of cuts along that axis.
func touch(n *nest.Node, s side) (full, chain int) {
	switch n.Kind {
	case nest.Piece:
		return 1, 0
	case nest.Cut:
		if n.Dir == s.dir() {
			k := n.Kids[0]
			if s == high(n.Dir) {
				k = n.Kids[len(n.Kids)-1]
			}
			if f, c := touch(k, s); f+c > 0 {
				return 0, 1
			}
			return 0, 0
		}
		for _, k := range n.Kids {
			f, c := touch(k, s)
			full, chain = full+f, chain+c
		}
	}
	return full, chain
}

// needs reports whether any part of n needs its edge at s to be true.
func needs(n *nest.Node, s side) bool {
	f, c := touch(n, s)
	return f+c > 0
}

// spanning appends the parts of n that reach from edge to edge along d: those
// that a cut along d brings to size.
func spanning(parts []int, n *nest.Node, d nest.Dir) []int {
	switch n.Kind {
	case nest.Piece:
		return append(parts, n.Part)
	case nest.Cut:
		if n.Dir != d {
			for _, k := range n.Kids {
				parts = spanning(parts, k, d)
			}
		}
	}
	return parts
}
