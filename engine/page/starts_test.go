package page

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestStarts: the menu offers every starting point that comes with the site, and
// no other.
func TestStarts(t *testing.T) {
	files, err := filepath.Glob("../../testdata/projects/*.json")
	if err != nil {
		t.Fatal(err)
	}
	var have, listed []string
	for _, f := range files {
		have = append(have, strings.TrimSuffix(filepath.Base(f), ".json"))
	}
	for _, s := range Starts {
		listed = append(listed, s.File)
	}
	slices.Sort(listed)
	if !slices.Equal(have, listed) {
		t.Errorf("in the folder: %q; in the menu: %q", have, listed)
	}
}
