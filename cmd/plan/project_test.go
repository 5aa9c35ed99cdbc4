package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

var update = flag.Bool("update", false, "rewrite golden files")

const demo = "../../testdata/projects/jointer-stand.json"

// plan runs the program and returns its exit code and what it printed.
func runPlan(args ...string) (code int, out, errOut string) {
	var o, e bytes.Buffer
	code = run(args, &o, &e)
	return code, o.String(), e.String()
}

func TestProject(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	code, out, errOut := runPlan("-tries", "300", "-seconds", "0", "-json", at("all.json"), "-cuts", at("cuts.json"), "-csv", at("list.csv"), "-svg", at("svg"), demo)
	if code != fine || errOut != "" {
		t.Fatalf("exit %d: %s", code, errOut)
	}
	// Words and numbers worked by hand: see the design's tests for the sums.
	for _, want := range []string{"Jointer stand", "together                35 5/16", "Side, left                       19 × 20 25/32", "Proven", "At the store", "Fence and stops are moved", "Your tools' manuals"} {
		if !strings.Contains(out, want) {
			t.Errorf("the text does not hold %q", want)
		}
	}
	if strings.ContainsAny(out, "⁄−") {
		t.Error("the text holds signs that a terminal may not know")
	}
	var all map[string]json.RawMessage
	data, err := os.ReadFile(at("all.json"))
	if err != nil || json.Unmarshal(data, &all) != nil || len(all["Cart"]) == 0 || len(all["Plan"]) == 0 {
		t.Errorf("-json: %v, %d fields", err, len(all))
	}
	var cuts struct{ Sheets []any }
	data, err = os.ReadFile(at("cuts.json"))
	if err != nil || json.Unmarshal(data, &cuts) != nil || len(cuts.Sheets) < 3 {
		t.Errorf("-cuts: %v, %d sheets", err, len(cuts.Sheets))
	}
	f, err := os.Open(at("list.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 33 || strings.Join(rows[1], "|") != "A Side, left|19 in|20 25/32 in|23/32 in|1|length|birch-18" {
		t.Errorf("-csv: %v, %d rows, %q", err, len(rows), rows[1])
	}
	for _, name := range []string{"cart.svg", "sheet-1.svg", "sheet-3.svg"} {
		if data, err := os.ReadFile(filepath.Join(at("svg"), name)); err != nil || !bytes.Contains(data, []byte("</svg>")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestPicture: the picture of the README is the program's.
func TestPicture(t *testing.T) {
	dir := t.TempDir()
	if code, _, errOut := runPlan("-tries", "1", "-seconds", "0", "-svg", dir, demo); code != fine {
		t.Fatal(errOut)
	}
	got, err := os.ReadFile(filepath.Join(dir, "cart.svg"))
	if err != nil {
		t.Fatal(err)
	}
	golden := "../../testdata/drawings/jointer-stand.svg"
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(golden); err != nil || !bytes.Equal(got, want) {
		t.Errorf("the picture has changed (%v): run make golden and look at it", err)
	}
}

func TestBadProjects(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		name = filepath.Join(dir, name)
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return name
	}
	for _, tt := range []struct {
		name string
		args []string
		code int
		says string
	}{
		{"nothing", nil, badInput, "name one project file"},
		{"two files", []string{demo, demo}, badInput, "name one project file"},
		{"a file that is not there", []string{filepath.Join(dir, "none.json")}, badInput, "no such file"},
		{"junk", []string{file("junk.json", "\x00\x01")}, badInput, "not a project file"},
		{"newer", []string{file("newer.json", `{"format":"cartwright-project","version":9}`)}, badInput, "made by version 9"},
		{"a bad length", []string{file("bad.json", `{"format":"cartwright-project","version":1,"cabinet":{"width":"wide"}}`)}, badInput, "cabinet.width"},
		{"heights that do not add up", []string{"-tries", "50", "-seconds", "0", "../../testdata/projects/findings/chain.json"}, blocked, ""},
		{"an unknown flag", []string{"-fast", demo}, badInput, "not defined"},
		{"a folder that cannot be", []string{"-tries", "1", "-seconds", "0", "-svg", file("plain", "x"), demo}, badInput, "not a directory"},
	} {
		code, out, errOut := runPlan(tt.args...)
		if code != tt.code || !strings.Contains(errOut, tt.says) {
			t.Errorf("%s: exit %d, %q; want %d, %q", tt.name, code, errOut, tt.code, tt.says)
		}
		if tt.code == blocked && !strings.Contains(out, "stop: Heights do not add up") {
			t.Errorf("%s: the finding is not printed:\n%s", tt.name, out)
		}
	}
	if code, _, help := runPlan("-h"); code != fine || !strings.Contains(help, "-storecuts") || !strings.Contains(help, "-svg") {
		t.Errorf("-h: exit %d", code)
	}
}

// TestBenchAsText: every starting point prints its steps, the holes of every
// part that has any, spacers, drawers and finish, with the numbers of the model.
func TestBenchAsText(t *testing.T) {
	files, err := filepath.Glob("../../testdata/projects/*.json")
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	for _, f := range files {
		var out, errOut strings.Builder
		if code := run([]string{"-tries", "1", "-seconds", "0", f}, &out, &errOut); code == badInput {
			t.Fatal(f, errOut.String())
		}
		p, err := openProject(f)
		if err != nil {
			t.Fatal(err)
		}
		r := engine.Design(p)
		b := work.AtBench(p, r.Cart)
		text := out.String()
		for i, s := range b.Steps {
			if !strings.Contains(text, "\n  "+strconv.Itoa(i+1)+". "+s.Title+"\n") {
				t.Errorf("%s: step %d, %q, is not printed", f, i+1, s.Title)
			}
		}
		holes := 0
		for _, d := range b.Drills {
			if d.Kind == work.PocketHole {
				holes++
			}
		}
		if n := strings.Count(text, " pocket hole into ") + strings.Count(text, " pocket holes into "); n != holes {
			t.Errorf("%s: %d rows of pocket holes printed, %d in the schedule", f, n, holes)
		}
		if n := strings.Count(text, "\n  Drawer "); n < len(r.Cart.Drawers) {
			t.Errorf("%s: %d cards for %d drawers", f, n, len(r.Cart.Drawers))
		}
		for _, s := range work.Spacers(p, r.Cart) {
			if !strings.Contains(text, "\n  "+page.Plain(p.Measure().ShowExact(s.Want))+"  ") {
				t.Errorf("%s: no spacer of %v", f, s.Want)
			}
		}
		if !strings.Contains(text, "Coat 3, sanded between") || strings.ContainsAny(text, "\u2044\u2212") {
			t.Errorf("%s: no finish, or signs that a terminal lacks", f)
		}
	}
}
