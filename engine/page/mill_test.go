package page

import (
	"fmt"
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

func inch(s string) measure.Length {
	l, err := measure.Tape{}.Parse(s)
	if err != nil {
		panic(err)
	}
	return l
}

// millsOf are the grooves of a changed jointer stand, and a builder to say them.
func millsOf(t *testing.T, change func(*project.Project)) (*builder, []work.Mill) {
	t.Helper()
	v := started(t, "jointer-stand", change)
	return newBuilder(View{Project: v.Project, Cart: v.Cart}), work.Mills(v.Project, v.Cart, work.Steps{})
}

// TestMillSays, by hand: a groove 1/4 from the edge for a bottom of 7/32, 7/32
// deep; a rabbet for a back of 7/32 in sides of 23/32, 11/32 deep (half, down
// to the tape); mitred strips. Every sentence is of the tool that does it.
func TestMillSays(t *testing.T) {
	kerf := func(s string) func(*project.Project) {
		return func(p *project.Project) { p.Shop.Saws[0].Kerf = inch(s) }
	}
	keep := func(kinds string) func(*project.Project) {
		return func(p *project.Project) {
			var out []project.Saw
			for _, s := range p.Shop.Saws {
				if strings.Contains(kinds, s.Kind) {
					out = append(out, s)
				}
			}
			p.Shop.Saws = out
		}
	}
	groove := func(*project.Project) {}
	rabbet := func(p *project.Project) { p.Drawers.Joint, p.Cabinet.Back.Kind = "under", "let-in" }
	mitre := func(p *project.Project) { p.Drawers.Joint, p.Cabinet.Face.Corner = "under", "mitre" }
	for _, tt := range []struct {
		name       string
		what, with func(*project.Project)
		figure     string
		say        string // sentences it must say, parted by |
		never      string // words of other tools
	}{
		{"groove", groove, groove, "Fence at 1/4", "Blade 7/32 high. Inside face down, bottom edge on the fence.|2 passes, all parts at each setting: fence at 1/4 and 11/32.|set the last pass by it: Y must slide in by hand.", "outer"},
		{"groove, blade of 3/32", groove, kerf("3/32"), "Fence at 1/4", "3 passes, all parts at each setting: fence at 1/4, 5/16 and 3/8.", "outer"},
		{"groove, blade of 1/4", groove, kerf("1/4"), "Fence at 1/4", "One pass: the blade is 1/32 wider than the groove", "outer| passes"},
		{"groove, blade of 9/32", groove, kerf("9/32"), "Fence at 1/4", "One pass: the blade is 1/16 wider than the groove", "outer| passes"},
		{"groove, blade of its width", groove, kerf("7/32"), "Fence at 1/4", "One pass.", "wider| passes"},
		{"groove, no table saw", groove, keep("track mitre"), "Fence at 1/4", "By hand inside face up and clamped, on a router table face down; bottom edge along the fence. Bit 1/8 deep, then 7/32.|Fence 1/4 from the bit. A bit narrower than 7/32 takes a second pass", "lade|Inside face down"},
		{"groove, a table saw too short for it", groove, func(p *project.Project) { p.Shop.Saws[0].Length = inch("10") }, "Fence at 1/4", "Bit 1/8 deep, then 7/32.", "lade"},
		{"rabbet", rabbet, groove, "Board at 3/32", "Blade 11/32 high. Inside face down, back edge on the fence.|2 passes, all parts at each setting: board at 3/32 from the blade, then touching it.|and set the first pass by it: |must lie flush", "slide| bit"},
		{"rabbet, blade of 3/32", rabbet, kerf("3/32"), "Board at 1/8", "3 passes, all parts at each setting: board at 1/8 and 1/16 from the blade, then touching it.", "slide| bit"},
		{"rabbet, blade of 1/4", rabbet, kerf("1/4"), "Blade shows 7/32", "Screw a board to the fence and let the blade rise into it by 1/32, so that 7/32 of it shows. One pass.", " passes| bit"},
		{"rabbet, blade of 5/16", rabbet, kerf("5/16"), "Blade shows 7/32", "let the blade rise into it by 3/32, so that 7/32 of it shows. One pass.", " passes| bit"},
		{"rabbet, blade of its width", rabbet, kerf("7/32"), "Blade shows 7/32", "so that the blade may touch it. One pass, touching it.", " passes| bit|rise"},
		{"rabbet, no table saw", rabbet, keep("track mitre"), "Bit shows 7/32", "back edge along the fence. Bit 1/8 deep, then 7/32 and 11/32.|a straight bit let into a board on the fence: 7/32 of it shows.", "lade|Inside face down"},
		{"mitre", mitre, groove, "Angle 45°", "Saw turned to 45°, outer face against the fence: the long point lies there", "lade|gauge|box"},
		{"mitre, no mitre saw", mitre, keep("table track"), "Angle 45°", "Mitre gauge at 45°, blade upright, outer face against the gauge: the long point", "turned|box"},
		{"mitre, neither", mitre, keep("track"), "Angle 45°", "Mitre box, outer face against its far side: the long point", "lade|gauge|turned"},
	} {
		b, mills := millsOf(t, func(p *project.Project) { tt.what(p); tt.with(p) })
		if len(mills) != 1 {
			t.Errorf("%s: %d steps", tt.name, len(mills))
			continue
		}
		over, set := millFigure(mills[0])
		figure := over + " " + measure.Tape{}.Plain(set)
		if set == 0 {
			figure = over + " 45°"
		}
		if figure != tt.figure {
			t.Errorf("%s: the figure is %q, want %q", tt.name, figure, tt.figure)
		}
		said := Plain(strings.Join(b.millSays(mills[0]), " "))
		for _, s := range strings.Split(tt.say, "|") {
			if !strings.Contains(said, s) {
				t.Errorf("%s: %q is not said: %s", tt.name, s, said)
			}
		}
		for _, s := range strings.Split(tt.never, "|") {
			if strings.Contains(said, s) {
				t.Errorf("%s: %q is said: %s", tt.name, s, said)
			}
		}
		// Screen and paper say the same.
		b.Steps.Mills = mills
		for where, shown := range map[string]string{"the screen": html(b.millBlock(mills[0])), "the print": html(b.printSaw("", func(int) item { return nil }))} {
			for _, s := range b.millSays(mills[0]) {
				if !strings.Contains(shown, html(rich(s))) {
					t.Errorf("%s: %s lacks %q", tt.name, where, Plain(s))
				}
			}
			if !strings.Contains(shown, millBy(mills[0])) && !strings.Contains(shown, capital(millBy(mills[0]))) {
				t.Errorf("%s: %s does not name the tool", tt.name, where)
			}
		}
	}
}

// TestMillLetters: forty settings have forty letters, none that looks like a
// digit; after u, the twenty-first of them, comes a2.
func TestMillLetters(t *testing.T) {
	b, mills := millsOf(t, func(*project.Project) {})
	for i := range 40 {
		m := mills[0]
		m.IDs = []string{fmt.Sprintf("mill/q%d/0", i)}
		b.Steps.Mills = append(b.Steps.Mills, m)
	}
	list := html(b.millList(work.Mill{}))
	seen := map[string]bool{}
	for i, row := range strings.Split(list, `"badge" aria-hidden="true">`)[1:] {
		l, _, _ := strings.Cut(row, "<")
		if seen[l] || strings.ContainsAny(l, "iloq") || i == 0 && l != "a" || i == 9 && l != "k" || i == 20 && l != "z" || i == 21 && l != "a2" {
			t.Errorf("%d: %q", i, l)
		}
		seen[l] = true
	}
	if len(seen) != 40 {
		t.Errorf("%d letters: %v", len(seen), seen)
	}
}

// TestNextMill: the chosen one that is not done comes first, also when the
// cuts are made; while cuts are left, only that.
func TestNextMill(t *testing.T) {
	steps := work.Steps{Mills: []work.Mill{{IDs: []string{"mill/a/0"}}, {IDs: []string{"mill/b/0", "mill/c/0"}}, {IDs: []string{"mill/d/0"}}}}
	done := mark.Fold([]mark.Mark{{Kind: mark.Done, On: "mill/a/0"}, {Kind: mark.Done, On: "mill/b/0"}})
	for _, tt := range []struct {
		chosen string
		left   bool
		want   string
	}{
		{"", true, ""}, {"", false, "mill/b/0"}, {"mill/d/0", true, "mill/d/0"}, {"mill/d/0", false, "mill/d/0"},
		{"mill/a/0", true, ""}, {"mill/a/0", false, "mill/b/0"}, {"part/A", false, "mill/b/0"},
	} {
		m, ok := NextMill(steps, done, tt.chosen, tt.left)
		if ok != (tt.want != "") || ok && m.IDs[0] != tt.want {
			t.Errorf("chosen %q, cuts left %v: %v, %v; want %q", tt.chosen, tt.left, m.IDs, ok, tt.want)
		}
	}
}
