package main

import (
	"bytes"
	"context"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"cartwright/cmd/chromium"

	"github.com/chromedp/chromedp"
)

// How the tests write code: one instruction a comma, its numbers after it.
var opNames = map[string]uint16{
	"unreachable": 0, "nop": opNop, "block": opBlock, "loop": opLoop, "if": opIf, "end": opEnd, "br": opBr, "br_if": opBrIf,
	"br_table": opBrTable, "return": opReturn, "call": 0x10, "get": opLocalGet, "set": opLocalSet, "tee": opLocalTee,
	"gget": opGlobalGet, "gset": opGlobalSet, "load": 0x29, "store": 0x37, "i32": opI32Const, "i64": opI64Const, "eqz": 0x45,
	"add32": opI32Add, "add64": opI64Add, "wrap": opI32WrapI64, "extend": opI64ExtendUI, "copy": 0xfc0a,
}

func assembleCode(t *testing.T, text string) []instr {
	t.Helper()
	var c []instr
	for line := range strings.SplitSeq(text, ",") {
		w := strings.Fields(line)
		op, ok := opNames[w[0]]
		if !ok {
			t.Fatalf("no instruction %q", w[0])
		}
		in := instr{op: op}
		var n []uint64
		for _, s := range w[1:] {
			v, err := strconv.ParseInt(s, 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			n = append(n, uint64(v))
		}
		switch immediates(op) {
		case "t":
			in.more = n
		case "uu":
			in.a, in.b = n[0], n[1]
		case "u", "s":
			in.a = 0x40 // the type of a block
			if len(n) > 0 {
				in.a = n[0]
			}
		}
		c = append(c, in)
	}
	return c
}

func codeText(c []instr) string {
	var out []string
	for _, in := range c {
		s := fmt.Sprintf("op %#x", in.op)
		for name, op := range opNames {
			if op == in.op {
				s = name
			}
		}
		switch immediates(in.op) {
		case "t":
			s += " " + strings.Trim(fmt.Sprint(in.more), "[]")
		case "uu":
			s += fmt.Sprint(" ", in.a, " ", in.b)
		case "u", "s":
			if in.op != opBlock && in.op != opLoop && in.op != opIf {
				s += fmt.Sprint(" ", int64(in.a))
			}
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// A function with a way back, two places to go on from, and a call: block 0
// begins at the first end, block 1 at the second, block 2 at the third.
const (
	testHead = "gget 0, set 1, block, loop, block, block, block, get 0, br_table 0 1 2, end, "
	testTail = ", unreachable, end, i32 1, end"
)

var tightenTests = []struct{ name, in, out string }{
	{"ahead on a condition",
		testHead + "get 2, if, i32 2, set 0, br 3, end, nop, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, get 2, br_if 1, end, end, i32 0, return, end, unreachable, end"},
	{"ahead in any case",
		testHead + "i32 1, set 0, br 2, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, br 0, end, end, i32 0, return, end, unreachable, end"},
	{"back on a condition",
		testHead + "end, call 7, get 2, if, i32 1, set 0, br 2, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, end, call 7, get 2, i32 1, set 0, br_if 1, end, i32 0, return, end, unreachable, end"},
	{"back in any case",
		testHead + "end, end, call 7, i32 1, set 0, br 0, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, end, end, call 7, i32 1, set 0, br 0, end, unreachable, end"},
	{"a call that unwinds",
		testHead + "call 7, gget 0, set 1, br_if 3, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, call 7, gget 0, set 1, if, i32 1, return, end, end, end, i32 0, return, end, unreachable, end"},
	{"somebody else reads the number",
		testHead + "get 2, if, i32 2, set 0, br 3, end, get 0, set 3, end, end, i32 0, return, end" + testTail,
		testHead + "get 2, if, i32 2, set 0, br 3, end, get 0, set 3, end, end, i32 0, return, end" + testTail},
	{"a loop of its own",
		testHead + "end, get 2, if, i32 1, set 0, br 2, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, end, loop, get 2, br_if 0, br 1, end, end, i32 0, return, end, unreachable, end"},
	{"a loop of two places",
		testHead + "end, get 2, br_if 0, i32 4, set 5, end, get 3, if, i32 1, set 0, br 1, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, get 0, br_table 0 1 0, end, end, loop, block, get 2, br_if 0, i32 4, set 5, end, get 3, br_if 0, i32 0, return, end, end, unreachable, end"},
	{"a loop whose rounds end before its beginning",
		testHead + "get 3, br 1, end, i32 4, set 5, end, get 4, if, i32 1, set 0, br 1, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, get 0, br_table 0 0 1, end, get 3, br 0, end, loop, block, get 4, br_if 0, i32 0, return, end, i32 4, set 5, br 0, end, end, unreachable, end"},
	{"a loop that is entered in its middle",
		testHead + "get 3, br_if 1, end, get 2, br_if 0, end, get 4, if, i32 1, set 0, br 1, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, get 3, br_if 1, end, get 2, br_if 0, end, get 4, i32 1, set 0, br_if 0, i32 0, return, end, unreachable, end"},
	{"a place on the stack is stored to and read",
		testHead + "get 1, extend, i64 24, add64, wrap, get 1, extend, i64 32, add64, wrap, load 3 8, store 3 16, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, get 1, get 1, load 3 40, store 3 40, end, end, i32 0, return, end, unreachable, end"},
	{"a place on the stack is copied",
		testHead + "get 1, extend, i64 24, add64, wrap, i32 0, i32 8, copy 0 0, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, get 1, i32 24, add32, i32 0, i32 8, copy 0 0, end, end, i32 0, return, end, unreachable, end"},
	{"a place below the stack pointer stays",
		testHead + "get 1, extend, i64 -8, add64, wrap, load 3 0, set 2, end, end, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, get 1, extend, i64 -8, add64, wrap, load 3 0, set 2, end, end, i32 0, return, end, unreachable, end"},
	{"a frame and the return address",
		testHead + "end, end, get 1, i32 40, add32, tee 1, gset 0, get 1, i32 8, add32, tee 1, gset 0, i32 0, return, end" + testTail,
		"gget 0, set 1, loop, block, block, block, get 0, br_table 0 1 2, end, end, end, get 1, i32 48, add32, gset 0, i32 0, return, end, unreachable, end"},
	{"of another form",
		"get 1, extend, i64 24, add64, wrap, load 3 0, end",
		"get 1, extend, i64 24, add64, wrap, load 3 0, end"},
}

func TestTighten(t *testing.T) {
	for _, tt := range tightenTests {
		b := appendBody(nil, body{locals: []byte{0}, code: assembleCode(t, tt.in)})
		s := append(binary.AppendUvarint([]byte{1}, uint64(len(b))), b...)
		s, err := tightenCode(s)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		f, ok := readBody(s[2:])
		if got := codeText(f.code); !ok || got != tt.out {
			t.Errorf("%s: read %t\n got %s\nwant %s", tt.name, ok, got, tt.out)
		}
	}
}

// hardProgram does what is hard to a program whose jumps and stack are
// rewritten: its stack grows and moves in deep calls, goroutines stop in the
// middle of functions and go on, panics unwind, and the collector reads the
// stack all the while.
const hardProgram = `package main

import "errors"

type node struct {
	left, right *node
	pad         [5]int64
	name        string
}

func tree(depth int) *node {
	if depth == 0 {
		return nil
	}
	return &node{tree(depth - 1), tree(depth - 1), [5]int64{int64(depth), -1 << 63, 1<<63 - 1}, string(rune('a' + depth))}
}

func (n *node) sum() (s int64) {
	if n == nil {
		return 1
	}
	pad := n.pad
	return n.left.sum()*3 + n.right.sum()*5 + pad[0] + pad[1]>>60 + pad[2]>>61 + int64(len(n.name))
}

func deep(n int, big [40]int) int {
	if n == 0 {
		return big[3]
	}
	big[n%40] += n
	defer func() { big[0]++ }()
	return deep(n-1, big) + big[n%40]
}

func recovers(f func()) (text string) {
	defer func() {
		switch r := recover().(type) {
		case nil:
			text = "went well"
		case error:
			text = r.Error()
		default:
			text, _ = r.(string)
		}
	}()
	f()
	return "after"
}

func primes(limit int) int {
	c := make(chan int)
	go func(first chan int) {
		for i := 2; ; i++ {
			first <- i
		}
	}(c)
	for n := 0; ; n++ {
		p := <-c
		if p > limit {
			return n
		}
		next := make(chan int)
		go func(in, out chan int) {
			for v := range in {
				if v%p != 0 {
					out <- v
				}
			}
		}(c, next)
		c = next
	}
}

func loops() (n int) {
outer:
	for i := range 50 {
		for j := 0; ; j++ {
			switch {
			case j > i:
				continue outer
			case i*j%7 == 3:
				n++
			case i+j == 90:
				break outer
			}
			n += j & 3
		}
	}
	return n
}

func sorts() (sum int) {
	var a [200]int
	for i := range a {
		a[i] = (i*7919 + 13) % 211
	}
	for i := 1; i < len(a); i++ {
		v := a[i]
		j := i
		for ; j > 0 && a[j-1] > v; j-- {
			a[j] = a[j-1]
		}
		a[j] = v
	}
	for i, v := range a {
		for v != 0 && i%3 != 0 {
			if v&1 == 0 {
				v >>= 1
				continue
			}
			v--
			sum += i
			if sum%1000 == 999 {
				break
			}
		}
		sum += v
	}
	return sum
}

func choose() (a, b int) {
	x, y, done := make(chan int), make(chan int, 3), make(chan bool)
	go func() {
		for i := range 100 {
			x <- i
			y <- i * i
		}
		close(done)
	}()
	for {
		select {
		case v := <-x:
			a += v
		case v := <-y:
			b += v
		case <-done:
			for len(y) > 0 {
				b += <-y
			}
			return a, b
		}
	}
}

func main() {
	var none *node
	var list []int
	var any any = "text"
	println(tree(14).sum())
	println(deep(5000, [40]int{3: 7}))
	println(recovers(func() { println(list[deep(3, [40]int{})]) }))
	println(recovers(func() { println(none.name) }))
	println(recovers(func() { println(any.(int)) }))
	println(recovers(func() { panic("said") }))
	println(recovers(func() { panic(errors.New("an error")) }))
	println(recovers(func() { deep(300, [40]int{}) }))
	println(primes(300))
	println(loops())
	println(sorts())
	println(choose())
	words := map[string][]int{}
	for i := range 20000 {
		k := string(rune('a'+i%26)) + string(rune('a'+i/26%26))
		words[k] = append(words[k], i)
	}
	n := 0
	for _, w := range words {
		n += len(w) * w[len(w)-1]
	}
	println(len(words), n)
	f := 1.0
	for i := range 30 {
		f = f*1.5 + float64(int64(f))/3 + float64(uint64(i))
	}
	println(int64(f))
	panic("the end")
}
`

// hardOutput is what the program prints in a Go that compiles for the machine.
const hardOutput = `
2602925486162
1048368757
runtime error: index out of range [9] with length 0
runtime error: invalid memory address or nil pointer dereference
interface conversion: interface {} is string, not int
said
an error
went well
62
1689
59628
4950 328350
676 393285440
183148884
panic: the end
`

// TestTightenedRuns runs a program in the browser as Go compiles it, and with
// the runtime edited, without tables and tightened.
func TestTightenedRuns(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module hard\n\ngo 1.26\n", "main.go": hardProgram} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, plain := range []bool{true, false} { // inlining makes other forms
		build := func(more ...string) []byte {
			args := append([]string{"build", "-trimpath", "-ldflags=-s -w", "-o", "hard.wasm"}, more...)
			if plain {
				args = append(args, "-gcflags=all=-l")
			}
			c := exec.Command("go", append(args, ".")...)
			c.Dir, c.Env = dir, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWORK=off")
			if out, err := c.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			b, err := os.ReadFile(filepath.Join(dir, "hard.wasm"))
			if err != nil {
				t.Fatal(err)
			}
			return b
		}
		loose := build()
		over, err := overlay(t.TempDir(), nil)
		if err != nil {
			t.Fatal(err)
		}
		idle := build("-overlay=" + over)
		if !plain && len(idle) > len(loose)-50_000 {
			t.Errorf("%d bytes with the runtime edited, %d before", len(idle), len(loose))
		}
		thin, err := slim(idle)
		if err != nil {
			t.Fatal(err)
		}
		tight, err := tighten(thin)
		if err != nil {
			t.Fatal(err)
		}
		want := strings.TrimPrefix(hardOutput, "\n")
		for name, program := range map[string][]byte{"as compiled": loose, "tightened": tight} {
			if got := runInBrowser(t, program); !strings.HasPrefix(got, want) {
				t.Errorf("%s, inlined %t: it says\n%s\nwant\n%s", name, !plain, got, want)
			}
		}
		z := compressor{dir: dir, quality: 5}
		before, err := z.brotli(thin)
		if err != nil {
			t.Fatal(err)
		}
		after, err := z.brotli(tight)
		if err != nil {
			t.Fatal(err)
		}
		if len(after) > len(before)*95/100 {
			t.Errorf("%d bytes compressed, %d before", len(after), len(before))
		}
		if again, err := tighten(tight); err != nil || !bytes.Equal(again, tight) {
			t.Errorf("tightened twice: %v, %d bytes, %d the first time", err, len(again), len(tight))
		}

		// What is cut off anywhere is refused or left sound, never a panic.
		for n := 0; n < len(loose); n += 1 + len(loose)/97 {
			if got, err := tighten(loose[:n]); err == nil && len(got) > n+64 {
				t.Errorf("%d of %d bytes were taken, %d came back", n, len(loose), len(got))
			}
		}
	}
}

// TestBodies reads every function of a program and writes it again.
func TestBodies(t *testing.T) {
	f := body{locals: []byte{1, 2, 0x7e}, code: []instr{{op: opI64Const, a: 1 << 63}, {op: opI64Const, a: 1<<63 - 1}, {op: opI64Const, a: 63}, {op: opI64Const, a: 64},
		{op: 0x43, a: 0x3f800000}, {op: 0x44, a: 0x3ff0000000000000}, {op: opBrTable, more: []uint64{0, 300, 2}}, {op: 0xfc0a}, {op: 0xfc0b}, {op: 0xfc07}, {op: 0x11, a: 3}, {op: 0x29, a: 3, b: 5000}, {op: opEnd}}}
	b := appendBody(nil, f)
	got, ok := readBody(b)
	if !ok || !bytes.Equal(got.locals, f.locals) || !slices.EqualFunc(got.code, f.code, func(a, b instr) bool {
		return a.op == b.op && a.a == b.a && a.b == b.b && slices.Equal(a.more, b.more)
	}) {
		t.Errorf("read back %t: %v\nwant %v", ok, got, f)
	}
	for n := range b[:len(b)-1] { // whatever is cut off within an instruction is seen
		if g, ok := readBody(b[:n]); ok && len(g.code) >= len(f.code) {
			t.Errorf("%d of %d bytes were read as the whole", n, len(b))
		}
	}
	if _, ok := readBody([]byte{0, 0xd0, 0x70}); ok { // ref.null
		t.Error("an unknown instruction was read")
	}
}

// runInBrowser runs a program with Go's loader and returns what it prints.
func runInBrowser(t *testing.T, program []byte) string {
	t.Helper()
	loader, err := wasmExec()
	if err != nil {
		t.Fatal(err)
	}
	tab, end := chromium.Start(t, t.TempDir())
	defer end()
	ctx, late := context.WithTimeout(tab, 2*time.Minute)
	defer late()
	script := string(loader) + `;(async () => {
		let said = "";
		globalThis.fs.writeSync = (fd, b) => { said += new TextDecoder().decode(b); return b.length };
		const go = new Go();
		go.exit = () => {};
		const bytes = Uint8Array.from(atob("` + base64.StdEncoding.EncodeToString(program) + `"), c => c.charCodeAt(0));
		try {
			await go.run((await WebAssembly.instantiate(bytes, go.importObject)).instance);
		} catch (e) {
			said += "\n" + e;
		}
		return said;
	})()`
	out, err := chromedp.Run(ctx, chromedp.Evaluate[string](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return out
}
