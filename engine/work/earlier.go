package work

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// MostEarlier is how many parts of a line can be told apart: a damaged file may
// ask for any number.
const MostEarlier = 999

// Earlier names in the journal the kth of the parts of a line that were cut
// before the plan in use: no sheet of that plan holds it, so Sheet is below 0.
func Earlier(line, k int, l, w measure.Length) mark.Piece {
	return mark.Piece{Sheet: -1 - line, X: measure.Length(k), L: l, W: w}
}

// AsCut reports whether a piece is good, and has the size it was to have.
func (p Standing) AsCut(m mark.Piece) bool {
	l, w := p.Size(m)
	return l == m.L && w == m.W && !p.Spoilt(m)
}
