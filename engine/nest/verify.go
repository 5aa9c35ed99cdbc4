package nest

import (
	"fmt"
	"math"
	"slices"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// Verify checks p against job without regard to how p was found: every tree
// is its stock, every cut runs edge to edge and eats its kerf, store cuts
// stand above shop cuts and leave pieces that fit the car, every part is
// there as often as asked or listed as left, and the figures are true. An
// empty list means p can be cut. It shares no code with [Search].
func Verify(job Job, p Plan) issue.List {
	v := proof{job: job, where: "plan", distances: map[occasion][][]string{},
		made: make([]int, len(job.Parts)), used: make([]int, len(job.Stock)),
		match: map[matched]int{}}
	for i, s := range p.Sheets {
		v.sheet(i, s)
	}
	v.where = "plan"
	v.counts(p)
	v.chains()
	v.matches()
	v.figures(p)
	return v.found
}

// Limits of a tree that Verify walks: a plan from a damaged file must not
// exhaust the stack.
const (
	deepest  = 4000
	farthest = 1 << 40 // ticks
)

// proof is what Verify learns on its walk.
type proof struct {
	job   Job
	found issue.List
	where string // sheet at hand

	stock  Stock
	placed []spot // of the sheet at hand
	cuts   int    // store cuts of the sheet at hand
	limbs  []limb // every cut node of the plan whose kids may be a chain
	match  map[matched]int

	made, used         []int
	cost               measure.Money
	store, shop, trims int
	rest               int64
	bought             int
	distances          map[occasion][][]string // for each cut, what it can be set on
	reserved           int
	late               bool // the node at hand comes of a cut that waits
	broken             bool // a tree that cannot be walked
}

// spot is a piece where it lies.
type spot struct {
	x, y, l, w measure.Length
	part       int
}

// limb is the run of kids of one cut.
type limb struct {
	dir  Dir
	kids []*Node
}

// matched is a shared dimension of a match group; its value in the map has
// bit 0 set if a shop cut made it and bit 1 if the store did.
type matched struct {
	group string
	size  measure.Length
}

// rough says which edges of a node a store cut made.
type rough struct{ left, right, bottom, top bool }

func (v *proof) add(code issue.Code, path string, args ...any) {
	where := []string{v.where}
	if path != "" {
		where = append(where, path)
	}
	v.found.Add(issue.Block, code, where, args...)
}

func (v *proof) sheet(i int, s Layout) {
	v.where = fmt.Sprintf("sheet %d", i+1)
	if s.Stock < 0 || s.Stock >= len(v.job.Stock) {
		v.broken = true
		v.add(Malformed, "", "stock")
		return
	}
	st := v.job.Stock[s.Stock]
	v.stock, v.placed, v.cuts = st, v.placed[:0], 0
	v.used[s.Stock]++
	v.cost += st.Price
	if free := st.AtShop && st.Price == 0 && st.Count >= 0; !free {
		v.bought++
	}
	if s.Root == nil || st.L <= 0 || st.W <= 0 || st.L > farthest || st.W > farthest ||
		st.Trim < 0 || st.Trim > farthest || slices.Min(st.Off[:]) < 0 || slices.Max(st.Off[:]) > farthest || v.job.Kerf < 0 || v.job.Kerf > farthest {
		v.broken = true
		v.add(Malformed, "", "root")
		return
	}
	var off [4]measure.Length
	if st.AtShop {
		for e := range off {
			off[e] = max(st.Trim, st.Off[e])
		}
	}
	if l, w := st.L-off[0]-off[1], st.W-off[2]-off[3]; s.Root.L != l || s.Root.W != w {
		v.add(Root, "", s.Root.L, s.Root.W, l, w)
	}
	v.node(s.Root, off[0], off[2], !st.AtShop, rough{}, "0", 0, origin{})
	if lim := v.job.Store.Cuts; lim >= 0 && v.cuts > lim {
		v.add(StoreLimit, "", v.cuts, lim)
	}
	v.store += v.cuts
	for a, p := range v.placed {
		if p.x < 0 || p.y < 0 || p.x+p.l > st.L || p.y+p.w > st.W {
			v.add(Outside, "", p.x, p.y)
		}
		k := v.job.Kerf
		for _, q := range v.placed[:a] {
			if p.x < q.x+q.l+k && q.x < p.x+p.l+k && p.y < q.y+q.w+k && q.y < p.y+p.w+k {
				v.add(Overlap, "", p.x, p.y, q.x, q.y)
			}
		}
	}
}

// origin says who set a node's two dimensions: the store's saw or not yet.
type origin struct{ storeL, storeW bool }

// node checks n, whose corner lies at x, y. store: nothing but the store has
// cut above n.
func (v *proof) node(n *Node, x, y measure.Length, store bool, e rough, path string, depth int, m origin) {
	if n == nil || depth > deepest || n.L <= 0 || n.W <= 0 || n.L > farthest || n.W > farthest {
		v.broken = true
		v.add(Malformed, path, "size or depth")
		return
	}
	if (n.Kind == Cut) != (len(n.Kids) > 0) || (n.Kind == Trim) != (n.Core != nil) {
		v.broken = true
		v.add(Malformed, path, "kind")
		return
	}
	byStore := n.Kind == Cut && n.Tier == StoreTier
	if byStore && !store {
		v.add(Tiers, path)
	}
	if store && !byStore {
		v.leaf(n, e, path)
		if n.Kind == Trim {
			l, w, dx, dy, trims := v.less(n, e)
			v.trims += trims
			if n.Core.L > l || n.Core.W > w {
				v.add(Untrimmed, path, n.Core.L, n.Core.W, l, w)
			}
			v.node(n.Core, x+dx, y+dy, false, rough{}, path+".c", depth+1, origin{})
			return
		}
	} else if n.Kind == Trim {
		v.add(Untrimmed, path, n.Core.L, n.Core.W, n.L, n.W)
		return
	}
	switch n.Kind {
	case Waste:
	case Offcut:
		v.rest += worth(n.L, n.W)
	case Piece:
		v.piece(n, x, y, path, m)
	case Cut:
		v.cut(n, x, y, store, byStore, e, path, depth, m)
	default:
		v.broken = true
		v.add(Malformed, path, "kind")
	}
}

// leaf checks a piece as it leaves the store.
func (v *proof) leaf(n *Node, e rough, path string) {
	if n.Kind == Waste {
		return
	}
	fits := len(v.job.Car) == 0
	for _, c := range v.job.Car {
		fits = fits || n.L <= c.L && n.W <= c.W || n.L <= c.W && n.W <= c.L
	}
	if !fits {
		v.add(Car, path, n.L, n.W)
	}
	if l, w, _, _, trims := v.less(n, e); trims > 0 && n.Kind != Trim && n.Kind != Offcut {
		v.add(Untrimmed, path, n.L, n.W, l, w)
	}
}

// less returns the size of store piece n after its edges are trimmed, where
// the corner of the rest lies, and how many trims that takes.
func (v *proof) less(n *Node, e rough) (l, w, dx, dy measure.Length, trims int) {
	t := func(isRough bool, edge int) measure.Length {
		d := max(v.job.FactoryTrim, v.stock.Off[edge])
		if isRough {
			d = v.job.Store.Trim
		}
		if d > 0 {
			trims++
		}
		return d
	}
	dx, dy = t(e.left, 0), t(e.bottom, 2)
	return n.L - dx - t(e.right, 1), n.W - dy - t(e.top, 3), dx, dy, trims
}

func (v *proof) piece(n *Node, x, y measure.Length, path string, m origin) {
	if n.Part < 0 || n.Part >= len(v.job.Parts) {
		v.broken = true
		v.add(Malformed, path, "part")
		return
	}
	q := v.job.Parts[n.Part]
	v.made[n.Part]++
	l, w := q.L, q.W
	if n.Rot {
		l, w = w, l
	}
	if l != n.L || w != n.W {
		v.add(WrongSize, path, n.L, n.W, l, w)
	}
	if q.Grain != Free && v.stock.Grain != Free && n.Rot != (q.Grain != v.stock.Grain) {
		v.found.Add(issue.Block, AgainstGrain, []string{v.where, q.ID, path})
	}
	if q.Material != v.stock.Material {
		v.found.Add(issue.Block, WrongMaterial, []string{v.where, q.ID, path}, q.Material, v.stock.Material)
	}
	v.placed = append(v.placed, spot{x, y, n.L, n.W, n.Part})
	if q.Match != "" {
		mark := func(size measure.Length, store bool) {
			bit := 1
			if store {
				bit = 2
			}
			v.match[matched{q.Match, size}] |= bit
		}
		mark(n.L, m.storeL)
		mark(n.W, m.storeW)
	}
}

func (v *proof) cut(n *Node, x, y measure.Length, store, byStore bool, e rough, path string, depth int, m origin) {
	if n.Dir != X && n.Dir != Y {
		v.broken = true
		v.add(Malformed, path, "dir")
		return
	}
	kerf := v.job.Kerf
	if byStore {
		kerf = v.job.Store.Kerf
	}
	size := n.L
	if n.Dir == Y {
		size = n.W
	}
	off := byStore && runsOff(n, size, kerf)
	var at measure.Length // where the next kid begins
	for i, kid := range n.Kids {
		if kid == nil || at > farthest {
			v.broken = true
			v.add(Malformed, path, "kid")
			return
		}
		along, span, want := kid.L, kid.W, n.W
		kx, ky, ke := x+at, y, e
		first, last := i == 0, i == len(n.Kids)-1
		km := origin{storeL: byStore, storeW: m.storeW}
		if n.Dir == X {
			ke.left = e.left && first || byStore && !first
			ke.right = e.right && last || byStore && !last || off
		} else {
			along, span, want = kid.W, kid.L, n.L
			kx, ky = x, y+at
			ke.bottom = e.bottom && first || byStore && !first
			ke.top = e.top && last || byStore && !last || off
			km = origin{storeL: m.storeL, storeW: byStore}
		}
		kidPath := fmt.Sprintf("%s.%d", path, i)
		if span != want {
			v.add(Edge, kidPath, span, want)
		}
		if least := v.job.Store.Least; byStore && along < least {
			v.add(Strip, kidPath, along, least)
		}
		was := v.late
		v.late = was || !byStore && v.isLate(kid, n.Dir)
		if !byStore && kid.Kind != Waste && kid.Kind != Offcut {
			o := occasion{along, v.job.Saws != Saws{} && v.late}
			v.distances[o] = append(v.distances[o], v.settable(n, at, along, span))
		}
		v.node(kid, kx, ky, store && byStore, ke, kidPath, depth+1, km)
		v.late = was
		at += along + kerf
	}
	at -= kerf
	passes := len(n.Kids) - 1
	switch rest := size - at; {
	case rest < 0 || rest > kerf:
		v.add(Sum, path, at, size)
	case rest > 0:
		passes++
	}
	if passes == 0 {
		v.add(Uncut, path)
	}
	if byStore {
		v.cuts += passes
	} else {
		v.shop += passes
		v.limbs = append(v.limbs, limb{n.Dir, n.Kids})
	}
}

// runsOff reports whether the last pass over n runs off its edge: then the saw
// has made the last kid's outer edge as well.
func runsOff(n *Node, size, kerf measure.Length) bool {
	for i, kid := range n.Kids {
		if kid == nil || size < 0 {
			return false // told elsewhere
		}
		if i > 0 {
			size -= kerf
		}
		if n.Dir == X {
			size -= kid.L
		} else {
			size -= kid.W
		}
	}
	return size > 0
}

func (v *proof) counts(p Plan) {
	left := make([]int, len(v.job.Parts))
	for _, i := range p.Left {
		if i < 0 || i >= len(left) {
			v.broken = true
			v.add(Malformed, "", "left")
			continue
		}
		left[i]++
	}
	for i, q := range v.job.Parts {
		if v.made[i]+left[i] != max(q.Count, 0) {
			v.found.Add(issue.Block, WrongCount, []string{q.ID}, v.made[i], left[i], q.Count)
		}
	}
	for i, s := range v.job.Stock {
		if s.Count >= 0 && v.used[i] > s.Count {
			v.found.Add(issue.Block, TooMany, []string{s.ID}, v.used[i], s.Count)
		}
	}
}

// chains checks that each chain of which anything was made stands complete
// and in order, or in exactly the reverse order, side by side in one strip.
func (v *proof) chains() {
	var names []string
	for _, q := range v.job.Parts {
		if q.Chain != "" && q.Count > 0 && !slices.Contains(names, q.Chain) {
			names = append(names, q.Chain)
		}
	}
	for _, name := range names {
		var order, reverse []int
		any, whole := false, true
		for i, q := range v.job.Parts {
			if q.Chain == name && q.Count > 0 {
				any, whole = any || v.made[i] > 0, whole && v.made[i] == q.Count
				for range v.made[i] {
					order = append(order, i)
				}
			}
		}
		slices.SortStableFunc(order, func(a, b int) int { return v.job.Parts[a].Link - v.job.Parts[b].Link })
		reverse = slices.Clone(order)
		slices.Reverse(reverse)
		if any && !(whole && (v.hasRun(order) || v.hasRun(reverse))) {
			v.add(BrokenChain, "", name)
		}
	}
}

// hasRun reports whether the parts stand in this order, all turned the same
// way, among the kids of one cut.
func (v *proof) hasRun(order []int) bool {
	for _, b := range v.limbs {
		for from := 0; from+len(order) <= len(b.kids); from++ {
			run := b.kids[from : from+len(order)]
			ok := true
			for i, n := range run {
				ok = ok && n.Kind == Piece && n.Part == order[i] && n.Rot == run[0].Rot
			}
			if ok {
				return true
			}
		}
	}
	return len(order) == 1 // a chain of one holds anywhere
}

func (v *proof) matches() {
	for i, q := range v.job.Parts {
		for k, size := range []measure.Length{q.L, q.W} {
			key := matched{q.Match, size}
			if v.match[key] == 3 && (k == 0 || q.W != q.L) {
				v.found.Add(issue.Block, Unmatched, []string{v.job.Parts[i].ID}, q.Match, size)
				v.match[key] = 0 // once a dimension
			}
		}
	}
}

// figures checks what the plan claims about itself.
func (v *proof) figures(p Plan) {
	if v.broken {
		return
	}
	for _, s := range p.Sheets {
		v.wood(s.Root)
	}
	if over := v.store - v.job.Store.FreeCuts; over > 0 {
		v.cost += v.job.Store.Price * measure.Money(over)
	}
	for _, c := range []struct {
		name      string
		has, want int64
	}{
		{"cost", int64(p.Cost), int64(v.cost)},
		{"bought", int64(p.Bought), int64(v.bought)},
		{"store cuts", int64(p.StoreCuts), int64(v.store)},
		{"shop cuts", int64(p.ShopCuts), int64(v.shop)},
		{"trims", int64(p.Trims), int64(v.trims)},
		{"settings", int64(p.Settings), int64(v.settings())},
		{"rest", p.Rest, v.rest},
		{"reserved", int64(p.Reserved), int64(min(p.Reserved, v.reserved))}, // it may hold more than it says
	} {
		if c.has != c.want {
			v.add(Claim, "", c.name, c.has, c.want)
		}
	}
}

// worth is the value of an offcut as [Plan.Rest] defines it.
func worth(l, w measure.Length) int64 {
	a := math.Floor(float64(l) / float64(measure.MM) * (float64(w) / float64(measure.MM)))
	return int64(a * math.Sqrt(math.Sqrt(a)))
}
