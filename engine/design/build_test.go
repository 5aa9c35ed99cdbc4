package design

import (
	"os"
	"path/filepath"
	"testing"

	"cartwright/engine/project"
)

func open(t testing.TB, name string) *project.Project {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../testdata/projects", name))
	if err != nil {
		t.Fatal(err)
	}
	p, err := project.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestDemos(t *testing.T) {
	for _, name := range []string{"jointer-stand.json", "sharpening-cart.json"} {
		c, f := Build(open(t, name))
		for _, x := range f {
			t.Log(name, x.Level, x.Code, x.Where, x.Args)
		}
		for _, l := range c.Lines {
			t.Log(l.Tag, l.Name, l.Count, c.Tape.Plain(l.Length), "×", c.Tape.Plain(l.Width), c.Tape.Plain(l.Thick), l.Material)
		}
		for _, l := range c.Chain {
			t.Log(l.Name, c.Tape.Text(l.Height))
		}
		t.Log(c.Tape.Text(c.Target), c.Tape.Text(c.Reached), len(c.Parts))
		for _, h := range c.Hardware {
			t.Log(h)
		}
	}
}
