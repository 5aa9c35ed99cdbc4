package work

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
)

// A Hazard is a kind of danger at a step. The sentences to each stand in
// package check.
type Hazard string

const (
	Kickback     Hazard = "kickback"      // a table saw with the piece along the fence
	PushStick    Hazard = "push-stick"    // less than 6 in between fence and blade
	ShortAtFence Hazard = "short-fence"   // less than 12 in of edge on the fence
	SlimAtFence  Hazard = "slim-fence"    // less than 2 in between fence and blade
	SledStop     Hazard = "sled-stop"     // a stop on a table saw: never the fence as well
	ShortAtMitre Hazard = "short-mitre"   // less than 8 in to hold at the mitre saw
	Bridge       Hazard = "track-support" // a track or hand-held saw: both sides lie on something
	BigPiece     Hazard = "big-piece"     // two people, or supports on all sides
	FreeEdge     Hazard = "rough-edge"    // the piece has no true edge yet
	ThinStrip    Hazard = "thin-strip"    // what falls off is thinner than the kerf is wide
	Blind        Hazard = "blind"         // a groove: the blade stays in the wood, the guard is off
)

// Hazards lists every kind of danger, for tables that must cover them all.
var Hazards = []Hazard{Kickback, PushStick, ShortAtFence, SlimAtFence, SledStop,
	ShortAtMitre, Bridge, BigPiece, FreeEdge, ThinStrip, Blind}

// Codes of findings.
const (
	// BadPlan: the tree of a sheet does not add up. Args: number of the sheet.
	//
	// Where names the place in the tree. No project raises it: a plan that is
	// searched or opened passes nest.Verify first.
	BadPlan issue.Code = "work.plan"

	// NoSaw: no saw of the shop can take a cut. Args: piece, set measure,
	// length of the cut.
	//
	// Example: no-saw.json
	NoSaw issue.Code = "work.nosaw"

	// ShortOnFence: only a table saw is there, and the edge on its fence would
	// be shorter than its distance to the blade. Args: piece, length of the
	// edge, set measure.
	//
	// Example: fence.json
	ShortOnFence issue.Code = "work.fence"

	// Split: parts that should match are cut on more than one setting: one
	// piece is brought to length first, another to width, so no order has both
	// measures on one setting each. The cuts say which part to set the fence
	// by. Args: match group, set measure.
	//
	// Which plan raises it is the search's doing: the tests make one by hand.
	Split issue.Code = "work.split"

	// StoreEdge: a store cut must be measured from an edge that the store's
	// saw made, so errors add up. Args: number of the sheet.
	//
	// Made by hand in the tests, as for Split.
	StoreEdge issue.Code = "work.store-edge"

	// NoTrueEdge: a piece from the store has no factory edge, and the shop no
	// track or hand-held saw to make its first straight edge. Args: piece.
	//
	// Made by hand in the tests, as for Split.
	NoTrueEdge issue.Code = "work.no-edge"

	// Small: a finished part is shorter than 12 in or narrower than 2 in; it
	// is not pushed past a blade by hand. Common practice, no source. Args:
	// tag, name, length, width.
	//
	// Example: no-saw.json
	Small issue.Code = "work.small"
)

// hazards lists the dangers of a pass whose saw is chosen.
func hazards(p *pass) []Hazard {
	var out []Hazard
	add := func(h Hazard, if_ bool) {
		if if_ {
			out = append(out, h)
		}
	}
	table := p.SawIs == "table" || p.SawIs == "" && p.use.saw < 0
	fence := table && p.Guide == Fence
	add(FreeEdge, p.RideIs == RoughEdge)
	add(BigPiece, p.big)
	add(Kickback, fence)
	add(PushStick, fence && p.Set < pushWide)
	add(SlimAtFence, fence && p.Set < slimPiece)
	add(ShortAtFence, fence && p.line() < shortPiece)
	add(SledStop, table && p.Guide == Stop)
	add(ShortAtMitre, p.SawIs == "mitre" && p.size() < mitreShort)
	add(Bridge, p.Guide == Track)
	for i, m := range p.Makes {
		thin := m.L
		if p.Dir == nest.Y {
			thin = m.W
		}
		add(ThinStrip, p.Kinds[i] == ToWaste && thin < p.Kerf)
	}
	return out
}

// size is the size of the piece of p along Dir.
func (p *pass) size() measure.Length {
	if p.Dir == nest.X {
		return p.Piece.L
	}
	return p.Piece.W
}

// smallParts notes the lines whose parts are too small to push by hand.
func smallParts(l *issue.List, job nest.Job, lines []part.Line) {
	for i, p := range job.Parts {
		if p.Count > 0 && (max(p.L, p.W) < shortPiece || min(p.L, p.W) < slimPiece) {
			tag, name := part.Tag(i), p.ID
			if i < len(lines) {
				tag, name = lines[i].Tag, lines[i].Name
			}
			l.Add(issue.Note, Small, []string{p.ID}, tag, name, p.L, p.W)
		}
	}
}
