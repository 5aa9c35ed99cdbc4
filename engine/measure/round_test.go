package measure

import (
	"math"
	"testing"
)

// What a damaged file may hold is rounded and shown, too: by hand, the least
// and the greatest length are 2⁶³ ticks, but for one: 45,390,610,417,592 in and
// 81,408 ticks of 203,200, or 1,152,921,504,606,846 mm and 7,808 of 8,000. The
// next step up, 13/32 in or a whole millimetre more, is past the end.
func TestRoundAtTheEnds(t *testing.T) {
	for _, tt := range []struct {
		tape        Tape
		least, most string
	}{
		{Tape{}, "-45390610417592 3/8", "45390610417592 3/8"},
		{Tape{Step: Inch / 10}, "-45390610417592 2/5", "45390610417592 2/5"},
		{Tape{Step: 3 * UM}, "-45390610417592.4006", "45390610417592.4006"}, // no fraction of an inch
		{Tape{Metric: true}, "-1152921504606846.5", "1152921504606846.5"},
		{Tape{Metric: true, Step: MM}, "-1152921504606846", "1152921504606846"},
	} {
		lo, hi := Length(math.MinInt64), Length(math.MaxInt64)
		if a, b := tt.tape.Plain(lo), tt.tape.Plain(hi); a != tt.least || b != tt.most {
			t.Errorf("%+v shows %s and %s", tt.tape, a, b)
		}
		for _, l := range []Length{lo, lo + 1, hi, hi - 1} {
			if d := uint64(l) - uint64(tt.tape.Round(l)); int64(d) > int64(tt.tape.Least()) || -int64(d) > int64(tt.tape.Least()) || !tt.tape.On(tt.tape.Round(l)) {
				t.Errorf("%+v rounds %d to %d", tt.tape, l, tt.tape.Round(l))
			}
			tt.tape.Show(l)
			tt.tape.ShowExact(l)
			tt.tape.Say(l)
		}
	}
	// Halves go away from zero, on either side, with an odd step as well.
	for _, tt := range []struct{ step, l, want Length }{
		{2, 1, 2}, {2, -1, -2}, {2, 3, 4}, {2, -3, -4}, {3, 1, 0}, {3, -1, 0}, {3, 2, 3}, {3, -2, -3}, {4, 5, 4}, {4, 6, 8}, {4, -6, -8}, {1, -7, -7}} {
		if got := (Tape{Step: tt.step}).Round(tt.l); got != tt.want {
			t.Errorf("%d in steps of %d is %d, want %d", tt.l, tt.step, got, tt.want)
		}
	}
}
