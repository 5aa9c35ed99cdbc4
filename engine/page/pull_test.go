package page

import (
	"strings"
	"testing"
)

// TestPullFields: number, spacing and height of the pulls are fields at Size,
// the number with three drawings.
func TestPullFields(t *testing.T) {
	v := started(t, "jointer-stand", nil)
	v.Place = Size
	h := html(newBuilder(v).drawers())
	for _, want := range []string{`id="i-drawers.pulls"`, `id="i-drawers.pull"`, `id="i-drawers.pullAt"`, `id="p-drawers.pulls-0"`, `id="p-drawers.pulls-1"`, `id="p-drawers.pulls-2"`} {
		if !strings.Contains(h, want) {
			t.Errorf("no %s at Size", want)
		}
	}
}
