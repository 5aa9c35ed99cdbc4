package design

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine/project"
)

// samplesOf opens every starting point and every option sample.
func samplesOf(t *testing.T) map[string]*project.Project {
	t.Helper()
	all := map[string]*project.Project{}
	for _, glob := range []string{"*.json", "options/*.json"} {
		files, err := filepath.Glob("../../testdata/projects/" + glob)
		if err != nil || len(files) < 3 {
			t.Fatal(len(files), err)
		}
		for _, f := range files {
			name := strings.TrimSuffix(strings.TrimPrefix(filepath.ToSlash(f), "../../testdata/projects/"), ".json")
			all[name] = open(t, name)
		}
	}
	return all
}

// walk calls visit with the path of every field of a document, list indices as
// "*".
func walk(v reflect.Value, path string, visit func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			walk(v.Elem(), path, visit)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			if name != "" && name != "-" {
				walk(v.Field(i), strings.TrimPrefix(path+"."+name, "."), visit)
			}
		}
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Struct {
			for i := range v.Len() {
				walk(v.Index(i), path+".*", visit)
			}
		}
		visit(path, v)
	default:
		visit(path, v)
	}
}

// words lists the fields that hold one of a few words, as the calls of oneOf
// say: the end of the path, and the words.
func words(t *testing.T) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	files, _ := filepath.Glob("*.go")
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			sel, ok := call.Fun.(*ast.SelectorExpr)
			if !ok || sel.Sel.Name != "oneOf" {
				return true
			}
			path := call.Args[0]
			if sum, ok := path.(*ast.BinaryExpr); ok {
				path = sum.Y
			}
			text := func(e ast.Expr) string {
				lit, ok := e.(*ast.BasicLit)
				if !ok {
					t.Fatalf("%s: a path or word that is no text", name)
				}
				s, _ := strconv.Unquote(lit.Value)
				return s
			}
			var known []string
			for _, a := range call.Args[2:] {
				known = append(known, text(a))
			}
			out[text(path)] = known
			return true
		})
	}
	return out
}

// TestEveryOption: every word that a field of the cart takes, both answers of
// every yes-or-no, and every list of its own stand in a sample with a golden.
func TestEveryOption(t *testing.T) {
	seen := map[string]map[string]bool{}
	for _, p := range samplesOf(t) {
		walk(reflect.ValueOf(p).Elem(), "", func(path string, v reflect.Value) {
			if seen[path] == nil {
				seen[path] = map[string]bool{}
			}
			switch v.Kind() {
			case reflect.String:
				seen[path][v.String()] = true
			case reflect.Bool:
				seen[path][strconv.FormatBool(v.Bool())] = true
			case reflect.Int, reflect.Int64, reflect.Slice:
				n := v.Kind() == reflect.Slice && v.Len() > 0 || v.Kind() != reflect.Slice && v.Int() != 0
				seen[path][map[bool]string{true: "set", false: "empty"}[n]] = true
			}
		})
	}
	fields := words(t)
	if len(fields) < 18 {
		t.Errorf("only %d fields with words are known: %v", len(fields), fields)
	}
	for end, known := range fields {
		found := false
		for path, values := range seen {
			if path != end && !strings.HasSuffix(path, end) || !strings.HasPrefix(end, ".") && path != end {
				continue
			}
			if end == ".kind" && !strings.HasPrefix(path, "cabinet.bays.") {
				continue
			}
			if end == ".side" && !strings.HasPrefix(path, "machine.") {
				continue
			}
			if end == ".grain" && !strings.HasPrefix(path, "extra.") {
				continue
			}
			found = true
			for i, w := range known {
				if !values[w] && !(i == 0 && values[""]) {
					t.Errorf("no sample has %s = %q", path, w)
				}
			}
		}
		if !found {
			t.Errorf("no field ends in %s", end)
		}
	}
	n := 0
	for path, values := range seen {
		section, _, _ := strings.Cut(path, ".")
		switch section {
		case "machine", "lineUp", "cabinet", "drawers", "base":
		default:
			continue
		}
		n++
		for _, w := range []string{"true", "false"} {
			if (values["true"] || values["false"]) && !values[w] {
				t.Errorf("no sample has %s = %s", path, w)
			}
		}
		if values["empty"] && !values["set"] {
			t.Errorf("no sample sets %s", path)
		}
	}
	if n < 60 {
		t.Errorf("only %d fields were looked at", n)
	}
}

// TestOptionSamples: the option samples keep the laws and are not blocked.
func TestOptionSamples(t *testing.T) {
	for name, p := range samplesOf(t) {
		c, f := Build(p)
		if f.Blocked() {
			t.Errorf("%s is blocked: %v", name, f)
		}
		laws(t, name, c)
	}
}
