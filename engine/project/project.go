// Package project is the user's document: what is to be built, from what, with
// which tools; its file form, its versions, and edits to single fields.
package project

import (
	"encoding/json"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// Format and Version head every file. Needs in a file says the least version
// of a reader that understands it.
const (
	Format  = "cartwright-project"
	Version = 1
)

// Unknown keeps fields of a file that this build does not know, verbatim.
type Unknown map[string]json.RawMessage

// A Project is the whole document. A zero field means its default, which its
// comment gives; zero fields are not written to the file.
type Project struct {
	Name     string `json:"name"`
	Note     string `json:"note"`     // shown at the top of Size
	Currency string `json:"currency"` // sign put before prices; default "$"
	Seed     uint64 `json:"seed"`     // of the search

	Tape     Tape        `json:"tape"`
	LineUp   LineUp      `json:"lineUp"`
	Machine  Machine     `json:"machine"`
	Cabinet  Cabinet     `json:"cabinet"`
	Drawers  Drawers     `json:"drawers"`
	Base     Base        `json:"base"`
	Stock    Stock       `json:"stock"`
	Store    Store       `json:"store"`
	Car      Car         `json:"car"`
	Shop     Shop        `json:"shop"`
	Loads    Loads       `json:"loads"`
	Extra    []Extra     `json:"extra"`
	Journal  []mark.Mark `json:"journal"`
	Plan     *Held       `json:"plan"`
	Rival    *Held       `json:"rival"` // a plan that another device took into use, until the user chooses
	Unknown  Unknown     `json:"-"`
	Warnings []string    `json:"-"` // what Open kept but did not understand
}

// Tape is the user's measuring tape.
type Tape struct {
	Unit    string         `json:"unit"` // "inch" (default) or "metric"
	Step    measure.Length `json:"step"` // default 1/32 in, or 0.5 mm
	Unknown Unknown        `json:"-"`
}

// LineUp says what height the machine's table must meet.
type LineUp struct {
	// Mode is "match" (default: meet Surface) or "height" (the worktop stands
	// at Height).
	Mode    string         `json:"mode"`
	Name    string         `json:"name"`    // "assembly table"
	Surface measure.Length `json:"surface"` // height of the other surface
	Height  measure.Length `json:"height"`  // mode "height": top of the worktop
	// Role of the other surface: "receives" work from the machine (it stands
	// level or lower), "feeds" it, "both" (level), "beside" (level).
	Role string         `json:"role"`
	Step measure.Length `json:"step"` // default 1/16 in, or 1.5 mm; 0 for both and beside
	Side string         `json:"side"` // on which it stands: "left" (default), "right", "front", "back"
	// Legs is how far its legs or frame stand out past the edge of its top on
	// our side; negative if they stand back.
	Legs    measure.Length `json:"legs"`
	Unknown Unknown        `json:"-"`
}

// Machine is what stands on the cart.
type Machine struct {
	Name    string         `json:"name"`
	Table   measure.Length `json:"table"` // height of its table above its foot
	Width   measure.Length `json:"width"` // of its body, along x
	Depth   measure.Length `json:"depth"`
	Height  measure.Length `json:"height"`
	Weight  measure.Mass   `json:"weight"`
	Clear   Sides          `json:"clear"` // what must stay free around it
	Needs   []Need         `json:"needs"` // room for its crank, cord, port, fence, hold-downs
	Bolt    measure.Length `json:"bolt"`  // bolts that hold it, thickness; default 5/16 in, or 8 mm
	Foot    []FootHole     `json:"foot"`  // where they go through its foot; empty: marked through the foot itself
	Unknown Unknown        `json:"-"`
}

// A Need is room that something on the machine takes.
type Need struct {
	Name    string         `json:"name"`  // "crank", "dust port", …
	Side    string         `json:"side"`  // of the machine's body: "left" (default), "right", "front", "back"
	Reach   measure.Length `json:"reach"` // how far from the body
	Wide    measure.Length `json:"wide"`  // along that side; 0: all of it
	At      measure.Length `json:"at"`    // its middle, from the left or front end of the body; 0: the body's middle
	Low     measure.Length `json:"low"`   // its lowest point over the machine's foot; negative below it
	High    measure.Length `json:"high"`  // its highest; 0: as high as the machine
	Top     bool           `json:"top"`   // the worktop must lie under all of it, as for hold-downs
	Unknown Unknown        `json:"-"`
}

// A FootHole is a hole in the machine's foot, measured from the low corner of
// its body.
type FootHole struct {
	Right   measure.Length `json:"right"` // of its middle, from the left edge of the body
	Back    measure.Length `json:"back"`  // from its front edge
	Unknown Unknown        `json:"-"`
}

// Sides is a length for each side seen from the front.
type Sides struct {
	Left    measure.Length `json:"left"`
	Right   measure.Length `json:"right"`
	Front   measure.Length `json:"front"`
	Back    measure.Length `json:"back"`
	Unknown Unknown        `json:"-"`
}

// Cabinet is the case.
type Cabinet struct {
	Width    measure.Length `json:"width"`    // outside, without the worktop's overhang
	Depth    measure.Length `json:"depth"`    // outside, strips and back included
	Material string         `json:"material"` // of sides, bottom, partitions
	Bottom   string         `json:"bottom"`   // "under" the sides (default) or "between" them
	// Upper is what the worktop lies on: "sides" (default: on the sides
	// alone), "stretchers" (two rails laid flat) or "sub-top" (a full panel).
	Upper     string         `json:"upper"`
	Stretcher measure.Length `json:"stretcher"` // width of a stretcher; default 4 in, or 100 mm
	Back      Back           `json:"back"`
	Face      Face           `json:"face"`
	Top       Top            `json:"top"`
	Bays      []Bay          `json:"bays"` // from left to right
	Holes     []PanelHole    `json:"holes"`
	Unknown   Unknown        `json:"-"`
}

// Back is what closes the back.
type Back struct {
	// Kind is "frame" (default: rails and stiles with a skin behind), "panel"
	// (laid on from behind), "between" (a panel between the sides), "let-in"
	// (a panel in rabbets of the sides), "none".
	Kind    string         `json:"kind"`
	Frame   string         `json:"frame"` // material of rails and stiles
	Rail    measure.Length `json:"rail"`  // their width; default 2 1/2 in, or 64 mm
	Skin    string         `json:"skin"`  // material of the skin or panel
	Unknown Unknown        `json:"-"`
}

// Face is how the front edges of the case are covered.
type Face struct {
	Kind     string         `json:"kind"`     // "bare" (default), "strips", or "frame": a face frame of stiles and rails
	Material string         `json:"material"` // of strips or frame
	Thick    measure.Length `json:"thick"`    // how far strips stand out; default 1/4 in, or 6 mm
	Stile    measure.Length `json:"stile"`    // width of the stiles of a face frame; default 1 1/2 in, or 38 mm
	Rail     measure.Length `json:"rail"`     // width of its rails; default 1 1/2 in, or 38 mm
	Mid      bool           `json:"mid"`      // rails between the openings of a bay too
	// Proud is how far a face frame stands past the sides; of strips, how much
	// thicker than the ply edge they are when they are glued on. Default:
	// flush, or the board as it is.
	Proud measure.Length `json:"proud"`
	// Edges are those that get strips: "all" (default: uprights, bottom and
	// what lies under the worktop), "uprights", or "shelves": all and the
	// fixed shelves.
	Edges   string  `json:"edges"`
	Corner  string  `json:"corner"` // of the strips round the worktop: "butt" (default) or "mitre"
	Unknown Unknown `json:"-"`
}

// Top is the worktop.
type Top struct {
	Material string  `json:"material"`
	Layers   int     `json:"layers"`   // 1 (default) or 2
	Overhang Sides   `json:"overhang"` // strips included
	Strips   bool    `json:"strips"`   // solid strips on front, left and right edges
	Unknown  Unknown `json:"-"`
}

// A Bay is a column between two uprights.
type Bay struct {
	Name     string         `json:"name"`
	Width    measure.Length `json:"width"` // clear; 0: a share of what is left
	Share    int            `json:"share"` // default 1
	Openings []Opening      `json:"openings"`
	Measured *Measured      `json:"measured"` // after glue-up
	Unknown  Unknown        `json:"-"`
}

// Measured is what a bay's opening really is once the case stands. Zero: not
// measured.
type Measured struct {
	Front     measure.Length `json:"front"` // clear width at the front
	Back      measure.Length `json:"back"`  // and at the back
	Height    measure.Length `json:"height"`
	Depth     measure.Length `json:"depth"`     // inside, from the front edges to the back
	DiagonalA measure.Length `json:"diagonalA"` // across the opening, corner to corner
	DiagonalB measure.Length `json:"diagonalB"`
	Unknown   Unknown        `json:"-"`
}

// An Opening is a cell of a bay, from the top down.
type Opening struct {
	Name   string         `json:"name"`
	Kind   string         `json:"kind"`   // "drawer", "open" (default), "shelf" (open, with a shelf as its floor), "door"
	Doors  int            `json:"doors"`  // behind which it lies: 1 (default) or 2
	Hinge  string         `json:"hinge"`  // of a single door: "left" (default) or "right"
	Pins   int            `json:"pins"`   // loose shelves on pins in it
	Height measure.Length `json:"height"` // of the front, or clear; 0: a share of the rest
	Share  int            `json:"share"`  // default 1
	Holds  *Thing         `json:"holds"`
	// Load is what lies in it, for weight and sag.
	Load    measure.Mass `json:"load"`
	Unknown Unknown      `json:"-"`
}

// A Thing is something of a given size that an opening must hold.
type Thing struct {
	Name    string         `json:"name"`
	Width   measure.Length `json:"width"`
	Depth   measure.Length `json:"depth"`
	Height  measure.Length `json:"height"`
	Clear   measure.Length `json:"clear"` // free space wanted on each side and above
	Weight  measure.Mass   `json:"weight"`
	Unknown Unknown        `json:"-"`
}

// A PanelHole is a hole for a hose, a cable or a hand.
type PanelHole struct {
	Name     string         `json:"name"`
	Panel    string         `json:"panel"` // part ID
	Diameter measure.Length `json:"diameter"`
	Along    measure.Length `json:"along"`  // of the centre, from the part's low end
	Across   measure.Length `json:"across"` // of the centre, from the part's low edge
	Unknown  Unknown        `json:"-"`
}

// Drawers says how all drawers are made.
type Drawers struct {
	SlideRating measure.Mass   `json:"slideRating"` // what a pair of slides carries at its length; 0: not known
	Interlock   bool           `json:"interlock"`   // only one drawer can be open at a time
	Slide       string         `json:"slide"`       // "ball" (default): side-mounted ball-bearing slides; "wood": wooden runners under the box
	Runner      string         `json:"runner"`      // material of wooden runners
	Fit         string         `json:"fit"`         // of fronts and doors: "inset" (default) or "overlay"
	SlideThick  measure.Length `json:"slideThick"`  // of one slide; default 1/2 in, or 12.7 mm
	SlideLength measure.Length `json:"slideLength"` // 0: the longest that fits
	Allowance   measure.Length `json:"allowance"`   // the box is this much narrower; default 1/32 in, or 0.8 mm
	Box         string         `json:"box"`         // material of sides, front, back
	Bottom      string         `json:"bottom"`      // material of the bottom
	Joint       string         `json:"joint"`       // of the bottom: "groove" (default), "under" the box, or "inside" it on pocket screws
	Groove      measure.Length `json:"groove"`      // its depth; default 1/4 in, or 6 mm, at most half the box side
	Front       string         `json:"front"`       // material of the show front
	Grain       string         `json:"grain"`       // of the fronts: "across" the cart (default), "up", or "on": up, running on from front to front of a bay
	Gap         measure.Length `json:"gap"`         // reveal round a front; default 3/32 in, or 2.5 mm
	Below       measure.Length `json:"below"`       // from the front's lower edge to the box; default 1/4 in, or 6 mm
	Above       measure.Length `json:"above"`       // from the box to the front's upper edge; default 1/2 in, or 13 mm
	Pull        measure.Length `json:"pull"`        // hole spacing; 0: chosen by the front's width
	Pulls       int            `json:"pulls"`       // on a front, 1 or 2; 0: chosen by its width
	PullAt      measure.Length `json:"pullAt"`      // of the pull's middle, under the front's upper edge; 0: half way down
	// Reserve is how much larger a box, a front or a filler may have to be once
	// its opening is measured: wood is left for that where it costs nothing.
	// Default 1/8 in, or 3 mm; 0: none.
	Reserve *measure.Length `json:"reserve"`
	Unknown Unknown         `json:"-"`
}

// Base is what the case stands on.
type Base struct {
	Kind  string         `json:"kind"`  // "casters" (default) or "feet"
	Foot  measure.Length `json:"foot"`  // height of the feet
	Level measure.Length `json:"level"` // how far feet or casters can be screwed out, and in
	// Floor is how much higher or lower the floor may lie where the cart is
	// used than where the height to match was taken. Default 0: both were
	// taken where they will stand.
	Floor   measure.Length `json:"floor"`
	Pad     string         `json:"pad"` // material of pads glued under the bottom for the casters' screws; "" for none
	Caster  Caster         `json:"caster"`
	Inset   measure.Length `json:"inset"`   // of the plates from the edges of the bottom; default 1/2 in, or 12 mm
	Ballast measure.Mass   `json:"ballast"` // dead weight on the bottom at the back, so that drawers do not tip it
	Unknown Unknown        `json:"-"`
}

// Caster is one of the four casters.
type Caster struct {
	Name    string         `json:"name"`
	Mount   measure.Length `json:"mount"` // from the floor to the top of its plate
	Wheel   measure.Length `json:"wheel"` // diameter
	Lead    measure.Length `json:"lead"`  // swivel lead
	Plate   measure.Length `json:"plate"` // longer side of the plate; default 3 3/4 in, or 95 mm
	Rating  measure.Mass   `json:"rating"`
	Brakes  int            `json:"brakes"` // how many of the four have one
	Weight  measure.Mass   `json:"weight"`
	Unknown Unknown        `json:"-"`
}

// Stock is what can be bought and what is at home.
type Stock struct {
	Materials []Material `json:"materials"`
	Sheets    []Sheet    `json:"sheets"`
	Boards    []Board    `json:"boards"`
	Offcuts   []Offcut   `json:"offcuts"`
	Scraps    []Scrap    `json:"scraps"`
	Hardware  []Hardware `json:"hardware"`
	Unknown   Unknown    `json:"-"`
}

// A Material is a kind of sheet or board of one thickness.
type Material struct {
	ID       string         `json:"id"`
	Name     string         `json:"name"`
	Kind     string         `json:"kind"` // "plywood", "mdf", "solid"
	Nominal  measure.Length `json:"nominal"`
	Measured measure.Length `json:"measured"` // 0: as nominal
	Density  float64        `json:"density"`  // kg/m³; 0: the default of its kind
	Species  string         `json:"species"`  // of solid wood: "red oak", …; for stiffness, weight and movement
	Modulus  float64        `json:"modulus"`  // modulus of elasticity along the grain, N/mm²; 0: the default of its kind
	Scatter  measure.Length `json:"scatter"`  // sheets differ from the thickness in use by ± this; 0: by what its kind allows
	Finish   string         `json:"finish"`
	Faces    int            `json:"faces"` // good faces: 1 or 2 (default)
	Unknown  Unknown        `json:"-"`
}

// A Sheet is a sheet as sold.
type Sheet struct {
	ID       string         `json:"id"`
	Material string         `json:"material"`
	Length   measure.Length `json:"length"` // plan with the least or measured size
	Width    measure.Length `json:"width"`
	Grain    string         `json:"grain"` // runs along "length", "width" or "none"; stated, never inferred
	Price    measure.Money  `json:"price"`
	Count    int            `json:"count"` // how many can be had; 0: as many as needed
	Unknown  Unknown        `json:"-"`
}

// A Board is a board as sold; its grain runs along its length.
type Board struct {
	ID       string         `json:"id"`
	Material string         `json:"material"`
	Length   measure.Length `json:"length"`
	Width    measure.Length `json:"width"`
	Price    measure.Money  `json:"price"`
	Count    int            `json:"count"`
	Unknown  Unknown        `json:"-"`
}

// An Offcut is a piece at home.
type Offcut struct {
	ID       string         `json:"id"`
	Material string         `json:"material"`
	Length   measure.Length `json:"length"`
	Width    measure.Length `json:"width"`
	Grain    string         `json:"grain"`
	Trim     measure.Length `json:"trim"` // taken off each edge before use
	Count    int            `json:"count"`
	Unknown  Unknown        `json:"-"`
}

// A Scrap is a small piece for spacers.
type Scrap struct {
	Name    string         `json:"name"`
	Thick   measure.Length `json:"thick"`
	Count   int            `json:"count"`
	Unknown Unknown        `json:"-"`
}

// A Hardware is the price of a thing counted by the planner: "slides",
// "caster", "pull", "screws", "glue", …
type Hardware struct {
	ID      string        `json:"id"`
	Name    string        `json:"name"`
	Price   measure.Money `json:"price"`
	Pack    int           `json:"pack"`   // how many are in it; default 1
	AtHome  int           `json:"home"`   // how many are there already
	Weight  measure.Mass  `json:"weight"` // of one
	Unknown Unknown       `json:"-"`
}

// Store is the store's panel saw.
type Store struct {
	Cuts     string         `json:"cuts"` // most cuts per sheet: a number, "none", or "" for no limit
	FreeCuts int            `json:"freeCuts"`
	Price    measure.Money  `json:"price"` // of each further cut
	Kerf     measure.Length `json:"kerf"`  // default 1/8 in, or 3.2 mm
	Trim     measure.Length `json:"trim"`  // taken off each store edge at home; default 1/4 in, or 6 mm
	Accuracy measure.Length `json:"accuracy"`
	Least    measure.Length `json:"least"` // narrowest strip
	Unknown  Unknown        `json:"-"`
}

// Car is what carries the pieces home. A zero Car sets no limit.
type Car struct {
	Delivered     bool           `json:"delivered"` // no limit, at a price
	Delivery      measure.Money  `json:"delivery"`
	OpeningWidth  measure.Length `json:"openingWidth"`
	OpeningHeight measure.Length `json:"openingHeight"`
	FloorLength   measure.Length `json:"floorLength"`
	FloorWidth    measure.Length `json:"floorWidth"`
	Longest       measure.Length `json:"longest"` // longest thin thing, over the seats
	Most          measure.Mass   `json:"most"`
	Unknown       Unknown        `json:"-"`
}

// Shop is what is at hand to cut and clamp.
type Shop struct {
	Saws     []Saw          `json:"saws"`
	Accuracy measure.Length `json:"accuracy"` // ± of one cut; default 1/32 in, or 0.8 mm
	Clamps   []Clamp        `json:"clamps"`
	Unknown  Unknown        `json:"-"`
}

// A Saw is one saw.
type Saw struct {
	Name     string         `json:"name"`
	Kind     string         `json:"kind"` // "table", "track", "mitre", "hand-held"
	Kerf     measure.Length `json:"kerf"`
	Rip      measure.Length `json:"rip"`      // widest rip
	Crosscut measure.Length `json:"crosscut"` // widest crosscut
	Length   measure.Length `json:"length"`   // longest cut
	Trials   []Trial        `json:"trials"`   // test cuts, from which the program learns what the saw does
	Unknown  Unknown        `json:"-"`
}

// A Trial is a test cut: what was set and what came of it.
type Trial struct {
	Set     measure.Length `json:"set"`  // fence, stop or track
	Got     measure.Length `json:"got"`  // what the piece measures that was set for
	From    measure.Length `json:"from"` // what it was cut from measured; 0: not measured
	Rest    measure.Length `json:"rest"` // what is left of that
	Unknown Unknown        `json:"-"`
}

// Clamp is a kind of clamp on hand.
type Clamp struct {
	Kind    string         `json:"kind"` // "bar", "corner", "face", "strap"
	Length  measure.Length `json:"length"`
	Count   int            `json:"count"`
	Unknown Unknown        `json:"-"`
}

// Loads is what the cart carries besides its machine and drawers.
type Loads struct {
	Push    measure.Mass `json:"push"`  // a push at the top, as a weight; default 20 lb, or 9 kg
	Feed    measure.Mass `json:"feed"`  // how hard work is fed into the machine, as a weight; default 20 lb, or 9 kg
	Sag     string       `json:"sag"`   // limit of sag: "kcma" (default), "eye", "design" (0.02 in per ft), "l/144"
	Creep   float64      `json:"creep"` // lasting sag over first sag; default 1.5
	Dry     float64      `json:"dry"`   // driest air of the year where the cart stands, % relative humidity; default 30
	Damp    float64      `json:"damp"`  // dampest; default 65
	Unknown Unknown      `json:"-"`
}

// An Extra is a line of a plain cut list that rides along.
type Extra struct {
	Name      string         `json:"name"`
	Length    measure.Length `json:"length"`
	Width     measure.Length `json:"width"`
	Thickness measure.Length `json:"thickness"`
	Count     int            `json:"count"` // default 1
	Grain     string         `json:"grain"` // "length" (default), "width", "free"
	Material  string         `json:"material"`
	Unknown   Unknown        `json:"-"`
}

// Held is the accepted plan with the job it was made for, as package nest
// writes them.
type Held struct {
	Digest  string          `json:"digest"`
	Job     json.RawMessage `json:"job"`
	Plan    json.RawMessage `json:"plan"`
	Unknown Unknown         `json:"-"`
}

// Measure returns the tape of the project.
func (p *Project) Measure() measure.Tape {
	return measure.Tape{Metric: p.Tape.Unit == "metric", Step: p.Tape.Step}
}

// Material returns the material with the given ID.
func (p *Project) Material(id string) (Material, bool) {
	for _, m := range p.Stock.Materials {
		if m.ID == id && id != "" {
			return m, true
		}
	}
	return Material{}, false
}

// Thick returns the thickness to plan with: measured beats nominal.
func (m Material) Thick() measure.Length {
	if m.Measured > 0 {
		return m.Measured
	}
	return m.Nominal
}
