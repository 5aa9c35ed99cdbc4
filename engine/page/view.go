// Package page turns results into HTML fragments for the six places, and
// findings into sentences.
package page

import (
	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A Place is one of the six places of the program.
type Place string

const (
	Size  Place = "size"
	Parts Place = "parts"
	Store Place = "store"
	Saw   Place = "saw"
	Bench Place = "bench"
	Check Place = "check"
)

// A View is everything that a screen shows. It is made by the planner worker
// after every edit; package page only reads it.
type View struct {
	Place   Place
	Project *project.Project
	Cart    design.Cart
	Job     nest.Job
	Plan    nest.Plan
	Steps   work.Steps
	Buy     work.Shopping
	State   mark.State
	// Saving is what whole sheets would cost, worked out at Store.
	Saving work.Saving
	Report check.Report
	Bench  work.Bench
	// Findings of all stages, sorted.
	Findings issue.List
	// Past is what was done under earlier plans.
	Past work.Past
	// Offer is another plan that waits for a yes, nil for none.
	Offer *Offer
	// Counter and Flaw are open forms; Flaws is what must not be used.
	Counter Counter
	Flaw    Flaw
	Flaws   Flaws
	// Book is the offcuts book.
	Book Book
	// Insured is what a mistake would cost, nil while it is not known.
	Insured *Insurance
	// Strays are parts of the held plan that the project wants otherwise,
	// Misfits those of which one is cut already.
	Strays, Misfits []Stray
	// Held: the plan is accepted or marked on; Digest names it. Stale: the
	// project has changed since, Differ lines of the cut list differ.
	Held   bool
	Digest string
	Stale  bool
	Differ int
	// Searching: the plan may still get better; Tries so far, and how much of
	// what the search is worth is Spent, in percent.
	Searching bool
	Tries     int
	Spent     int
	// Nearby is what other sizes would cost.
	Nearby Nearby
	// Wrong maps the path of a field to what was typed there and could not
	// be read; the document keeps the last good value.
	Wrong map[string]Wrong
	// Came is the question at Saw what a piece measures, if it is open.
	Came Came
	// Was maps the path of a field, or "strip/<cell>", to its text before the
	// drag or edit in progress, for what has just moved.
	Was map[string]string
	// Dragging: a divider of the drawing is being dragged; [Panels] leaves out
	// what no drag moves.
	Dragging bool
	// Selected is the Ref of the chosen thing: "part/A", "cut/0/r.1", …
	Selected string
	// Look is how the cart is seen at Size: "" from the front, "side", "plan".
	Look string
	// Sheet is the index of the sheet shown at Store and Saw.
	Sheet int
	// Saved is the sentence about storage: "Saved on this device, 10:42".
	Saved string
	// SaveFailed: Saved is a warning that stays.
	SaveFailed bool
	// ReadOnly: embedded, or open elsewhere.
	ReadOnly bool
	// Embedded in another site's page.
	Embedded bool
	CanUndo  bool
	CanRedo  bool
	// Projects lists what is stored on this device.
	Projects []Stored
	// Awake: "" unknown, "on", "off".
	Awake string
}

// Wrong is a text that could not be read, and why.
type Wrong struct{ Text, Why string }

// A Came is the open field for what the piece of a cut, by its ID, really
// measures, and the size in it. For a part that was cut before the plan in use
// Cut is "was/<line>/<axis>", and Name and Wanted say what it is.
type Came struct {
	Cut          string
	Size, Wanted measure.Length
	Name         string
}

// CamePath is the path of that field; no field of the project has it.
const CamePath = "came"

// Stored names a project in storage.
type Stored struct{ ID, Name, When string }

// A Panel is a piece of the page: the element with this id gets this content.
type Panel struct{ ID, HTML string }
