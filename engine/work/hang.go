package work

import (
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// A Hanging is how a drawer sits between its slides, at the front and at the
// back of its box.
type Hanging struct {
	Drawer int    // index in Cart.Drawers
	ID     string // "bay1/drawer2"
	// Box is the width of the box, Room that of its opening: as built where it
	// was measured, else as planned.
	Box, Room [2]measure.Length
	Built     [2]bool // Box was measured
	// Side is the space on each side, slide included; Play what is over both
	// slides.
	Side, Play [2]measure.Length
	// Take is what must come off the box or out of the slides' ground so that
	// it does not bind, Shim what goes behind the slides, both sides together,
	// so that it is not loose.
	Take, Shim [2]measure.Length
}

// BuiltOn names the mark on what a drawer's box measures at an end.
func BuiltOn(drawer string, end int) string {
	return "built/" + drawer + "/" + [2]string{"front", "back"}[end]
}

// DrawerID is what the parts of drawer n, from 0, are called after.
func DrawerID(c design.Cart, n int) string {
	for _, q := range c.Parts {
		if q.Drawer == n+1 {
			id := string(q.ID)
			if k := strings.LastIndexByte(id, '/'); k > 0 {
				return id[:k]
			}
		}
	}
	return ""
}

// Hang lists the drawers in the order they are hung, the lowest of each bay
// first. Ball-bearing slides run with 0.4 to 1.5 mm, or 1/64 to 1/16 in, of play
// (a slide maker's guide: 0.4 to 1.0 mm; up to 1/16 in works, a carpenter's
// page).
func Hang(p *project.Project, c design.Cart, state mark.State) []Hanging {
	slide, least, most := inch/2, inch/64, inch/16
	if c.Tape.Metric {
		slide, least, most = mm*127/10, stock.LeastPlay, mm*3/2
	}
	if p.Drawers.SlideThick > 0 {
		slide = p.Drawers.SlideThick
	}
	var out []Hanging
	for n := len(c.Drawers) - 1; n >= 0; n-- {
		d := c.Drawers[n]
		bay := c.Bays[d.Bay]
		h := Hanging{Drawer: n, ID: DrawerID(c, n), Room: [2]measure.Length{bay.Width, bay.Width}}
		if m := p.Cabinet.Bays[d.Bay].Measured; m != nil && m.Front > 0 {
			h.Room[0] = m.Front
			if h.Room[1] = m.Front; m.Back > 0 {
				h.Room[1] = m.Back
			}
		}
		for i := range h.Box {
			h.Box[i] = d.Box.Size(geom.X)
			if v, ok := state.Value(BuiltOn(h.ID, i)); ok && v > 0 {
				h.Box[i], h.Built[i] = v, true
			}
			h.Side[i] = (h.Room[i] - h.Box[i]) / 2
			h.Play[i] = h.Room[i] - h.Box[i]
			if p.Drawers.Slide == "wood" {
				continue
			}
			h.Play[i] -= 2 * slide
			switch {
			case h.Play[i] < least:
				h.Take[i] = least - h.Play[i]
			case h.Play[i] > most:
				h.Shim[i] = h.Play[i] - (least+most)/2
			}
		}
		out = append(out, h)
	}
	return out
}

// Line is how high the middle of a drawer's slides lies over the bottom of its
// bay and over the lower edge of its box; ok is false without slides.
func (h Hanging) Line(c design.Cart) (bay, box measure.Length, ok bool) {
	for _, s := range design.Slides(c) {
		if s.Drawer == h.Drawer && !s.Right {
			d := c.Drawers[h.Drawer]
			return s.Holes[0][geom.Z] - c.Bays[d.Bay].Inside.Min[geom.Z], s.Holes[0][geom.Z] - d.Box.Min[geom.Z], true
		}
	}
	return 0, 0, false
}
