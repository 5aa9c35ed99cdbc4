package work

import (
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// TestMills, by hand on the jointer stand: three boxes with a bottom of 7/32,
// let in 7/32 deep (half of 15/32, down to the tape) and 1/4 from the bottom
// edge. A blade of 1/8 makes 7/32 in two passes, 3/32 apart.
func TestMills(t *testing.T) {
	base := func() *project.Project { return startingPoints(t)["jointer-stand"] }
	bottom := func(p *project.Project) *project.Material {
		for i := range p.Stock.Materials {
			if p.Stock.Materials[i].ID == p.Drawers.Bottom {
				return &p.Stock.Materials[i]
			}
		}
		t.Fatal("no bottom")
		return nil
	}
	tests := []struct {
		name   string
		change func(*project.Project)
		verb   string
		fences string
		over   measure.Length
		saw    string
		parts  int
	}{
		{"as it is", func(*project.Project) {}, "Groove", "1/4 11/32", 0, "table saw", 12},
		{"the bottom measures 1/4", func(p *project.Project) { bottom(p).Measured = in("1/4") }, "Groove", "1/4 3/8", 0, "table saw", 12},
		{"a blade of 3/32 takes a third pass", func(p *project.Project) { p.Shop.Saws[0].Kerf = in("3/32") }, "Groove", "1/4 5/16 3/8", 0, "table saw", 12},
		{"a blade of 1/4 is 1/32 too wide", func(p *project.Project) { p.Shop.Saws[0].Kerf = in("1/4") }, "Groove", "1/4", in("1/32"), "table saw", 12},
		{"no table saw", func(p *project.Project) { p.Shop.Saws = p.Shop.Saws[1:] }, "Groove", "", 0, "", 12},
		{"bottoms under the boxes", func(p *project.Project) { p.Drawers.Joint = "under" }, "", "", 0, "", 0},
		{"a back let in: two sides get a rabbet", func(p *project.Project) { p.Drawers.Joint, p.Cabinet.Back.Kind = "under", "let-in" }, "Rabbet", "3/32 0", 0, "table saw", 2},
		{"its blade of 1/4 stands 1/32 in the board", func(p *project.Project) {
			p.Drawers.Joint, p.Cabinet.Back.Kind, p.Shop.Saws[0].Kerf = "under", "let-in", in("1/4")
		}, "Rabbet", "-1/32", in("1/32"), "table saw", 2},
		{"a second table saw with a blade of 7/32 for the groove", func(p *project.Project) {
			p.Shop.Saws[0].Kerf = in("1/4")
			p.Shop.Saws = append(p.Shop.Saws, project.Saw{Name: "old saw", Kind: "table", Kerf: in("7/32")})
		}, "Groove", "1/4", 0, "old saw", 12},
		{"mitred strips: four ends", func(p *project.Project) { p.Drawers.Joint, p.Cabinet.Face.Corner = "under", "mitre" }, "Mitre", "", 0, "mitre saw", 4},
	}
	for _, tt := range tests {
		p := base()
		tt.change(p)
		c, _ := design.Build(p)
		mills := Mills(p, c, Steps{})
		if tt.verb == "" {
			if len(mills) != 0 {
				t.Errorf("%s: %+v", tt.name, mills)
			}
			continue
		}
		if len(mills) != 1 {
			t.Errorf("%s: %d settings: %+v", tt.name, len(mills), mills)
			continue
		}
		m := mills[0]
		var fences []string
		for _, f := range m.Fences {
			fences = append(fences, measure.Tape{}.Plain(f))
		}
		if m.Verb != tt.verb || strings.Join(fences, " ") != tt.fences || m.Over != tt.over || m.Saw != tt.saw || len(m.Parts) != tt.parts || len(m.IDs) != tt.parts {
			t.Errorf("%s: %+v", tt.name, m)
		}
		half := tt.parts / 2
		if m.Verb == "Groove" { // fronts and backs have no hand
			half = 3
		}
		if m.Left != half || m.Right != half {
			t.Errorf("%s: %d left, %d right", tt.name, m.Left, m.Right)
		}
		seen := map[string]bool{}
		for _, id := range m.IDs {
			if seen[id] || strings.Contains(id, " ") {
				t.Errorf("%s: %q", tt.name, id)
			}
			seen[id] = true
		}
	}
}

// TestMillsWait: a groove waits for every cut that frees a part of its lines,
// and a dado is one that runs across the grain.
func TestMillsWait(t *testing.T) {
	p := startingPoints(t)["jointer-stand"]
	c, _ := design.Build(p)
	side := -1
	for i, l := range c.Lines {
		if len(l.Parts) > 0 && l.Parts[0] == "bay1/drawer1/side-left" {
			side = i
		}
	}
	steps := Steps{Shop: []Cut{{ID: "cut/0/a", Lines: []int{-1, side}}, {ID: "cut/0/b", Lines: []int{0}}}}
	if m := Mills(p, c, steps); len(m) != 1 || len(m[0].After) != 1 || m[0].After[0] != "cut/0/a" {
		t.Errorf("%+v", m)
	}
	for i, q := range c.Parts {
		if q.ID == "bay1/drawer1/side-left" {
			c.Parts[i].Grain = part.AlongWidth
		}
	}
	if m := Mills(p, c, Steps{}); len(m) != 2 || m[0].Verb != "Dado" || !m[0].Across || len(m[0].Parts) != 1 {
		t.Errorf("%+v", m)
	}
}
