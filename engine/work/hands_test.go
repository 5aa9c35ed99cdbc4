package work

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A dot is a hole as a part holds it in its own frame: length, width, thickness,
// from the middle; with the face it goes in from.
type dot struct {
	at   [3]measure.Length
	from int // 1 to 3 for an axis, negative for its low face
}

// dots are the holes of part i that are made before assembly.
func dots(c design.Cart, drills []Drill, i int) []dot {
	p := c.Parts[i]
	axes := [3]geom.Axis{p.LengthAxis, p.WidthAxis, p.ThickAxis()}
	// A frame of the other hand has its last axis turned round.
	turn := [3]measure.Length{1, 1, 1}
	if (axes[1]-axes[0]+3)%3 != 1 {
		turn[2] = -1
	}
	var out []dot
	for _, d := range drills {
		if d.Part != i || d.When != Flat || d.Kind == PinHole {
			continue
		}
		for _, s := range d.Spots {
			var x dot
			for k, a := range axes {
				x.at[k] = turn[k] * (2*s.At[a] - p.Box.Min[a] - p.Box.Max[a])
				if a == d.Face.Axis {
					x.from = k + 1
					if d.Face.High != (turn[k] > 0) {
						x.from = -x.from
					}
				}
			}
			out = append(out, x)
		}
	}
	return out
}

// alike reports whether b is a with the axes turned as flip says.
func alike(a, b []dot, flip [3]measure.Length, tol measure.Length) bool {
	if len(a) != len(b) {
		return false
	}
	for _, x := range a {
		found := false
		for _, y := range b {
			from := x.from
			if flip[max(from, -from)-1] < 0 {
				from = -from
			}
			ok := from == y.from
			for k := range x.at {
				ok = ok && (x.at[k]*flip[k]-y.at[k]).Abs() <= tol
			}
			found = found || ok
		}
		if !found {
			return false
		}
	}
	return true
}

// TestNoTwoLefts: parts on one line of the cut list may be drilled alike, one of
// them turned over if need be; none is the mirror image of another.
func TestNoTwoLefts(t *testing.T) {
	files, err := filepath.Glob("../../testdata/projects/*.json")
	if err != nil || len(files) < 7 {
		t.Fatal(len(files), err)
	}
	compared, caught := 0, 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p, err := project.Open(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, face := range []string{"", "frame"} {
			if face != "" {
				p.Cabinet.Face.Kind = face
			}
			c, _ := design.Build(p)
			drills := Drills(p, c).Drills
			at := map[part.ID]int{}
			for i, q := range c.Parts {
				at[q.ID] = i
			}
			mirrored := func(a, b part.ID) bool {
				x, y := dots(c, drills, at[a]), dots(c, drills, at[b])
				tol := 4 * c.Tape.Least()
				turns := [][3]measure.Length{{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}}
				for _, f := range turns {
					if alike(x, y, f, tol) {
						return false
					}
				}
				for _, f := range turns {
					if alike(x, y, [3]measure.Length{-f[0], -f[1], -f[2]}, tol) {
						return true
					}
				}
				return false
			}
			for _, l := range c.Lines {
				for k := 1; k < len(l.Parts); k++ {
					compared++
					if mirrored(l.Parts[0], l.Parts[k]) {
						t.Errorf("%s: %s and %s of line %s are mirror images", filepath.Base(file), l.Parts[0], l.Parts[k], l.Tag)
					}
				}
			}
			for id := range at { // the check sees what it must
				right := part.ID(strings.Replace(string(id), "left", "right", 1))
				if _, ok := at[right]; ok && right != id && mirrored(id, right) {
					caught++
				}
			}
		}
	}
	if compared < 50 || caught < 5 {
		t.Errorf("%d pairs compared, %d mirrored pairs seen", compared, caught)
	}
}
