package page

import "cartwright/engine/work"

// cautions are the sentences to the dangers at a saw, the gravest first: one
// is shown at each step, and the saw's manual has the last word.
var cautions = [...]struct {
	hazard work.Hazard
	say    string
}{
	{work.ShortAtFence, "Little edge on the fence: the piece can turn and kick back. Use the sled if it fits."},
	{work.SlimAtFence, "Less than a hand beside the blade: push block, and never reach over."},
	{work.SledStop, "Stop block on the sled. Never against the fence at the same time."},
	{work.ShortAtMitre, "Too short to hold by hand: clamp it."},
	{work.FreeEdge, "Rough edge: let it not ride where it bows. A straight board along it keeps it true."},
	{work.PushStick, "Riving knife on. Push stick for the last 12 in."},
	{work.ThinStrip, "What falls off is thinner than the kerf: stand aside, do not catch it."},
	{work.Blind, "The groove hides the blade: push blocks, never a hand over it. Guard back on after."},
	{work.BigPiece, "Large piece: a second pair of hands, or supports on all sides."},
	{work.Bridge, "Both sides must lie on something, or the blade is pinched."},
	{work.Kickback, "Riving knife on. Stand beside the line of the blade."},
}

// caution is the gravest danger of a step in words, "" if there is none.
func caution(list []work.Hazard) string {
	for _, c := range cautions {
		for _, h := range list {
			if h == c.hazard {
				return c.say + " Your saw's manual comes first."
			}
		}
	}
	return ""
}
