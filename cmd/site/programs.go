package main

import (
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A program is one of the two wasm programs.
type program struct {
	name string // of its folder under wasm/
	max  int    // budget in bytes after brotli
	data []byte
}

// programList lists the programs with their budgets: 1.2 and 2.2 MB after
// brotli.
func programList() []program {
	return []program{{name: "worker", max: 1_200_000}, {name: "view", max: 2_200_000}}
}

// inlined are the packages in which the compiler may inline: those in whose
// loops the time goes. Elsewhere inlining makes a program for wasm larger and
// hardly faster. Measured on the worker, after brotli and before [slim]:
//
//	everywhere             1.31 MB
//	these                  1.19 MB, as fast
//	these but the runtime  1.15 MB; a drag takes 20 % more CPU time, a plan 40 %
func inlined() []string {
	return []string{
		"cartwright/engine/nest", "cartwright/wasm/view/...", "cmp", "math/bits", "slices",
		"internal/abi", "internal/bytealg", "internal/chacha8rand", "internal/goarch", "internal/runtime/...", "runtime", "unsafe",
	}
}

// experiments returns the GOEXPERIMENT to build with: Go 1.26 brings a second
// garbage collector for many cores, which is 12 kB here and no faster on one.
func experiments() string {
	if e := os.Getenv("GOEXPERIMENT"); e != "" {
		return e
	}
	if v, err := exec.Command("go", "env", "GOVERSION").Output(); err == nil && strings.HasPrefix(string(v), "go1.26") {
		return "nogreenteagc"
	}
	return ""
}

// buildArgs returns the arguments of go that compile src into file.
func buildArgs(src, file string) []string {
	args := []string{"build", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l"}
	for _, p := range inlined() { // the last pattern that matches counts
		args = append(args, "-gcflags="+p+"=")
	}
	return append(args, "-o", file, "./"+filepath.ToSlash(src))
}

// buildPrograms compiles the wasm programs into dir. With lenient set, one
// that has no sources yet is left out with a word about it.
func buildPrograms(dir string, lenient bool) ([]program, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	var out []program
	for _, p := range programList() {
		src := filepath.Join("wasm", p.name)
		if has, _ := filepath.Glob(filepath.Join(src, "*.go")); len(has) == 0 {
			if !lenient {
				return nil, fmt.Errorf("%s has no Go files", src)
			}
			log.Printf("%s has no Go files: the site goes without it", src)
			continue
		}
		file := filepath.Join(dir, p.name+".wasm")
		args := buildArgs(src, file)
		packages, err := deps(src)
		if err != nil {
			return nil, err
		}
		if over, err := overlay(filepath.Join(dir, "runtime"), packages); err != nil {
			log.Printf("%s.wasm keeps the runtime's tracer: %v", p.name, err)
		} else {
			args = slices.Insert(args, 1, "-overlay="+over)
		}
		c := exec.Command("go", args...)
		c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOEXPERIMENT="+experiments())
		c.Stderr = os.Stderr
		if err := c.Run(); err != nil {
			return nil, fmt.Errorf("go build ./%s: %w", filepath.ToSlash(src), err)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		if p.data, err = slim(data); err != nil {
			log.Printf("%s.wasm keeps its tables for stack traces: %v", p.name, err)
			p.data = data
		}
		if data, err = tighten(p.data); err != nil {
			return nil, fmt.Errorf("%s.wasm: %w", p.name, err)
		}
		p.data = data
		out = append(out, p)
	}
	return out, nil
}

// wasmExec returns Go's own loader. It must come from the Go that built the
// programs.
func wasmExec() ([]byte, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("go env GOROOT: %w", err)
	}
	return os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
}

// checkBudget fails if a program is larger than it may be. The quick quality
// comes first: what fits there fits all the more at the best.
func checkBudget(programs []program, c compressor) error {
	over := 0
	for _, p := range programs {
		var size int
		for _, c.quality = range []int{5, 9, 11} {
			b, err := c.brotli(p.data)
			if err != nil {
				return err
			}
			if size = len(b); size <= p.max {
				break
			}
		}
		word := "fits"
		if size > p.max {
			word = "IS TOO LARGE for"
			over++
		}
		fmt.Printf("%s.wasm: %d bytes (brotli %d) %s the budget of %d\n", p.name, size, c.quality, word, p.max)
	}
	if over > 0 {
		return fmt.Errorf("%d programs over their budget: see what came in with go tool nm, or raise the budget knowingly", over)
	}
	return nil
}
