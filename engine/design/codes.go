package design

import "cartwright/engine/issue"

// The findings of this package. The comment of each gives the arguments of its
// sentence in order, and the sample under testdata/projects/findings that
// raises it.
const (
	// Material: a part's material is not in the stock. Args: the part or role
	// (string), the material's ID (string). Example: material.json
	Material issue.Code = "design.material"
	// Chain: the heights do not add up. Args: height of the sides that would
	// remain (Length), least sensible height (Length), what it is short by
	// (Length). Example: chain.json
	Chain issue.Code = "design.chain"
	// NoSize: width or depth is not set, or too small to build. Args: the
	// name of the size (string), its value (Length), the least (Length).
	// Example: no-size.json
	NoSize issue.Code = "design.no-size"
	// Bays: fixed bays do not add up to the width. Args: what the bays take
	// (Length), what there is (Length), the difference, positive if too much
	// is asked for (Length). Example: bays.json
	Bays issue.Code = "design.bays"
	// Openings: the openings of a bay do not add up. Args: bay name (string),
	// what they take (Length), what there is (Length), the difference,
	// positive if too much is asked for (Length). Example: openings.json
	Openings issue.Code = "design.openings"
	// SlideLong: the slides are longer than the case is deep. Args: length of
	// the slides (Length), depth there is (Length). Example: slide-long.json
	SlideLong issue.Code = "design.slide-long"
	// Shallow: no slide that is sold fits the depth. Args: depth there is
	// (Length). Example: shallow.json
	Shallow issue.Code = "design.shallow"
	// BoxShort: between front and back of a box hardly anything stays. Args:
	// length of the slides (Length), what front and back take (Length), the
	// least inside (Length). Example: box-short.json
	BoxShort issue.Code = "design.box-short"
	// DrawerNarrow: the bay is too narrow for a drawer with its slides. Args:
	// bay name (string), clear width (Length), what slides, play and box sides
	// take (Length), the least inside width (Length). Example: drawer-narrow.json
	DrawerNarrow issue.Code = "design.drawer-narrow"
	// DrawerLow: the front is too low for a box behind it. Args: opening name
	// (string), height of the front (Length), the least (Length).
	// Example: drawer-low.json
	DrawerLow issue.Code = "design.drawer-low"
	// Play: drawers have less play than ball-bearing slides need, or more
	// than they take. Args: the play (Length), least (Length), most (Length).
	// Example: play.json
	Play issue.Code = "design.play"
	// Holds: an opening does not hold what it must. Args: opening name
	// (string), thing (string), "wide", "high" or "deep" (string), need
	// (Length), have (Length), short by (Length). Example: holds.json
	Holds issue.Code = "design.holds"
	// MachineWide: the machine and the room around it do not fit on the top.
	// Args: machine (string), "wide" or "deep" (string), need (Length), have
	// (Length), short by (Length). Example: machine-wide.json
	MachineWide issue.Code = "design.machine-wide"
	// StripThin: strips are ripped from a board thinner than the ply edge they
	// must cover. Args: board thickness (Length), ply (Length), short by (Length).
	// Example: strip-thin.json
	StripThin issue.Code = "design.strip-thin"
	// GrooveDeep: the groove for the drawer bottom leaves too little wood.
	// Args: groove depth (Length), thickness of the box side (Length).
	// Example: groove-deep.json
	GrooveDeep issue.Code = "design.groove-deep"
	// DoorNarrow: there is no room for the doors. Args: opening name (string),
	// width of one door that would remain (Length), the least (Length).
	// Example: door-narrow.json
	DoorNarrow issue.Code = "design.door-narrow"
	// Pass: a thing stands in its opening but does not pass the face frame on
	// its way in. Args: opening name (string), thing (string), "wide" or
	// "high" (string), need (Length), have (Length), short by (Length).
	// Example: pass.json
	Pass issue.Code = "design.pass"
	// FrameWide: a face frame leaves no opening. Args: bay name (string), what
	// is left of it (Length), the least (Length). Example: frame-wide.json
	FrameWide issue.Code = "design.frame-wide"
	// FrameProud: a face frame cannot stand so far past the sides, for its
	// stiles would not cover their edges. Args: how far it should (Length),
	// width of a stile (Length), how far it does (Length).
	// Example: frame-proud.json
	FrameProud issue.Code = "design.frame-proud"
	// Gap: the reveal round fronts is negative, or so wide that fronts do not
	// cover their boxes. Args: the gap (Length), least (Length), most (Length),
	// what is used (Length). Example: gap.json
	Gap issue.Code = "design.gap"
	// HoleOff: a hole does not lie in its panel. Args: hole name (string), panel
	// (string), least distance from an edge (Length). Example: hole-off.json
	HoleOff issue.Code = "design.hole-off"
	// HoleHits: a hole meets another part. Args: hole name (string), panel
	// (string), the other part (string). Example: hole-hits.json
	HoleHits issue.Code = "design.hole-hits"
	// Doubt: a measured size is far from the planned one. Args: bay name
	// (string), which size (string), measured (Length), planned (Length),
	// difference (Length). Example: doubt.json
	Doubt issue.Code = "design.doubt"
	// Contradict: the measured diagonals do not belong to an opening of the
	// width and height that were measured, or planned. Args: bay name (string),
	// the diagonals' mean (Length), what width and height give (Length),
	// difference (Length). Example: contradict.json
	Contradict issue.Code = "design.contradict"
	// Tapers: the bay is wider at one end than at the other. Args: bay name
	// (string), width at the front (Length), at the back (Length), difference
	// (Length). Example: tapers.json
	Tapers issue.Code = "design.tapers"
	// OutOfSquare: the diagonals differ. Args: bay name (string), difference
	// of the diagonals (Length), how far the opening leans over its height
	// (Length). Example: out-of-square.json
	OutOfSquare issue.Code = "design.out-of-square"
	// NoBack: without a back nothing keeps the case from racking. No args.
	// Example: no-back.json
	NoBack issue.Code = "design.no-back"
	// BottomHangs: with the bottom between the sides its joints carry
	// everything. No args. Example: bottom-hangs.json
	BottomHangs issue.Code = "design.bottom-hangs"
	// Odd: a field holds a word this build does not know; the default is
	// used. Args: the field (string), the word (string), the words it takes
	// (string). Example: odd.json
	Odd issue.Code = "design.odd"
	// Many: more of a thing than a cart has. Args: the thing (string), how
	// many there are (int), the most (int). Example: many.json
	Many issue.Code = "design.many"
	// OffTape: the table stands a little off the target, since the sides are
	// whole steps of the tape. Args: how much, positive if higher (Length).
	// Example: off-tape.json
	OffTape issue.Code = "design.off-tape"

	// The following are breaches of the laws of the model. They should never
	// be seen: each is a mistake of the program, told instead of hidden.

	// Overlap: two parts are in the same place. Args: two names (string).
	Overlap issue.Code = "design.overlap"
	// Loose: a part is not held to the cart. Args: name (string).
	Loose issue.Code = "design.loose"
	// OpenJoint: two parts that should be joined do not meet. Args: two names.
	OpenJoint issue.Code = "design.open-joint"
	// Undeclared: two parts meet where no rule says so. Args: two names.
	Undeclared issue.Code = "design.undeclared"
	// Stuck: a drawer hits something on its way out. Args: drawer number
	// (int), what it hits (string).
	Stuck issue.Code = "design.stuck"
)
