// Package measure holds the quantities of the shop, exactly: lengths, areas,
// masses and money, and the two tapes they are read from and printed to.
package measure

import (
	"errors"
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// A Length is a signed distance counted in ticks of 1/8 µm, the largest unit
// in which both a micrometre and 1/64 inch are whole numbers, so that both
// tapes add up exactly. The zero Length is no distance.
type Length int64

// The inch is 25.4 mm exactly (16 CFR 500.19; NIST SP 811, B.8).
const (
	Tick   Length = 1
	UM            = 8 * Tick
	MM            = 1000 * UM
	CM            = 10 * MM
	Metre         = 1000 * MM
	Inch          = 25400 * UM
	Foot          = 12 * Inch
	Inch64        = Inch / 64
)

// MaxLength bounds what [Parse] accepts: a kilometre, so that sums of a few
// thousand parsed lengths, and areas of a few hundred sheets, cannot overflow.
const MaxLength = 1000 * Metre

// Abs returns l without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// Metres returns l as a float64 for physics. It is the only way from an exact
// length to a float; no size that is cut comes back from it.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// An Area is a Length times a Length, in square ticks. It fits some 24 000
// full sheets.
type Area int64

// Times returns the area of an l by w rectangle.
func (l Length) Times(w Length) Area { return Area(l) * Area(w) }

// SquareMetres returns a as a float64 for physics and display.
func (a Area) SquareMetres() float64 {
	return float64(a) / float64(Metre) / float64(Metre)
}

// String returns the exact text of l with its unit, in the form that [Parse]
// reads back to the same tick: inches when l is a whole number of 64ths,
// else millimetres with as many decimals as it takes.
func (l Length) String() string { return Tape{}.Exact(l) }

// MarshalText implements encoding.TextMarshaler with [Length.String].
func (l Length) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText implements encoding.TextUnmarshaler. The text must carry its
// unit.
func (l *Length) UnmarshalText(b []byte) error {
	v, err := Parse(string(b))
	if err == nil {
		*l = v
	}
	return err
}

var (
	errEmpty   = errors.New("no length there: type a number, such as 23 5/8")
	errUnit    = errors.New("the unit is missing: add in or mm")
	errNumber  = errors.New("a number is missing")
	errSlash   = errors.New("a number is missing after the slash")
	errZeroDen = errors.New("a fraction cannot be divided by 0")
	errFrac    = errors.New("the top of a fraction after a whole number must be smaller than its bottom")
	errBig     = errors.New("that is longer than a kilometre")
	errSyntax  = errors.New("that is not a length: write it like 23 5/8, 23.625, 1' 11 5/8\" or 600 mm")
)

// Parse reads a length that names its unit: "18 mm", "60 cm", "1.2 m",
// "23 5/8 in", `23-5/8"`, `1' 11 5/8"`, "2 ft 3 in". Decimals may use a comma.
// A value between two ticks goes to the nearest, halves away from zero; that
// is at most 1/16 µm. Errors are sentences for the person who typed.
func Parse(s string) (Length, error) { return parse(s, 0) }

// parse reads s; bare is the unit of a number without one (0: refuse it).
func parse(s string, bare Length) (Length, error) {
	in := normal(s)
	if in == "" {
		return 0, errEmpty
	}
	if len(in) > 64 {
		return 0, errSyntax
	}
	neg := false
	if in[0] == '-' || in[0] == '+' {
		neg = in[0] == '-'
		in = strings.TrimSpace(in[1:])
	}
	var total Length
	seen := Length(0) // unit of the last term: terms must shrink
	for in != "" {
		num, den, rest, err := number(in)
		if err != nil {
			return 0, err
		}
		unit, rest, named := unitOf(rest)
		if !named {
			switch {
			case strings.TrimSpace(rest) != "":
				return 0, errSyntax
			case seen == Foot:
				unit = Inch // 1' 11 5/8
			case seen != 0 || bare == 0:
				return 0, errUnit
			default:
				unit = bare
			}
		}
		if seen != 0 && !(seen == Foot && unit == Inch) {
			return 0, errSyntax
		}
		seen = unit
		v, ok := scale(num, den, unit)
		if !ok || v > MaxLength || total > MaxLength-v {
			return 0, errBig
		}
		total += v
		in = strings.TrimSpace(rest)
		if in != "" && in[0] == '-' { // 1'-11 5/8"
			in = strings.TrimSpace(in[1:])
			if in == "" {
				return 0, errNumber
			}
		}
	}
	if seen == 0 {
		return 0, errNumber
	}
	if neg {
		total = -total
	}
	return total, nil
}

// normal folds the many ways of typing a length into one alphabet.
func normal(s string) string {
	plain := !strings.Contains(s, "''")
	for i := 0; i < len(s); i++ {
		plain = plain && s[i] < 0x80 && s[i] != '\t'
	}
	if plain { // as files have it
		return strings.TrimSpace(strings.ToLower(s))
	}
	r := strings.NewReplacer("″", `"`, "”", `"`, "“", `"`, "''", `"`, "′", "'", "’", "'",
		"⁄", "/", "∕", "/", "−", "-", "–", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
		"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")
	return strings.TrimSpace(strings.ToLower(r.Replace(s)))
}

// number reads "23", "23.5", "23,5", "5/8", "23 5/8" or "23-5/8" from the
// front of s as num/den.
func number(s string) (num, den uint64, rest string, err error) {
	whole, s, ok := digits(s)
	hasWhole := ok
	if ok && s != "" && (s[0] == '.' || s[0] == ',') || !ok && s != "" && (s[0] == '.' || s[0] == ',') {
		frac, r, okf := digits(s[1:])
		if !okf {
			if !hasWhole {
				return 0, 0, "", errNumber
			}
			return whole, 1, s[1:], nil
		}
		places := len(s[1:]) - len(r)
		den := uint64(1)
		for range places {
			if den > 1e12 {
				return 0, 0, "", errSyntax
			}
			den *= 10
		}
		if whole > math.MaxUint64/den/2 {
			return 0, 0, "", errBig
		}
		return whole*den + frac, den, r, nil
	}
	if !ok {
		return 0, 0, "", errNumber
	}
	if s != "" && s[0] == '/' { // a fraction alone
		d, r, ok := digits(strings.TrimLeft(s[1:], " "))
		if !ok {
			return 0, 0, "", errSlash
		}
		if d == 0 {
			return 0, 0, "", errZeroDen
		}
		return whole, d, r, nil
	}
	// A whole number, perhaps followed by a fraction after a space or hyphen.
	t := strings.TrimLeft(s, " ")
	if t != "" && t[0] == '-' {
		t = strings.TrimLeft(t[1:], " ")
	}
	if n, r, ok := digits(t); ok && len(t) != len(s) && r != "" && r[0] == '/' {
		d, r, ok := digits(strings.TrimLeft(r[1:], " "))
		switch {
		case !ok:
			return 0, 0, "", errSlash
		case d == 0:
			return 0, 0, "", errZeroDen
		case n >= d:
			return 0, 0, "", errFrac
		case d > 1<<20 || whole > 1<<40:
			return 0, 0, "", errBig
		}
		return whole*d + n, d, r, nil
	}
	return whole, 1, s, nil
}

// digits reads an unsigned number of at most 13 digits.
func digits(s string) (v uint64, rest string, ok bool) {
	i := 0
	for i < len(s) && i < 13 && s[i] >= '0' && s[i] <= '9' {
		v = v*10 + uint64(s[i]-'0')
		i++
	}
	return v, s[i:], i > 0
}

// unitOf reads a unit from the front of s.
func unitOf(s string) (unit Length, rest string, ok bool) {
	t := strings.TrimLeft(s, " ")
	for _, u := range [...]struct {
		name string
		unit Length
	}{
		{`"`, Inch}, {"inches", Inch}, {"inch", Inch}, {"in.", Inch}, {"in", Inch},
		{"'", Foot}, {"feet", Foot}, {"foot", Foot}, {"ft", Foot},
		{"mm", MM}, {"cm", CM}, {"metres", Metre}, {"meters", Metre}, {"m", Metre}, {"µm", UM}, {"um", UM},
	} {
		if r, found := strings.CutPrefix(t, u.name); found {
			if r != "" && r[0] >= 'a' && r[0] <= 'z' {
				return 0, s, false
			}
			return u.unit, r, true
		}
	}
	return 0, s, false
}

// scale returns unit·num/den to the nearest tick, halves away from zero.
func scale(num, den uint64, unit Length) (Length, bool) {
	hi, lo := bits.Mul64(num, uint64(unit))
	if hi >= den {
		return 0, false
	}
	q, r := bits.Div64(hi, lo, den)
	if r >= den-r {
		q++
	}
	if q > math.MaxInt64/2 {
		return 0, false
	}
	return Length(q), true
}

// millimetres prints l exactly: up to six decimals, no trailing zeros.
func millimetres(l Length) string {
	sign := ""
	u := uint64(l)
	if l < 0 {
		sign, u = "-", -u
	}
	whole, frac := u/uint64(MM), u%uint64(MM)
	s := sign + strconv.FormatUint(whole, 10)
	if frac != 0 { // 1 tick is 0.000125 mm
		f := strconv.FormatUint(frac*125, 10)
		f = strings.Repeat("0", 6-len(f)) + f
		s += "." + strings.TrimRight(f, "0")
	}
	return s
}
