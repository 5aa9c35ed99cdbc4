package check

import (
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// WoodDensity returns kg/m³ from a specific gravity on the volume at m %
// moisture: 1000·g·(1 + m/100) (Wood Handbook, ch. 4).
func WoodDensity(g, m float64) float64 { return 1000 * g * (1 + m/100) }

// DryDensity does so from a specific gravity on oven-dry volume, which is
// another number: 1000·g/(1 + 0.009·g·m)·(1 + m/100) (National Design
// Specification).
func DryDensity(g, m float64) float64 { return 1000 * g / (1 + .009*g*m) * (1 + m/100) }

// DryGravity returns the specific gravity on oven-dry volume of wood that
// weighs rho kg/m³ at 12 %: [DryDensity] solved for g. The formulas for screws
// take it.
func DryGravity(rho float64) float64 {
	r := rho / 1120
	if d := 1 - .108*r; d > 0 {
		return r / d
	}
	return 0
}

// Density returns the density of a material in kg/m³ and where it comes from.
func Density(m project.Material) (kgm3 float64, source string) {
	if m.Density > 0 {
		return m.Density, "as entered"
	}
	if w, ok := stock.WoodOf(m.Species); ok {
		return WoodDensity(w.G, 12), "Wood Handbook FPL-GTR-190, Table 5-3b"
	}
	return stock.Density(m.Kind)
}

// absurd reports whether an entered density is no wood's: balsa has about 100,
// the heaviest woods 1300 kg/m³ (from memory).
func absurd(m project.Material) bool {
	return m.Density != 0 && !(m.Density >= 80 && m.Density <= 1400)
}

// Modulus returns the modulus of elasticity of a material along its grain in
// Pa, and where it comes from. Without a species solid wood counts as the
// softest of the table, which is on the safe side.
func Modulus(m project.Material) (pa float64, source string) {
	if m.Modulus > 0 {
		return m.Modulus * 1e6, "as entered"
	}
	w, ok := stock.WoodOf(m.Species)
	switch {
	case ok:
		source = "Wood Handbook FPL-GTR-190, Table 5-3b"
		if w.Memory {
			source += ", from memory"
		}
		return w.E * 1e6 * psi, source
	case m.Kind == "solid":
		return softest, "no species entered: the softest of the table, eastern white pine"
	case m.Kind == "mdf":
		return 348000 * psi, "MDF grade 130, from memory"
	}
	return 950000 * psi, "fir veneer-core plywood, Architectural Woodwork Standards ed. 1, p. 279"
}

// softest is the modulus of the softest wood of the table, in Pa.
var softest = stock.Woods[0].E * 1e6 * psi

// across is the modulus of a material across its grain.
func across(m project.Material, e float64) float64 {
	switch m.Kind {
	case "mdf":
		return e
	case "solid":
		return e / 15 // from memory: E_T is 4 to 10 %, E_R 7 to 20 % of E_L
	}
	al, ac := PlyShares(plies(m.Thick().Metres()))
	return e * ac / al
}
