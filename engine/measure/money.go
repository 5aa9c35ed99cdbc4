package measure

import (
	"errors"
	"strconv"
	"strings"
)

// Money is an amount in hundredths of the user's currency; which currency is
// the project's business.
type Money int64

// String returns the amount with two decimals: "84.00", "-1.50".
func (m Money) String() string {
	sign := ""
	u := uint64(m)
	if m < 0 {
		sign, u = "-", -u
	}
	c := strconv.FormatUint(u%100, 10)
	if len(c) == 1 {
		c = "0" + c
	}
	return sign + strconv.FormatUint(u/100, 10) + "." + c
}

// MarshalText implements encoding.TextMarshaler with [Money.String].
func (m Money) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText implements encoding.TextUnmarshaler.
func (m *Money) UnmarshalText(b []byte) error {
	v, err := ParseMoney(string(b))
	if err == nil {
		*m = v
	}
	return err
}

var errMoney = errors.New("that is not a price: write it like 84 or 84.50")

// ParseMoney reads "84", "84.5", "84,50" or any of them with a currency sign
// in front or behind. More than two decimals are refused.
func ParseMoney(s string) (Money, error) {
	in := strings.Trim(normal(s), "$€£¥ ")
	neg := strings.HasPrefix(in, "-")
	in = strings.Trim(strings.TrimPrefix(in, "-"), "$€£¥ ")
	whole, rest, ok := digits(in)
	if !ok || whole > 1e12 {
		return 0, errMoney
	}
	m := Money(whole) * 100
	if rest != "" {
		if rest[0] != '.' && rest[0] != ',' {
			return 0, errMoney
		}
		f, r, ok := digits(rest[1:])
		n := len(rest) - 1 - len(r)
		if !ok || r != "" || n > 2 {
			return 0, errMoney
		}
		if n == 1 {
			f *= 10
		}
		m += Money(f)
	}
	if neg {
		m = -m
	}
	return m, nil
}
