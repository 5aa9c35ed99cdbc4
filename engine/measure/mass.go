package measure

import (
	"errors"
	"strconv"
	"strings"
)

// A Mass is counted in units of 10 µg, the largest in which both a gram and a
// pound (0.45359237 kg exactly) are whole numbers.
type Mass int64

const (
	Gram     Mass = 100_000
	Kilogram      = 1000 * Gram
	Pound    Mass = 45_359_237
)

// Kg returns m in kilograms, for physics.
func (m Mass) Kg() float64 { return float64(m) / float64(Kilogram) }

// Lb returns m in pounds.
func (m Mass) Lb() float64 { return float64(m) / float64(Pound) }

// FromKg returns the Mass nearest to kg kilograms.
func FromKg(kg float64) Mass {
	if kg < 0 {
		return -FromKg(-kg)
	}
	return Mass(float64(kg*float64(Kilogram)) + 0.5)
}

// String returns "98.5 lb" when m is a whole number of thousandths of a pound,
// else kilograms with up to eight decimals; [ParseMass] reads both back to
// the same Mass.
func (m Mass) String() string {
	if m != 0 && m%(Pound) == 0 {
		return strconv.FormatInt(int64(m/Pound), 10) + " lb"
	}
	sign := ""
	u := uint64(m)
	if m < 0 {
		sign, u = "-", -u
	}
	s := sign + strconv.FormatUint(u/uint64(Kilogram), 10)
	if f := u % uint64(Kilogram); f != 0 {
		t := strconv.FormatUint(f, 10)
		s += "." + strings.TrimRight(strings.Repeat("0", 8-len(t))+t, "0")
	}
	return s + " kg"
}

// MarshalText implements encoding.TextMarshaler with [Mass.String].
func (m Mass) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText implements encoding.TextUnmarshaler.
func (m *Mass) UnmarshalText(b []byte) error {
	v, err := ParseMass(string(b))
	if err == nil {
		*m = v
	}
	return err
}

var errMass = errors.New("that is not a weight: write it like 85 lb or 38.5 kg")

// ParseMass reads a weight that names its unit: "85 lb", "38,5 kg", "900 g".
// It goes to the nearest 10 µg, halves away from zero.
func ParseMass(s string) (Mass, error) { return parseMass(s, 0) }

// ParseMass reads a weight; a number without a unit is in pounds on an inch
// tape, in kilograms on a metric one.
func (t Tape) ParseMass(s string) (Mass, error) {
	if t.Metric {
		return parseMass(s, Kilogram)
	}
	return parseMass(s, Pound)
}

func parseMass(s string, bare Mass) (Mass, error) {
	in := normal(s)
	if in == "" || len(in) > 64 {
		return 0, errMass
	}
	neg := in[0] == '-'
	if neg {
		in = strings.TrimSpace(in[1:])
	}
	num, den, rest, err := number(in)
	if err != nil {
		return 0, errMass
	}
	unit := bare
	switch strings.TrimSpace(rest) {
	case "lb", "lbs", "pounds", "pound":
		unit = Pound
	case "kg":
		unit = Kilogram
	case "g":
		unit = Gram
	case "":
	default:
		return 0, errMass
	}
	v, ok := scale(num, den, Length(unit))
	if unit == 0 || !ok || Mass(v) > 1_000_000*Kilogram {
		return 0, errMass
	}
	if neg {
		v = -v
	}
	return Mass(v), nil
}

// ShowMass returns m in the unit of the tape to one decimal, without the unit.
func (t Tape) ShowMass(m Mass) string {
	v := m.Lb()
	if t.Metric {
		v = m.Kg()
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// MassUnit returns "lb" or "kg".
func (t Tape) MassUnit() string {
	if t.Metric {
		return "kg"
	}
	return "lb"
}
