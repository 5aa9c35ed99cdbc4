package measure

import (
	"strconv"
	"strings"
)

// A Tape is the user's measuring tape: the unit they think in and the step
// they cut to. The zero Tape is an inch tape to 1/32.
type Tape struct {
	// Metric is true for millimetres, false for inches.
	Metric bool
	// Step is the smallest distance the user sets a fence to. The default
	// (zero) is 1/32 in on an inch tape, 0.5 mm on a metric one.
	Step Length
}

// Least returns the step of the tape, default included.
func (t Tape) Least() Length {
	switch {
	case t.Step > 0:
		return t.Step
	case t.Metric:
		return MM / 2
	default:
		return Inch / 32
	}
}

// Unit returns "mm" or "in".
func (t Tape) Unit() string {
	if t.Metric {
		return "mm"
	}
	return "in"
}

// Parse reads what a person typed into a field: as [Parse], and a number
// without a unit is in the unit of the tape.
func (t Tape) Parse(s string) (Length, error) {
	if t.Metric {
		return parse(s, MM)
	}
	return parse(s, Inch)
}

// Floor rounds l down to a whole step: for what must go in.
func (t Tape) Floor(l Length) Length {
	s := t.Least()
	q := l / s
	if l%s < 0 {
		q--
	}
	return q * s
}

// Ceil rounds l up to a whole step: for what must cover.
func (t Tape) Ceil(l Length) Length { return -t.Floor(-l) }

// Round rounds l to the nearest whole step, halves away from zero; towards
// zero where the other would be no length any more.
func (t Tape) Round(l Length) Length {
	s := t.Least()
	to, over, half := l/s*s, l%s, s-s/2
	switch {
	case over >= half && to+s > to:
		return to + s
	case -over >= half && to-s < to:
		return to - s
	}
	return to
}

// On reports whether l is a whole number of steps, so that what is shown is
// what is cut.
func (t Tape) On(l Length) bool { return l%t.Least() == 0 }

// Exact returns text that [Parse] reads back to the same tick, in the tape's
// own unit where that is possible in 64ths or decimals, else in millimetres.
func (t Tape) Exact(l Length) string {
	if !t.Metric && l%Inch64 == 0 {
		return t.fraction(l, Inch64, "/") + " in"
	}
	return millimetres(l) + " mm"
}

// Text returns l rounded to the step of the tape (nearest, halves away from
// zero) with its unit, in plain text: "23 5/8 in", "600.5 mm".
func (t Tape) Text(l Length) string { return t.Plain(l) + " " + t.Unit() }

// Plain is [Tape.Text] without the unit.
func (t Tape) Plain(l Length) string { return t.show(l, "/") }

// Show is [Tape.Plain] for screens and drawings: a fraction is written with
// U+2044, the fraction slash, which every renderer of ours builds into a
// proper fraction, and a minus is U+2212.
func (t Tape) Show(l Length) string {
	return strings.Replace(t.show(l, "\u2044"), "-", "\u2212", 1)
}

// ShowExact is [Tape.Show] if l is a whole number of steps, else the exact
// value in decimals.
func (t Tape) ShowExact(l Length) string {
	switch {
	case t.On(l):
		return t.Show(l)
	case !t.Metric && l%Inch64 == 0:
		return strings.Replace(t.fraction(l, Inch64, "\u2044"), "-", "\u2212", 1)
	case t.Metric:
		return millimetres(l)
	default:
		return decimalInch(l)
	}
}

func (t Tape) show(l Length, slash string) string {
	l = t.Round(l)
	if t.Metric {
		return millimetres(l)
	}
	step := t.Least()
	if Inch%step != 0 { // not a fraction of an inch: a decimal one
		return decimalInch(l)
	}
	return t.fraction(l, step, slash)
}

// fraction prints l, a whole number of steps of 1/2ⁿ in, as a mixed number.
func (t Tape) fraction(l, step Length, slash string) string {
	sign := ""
	u := uint64(l)
	if l < 0 {
		sign, u = "-", -u
	}
	whole := u / uint64(Inch)
	num, den := u%uint64(Inch)/uint64(step), uint64(Inch/step)
	for num != 0 && num%2 == 0 && den%2 == 0 {
		num, den = num/2, den/2
	}
	f := strconv.FormatUint(num, 10) + slash + strconv.FormatUint(den, 10)
	switch {
	case num == 0:
		return sign + strconv.FormatUint(whole, 10)
	case whole == 0:
		return sign + f
	default:
		return sign + strconv.FormatUint(whole, 10) + " " + f
	}
}

// decimalInch prints l in inches to four decimals, halves away from zero.
func decimalInch(l Length) string {
	sign, u := "", uint64(l)
	if l < 0 {
		sign, u = "-", -u
	}
	const inch = uint64(Inch)
	whole := u / inch
	ten := (u%inch*10000 + inch/2) / inch
	if ten == 10000 {
		whole, ten = whole+1, 0
	}
	s := sign + strconv.FormatUint(whole, 10)
	if ten != 0 {
		f := strconv.FormatUint(ten, 10)
		s += "." + strings.TrimRight(strings.Repeat("0", 4-len(f))+f, "0")
	}
	return s
}

// Figure splits a displayed length for big figures: the whole number and the
// fraction under it (0/0 when there is none, or on a metric tape a decimal in
// whole). The value is rounded to the step like [Tape.Text].
func (t Tape) Figure(l Length) (whole, num, den string) {
	s := t.Plain(l)
	before, frac, mixed := strings.Cut(s, " ")
	if !mixed {
		if n, d, ok := strings.Cut(s, "/"); ok {
			return "", n, d
		}
		return s, "", ""
	}
	num, den, _ = strings.Cut(frac, "/")
	return before, num, den
}

// Say returns l for a screen reader: "23 and 1/4 inches", "600.5 millimetres".
func (t Tape) Say(l Length) string {
	w, n, d := t.Figure(l)
	unit := " inches"
	if t.Metric {
		unit = " millimetres"
	}
	switch {
	case n == "":
		return w + unit
	case w == "":
		return n + "/" + d + unit
	default:
		return w + " and " + n + "/" + d + unit
	}
}
