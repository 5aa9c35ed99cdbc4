package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// strips covers the front edges of the case, and of the worktop if wanted, with
// solid wood. A strip is ripped from a board: the board's thickness covers the
// ply edge and stands proud of it until it is flushed after glue-up.
func (b *builder) strips() {
	if b.lip == 0 {
		return
	}
	f := &b.p.Cabinet.Face
	_, board := b.material("cabinet.face.material", "the face strips", f.Material, in*3/4, 19*mm)
	strip := func(id part.ID, name string, to part.ID, long, ply measure.Length, axis geom.Axis, at geom.Box, why part.Reason) {
		if board < ply {
			if !b.thinTold {
				b.f.Add(issue.Warn, StripThin, []string{"cabinet.face.material", string(id)}, board, ply, ply-board)
			}
			b.thinTold = true
		}
		width := geom.Y
		if axis == geom.Y {
			width = geom.X
		}
		b.add(part.Part{ID: id, Name: name, Material: f.Material,
			Length: long, Width: b.lip, Thick: board, Proud: board - ply,
			LengthAxis: axis, WidthAxis: width, Box: at,
			Reasons: [3]part.Reason{why, given("thickness of the strip", b.lip),
				part.Sum(part.Term{Name: "ply edge", Times: 1, Value: ply}, part.Term{Name: "proud, flushed after glue-up", Times: 1, Value: board - ply})},
			Front: "face"})
		b.join(part.Glued, id, to)
		b.strip = append(b.strip, id)
	}
	foot := b.z0 - b.ply
	for i, id := range b.ups {
		p, _ := find(b.cart.Parts, id)
		strip("strip-"+id, "Face strip, upright", id, p.Length, b.ply, geom.Z,
			box(b.xs[i], 0, p.Box.Min[geom.Z], b.ply, b.lip, p.Length), given("as long as its upright", p.Length))
	}
	bot, _ := find(b.cart.Parts, "bottom")
	strip("strip-bottom", "Face strip, bottom", "bottom", bot.Length, b.ply, geom.X,
		box(bot.Box.Min[geom.X], 0, foot, bot.Length, b.lip, b.ply), given("as long as the bottom", bot.Length))
	if top, ok := find(b.cart.Parts, "top"); ok && b.p.Cabinet.Top.Strips {
		t := b.topBox
		thick := t.Size(geom.Z)
		x, y, z := t.Min[geom.X]-b.lip, t.Min[geom.Y]-b.lip, t.Min[geom.Z]
		strip("strip-top-left", "Worktop strip, side", "top", top.Width, thick, geom.Y,
			box(x, t.Min[geom.Y], z, b.lip, top.Width, thick), given("as long as the worktop's side", top.Width))
		strip("strip-top-right", "Worktop strip, side", "top", top.Width, thick, geom.Y,
			box(t.Max[geom.X], t.Min[geom.Y], z, b.lip, top.Width, thick), given("as long as the worktop's side", top.Width))
		long := part.Sum(part.Term{Name: "worktop", Times: 1, Value: top.Length}, part.Term{Name: "strip at each end", Times: 2, Value: b.lip})
		strip("strip-top-front", "Worktop strip, front", "top", long.Result, thick, geom.X,
			box(x, y, z, long.Result, b.lip, thick), long)
		b.join(part.Glued, "strip-top-front", "strip-top-left", "strip-top-right")
		if b.layers() == 2 {
			b.join(part.Glued, "top-2", "strip-top-left", "strip-top-right", "strip-top-front")
		}
	}
	for _, id := range b.strip {
		b.rest(id)
	}
}

// rest declares that a part merely touches whatever else it meets.
func (b *builder) rest(id part.ID) {
	p, ok := find(b.cart.Parts, id)
	if !ok {
		return
	}
	for _, q := range b.cart.Parts {
		if q.ID == id || b.joined(id, q.ID) {
			continue
		}
		if area, _ := p.Box.Contact(q.Box); area > 0 {
			b.join(part.Resting, id, q.ID)
		}
	}
}

func (b *builder) joined(x, y part.ID) bool {
	for _, j := range b.cart.Joints {
		if j.A == x && j.B == y || j.A == y && j.B == x {
			return true
		}
	}
	return false
}
