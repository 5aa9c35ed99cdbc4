package main

import "testing"

// TestOverlay: a program that could start what the edits take out keeps it;
// ours cannot. That the edited runtime works is in TestTightenedRuns.
func TestOverlay(t *testing.T) {
	for _, p := range starters {
		if _, err := overlay(t.TempDir(), []string{"runtime", p}); err == nil {
			t.Errorf("a program with %s in it was edited", p)
		}
	}
	for _, p := range programList() {
		packages, err := deps("../../wasm/" + p.name)
		if err != nil {
			t.Fatal(err)
		}
		if len(packages) < 20 {
			t.Errorf("%s has %d packages", p.name, len(packages))
		}
		if _, err := overlay(t.TempDir(), packages); err != nil {
			t.Errorf("%s: %v", p.name, err)
		}
	}
}
