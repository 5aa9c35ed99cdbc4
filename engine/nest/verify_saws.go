package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// An occasion is a distance at which the fence is set, before the case is
// measured or late, after that.
type occasion struct {
	at   measure.Length
	late bool
}

// isLate reports whether n holds parts with a reserve and no others, and the
// reserve of one of them lies along d.
func (v *proof) isLate(n *Node, d Dir) bool {
	early, along := 0, 0
	var count func(n *Node)
	count = func(n *Node) {
		if n == nil {
			return
		}
		if n.Kind == Piece && n.Part >= 0 && n.Part < len(v.job.Parts) {
			r := v.job.Parts[n.Part].Reserve
			if r.L == 0 && r.W == 0 {
				early++
			}
			if n.Rot == (d == Y) && r.L != 0 || n.Rot == (d == X) && r.W != 0 {
				along++
			}
		}
		count(n.Core)
		for _, k := range n.Kids {
			count(k)
		}
	}
	count(n)
	return along > 0 && early == 0
}

// settable lists what a cut of n can be set on that frees a kid of size set
// when so much of n is cut off already; line is the length of the cut. None:
// it is laid to marks. See [Saws].
func (v *proof) settable(n *Node, gone, set, line measure.Length) (on []string) {
	s := v.job.Saws
	if s == (Saws{}) {
		return []string{"any"}
	}
	left := n.L - gone // of n, along the cut's axis
	if n.Dir == Y {
		left = n.W - gone
	}
	const inch = measure.Inch
	long, short := max(left, line), min(left, line)
	big := long > 60*inch && short > 24*inch || measure.Area(long)*measure.Area(short) > measure.Area(48*inch)*measure.Area(40*inch)
	if big && s.Track {
		return nil
	}
	along := v.stock.Grain == Along && n.Dir == Y || v.stock.Grain == Across && n.Dir == X
	across := v.stock.Grain != Free && !along
	if (across || v.stock.Grain == Free && set > line) && line <= s.Mitre {
		on = append(on, "mitre")
	}
	if !along && line <= s.Sled && !big {
		on = append(on, "sled")
	}
	if set <= s.Fence && set <= line && line <= s.Long && (line >= 12*inch || len(on) == 0) {
		on = append(on, "fence")
	}
	return on
}

// settings is the least number of settings: for each distance the fewest of
// mitre saw, sled and fence that take all its cuts.
func (v *proof) settings() (n int) {
	for _, cuts := range v.distances {
		cuts = slices.DeleteFunc(cuts, func(on []string) bool { return len(on) == 0 })
		if len(cuts) == 0 {
			continue
		}
		enough := func(used ...string) bool {
			return !slices.ContainsFunc(cuts, func(on []string) bool {
				return !slices.ContainsFunc(on, func(s string) bool { return slices.Contains(used, s) })
			})
		}
		switch {
		case enough("any"), enough("mitre"), enough("sled"), enough("fence"):
			n++
		case enough("mitre", "sled"), enough("mitre", "fence"), enough("sled", "fence"):
			n += 2
		default:
			n += 3
		}
	}
	return n
}
