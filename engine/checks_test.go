package engine_test

import (
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/check"
)

// TestChecksOfStarts: every starting point gets the whole row of checks, each
// once, the worst first.
func TestChecksOfStarts(t *testing.T) {
	files, err := filepath.Glob("../testdata/projects/*.json")
	if err != nil || len(files) < 7 {
		t.Fatalf("%d starting points, %v", len(files), err)
	}
	for _, name := range files {
		name = strings.TrimSuffix(filepath.Base(name), ".json")
		r := whole(t, open(t, name))
		titles := map[string]check.Sum{}
		for _, s := range r.Report.Sums {
			if _, twice := titles[s.Title]; twice {
				t.Errorf("%s: %s is there twice", name, s.Title)
			}
			titles[s.Title] = s
		}
		for _, want := range []string{"A push at the top", "Sag of the worktop", "Sag of the bottom", "Screws", "Racking of the case",
			"Will it fit", "Weight while building", "Full sheets", "Pieces in the car and at the saw"} {
			s, ok := titles[want]
			if !ok || s.Verdict == "" {
				t.Errorf("%s: no answer to %q", name, want)
			}
		}
		standing := 0
		for title := range titles {
			if strings.HasPrefix(title, "Tipping") || title == "Standing" {
				standing++
			}
		}
		if standing != 1 {
			t.Errorf("%s: %d sums about standing", name, standing)
		}
		last := check.Fails
		rank := map[check.State]int{check.Fails: 0, check.NotChecked: 1, check.Fact: 2, check.Fine: 3}
		for _, s := range r.Report.Sums {
			if rank[s.State] < rank[last] {
				t.Errorf("%s: %s stands after a lesser one", name, s.Title)
			}
			last = s.State
		}
	}
}
