package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestSlim builds a program for wasm and blanks its tables: the data are in a
// few pieces, no name of a file or function is left in them, what the program says
// itself is, and it is smaller once compressed.
func TestSlim(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write("go.mod", "module tiny\n\ngo 1.26\n")
	write("main.go", "package main\n\n//go:noinline\nfunc namedNowhereElse() { println(\"said by itself\") }\n\nfunc main() { namedNowhereElse() }\n")
	c := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", "tiny.wasm", ".")
	c.Dir, c.Env = dir, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWORK=off")
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	fat, err := os.ReadFile(filepath.Join(dir, "tiny.wasm"))
	if err != nil {
		t.Fatal(err)
	}
	thin, err := slim(fat)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, segs, err := dataSegments(thin); err != nil || len(segs) > 20 {
		t.Errorf("%d segments of data, %v", len(segs), err)
	}
	for _, gone := range []string{"main.namedNowhereElse", "main.go", "runtime/proc.go"} {
		if !bytes.Contains(fat, []byte(gone)) || bytes.Contains(thin, []byte(gone)) {
			t.Errorf("%q: before %t, after %t", gone, bytes.Contains(fat, []byte(gone)), bytes.Contains(thin, []byte(gone)))
		}
	}
	if !bytes.Contains(thin, []byte("said by itself")) {
		t.Error("a text of the program is gone")
	}
	z := compressor{dir: dir, quality: 5}
	a, err := z.brotli(fat)
	if err != nil {
		t.Fatal(err)
	}
	b, err := z.brotli(thin)
	if err != nil {
		t.Fatal(err)
	}
	if len(b) > len(a)*95/100 {
		t.Errorf("%d bytes compressed, %d before", len(b), len(a))
	}

	// What memory holds is in few segments as in many.
	mem := append(make([]byte, 70_000), 1, 0, 0, 0, 0, 0, 0, 0, 0, 2)
	mem = append(append(mem, make([]byte, 140_000)...), 3)
	_, _, segs, err := dataSegments(appendData([]byte("\x00asm\x01\x00\x00\x00"), mem))
	if err != nil || len(segs) != 2 {
		t.Fatalf("%d segments, %v", len(segs), err)
	}
	got := make([]byte, len(mem))
	for _, s := range segs {
		copy(got[s.at:], s.bytes)
	}
	if !bytes.Equal(got, mem) {
		t.Error("the memory is another one")
	}

	// What is cut off anywhere is refused or left sound, never a panic.
	for n := 0; n < len(fat); n += 1 + len(fat)/97 {
		if got, err := slim(fat[:n]); err == nil {
			t.Errorf("%d of %d bytes were taken, %d came back", n, len(fat), len(got))
		}
	}
}
