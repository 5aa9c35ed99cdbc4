// Package planner is the long-lived heart of the program in the browser: it
// holds the document, answers every action with what must be shown and stored,
// and says when to search for a better plan. It knows neither the browser nor
// the clock; its caller tells both.
package planner

import (
	"fmt"

	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A Config is what a planner must know of where it runs.
type Config struct {
	// Device names this device in the journal.
	Device string
	// Now tells the time, RFC 3339, for journal entries.
	Now func() string
	// Draw, if it is set, gets a new drawing for the canvas before the page's
	// panels are made: the finger is on the drawing.
	Draw func(scene []byte)
	// Embedded: on another site's page, without storage.
	Embedded bool
}

// An Action is something the user did, on the page or on the canvas, or that
// the page has to tell. Which fields count depends on Do; see [Planner.Do].
type Action struct {
	Do    string `json:"do"`
	Path  string `json:"path"`  // of a field or list of the project
	Value string `json:"value"` // what was typed or chosen
	To    string `json:"to"`    // a place, a tape, a starting point
	Ref   string `json:"ref"`   // what was tapped or dragged
	Cut   string `json:"cut"`   // ID of a cut
	Step  string `json:"step"`  // of a nudge: "step" or "-step"
	At    int    `json:"at"`    // place in a list, -1 for its end; number of a sheet
	By    int64  `json:"by"`    // ticks moved since the start of a drag
	Phase string `json:"phase"` // of a drag: "start", "move", "end", "cancel"
	W     int    `json:"w"`     // size of the drawing in CSS pixels
	H     int    `json:"h"`

	ID       string        `json:"id"`       // of a project in storage
	Text     string        `json:"text"`     // a project
	Marks    []string      `json:"-"`        // the stored journal entries, or those of the book
	ReadOnly bool          `json:"readonly"` // open elsewhere, or embedded
	List     []page.Stored `json:"list"`     // what is stored on this device
}

// A Record is something to be stored. All records of one reply are stored in
// one transaction, or none.
type Record struct {
	// Kind is "doc" (the project without its journal), "mark" (one entry of
	// the journal), "gone" (the project is to be removed) or "book" (the entry
	// Name of the offcuts book; without a text it is struck out).
	Kind    string `json:"kind"`
	Project string `json:"project"`
	Name    string `json:"name,omitempty"`   // doc: name of the project
	Device  string `json:"device,omitempty"` // mark: with Seq, its key
	Seq     int    `json:"seq,omitempty"`
	Text    string `json:"text,omitempty"` // JSON
}

// A File is handed to the user.
type File struct {
	Name string `json:"name"`
	Type string `json:"type"`
	Text string `json:"text"`
}

// A Share is a project for others, without its journal, and with the plan that
// is on the screen if it is for an embedding page; then Picture is an SVG too.
type Share struct {
	Text    string `json:"text"`
	Picture string `json:"picture,omitempty"`
}

// A Reply is what follows from an action.
type Reply struct {
	// Panels are the pieces of the page that changed, Flags what the style
	// sheet must know if any of it changed.
	Panels []page.Panel `json:"panels,omitempty"`
	Flags  []page.Flag  `json:"flags,omitempty"`
	// Drawn reports that the drawing for the canvas changed.
	Drawn bool `json:"-"`
	// Records must be stored; until they are, the project counts as unsaved.
	Records []Record `json:"records,omitempty"`
	// Alert is shown until it is dismissed.
	Alert string `json:"alert,omitempty"`
	// Place is where the program stands; Title names the document, ID its
	// place in storage. Planned: there is a project on the screen.
	Place   page.Place `json:"place"`
	Title   string     `json:"title"`
	ID      string     `json:"id"`
	Planned bool       `json:"planned"`
	// Searching: better plans may still come.
	Searching bool `json:"searching,omitempty"`
	// Settle asks for the action "settle" after a few seconds: what has just
	// moved stays lit until then.
	Settle bool `json:"settle,omitempty"`
	// Marked reports that a cut was marked, to be felt.
	Marked bool `json:"marked,omitempty"`
	// File is to be downloaded, Share to be made a link of.
	File  *File  `json:"file,omitempty"`
	Share *Share `json:"share,omitempty"`
	// Print asks for the panel "print" to be printed.
	Print string `json:"print,omitempty"`
	// Late: the panels are still to be made, by [Planner.Panels], when there
	// is time: the drawing came first.
	Late bool `json:"-"`
	// Search says what should run in the background from now on, Price what
	// should besides, or after it, look at other sizes.
	Search Order `json:"-"`
	Price  Order `json:"-"`
	// Quiet: nothing on the page has changed.
	Quiet bool `json:"-"`
}

// A Planner holds one project. Its methods are not for concurrent use.
type Planner struct {
	cfg      Config
	id       string // in storage
	doc      *project.Project
	readOnly bool

	past, future []step
	wrong        map[string]page.Wrong
	came         page.Came // the open question what a piece measures
	offer        *offer
	atCounter    page.Counter // what is being said there
	flaw         page.Flaw    // the open question what must not be used
	moving       *move
	was          map[string]string

	place    page.Place
	selected string
	look     string // how the cart is seen at Size: "", "side", "plan"
	sheet    int
	w, h     int  // of the drawing, CSS pixels
	scenes   bool // are wanted by the canvas
	canvas   bool // shows them: no SVG is needed

	saved      string
	saveFailed bool
	projects   []page.Stored
	book       []project.Rest
	awake      string
	say        string // for the live region, until the next action

	out result
	// whole is what whole sheets would cost for wholeJob.
	whole    *work.Saving
	wholeJob nest.Job
	held     *held
	hunt     hunt
	policy   policy
	named    struct { // the plan that quarryName knows
		root *nest.Node
		name string
	}
	prices prices
	hand   string // the size that was changed last; see engine.Sizes
	known  *plan  // that is known for what the document is becoming

	shown map[string]string // panels as last sent
	flags []page.Flag
	drawn string // scene as last sent to the canvas
	reply *Reply // in the making
}

// New returns a planner without a project.
func New(cfg Config) *Planner {
	if cfg.Now == nil {
		cfg.Now = func() string { return "" }
	}
	return &Planner{cfg: cfg, place: page.Size, w: 744, h: 702,
		wrong: map[string]page.Wrong{}, shown: map[string]string{}}
}

// A refusal is an error whose text is meant for the user.
type refusal string

func (r refusal) Error() string { return string(r) }

func refuse(format string, args ...any) error { return refusal(fmt.Sprintf(format, args...)) }
