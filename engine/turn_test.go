package engine

import (
	"testing"

	"cartwright/engine/measure"
)

// A row is a stack of cells, sizes in sixteenths of an inch; what lies beside
// the moved line changes, nothing else.
var shiftTests = []struct {
	name        string
	sizes       []int
	shares      []bool
	line, by    int
	want        []int // fixed sizes; 0 for a share
	wantClamped bool
}{
	{"two shares: the left is fixed", []int{256, 256}, []bool{true, true}, 0, 8, []int{264, 0}, false},
	{"left fixed, right a share", []int{256, 256}, []bool{false, true}, 0, -8, []int{248, 0}, false},
	{"left a share, right fixed", []int{256, 256}, []bool{true, false}, 0, 8, []int{0, 248}, false},
	{"both fixed", []int{256, 200}, []bool{false, false}, 0, 8, []int{264, 192}, false},
	{"a third share stays as it is", []int{256, 256, 256}, []bool{true, true, true}, 0, 8, []int{264, 0, 256}, false},
	{"both fixed beside a share", []int{256, 200, 99}, []bool{false, false, true}, 0, 8, []int{264, 192, 0}, false},
	{"share beside fixed and a far share", []int{256, 200, 99}, []bool{true, false, true}, 0, 8, []int{0, 192, 99}, false},
	{"not below the least", []int{256, 64}, []bool{false, false}, 0, 400, nil, true},
}

func TestShift(t *testing.T) {
	const unit = measure.Inch / 16
	tape := measure.Tape{}
	for _, tt := range shiftTests {
		fixed := make([]measure.Length, len(tt.sizes))
		cells := make([]cell, len(tt.sizes))
		for i, s := range tt.sizes {
			size := measure.Length(s) * unit
			if !tt.shares[i] {
				fixed[i] = size
			}
			cells[i] = cell{size, &fixed[i]}
		}
		shift(cells, tt.line, measure.Length(tt.by)*unit, tape)
		if tt.wantClamped {
			if fixed[tt.line+1] < least || fixed[tt.line]+fixed[tt.line+1] != measure.Length(tt.sizes[tt.line]+tt.sizes[tt.line+1])*unit {
				t.Errorf("%s: got %v", tt.name, fixed)
			}
			continue
		}
		for i, w := range tt.want {
			if fixed[i] != measure.Length(w)*unit {
				t.Errorf("%s: cell %d is %s, want %s", tt.name, i, tape.Text(fixed[i]), tape.Text(measure.Length(w)*unit))
			}
		}
	}
}

func TestIndices(t *testing.T) {
	for _, tt := range []struct {
		ref  string
		want int
		ok   bool
	}{{"bay/0", 1, true}, {"opening/0/1", 2, true}, {"bay/", 0, false}, {"bay", 0, false}, {"bay/-1", 0, false}, {"bay/x", 0, false}} {
		if at, ok := Indices(tt.ref); ok != tt.ok || ok && len(at) != tt.want {
			t.Errorf("Indices(%q) = %v, %v", tt.ref, at, ok)
		}
	}
}

// Behind a face frame a bay is wider than its opening: a handle moves by what it
// is dragged, not by the stiles as well.
func TestDivideFaceFrame(t *testing.T) {
	p := opened(t, "low-assembly-cart")
	c := Design(p).Cart
	for _, by := range []measure.Length{0, measure.Inch / 4, -measure.Inch} {
		q := p.Clone()
		if !Divide(q, c, "bay/0", by) {
			t.Fatal("it cannot be dragged")
		}
		d := Design(q).Cart
		if got := d.Bays[0].Inside.Size(0) - c.Bays[0].Inside.Size(0); got != by {
			t.Errorf("dragged by %v, the bay grows by %v", by, got)
		}
	}
}
