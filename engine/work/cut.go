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
	// Piece is what is cut, Makes what comes of it, low side first. A trim
	// makes one piece; a last pass that runs off the edge too.
	Piece mark.Piece
	Makes []mark.Piece
	// Kinds says what each of Makes is: a finished part, a piece to cut on,
	// an offcut to keep, waste.
	Kinds []Outcome
	// At is the distance from the low edge of Piece to the near side of the
	// kerf. Kerf is what the pass takes.
	At, Kerf measure.Length
	// Set is the distance to set: fence, stop or track, from Ride. It is the
	// size of the piece between Ride and the blade.
	Set  measure.Length
	Ride Edge // the edge on the fence or against the stop
	// RideIs says what that edge is: "factory edge", "sawn edge", "rough edge".
	RideIs string
	Saw    string // name of the saw, "" for the store's
	SawIs  string // its kind: "table", "track", …
	// Same reports that the setting stays as it was for the cut before.
	Same bool
	// After lists the IDs of the cuts that must be made before this one.
	After []string
	// Line is the index of the cut-list line of the finished part that comes
	// off, -1 for none.
	Line int
	// Cautions are the kinds of danger at this cut, for the table of cautions.
	Cautions []Hazard
}

// An Outcome is what a piece is after a cut.
type Outcome int

const (
	ToWaste Outcome = iota
	ToKeep
	ToPart
	ToCut
)

// A Hazard is a kind of danger at a step.
type Hazard string

// A Rough is a piece that leaves the store, or stock at home.
type Rough struct {
	Name  string // "R1", …
	Sheet int
	Piece mark.Piece
	// RoughEdges are the edges the store's saw left.
	RoughEdges []Edge
}

// Steps is the work at the saws.
type Steps struct {
	Store []Cut // sheet by sheet, in order
	Shop  []Cut // in the order of the saw
	Rough []Rough
	// Moves is how often a fence or stop is moved in the order of Shop; Naive
	// how often it would be, sheet by sheet.
	Moves, Naive int
	Findings     issue.List
}
