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
// ones first. Only if there is none does the order cost something: then the
// choices are tried out, branch by branch, as long as one can still be better.
//
// A move is a fence or a stop that is set to another distance. A fence stands
// aside while the sled of its saw is used, or offcuts would jam between it and
// the blade: what is ripped after that is set anew, while a stop stays on its
// sled (common practice, no source). A track is laid to marks at every cut, so
// it has no setting to keep and counts for none; cuts at one mark still stand
// together where parts must match.

// An orderer knows the passes and their classes.
type orderer struct {
	shop    []pass
	kids    [][]int // passes that wait for a pass
	class   []int   // of each pass
	members [][]int // of each class, in the order of the trees
	device  []int   // of each class
	devices int
	aside   []int  // of each device: the fence that stands aside for it, -1 for none
	grouped []bool // the class brings matched parts to size
	track   []bool // the class is laid to marks: it is no move
	early   int    // passes that wait for nothing to be measured
	stakes  bool   // what a mistake would cost goes before the habits of the trade
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
		if !p.Late {
			o.early++
		}
		key := setting{p.use, p.Set, p.Late}
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
			o.track = append(o.track, p.use.guide == Track)
		}
		o.class[i] = c
		o.members[c] = append(o.members[c], i)
		o.grouped[c] = o.grouped[c] || len(p.group) > 0
	}
	o.devices = len(devices)
	o.aside = make([]int, o.devices)
	for use, d := range devices {
		o.aside[d] = -1
		if fence, ok := devices[option{use.saw, Fence}]; ok && use.guide == Stop && use.saw >= 0 {
			o.aside[d] = fence
		}
	}
	return o
}

// turn sets the device of class c to it, and what is in its way aside.
func (o *orderer) turn(set []int, c int) {
	d := o.device[c]
	set[d] = c
	if fence := o.aside[d]; fence >= 0 {
		set[fence] = -1
	}
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
		if !o.track[c] {
			r.moves++
		}
		if r.started[c] && o.grouped[c] {
			r.splits++
		}
		r.started[c] = true
	}
	o.turn(r.set, c)
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
	now, aside := r.set[o.device[c]], -1
	if fence := o.aside[o.device[c]]; fence >= 0 {
		aside = r.set[fence]
	}
	switch {
	case aside >= 0 && r.left[aside] > 0:
		return false
	case now == c:
		return true
	case o.track[c]:
		return !o.grouped[c] || o.closed(r, c)
	}
	return (now < 0 || r.left[now] == 0) && o.closed(r, c)
}

// least is a lower bound of the moves still to come.
func (o *orderer) least(r *run) int {
	n := 0
	for c, left := range r.left {
		if left > 0 && !o.track[c] && r.set[o.device[c]] != c {
			n++
		}
	}
	return n
}

// A rank says which of the classes that could be run comes first: the smaller.
type rank struct {
	stake           int
	phase, otherSaw int
	area            measure.Area // of the largest piece; big ones first
	first           int          // in the order of the trees
}

func (a rank) before(b rank) bool {
	return cmp.Or(cmp.Compare(a.stake, b.stake), cmp.Compare(a.phase, b.phase), cmp.Compare(a.otherSaw, b.otherSaw),
		cmp.Compare(b.area, a.area), cmp.Compare(a.first, b.first)) < 0
}

func (o *orderer) rank(r *run, c int) rank {
	k := rank{stake: stakeLast, phase: 9, first: -1}
	for _, i := range o.members[c] {
		if !r.ready[i] || r.done[i] {
			continue
		}
		p := &o.shop[i]
		k.stake = min(k.stake, p.stake)
		k.phase = min(k.phase, p.phase())
		k.area = max(k.area, p.Piece.L.Times(p.Piece.W))
		if k.first < 0 {
			k.first = i
		}
	}
	if r.last >= 0 && o.device[r.last] != o.device[c] {
		k.otherSaw = 1
	}
	if !o.stakes {
		k.stake = 0
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

// next lists the classes to choose from: one that is free, the best first by
// trade, or else all that could be run, the least costly at first sight first.
func (o *orderer) next(r *run) []int {
	best := -1
	var top rank
	var costly, behind []int
	var ranks []rank
	for c := range o.members {
		if r.open[c] == 0 || len(r.order) < o.early && o.shop[o.members[c][0]].Late {
			continue
		}
		k := o.rank(r, c)
		if o.free(r, c) {
			if best < 0 || k.before(top) {
				best, top = c, k
			}
			continue
		}
		n := r.left[c] - r.open[c] // passes that running it would leave behind
		if now := r.set[o.device[c]]; now >= 0 && !o.track[c] {
			n += r.left[now]
		}
		if fence := o.aside[o.device[c]]; fence >= 0 && r.set[fence] >= 0 {
			n += r.left[r.set[fence]]
		}
		if o.grouped[c] && !o.closed(r, c) {
			n += len(o.shop)
		}
		at := len(costly)
		costly, behind, ranks = append(costly, c), append(behind, n), append(ranks, k)
		for ; at > 0 && (n < behind[at-1] || n == behind[at-1] && k.before(ranks[at-1])); at-- {
			costly[at], behind[at], ranks[at] = costly[at-1], behind[at-1], ranks[at-1]
		}
		costly[at], behind[at], ranks[at] = c, n, k
	}
	if best >= 0 {
		return []int{best}
	}
	return costly
}

// cost of a run: moves, and matched parts on two settings, which weigh more
// than all moves.
func (o *orderer) cost(r *run) int { return r.moves + len(o.shop)*r.splits }

// finish completes r and returns the best completion, or best if none is
// better. Whatever budget is left, the first completion is always made.
func (o *orderer) finish(r, best *run, budget *int) *run {
	for len(r.order) < len(o.shop) {
		all := o.next(r)
		if len(all) == 1 {
			o.make(r, all[0])
			continue
		}
		for _, c := range all {
			if best != nil && *budget <= 0 {
				break
			}
			*budget--
			s := r.copy()
			o.make(s, c)
			if best == nil || o.cost(s)+o.least(s) < o.cost(best) {
				best = o.finish(s, best, budget)
			}
		}
		return best
	}
	if best == nil || o.cost(r) < o.cost(best) {
		return r
	}
	return best
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
		if !o.track[c] && set[o.device[c]] != c {
			n++
		}
		o.turn(set, c)
	}
	return n
}

// tries is how many choices are tried out for one order: 2 ms for a cart.
const tries = 400

// best returns an order with few moves.
func (o *orderer) best() *run {
	budget := tries
	return o.finish(o.start(), nil, &budget)
}

// plainMoves counts the moves of whoever works through the trees, sheet by
// sheet, and takes each cut to the saw that suits it best by itself. What is
// measured late waits for that here too: it is gone through a second time.
func plainMoves(shop []pass) int {
	alone := make([]pass, len(shop))
	var order, late []int
	for i, p := range shop {
		if p.Late {
			late = append(late, i)
		} else {
			order = append(order, i)
		}
		alone[i] = p
		if len(p.opts) > 0 {
			alone[i].use = p.opts[0]
		}
	}
	return newOrderer(alone).moves(append(order, late...))
}
