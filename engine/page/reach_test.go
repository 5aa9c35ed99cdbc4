package page

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode"

	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// general is a path with every index as N.
func general(path string) string {
	words := strings.Split(path, ".")
	for i, w := range words {
		if w != "" && unicode.IsDigit(rune(w[0])) {
			words[i] = "N"
		}
	}
	return strings.Join(words, ".")
}

// TestEveryFieldIsReached: every field of the cart's sections that a file can
// hold has a control on the screen, in one sample or another.
func TestEveryFieldIsReached(t *testing.T) {
	shown := map[string]bool{}
	var files []string
	for _, glob := range []string{"*.json", "options/*.json"} {
		f, _ := filepath.Glob("../../testdata/projects/" + glob)
		files = append(files, f...)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, kind := range []string{"as it is", "all lists"} {
			p, err := project.Open(data)
			if err != nil {
				t.Fatal(name, err)
			}
			if kind == "all lists" {
				for _, path := range []string{"machine.needs", "machine.foot", "cabinet.holes"} {
					project.Insert(p, path, -1)
				}
			}
			c, _ := design.Build(p)
			v := View{Place: Size, Project: p, Cart: c, Bench: work.AtBench(p, c)}
			b := newBuilder(v)
			var all []node
			for _, s := range sections {
				if n := s.make(b); n != nil {
					all = append(all, n)
				}
			}
			h := html(all...)
			v.Place, v.Report = Check, check.Run(p, c)
			for _, x := range Panels(v) {
				h += x.HTML
			}
			for {
				_, rest, ok := strings.Cut(h, `id="i-`)
				if !ok {
					break
				}
				path, after, _ := strings.Cut(rest, `"`)
				shown[general(path)], h = true, after
			}
		}
	}
	n := 0
	var walk func(t reflect.Type, path string)
	walk = func(typ reflect.Type, path string) {
		switch typ.Kind() {
		case reflect.Pointer:
			walk(typ.Elem(), path)
		case reflect.Slice:
			walk(typ.Elem(), path+".N")
		case reflect.Struct:
			for i := range typ.NumField() {
				if name := typ.Field(i).Tag.Get("json"); name != "-" && name != "" {
					walk(typ.Field(i).Type, path+"."+name)
				}
			}
		default:
			n++
			if !shown[path[1:]] {
				t.Errorf("no control for %s", path[1:])
			}
		}
	}
	p := reflect.TypeFor[project.Project]()
	for i := range p.NumField() {
		switch name := p.Field(i).Tag.Get("json"); name {
		case "lineUp", "machine", "cabinet", "drawers", "base":
			walk(p.Field(i).Type, "."+name)
		}
	}
	if n < 90 {
		t.Errorf("only %d fields were looked at", n)
	}
}
