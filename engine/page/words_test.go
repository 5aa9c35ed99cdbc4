package page

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// codes finds every constant of type issue.Code in the source of the engine.
func codes(t *testing.T) map[issue.Code]string {
	t.Helper()
	out := map[issue.Code]string{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil // another package, half written
		}
		ast.Inspect(file, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok || len(spec.Values) != 1 {
				return true
			}
			is := false
			switch typ := spec.Type.(type) {
			case *ast.SelectorExpr:
				is = typ.Sel.Name == "Code"
			case *ast.Ident:
				is = typ.Name == "Code"
			}
			if lit, isLit := spec.Values[0].(*ast.BasicLit); is && isLit {
				if s, err := strconv.Unquote(lit.Value); err == nil {
					out[issue.Code(s)] = path
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 20 {
		t.Fatalf("found only %d codes", len(out))
	}
	return out
}

func TestEveryCodeHasWords(t *testing.T) {
	all := codes(t)
	for code, file := range all {
		_, plain := texts[code]
		_, counted := told[code]
		if !plain && !counted {
			t.Errorf("%s (%s) has no sentence in texts.go", code, file)
		}
		if plain && counted {
			t.Errorf("%s has two sentences", code)
		}
	}
	for code := range texts {
		if all[code] == "" {
			t.Errorf("%s has a sentence, but no package raises it", code)
		}
	}
	for code := range told {
		if all[code] == "" {
			t.Errorf("%s has a sentence, but no package raises it", code)
		}
	}
}

// Words that look.md forbids.
func TestPlainWords(t *testing.T) {
	for code, s := range texts {
		low := strings.ToLower(s)
		for _, bad := range []string{"!", "oops", "success", "invalid", "error", " we ", "sorry"} {
			if strings.Contains(low, bad) {
				t.Errorf("%s: %q in %q", code, bad, s)
			}
		}
		if !strings.HasSuffix(s, ".") {
			t.Errorf("%s does not end in a full stop: %q", code, s)
		}
	}
}

var sayTests = []struct {
	code issue.Code
	args []any
	want string
}{
	{"design.holds", []any{"Hose bay", "hose reel", "wide", 16 * measure.Inch, 31 * measure.Inch / 2, measure.Inch / 2},
		"Hose bay is 1⁄2 too small: hose reel needs 16 wide, there is 15 1⁄2. Move the partition or cut the free space."},
	{"design.chain", []any{-5 * measure.Inch / 4, 3 * measure.Inch, 17 * measure.Inch / 4},
		"Heights do not add up: the sides would be −1 1⁄4, at least 3 is needed, 4 1⁄4 is missing. Lower the casters or raise the target."},
	{"design.off-tape", []any{-measure.Inch / 64}, "The table stands 1⁄64 lower than asked for: the sides are whole steps of your tape. A finer tape brings it closer."},
	{"design.bays", []any{30 * measure.Inch, 31 * measure.Inch, -measure.Inch}, "The bays take 30, the case has 31: 1 is left over. Make one larger, or let it take what is left."},
	{"design.bays", []any{32 * measure.Inch, 31 * measure.Inch, measure.Inch}, "The bays take 32, the case has 31: 1 too much. Make one smaller, or let it take what is left."},
	{"nest.storecuts", []any{1, 0}, "X needs 1 store cut, the store makes 0. Plan again."},
	{"nest.price", []any{measure.Money(-150)}, "A price of -1.50 cannot be planned with. Correct it."},
	{"nest.short", []any{2, 3}, "X: 2 of 3 pieces found no place, the stock ran out. Add stock at Material."},
	{"nest.claim", []any{"cost", int64(5), int64(6)}, "The plan says 5 for cost, counted are 6. Plan again."},
	{"nest.kerf", nil, "The ? is ?: that cannot be planned. Correct it."},
	{"later.brand-new", []any{measure.Inch, "oak", 3, 2.5, 10 * measure.Pound, struct{}{}}, "Brand new: X (1, oak, 3, 2.5, 10.0 lb, ?)."},
	{"odd", nil, "Odd: X."},
}

func TestSentence(t *testing.T) {
	for _, tt := range sayTests {
		f := issue.Finding{Level: issue.Warn, Code: tt.code, Where: []string{"X"}, Args: tt.args}
		if got := Sentence(f, measure.Tape{}); got != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.code, got, tt.want)
		}
	}
	if got, want := Plain("−1 1⁄4 “x”"), `-1 1/4 "x"`; got != want {
		t.Errorf("Plain: got %s, want %s", got, want)
	}
}

// Each sample that raises a finding makes a whole sentence of it: no argument
// is missing, in either tape.
func TestSamplesSpeak(t *testing.T) {
	files, err := filepath.Glob("../../testdata/projects/findings/*.json")
	if err != nil {
		t.Fatal(err)
	}
	more, _ := filepath.Glob("../../testdata/projects/*.json")
	n := 0
	for _, name := range append(files, more...) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := project.Open(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		r := engine.Design(p)
		plan := nest.Plan{}
		for found := range nest.Search(r.Job, nest.Options{}) {
			plan = *found.Plan
			break
		}
		r = engine.Finish(p, r, plan)
		for _, f := range r.Findings {
			n++
			s := Sentence(f, p.Measure())
			if strings.ContainsAny(s, "?{}") || !strings.HasSuffix(s, ".") {
				t.Errorf("%s: %s: %s", filepath.Base(name), f.Code, s)
			}
		}
	}
	if n < 10 {
		t.Errorf("the samples raise only %d findings", n)
	}
}
