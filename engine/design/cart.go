// Package design turns a project into a cart: every part placed in space, and
// the joints where parts touch.
package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// A Cart is what is to be built. It is as complete as the project allows; the
// findings that come with it say what is missing.
type Cart struct {
	Tape   measure.Tape
	Parts  []part.Part
	Joints []part.Joint
	// Lines is the cut list: equal parts in one line, extra parts last. The
	// i-th line has the tag part.Tag(i).
	Lines []part.Line
	// Bays are the columns, from left to right.
	Bays []Bay
	// Chain is the height from the floor to the machine's table, from the
	// floor up; its sum is Reached.
	Chain []Link
	// Target is the height asked for (step included), Reached what comes of
	// whole steps of the tape.
	Target, Reached measure.Length
	// Surface is the height to line up with, 0 if none. Its name may be empty;
	// it stands at the "left", "right", "front" or "back" of the cart.
	Surface                  measure.Length
	SurfaceName, SurfaceSide string
	// Things are what the cart carries or moves on: machine, casters, slides,
	// pulls, what stands in open bays.
	Things []Thing
	// Rooms are what must stay free round the machine.
	Rooms []Thing
	// Levelling is what the base can be screwed, and must be.
	Levelling Levelling
	// Screws hold the joints, pockets first. The shopping list counts them.
	Screws []Screw
	// Hardware is what must be bought besides wood.
	Hardware []Hardware
	// Drawers, in the order of bays, then from the top down.
	Drawers []Drawer
	Doors   []Door
	// Gap is the reveal round fronts that is planned with.
	Gap measure.Length
	// Reserve is how much larger parts may have to be that are measured late.
	Reserve measure.Length
	// Case is the outer box of the carcass without worktop and casters.
	Case geom.Box
}

// A Bay is a column between two uprights.
type Bay struct {
	Name string
	// Inside is the room between the uprights; Clear the opening that is left
	// of it in the face: less, if a face frame stands before it.
	Inside, Clear geom.Box
	// Width and Height of the opening to build for: as measured, else Clear's.
	Width, Height measure.Length
	// Back is where the room for drawers ends: as measured, else Inside's.
	Back     measure.Length
	Openings []Opening
}

// An Opening is a cell of a bay.
type Opening struct {
	Name string
	Kind string   // as in the project
	Cell geom.Box // the clear cell; for a drawer, what its front covers
	// Above is the gap over the cell.
	Above measure.Length
	// Drawer is the 1-based number of its drawer, 0 for none.
	Drawer int
}

// A Drawer is the sizes of one drawer.
type Drawer struct {
	Bay, Opening int // indices
	// Box is the outside of the box, Inside its room, Front the show front.
	Box, Inside, Front geom.Box
	Slide              measure.Length // length of its slides
	// GapSide is the reveal left and right; GapAbove and GapBelow the others.
	GapLeft, GapRight, GapAbove, GapBelow measure.Length
	// Side is the space on each side of the box. Play is how much narrower
	// than its room it is, slides taken off; LeastPlay to MostPlay runs.
	Side, Play, LeastPlay, MostPlay measure.Length
	// Travel is how far it opens.
	Travel measure.Length
	// Pull is the hole spacing, Pulls how many, PullAt how far their middle
	// lies under the front's upper edge.
	Pull   measure.Length
	Pulls  int
	PullAt measure.Length
}

// A Door is one leaf on an opening. Its part is the one with Part.Door equal to
// its number, from 1.
type Door struct {
	Bay, Opening int      // indices
	Front        geom.Box // shut
	Hinge        string   // "left" or "right"
}

// A Link is one member of the height chain.
type Link struct {
	Name   string
	Height measure.Length
	// Path is the project field that sets it, "" if it is computed.
	Path string
}

// A ThingKind is a kind of thing that is not a part.
type ThingKind int

const (
	MachineThing ThingKind = iota
	CasterThing
	FootThing
	SlideThing
	PullThing
	HeldThing
)

// A Thing is not made, but takes up room.
type Thing struct {
	Kind   ThingKind
	Name   string
	Box    geom.Box
	Weight measure.Mass
	Drawer int // moves with it
	// Holes are those of the machine's foot, on the worktop; Bolt their bolts.
	Holes []geom.Pt
	Bolt  measure.Length
}

// Hardware is a count of one thing to buy.
type Hardware struct {
	ID    string // as in the project's stock: "slides", "caster", "pull", …
	Name  string
	Count int
	Why   string // "2 drawers × 1 pair"
}
