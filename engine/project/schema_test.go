package project

import (
	"bytes"
	"encoding/json"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"cartwright/engine/measure"
)

var update = flag.Bool("update", false, "rewrite golden files")

// schema builds the JSON Schema of the document from the types and their
// comments, so that it cannot fall behind them.
func schema(t *testing.T) []byte {
	t.Helper()
	docs := map[string]string{} // "Type" and "Type.Field"
	for _, dir := range []string{".", "../mark"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(f, func(n ast.Node) bool {
				d, ok := n.(*ast.GenDecl)
				if !ok {
					return true
				}
				for _, s := range d.Specs {
					ts, ok := s.(*ast.TypeSpec)
					if !ok {
						continue
					}
					docs[ts.Name.Name] = d.Doc.Text() + ts.Doc.Text()
					st, ok := ts.Type.(*ast.StructType)
					if !ok {
						continue
					}
					for _, field := range st.Fields.List {
						for _, id := range field.Names {
							docs[ts.Name.Name+"."+id.Name] = field.Doc.Text() + field.Comment.Text()
						}
					}
				}
				return true
			})
		}
	}
	text := func(s string) string { return strings.Join(strings.Fields(s), " ") }

	var of func(reflect.Type) map[string]any
	of = func(rt reflect.Type) map[string]any {
		switch rt {
		case reflect.TypeFor[measure.Length]():
			return map[string]any{"type": "string", "description": "A length with its unit: 18 mm, 23 5/8 in."}
		case reflect.TypeFor[measure.Mass]():
			return map[string]any{"type": "string", "description": "A weight with its unit: 85 lb, 38.5 kg."}
		case reflect.TypeFor[measure.Money]():
			return map[string]any{"type": "string", "description": "A price: 84.50."}
		case rawType:
			return map[string]any{}
		}
		switch rt.Kind() {
		case reflect.Pointer:
			return of(rt.Elem())
		case reflect.Slice:
			return map[string]any{"type": "array", "items": of(rt.Elem())}
		case reflect.String:
			return map[string]any{"type": "string"}
		case reflect.Bool:
			return map[string]any{"type": "boolean"}
		case reflect.Int, reflect.Uint64:
			return map[string]any{"type": "integer"}
		case reflect.Float64:
			return map[string]any{"type": "number"}
		case reflect.Struct:
			props := map[string]any{}
			for i := range rt.NumField() {
				f := rt.Field(i)
				name := fieldName(f)
				if name == "" {
					continue
				}
				s := of(f.Type)
				if d := text(docs[rt.Name()+"."+f.Name]); d != "" {
					s["description"] = d
				}
				props[name] = s
			}
			return map[string]any{"type": "object", "properties": props, "description": text(docs[rt.Name()])}
		}
		t.Fatalf("no schema for %v", rt)
		return nil
	}
	s := of(reflect.TypeFor[Project]())
	props := s["properties"].(map[string]any)
	props["format"] = map[string]any{"const": Format}
	props["version"] = map[string]any{"const": Version}
	props["needs"] = map[string]any{"type": "integer", "description": "The least version of a reader that understands the file."}
	s["required"] = []string{"format", "version"}
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "Cartwright project"
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	if err := e.Encode(s); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestSchema: the published schema is the one of the types, and every sample
// project obeys it.
func TestSchema(t *testing.T) {
	want := schema(t)
	if *update {
		if err := os.WriteFile("schema.json", want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("schema.json is not the schema of the types: run make golden and read the difference")
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(got))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("project.json", doc); err != nil {
		t.Fatal(err)
	}
	sch, err := c.Compile("project.json")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, name := range samples(t) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := sch.Validate(v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		n++
	}
	if n < 2 {
		t.Errorf("only %d sample projects were looked at", n)
	}
	bad, _ := jsonschema.UnmarshalJSON(strings.NewReader(`{"format":"cartwright-project","version":1,"cabinet":{"width":36}}`))
	if sch.Validate(bad) == nil {
		t.Error("a length without its unit obeys the schema")
	}
}

// samples lists all sample projects that open.
func samples(t testing.TB) []string {
	t.Helper()
	var all []string
	for _, pattern := range []string{"../../testdata/projects/*.json", "../../testdata/projects/findings/*.json"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, names...)
	}
	return all
}
