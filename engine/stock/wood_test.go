package stock

import (
	"math"
	"testing"
)

// TestMovement: worked examples through the function that fronts are planned
// with. WOOD magazine, 2021: flat-sawn red alder of 8 in, 6 % more moisture, a
// coefficient of .0026: .1248 in. By hand from Wood Handbook FPL-GTR-190, Table
// 13-5: red oak of 12 in from 6 to 12 %, flat-sawn .266, quarter-sawn .114; a
// sugar maple stile of 2 1/2 in from 8 to 12 %: .035.
func TestMovement(t *testing.T) {
	oak, _ := WoodOf("red oak")
	maple, _ := WoodOf("sugar maple")
	for _, tt := range []struct{ w, c, from, to, want float64 }{
		{8, .0026, 6, 12, .1248}, {12, oak.CT, 6, 12, .266}, {12, oak.CR, 6, 12, .114}, {2.5, maple.CT, 8, 12, .035},
	} {
		if got, ok := Movement(tt.w, tt.c, tt.from, tt.to); !ok || math.Abs(got-tt.want) > 5e-4 {
			t.Errorf("%v in, %v, %v to %v %%: %.4f, want %.4f", tt.w, tt.c, tt.from, tt.to, got, tt.want)
		}
	}
	if _, ok := Movement(8, .0026, 4, 12); ok {
		t.Error("the coefficients hold from 6 to 14 %")
	}
}

// TestMovementBound: flat-sawn wood moves by less than .5 % of its width for each
// 1 % of moisture, and more than quarter-sawn: the largest coefficient of the
// hardwoods of Table 13-5 is .00462, overcup white oak. It catches a slip by a
// factor of ten, and a shrinkage from green to oven-dry taken for a coefficient.
func TestMovementBound(t *testing.T) {
	for _, w := range Woods {
		if w.CT >= .005 || w.CR > w.CT || w.CT > MostMovement || w.CT != 0 && w.CT < .001 {
			t.Errorf("%s: %v quarter-sawn, %v flat-sawn", w.Name, w.CR, w.CT)
		}
	}
}
