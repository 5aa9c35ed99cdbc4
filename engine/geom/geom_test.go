package geom

import (
	"testing"

	"cartwright/engine/measure"
)

func TestContact(t *testing.T) {
	a := At(0, 0, 0, 10, 10, 10)
	for _, tt := range []struct {
		name string
		b    Box
		area measure.Area
		axis Axis
	}{
		{"face to face along x", At(10, 2, 3, 5, 4, 4), 16, X},
		{"on top", At(-5, -5, 10, 10, 10, 1), 25, Z},
		{"behind", At(0, 10, 0, 10, 1, 10), 100, Y},
		{"an edge only", At(10, 10, 0, 5, 5, 5), 0, X},
		{"apart", At(11, 0, 0, 5, 5, 5), 0, X},
		{"overlapping", At(5, 5, 5, 10, 10, 10), 0, X},
	} {
		area, axis := a.Contact(tt.b)
		if area != tt.area || area > 0 && axis != tt.axis {
			t.Errorf("%s: contact %d across %v, want %d across %v", tt.name, area, axis, tt.area, tt.axis)
		}
		back, _ := tt.b.Contact(a)
		if back != area {
			t.Errorf("%s: contact is not symmetric: %d, %d", tt.name, area, back)
		}
	}
}

func TestBox(t *testing.T) {
	a, b := At(0, 0, 0, 10, 10, 10), At(10, 0, 0, 1, 1, 1)
	if a.Overlaps(b) {
		t.Error("boxes that share a face do not overlap")
	}
	if !a.Contains(At(1, 1, 1, 9, 9, 9)) || a.Contains(At(1, 1, 1, 10, 1, 1)) {
		t.Error("Contains is wrong at the far corner")
	}
	if !(Box{}).Empty() || (Box{}).Union(a) != a || a.Union(b).Max[X] != 11 {
		t.Error("the zero box is empty and adds nothing")
	}
}
