package check

import "cartwright/engine/work"

// A Step is a kind of step that has cautions of its own, besides the hazards
// of single cuts. Names are never reused.
type Step string

const (
	AtStore   Step = "store"   // at the store's panel saw
	LiftSheet Step = "lift"    // carrying and standing up sheets
	LoadCar   Step = "car"     // pieces in or on the car
	AtSaw     Step = "saw"     // any cut at home
	Drilling  Step = "drill"   // pocket holes, hardware holes
	Sanding   Step = "sand"    //
	Gluing    Step = "glue"    // clamps, glue
	Finishing Step = "finish"  // oil, varnish, paint
	Turning   Step = "turn"    // the carcass on its back or upside down
	Machine   Step = "machine" // the machine goes on the cart
	InUse     Step = "use"     // rolling, drawers, feeding work
)

// Steps lists every kind of step, for tables that must cover them all.
var Steps = []Step{AtStore, LiftSheet, LoadCar, AtSaw, Drilling, Sanding, Gluing, Finishing, Turning, Machine, InUse}

// Common is the source of what every shop teaches and nobody wrote first.
const Common = "common practice, no source"

// A Caution is one sentence about a danger, and where it comes from. It is
// shown at the step, after what to do, and ends in Defers: nothing here stands
// above a tool's manual, a label or the law of the place.
type Caution struct {
	Hazard work.Hazard // of a single cut; "" for a caution to a kind of step
	Step   Step
	Say    string
	Defers string
	Source string
}

const (
	manual = "Your saw's manual comes first."
	tool   = "The tool's manual comes first."
	label  = "The label on the tin comes first."
	maker  = "The maker's instructions come first."
	local  = "The car's manual and the rules of the road come first."
)

// cautions is the table, the gravest first among those that can meet at one
// step.
var cautions = []Caution{
	{Hazard: work.ShortAtFence, Defers: manual, Source: Common,
		Say: "Less than 12 in of edge on the fence: the piece can turn and be thrown. Cut it while the piece is still long, or use a sled with a stop."},
	{Hazard: work.SlimAtFence, Defers: manual, Source: Common,
		Say: "Less than 2 in between fence and blade: a push block that covers the strip, or a strip stop on the far side of the blade. Never pull it back past the blade."},
	{Hazard: work.ShortAtMitre, Defers: manual, Source: Common,
		Say: "Too short to hold by hand at the mitre saw: clamp it, and let the blade stop before you lift it."},
	{Hazard: work.SledStop, Defers: manual, Source: Common,
		Say: "Stop on the sled or the mitre gauge, never the fence at the same time: a piece caught between both is thrown."},
	{Hazard: work.BigPiece, Defers: manual, Source: "Cut large sheets to rough size before the bench saw: a UK woodwork tutor's rule; for the rest common practice, no source",
		Say: "Large piece: lay it flat on boards or foam, both sides of the cut held up, and kneel on neither."},
	{Hazard: work.FreeEdge, Defers: manual, Source: Common,
		Say: "No true edge yet: guide the saw along a straight board or track, not along the store's edge."},
	{Hazard: work.ThinStrip, Defers: manual, Source: Common,
		Say: "What falls off is thinner than the blade: stand beside the line of the cut and do not reach for it."},
	{Hazard: work.Bridge, Defers: manual, Source: Common,
		Say: "Hold up both sides of the cut, or they close on the blade and throw the saw back. Clamp the guide; blade just through the sheet."},
	{Hazard: work.Blind, Defers: manual, Source: Common,
		Say: "A groove does not go through: the riving knife stays on if it is lower than the blade, the guard cannot. Push blocks with a grip, a feather board before the blade, and never a hand over it; guard back on right after."},
	{Hazard: work.PushStick, Defers: manual, Source: "UK Health and Safety Executive, circular saw benches: push stick of at least 450 mm for the last 300 mm; 29 CFR 1910.213 (push sticks or blocks)",
		Say: "Riving knife and guard on. Push stick, 18 in or longer, for the last 12 in of the cut."},
	{Hazard: work.Kickback, Defers: manual, Source: "UK Health and Safety Executive: riving knife within 8 mm of the blade, thicker than its plate and thinner than its kerf; 29 CFR 1910.213 (spreader, guard, fence parallel to the blade)",
		Say: "Riving knife within 5/16 in of the blade, fence parallel. Stand beside the line of the blade, never behind the piece."},

	{Step: AtStore, Defers: "What the store's operator says goes.", Source: Common,
		Say: "Stay behind the store's line while the saw runs. The store's edges are rough and not square: no part uses them."},
	{Step: LiftSheet, Defers: "Go by what you can lift.", Source: "Revised NIOSH lifting equation, publication 94-110: no more than 51 lb (23 kg) for one person even at the best height and reach",
		Say: "A full sheet of 3/4 in ply weighs 60 to 80 lb: two people, or a carrier with a wheel. Gloves; watch the wind and the far corner."},
	{Step: LoadCar, Defers: local, Source: Common,
		Say: "Tie the pieces to the car, at front and back, not to the roof rack alone, and not with stretch cords. Nothing may slide forward when you brake. Less than the roof's limit, the rack included."},
	{Step: AtSaw, Defers: manual, Source: "NIOSH Pocket Guide, wood dust: 1 mg/m³ as a time-weighted average, a potential occupational carcinogen",
		Say: "Eyes, ears, dust: goggles, ear muffs, extraction at the saw and a mask for fine dust. Unplug before you touch the blade. No gloves, loose sleeves or rings near it."},
	{Step: Drilling, Defers: tool, Source: Common,
		Say: "Clamp the part, keep the hand out of the line of the bit, and set the collar before the first hole."},
	{Step: Sanding, Defers: tool, Source: "NIOSH Pocket Guide, wood dust: 1 mg/m³ as a time-weighted average",
		Say: "Sanding makes the finest dust: extraction and a mask, and empty the bag outside."},
	{Step: Gluing, Defers: label, Source: Common,
		Say: "Mind where the clamps will fall when they come off. Gloves for polyurethane glue; air the room."},
	{Step: Finishing, Defers: label, Source: "29 CFR 1926.252(e), oily rags in fire-resistant covered containers; NFPA as quoted by a university workshop and an insurer",
		Say: "Oily rags can catch fire by themselves: spread them flat outside till hard, or keep them in a closed metal can filled with water. Never in a heap or a bin. No flame, open windows."},
	{Step: Turning, Defers: "Go by what you can lift.", Source: "Revised NIOSH lifting equation, publication 94-110",
		Say: "Two people to turn the carcass. Take the drawers out first; lift at the bottom, not at a front."},
	{Step: Machine, Defers: maker, Source: Common,
		Say: "Brakes on, drawers shut, a second person. Bolt the machine through its foot before it is switched on."},
	{Step: InUse, Defers: maker, Source: "Barnett, American Journal of Mechanical Engineering 8(1), 2020: an empty cabinet with one full drawer open can fall; heavy things low and one drawer at a time are common practice, no source",
		Say: "One drawer open at a time, heavy things low. Push the cart at its long side, slowly over a sill: it can tip. Brakes on before the machine runs."},
}

// Cautions returns the whole table.
func Cautions() []Caution { return append([]Caution(nil), cautions...) }

// CautionAt returns the gravest caution of a cut with these dangers, and
// whether there is one. A cut without any still has those of its step.
func CautionAt(dangers []work.Hazard) (Caution, bool) {
	for _, c := range cautions {
		for _, h := range dangers {
			if c.Hazard == h {
				return c, true
			}
		}
	}
	return Caution{}, false
}

// CautionFor returns the caution of a kind of step.
func CautionFor(s Step) Caution {
	for _, c := range cautions {
		if c.Step == s && s != "" {
			return c
		}
	}
	return Caution{}
}

// Text is the caution as it is shown: what to do, then what comes first.
func (c Caution) Text() string { return c.Say + " " + c.Defers }
