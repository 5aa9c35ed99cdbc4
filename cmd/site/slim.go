package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"maps"
	"slices"
)

// slim blanks what a Go program for wasm carries only for the stack traces of
// a crash: the tables that lead from a place in the code to file and line, to
// what was inlined, to arguments; the names of files and functions; and where
// a signal may stop it, which wasm does not have. What the runtime needs to
// unwind and to collect garbage stays. Layout: runtime.pcHeader, runtime._func
// and runtime.moduledata of Go 1.26; a program that looks otherwise is refused,
// and the caller takes it as it is. Measured: 12 % of the worker after brotli.
// A crash still tells its text, not its lines: build the program with go build
// to see them.
//
// Go's linker leaves every eight zeros in a row out of the memory and starts
// another segment after them, 76000 in the worker. slim puts them together
// again: zeros compress to nothing, and what is left keeps the distances that
// the compressor finds again. Measured: 8 % more.
func slim(wasm []byte) ([]byte, error) {
	from, to, segs, err := dataSegments(wasm)
	if err != nil {
		return nil, err
	}
	size := 0
	for _, s := range segs {
		size = max(size, s.at+len(s.bytes))
	}
	if size > 1<<26 {
		return nil, errWasm
	}
	mem := make([]byte, size)
	for _, s := range segs {
		copy(mem[s.at:], s.bytes)
	}
	if err := blank(mem); err != nil {
		return nil, err
	}
	data := appendData(nil, mem)
	out := append(make([]byte, 0, len(wasm)), wasm[:from]...)
	out = append(out, data...)
	return append(out, wasm[to:]...), nil
}

// appendData writes a section of data that fills memory with mem, in as few
// segments as leave out zeros by the page.
func appendData(b, mem []byte) []byte {
	const page = 1 << 16 // of wasm
	var segs []segment
	for at := 0; at < len(mem); at += page {
		p := mem[at:min(at+page, len(mem))]
		switch n := len(segs); {
		case len(bytes.Trim(p, "\x00")) == 0:
		case n > 0 && segs[n-1].at+len(segs[n-1].bytes) == at:
			segs[n-1].bytes = mem[segs[n-1].at : at+len(p)]
		default:
			segs = append(segs, segment{at, p})
		}
	}
	s := binary.AppendUvarint(nil, uint64(len(segs)))
	for _, g := range segs {
		s = append(appendSigned(append(s, 0, opI32Const), int64(g.at)), opEnd)
		s = append(binary.AppendUvarint(s, uint64(len(g.bytes))), g.bytes...)
	}
	return append(binary.AppendUvarint(append(b, 11), uint64(len(s))), s...)
}

// A segment is a stretch of memory that a wasm program starts with.
type segment struct {
	at    int
	bytes []byte
}

var errWasm = errors.New("not a wasm program of the expected form")

// dataSegments lists the data of a wasm program (WebAssembly Core
// Specification 2.0, 5.5.14), active segments with a constant offset, and where
// their section stands.
func dataSegments(b []byte) (from, to int, segs []segment, err error) {
	if len(b) < 8 || string(b[:4]) != "\x00asm" {
		return 0, 0, nil, errWasm
	}
	for at := 8; at < len(b); {
		id, from := b[at], at
		n, w := binary.Uvarint(b[at+1:])
		at += 1 + w
		if w <= 0 || n > uint64(len(b)-at) {
			return 0, 0, nil, errWasm
		}
		if id != 11 {
			at += int(n)
			continue
		}
		d := b[at : at+int(n)]
		count, w := binary.Uvarint(d)
		d = d[max(w, 0):]
		for range count {
			if len(d) < 3 || d[0] != 0 || d[1] != opI32Const { // active, memory 0
				return 0, 0, nil, errWasm
			}
			d = d[2:]
			off, w := signed(d)
			if w == 0 || off < 0 || len(d) < w+2 || d[w] != opEnd {
				return 0, 0, nil, errWasm
			}
			d = d[w+1:]
			n, m := binary.Uvarint(d)
			if m <= 0 || n > uint64(len(d)-m) {
				return 0, 0, nil, errWasm
			}
			segs = append(segs, segment{off, d[m : m+int(n)]})
			d = d[m+int(n):]
		}
		return from, at + int(n), segs, nil
	}
	return 0, 0, nil, errWasm
}

// signed reads a signed LEB128 number and its length, 0 if there is none.
func signed(b []byte) (v, n int) {
	for shift := 0; n < len(b) && shift < 70; shift += 7 {
		c := b[n]
		n++
		v |= int(c&0x7f) << shift
		if c&0x80 == 0 {
			if c&0x40 != 0 && shift+7 < 64 {
				v |= -1 << (shift + 7)
			}
			return v, n
		}
	}
	return 0, 0
}

// Tables of internal/abi (Go 1.26) that only stack traces read, or signals,
// which wasm does not have.
const (
	unsafePoint  = 0
	inlTreeIndex = 2
	argLiveIndex = 3

	inlTree     = 3
	argInfo     = 5
	argLiveInfo = 6
)

// blank clears those tables in the memory of a program.
func blank(mem []byte) error {
	head := bytes.Index(mem, []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}) // pcHeader: magic, quantum 1, pointers of 8 bytes
	if head < 0 || head+72 > len(mem) {
		return errors.New("no table of functions found")
	}
	word := func(i int) int { return int(binary.LittleEndian.Uint64(mem[head+8*i:])) }
	nfunc := word(1)
	names, units, files, pcs, funcs := head+word(4), head+word(5), head+word(6), head+word(7), head+word(8)
	if !(head < names && names < units && units < files && files < pcs && pcs < funcs && funcs+8*nfunc < len(mem) && nfunc > 0) {
		return errors.New("the table of functions is not laid out as expected")
	}
	u32 := func(at int) int { return int(binary.LittleEndian.Uint32(mem[at:])) }
	zero := func(from, to int) { clear(mem[from:to]) }

	// The tables of stack depths and of pointer maps stay.
	keep := make([]bool, funcs-pcs)
	use := func(off int) {
		if off == 0 {
			return
		}
		at := pcs + off
		for first := true; at < funcs && (first || mem[at] != 0); first = false {
			for range 2 { // two numbers a row
				for ; mem[at]&0x80 != 0; at++ {
					keep[at-pcs] = true
				}
				keep[at-pcs] = true
				at++
			}
		}
		keep[at-pcs] = true
	}
	blobs := map[int]bool{} // data of functions, by offset: whether it stays
	var spare []int         // names that stay
	const none = 0xffffffff
	for i := range nfunc {
		f := funcs + u32(funcs+8*i+4)
		if f+44 > len(mem) {
			return errors.New("a function lies outside its table")
		}
		use(u32(f + 16))
		npcdata := u32(f + 28)
		for k := range npcdata {
			at := f + 44 + 4*k
			if k == unsafePoint || k == inlTreeIndex || k == argLiveIndex {
				zero(at, at+4) // no table
				continue
			}
			use(u32(at))
		}
		for k := range int(mem[f+43]) {
			at := f + 44 + 4*npcdata + 4*k
			drop := k == inlTree || k == argInfo || k == argLiveInfo
			if off := u32(at); off != none {
				blobs[off] = blobs[off] || !drop
			}
			if drop {
				copy(mem[at:at+4], "\xff\xff\xff\xff")
			}
		}
		// The collector knows two functions by their names.
		name := names + u32(f+4)
		if bytes.HasPrefix(mem[name:], []byte("reflect.makeFuncStub\x00")) || bytes.HasPrefix(mem[name:], []byte("reflect.methodValueCall\x00")) {
			spare = append(spare, name)
		} else {
			zero(f+4, f+8)
		}
		zero(f+20, f+28) // file, line
		zero(f+32, f+40) // compilation unit, first line
		zero(f+4, f+8)   // name
	}
	for i, k := range keep {
		if !k {
			mem[pcs+i] = 0
		}
	}
	last := names + 1
	slices.Sort(spare)
	for _, at := range spare {
		zero(last, at)
		last = at + bytes.IndexByte(mem[at:], 0) + 1
	}
	zero(last, pcs)

	// runtime.firstmoduledata begins with a pointer to the table, then the
	// names; 320 bytes on it says where the functions' data lie.
	var first [16]byte
	binary.LittleEndian.PutUint64(first[:], uint64(head))
	binary.LittleEndian.PutUint64(first[8:], uint64(names))
	module := bytes.Index(mem, first[:])
	if module < 0 || module+328 > len(mem) {
		return errors.New("no module data found")
	}
	data := int(binary.LittleEndian.Uint64(mem[module+320:]))
	offs := slices.Sorted(maps.Keys(blobs))
	for i, off := range offs[:max(len(offs)-1, 0)] {
		if from, to := data+off, data+offs[i+1]; !blobs[off] && to <= len(mem) {
			zero(from, to)
		}
	}
	return nil
}
