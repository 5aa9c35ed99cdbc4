package check

import "math"

// Units in SI: what a foot-and-pound source is read in, all exact but psi.
const (
	gravity = 9.80665
	inch    = 0.0254
	pound   = 0.45359237
	lbf     = pound * gravity
	psi     = lbf / (inch * inch)
	pcf     = pound / (12 * inch * 12 * inch * 12 * inch) // lb/ft³
	psf     = lbf / (144 * inch * inch)                   // lb/ft²
)

// A Beam is a row of the Wood Handbook's Table 9-1 (FPL-GTR-190): how a beam of
// one load and one way of holding its ends gives.
type Beam struct{ Kb, Ks float64 }

// The rows. Spread loads are even; all sag is at mid-span, or at the free end.
var (
	SpreadSimple  = Beam{5. / 384, 1. / 8}
	SpreadFixed   = Beam{1. / 384, 1. / 8}
	PointSimple   = Beam{1. / 48, 1. / 4}
	PointFixed    = Beam{1. / 192, 1. / 4}
	QuarterSimple = Beam{11. / 768, 1. / 8} // two halves of the load at the quarter points
	QuarterAtLoad = Beam{1. / 96, 1. / 8}   // the same, under a load
	SpreadOut     = Beam{1. / 8, 1. / 2}    // cantilever
	PointOut      = Beam{1. / 3, 1}
)

// Sag returns the sag from bending and from shear, in metres, under the whole
// load w in N on the span l:
//
//	kb·w·l³/(E·I) + ks·w·l/(G·A′)
//
// Wood Handbook, eq. 9-2. It holds while sag is small beside the span, and
// knows no creep.
func (b Beam) Sag(w, l float64, s Section) (bend, shear float64) {
	return b.Kb * w * l * l * l / s.EI, b.Ks * w * l / s.GA
}

// PointAt returns the sag at mid-span of a simple beam under a load w at a from
// the nearer end: bending w·a·(3l² − 4a²)/48EI (plain statics), shear the
// moment there over G·A′.
func PointAt(w, a, l float64, s Section) (bend, shear float64) {
	a = min(a, l-a)
	if a <= 0 {
		return 0, 0
	}
	return w * a * (3*l*l - 4*a*a) / (48 * s.EI), w * a / 2 / s.GA
}

// A Section is how a beam resists: bending in N·m², shear in N.
type Section struct{ EI, GA float64 }

// Rect is the section of a board laid flat: width b and thickness t in metres,
// modulus e in Pa. I = b·t³/12, A′ = 5/6·b·t; G is E/16, which is about what
// solid wood has along the grain (from memory).
func Rect(b, t, e float64) Section {
	return Section{e * b * t * t * t / 12, e / 16 * b * t * 5 / 6}
}

// Add lays two sections side by side, or loose on each other.
func (s Section) Add(o Section) Section { return Section{s.EI + o.EI, s.GA + o.GA} }

// Span returns the longest simple span on which a shelf of thickness t and
// modulus e sags no more than a part 1/n of it under q in Pa: the span at which
// 5·q·l⁴/384·E·I is l/n, I = t³/12 (Architectural Woodwork Standards, ed. 1,
// p. 279, by its table). The root is found by halving: no power is taken.
func Span(e, t, q, n float64) float64 {
	const most = 100
	if !(e > 0 && t > 0 && q > 0 && n > 0) {
		return 0
	}
	cube := 384 * e * t * t * t / 12 / (5 * q * n)
	lo, hi := 0.0, float64(most)
	for range 60 {
		if m := (lo + hi) / 2; m*m*m < cube {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

// plates are Roark's factors for a plate held simply along all four edges
// under an even load, ν = 0.3 (Formulas for Stress and Strain, Table 11.4 case
// 1a): long over short side, sag, stress.
var plates = [...][3]float64{
	{1.0, .0444, .2874}, {1.2, .0616, .3762}, {1.4, .0770, .4530}, {1.6, .0906, .5172}, {1.8, .1017, .5688},
	{2.0, .1110, .6102}, {3.0, .1335, .7134}, {4.0, .1400, .7410}, {5.0, .1417, .7476},
}

// Plate returns the sag in the middle, α·q·b⁴/E·t³, and the greatest stress,
// β·q·b²/t², of a plate of sides a and b and thickness t in metres under q in
// Pa. ok is false outside the theory: the sag more than half the thickness, or
// the plate thicker than a quarter of its short side (Roark's preface). Then
// the real sag is less, and not known.
func Plate(a, b, t, e, q float64) (sag, stress float64, ok bool) {
	if a < b {
		a, b = b, a
	}
	if !(a > 0 && b > 0 && t > 0 && e > 0 && q >= 0) {
		return 0, 0, false
	}
	alpha, beta := plateFactors(a / b)
	sag = alpha * q * b * b * b * b / (e * t * t * t)
	stress = beta * q * b * b / (t * t)
	return sag, stress, sag <= t/2 && t <= b/4
}

// plateFactors goes straight from row to row up to 2, and from there on by the
// inverse of the ratio, to a strip without ends.
func plateFactors(r float64) (alpha, beta float64) {
	last := plates[len(plates)-1]
	if r >= last[0] {
		f := last[0] / r
		return .1421 + f*(last[1]-.1421), .7500 + f*(last[2]-.7500)
	}
	for i := 1; i < len(plates); i++ {
		lo, hi := plates[i-1], plates[i]
		if r <= hi[0] {
			f := max(r-lo[0], 0) / (hi[0] - lo[0])
			if lo[0] >= 2 {
				f *= hi[0] / r // straight over the inverse of the ratio
			}
			return lo[1] + f*(hi[1]-lo[1]), lo[2] + f*(hi[2]-lo[2])
		}
	}
	return last[1], last[2]
}

// PlyShares returns what part of the bending stiffness of a sheet of n equal
// plies lies along the outer grain, the rest lying across; what a ply gives
// across its own grain is left out. n is odd. Exact for that model.
func PlyShares(n int) (along, across float64) {
	sum := 0
	for i := range n { // ply i lies between 2i−n and 2i+2−n half thicknesses
		lo, hi := 2*i-n, 2*i+2-n
		if i%2 == 0 {
			sum += hi*hi*hi - lo*lo*lo
		}
	}
	if n <= 0 {
		return 0, 0
	}
	along = float64(sum) / float64(2*n*n*n)
	return along, 1 - along
}

// plies is how many plies a plywood of thickness t in metres has: a birch
// mill's sheet of sizes after EN 315, the nearest size.
func plies(t float64) int {
	n := 3
	for _, s := range [...]float64{.00525, .00775, .0105, .0135, .0165, .0195} { // half-way between 4, 6.5, 9, 12, 15, 18, 21 mm
		if t > s {
			n += 2
		}
	}
	return n
}

// hypot is the length of the hypotenuse.
func hypot(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }
