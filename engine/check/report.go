// Package check answers whether a cart will hold, fit, roll and stand. Here
// alone quantities are float64 in SI units, since inputs carry two digits.
package check

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// A Report is what was checked, each answer with its sum.
type Report struct {
	Weights []Weight
	// Lines is what one part of each line of the cut list weighs; Parts what
	// each placed part weighs and where its centre of gravity is.
	Lines  []LineWeight
	Parts  []PartWeight
	Empty  measure.Mass // the cart alone
	Loaded measure.Mass // with machine, drawers' and bays' loads
	// CG is the centre of gravity of the empty cart, in metres, cabinet axes.
	CG [3]float64
	// States are the cart empty, loaded, and loaded with each drawer out.
	States   []Balance
	Sums     []Sum // those that fail first, then by what they cost and how near their limit they are
	Tip      Tip
	Bottom   Trade
	Odds     Odds
	Saws     []Learned // one for each saw that pieces were measured of
	Findings issue.List
}

// A Weight is one row of the weight sum.
type Weight struct {
	Name string
	How  string // "4.21 m² × 18 mm × 680 kg/m³"
	Mass measure.Mass
}

// A LineWeight is what one part of a line of the cut list weighs.
type LineWeight struct {
	Tag, Name string
	Count     int
	Each      measure.Mass
}

// A PartWeight is the weight of a placed part and its middle, in metres.
type PartWeight struct {
	ID   part.ID
	Mass measure.Mass
	At   [3]float64
}

// A Balance is the weight of the cart in one state, and its centre of gravity in
// metres.
type Balance struct {
	Name string
	Mass measure.Mass
	At   [3]float64
}

// A State says how a check came out. The zero State claims nothing.
type State int

const (
	NotChecked State = iota
	Fails
	Fact // there is no limit to hold it against
	Fine
)

// A Sum is one answer with the rows that lead to it.
type Sum struct {
	Title   string // "Load on one caster"
	Rows    []SumRow
	Subs    []Sub  // sums behind single rows
	Verdict string // begins "Fine", "Not checked", or says what is wrong
	State   State
	Cost    Cost    // what it costs if it fails
	Used    float64 // how much is asked of what there may be: 1 is the limit; 0: not known
	Source  string  // formula, its limits, where it comes from
	Mends   []Mend  // the most helpful first
}

// A Sub is a sum behind a row of another: one gap of many.
type Sub struct {
	Title, Result string
	Rows          []SumRow
}

// A Cost is what it costs if a check fails, as with findings.
type Cost = issue.Cost

const (
	Hurts  = issue.Hurts
	Spoils = issue.Spoils
	Money  = issue.Money
	Time   = issue.Time
)

// A SumRow is a cause, its factors and the result, as text in the user's
// units. Total rows are results of those above.
type SumRow struct {
	Cause, Factors, Result string
	Total                  bool
}

// A Mend is a change that was tried on a copy of the project: the field, what
// to set it to, and what comes of it; several fields and values, that are set
// together, stand on lines of their own. Without a Path it is advice, with a
// Path alone something that only the user knows, to be entered there.
type Mend struct {
	Path, Value string
	Text        string // "Front casters 1 in forward"
	Result      string // "stands by 77.5 lb·in"
	Mends       bool   // all of what was wrong
}

// A Trade is the drawer bottom that is nearest its limit of sag, and what other
// sheets would do in its place: a row each with its name, what the bottoms of
// all drawers would weigh more or less, and how far this one would sag.
type Trade struct {
	Drawer, Sag, Limit string
	Others             []SumRow
}

// A Tip is the state that the sum about tipping shows: which drawers are out,
// what each weighs with its load and what the rest does, and the place of the
// pivot, in metres from the front.
type Tip struct {
	Title   string // of its sum
	Out     []int  // indices of drawers
	Drawers []measure.Mass
	Rest    measure.Mass
	Pivot   float64
}
