package engine_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/issue"
	"cartwright/engine/nest"
	"cartwright/engine/page"
)

// A declared finding: its code and what its comment says.
type declared struct {
	code issue.Code
	doc  string
}

// findings lists all constants of type issue.Code in the engine.
func findings(t *testing.T) []declared {
	t.Helper()
	files, err := filepath.Glob("*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	var all []declared
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		var outer string // comment of a declaration that stands alone
		ast.Inspect(f, func(n ast.Node) bool {
			if g, ok := n.(*ast.GenDecl); ok {
				outer = ""
				if !g.Lparen.IsValid() {
					outer = g.Doc.Text()
				}
			}
			v, ok := n.(*ast.ValueSpec)
			if !ok || len(v.Values) != 1 {
				return true
			}
			sel, ok := v.Type.(*ast.SelectorExpr)
			lit, lok := v.Values[0].(*ast.BasicLit)
			if !ok || !lok || sel.Sel.Name != "Code" {
				return true
			}
			code, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, declared{issue.Code(code), outer + v.Doc.Text()})
			return true
		})
	}
	return all
}

var example = regexp.MustCompile(`Example: ([a-z0-9-]+)\.json`)

// TestExamples: every finding that names an example is raised by it, with its
// sentence filled in. Those without one are breaches that no project can cause:
// they are broken by hand in the tests of their packages.
func TestExamples(t *testing.T) {
	seen := map[issue.Code]bool{}
	n := 0
	for _, d := range findings(t) {
		if seen[d.code] {
			t.Errorf("%s is declared twice", d.code)
		}
		seen[d.code] = true
		m := example.FindStringSubmatch(d.doc)
		if m == nil {
			continue
		}
		n++
		p := open(t, "findings/"+m[1])
		r := engine.Design(p)
		r = engine.Finish(p, r, plan(t, r.Job, 200))
		i := slices.IndexFunc(r.Findings, func(f issue.Finding) bool { return f.Code == d.code })
		if i < 0 {
			t.Errorf("%s.json does not raise %s, but %v", m[1], d.code, r.Findings)
			continue
		}
		s := page.Plain(page.Sentence(r.Findings[i], p.Measure()))
		if strings.ContainsAny(s, "{}") || len(s) < 20 || strings.Contains(s, string(d.code)) {
			t.Errorf("%s reads %q", d.code, s)
		}
		t.Logf("%s: %s", d.code, s)
	}
	if n < 20 {
		t.Errorf("only %d findings have an example", n)
	}
}

// TestBlockedStillShows: whatever blocks, parts and plan that do not depend on
// it are there, and the plan passes the judge that shares no code with the search.
func TestBlockedStillShows(t *testing.T) {
	files, err := filepath.Glob("../testdata/projects/findings/*.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		name = strings.TrimSuffix(filepath.Base(name), ".json")
		p := open(t, "findings/"+name)
		r := engine.Design(p)
		best := plan(t, r.Job, 100)
		r = engine.Finish(p, r, best)
		if v := nest.Verify(r.Job, best); len(v) != 0 {
			t.Errorf("%s: the plan breaks rules: %v", name, v)
		}
		if name == "no-size" || name == "chain" {
			continue // there is no case at all
		}
		if len(r.Cart.Parts) < 10 || len(r.Plan.Sheets) == 0 {
			t.Errorf("%s: %d parts on %d sheets are left", name, len(r.Cart.Parts), len(r.Plan.Sheets))
		}
	}
}
