package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

const (
	// InWay: a part, or a drawer on its way out, stands where something on the
	// machine needs room. Args: what needs it (string), the part (string), how
	// far it reaches in (Length). Example: in-way.json
	InWay issue.Code = "design.in-way"
	// NoTop: something on the machine needs the worktop under it. Args: what
	// (string), side (string), how far it reaches (Length), what the worktop
	// leaves (Length), short by (Length). Example: no-top.json
	NoTop issue.Code = "design.no-top"
	// Neighbour: the surface to line up with stands where something on the
	// machine needs room. Args: what (string), the surface (string), how far it
	// reaches (Length), what is free (Length), short by (Length).
	// Example: neighbour.json
	Neighbour issue.Code = "design.neighbour"
	// Legs: the legs of the surface to line up with, or our own casters, meet
	// before the tops do. Args: what meets (string), side (string), gap that
	// stays between the tops (Length). Example: legs.json
	Legs issue.Code = "design.legs"
)

// sideOf returns a side of a box by its name.
func sideOf(word string) Side {
	switch word {
	case "right":
		return Side{geom.X, true}
	case "front":
		return Side{geom.Y, false}
	case "back":
		return Side{geom.Y, true}
	}
	return Side{geom.X, false}
}

// around checks what must stay free round the machine: against the parts, the
// drawers on their way out, the worktop, and the surface to line up with.
func (b *builder) around() {
	b.legs()
	m := &b.p.Machine
	var body geom.Box
	for _, t := range b.cart.Things {
		if t.Kind == MachineThing {
			body = t.Box
		}
	}
	if body.Size(geom.X) <= 0 || body.Size(geom.Y) <= 0 {
		return
	}
	for _, s := range []struct {
		side  string
		reach measure.Length
	}{{"left", m.Clear.Left}, {"right", m.Clear.Right}, {"front", m.Clear.Front}, {"back", m.Clear.Back}} {
		if s.reach > 0 {
			b.room("machine.clear."+s.side, body, project.Need{Name: "free room at its " + s.side, Side: s.side, Reach: s.reach})
		}
	}
	for i, n := range m.Needs {
		path := "machine.needs." + itoa(i)
		n.Side = b.oneOf(path+".side", n.Side, "left", "right", "front", "back")
		if n.Name == "" {
			n.Name = "need " + itoa(i+1)
		}
		if n.Reach > 0 {
			b.room(path, body, n)
		}
	}
}

// room checks the room of one need.
func (b *builder) room(path string, body geom.Box, n project.Need) {
	s := sideOf(n.Side)
	along := 1 - s.Axis // the other one of X and Y
	at := body
	edge := s.Of(body)
	at.Min[s.Axis], at.Max[s.Axis] = min(edge, s.Out(edge, n.Reach)), max(edge, s.Out(edge, n.Reach))
	if n.Wide > 0 {
		mid := (body.Min[along] + body.Max[along]) / 2
		if n.At > 0 {
			mid = body.Min[along] + n.At
		}
		at.Min[along], at.Max[along] = mid-n.Wide/2, mid+n.Wide/2
	}
	foot := body.Min[geom.Z]
	at.Min[geom.Z] = foot + n.Low
	if n.High > 0 {
		at.Max[geom.Z] = foot + n.High
	}
	if at.Empty() {
		return
	}
	b.cart.Rooms = append(b.cart.Rooms, Thing{Kind: MachineThing, Name: n.Name, Box: at})
	where := []string{path}
	top := b.topBox
	top.Min[geom.X] -= b.topStrip()
	top.Max[geom.X] += b.topStrip()
	top.Min[geom.Y] -= b.topStrip()
	free := s.Out(0, s.Of(top)-edge) // from the body to the worktop's edge
	if !s.High {
		free = edge - s.Of(top)
	}
	if n.Top {
		if n.Reach > free || at.Min[along] < top.Min[along] || at.Max[along] > top.Max[along] {
			short := max(n.Reach-free, top.Min[along]-at.Min[along], at.Max[along]-top.Max[along])
			b.f.Add(issue.Warn, NoTop, where, n.Name, n.Side, n.Reach, free, short)
		}
	}
	var most measure.Length // the part that is furthest in the way is told
	id, meets := "", ""
	for _, p := range b.cart.Parts {
		box := p.Box
		name := p.Name
		if p.Drawer > 0 && p.Front == "face" {
			if d := b.cart.Drawers[p.Drawer-1]; !box.Overlaps(at) {
				box.Min[geom.Y] -= d.Travel
				name += " of drawer " + itoa(p.Drawer) + ", on its way out"
			}
		}
		if common := box.Intersect(at); !common.Empty() && common.Size(s.Axis) > most {
			most, id, meets = common.Size(s.Axis), string(p.ID), name
		}
	}
	if most > 0 {
		b.f.Add(issue.Warn, InWay, append(where, id), n.Name, meets, most)
	}
	// The other surface: a slab whose edge meets the worktop's.
	l := &b.p.LineUp
	if side := sideOf(l.Side); b.cart.Surface > 0 && side == s && n.Reach > free &&
		at.Min[geom.Z] < b.cart.Surface && at.Max[geom.Z] > b.cart.Surface-slab {
		name := l.Name
		if name == "" {
			name = "surface to match"
		}
		b.f.Add(issue.Warn, Neighbour, append(where, "lineUp.side"), n.Name, name, n.Reach, max(free, 0), n.Reach-max(free, 0))
	}
}

// slab is how thick the other surface is taken to be (common practice, no
// source).
const slab = in * 3 / 2

// legs checks that the tops meet before anything under them does: the other
// surface's legs against our case, and against our casters as they swivel.
func (b *builder) legs() {
	if b.cart.Surface <= 0 {
		return
	}
	l := &b.p.LineUp
	word := b.cart.SurfaceSide
	s := sideOf(word)
	o := &b.p.Cabinet.Top.Overhang
	over := o.Left
	switch word {
	case "right":
		over = o.Right
	case "front":
		over = o.Front
	case "back":
		over = o.Back
	}
	out, what, where := measure.Length(0), "case", []string{"lineUp.legs", "cabinet.top.overhang." + word}
	// A swivelling wheel reaches its lead and radius from the plate's middle.
	if c := &b.p.Base.Caster; b.onCasters() && c.Lead > 0 {
		for _, t := range b.cart.Things {
			if t.Kind != CasterThing {
				continue
			}
			mid := (t.Box.Min[s.Axis] + t.Box.Max[s.Axis]) / 2
			past := mid + c.Lead + c.Wheel/2 - s.Of(b.cart.Case)
			if !s.High {
				past = s.Of(b.cart.Case) - (mid - c.Lead - c.Wheel/2)
			}
			if past > out {
				out, what = past, "casters"
			}
		}
	}
	if word == "front" && b.overlay {
		for _, d := range b.cart.Drawers {
			if past := -d.Front.Min[geom.Y]; past > out {
				out, what = past, "drawer fronts"
			}
		}
	}
	if gap := l.Legs + out - over; gap > 0 && (l.Legs != 0 || what == "casters") {
		b.f.Add(issue.Warn, Legs, where, what, word, gap)
	}
}
