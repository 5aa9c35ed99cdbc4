package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// An edit is a change to a file of Go's runtime that a build sees.
type edit struct{ file, old, new string }

// edits take out of the programs what nothing in them can start, and what Go's
// linker cannot see to be idle. Measured on the worker after brotli: 41 kB.
var edits = []edit{
	// The execution tracer is started by package runtime/trace alone.
	{"traceruntime.go", "func traceEnabled() bool {\n\treturn trace.enabled\n}", "func traceEnabled() bool {\n\treturn false\n}"},
	{"traceruntime.go", "func traceAllocFreeEnabled() bool {\n\treturn trace.enabledWithAllocFree\n}", "func traceAllocFreeEnabled() bool {\n\treturn false\n}"},
	{"traceruntime.go", "func traceShuttingDown() bool {\n\treturn trace.shutdown.Load()\n}", "func traceShuttingDown() bool {\n\treturn false\n}"},
	{"traceruntime.go", "func (tl traceLocker) ok() bool {\n\treturn tl.gen != 0\n}", "func (tl traceLocker) ok() bool {\n\treturn false\n}"},
	// The table of measurements is read by package runtime/metrics alone.
	{"metrics.go", `func godebug_registerMetric(name string, read func() uint64) {
	metricsLock()
	initMetrics()
	d, ok := metrics[name]
	if !ok {
		throw("runtime: unexpected metric registration for " + name)
	}
	d.compute = metricReader(read).compute
	metrics[name] = d
	metricsUnlock()
}`, "func godebug_registerMetric(name string, read func() uint64) {}"},
	// Reports that GODEBUG asks for: a browser has no environment variables.
	{"mgc.go", "\tif debug.gctrace > 0 {\n\t\tutil :=", "\tif false {\n\t\tutil :="},
	{"mgc.go", "if debug.checkfinalizers > 0 {\n\t\t\tcheckFinalizersAndCleanups()", "if false {\n\t\t\tcheckFinalizersAndCleanups()"},
	{"mgc.go", "if debug.checkfinalizers > 0 {\n\t\tfq, fe :=", "if false {\n\t\tfq, fe :="},
	{"mgcpacer.go", "if debug.gcpacertrace > 0 {\n\t\tprintlock()", "if false {\n\t\tprintlock()"},
	{"mgcpacer.go", "if debug.gcpacertrace > 0 {\n\t\theapGoal :=", "if false {\n\t\theapGoal :="},
	{"panic.go", "if debug.schedtrace > 0 || debug.scheddetail > 0 {", "if false {"},
	{"proc.go", "if debug.schedtrace > 0 && lasttrace+int64(debug.schedtrace)*1000000 <= now {", "if false && lasttrace <= now {"},
	// A check of the tables that [slim] blanks in part.
	{"symtab.go", "func moduledataverify1(datap *moduledata) {\n", "func moduledataverify1(datap *moduledata) {\n\tif true {\n\t\treturn\n\t}\n"},
	// Arguments of functions in stack traces: [slim] blanks what tells of them.
	{"traceback.go", "func printArgs(f funcInfo, argp unsafe.Pointer, pc uintptr) {\n", "func printArgs(f funcInfo, argp unsafe.Pointer, pc uintptr) {\n\tif true {\n\t\treturn\n\t}\n"},
	// Types of further modules, which plugins bring.
	{"type.go", "func typelinksinit() {\n\tif firstmoduledata.next == nil {", "func typelinksinit() {\n\tif true {"},
}

// starters are the packages that would start what the edits take out.
var starters = []string{"runtime/trace", "runtime/metrics", "runtime/pprof", "runtime/debug", "testing"}

// deps lists the packages of the program in src.
func deps(src string) ([]string, error) {
	c := exec.Command("go", "list", "-deps", "./"+filepath.ToSlash(src))
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("go list ./%s: %w", src, err)
	}
	return strings.Fields(string(out)), nil
}

// overlay writes the edited files into dir and returns the file that tells
// go build -overlay about them. It fails with a Go whose runtime reads
// otherwise, and for a program with one of the starters among its packages.
func overlay(dir string, deps []string) (string, error) {
	for _, d := range deps {
		if slices.Contains(starters, d) {
			return "", fmt.Errorf("package %s is in it", d)
		}
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("go env GOROOT: %w", err)
	}
	from := filepath.Join(strings.TrimSpace(string(root)), "src", "runtime")
	if dir, err = filepath.Abs(dir); err != nil {
		return "", err
	}
	texts, replace := map[string]string{}, map[string]string{}
	for _, e := range edits {
		text, ok := texts[e.file]
		if !ok {
			b, err := os.ReadFile(filepath.Join(from, e.file))
			if err != nil {
				return "", err
			}
			text = string(b)
		}
		if strings.Count(text, e.old) != 1 {
			return "", fmt.Errorf("runtime/%s of this Go does not hold %q once", e.file, strings.SplitN(e.old, "\n", 2)[0])
		}
		texts[e.file] = strings.Replace(text, e.old, e.new, 1)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return "", err
	}
	for name, text := range texts {
		file := filepath.Join(dir, name)
		replace[filepath.Join(from, name)] = file
		if err := writeOnce(file, []byte(text)); err != nil {
			return "", err
		}
	}
	b, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	file := filepath.Join(dir, "overlay.json")
	return file, writeOnce(file, b)
}

// writeOnce writes a file unless it holds data already: another build may be
// reading it.
func writeOnce(file string, data []byte) error {
	if b, err := os.ReadFile(file); err == nil && bytes.Equal(b, data) {
		return nil
	}
	return os.WriteFile(file, data, 0o666)
}
