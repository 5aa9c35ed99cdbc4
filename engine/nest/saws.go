package nest

import (
	"math/bits"

	"cartwright/engine/measure"
)

// Saws says what the saws of the shop take, so that settings are counted where
// they are made: one distance on the fence and on a stop is two. The zero Saws
// knows nothing of them: every distance is one setting.
type Saws struct {
	Fence measure.Length // widest rip of the table saw; 0: there is none
	Long  measure.Length // longest cut along its fence
	Sled  measure.Length // widest crosscut against a stop on its sled; 0: none
	Mitre measure.Length // widest crosscut of the mitre saw; 0: none
	Track bool           // there is a track saw or a hand-held one
}

// A panel with more than bigLong on its longer side and more than bigShort on
// the other, or of more than bigArea, is cut with a track saw or a hand-held
// one: cut big sheets to rough size before the bench saw (a tutor's rule,
// trade facts 9). A piece with less edge than ShortEdge is not pushed along a
// fence by hand. Limits are common practice, without a source.
const (
	bigLong   = 60 * measure.Inch
	bigShort  = 24 * measure.Inch
	bigArea   = measure.Area(48*measure.Inch) * measure.Area(40*measure.Inch)
	ShortEdge = 12 * measure.Inch
)

// Big reports whether a piece is too big for the bench.
func Big(l, w measure.Length) bool {
	l, w = max(l, w), min(l, w)
	return l > bigLong && w > bigShort || measure.Area(l)*measure.Area(w) > bigArea
}

// What a cut is set on, as bits.
const (
	onMitre = 1 << iota
	onFence
	onSled
	onTrack
)

// takes says what a cut can well be set on that parts an l by w piece of stock
// of grain g along dir at set.
func (s *Saws) takes(l, w, set measure.Length, dir Dir, g Grain) (on uint8) {
	if s.Fence|s.Long|s.Sled|s.Mitre == 0 && !s.Track {
		return onFence
	}
	line, rip := w, X
	if dir == Y {
		line = l
	}
	if g == Along || g == Free { // as package work names the cuts
		rip = Y
	}
	if s.Track && Big(l, w) {
		return onTrack
	}
	if g != Free && dir != rip || g == Free && set > line {
		if line <= s.Mitre {
			on = onMitre
		}
	}
	if (g == Free || dir != rip) && line <= s.Sled && !Big(l, w) {
		on |= onSled
	}
	if set <= s.Fence && line >= set && line <= s.Long && (on == 0 || line >= ShortEdge) {
		on |= onFence
	}
	if on == 0 {
		on = onTrack
	}
	return on
}

// hits[s] has bit i set if value i of takes has a bit in common with s.
var hits = [8]uint16{0, 0xaa, 0xcc, 0xee, 0xf0, 0xfa, 0xfc, 0xfe}

// lateAsked is the bit of asked for the value 0 of takes where the cut waits
// until the case is measured: by then the fence has been moved.
const lateAsked = 16

// settings is the least number of settings for cuts at one distance: asked has
// bit i set if one of them takes what is the value i of takes, and bit i +
// lateAsked if one that waits does.
func settings(asked uint32) int {
	if late := asked >> lateAsked; late != 0 {
		return settingsAtOnce(uint16(asked)) + settingsAtOnce(uint16(late))
	}
	return settingsAtOnce(uint16(asked))
}

// settingsAtOnce is settings for cuts made on one occasion. A track is laid to
// marks and is none.
func settingsAtOnce(asked uint16) int {
	asked &^= 1 << onTrack
	best := 3
	for s := range 1 << 3 {
		if n := bits.OnesCount(uint(s)); n < best && asked&^hits[s] == 0 {
			best = n
		}
	}
	return best
}

// asks is the bit of asked for a cut that waits until the case is measured, or
// does not.
func (j *Job) asks(takes uint8, late bool) uint32 {
	if late && j.Saws != (Saws{}) {
		return 1 << (takes + lateAsked)
	}
	return 1 << takes
}

// What of a kind or a node is measured late, as bits: each part has a reserve,
// one of them along x, along y.
const (
	allLate = 1 << iota
	lateX
	lateY
)

// late is what of a part is measured late if its length lies along x, or along
// y.
func (q *Part) late(rot bool) (is uint8) {
	at := q.Reserve
	if rot {
		at.L, at.W = at.W, at.L
	}
	if at.L != 0 {
		is |= allLate | lateX
	}
	if at.W != 0 {
		is |= allLate | lateY
	}
	return is
}

// both is what of two kids is measured late.
func both(a, b uint8) uint8 { return a&b&allLate | (a|b)&^allLate }

// waits reports whether a cut along d waits that frees what is late: it would
// take from parts what they may need. A rip that gives box sides and box fronts
// their height does not, though the length of the fronts is measured late.
func waits(late uint8, d Dir) bool {
	if d == X {
		return late&(allLate|lateX) == allLate|lateX
	}
	return late&(allLate|lateY) == allLate|lateY
}

// Waits reports whether a cut along d that frees n waits until the case is
// measured: all parts of n are measured late, one of them along d.
func (j *Job) Waits(n *Node, d Dir) bool { return waits(j.late(n), d) }

// late is what of n is measured late.
func (j *Job) late(n *Node) uint8 {
	if n.Kind == Piece {
		if n.Part < 0 || n.Part >= len(j.Parts) {
			return 0
		}
		return j.Parts[n.Part].late(n.Rot)
	}
	if n.Core != nil {
		return j.late(n.Core)
	}
	late, some := uint8(allLate), false
	for _, k := range n.Kids {
		if !spare(k) {
			late, some = both(late, j.late(k)), true
		}
	}
	if !some {
		return 0
	}
	return late
}

// lateRun is what of a chain is measured late.
func (j *Job) lateRun(order []int) uint8 {
	late := uint8(allLate)
	for _, i := range order {
		late = both(late, j.Parts[i].late(false))
	}
	return late
}
