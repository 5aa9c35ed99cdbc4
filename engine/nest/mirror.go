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

// kid is e for the i-th kid of n, which the store cuts.
func (e edges) kid(n *Node, i int) edges {
	first, last := i == 0, i == len(n.Kids)-1
	if n.Dir == X {
		e.left, e.right = e.left || !first, e.right || !last
	} else {
		e.bottom, e.top = e.bottom || !first, e.top || !last
	}
	return e
}

// sawn lists the kids of n in the order in which they are cut off: what is left
// over stays until the end.
func sawn(n *Node) []*Node {
	last := len(n.Kids) - 1
	if last > 0 && spare(n.Kids[0]) && !spare(n.Kids[last]) {
		kids := slices.Clone(n.Kids)
		slices.Reverse(kids)
		return kids
	}
	return n.Kids
}

// spare reports whether n is left over.
func spare(n *Node) bool { return n.Kind == Waste || n.Kind == Offcut }
