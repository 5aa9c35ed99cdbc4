package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/stock"
)

const (
	// PullWide: two pulls beside each other are longer than the front leaves
	// room for. Args: the drawer (string), the spacing asked for
	// (Length), room for one pull (Length), the spacing used (Length).
	// Example: pull-wide.json
	PullWide issue.Code = "design.pull-wide"
	// PullHigh: a pull would have no box behind it to be screwed to. Args: the
	// drawer (string), how far under the front's upper edge it is wanted
	// (Length), how far it is put (Length). Example: pull-high.json
	PullHigh issue.Code = "design.pull-high"
)

// Pulls are that much longer than the spacing of their holes, and as high
// (common practice, no source: bar pulls of 12 mm).
const pullBar = 12 * mm

// pulls sets how many pulls a drawer has, the spacing of their holes and their
// height: as the user says, where the front and the box allow it.
func (b *builder) pulls(name, path string, dr *Drawer) {
	d, f := &b.p.Drawers, dr.Front
	w := f.Size(geom.X)
	dr.Pull, dr.Pulls = stock.Pull(w)
	if d.Pulls > 0 {
		dr.Pulls = min(d.Pulls, 2)
		dr.Pull = stock.PullFor(w / measure.Length(dr.Pulls))
	}
	if d.Pulls > 2 && dr == &b.cart.Drawers[0] {
		b.f.Add(issue.Warn, Many, []string{"drawers.pulls"}, "pulls on a front", d.Pulls, 2)
	}
	room := w / measure.Length(dr.Pulls)
	usual := dr.Pull
	if d.Pull > 0 {
		dr.Pull = d.Pull
	}
	if dr.Pulls == 2 && dr.Pull+pullBar > room { // of one, the holes are judged
		used := stock.PullSpacings[0]
		if usual+pullBar <= room {
			used = usual
		}
		b.f.Add(issue.Warn, PullWide, []string{"drawers.pull", path}, name, dr.Pull, room, used)
		dr.Pull = used
	}
	dr.PullAt = f.Size(geom.Z) / 2
	if d.PullAt > 0 {
		dr.PullAt = min(max(d.PullAt, f.Max[geom.Z]-dr.Box.Max[geom.Z]+pullBar), f.Max[geom.Z]-dr.Box.Min[geom.Z]-pullBar)
		if dr.PullAt != d.PullAt {
			b.f.Add(issue.Warn, PullHigh, []string{"drawers.pullAt", path}, name, d.PullAt, dr.PullAt)
		}
	}
}
