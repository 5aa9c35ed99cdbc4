package work

import (
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

const (
	// FootOff: a hole of the machine's foot does not lie on the worktop. Args:
	// machine (string), number of the hole from 1 (int), wood left beside it,
	// negative if it lies off the top (Length), the least (Length).
	// Example: foot-off.json
	FootOff issue.Code = "work.foot-off"
	// FootHits: under a hole of the machine's foot stands a part where the nut
	// must go. Args: machine (string), number of the hole from 1 (int), the
	// part (string). Example: foot-hits.json
	FootHits issue.Code = "work.foot-hits"
)

// nutRoom is how far under the worktop a bolt, its washer and a wrench reach
// (common practice, no source).
const nutRoom = inch * 3 / 2

// foot checks the bolts of the machine on the part that it stands on: enough
// wood beside each, and room for its nut below.
func (d *driller) foot(top int, t design.Thing) {
	b := d.c.Parts[top].Box
	for n, pt := range t.Holes {
		least := b.Size(geom.X)
		for _, a := range [2]geom.Axis{geom.X, geom.Y} {
			least = min(least, pt[a]-t.Bolt/2-b.Min[a], b.Max[a]-pt[a]-t.Bolt/2)
		}
		if least < leastEdge {
			d.found.Add(issue.Warn, FootOff, []string{"machine.foot." + itoa(n)}, t.Name, n+1, least, leastEdge)
			continue
		}
		nut := geom.Box{Min: pt, Max: pt}
		for a := geom.X; a <= geom.Y; a++ {
			nut.Min[a] -= t.Bolt
			nut.Max[a] += t.Bolt
		}
		under := b.Min[geom.Z]
		for _, q := range d.c.Parts { // all layers that lie on each other
			if id := string(q.ID); id == "top" || id == "sub-top" {
				under = min(under, q.Box.Min[geom.Z])
			}
		}
		nut.Min[geom.Z], nut.Max[geom.Z] = under-nutRoom, under
		for _, q := range d.c.Parts {
			if !strings.HasPrefix(string(q.ID), "stretcher") && q.Box.Overlaps(nut) {
				d.found.Add(issue.Warn, FootHits, []string{"machine.foot." + itoa(n)}, t.Name, n+1, q.Name)
				break
			}
		}
	}
}

// HoleMeets: two holes of one part run into each other. Args: the part
// (string), what the one is for (string), what the other is for (string).
// Example: hole-meets.json
const HoleMeets issue.Code = "work.hole-meets"

// bore is the room of a hole in its part.
func (d *driller) bore(h Drill, s Spot) geom.Box {
	p := d.c.Parts[h.Part].Box
	b := geom.Box{Min: s.At, Max: s.At}
	for a := geom.X; a <= geom.Z; a++ {
		b.Min[a] -= h.Dia / 2
		b.Max[a] += h.Dia / 2
	}
	deep := h.Depth
	if deep == 0 {
		deep = p.Size(h.Face.Axis)
	}
	in := h.Face.Back().Out(s.At[h.Face.Axis], deep)
	b.Min[h.Face.Axis], b.Max[h.Face.Axis] = min(s.At[h.Face.Axis], in), max(s.At[h.Face.Axis], in)
	return b
}

// meets tells of holes of different rows of part i that run into each other.
// Screws of joints keep clear of each other where they are placed; here it is
// holes whose places are given: fittings, hoses, bolts.
func (d *driller) meets(found *issue.List, rows []Drill) {
	told := map[HoleKind]bool{}
	for n, h := range rows {
		if h.Dia == 0 || h.Kind == PocketHole {
			continue
		}
		q := d.c.Parts[h.Part]
		for _, s := range h.Spots {
			for _, g := range q.Features {
				if g.Kind == part.Groove && !told["groove"] && d.bore(h, s).Overlaps(g.Box) {
					told["groove"] = true
					found.Add(issue.Warn, HoleMeets, []string{string(q.ID)}, q.Name, "groove", string(h.Kind))
				}
			}
		}
		for _, o := range rows[:n] {
			if o.Dia == 0 || o.Kind == PocketHole || h.Kind != PanelHole && o.Kind != PanelHole && h.Kind == o.Kind || told[h.Kind] && told[o.Kind] {
				continue
			}
			if d.cross(h, o) {
				told[h.Kind], told[o.Kind] = true, true
				found.Add(issue.Warn, HoleMeets, []string{string(q.ID)}, q.Name, string(o.Kind), string(h.Kind))
			}
		}
	}
}

// cross reports whether two rows of holes run into each other.
func (d *driller) cross(h, o Drill) bool {
	for _, s := range h.Spots {
		b := d.bore(h, s)
		for _, t := range o.Spots {
			if b.Overlaps(d.bore(o, t)) {
				return true
			}
		}
	}
	return false
}

// nearest is the least distance of a spot of h from an edge of its face.
func (h Drill) nearest(b geom.Box) measure.Length {
	least := b.Size(h.Along)
	for _, s := range h.Spots {
		least = min(least, s.A, b.Size(h.Along)-s.A, s.B, b.Size(h.Across)-s.B)
	}
	return least
}
