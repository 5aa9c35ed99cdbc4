package engine_test

import (
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/issue"
	"cartwright/engine/nest"
)

// TestOptionSamples: the samples in which every option stands run from project
// to bench: all parts placed, the plan stands up to its judge, every part comes
// into the building, nothing blocks.
func TestOptionSamples(t *testing.T) {
	files, err := filepath.Glob("../testdata/projects/options/*.json")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d samples, %v", len(files), err)
	}
	for _, name := range files {
		name = "options/" + strings.TrimSuffix(filepath.Base(name), ".json")
		p := open(t, name)
		r := engine.Design(p)
		best := plan(t, r.Job, 200)
		r = engine.Finish(p, r, best)
		if v := nest.Verify(r.Job, best); len(v) != 0 || len(best.Left) != 0 {
			t.Errorf("%s: %v, %d parts left", name, v, len(best.Left))
		}
		for _, f := range r.Findings {
			if f.Level == issue.Block || f.Code == "work.no-way" {
				t.Errorf("%s: %s %v %v", name, f.Code, f.Where, f.Args)
			}
		}
		built := map[int]bool{}
		for _, s := range r.Bench.Steps {
			for _, a := range s.Adds {
				built[a.Part] = true
			}
		}
		if len(built) != len(r.Cart.Parts) {
			t.Errorf("%s: %d of %d parts are built in", name, len(built), len(r.Cart.Parts))
		}
	}
}
