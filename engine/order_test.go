package engine_test

import (
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// tiers is the order of the stations: a package may import packages of lower
// tiers only. Moving a row is a design decision.
var tiers = [][]string{
	{"measure"},
	{"geom", "issue", "stock"},
	{"part", "mark", "scene"},
	{"project"},
	{"design"},
	{"nest"},
	{"work"},
	{"check"},
	{"draw"},
	{"svg", "page"},
	{"."}, // engine itself
}

// forbidden is what no engine package may import, with the reason. A name that
// ends in "/" stands for all below it.
var forbidden = map[string]string{
	"time":          "the engine has no clock: the caller stops the search",
	"os":            "the engine touches no files",
	"os/":           "the engine touches no files",
	"net":           "the engine knows no network",
	"net/":          "the engine knows no network",
	"syscall/js":    "the browser is reached through wasm/bridge",
	"unsafe":        "nothing here needs it",
	"sync":          "the engine starts no goroutines, so it has nothing to guard",
	"sync/":         "the engine starts no goroutines, so it has nothing to guard",
	"html/template": "it adds 0.5 MB to the worker: use page's nodes",
	"text/template": "it adds 0.3 MB to the worker: use page's nodes",
	"html":          "it adds 27 kB to the worker: page and svg escape themselves",
	"log":           "findings are data",
	"log/":          "findings are data",
	"math/big":      "lengths are int64",
	"math/rand":     "searches use math/rand/v2 with a seed",
	"regexp":        "it adds 0.3 MB to the worker",
	"golang.org/":   "the engine uses the standard library",
	"github.com/":   "the engine uses the standard library",
}

// modules is what the engine may use besides the standard library.
var modules = []string{}

// breach returns why the engine package from may not import what, or "".
func breach(from, what string) string {
	if to, ok := strings.CutPrefix(what, "cartwright/"); ok {
		station, ok := strings.CutPrefix(to, "engine/")
		switch {
		case !ok:
			return fmt.Sprintf("engine/%s imports %s, which lies outside the engine", from, to)
		case tier(station) < 0:
			return fmt.Sprintf("engine/%s has no place in the order: give it one in engine/order_test.go", station)
		case tier(from) < 0:
			return fmt.Sprintf("engine/%s has no place in the order: give it one in engine/order_test.go", from)
		case tier(station) >= tier(from):
			return fmt.Sprintf("engine/%s imports engine/%s, which comes later in the work or at the same time", from, station)
		}
		return ""
	}
	for bad, why := range forbidden {
		if what == bad || strings.HasSuffix(bad, "/") && strings.HasPrefix(what, bad) {
			if slices.Contains(modules, what) {
				return ""
			}
			return fmt.Sprintf("engine/%s imports %s: %s", from, what, why)
		}
	}
	return ""
}

func tier(station string) int {
	return slices.IndexFunc(tiers, func(t []string) bool { return slices.Contains(t, station) })
}

// Data flows one way: no station imports a later one.
func TestOrder(t *testing.T) {
	forImports(t, ".", func(file, dir, what string) {
		if dir == "." || tier(dir) >= 0 {
			if why := breach(dir, what); why != "" {
				t.Errorf("%s: %s", file, why)
			}
			return
		}
		t.Errorf("%s: engine/%s has no place in the order: give it one in engine/order_test.go", file, dir)
	})
}

// The canvas program knows ink, not wood, and carries no text engine.
func TestViewIsThin(t *testing.T) {
	forImports(t, "../wasm/view", func(file, _, what string) {
		if strings.HasPrefix(what, "cartwright/") && !strings.HasPrefix(what, "cartwright/wasm/view/") && !slices.Contains([]string{"cartwright/engine/scene", "cartwright/engine/geom", "cartwright/engine/measure", "cartwright/wasm/bridge"}, what) {
			t.Errorf("%s imports %s", file, what)
		}
		if strings.Contains(what, "ebiten/v2/text") || strings.HasSuffix(what, "/ebitenutil") || what == "encoding/json" {
			t.Errorf("%s imports %s, which is large", file, what)
		}
		if what == "syscall/js" && !strings.HasSuffix(file, "_js.go") {
			t.Errorf("%s imports syscall/js: name the file ..._js.go", file)
		}
	})
}

// The browser and the canvas library appear only under wasm/.
func TestOnlyWasmKnowsTheBrowser(t *testing.T) {
	for _, dir := range []string{"../cmd", "../site"} {
		forImports(t, dir, func(file, _, what string) {
			if what == "syscall/js" || strings.Contains(what, "ebiten") {
				t.Errorf("%s imports %s", file, what)
			}
		})
	}
}

// forImports calls f for each import of each Go file under root that is not a
// test, with the folder relative to root.
func forImports(t *testing.T, root string, f func(file, dir, what string)) {
	t.Helper()
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		tree, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		dir, err := filepath.Rel(root, filepath.Dir(name))
		if err != nil {
			return err
		}
		for _, s := range tree.Imports {
			what, err := strconv.Unquote(s.Path.Value)
			if err != nil {
				return err
			}
			f(filepath.ToSlash(name), path.Clean(filepath.ToSlash(dir)), what)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// The test itself must bite.
func TestBreach(t *testing.T) {
	tests := []struct{ from, what, want string }{
		{"nest", "cartwright/engine/design", ""},
		{"design", "cartwright/engine/nest", "later"},
		{"svg", "cartwright/engine/page", "same time"},
		{".", "cartwright/engine/page", ""},
		{"nest", "cartwright/engine/glue", "no place"},
		{"nest", "cartwright/wasm/bridge", "outside"},
		{"nest", "time", "clock"},
		{"nest", "os/exec", "files"},
		{"page", "net/http", "network"},
		{"page", "strings", ""},
		{"nest", "github.com/a/b", "standard library"},
	}
	for _, tt := range tests {
		got := breach(tt.from, tt.what)
		if tt.want == "" && got != "" || !strings.Contains(got, tt.want) {
			t.Errorf("breach(%s, %s) = %q, want %q", tt.from, tt.what, got, tt.want)
		}
	}
}
