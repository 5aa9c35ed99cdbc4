package main

import (
	"encoding/binary"
)

// tighten rewrites the code of a Go program for wasm. Go's compiler keeps to
// forms that are simple to make and long: every jump within a function sets
// the number of a block and goes through a table at its head, and what lies on
// the stack is addressed by a sum of five instructions where a load or a store
// takes an offset of its own. The rules below say the same with less; none
// changes what is read, written or called, or in which order, and the numbers
// of blocks by which a goroutine resumes stay. Go of another version compiles
// otherwise: a rule that does not find its form does nothing. Measured with
// Go 1.26 on the worker: a tenth off after brotli; a search takes 15 % less CPU
// time, a first plan 10 %.
func tighten(wasm []byte) ([]byte, error) {
	if len(wasm) < 8 || string(wasm[:4]) != "\x00asm" {
		return nil, errWasm
	}
	out := append(make([]byte, 0, len(wasm)), wasm[:8]...)
	for at := 8; at < len(wasm); {
		id := wasm[at]
		n, w := binary.Uvarint(wasm[at+1:])
		at += 1 + w
		if w <= 0 || n > uint64(len(wasm)-at) {
			return nil, errWasm
		}
		s := wasm[at : at+int(n)]
		at += int(n)
		if id == 10 {
			var err error
			if s, err = tightenCode(s); err != nil {
				return nil, err
			}
		}
		out = append(binary.AppendUvarint(append(out, id), uint64(len(s))), s...)
	}
	return out, nil
}

// tightenCode rewrites the functions of a code section.
func tightenCode(s []byte) ([]byte, error) {
	count, w := binary.Uvarint(s)
	if w <= 0 {
		return nil, errWasm
	}
	s = s[w:]
	out := binary.AppendUvarint(make([]byte, 0, len(s)), count)
	for range count {
		n, w := binary.Uvarint(s)
		if w <= 0 || n > uint64(len(s)-w) {
			return nil, errWasm
		}
		b := s[w : w+int(n)]
		s = s[w+int(n):]
		if f, ok := readBody(b); ok {
			if h, ok := readHead(f.code); ok {
				f.code = jumps(f.code, h)
				for found := true; found && ok; h, ok = readHead(f.code) {
					f.code, found = loops(f.code, h)
				}
				f.code = stackOffsets(f.code)
				f.code = returns(f.code)
				f.code = unwinds(f.code)
			}
			b = appendBody(nil, f)
		}
		out = append(binary.AppendUvarint(out, uint64(len(b))), b...)
	}
	if len(s) > 0 {
		return nil, errWasm
	}
	return out, nil
}

// Local variables and the global one with a fixed meaning in Go's code.
const (
	blockVar = 0 // where to resume: the parameter of the function
	stackVar = 1 // the copy of the stack pointer
	stackPtr = 0 // global: the stack pointer
)

// A head is how a function of Go's begins: it copies the stack pointer, opens
// a loop, if it jumps back, and one block for each place it can go on from,
// and jumps to the place that blockVar names.
type head struct {
	loop  int      // depth of the loop, -1 if there is none
	table int      // where the table stands
	nest  int      // depth of the outermost of the blocks of the table
	count int      // how many they are
	to    []uint64 // from numbers to blocks, counted from the innermost; the last is for all others
}

// readHead returns the head of a function; ok is false if it has none, or uses
// blockVar otherwise than Go does: set right before it is read.
func readHead(c []instr) (h head, ok bool) {
	if len(c) < 4 || c[0].op != opGlobalGet || c[0].a != stackPtr || c[1].op != opLocalSet || c[1].a != stackVar {
		return h, false
	}
	h.loop = -1
	i := 2
	for ; i < len(c) && (c[i].op == opBlock || c[i].op == opLoop && h.loop < 0); i++ {
		if c[i].op == opLoop {
			h.loop, h.nest = i-2, i-1
		}
	}
	h.count = i - 2 - h.nest
	if i+1 >= len(c) || !c[i].is(opLocalGet, blockVar) || c[i+1].op != opBrTable {
		return h, false
	}
	h.table, h.to = i+1, c[i+1].more
	for _, k := range h.to {
		if k >= uint64(h.count) {
			return h, false
		}
	}
	for j, in := range c[h.table:] {
		if in.is(opLocalTee, blockVar) || in.is(opLocalGet, blockVar) && !(c[h.table+j-1].op == opI32Const && c[h.table+j-2].is(opLocalSet, blockVar)) {
			return h, false
		}
	}
	return h, true
}

func (in instr) is(op uint16, a uint64) bool { return in.op == op && in.a == a }

// jumps sends a jump forward straight to the end of its block, and takes the
// number out of the branch of a jump back that hangs on a condition: the
// number may be set in any case, since nobody else reads it.
//
//	if; i32.const n; local.set 0; br loop; end  →  br_if block
//	if; i32.const n; local.set 0; br loop; end  →  i32.const n; local.set 0; br_if loop
//	    i32.const n; local.set 0; br loop       →  br block
func jumps(c []instr, h head) []instr {
	if h.loop < 0 {
		return c
	}
	out := c[:0]
	open := 0 // blocks
	// block returns the label of the block for number n, seen from here.
	low := h.nest + h.count // of the blocks of the table those above are closed
	label := func(n uint64) (uint64, bool) {
		depth := h.nest + h.count - 1 - int(h.to[min(n, uint64(len(h.to)-1))])
		return uint64(open - 1 - depth), depth < low
	}
	sets := func(i int) bool {
		return c[i].op == opI32Const && c[i+1].is(opLocalSet, blockVar) && c[i+2].op == opBr
	}
	for i := 0; i < len(c); i++ {
		in := c[i]
		if i > h.table && i+4 < len(c) {
			switch {
			case in.op == opIf && sets(i+1) && c[i+4].op == opEnd && c[i+3].a == uint64(open-h.loop):
				n := c[i+1]
				if l, ahead := label(n.a); ahead {
					out = append(out, instr{op: opBrIf, a: l})
				} else {
					out = append(out, n, c[i+2], instr{op: opBrIf, a: c[i+3].a - 1})
				}
				i += 4
				continue
			case sets(i) && c[i+2].a == uint64(open-1-h.loop):
				if l, ahead := label(in.a); ahead {
					out = append(out, instr{op: opBr, a: l})
					i += 2
					continue
				}
			}
		}
		switch in.op {
		case opBlock, opLoop, opIf:
			open++
		case opEnd:
			open--
			low = min(low, open)
		}
		out = append(out, in)
	}
	return out
}

// stackOffsets gives the offset of a place on the stack to the load or store
// that uses it. The sum cannot leave 32 bits: the place is on the stack.
//
//	local.get 1; i64.extend_i32_u; i64.const n; i64.add; i32.wrap_i64; …; i64.store m
//	→ local.get 1; …; i64.store n+m
//
// Where something else uses it, it is a sum of 32 bits.
func stackOffsets(c []instr) []instr {
	const most = 1 << 20 // a frame is smaller
	out := c[:0]
	for i := 0; i < len(c); i++ {
		out = append(out, c[i])
		if i+4 >= len(c) || !c[i].is(opLocalGet, stackVar) || c[i+1].op != opI64ExtendUI || c[i+2].op != opI64Const ||
			c[i+2].a > most || c[i+3].op != opI64Add || c[i+4].op != opI32WrapI64 {
			continue
		}
		n := c[i+2].a
		i += 4
		if user := consumer(c, i+1); user > 0 && c[user].b <= most {
			c[user].b += n
		} else {
			out = append(out, instr{op: opI32Const, a: n}, instr{op: opI32Add})
		}
	}
	return out
}

// consumer returns the load or store that takes the value on top of the stack
// before c[i] as its address, 0 if there is none before the next jump.
func consumer(c []instr, i int) int {
	for above := 0; i < len(c); i++ {
		takes, leaves, ok := effect(c[i].op)
		switch {
		case !ok:
			return 0
		case takes > above:
			if isLoad(c[i].op) && above == 0 || isStore(c[i].op) && above == 1 {
				return i
			}
			return 0
		}
		above += leaves - takes
	}
	return 0
}

// returns takes a frame and the return address off the stack in one step, and
// leaves out what does nothing.
//
//	local.get 1; i32.const n; i32.add; local.tee 1; global.set 0;
//	local.get 1; i32.const 8; i32.add; local.tee 1; global.set 0; i32.const x; return
//	→ local.get 1; i32.const n+8; i32.add; global.set 0; i32.const x; return
func returns(c []instr) []instr {
	out := c[:0]
	pops := func(i int) bool {
		return c[i].is(opLocalGet, stackVar) && c[i+1].op == opI32Const && c[i+2].op == opI32Add &&
			c[i+3].is(opLocalTee, stackVar) && c[i+4].is(opGlobalSet, stackPtr)
	}
	for i := 0; i < len(c); i++ {
		if i+11 < len(c) && pops(i) && pops(i+5) && c[i+10].op == opI32Const && c[i+11].op == opReturn {
			n := c[i+1]
			n.a += c[i+6].a
			out = append(out, c[i], n, c[i+2], c[i+4])
			i += 9
			continue
		}
		if c[i].op != opNop {
			out = append(out, c[i])
		}
	}
	return out
}

// unwinds lets a function that a call tells to unwind return at once. The
// jump to its end is shorter, but has another distance at each place, and
// what is always the same compresses to less.
//
//	block; …; br_if outermost; …; end; i32.const 1; end
//	→ …; if; i32.const 1; return; end; …; end
func unwinds(c []instr) []instr {
	n := len(c)
	if n < 6 || c[2].op != opBlock || c[n-3].op != opEnd || !c[n-2].is(opI32Const, 1) || c[n-1].op != opEnd {
		return c
	}
	// walk calls f with the number of open blocks before each instruction.
	walk := func(f func(i, open int) bool) bool {
		open := 0
		for i := range c {
			if !f(i, open) {
				return false
			}
			switch c[i].op {
			case opBlock, opLoop, opIf:
				open++
			case opEnd:
				open--
			}
		}
		return true
	}
	outer := func(in instr, open int) bool { return in.a == uint64(open-1) }
	fit := walk(func(i, open int) bool {
		if i > 2 && i < n-3 && open < 1 || i == n-3 && open != 1 {
			return false
		}
		switch c[i].op {
		case opBr:
			return !outer(c[i], open)
		case opBrTable:
			for _, l := range c[i].more {
				if l >= uint64(open-1) {
					return false
				}
			}
		}
		return true
	})
	if !fit || c[n-4].op != 0 { // unreachable: nothing gets to the end otherwise
		return c
	}
	out := make([]instr, 0, n)
	walk(func(i, open int) bool {
		switch {
		case i == 2 || i == n-3 || i == n-2:
		case c[i].op == opBrIf && outer(c[i], open):
			out = append(out, instr{op: opIf, a: 0x40}, instr{op: opI32Const, a: 1}, instr{op: opReturn}, instr{op: opEnd})
		default:
			out = append(out, c[i])
		}
		return true
	})
	return out
}
