package stock

import "cartwright/engine/measure"

// A Wood is what a species is: specific gravity and modulus at 12 % moisture
// (Wood Handbook FPL-GTR-190, Table 5-3b, as reprinted), and by how much of its
// width it moves for each 1 % of moisture, quarter-sawn and flat-sawn (its Table
// 13-5). Rows with Memory are from memory in part.
type Wood struct {
	Name   string
	G      float64
	E      float64 // 10⁶ psi
	CR, CT float64
	Memory bool
}

// Woods are the species that are known.
var Woods = [...]Wood{
	{"eastern white pine", .35, 1.24, .00071, .00212, true},
	{"yellow-poplar", .42, 1.58, .00158, .00289, true},
	{"ponderosa pine", .40, 1.29, 0, 0, true},
	{"douglas-fir", .48, 1.95, .00165, .00267, true},
	{"red maple", .54, 1.64, .00137, .00289, false},
	{"sugar maple", .63, 1.83, .00165, .00353, true},
	{"red oak", .63, 1.82, .00158, .00369, true},
	{"yellow birch", .62, 2.01, .00256, .00338, false},
	{"paper birch", .55, 1.59, .00219, .00304, false},
	{"cherry", .50, 1.49, .00126, .00248, false},
	{"white ash", .60, 1.74, .00169, .00274, false},
	{"beech", .64, 1.72, .00190, .00431, false},
	{"black walnut", .55, 1.68, .00190, .00274, true},
	{"white oak", .68, 1.78, .00180, .00365, true},
}

// WoodOf returns the species of that name.
func WoodOf(name string) (Wood, bool) {
	for _, w := range Woods {
		if w.Name == name {
			return w, true
		}
	}
	return Wood{}, false
}

// MostMovement is the coefficient for solid wood of no known species: the most
// of the table.
const MostMovement = .00431

// Movement returns the change of a width w, in its unit, by a coefficient c for
// each 1 % of moisture: w·c·Δ (Wood Handbook FPL-GTR-190, Table 13-5). It holds
// from 6 to 14 % moisture; ok is false outside.
func Movement(w, c, from, to float64) (change float64, ok bool) {
	in := func(m float64) bool { return m >= 6 && m <= 14 }
	return w * c * (to - from), in(from) && in(to)
}

// Moisture returns the moisture in % that wood comes to in air of rh %
// relative humidity at t °F (Wood Handbook, eq. 4-5, from memory: 9.2 at 50 %
// and 70 °F).
func Moisture(rh, t float64) float64 {
	h := min(max(rh, 0), 99) / 100
	w := 330 + float64(.452*t) + float64(.00415*t*t)
	k := .791 + float64(.000463*t) - float64(.000000844*t*t)
	k1 := 6.34 + float64(.000775*t) - float64(.0000935*t*t)
	k2 := 1.09 + float64(.0284*t) - float64(.0000904*t*t)
	kh := k * h
	a, b := float64(k1*kh), float64(k1*k2*kh*kh)
	return 1800 / w * (kh/(1-kh) + (a+2*b)/(1+a+b))
}

// Growth returns by how much a width of solid wood of that species changes
// between the driest and the dampest air of the year, in % relative humidity at
// 70 °F, flat-sawn; 0 where the coefficients do not hold.
func Growth(w measure.Length, species string, dry, damp float64) measure.Length {
	c := MostMovement
	if s, ok := WoodOf(species); ok && s.CT > 0 {
		c = s.CT
	}
	v, ok := Movement(float64(w), c, Moisture(dry, 70), Moisture(damp, 70))
	if !ok || v < 0 {
		return 0
	}
	return measure.Length(v + 0.5)
}
