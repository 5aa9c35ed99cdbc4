package nest

import (
	"testing"

	"cartwright/engine/measure"
)

// TestSettle: a piece that the store cut off on the left, its right edge as
// sold. The part lay at the rough edge, the rest at the factory edge; settled
// it is the other way round, and in a strip of two the order turns with it.
func TestSettle(t *testing.T) {
	in := measure.Inch
	tree := func() *Node {
		return &Node{Kind: Cut, Dir: X, L: 30 * in, W: 20 * in, Kids: []*Node{
			{Kind: Cut, Dir: Y, L: 19 * in, W: 20 * in, Kids: []*Node{
				{Kind: Piece, L: 19 * in, W: 8 * in}, {Kind: Waste, L: 19 * in, W: 12*in - in/8}}},
			{Kind: Offcut, L: 11*in - in/8, W: 20 * in}}}
	}
	tests := []struct {
		name      string
		e         edges
		part, low int // where the strip with the part lies, and the part in it
	}{
		{"left rough", edges{left: true}, 1, 0},
		{"right rough", edges{right: true}, 0, 0},
		{"both rough", edges{left: true, right: true}, 0, 0},
		{"left and low edge rough", edges{left: true, bottom: true}, 1, 1},
		{"none rough", edges{}, 0, 0},
	}
	for _, tt := range tests {
		n := tree()
		settle(n, tt.e)
		strip := n.Kids[tt.part]
		if strip.Kind != Cut || strip.Kids[tt.low].Kind != Piece {
			t.Errorf("%s: the part does not lie at %d, %d", tt.name, tt.part, tt.low)
		}
	}
}
