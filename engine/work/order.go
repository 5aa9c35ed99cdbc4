package work

import (
	"cmp"

	"cartwright/engine/measure"
)

// The order of the saw. Every pass waits for the one that frees its piece, and
// for nothing else, so what must come before what is a forest. A class is the
// passes of one setting: one saw, one fence or stop, one distance. The fence is
// moved at least once per class. A class of which every pass still to be made
// is ready costs that one move and no more, so it may always be run at once;
// among those the trade decides: break down, then rip, then crosscut, the big
// ones first. Only if there is none does the order cost something, and the
// choice is tried out to the end.

// An orderer knows the passes and their classes.
type orderer struct {
	shop    []pass
	kids    [][]int // passes that wait for a pass
	class   []int   // of each pass
	members [][]int // of each class, in the order of the trees
	device  []int   // of each class
	devices int
	grouped []bool // the class brings matched parts to size
}

// A run is the state of the shop while an order is made.
type run struct {
	done    []bool
	ready   []bool
	left    []int // passes to be made, of each class
	open    []int // of those, how many are ready
	set     []int // class each device is set to, -1 for none
	last    int   // class that was run last
	moves   int
	splits  int // how often matched parts were left for a second setting
	started []bool
	order   []int
}

func newOrderer(shop []pass) *orderer {
	o := &orderer{shop: shop, kids: make([][]int, len(shop)), class: make([]int, len(shop))}
	classes, devices := map[setting]int{}, map[option]int{}
	for i := range shop {
		p := &shop[i]
		if p.prev >= 0 {
			o.kids[p.prev] = append(o.kids[p.prev], i)
		}
		key := setting{p.use, p.Set}
		c, ok := classes[key]
		if !ok {
			c = len(o.members)
			classes[key] = c
			d, ok := devices[p.use]
			if !ok {
				d = len(devices)
				devices[p.use] = d
			}
			o.members, o.device, o.grouped = append(o.members, nil), append(o.device, d), append(o.grouped, false)
		}
		o.class[i] = c
		o.members[c] = append(o.members[c], i)
		o.grouped[c] = o.grouped[c] || len(p.group) > 0
	}
	o.devices = len(devices)
	return o
}

// start is the state before the first pass.
func (o *orderer) start() *run {
	n, c := len(o.shop), len(o.members)
	r := &run{done: make([]bool, n), ready: make([]bool, n), left: make([]int, c), open: make([]int, c),
		set: make([]int, o.devices), last: -1, started: make([]bool, c), order: make([]int, 0, n)}
	for d := range r.set {
		r.set[d] = -1
	}
	for i := range o.shop {
		r.left[o.class[i]]++
		if o.shop[i].prev < 0 {
			r.ready[i] = true
			r.open[o.class[i]]++
		}
	}
	return r
}

func (r *run) copy() *run {
	s := *r
	s.done, s.ready = append([]bool(nil), r.done...), append([]bool(nil), r.ready...)
	s.left, s.open = append([]int(nil), r.left...), append([]int(nil), r.open...)
	s.set, s.started = append([]int(nil), r.set...), append([]bool(nil), r.started...)
	s.order = append(make([]int, 0, cap(r.order)), r.order...)
	return &s
}

// make runs every pass of class c that is ready, or becomes so meanwhile.
func (o *orderer) make(r *run, c int) {
	d := o.device[c]
	if r.set[d] != c {
		r.moves++
		if r.started[c] && o.grouped[c] {
			r.splits++
		}
		r.set[d], r.started[c] = c, true
	}
	r.last = c
	for r.open[c] > 0 {
		for _, i := range o.members[c] {
			if !r.ready[i] || r.done[i] {
				continue
			}
			r.done[i] = true
			r.order = append(r.order, i)
			r.left[c]--
			r.open[c]--
			for _, k := range o.kids[i] {
				r.ready[k] = true
				r.open[o.class[k]]++
			}
		}
	}
}

// closed reports whether running c now would leave passes of c for a second
// setting: passes that hang on a cut of another setting.
func (o *orderer) closed(r *run, c int) bool {
	if r.open[c] == r.left[c] {
		return true
	}
	n := 0
	for _, i := range o.members[c] {
		if r.done[i] {
			continue
		}
		for j := i; ; j = o.shop[j].prev {
			if j < 0 || r.done[j] {
				n++
				break
			}
			if o.class[j] != c {
				break
			}
		}
	}
	return n == r.left[c]
}

// free reports whether running c costs no move that could be saved.
func (o *orderer) free(r *run, c int) bool {
	now := r.set[o.device[c]]
	if now == c {
		return true
	}
	return (now < 0 || r.left[now] == 0) && o.closed(r, c)
}

// A rank says which of the classes that could be run comes first: the smaller.
type rank struct {
	phase, otherSaw int
	area            measure.Area // of the largest piece; big ones first
	first           int          // in the order of the trees
}

func (a rank) before(b rank) bool {
	return cmp.Or(cmp.Compare(a.phase, b.phase), cmp.Compare(a.otherSaw, b.otherSaw),
		cmp.Compare(b.area, a.area), cmp.Compare(a.first, b.first)) < 0
}

func (o *orderer) rank(r *run, c int) rank {
	k := rank{phase: 9, first: -1}
	for _, i := range o.members[c] {
		if !r.ready[i] || r.done[i] {
			continue
		}
		p := &o.shop[i]
		k.phase = min(k.phase, p.phase())
		k.area = max(k.area, p.Piece.L.Times(p.Piece.W))
		if k.first < 0 {
			k.first = i
		}
	}
	if r.last >= 0 && o.device[r.last] != o.device[c] {
		k.otherSaw = 1
	}
	return k
}

// phase is 0 for breaking down, 1 for ripping and first edges, 2 for
// crosscutting.
func (p *pass) phase() int {
	switch {
	case p.big || p.RideIs == RoughEdge:
		return 0
	case p.rip || p.Verb == TrimOff:
		return 1
	}
	return 2
}

// next chooses the class to run. deep tries costly choices out to the end.
func (o *orderer) next(r *run, deep bool) int {
	best := -1
	var top rank
	var costly []int
	for c := range o.members {
		if r.open[c] == 0 {
			continue
		}
		if !o.free(r, c) {
			costly = append(costly, c)
			continue
		}
		if k := o.rank(r, c); best < 0 || k.before(top) {
			best, top = c, k
		}
	}
	if best >= 0 {
		return best
	}
	const tries = 16 // choices tried out; a plan for a cart seldom has more
	worst := 0       // passes that running the best would leave behind
	for _, c := range costly {
		n := r.left[c] - r.open[c]
		if now := r.set[o.device[c]]; now >= 0 {
			n += r.left[now]
		}
		if o.grouped[c] && !o.closed(r, c) {
			n += len(o.shop)
		}
		if k := o.rank(r, c); best < 0 || n < worst || n == worst && k.before(top) {
			best, worst, top = c, n, k
		}
	}
	if !deep || len(costly) == 1 {
		return best
	}
	cost := func(c int) int {
		s := r.copy()
		o.make(s, c)
		o.finish(s, false)
		return s.moves + len(o.shop)*s.splits
	}
	least := cost(best)
	for n, c := range costly {
		if n == tries {
			break
		}
		if k := cost(c); k < least {
			best, least = c, k
		}
	}
	return best
}

// finish runs what is left.
func (o *orderer) finish(r *run, deep bool) {
	for len(r.order) < len(o.shop) {
		o.make(r, o.next(r, deep))
	}
}

// moves counts how often a fence or stop is moved in an order.
func (o *orderer) moves(order []int) int {
	set := make([]int, o.devices)
	for d := range set {
		set[d] = -1
	}
	n := 0
	for _, i := range order {
		c := o.class[i]
		if set[o.device[c]] != c {
			set[o.device[c]] = c
			n++
		}
	}
	return n
}

// best returns an order with few moves, its moves, and those of the order of
// the trees.
func (o *orderer) best() (order []int, moves, naive int) {
	plain := make([]int, len(o.shop))
	for i := range plain {
		plain[i] = i
	}
	naive = o.moves(plain)
	r := o.start()
	o.finish(r, true)
	if r.moves > naive { // never seen; the order of the trees is always there
		return plain, naive, naive
	}
	return r.order, r.moves, naive
}
