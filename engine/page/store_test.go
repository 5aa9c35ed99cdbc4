package page

import (
	"strings"
	"testing"
)

// What is proven of sheets and of store cuts is said, and no more.
func TestWhatIsProven(t *testing.T) {
	for _, tt := range []struct {
		proven           bool
		cuts, least      int
		said, neverThere string
	}{
		{true, 6, 6, "Proven: no plan uses fewer sheets, and none that brings all of them home needs fewer store cuts.", "impossible"},
		{true, 7, 6, "Proven: no plan uses fewer sheets.", "store cuts"},
		{true, 0, 0, "Proven: no plan uses fewer sheets.", "store cuts"},
		{false, 6, 6, "fewer than 1 is impossible.", "Proven"},
	} {
		v := small(Store)
		v.Plan.Proven, v.Plan.StoreCuts, v.Plan.LeastCuts = tt.proven, tt.cuts, tt.least
		b := newBuilder(v)
		if got := Plain(html(b.quality())); !strings.Contains(got, tt.said) || strings.Contains(got, tt.neverThere) {
			t.Errorf("%v, %d cuts of at least %d: %s", tt.proven, tt.cuts, tt.least, got)
		}
	}
}
