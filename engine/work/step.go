package work

import (
	"math"
	"slices"

	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

const (
	// Clamps: a step wants more clamps than there are, or longer ones; the
	// step says how else. Args: the step (string), how many (int), their
	// least opening (Length), how many there are (int). Example: clamps.json
	Clamps issue.Code = "work.clamps"
	// Reach: no driver gets at a screw when it is due. Args: the part it is
	// driven from (string), the one it holds (string). Example: reach.json
	Reach issue.Code = "work.reach"
	// NoWay: a part cannot be put where it belongs after the others. It
	// should never be seen: a mistake of the program. Args: its name (string).
	NoWay issue.Code = "work.no-way"
)

// An Attitude is how the thing at hand lies on the bench.
type Attitude string

const (
	LiesFlat   Attitude = "flat on the bench"
	Upright    Attitude = "upright"
	OnItsBack  Attitude = "on its back"
	UpsideDown Attitude = "upside down, on its worktop"
)

// An Add is a part that a step adds, and the side it comes from.
type Add struct {
	Part int
	From design.Side
	// Unit is the sub-assembly or part that it is moved with.
	Unit string
}

// A Step is one step of building.
type Step struct {
	ID    string // "build/uprights"
	Title string
	// Adds come in this order; Have are the parts they are added to.
	Adds []Add
	Have []int
	// Held: what is added does not stand alone until it is fastened.
	Held     bool
	Attitude Attitude
	Turn     bool // it has to be turned for this step
	Screws   []ScrewCount
	Glue     bool
	// Minutes is how long the glue of this step takes to spread and close. It
	// stays within the open time, but where one unit alone has more joints.
	Minutes int
	// Bare are parts whose finished face takes glue in this step: it must be
	// scuffed, masked before the finish, or screwed.
	Bare    []int
	Clamps  []ClampNeed
	Squares []Square
	// Clamped and Next are minutes: in clamps, and from the start until the
	// next step may load the joint.
	Clamped, Next int
	// Flush are parts that are planed down to the ply in this step.
	Flush []int
	// Cautions are kinds of steps in the table of cautions: "glue", "turn", …
	Cautions []string
}

// A ScrewCount is so many screws of a length.
type ScrewCount struct {
	Kind design.ScrewKind
	Long measure.Length
	N    int
}

// A ClampNeed is so many clamps of a kind that open at least that far.
type ClampNeed struct {
	Kind  string
	Open  measure.Length
	Count int
	Have  int // at home that open so far
	// Way is what else holds it if there are too few.
	Way string
}

// A Square is a rectangle whose diagonals are to be read.
type Square struct {
	Name     string
	W, H     measure.Length
	Diagonal measure.Length // to the nearest mark of the tape
}

// Glue and clamps, common practice without a source: yellow glue stays open for
// 5 to 10 minutes, two of which go into a joint; clamps 30 to 60 minutes, the
// next step after one to two hours.
const (
	perJoint   = 2
	openTime   = 10
	clampTime  = 45
	nextTime   = 60
	caul       = inch * 3 / 4 // of wood between clamp and joint
	driverRoom = 3 * inch     // beside the axis of a slanting driver
	driverLong = 8 * inch     // behind the head of a screw
)

// ClampSpacing is how far apart clamps may stand when their force goes through
// so much wood to the joint: it spreads at 45° to both sides (a woodworking
// magazine, 2010: a board 6 in wide, a cone of 12 in).
func ClampSpacing(through measure.Length) measure.Length { return 2 * through }

// ClampsFor is how many clamps of the given force press an area at a pressure,
// in any units that agree: area × pressure ÷ force, rounded up.
func ClampsFor(area, pressure, force float64) int { return int(math.Ceil(area * pressure / force)) }

// OpenTime is how many minutes glue stays open.
const OpenTime = openTime

// FaceGlue: a joint relies on glue on a face that comes finished; it does not
// hold there. Args: the part (string), what is glued to it (string).
// Example: face-glue.json
const FaceGlue issue.Code = "work.face-glue"

// A Bench is all that is planned for the bench.
type Bench struct {
	Drilling
	Building
}

// AtBench plans the bench.
func AtBench(p *project.Project, c design.Cart) Bench {
	return Bench{Drills(p, c), Build(p, c)}
}

// Told lists what both have found.
func (b Bench) Told() issue.List {
	return append(slices.Clip(b.Drilling.Findings), b.Building.Findings...)
}

// A Building is the order of building.
type Building struct {
	Steps    []Step
	Flips    int // how often the case is turned
	Findings issue.List
}
