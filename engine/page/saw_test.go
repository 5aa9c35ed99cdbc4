package page

import (
	"strings"
	"testing"
)

// Three numbers or more in a row are written as a run.
func TestRuns(t *testing.T) {
	for _, tt := range []struct {
		in   []int
		want string
	}{
		{nil, ""},
		{[]int{7}, "7"},
		{[]int{7, 8}, "7, 8"},
		{[]int{7, 8, 9}, "7 to 9"},
		{[]int{2, 4, 5, 6, 9, 10}, "2, 4 to 6, 9, 10"},
	} {
		if got := strings.Join(runs(tt.in), ", "); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.in, got, tt.want)
		}
	}
}
