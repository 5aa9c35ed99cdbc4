// Package mark is the journal: what was done at the bench, as entries that are
// only ever added, and the fold that says what stands now.
package mark

import "cartwright/engine/measure"

// A Kind is a kind of entry. Kinds are only ever added.
type Kind string

const (
	Done     Kind = "done"     // a cut or step was made
	Undone   Kind = "undone"   // the entry named by Undoes does not hold
	Accepted Kind = "accepted" // a plan was accepted: Plan
	// Measured: On turned out to be Value. With Piece and Axis, that piece of
	// the plan came out at Value along the axis.
	Measured Kind = "measured"
	// Bought: so many of On were bought: "buy/ply-18/2".
	Bought  Kind = "bought"
	Spoiled Kind = "spoiled" // Piece, called On, is good for nothing
	// Flawed: Piece, a rectangle of the stock On of the plan, is not to be
	// used. Sheet and place are those of the plan.
	Flawed Kind = "flawed"
)

// A Mark is one entry of the journal. A mark on a cut records facts, not a
// name in a plan: a later plan cannot move it to another cut.
type Mark struct {
	Device  string `json:"device"`  // which device made the entry
	Seq     int    `json:"seq"`     // 1, 2, … on that device
	Lamport int    `json:"lamport"` // larger than any entry seen before
	Time    string `json:"time"`    // RFC 3339, told by the caller
	Kind    Kind   `json:"kind"`
	// On names what the entry is about: for a cut "cut/<sheet>/<path>" where
	// path is the place of the piece in the plan of digest Plan.
	On string `json:"on,omitempty"`
	// Plan is the digest of the plan that was held.
	Plan string `json:"plan,omitempty"`
	// Prior is, for Accepted, the digest of the plan held before, "" for
	// none: a plan accepted in ignorance of another is a conflict.
	Prior string `json:"prior,omitempty"`
	// Piece is the piece that was cut, Axis ("x" or "y") and At where: the
	// distance from the piece's low edge to the near side of the kerf.
	Piece *Piece         `json:"piece,omitempty"`
	Axis  string         `json:"axis,omitempty"`
	At    measure.Length `json:"at,omitempty"`
	// Pieces are what came of it, in order along Axis.
	Pieces []Piece `json:"pieces,omitempty"`
	// Value is a measured size.
	Value measure.Length `json:"value,omitempty"`
	// Saw is the saw that a cut was made on, or a measured piece was cut on;
	// "" if nobody noted it.
	Saw string `json:"saw,omitempty"`
	// Undoes is the (device, seq) of the entry that does not hold.
	Undoes *Ref `json:"undoes,omitempty"`
}

// A Ref names an entry.
type Ref struct {
	Device string `json:"device"`
	Seq    int    `json:"seq"`
}

// A Piece is a piece of a sheet: where it lay and how large it is. X and Y are
// measured from the sheet's origin along its length and width.
type Piece struct {
	Sheet int            `json:"sheet"`
	X     measure.Length `json:"x"`
	Y     measure.Length `json:"y"`
	L     measure.Length `json:"l"`
	W     measure.Length `json:"w"`
	Name  string         `json:"name,omitempty"` // "R2", "C", "keep"
}
