package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/measure"
)

// FixedHoles returns the rooms of the screws whose places are given: at the
// corners of the casters' plates, of the pulls, of the slides.
func FixedHoles(c Cart) []geom.Box {
	var out []geom.Box
	add := func(at geom.Pt, a geom.Axis, back, on measure.Length) {
		h := geom.Box{Min: at, Max: at}
		for k := geom.X; k <= geom.Z; k++ {
			h.Min[k] -= in / 5
			h.Max[k] += in / 5
		}
		h.Min[a], h.Max[a] = at[a]-back, at[a]+on
		out = append(out, h)
	}
	for _, t := range c.Things {
		for _, at := range t.Screws() {
			switch t.Kind {
			case PullThing:
				add(at, geom.Y, 0, in*3/2)
			case MachineThing: // the nut comes from below
				add(at, geom.Z, 3*in, 0)
			default:
				add(at, geom.Z, 0, in*5/8)
			}
		}
	}
	for _, s := range Slides(c) {
		for _, at := range s.Holes {
			add(at, geom.X, SlideScrew, SlideScrew)
			at[geom.X] = s.Box
			add(at, geom.X, SlideScrew, SlideScrew)
		}
	}
	return out
}

// SlideScrew is how deep the screws of a slide go (common practice, no source:
// they come with the slides, 1/2 in or 13 mm under the metal).
const SlideScrew = in / 2

// A Slide is one slide of a drawer: the holes of its cabinet member, slotted
// ones first, then the round ones behind them.
type Slide struct {
	Drawer int // index in Cart.Drawers
	Right  bool
	Holes  []geom.Pt
	// Slots is how many of Holes are slotted; Box the x of the box's side.
	Slots int
	Box   measure.Length
}

// Slides returns the slides of all drawers on ball-bearing slides, left and
// right in turn. The slots lie 1 3/8 in (35 mm) from the slide's ends, on long
// slides one more in the middle; the round holes 32 mm further back (common
// practice, no source: a slide's own holes come first). Those on the right
// lie 3/4 in further back, so that slides on both sides of a partition do not
// meet.
func Slides(c Cart) []Slide {
	var out []Slide
	i := 0
	for _, t := range c.Things {
		if t.Kind != SlideThing {
			continue
		}
		n, right := i/2, i%2 == 1
		i++
		d := c.Drawers[n]
		s := Slide{Drawer: n, Right: right, Box: t.Box.Max[geom.X]}
		at := geom.Pt{t.Box.Min[geom.X], 0, (t.Box.Min[geom.Z] + t.Box.Max[geom.Z]) / 2}
		off := measure.Length(0)
		if right {
			s.Box, at[geom.X] = t.Box.Min[geom.X], t.Box.Max[geom.X]
			off = in * 3 / 4
		}
		ys := []measure.Length{in * 11 / 8, d.Slide - in*11/8 - 2*in}
		if d.Slide > 16*in {
			ys = append(ys, d.Slide/2)
		}
		for k := range 2 { // slots, then round ones
			for _, y := range ys {
				at[geom.Y] = d.Box.Min[geom.Y] + y + off + measure.Length(k)*32*mm
				s.Holes = append(s.Holes, at)
			}
		}
		s.Slots = len(ys)
		out = append(out, s)
	}
	return out
}

// Screws returns where the screws of a thing begin: the holes of a caster's
// plate, 7/16 in from its edges (common practice, no source: mark through the
// plate), those of a pull, at its spacing, or those of the machine's foot as
// they were measured.
func (t Thing) Screws() []geom.Pt {
	lo, hi := t.Box.Min, t.Box.Max
	switch t.Kind {
	case CasterThing:
		const e = in * 7 / 16
		z := hi[geom.Z]
		return []geom.Pt{{lo[0] + e, lo[1] + e, z}, {hi[0] - e, lo[1] + e, z}, {lo[0] + e, hi[1] - e, z}, {hi[0] - e, hi[1] - e, z}}
	case PullThing:
		x, z, y := (lo[0]+hi[0])/2, (lo[2]+hi[2])/2, hi[1]
		const e = 6 * mm // a pull is that much longer than its spacing at each end
		if t.Box.Size(geom.X) > t.Box.Size(geom.Z) {
			return []geom.Pt{{lo[0] + e, y, z}, {hi[0] - e, y, z}}
		}
		return []geom.Pt{{x, y, lo[2] + e}, {x, y, hi[2] - e}}
	case MachineThing:
		return t.Holes
	}
	return nil
}
