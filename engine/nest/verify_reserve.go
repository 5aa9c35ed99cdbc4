package nest

import "cartwright/engine/measure"

// The judge of [Plan.Reserved]: it cuts off what has no reserve, then lays the
// pieces that are left out anew on what wood there is, each as large as it may
// have to be.

// wood finds the pieces of wood that are left under n.
func (v *proof) wood(n *Node) {
	switch {
	case n == nil || n.Kind == Waste || n.Kind == Offcut:
	case n.Kind == Trim:
		v.wood(n.Core)
	case n.Kind == Piece || n.Tier == ShopTier && v.waits(n):
		v.laidOut(n, n.L, n.W)
	case n.Tier == StoreTier:
		for _, k := range n.Kids {
			v.wood(k)
		}
	default:
		// What is left over at the low end only is left over at the end all the same.
		kids := append([]*Node(nil), n.Kids...)
		empty := func(k *Node) bool { return k.Kind == Waste || k.Kind == Offcut }
		if len(kids) > 0 && empty(kids[0]) && !empty(kids[len(kids)-1]) {
			for i := range kids {
				kids[i] = n.Kids[len(kids)-1-i]
			}
		}
		last := len(kids) // the first of those behind which nothing else must be cut off
		spare := true
		for last > 0 {
			k := kids[last-1]
			if !(empty(k) && spare || v.waits(k)) {
				break
			}
			spare = spare && empty(k)
			last--
		}
		left := Node{Kind: Cut, Dir: n.Dir, L: n.L, W: n.W, Kids: kids[last:]}
		for _, k := range kids[:last] {
			v.wood(k)
			if n.Dir == X {
				left.L -= k.L + v.job.Kerf
			} else {
				left.W -= k.W + v.job.Kerf
			}
		}
		if !spare {
			v.laidOut(&left, left.L, left.W)
		}
	}
}

// waits reports whether nothing but pieces with a reserve comes from n.
func (v *proof) waits(n *Node) bool {
	if n.Kind == Piece {
		if n.Part < 0 || n.Part >= len(v.job.Parts) {
			return false
		}
		r := v.job.Parts[n.Part].Reserve
		return r.L != 0 || r.W != 0
	}
	some := false
	for _, k := range n.Kids {
		switch {
		case k.Kind == Waste || k.Kind == Offcut:
		case !v.waits(k):
			return false
		default:
			some = true
		}
	}
	return some
}

// laidOut counts the pieces of n if all of them, larger, fit l by w a kerf apart.
func (v *proof) laidOut(n *Node, l, w measure.Length) {
	if !v.waits(n) {
		return
	}
	spots := v.grown(nil, n, 0, 0)
	for _, s := range spots {
		if s.x+s.l > l || s.y+s.w > w {
			return
		}
	}
	v.reserved += len(spots)
}

// grown lays the pieces of n out from x, y, and adds them to spots.
func (v *proof) grown(spots []spot, n *Node, x, y measure.Length) []spot {
	if n.Kind == Piece {
		q := v.job.Parts[n.Part]
		s := spot{x, y, q.L + q.Reserve.L, q.W + q.Reserve.W, n.Part}
		if n.Rot {
			s.l, s.w = s.w, s.l
		}
		return append(spots, s)
	}
	for _, k := range n.Kids {
		before := len(spots)
		spots = v.grown(spots, k, x, y)
		for _, s := range spots[before:] { // the next one begins behind all of these
			if n.Dir == X {
				x = max(x, s.x+s.l+v.job.Kerf)
			} else {
				y = max(y, s.y+s.w+v.job.Kerf)
			}
		}
	}
	return spots
}
