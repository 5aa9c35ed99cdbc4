package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// What follows when a part was cut at another size than the cart wants now. No
// project file alone raises these: they need a journal.
const (
	// FrontCut: a front or door. Args: its name (string), how much it is short,
	// negative if it is too large (Length), the reveal that is left (Length),
	// where (string), the least reveal (Length).
	FrontCut issue.Code = "design.front-cut"
	// BoxCut: front or back of a drawer box. Args: the part (string), how much
	// it is short, negative if too long (Length), play that is left (Length),
	// least and most play (Length, Length).
	BoxCut issue.Code = "design.box-cut"
	// OffCut: any other part. Args: its name (string), "long" or "wide"
	// (string), how much it has (Length), is planned with (Length).
	OffCut issue.Code = "design.off-cut"
)

// AsCut tells what follows in c, as it is planned now, from a part that was cut
// at l × w. What is cut keeps its size: a front stands against its low left gap
// and the others take the difference.
func AsCut(c Cart, id part.ID, l, w measure.Length) issue.List {
	var f issue.List
	p, ok := find(c.Parts, id)
	if !ok {
		return nil
	}
	where := []string{string(id)}
	step := c.Tape.Least()
	tell := func(axis geom.Axis, is, planned measure.Length) {
		short := planned - is
		switch {
		case short == 0:
		case p.Front == "face" && (p.Drawer > 0 || p.Door > 0):
			gap, side, name := c.Gap, "on the right", c.openingOf(p)
			if axis == geom.Z {
				side = "above"
			}
			if p.Drawer > 0 {
				d := c.Drawers[p.Drawer-1]
				if gap = d.GapRight; axis == geom.Z {
					gap = d.GapAbove
				}
			}
			level := issue.Note
			if gap += short; gap < step || short > 2*step {
				level = issue.Warn
			}
			f.Add(level, FrontCut, where, name, short, gap, side, step)
		case p.Drawer > 0 && axis == geom.X && p.LengthAxis == geom.X && p.Front == "" && p.ThickAxis() == geom.Y:
			d := c.Drawers[p.Drawer-1]
			play, level := d.Play+short, issue.Note
			if play < d.LeastPlay || play > d.MostPlay {
				level = issue.Warn
			}
			f.Add(level, BoxCut, where, p.Name+", "+c.openingOf(p), short, play, d.LeastPlay, d.MostPlay)
		default:
			name, word := p.Name, "long"
			if p.Drawer > 0 {
				name += ", " + c.openingOf(p)
			}
			if axis == p.WidthAxis {
				word = "wide"
			}
			f.Add(issue.Warn, OffCut, where, name, word, is, planned)
		}
	}
	tell(p.LengthAxis, l, p.Length)
	tell(p.WidthAxis, w, p.Width)
	return f
}

// openingOf names what a drawer's or a door's part belongs to.
func (c *Cart) openingOf(p part.Part) string {
	bay, opening := 0, 0
	if p.Drawer > 0 {
		bay, opening = c.Drawers[p.Drawer-1].Bay, c.Drawers[p.Drawer-1].Opening
	} else {
		bay, opening = c.Doors[p.Door-1].Bay, c.Doors[p.Door-1].Opening
	}
	name := c.Bays[bay].Openings[opening].Name
	if p.Front == "face" {
		return p.Name + " of " + name
	}
	return name
}
