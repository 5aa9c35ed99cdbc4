package page

import (
	"strings"
	"testing"
)

// What is proven of sheets and of store cuts is said, and no more.
func TestWhatIsProven(t *testing.T) {
	for _, tt := range []struct {
		proven               bool
		cuts, least, leaving int
		said, neverThere     string
	}{
		{true, 6, 6, 6, "Proven: no plan uses fewer sheets, and none on so many needs fewer store cuts.", "home"},
		{true, 6, 6, 5, "Proven: no plan uses fewer sheets, and none that brings all of them home needs fewer store cuts.", "impossible"},
		{true, 7, 6, 6, "Proven: no plan uses fewer sheets.", "store cuts"},
		{true, 0, 0, 0, "Proven: no plan uses fewer sheets.", "store cuts"},
		{false, 6, 6, 6, "fewer than 1 is impossible.", "Proven"},
	} {
		v := small(Store)
		v.Plan.Proven, v.Plan.StoreCuts, v.Plan.LeastCuts, v.Plan.LeastLeaving = tt.proven, tt.cuts, tt.least, tt.leaving
		b := newBuilder(v)
		if got := Plain(html(b.quality())); !strings.Contains(got, tt.said) || strings.Contains(got, tt.neverThere) {
			t.Errorf("%v, %d cuts of at least %d, %d: %s", tt.proven, tt.cuts, tt.least, tt.leaving, got)
		}
	}
}
