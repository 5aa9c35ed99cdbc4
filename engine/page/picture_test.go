package page

import (
	"strconv"
	"strings"
	"testing"
	"unicode"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// TestPictures: the drawings stay on their grid of 24, no two answers to one
// choice look alike, and every answer to a choice that has one has its own.
func TestPictures(t *testing.T) {
	fields := map[string]map[drawn]bool{}
	for key, d := range pictures {
		path, _, _ := strings.Cut(key, "=")
		if fields[path] == nil {
			fields[path] = map[drawn]bool{}
		}
		if fields[path][d] {
			t.Errorf("%s looks like another answer", key)
		}
		fields[path][d] = true
		for _, n := range strings.FieldsFunc(string(d), func(r rune) bool { return unicode.IsLetter(r) || r == ' ' }) {
			for _, m := range strings.Split(strings.ReplaceAll(n, "-", " -"), " ") {
				if v, err := strconv.ParseFloat(m, 64); m != "" && (err != nil || v < -24 || v > 24) {
					t.Errorf("%s: %q in %s", key, m, d)
				}
			}
		}
	}
	b := newBuilder(started(t, "jointer-stand", func(*project.Project) {}))
	html := ""
	for _, s := range sections {
		if n := s.make(b); n != nil {
			var buf buffer
			n.write(&buf)
			html += string(buf)
		}
	}
	for path, answers := range fields {
		if !strings.Contains(html, `id="i-`+path+`"`) {
			continue // it hangs on another choice
		}
		if n := strings.Count(html, `id="p-`+path+`-`); n != len(answers) {
			t.Errorf("%s shows %d drawings of %d", path, n, len(answers))
		}
	}
	if strings.Count(html, `class="pics"`) < 10 {
		t.Errorf("only %d choices have drawings", strings.Count(html, `class="pics"`))
	}
}

// TestEntryPictures: entries of lists have drawings too: four kinds of opening
// each, hinges of a single door, the sides of a need.
func TestEntryPictures(t *testing.T) {
	v := started(t, "low-assembly-cart", func(p *project.Project) { p.Machine.Needs = []project.Need{{Name: "port"}} })
	v.Place = Size
	b := newBuilder(v)
	html := html(b.bays(), b.lineUp())
	n := 0
	for _, bay := range v.Project.Cabinet.Bays {
		n += len(bay.Openings)
	}
	for _, tt := range []struct {
		end  string
		want int
	}{{".kind-drawer\"", n}, {".kind-door\"", n}, {".hinge-left\"", 1}, {".doors-2\"", 1}, {"needs.0.side-back\"", 1}} {
		if got := strings.Count(html, tt.end+" "); got != tt.want {
			t.Errorf("%d drawings end in %s, want %d", got, tt.end, tt.want)
		}
	}
}

// TestPicturesOfPlainPath: a field outside the document, whose path is one word,
// has no drawings and harms nobody.
func TestPicturesOfPlainPath(t *testing.T) {
	for _, path := range []string{"flaw-piece", "", "."} {
		if got := newBuilder(View{}).pics(path, "", "", []option{{"", "none"}}); got != nil {
			t.Errorf("%q: %v", path, got)
		}
	}
}

// TestHolePicture, by hand: a panel of 40 × 20 in lying flat is drawn 20 wide and
// 10 high, from 2 to 22 and from 7 to 17 on a grid of 24. A hole of 4 in, 10 in from its
// left end and 5 in from its front, is a ring of radius 1 about (7, 14.5). On an
// upright of the same size it lies 2.5 from the left and 5 from the foot.
func TestHolePicture(t *testing.T) {
	p := part.Part{Length: 40 * measure.Inch, Width: 20 * measure.Inch, LengthAxis: geom.X}
	h := project.PanelHole{Diameter: 4 * measure.Inch, Along: 10 * measure.Inch, Across: 5 * measure.Inch}
	if got := html(holePicture(p, h)); !strings.Contains(got, "M2.0 17.0h20.0v-10.0h-20.0zM6.0 14.5a1.0 1.0 0 1 0 2.0 0a1.0 1.0 0 1 0 -2.0 0") {
		t.Error(got)
	}
	p.LengthAxis = geom.Z
	if got := html(holePicture(p, h)); !strings.Contains(got, "M7.0 22.0h10.0v-20.0h-10.0zM8.5 17.0a1.0") {
		t.Error(got)
	}
	h.Across = 19 * measure.Inch // breaks out
	if holePicture(p, h) != nil {
		t.Error("a hole over the edge is drawn")
	}
}
