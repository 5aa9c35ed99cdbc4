package page

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// TestSumLine: a sum on paper shows each term with its sign, and what rounding
// did; another term changes what is shown.
func TestSumLine(t *testing.T) {
	const in = measure.Inch
	b := &builder{t: measure.Tape{Step: in / 32}}
	for _, tt := range []struct {
		r    part.Reason
		want string
	}{
		{part.Sum(part.Term{Name: "sides", Times: 1, Value: 19 * in}), "19: sides"},
		{part.Sum(part.Term{Name: "depth", Times: 1, Value: 22 * in}, part.Term{Name: "stile", Times: -2, Value: 3 * in / 2}), "19 = 22 depth \u2212 2 × 1 1\u20442 stile"},
		{part.Sum(part.Term{Name: "depth", Times: 1, Value: 22 * in}, part.Term{Name: "step", Times: 1, Value: -in / 4}), "21 3\u20444 = 22 depth \u2212 1\u20444 step"},
		{part.Sum(part.Term{Name: "rest", Times: -1, Value: -3 * in}), "3 = 3 rest"},
		{part.Sum(part.Term{Name: "width", Times: 1, Value: 10*in + in/64}).RoundedBy(func(measure.Length) measure.Length { return 10 * in }), "10 = 10 1\u204464 width, rounded down"},
	} {
		if got := b.sumLine(tt.r); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
