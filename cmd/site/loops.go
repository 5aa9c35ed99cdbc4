package main

// A stretch is the code of a function from one place that can be jumped to up
// to the next.
type stretch struct {
	code  []instr
	jumps []jump // in order
	calls bool   // it may stop in it and go on after
	falls bool   // into the next one
}

// A jump to another stretch stands in place of an instruction, or of three.
type jump struct {
	at, long int
	cond     bool
	to       int // a stretch
}

// A ring is a loop of its own: stretches from first to last, the first of which
// it begins with. If next is not -1, that one comes after each round.
type ring struct{ first, last, next int }

// loops gives the loops of a function that call nothing a form of their own:
// a jump back goes to their beginning, not through the table. The browser's
// compiler sees what they change, and keeps the rest in registers. No call
// ends in them, so that no goroutine resumes there. Measured: many equal pieces
// are searched a fifth faster, carts a twentieth; no larger after brotli.
//
//	… end; …; i32.const n; local.set 0; br loop; end …
//	→ … end; loop; block …; br 0; end …
//
// It comes after [jumps].
//
// A loop round others may be found only once those are done: found tells to
// look again.
func loops(c []instr, h head) (out []instr, found bool) {
	if h.loop < 0 {
		return c, false
	}
	all, tail, ok := stretches(c, h)
	if !ok {
		return c, false
	}
	rings := findRings(all)
	if len(rings) == 0 {
		return c, false
	}
	w := &weaver{all: all, h: h, ring: map[int]ring{}, idle: make([]bool, len(all))}
	for _, r := range rings {
		w.ring[r.first] = r
		if r.next >= 0 {
			w.idle[r.next] = !reached(all, r)
		}
	}
	return append(w.function(c), tail...), true
}

// stretches takes a function apart. What follows the last of them is the tail.
func stretches(c []instr, h head) (all []stretch, tail []instr, ok bool) {
	level := h.nest + h.count // blocks open before the first end of the table
	i := h.table + 1
	for n := range h.count {
		if i >= len(c) || c[i].op != opEnd {
			return nil, nil, false
		}
		i++
		level--
		s := stretch{falls: true}
		from, open := i, level
		for ; i < len(c) && (c[i].op != opEnd || open > level); i++ {
			in := c[i]
			s.falls = true
			switch in.op {
			case opBlock, opLoop, opIf:
				open++
			case opEnd:
				open--
			case 0x10, 0x11:
				s.calls = true
			case opBrTable:
				return nil, nil, false
			case 0, opReturn:
				s.falls = open > level
			case opBr, opBrIf:
				to := open - 1 - int(in.a) // the depth of the block that is left
				j := jump{at: i - from, long: 1, cond: in.op == opBrIf}
				switch {
				case to >= level: // within the stretch
					s.falls = true
					continue
				case to == h.loop:
					if i-from < 2 || !c[i-1].is(opLocalSet, blockVar) || c[i-2].op != opI32Const {
						return nil, nil, false
					}
					j.at, j.long = j.at-2, 3
					j.to = int(h.to[min(c[i-2].a, uint64(len(h.to)-1))])
				case to >= h.nest && to < level:
					j.to = h.count - 1 - (to - h.nest)
				default: // out of the function
					s.falls = j.cond || open > level
					continue
				}
				if j.to == n && to != h.loop {
					return nil, nil, false
				}
				s.jumps = append(s.jumps, j)
				s.falls = j.cond || open > level
			}
		}
		s.code = c[from:i]
		all = append(all, s)
	}
	return all, c[i:], true
}

// findRings finds loops without calls that nothing outside jumps into, but to
// their first stretch.
func findRings(all []stretch) (found []ring) {
	try := func(r ring) bool {
		if r.last == len(all)-1 && all[r.last].falls {
			return false
		}
		for i := r.first; i <= r.last; i++ {
			if all[i].calls {
				return false
			}
		}
		for i := range all {
			if i >= r.first && i <= r.last {
				continue
			}
			for _, j := range all[i].jumps {
				if j.to > r.first && j.to <= r.last {
					return false
				}
			}
		}
		for _, o := range found { // they lie one in the other, or apart
			if r.first < o.first && o.first <= r.last && r.last < o.last || o.first < r.first && r.first <= o.last && o.last < r.last || o.first == r.first {
				return false
			}
		}
		return true
	}
	for to := range all {
		for from := len(all) - 1; from >= to; from-- {
			back := false
			for _, j := range all[from].jumps {
				back = back || j.to == to
			}
			if !back {
				continue
			}
			if try(ring{to, from, -1}) {
				found = append(found, ring{to, from, -1})
				break
			}
			// What a loop does after each round stands in front of it.
			if s := &all[to]; from > to && s.falls && !s.calls && len(s.jumps) == 0 && try(ring{to + 1, from, to}) {
				found = append(found, ring{to + 1, from, to})
				break
			}
		}
	}
	return found
}

// reached reports whether anything but ring r gets to what comes after its
// rounds.
func reached(all []stretch, r ring) bool {
	for i := range all {
		if i >= r.first && i <= r.last {
			continue
		}
		for _, j := range all[i].jumps {
			if j.to == r.next {
				return true
			}
		}
	}
	return r.next == 0 || all[r.next-1].falls
}

// A weaver puts a function together again.
type weaver struct {
	all  []stretch
	h    head
	ring map[int]ring // by its first stretch
	idle []bool       // stretches that nothing gets to where they stand
	out  []instr
	open []int // labels: a stretch to which a jump there leads, or one of the below
}

const (
	noLabel  = -1
	dispatch = -2
)

func (w *weaver) emit(in ...instr) { w.out = append(w.out, in...) }

// enter opens a block or a loop; a jump to its label leads to stretch to.
func (w *weaver) enter(op uint16, to int) {
	w.emit(instr{op: op, a: 0x40})
	w.open = append(w.open, to)
}

func (w *weaver) leave() {
	w.emit(instr{op: opEnd})
	w.open = w.open[:len(w.open)-1]
}

// label is the label that leads to what, seen from here; ok is false if none
// does.
func (w *weaver) label(what int) (uint64, bool) {
	for i := len(w.open) - 1; i >= 0; i-- {
		if w.open[i] == what {
			return uint64(len(w.open) - 1 - i), true
		}
	}
	return 0, false
}

// units lists the stretches from first to last that stand by themselves at
// their level.
func (w *weaver) units(first, last int) (all []int) {
	for i := first; i <= last; i++ {
		if w.idle[i] {
			continue
		}
		all = append(all, i)
		if r, ok := w.ring[i]; ok {
			i = r.last
		}
	}
	return all
}

func (w *weaver) function(c []instr) []instr {
	units := w.units(0, len(w.all)-1)
	for i := range w.h.nest {
		w.open = append(w.open, noLabel)
		if i == w.h.loop {
			w.open[i] = dispatch
		}
	}
	w.emit(c[:2+w.h.nest]...)
	for i := len(units) - 1; i >= 0; i-- {
		w.enter(opBlock, units[i])
	}
	at := make([]uint64, len(w.all)) // from stretches to labels; none is asked for those inside
	for i, u := range units {
		at[u] = uint64(i)
	}
	table := c[w.h.table]
	table.more = nil
	for _, n := range w.h.to {
		table.more = append(table.more, at[n])
	}
	w.emit(c[w.h.table-1], table)
	w.sequence(units)
	return w.out
}

// sequence closes the blocks of the units one by one and puts their code after
// each.
func (w *weaver) sequence(units []int) {
	for _, u := range units {
		w.leave()
		w.unit(u)
	}
}

func (w *weaver) unit(u int) {
	r, ok := w.ring[u]
	if !ok {
		w.stretch(u)
		return
	}
	delete(w.ring, u) // within it, it is a stretch
	w.enter(opLoop, r.first)
	if r.next >= 0 {
		w.enter(opBlock, r.next)
	}
	units := w.units(r.first+1, r.last)
	for i := len(units) - 1; i >= 0; i-- {
		w.enter(opBlock, units[i])
	}
	w.stretch(r.first)
	w.sequence(units)
	if w.all[r.last].falls {
		w.jump(jump{to: r.last + 1})
	}
	if r.next >= 0 {
		w.leave()
		w.stretch(r.next)
		w.jump(jump{to: r.first})
	}
	w.leave()
}

// stretch puts the code of stretch i with its jumps as they are from here.
func (w *weaver) stretch(i int) {
	s := &w.all[i]
	depth := len(w.open)
	at := 0
	for k := 0; k <= len(s.jumps); k++ {
		to := len(s.code)
		if k < len(s.jumps) {
			to = s.jumps[k].at
		}
		for ; at < to; at++ {
			in := s.code[at]
			switch in.op {
			case opBlock, opLoop, opIf:
				w.open = append(w.open, noLabel)
			case opEnd:
				w.open = w.open[:len(w.open)-1]
			case opBr, opBrIf:
				if in.a >= uint64(len(w.open)-depth) { // out of the function
					in.a = uint64(len(w.open) - 1)
				}
			}
			w.emit(in)
		}
		if k < len(s.jumps) {
			w.jump(s.jumps[k])
			at += s.jumps[k].long
		}
	}
}

// jump jumps to a stretch, by the table if there is no other way.
func (w *weaver) jump(j jump) {
	op := uint16(opBr)
	if j.cond {
		op = opBrIf
	}
	l, ok := w.label(j.to)
	if !ok {
		n := 0
		for n < len(w.h.to) && w.h.to[n] != uint64(j.to) {
			n++
		}
		w.emit(instr{op: opI32Const, a: uint64(n)}, instr{op: opLocalSet, a: blockVar})
		l, _ = w.label(dispatch)
	}
	w.emit(instr{op: op, a: l})
}
