package main

import (
	"encoding/binary"
)

// An instr is one instruction of a wasm function (WebAssembly Core
// Specification 2.0, 5.4).
type instr struct {
	op   uint16   // the byte; for those of two, 0xfc00 and the second
	a, b uint64   // immediates in the order of the file: index, label, type, constant; alignment and offset
	more []uint64 // labels of br_table, the default last
}

// The instructions that [tighten] knows by name.
const (
	opNop         = 0x01
	opBlock       = 0x02
	opLoop        = 0x03
	opIf          = 0x04
	opEnd         = 0x0b
	opBr          = 0x0c
	opBrIf        = 0x0d
	opBrTable     = 0x0e
	opReturn      = 0x0f
	opLocalGet    = 0x20
	opLocalSet    = 0x21
	opLocalTee    = 0x22
	opGlobalGet   = 0x23
	opGlobalSet   = 0x24
	opI32Const    = 0x41
	opI64Const    = 0x42
	opI32Add      = 0x6a
	opI64Add      = 0x7c
	opI32WrapI64  = 0xa7
	opI64ExtendUI = 0xad
)

// A body is a function: its local variables as they stand in the file, and its
// instructions up to the end of the function.
type body struct {
	locals []byte
	code   []instr
}

// readBody reads a function, and says whether all of it was understood.
func readBody(b []byte) (f body, ok bool) {
	start := b
	u := func() uint64 {
		v, n := binary.Uvarint(b)
		if n <= 0 {
			ok = false
			b = nil
			return 0
		}
		b = b[n:]
		return v
	}
	ok = true
	for n := u(); n > 0 && ok; n-- {
		u() // how many
		u() // of which type
	}
	f.locals = start[:len(start)-len(b)]
	f.code = make([]instr, 0, len(b)/2)
	for len(b) > 0 && ok {
		in := instr{op: uint16(b[0])}
		b = b[1:]
		if in.op == 0xfc {
			in.op = 0xfc00 | uint16(u())
		}
		switch immediates(in.op) {
		case "":
		case "u":
			in.a = u()
		case "uu":
			in.a, in.b = u(), u()
		case "s":
			v, n := signed(b)
			if n == 0 {
				return f, false
			}
			in.a, b = uint64(v), b[n:]
		case "4":
			if len(b) < 4 {
				return f, false
			}
			in.a, b = uint64(binary.LittleEndian.Uint32(b)), b[4:]
		case "8":
			if len(b) < 8 {
				return f, false
			}
			in.a, b = binary.LittleEndian.Uint64(b), b[8:]
		case "t":
			n := u()
			if n > uint64(len(b)) {
				return f, false
			}
			for range n + 1 {
				in.more = append(in.more, u())
			}
		default:
			return f, false
		}
		f.code = append(f.code, in)
	}
	return f, ok
}

// appendBody is the inverse of [readBody].
func appendBody(b []byte, f body) []byte {
	b = append(b, f.locals...)
	for _, in := range f.code {
		if in.op >= 0xfc00 {
			b = append(b, 0xfc)
		}
		b = append(b, byte(in.op))
		switch immediates(in.op) {
		case "u":
			b = binary.AppendUvarint(b, in.a)
		case "uu":
			b = binary.AppendUvarint(binary.AppendUvarint(b, in.a), in.b)
		case "s":
			b = appendSigned(b, int64(in.a))
		case "4":
			b = binary.LittleEndian.AppendUint32(b, uint32(in.a))
		case "8":
			b = binary.LittleEndian.AppendUint64(b, in.a)
		case "t":
			b = binary.AppendUvarint(b, uint64(len(in.more)-1))
			for _, l := range in.more {
				b = binary.AppendUvarint(b, l)
			}
		}
	}
	return b
}

// immediates tells what follows an instruction: unsigned numbers, a signed
// one, four or eight bytes, a table of labels. "?" is one that Go's compiler
// does not use.
func immediates(op uint16) string {
	switch {
	case op >= opBlock && op <= opIf, op == opBr, op == opBrIf, op == 0x10, // call
		op >= opLocalGet && op <= opGlobalSet, op == 0x3f, op == 0x40, // memory.size, .grow
		op == 0xfc0b: // memory.fill
		return "u"
	case op == 0x11, op >= 0x28 && op <= 0x3e, op == 0xfc0a: // call_indirect; loads and stores; memory.copy
		return "uu"
	case op == opI32Const, op == opI64Const:
		return "s"
	case op == 0x43: // f32.const
		return "4"
	case op == 0x44: // f64.const
		return "8"
	case op == opBrTable:
		return "t"
	case op <= opNop, op == 0x05, op == opEnd, op == opReturn, op == 0x1a, op == 0x1b, // unreachable, else, drop, select
		op >= 0x45 && op <= 0xc4, op >= 0xfc00 && op <= 0xfc07: // sums and comparisons
		return ""
	}
	return "?"
}

// effect returns how many values an instruction takes from the stack and
// leaves there; ok is false for those that jump or call.
func effect(op uint16) (takes, leaves int, ok bool) {
	switch {
	case op == opNop:
		return 0, 0, true
	case op == opLocalGet, op == opGlobalGet, op >= opI32Const && op <= 0x44:
		return 0, 1, true
	case op == opLocalSet, op == opGlobalSet, op == 0x1a: // drop
		return 1, 0, true
	case op == 0x1b: // select
		return 3, 1, true
	case isStore(op):
		return 2, 0, true
	case op == opLocalTee, isLoad(op), op == 0x45, op == 0x50, // eqz
		op >= 0x67 && op <= 0x69, op >= 0x79 && op <= 0x7b, // clz, ctz, popcnt
		op >= 0x8b && op <= 0x91, op >= 0x99 && op <= 0x9f, // abs … sqrt
		op >= 0xa7 && op <= 0xc4, op >= 0xfc00 && op <= 0xfc07: // conversions
		return 1, 1, true
	case op >= 0x46 && op <= 0xa6:
		return 2, 1, true
	}
	return 0, 0, false
}

func isLoad(op uint16) bool  { return op >= 0x28 && op <= 0x35 }
func isStore(op uint16) bool { return op >= 0x36 && op <= 0x3e }

// appendSigned is the inverse of [signed].
func appendSigned(b []byte, v int64) []byte {
	for {
		c := byte(v & 0x7f)
		v >>= 7
		if v == 0 && c&0x40 == 0 || v == -1 && c&0x40 != 0 {
			return append(b, c)
		}
		b = append(b, c|0x80)
	}
}
