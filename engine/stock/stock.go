// Package stock holds what can be bought, as the trade sells it: dressed
// lumber, plywood thickness ranges, slide lengths, pull spacings, densities.
// Each table names its source.
package stock

import "cartwright/engine/measure"

const (
	in = measure.Inch
	mm = measure.MM
)

// dressedThick and dressedWidth: American Softwood Lumber Standard PS 20,
// dressed dry.
var dressedThick = map[int]measure.Length{1: in * 3 / 4, 2: in * 3 / 2, 4: in * 7 / 2}
var dressedWidth = map[int]measure.Length{
	2: in * 3 / 2, 3: in * 5 / 2, 4: in * 7 / 2, 6: in * 11 / 2,
	8: in * 29 / 4, 10: in * 37 / 4, 12: in * 45 / 4,
}

// DressedSize returns the dry dressed size of a softwood board of the nominal
// thickness and width in inches, as PS 20 lists it; ok is false for a size
// that is not in the table.
func DressedSize(thick, width int) (t, w measure.Length, ok bool) {
	t, okT := dressedThick[thick]
	w, okW := dressedWidth[width]
	return t, w, okT && okW
}

// BoardFeet returns the board feet of count boards: thickness × width × length
// in inches over 144, stock under 1 in thick counted as 1 in. Sizes are taken
// as given: the trade reckons on nominal ones.
func BoardFeet(t, w, l measure.Length, count int) float64 {
	inches := func(l measure.Length) float64 { return float64(l) / float64(in) }
	return inches(max(t, in)) * inches(w) * inches(l) * float64(count) / 144
}

// PlyRange returns the least and greatest thickness of an unsanded, touch-sanded
// or overlaid softwood panel of the given performance category: ±1/32 in up to
// 13/16, ±5 % above (Voluntary Product Standard PS 1-19).
func PlyRange(category measure.Length) (least, most measure.Length) {
	tol := in / 32
	if category > in*13/16 {
		tol = category / 20
	}
	return category - tol, category + tol
}

// SlideLengths are the lengths in which side-mounted ball-bearing slides are
// sold: even inches from 8 to 28 (common practice, no source), or 250 to 600 mm
// in steps of 50 (from memory).
func SlideLengths(metric bool) []measure.Length {
	var all []measure.Length
	if metric {
		for l := 250 * mm; l <= 600*mm; l += 50 * mm {
			all = append(all, l)
		}
		return all
	}
	for l := 8 * in; l <= 28*in; l += 2 * in {
		all = append(all, l)
	}
	return all
}

// LongestSlide returns the longest slide no longer than depth, 0 if none is.
func LongestSlide(metric bool, depth measure.Length) measure.Length {
	var best measure.Length
	for _, l := range SlideLengths(metric) {
		if l <= depth {
			best = l
		}
	}
	return best
}

// PullSpacings are the hole spacings in which pulls are sold, in exact
// millimetres: multiples of the 32-mm system and the 3-in pull (common
// practice, no source).
var PullSpacings = []measure.Length{64 * mm, in * 3, 96 * mm, 128 * mm, 160 * mm, 192 * mm, 224 * mm, 256 * mm, 320 * mm}

// Pull returns the hole spacing for a front of the given width, and how many
// pulls: overall length about a third of the front, then the nearest spacing
// that is sold; two pulls on fronts wider than 30 in or 760 mm (common
// practice, no source). The overall length of a bar pull is taken as its
// spacing. A tie goes to the shorter.
func Pull(front measure.Length) (spacing measure.Length, pulls int) {
	pulls = 1
	if front > 30*in {
		pulls = 2
		front /= 2
	}
	return PullFor(front), pulls
}

// PullFor returns the spacing that is sold nearest to a third of the width that
// one pull has.
func PullFor(width measure.Length) measure.Length {
	spacing := PullSpacings[0]
	for _, s := range PullSpacings[1:] {
		if (s - width/3).Abs() < (spacing - width/3).Abs() {
			spacing = s
		}
	}
	return spacing
}

// Density returns the default density of a kind of material in kg/m³ and the
// source of it.
func Density(kind string) (kgm3 float64, source string) {
	switch kind {
	case "mdf":
		return 769, "48 lb/ft³, from memory"
	case "solid":
		return 705, "hard maple, specific gravity 0.63 at 12 %: 44 lb/ft³ (Wood Handbook FPL-GTR-190, Table 5-3b, from memory)"
	default:
		return 577, "3.0 lb/ft² per inch of thickness: 36 lb/ft³ (a plywood trade association's rule)"
	}
}

// Clearance of side-mounted ball-bearing slides: the box is narrower than the
// opening less both slides by 0.4 to 1.0 mm (a slide maker's guide: space per
// side 12.9 to 13.2 mm for 12.7-mm slides), never wider. Up to 1/16 in still
// runs (a carpenter's account).
const (
	SlideThick = in / 2
	LeastPlay  = 400 * measure.UM
)

// Allowance returns the play that is planned when the user names none.
func Allowance(metric bool) measure.Length {
	if metric {
		return 800 * measure.UM
	}
	return in / 32
}
