package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// face covers the front of the case: with strips, with a frame, or not at all.
func (b *builder) face() {
	switch b.faceKind {
	case "strips":
		b.strips()
	case "frame":
		b.faceFrame()
	}
}

// strips covers the front edges of the case, and of the worktop if wanted, with
// solid wood. A strip is ripped from a board: the board's thickness covers the
// ply edge and stands proud of it until it is flushed after glue-up.
func (b *builder) strips() {
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
	for _, id := range b.uppers {
		if p, _ := find(b.cart.Parts, id); p.Box.Min[geom.Y] == b.lip {
			strip("strip-"+id, "Face strip, upper", id, p.Length, b.ply, geom.X,
				box(p.Box.Min[geom.X], 0, p.Box.Min[geom.Z], p.Length, b.lip, b.ply), given("as long as its panel", p.Length))
		}
	}
	if top, ok := find(b.cart.Parts, "top"); ok && b.topStrip() > 0 {
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

// faceFrame places stiles before the sides and partitions, and rails between
// them at top and bottom, all flush in front.
func (b *builder) faceFrame() {
	f := &b.p.Cabinet.Face
	m, _ := b.p.Material(f.Material)
	stile := b.t.Floor(b.def(f.Stile, in*3/2, 38*mm))
	rail := b.t.Floor(b.def(f.Rail, in*3/2, 38*mm))
	foot, tall := b.z1-b.side, b.side
	if b.under {
		foot, tall = b.z0-b.ply, b.t.Floor(b.side+b.ply)
	}
	rail = min(rail, b.t.Floor(tall/4))
	why := given("height of the case", b.z1-foot).RoundedBy(b.t.Floor)
	thick := own(m, b.lip)
	add := func(id part.ID, name string, l, w measure.Length, la, wa geom.Axis, at geom.Box, long, wide part.Reason) part.ID {
		b.frames = append(b.frames, id)
		return b.add(part.Part{ID: id, Name: name, Material: f.Material, Length: l, Width: w, Thick: b.lip, LengthAxis: la, WidthAxis: wa,
			Box: at, Reasons: [3]part.Reason{long, wide, thick}, Front: "face"})
	}
	n := len(b.ups)
	b.stileX = make([][2]measure.Length, n)
	stiles := make([]part.ID, n)
	for i := range b.ups {
		// Outer stiles are flush with the sides, inner ones centred.
		x := b.xs[i] + (b.ply-stile)/2
		switch i {
		case 0:
			x = 0
		case n - 1:
			x = b.width - stile
		}
		b.stileX[i] = [2]measure.Length{x, x + stile}
		stiles[i] = "stile-" + b.ups[i]
	}
	for i := range n - 1 {
		if left := b.stileX[i+1][0] - b.stileX[i][1]; left < b.leastBay() {
			b.f.Add(issue.Block, FrameWide, []string{"cabinet.face.stile", "cabinet.bays." + itoa(i)}, "Bay "+itoa(i+1), left, b.leastBay())
			b.baysFit = false
			b.stileX = nil
			return
		}
	}
	for i, id := range stiles {
		add(id, "Face stile", tall, stile, geom.Z, geom.X, box(b.stileX[i][0], 0, foot, stile, b.lip, tall), why, given("width of a stile", stile))
		b.join(part.Faced, id, b.ups[i])
	}
	b.railTop, b.railBottom = b.z1-rail, foot+rail
	for i := range n - 1 {
		x0, x1 := b.stileX[i][1], b.stileX[i+1][0]
		long := part.Sum(part.Term{Name: "between the stiles", Times: 1, Value: x1 - x0}).RoundedBy(b.t.Floor)
		x := x0 + (x1-x0-long.Result)/2
		for _, r := range []struct {
			id part.ID
			z  measure.Length
		}{{"rail-top-", b.railTop}, {"rail-bottom-", foot}} {
			id := add(r.id+part.ID(itoa(i+1)), "Face rail", long.Result, rail, geom.X, geom.Z, box(x, 0, r.z, long.Result, b.lip, rail), long, given("width of a rail", rail))
			b.join(part.Butt, id, stiles[i], stiles[i+1])
			if r.id == "rail-bottom-" {
				b.join(part.Faced, id, "bottom")
			}
		}
	}
	for _, id := range b.frames {
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
