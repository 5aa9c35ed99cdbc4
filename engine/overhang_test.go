package engine

import (
	"os"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// opened is a starting point.
func opened(t *testing.T, name string) *project.Project {
	t.Helper()
	data, err := os.ReadFile("../testdata/projects/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := project.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestOverhang: the handles of the worktop move its edges: to the left and the
// front it grows against the axes of the drawing, never under 0.
func TestOverhang(t *testing.T) {
	const in = measure.Inch
	for _, tt := range []struct {
		ref  string
		by   measure.Length
		of   func(*project.Project) measure.Length
		want measure.Length
	}{
		{"top/left", -in / 2, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Left }, in * 3 / 2},
		{"top/left", 5 * in, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Left }, 0},
		{"top/right", in / 2, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Right }, in * 3 / 2},
		{"top/front", in / 4, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Front }, in * 5 / 4},
		{"side/front", -in / 4, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Front }, in * 5 / 4},
		{"top/back", -in, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Back }, in * 3 / 2},
		{"side/back", 40 * in, func(p *project.Project) measure.Length { return p.Cabinet.Top.Overhang.Back }, widest},
	} {
		p := opened(t, "jointer-stand")
		c, _ := design.Build(p)
		if !Divide(p, c, tt.ref, tt.by) || tt.of(p) != tt.want {
			t.Errorf("%s by %v: %v, by hand %v", tt.ref, tt.by, tt.of(p), tt.want)
		}
	}
	p := opened(t, "jointer-stand")
	if c, _ := design.Build(p); Divide(p, c, "top/up", in) || Divide(p, c, "side/left", in) {
		t.Error("a handle that is none moves something")
	}
}
