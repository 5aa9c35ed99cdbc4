package page

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// mistake ends the texts of findings that no project should raise.
const mistake = " This is a mistake of the program: please keep the project file and report it."

// texts are the sentences of the findings, by code. The first sentence says
// what is wrong and by how much, the next what to do about it.
var texts = map[issue.Code]string{
	// The cart.
	"design.material":      "No material for {0}: “{1}” is not in the stock. Choose one of your materials, or add it at Material.",
	"design.chain":         "Heights do not add up: the sides would be {0}, at least {1} is needed, {2} is missing. Lower the casters or raise the target.",
	"design.no-size":       "{0} is {1}: at least {2} can be built. Set it at Case.",
	"design.slide-long":    "Slides of {0} do not fit: the case leaves {1} inside. Choose shorter slides or a deeper case.",
	"design.shallow":       "No slide that is sold fits a depth of {0}. Make the case deeper, or turn the drawers into open bays.",
	"design.box-short":     "Boxes on slides of {0} are too short: their front and back take {1}, and {2} must stay inside. Take longer slides, or thinner box sides.",
	"design.drawer-narrow": "{0} is too narrow for a drawer: it is {1} wide, slides, play and box sides take {2}, and {3} must stay inside. Widen the bay.",
	"design.drawer-low":    "{0} is too low for a drawer: its front is {1} high, at least {2} leaves a box behind it. Raise it or take one drawer out.",
	"design.pull-wide":     "{0}: two pulls of {1} between their holes do not go on the front, there is room for {2} each. {3} is used. Take shorter ones, or one pull instead of two.",
	"design.pull-high":     "{0}: {1} under the front's upper edge a pull has no box behind it. It is put {2} under it.",
	"design.play":          "Drawers have {0} play: ball-bearing slides run with {1} to {2}. Change “box narrower by” at Drawers.",
	"design.holds":         "{0} is {5} too small: {1} needs {3} {2}, there is {4}. Move the partition or cut the free space.",
	"design.machine-wide":  "The worktop is {4} too small for the {0}: with the room around it, it needs {3} {1}. Widen the case, or let the worktop stand over.",
	"design.strip-thin":    "Strips from a board {0} thick do not cover a ply edge of {1}: {2} is missing. Use a thicker board.",
	"design.groove-deep":   "A groove of {0} leaves too little of a box side {1} thick. Make it at most half as deep as the side is thick.",
	"design.door-narrow":   "No room for the doors of {0}: each would be {1}, at least {2} is needed. Widen the bay or take one door.",
	"design.pass":          "{1} does not pass into {0}: it is {3} {2}, the face frame leaves {4}, {5} is missing. Make the stiles narrower or the bay wider.",
	"design.one-face":      "{2|part shows|parts show} both faces, {0} among them, and {1} is good on one side. Turn the good face to where you look most, or take a sheet good on both.",
	"design.swells":        "Fronts of solid wood grow by up to {0} from the driest air to the dampest: their gaps are planned at {1} instead of {2}. Set a gap at Drawers to have another.",
	"design.gap":           "A gap of {0} round fronts cannot be planned: {1} to {2} can, {3} is used. Change it at Drawers.",
	"design.in-way":        "{0} of the machine meets the {1}, by {2}. Move the machine's side, make the worktop smaller there, or leave that room out.",
	"design.no-top":        "{0} needs the worktop under it, {2} at the {1}: there is {3}, {4} is missing. Let the worktop stand over more, or widen the case.",
	"design.neighbour":     "{0} needs {2}, but the {1} stands {3} away: {4} is missing. Turn the machine, line up on another side, or let the worktop stand over more there.",
	"design.legs":          "The {0} and what stands under the other surface meet first: {2} stays open between the tops. Let the worktop stand over by that much more at the {1}.",
	"design.limit":         "{0} of {1} cannot be planned: {2} to {3} can. {4} is used; correct it.",
	"design.frame-wide":    "The face frame leaves {1} of {0}: at least {2} is needed. Make stiles or rails narrower, or the opening larger.",
	"design.frame-proud":   "The face frame cannot stand {0} past the sides: stiles of {1} would not cover their edges. It stands {2}; make the stiles wider.",
	"design.hole-off":      "{0} does not lie well in {1}: at least {2} of wood should stay beside it. Move it or make it smaller.",
	"design.hole-hits":     "{0} in {1} meets {2}. Move it.",
	"design.doubt":         "{0}: the measured {1} is {2}, planned is {3}. Measure again; the planned size stays in use.",
	"design.contradict":    "{0}: diagonals of {1} do not belong to its width and height, which give {2}: {3} apart. Measure all of them again, from corner to corner in one plane.",
	"design.tapers":        "{0} is {1} wide at the front and {2} at the back: {3} apart. Drawers are made for the narrower end; find out what pulls it together.",
	"design.out-of-square": "{0} is out of square: its diagonals differ by {1}, so it leans {2} over its height. Squeeze the longer diagonal by half the difference before the glue sets, or pack the slides.",
	"design.no-back":       "Nothing keeps the case square: it has no back. Choose a frame or a panel at Case.",
	"design.bottom-hangs":  "The bottom hangs between the sides: its joints carry the whole load. With the bottom under the sides the sides stand on it.",
	"design.odd":           "{0} says “{1}”, which this program does not know. It takes {2}; the usual one is used.",
	"design.many":          "{1} {0}: at most {2} can be planned. Take some out.",
	"design.thin-joint":    "{0}: {1} is too thin for pocket holes, they begin at {2}. Glue the joint and pin it through the other part.",
	"design.short-joint":   "{0} meets {1} over {2}: at least {3} takes a screw. Glue it, or make the part wider.",
	"design.no-place":      "{0} to {1}: {2|screw finds|screws find} no place clear of others, of holes and of edges. Glue and clamp the joint well, or change a size.",
	"design.overlap":       "{0} and {1} are in the same place." + mistake,
	"design.loose":         "{0} is held by nothing." + mistake,
	"design.open-joint":    "{0} and {1} should meet and do not." + mistake,
	"design.undeclared":    "{0} and {1} meet where no joint is planned." + mistake,
	"design.stuck":         "Drawer {0} hits {1} on its way out." + mistake,

	// The job.
	"nest.size":     "{w} is {0} × {1}: such a size cannot be planned. Correct it.",
	"nest.kerf":     "The {1} is {0}: that cannot be planned. Correct it.",
	"nest.number":   "{0} pieces are too many to plan: at most {1}. Take some out.",
	"nest.price":    "A price of {0} cannot be planned with. Correct it.",
	"nest.id":       "Two things are called “{0}”, or one has no name. Give each a name of its own at Material.",
	"nest.nostock":  "{w} has nothing to be cut from: no sheet or board of {0}. Add one at Material.",
	"nest.toolarge": "{w} does not fit any sheet: it is {0} × {1}, the largest takes {2} × {3}. Make it smaller or add a larger sheet.",
	"nest.nocar":    "{w} does not fit the car: it is {0} × {1}, the car takes {2} × {3}, and {4} is trimmed off a store edge. Have it delivered, or make it smaller.",
	"nest.widekerf": "The kerf of {0} is wider than {w}, which is {1}: surely a slip. Correct one of them.",
	"nest.badchain": "The parts of “{0}” cannot follow on from each other: they differ in material, in grain, or in the size they would share.",
	"nest.short":    "{w}: {0} of {1|piece|pieces} found no place, the stock ran out. Add stock at Material.",

	// The plan, by the judge that shares no code with the search.
	"nest.malformed": "The plan is damaged at {w}: {0}. Plan again.",
	"nest.root":      "The plan does not match the sheet at {w}: it has {0} × {1}, the sheet {2} × {3}. Plan again.",
	"nest.edge":      "A cut at {w} does not run from edge to edge: {0} of {1}. Plan again.",
	"nest.sum":       "The pieces at {w} add up to {0}, the sheet has {1}. Plan again.",
	"nest.uncut":     "A cut at {w} parts nothing. Plan again.",
	"nest.tier":      "A store cut at {w} comes after a shop cut. Plan again.",
	"nest.storecuts": "{w} needs {0|store cut|store cuts}, the store makes {1}. Plan again.",
	"nest.strip":     "A store cut at {w} makes a strip of {0}: the store cuts none under {1}. Plan again.",
	"nest.car":       "A piece of {0} × {1} at {w} does not fit the car. Plan again.",
	"nest.trim":      "A rough store edge would be used at {w}: the piece has {0} × {1}, {2} × {3} may be used. Plan again.",
	"nest.piece":     "A part at {w} is {0} × {1}, it should be {2} × {3}. Plan again.",
	"nest.grain":     "A part at {w} lies across the grain. Plan again.",
	"nest.material":  "A part of {0} lies on {1} at {w}. Plan again.",
	"nest.count":     "{w}: {0} made, {1} without a place, {2} asked for. Plan again.",
	"nest.overlap":   "Two pieces at {w} are closer than the kerf. Plan again.",
	"nest.outside":   "A piece at {w} lies outside its sheet. Plan again.",
	"nest.stock":     "The plan uses {0} of {w}, there are {1}. Plan again.",
	"nest.chain":     "The parts of “{0}” do not follow on from each other in the plan. Plan again.",
	"nest.match":     "The parts of “{0}” get {1} from different saws. Plan again.",
	"nest.claim":     "The plan says {1} for {0}, counted are {2}. Plan again.",

	// The work at the saws.
	"work.plan":       "The cuts of sheet {0} do not add up. Plan again.",
	"work.nosaw":      "No saw of yours takes the cut of {0} at {1}: it is {2} long. Add a saw that does, or let the store make it.",
	"work.fence":      "{0} has only {1} to lie on the fence, with the blade {2} away: it can turn and kick back. Use a track saw or a stop for this cut.",
	"work.split":      "Parts of “{0}” that should match are cut on more than one setting of {1}. Cut one, and set the others by it.",
	"work.store-edge": "A cut of sheet {0} must be measured from an edge that the store's saw made, so what it is off by adds up. Ask the store to take care, or allow fewer cuts.",
	"work.no-edge":    "{0} has no straight edge to begin with: every edge is the store's. Make the first one with a straightedge.",
	"work.small":      "{0}, {1}, is small: {2} × {3}. Cut it from the larger piece last, with a stop and a push block, never by hand.",

	// The work at the bench.
	"work.hole-edge":  "{0}: a {1} hole lies {2} from an edge, at least {3} should be left. Choose a smaller pull or plate, or make the part larger.",
	"work.foot-hits":  "Under hole {1} in the foot of the {0} is no room for a nut: {2} stands there. Drive a coach screw instead, or move that part.",
	"work.hole-meets": "{0}: a {2} hole runs into a {1}. Move the one whose place you chose.",
	"work.face-glue":  "{0} comes finished, and {1} is glued to its face: glue does not hold there. Scuff the finish off where they meet, or add screws.",
	"work.clamps":     "{0}: {1|clamp that opens|clamps that open} to {2} would be needed, you have {3}. Bench says how else.",
	"work.reach":      "No driver gets at the screws from {0} into {1}: the bay is too narrow when they are due. Widen it, or glue and clamp that joint.",
	"work.no-way":     "{0} cannot be brought to its place past the others." + mistake,

	// The checks.
	"check.caster": "A caster carries {0}, three of the four standing: it is rated for {1}, {2} less. Choose stronger ones.",
	"check.dense":  "{0} is entered with {1} kg/m³: wood has 80 to 1400. Every weight with it is wrong; correct it at Material.",
	"check.sag":    "{0}: {1}, where {2} is the limit ({3}). See the ways to mend it at Check.",
	"check.bottom": "The bottom of {0} sags {1}, where {2} is the limit. Take a thicker bottom or put less in it.",
	"check.slide":  "{0} weighs {1} with what lies in it: its slides are rated for {2}, {3} less. Take stronger slides.",
	"check.tips":   "Tips with {0} of {1|drawer|drawers} open, short by {2}. {3} Make the base deeper, or let an interlock open one at a time.",
	"check.barely": "Barely stands with {0|drawer|drawers} open: a pull of {1} at the top tips it. Open one at a time.",
	"check.push":   "A push of {1} at the top tips it {0}: it takes {2}. Widen the base, or put something heavy low in it.",
	"check.sill":   "A sill of 1/4 in stops its wheels below {0} m/s, and the cart falls forward from {1} m/s on. Larger wheels roll over it; or lift it over.",
	"check.racks":  "The case leans {0} under a push of {1}: {2} is the limit. Take a stiffer back.",
	"check.corner": "Without a back the screwed corners of the case hold a push of {0}: it is {1}. Choose a frame or a panel at Case.",
	"check.creeps": "It rolls away under the feed of {0}: the brakes hold {1}. Take more casters with brakes.",
	"check.screws": "The screws carry too much, {0}: {1} times their working load. Use bolts with washers, or pads for longer screws.",
	"check.odds":   "{0} without a shim in {1} of 100 carts, ± {2}. The weakest is {3}, worst case ± {4}.",
	"check.heavy":  "The pieces weigh {0}, the car takes {1} at once. {2|trip|trips} then, or have it delivered.",
	"check.moves":  "{0} moves {1} over the seasons and has room for {2}. Make the gaps wider, or take plywood.",
	"check.offset": "Your pieces come out {0} by {1}, ± {2}, from {3|piece|pieces}.{4} Move the fence.",

	// The journal.
	"mark.conflict": "Two plans were taken into use on two devices. This one goes on; the other is kept in the file.",
	"mark.restored": "{0} counts as made: one device took the mark back, another has cut its pieces since.",
}

// told are the findings whose words hang on their numbers.
var told = map[issue.Code]func(speaker, issue.Finding) string{
	"design.bays": func(s speaker, f issue.Finding) string { return s.sum(f, "The bays take {0}, the case has {1}", 2) },
	"design.front-cut": func(s speaker, f issue.Finding) string {
		d, _ := length(f, 1)
		gap, _ := length(f, 2)
		least, _ := length(f, 4)
		switch {
		case gap < least:
			return s.with(f, "{0} is cut {-1} too large: it would stand {2} off {3}, and {4} is the least. Plane it, or cut another.")
		case d < 0:
			return s.with(f, "{0} is cut {-1} too large: reveal {2} {3}. It goes in as it is.")
		}
		return s.with(f, "{0} is cut {1} short: reveal {2} {3}. What is cut stays; the uncut follows.")
	},
	"design.box-cut": func(s speaker, f issue.Finding) string {
		d, _ := length(f, 1)
		is := "{0} is cut {-1} too long"
		if d > 0 {
			is = "{0} is cut {1} short"
		}
		play, _ := length(f, 2)
		least, _ := length(f, 3)
		most, _ := length(f, 4)
		switch {
		case play < least:
			return s.with(f, is+": {2} of play is left, slides need {3}. The box does not go in: cut it again.")
		case play > most:
			return s.with(f, is+": {2} of play, slides take {4}. Pack one slide with card or veneer.")
		}
		return s.with(f, is+": {2} of play, and {3} to {4} runs. It goes in as it is.")
	},
	"design.off-cut": func(s speaker, f issue.Finding) string {
		is, _ := length(f, 2)
		planned, _ := length(f, 3)
		if is > planned {
			return s.with(f, "{0} is cut {2} {1}, {3} is planned now. Trim it, or plan the uncut again.")
		}
		return s.with(f, "{0} is cut {2} {1}, {3} is planned now: it is too short. Cut another, or go back to the size it was for.")
	},
	"design.openings": func(s speaker, f issue.Finding) string {
		return s.sum(f, "The openings of {0} take {1}, there is {2}", 3)
	},
	"design.off-tape": func(s speaker, f issue.Finding) string {
		if d, ok := length(f, 0); ok && d < 0 {
			return s.with(f, "The table stands {-0} lower than asked for: the sides are whole steps of your tape. A finer tape brings it closer.")
		}
		return s.with(f, "The table stands {0} higher than asked for: the sides are whole steps of your tape. A finer tape brings it closer.")
	},
	"design.levels": func(s speaker, f issue.Finding) string {
		if d, ok := length(f, 0); ok && d < 0 {
			return s.with(f, "The table stands {-0} lower than asked for: screw the feet out by that, they take {1}.")
		}
		return s.with(f, "The table stands {0} higher than asked for: screw the feet in by that, they take {1}.")
	},
	"design.level-short": func(s speaker, f issue.Finding) string {
		rest := ""
		if d, ok := length(f, 5); ok && d != 0 {
			rest = ", and whole steps of the tape leave {-5}"
		}
		return s.with(f, "The floor may be out by {4}"+rest+": the base must be screwed {0} by {1}, it can be by {2}, {3} short. Take feet or casters with longer screws (Base), shim under them, or take both heights where they will stand and leave the floor empty.")
	},
	"work.foot-off": func(s speaker, f issue.Finding) string {
		if d, ok := length(f, 2); ok && d < 0 {
			return s.with(f, "Hole {1} in the foot of the {0} lies {-2} off the worktop. Let the worktop stand over further, or measure the foot again.")
		}
		return s.with(f, "Hole {1} in the foot of the {0} leaves {2} of wood on the worktop, at least {3} is needed. Let the worktop stand over further, or measure the foot again.")
	},
	"mark.orphan": func(s speaker, f issue.Finding) string {
		if len(f.Args) > 1 {
			return s.with(f, "{0} was marked as cut at {1}, but this plan has no such cut. The mark is kept.")
		}
		return s.with(f, "{0} is marked as done, but there is no such step now. The mark is kept, and counts again when the step is back; take it off at Bench if it never was.")
	},
	"nest.nocut": func(s speaker, f issue.Finding) string {
		if n, ok := arg[int](f, 2); ok && n == 0 {
			return s.with(f, "{w} does not fit the car: it is {0} × {1}, and the store does not cut. Have it delivered, or find a store that cuts.")
		} else if ok && n > 0 {
			return s.with(f, "{w} does not fit the car: it is {0} × {1}, and {2|store cut does|store cuts do} not make it fit. Allow more cuts, or have it delivered.")
		}
		return s.with(f, "{w} does not fit the car: it is {0} × {1}, and no cut makes it fit. Have it delivered.")
	},
}

// sum says that something takes more or less than there is; the difference is
// argument d, positive if it is too much.
func (s speaker) sum(f issue.Finding, what string, d int) string {
	diff, ok := length(f, d)
	if !ok {
		return ""
	}
	n := string(rune('0' + d))
	if diff > 0 {
		return s.with(f, what+": {-"+n+"} too much. Make one smaller, or let it take what is left.")
	}
	return s.with(f, what+": {-"+n+"} is left over. Make one larger, or let it take what is left.")
}

func length(f issue.Finding, i int) (measure.Length, bool) { return arg[measure.Length](f, i) }

// arg is the i-th argument if there is one of that type.
func arg[T any](f issue.Finding, i int) (v T, ok bool) {
	if i < len(f.Args) {
		v, ok = f.Args[i].(T)
	}
	return v, ok
}
