package nest

import "slices"

// mirror turns the tree under n round along d. What was at the low edge is at
// the high one: no size, no cut and no chain's order but for its sense changes.
func mirror(n *Node, d Dir) {
	if n.Kind == Cut && n.Dir == d {
		slices.Reverse(n.Kids)
	}
	for _, k := range n.Kids {
		mirror(k, d)
	}
}

// settle lays the tree of a rough piece so that its parts begin at a factory
// edge and what is left over lies at the rough one, which then needs no trim.
func settle(core *Node, e edges) {
	if e.left && !e.right {
		mirror(core, X)
	}
	if e.bottom && !e.top {
		mirror(core, Y)
	}
}
