package page

import (
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// every is the views that the laws are tested on: each place, full, empty,
// read only, with all cuts made, in both tapes.
func every() map[string]View {
	out := map[string]View{}
	for _, p := range places {
		v := small(p.place)
		out[string(p.place)] = v
		v.ReadOnly, v.Embedded = true, true
		out[string(p.place)+", embedded"] = v
		v = small(p.place)
		v.Project.Tape.Unit = "metric"
		v.Held, v.Digest = true, "d1"
		v.State = mark.Fold(marked(append(v.Steps.Store[:1:1], v.Steps.Shop...)...))
		v.Stale, v.Differ, v.SaveFailed, v.Awake = true, 2, true, "off"
		out[string(p.place)+", metric, all cut"] = v
		out[string(p.place)+", empty"] = View{Place: p.place, Project: &project.Project{}}
		out[string(p.place)+", no project"] = View{Place: p.place}
		v = small(p.place)
		v.Held, v.Digest = true, "d1"
		marks := marked(v.Steps.Store[0], v.Steps.Shop[0], v.Steps.Shop[1])
		marks = append(marks, v.Steps.Shop[1].Measured("d1", mark.Next(marks, "tablet", ""), 23*in+in/8))
		v.State = mark.Fold(marks)
		v.Cart.Lines[0].Count++ // one was made before
		out[string(p.place)+", came out short"] = v
		v.Came = Came{Cut: "cut/0/b", Size: 23*in + in/8}
		out[string(p.place)+", asked what it measures"] = v
		v.Wrong = map[string]Wrong{CamePath: {"5 1/", "Could not read it."}}
		out[string(p.place)+", not read"] = v
		v = small(p.place)
		v.Project.LineUp.Mode, v.Project.Car.Delivered, v.Searching, v.ReadOnly = "height", true, true, true
		v.Project.Drawers.Joint, v.Project.Cabinet.Back.Kind = "under", "none"
		out[string(p.place)+", other choices"] = v
	}
	return out
}

func TestGolden(t *testing.T) {
	for _, p := range places {
		v := small(p.place)
		var b strings.Builder
		for _, panel := range Panels(v) {
			if panel.HTML != "" {
				b.WriteString("== " + panel.ID + "\n" + strings.ReplaceAll(panel.HTML, "><", ">\n<") + "\n")
			}
		}
		for _, kind := range []string{"parts", "cards", "saw"} {
			if string(p.place) == kind || p.place == Store && kind == "cards" {
				b.WriteString("== print " + kind + "\n" + strings.ReplaceAll(Print(v, kind, "Printed 24 Nov, 10:42", nil), "><", ">\n<") + "\n")
			}
		}
		file := filepath.Join("testdata", string(p.place)+".html")
		if *update {
			if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(want) {
			t.Errorf("%s differs; look at it, then run: go test ./engine/page -update", file)
		}
	}
}

// knownActions are those that actions.go declares, and those of the page's
// skeleton.
func knownActions(t *testing.T) map[string]bool {
	src, err := os.ReadFile("actions.go")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]bool{}
	for _, m := range regexp.MustCompile(`action = "([a-z]+)"`).FindAllStringSubmatch(string(src), -1) {
		out[m[1]] = true
		if !regexp.MustCompile(`(?m)^//\t.*\b` + m[1] + `\b`).Match(src) {
			t.Errorf("action %s is not described in actions.go", m[1])
		}
	}
	return out
}

// What holds for every panel of every view.
func TestLaws(t *testing.T) {
	known := knownActions(t)
	skeleton, err := os.ReadFile("../../site/index.html")
	if err != nil {
		t.Fatal(err)
	}
	for name, v := range every() {
		ids, refs := map[string]bool{}, map[string]string{}
		panels := Panels(v)
		if again := Panels(v); !reflect.DeepEqual(panels, again) {
			t.Errorf("%s: two runs differ", name)
		}
		for _, p := range panels {
			if ids[p.ID] {
				t.Errorf("%s: panel %s comes twice", name, p.ID)
			}
			ids[p.ID] = true
			if !strings.Contains(string(skeleton), `id="`+p.ID+`"`) {
				t.Errorf("panel %s has no place in site/index.html", p.ID)
			}
			found, err := scan(p.HTML)
			if err != nil {
				t.Errorf("%s: %s: %v", name, p.ID, err)
				continue
			}
			amber := 0
			for _, e := range found {
				for _, a := range e.attrs {
					if a.name == "style" || strings.HasPrefix(a.name, "on") {
						t.Errorf("%s: %s: attribute %s", name, p.ID, a.name)
					}
					for _, r := range []string{"for", "aria-describedby", "aria-labelledby"} {
						if a.name == r {
							refs[a.value] = e.tag + " " + r
						}
					}
				}
				if id := e.get("id"); id != "" {
					if ids[id] {
						t.Errorf("%s: %s: id %s comes twice", name, p.ID, id)
					}
					ids[id] = true
				} else if e.tag == "button" || e.tag == "input" || e.tag == "select" || e.tag == "summary" {
					t.Errorf("%s: %s: a %s without an id", name, p.ID, e.tag)
				}
				if e.tag == "details" && e.get("data-keep") == "" {
					t.Errorf("%s: %s: a details without data-keep", name, p.ID)
				}
				if do := e.get("data-do"); do != "" && !known[do] {
					t.Errorf("%s: %s: unknown action %s", name, p.ID, do)
				}
				if e.get("data-do") == "set" && e.get("data-path") == "" {
					t.Errorf("%s: %s: set without a path", name, p.ID)
				}
				if e.tag == "button" && e.get("class") == "done" {
					amber++
				}
			}
			if amber > 1 || amber > 0 && v.Place != Saw {
				t.Errorf("%s: %s: %d amber buttons", name, p.ID, amber)
			}
		}
		for id, from := range refs {
			if !ids[id] {
				t.Errorf("%s: %s points to %s, which is not there", name, from, id)
			}
		}
	}
}

// Every control shows what the document holds, in the form that project.Set
// reads, so that leaving a field as it is changes nothing.
func TestFieldsAreTheDocument(t *testing.T) {
	n := 0
	for name, v := range every() {
		if v.Project == nil {
			continue
		}
		for _, p := range Panels(v) {
			found, _ := scan(p.HTML)
			for _, e := range found {
				path := e.get("data-path")
				if e.get("data-do") != "set" || path == CamePath || strings.HasPrefix(path, "built/") || v.Wrong[path] != (Wrong{}) {
					continue
				}
				n++
				q := v.Project.Clone()
				if err := project.Set(q, path, "1"); err != nil {
					t.Errorf("%s: %s cannot be set: %v", name, path, err)
				}
				if e.tag == "input" && e.get("type") == "text" {
					if got, want := e.get("value"), project.Text(v.Project, path); got != want {
						t.Errorf("%s: %s shows %q, the document has %q", name, path, got, want)
					}
				}
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d controls seen", n)
	}
}

// A name that tries to be HTML stays a name, wherever a user can type one.
func TestHostileNames(t *testing.T) {
	const bad = `<zq a="zq" b='zq'>&zq;`
	var poison func(reflect.Value)
	poison = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer, reflect.Interface:
			if !v.IsNil() && v.Kind() == reflect.Pointer {
				poison(v.Elem())
			}
		case reflect.Struct:
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					poison(v.Field(i))
				}
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				poison(v.Index(i))
			}
		case reflect.String:
			if v.CanSet() && v.Type() == reflect.TypeFor[string]() {
				v.SetString(v.String() + bad)
			}
		}
	}
	for _, p := range places {
		v := small(p.place)
		v.Wrong["cabinet.width"] = Wrong{bad, bad}
		v.Was["cabinet.width"] = bad
		poison(reflect.ValueOf(&v).Elem())
		v.Project.Warnings = []string{bad}
		for i := range v.Findings {
			v.Findings[i].Args = append([]any{bad}, v.Findings[i].Args...)
		}
		out := Print(v, "parts", bad, nil) + Print(v, "cards", bad, nil) + Print(v, "saw", bad, nil)
		for _, panel := range Panels(v) {
			out += panel.HTML
			if _, err := scan(panel.HTML); err != nil {
				t.Errorf("%s: %s: %v", p.place, panel.ID, err)
			}
		}
		for _, s := range []string{"<zq", `"zq`, `'zq`, "&zq"} {
			if i := strings.Index(out, s); i >= 0 {
				t.Errorf("%s: %s came through: %s", p.place, s, out[max(0, i-60):min(len(out), i+20)])
			}
		}
		if !strings.Contains(out, "&lt;zq") {
			t.Errorf("%s: the names are not there at all", p.place)
		}
	}
}

func TestStrip(t *testing.T) {
	v := small(Size)
	want := map[string]string{"strip/sheets": "1", "strip/cost": "$84.50", "strip/cuts": "1", "strip/weight": "98.0", "strip/problems": "2"}
	for _, c := range Strip(v) {
		if c.Value != want[c.Key] {
			t.Errorf("%s is %q, want %q", c.Key, c.Value, want[c.Key])
		}
	}
	if got := strings.Count(panel(v, "strip"), `class="cell`); got != 5 {
		t.Errorf("%d cells", got)
	}
	if got, want := panel(v, "live"), "Problems 2. Heights do not add up: the sides would be -1 1/4, at least 3 is needed, 4 1/4 is missing. Lower the casters or raise the target."; got != want {
		t.Errorf("live:\n got %s\nwant %s", got, want)
	}
}

func panel(v View, id string) string {
	for _, p := range Panels(v) {
		if p.ID == id {
			return p.HTML
		}
	}
	return ""
}

func TestSawScreen(t *testing.T) {
	v := small(Saw)
	block := panel(v, "block")
	for _, want := range []string{
		`<b>3</b>`, "Crosscut R1a", "table saw", "Sawn edge, left, against the stop.", "Same stop as 2: ", "leave it.", "comes off: ", "Stop at", "23 and 1/4 inches",
	} {
		if !strings.Contains(block, want) {
			t.Errorf("the cut block lacks %q", want)
		}
	}
	if got, want := panel(v, "live"), "Cut 2 is done. Next: cut 3, crosscut R1a at 23 and 1/4 inches."; got != want {
		t.Errorf("live: got %q, want %q", got, want)
	}
	buttons := panel(v, "buttons")
	for _, want := range []string{"Undo 2", `data-do="unmark" data-cut="cut/0/b"`, "Cut 3 is done", `data-do="mark" data-cut="cut/0/c"`} {
		if !strings.Contains(buttons, want) {
			t.Errorf("the buttons lack %q: %s", want, buttons)
		}
	}

	// Nothing marked yet: the first cut takes the store's with it.
	v.State = mark.State{}
	if b := panel(v, "buttons"); !strings.Contains(b, `data-cut="cut/0/s cut/0/a"`) {
		t.Errorf("the first mark does not imply the store cut: %s", b)
	}
	if l := panel(v, "list"); !strings.Contains(l, "waits for 1") {
		t.Error("cut 2 does not say that it waits for 1")
	}
	// A chosen cut that is free comes first.
	v.Selected = "cut/0/d"
	if b := panel(v, "block"); !strings.Contains(b, "Crosscut R2") || !strings.Contains(b, "13") {
		t.Error("the chosen cut is not in the block")
	}
}

// While a divider is dragged only what a drag moves is made, and it is the same
// as without the drag.
func TestDragging(t *testing.T) {
	v := small(Size)
	all := map[string]string{}
	for _, p := range Panels(v) {
		all[p.ID] = p.HTML
	}
	v.Dragging = true
	few := Panels(v)
	for _, p := range few {
		if all[p.ID] != p.HTML {
			t.Errorf("%s differs while dragging", p.ID)
		}
		delete(all, p.ID)
	}
	for _, id := range []string{"strip", "live", "f-chain", "f-bays", "f-drawers"} {
		if _, left := all[id]; left {
			t.Errorf("%s does not move while dragging", id)
		}
	}
	if _, left := all["f-stock"]; !left {
		t.Error("the stock is made anew while dragging")
	}
}

func TestEmptyPanels(t *testing.T) {
	for _, p := range Panels(View{}) {
		if p.HTML != "" && p.ID != "rod" && p.ID != "head" && p.ID != "strip" && p.ID != "menu-body" {
			t.Errorf("without a project, %s says %q", p.ID, p.HTML)
		}
	}
}

func BenchmarkPanels(b *testing.B) {
	for _, dragging := range []bool{false, true} {
		name := map[bool]string{false: "all", true: "dragging"}[dragging]
		b.Run(name, func(b *testing.B) {
			v := small(Size)
			v.Dragging = dragging
			n := 0
			for b.Loop() {
				n = 0
				for _, p := range Panels(v) {
					n += len(p.HTML)
				}
			}
			b.ReportMetric(float64(n), "bytes")
		})
	}
}

func ExampleSentence() {
	tape := measure.Tape{}
	f := small(Check).Findings[1]
	println := func(s string) { os.Stdout.WriteString(s + "\n") }
	println(Plain(Sentence(f, tape)))
	// Output: Bay 2 is 1/2 too small: hose reel needs 16 wide, there is 15 1/2. Move the partition or cut the free space.
}
