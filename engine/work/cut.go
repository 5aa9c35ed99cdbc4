// Package work turns a plan into steps in an order that can be done: the store
// cuts of each sheet, then the cuts at the shop's saws.
package work

import (
	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// A Verb is what a cut is called.
type Verb string

const (
	Rip      Verb = "Rip"      // along the grain of the piece
	Crosscut Verb = "Crosscut" // across it
	TrimOff  Verb = "Trim"     // takes a rough edge off
	Breakup  Verb = "Cut"      // at the store, or where there is no grain
)

// An Edge is an edge of a piece as it lies on the drawing.
type Edge string

const (
	LeftEdge   Edge = "left"
	RightEdge  Edge = "right"
	TopEdge    Edge = "top" // low y: the drawing puts the sheet's origin at the top left
	BottomEdge Edge = "bottom"
)

// What an edge is.
const (
	FactoryEdge = "factory edge" // as sold
	SawnEdge    = "sawn edge"    // cut at home, true
	RoughEdge   = "rough edge"   // left by the store's saw, not to be trusted
	OldEdge     = "old edge"     // of an offcut at home
)

// A Guide is what a measure is set on.
type Guide string

const (
	Fence Guide = "fence" // of a table saw
	Stop  Guide = "stop"  // a block on a mitre saw, or on the sled of a table saw
	Track Guide = "track" // a track, or a straightedge for a hand-held saw
)

// A Cut is one pass of a saw.
type Cut struct {
	// ID names the cut by its place in the plan: "cut/<sheet>/<path>".
	ID string
	// N is the number on the drawing: store cuts count from 1 on each sheet,
	// shop cuts from 1 over the whole project, in the order of the saw.
	N     int
	Tier  nest.Tier
	Sheet int // index in Plan.Sheets
	Verb  Verb
	// Dir is the axis along which the pieces part; the line runs the other way.
	Dir nest.Dir
	// Piece is what is cut, Makes what comes of it, low side first. A pass
	// that runs off the edge makes one piece. Sizes are those of the real
	// piece: a rough edge that nobody needs to take off is part of it.
	Piece mark.Piece
	Makes []mark.Piece
	// Kinds says what each of Makes is: a finished part, a piece to cut on,
	// an offcut to keep, waste. Lines gives the cut-list line of each that is
	// a finished part, -1 for the others.
	Kinds []Outcome
	Lines []int
	// At is the distance from the low edge of Piece to the near side of the
	// kerf. Kerf is what the pass takes: less than the saw's if it runs off
	// the edge.
	At, Kerf measure.Length
	// Set is the distance to set: fence, stop or track, from Ride. It is the
	// size of the piece between Ride and the blade.
	Set  measure.Length
	Ride Edge // the edge on the fence or against the stop
	// RideIs says what that edge is: [FactoryEdge], [SawnEdge], …
	RideIs string
	Saw    string // name of the saw, "" for the store's
	SawIs  string // its kind: "table", "track", …
	Guide  Guide  // what Set is set on; "" at the store
	// Face says which face lies up, so that the one that shows is torn least:
	// "good face up" where the teeth enter from above, else "good face down";
	// "" at the store and without a saw. Common practice, no source.
	Face string
	// Same reports that the setting stays as it was for the cut before at
	// this saw; SameAs lists the numbers of the cuts made on it so far.
	Same   bool
	SameAs []int
	// SetBy is the number of an earlier cut that brought a part to the measure
	// that this one's must match, if the fence was moved in between: set it by
	// that part, not by the scale. 0: none.
	SetBy int
	// After lists the IDs of the cuts that must be made before this one.
	After []string
	// Line is the index of the cut-list line of the finished part that comes
	// off, -1 for none.
	Line int
	// Rest is the size along Dir that the other piece must have if it is a
	// finished part too, and gets no pass of its own; else 0. If it is
	// larger, because the real sheet or the real kerf is, it takes one more
	// pass at this size.
	Rest measure.Length
	// Late: all parts that hang on it are measured late. It is made after all
	// others, when the case stands.
	Late bool
	// Cautions are the kinds of danger at this cut, for the table of cautions.
	Cautions []Hazard
}

// Off is what is left beyond the blade: the size of the other piece along Dir,
// or of the waste that falls off.
func (c Cut) Off() measure.Length {
	size := c.Piece.L
	if c.Dir == nest.Y {
		size = c.Piece.W
	}
	return size - c.Set - c.Kerf
}

// An Outcome is what a piece is after a cut.
type Outcome int

const (
	ToWaste Outcome = iota
	ToKeep
	ToPart
	ToCut
)

// A Rough is a piece that leaves the store, or stock at home.
type Rough struct {
	Name  string // "R1", …; for stock at home its ID, "ID (2)" for the second
	Sheet int
	Piece mark.Piece
	// RoughEdges are the edges the store's saw left.
	RoughEdges []Edge
	// AtShop is stock that was at home, or never saw the store's saw.
	AtShop bool
	// Keep: it is an offcut as it is.
	Keep bool
}

// An End is what is left of a sheet at one place when every cut is made.
type End struct {
	Piece mark.Piece
	Is    Outcome // never ToCut
	Line  int     // ToPart: its cut-list line; else -1
	Rot   bool    // ToPart: the part's length lies along y
	// By is the ID of the cut that frees it, "" if none does.
	By string
	// Rough is the index of its rough piece in Steps.Rough, -1 for what
	// stays at the store.
	Rough int
}

// Steps is the work at the saws.
type Steps struct {
	Store []Cut // sheet by sheet, in order
	Shop  []Cut // in the order of the saw
	Rough []Rough
	// Ends are the pieces when all is done, sheet by sheet: parts, offcuts,
	// waste. With the kerfs they fill the sheets.
	Ends []End
	// Mills are grooves, dadoes, rabbets and mitres, after the cuts.
	Mills []Mill
	// Moves is how often a fence or stop is moved in the order of Shop; a track
	// is laid to marks and counts for none. Naive is how often it would be,
	// sheet by sheet, with each cut at the saw that suits it best by itself.
	// Settings is the least possible: the number of different ones.
	Moves, Naive, Settings int
	Findings               issue.List
	// Bad are the rectangles of the sheets that are not to be used. The caller
	// sets them, for the drawings.
	Bad []mark.Piece
}

// Cut returns the cut with the ID.
func (s *Steps) Cut(id string) (Cut, bool) {
	for _, list := range [][]Cut{s.Store, s.Shop} {
		for _, c := range list {
			if c.ID == id {
				return c, true
			}
		}
	}
	return Cut{}, false
}
