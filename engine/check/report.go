// Package check answers whether a cart will hold, fit, roll and stand. Here
// alone quantities are float64 in SI units, since inputs carry two digits.
package check

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// A Report is what was checked, each answer with its sum.
type Report struct {
	Weights []Weight
	Empty   measure.Mass // the cart alone
	Loaded  measure.Mass // with machine, drawers' and bays' loads
	// CG is the centre of gravity of the empty cart, in metres, cabinet axes.
	CG       [3]float64
	Sums     []Sum
	Findings issue.List
}

// A Weight is one row of the weight sum.
type Weight struct {
	Name string
	How  string // "4.21 m² × 18 mm × 680 kg/m³"
	Mass measure.Mass
}

// A Sum is one answer with the rows that lead to it.
type Sum struct {
	Title   string // "Load on one caster, three of four carrying"
	Rows    []SumRow
	Verdict string // "fits", "fine", "not checked", …
	OK      bool
	Source  string
}

// A SumRow is a cause, its factors and the result, as text in the user's units.
type SumRow struct{ Cause, Factors, Result string }
