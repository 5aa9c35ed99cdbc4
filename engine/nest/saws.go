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
	if *s == (Saws{}) {
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

// asks is the bit of asked for a cut that frees only what is measured late, or
// also something else.
func (j *Job) asks(takes uint8, late bool) uint32 {
	if late && j.Saws != (Saws{}) {
		return 1 << (takes + lateAsked)
	}
	return 1 << takes
}

// late reports whether a part is measured late.
func (q *Part) late() bool { return q.Reserve != Size{} }

// waits reports whether some parts lie under n, and all are measured late.
func (j *Job) waits(n *Node) bool {
	if n.Kind == Piece {
		return j.Parts[n.Part].late()
	}
	some := false
	for _, k := range n.Kids {
		if k.Kind == Waste || k.Kind == Offcut {
			continue
		}
		if !j.waits(k) {
			return false
		}
		some = true
	}
	return some
}

// lateRun reports whether all parts of a chain are measured late.
func (j *Job) lateRun(order []int) bool {
	for _, i := range order {
		if !j.Parts[i].late() {
			return false
		}
	}
	return true
}
