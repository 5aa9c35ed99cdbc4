package draw_test

import (
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// millsOf are the grooves of a changed starting point.
func millsOf(t *testing.T, name string, change func(*project.Project)) (measure.Tape, []work.Mill) {
	t.Helper()
	p := opened(t, name)
	change(p)
	c, _ := design.Build(p)
	return p.Measure(), work.Mills(p, c, work.Steps{})
}

func kerfOf(s string) func(*project.Project) {
	return func(p *project.Project) { p.Shop.Saws[0].Kerf = in(s) }
}

func letIn(then func(*project.Project)) func(*project.Project) {
	return func(p *project.Project) {
		p.Drawers.Joint, p.Cabinet.Back.Kind = "under", "let-in"
		then(p)
	}
}

func mitred(p *project.Project)  { p.Drawers.Joint, p.Cabinet.Face.Corner = "under", "mitre" }
func noTable(p *project.Project) { p.Shop.Saws = p.Shop.Saws[1:] }
func asIs(*project.Project)      {}

var grooves = []struct {
	name, project string
	change        func(*project.Project)
	texts         string // that are drawn, parted by |
}{
	{"groove", "jointer-stand", asIs, "fence|inside face|7⁄32|15⁄32|blade 1⁄8|pass 1: 1⁄4|pass 2: 11⁄32"},
	{"blade of 3/32", "jointer-stand", kerfOf("3/32"), "blade 3⁄32|pass 1: 1⁄4|pass 2: 5⁄16|pass 3: 3⁄8"},
	{"blade of 1/4", "jointer-stand", kerfOf("1/4"), "blade 1⁄4|1⁄4|7⁄32|15⁄32"},
	{"router", "jointer-stand", noTable, "fence|bit 7⁄32|1⁄4|1⁄8|7⁄32|15⁄32"},
	{"rabbet", "jointer-stand", letIn(asIs), "board|blade 1⁄8|pass 1: 3⁄32|pass 2: 0|11⁄32|23⁄32"},
	{"buried blade", "jointer-stand", letIn(kerfOf("1/4")), "board|blade 1⁄4|1⁄32 in the board|7⁄32"},
	{"routed rabbet", "jointer-stand", letIn(noTable), "board|bit 7⁄32|1⁄8|11⁄32|23⁄32"},
	{"rabbet, metric", "tall-tool-cabinet", asIs, "board|blade 2.8|8.5|17.8|9"},
	{"mitre", "jointer-stand", mitred, "fence|outer face|blade at 45°|1⁄4"},
	{"mitre on a table saw", "jointer-stand", func(p *project.Project) { mitred(p); p.Shop.Saws = p.Shop.Saws[:1] }, "gauge|blade at 45°"},
	{"mitre box", "jointer-stand", func(p *project.Project) { mitred(p); p.Shop.Saws = nil }, "mitre box|saw at 45°"},
}

// TestGrooveWords: each drawing says its sizes, on every screen in the room
// that it gives; no word leaves the paper or covers another.
func TestGrooveWords(t *testing.T) {
	for _, tt := range grooves {
		tape, mills := millsOf(t, tt.project, tt.change)
		if len(mills) != 1 {
			t.Fatalf("%s: %d settings", tt.name, len(mills))
		}
		for _, size := range [][2]int{{420, 300}, {390, 505}, {692, 452}, {820, 276}, {820, 200}, {358, 240}, {280, 200}} {
			s := draw.Groove(tape, mills[0], size[0], size[1])
			var all []scene.Label
			for _, it := range s.Items {
				if l, ok := it.(scene.Label); ok {
					all = append(all, l)
				}
			}
			drawn := "|" + texts(s) + "|"
			for _, word := range strings.Split(tt.texts, "|") {
				if flat := size[0] > 2*size[1]; !strings.Contains(drawn, "|"+word+"|") && !(flat && strings.HasPrefix(word, "pass ")) {
					t.Errorf("%s at %v: %q is not drawn: %s", tt.name, size, word, drawn)
				}
			}
			for i, l := range all {
				r := l.Extent()
				if r.Min.X < 0 || r.Min.Y < 0 || r.Max.X > s.W || r.Max.Y > s.H {
					t.Errorf("%s at %v: %q leaves the paper", tt.name, size, l.Text)
				}
				for _, m := range all[:i] {
					if m.Extent().Meets(r) {
						t.Errorf("%s at %v: %q covers %q", tt.name, size, l.Text, m.Text)
					}
				}
			}
		}
	}
}

// TestGrooveScale: the blade stands where the first pass has it, against the
// thickness of the part, to a pixel or two; by hand for a groove 1/4 from the
// edge in 15/32, and a rabbet in 23/32.
func TestGrooveScale(t *testing.T) {
	for _, tt := range []struct {
		name                    string
		change                  func(*project.Project)
		thick, from, wide, deep string
	}{
		{"groove", asIs, "15/32", "1/4", "1/8", "7/32"},
		{"groove, blade of 3/32", kerfOf("3/32"), "15/32", "1/4", "3/32", "7/32"},
		{"groove, router", noTable, "15/32", "1/4", "7/32", "1/8"},
		{"rabbet", letIn(asIs), "23/32", "3/32", "1/8", "11/32"},
		{"rabbet, blade of 3/32", letIn(kerfOf("3/32")), "23/32", "1/8", "3/32", "11/32"},
		{"rabbet, buried blade", letIn(kerfOf("1/4")), "23/32", "-1/32", "1/4", "11/32"},
		{"rabbet, router", letIn(noTable), "23/32", "0", "7/32", "1/8"},
	} {
		tape, mills := millsOf(t, "jointer-stand", tt.change)
		s := draw.Groove(tape, mills[0], 692, 452)
		var part, blade scene.Rect
		for _, it := range s.Items {
			a, ok := it.(scene.Area)
			if !ok {
				continue
			}
			r := scene.Rect{Min: a.Pts[0], Max: a.Pts[0]}
			for _, p := range a.Pts {
				r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
				r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
			}
			switch {
			case a.Hatch == scene.PlyHatch:
				part = r
			case a.Fill == scene.Now:
				blade = r
			}
		}
		near := func(what string, got scene.Unit, want string) {
			w := scene.Unit(int64(part.H()) * int64(in(want)) / int64(in(tt.thick)))
			if max(got-w, w-got) > 2*scene.PX {
				t.Errorf("%s: %s is %d px, want %d for %s in", tt.name, what, got/scene.PX, w/scene.PX, want)
			}
		}
		near("the way from the fence", blade.Min.X-part.Min.X, tt.from)
		near("the blade's width", blade.W(), tt.wide)
		near("its height", min(blade.Max.Y, part.Max.Y)-max(blade.Min.Y, part.Min.Y), tt.deep)
	}
}

// printedGroove is the drawing of a name in grooves, as large as it is printed.
func printedGroove(t *testing.T, name string) scene.Scene {
	for _, tt := range grooves {
		if tt.name == name {
			tape, mills := millsOf(t, tt.project, tt.change)
			return draw.Groove(tape, mills[0], 420, 300)
		}
	}
	panic(name)
}
