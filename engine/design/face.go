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

// edges are those that get strips.
func (b *builder) edges() string {
	if b.faceKind != "strips" {
		return "all"
	}
	return b.oneOf("cabinet.face.edges", b.p.Cabinet.Face.Edges, "all", "uprights", "shelves")
}

// strip glues a strip to an edge, where at is its place once it is flushed. It
// is ripped from a board: the board's thickness covers the ply edge and stands
// proud of it until it is flushed after glue-up.
func (b *builder) strip(id part.ID, name string, to part.ID, axis geom.Axis, at geom.Box, why part.Reason) {
	f := &b.p.Cabinet.Face
	_, board := b.drawerMaterial("cabinet.face.material", "the face strips", f.Material, in*3/4, 19*mm)
	width := geom.Y
	if axis == geom.Y {
		width = geom.X
	}
	ply := at.Size(3 - axis - width)
	if board < ply {
		if !b.thinTold {
			b.f.Add(issue.Warn, StripThin, []string{"cabinet.face.material", string(id)}, board, ply, ply-board)
		}
		b.thinTold = true
	}
	proud := board - ply
	if f.Proud > 0 {
		proud = min(proud, f.Proud)
	}
	b.add(part.Part{ID: id, Name: name, Material: f.Material,
		Length: at.Size(axis), Width: b.lip, Thick: board, Proud: board - ply, Flush: max(proud, 0),
		LengthAxis: axis, WidthAxis: width, Box: at,
		Reasons: [3]part.Reason{why, given("thickness of the strip", b.lip),
			part.Sum(trimmed([]part.Term{{Name: "ply edge", Times: 1, Value: ply}, {Name: "proud, flushed after glue-up", Times: 1, Value: proud},
				{Name: "planed off before it is glued on", Times: 1, Value: board - ply - proud}})...)},
		Front: "face"})
	b.join(part.Glued, id, to)
}

// strips covers the front edges of the case, and of the worktop if wanted, with
// solid wood.
func (b *builder) strips() {
	foot := b.z0 - b.ply
	first := len(b.cart.Parts)
	for i, id := range b.ups {
		p, _ := find(b.cart.Parts, id)
		b.strip("strip-"+id, "Face strip, upright", id, geom.Z,
			box(b.xs[i], 0, p.Box.Min[geom.Z], b.ply, b.lip, p.Length), given("as long as its upright", p.Length))
	}
	if b.edges() != "uprights" {
		bot, _ := find(b.cart.Parts, "bottom")
		b.strip("strip-bottom", "Face strip, bottom", "bottom", geom.X,
			box(bot.Box.Min[geom.X], 0, foot, bot.Length, b.lip, b.ply), given("as long as the bottom", bot.Length))
		for _, id := range b.uppers {
			if p, _ := find(b.cart.Parts, id); p.Box.Min[geom.Y] == b.lip {
				b.strip("strip-"+id, "Face strip, upper", id, geom.X,
					box(p.Box.Min[geom.X], 0, p.Box.Min[geom.Z], p.Length, b.lip, b.ply), given("as long as its panel", p.Length))
			}
		}
	}
	if top, ok := find(b.cart.Parts, "top"); ok && b.topStrip() > 0 {
		b.topStrips(top)
	}
	for _, p := range b.cart.Parts[first:] {
		b.rest(p.ID)
	}
}

// topStrips go round the front and both sides of the worktop. Butted, the front
// one covers the ends of the others; mitred, all reach into the corners and
// each loses half of them.
func (b *builder) topStrips(top part.Part) {
	t := b.topBox
	thick := t.Size(geom.Z)
	x, y, z := t.Min[geom.X]-b.lip, t.Min[geom.Y]-b.lip, t.Min[geom.Z]
	long := part.Sum(part.Term{Name: "worktop", Times: 1, Value: top.Length}, part.Term{Name: "strip at each end", Times: 2, Value: b.lip})
	side, from := given("as long as the worktop's side", top.Width), t.Min[geom.Y]
	mitre := b.oneOf("cabinet.face.corner", b.p.Cabinet.Face.Corner, "butt", "mitre") == "mitre"
	words := [2]string{"Worktop strip, left", "Worktop strip, right"}
	if mitre {
		from = y
		side = part.Sum(part.Term{Name: "as long as the worktop's side", Times: 1, Value: top.Width}, part.Term{Name: "mitre, to its long point", Times: 1, Value: b.lip})
		words = [2]string{"Worktop strip, left, mitred", "Worktop strip, right, mitred"}
	}
	b.strip("strip-top-left", words[0], "top", geom.Y, box(x, from, z, b.lip, side.Result, thick), side)
	b.strip("strip-top-right", words[1], "top", geom.Y, box(t.Max[geom.X], from, z, b.lip, side.Result, thick), side)
	name := "Worktop strip, front"
	if mitre {
		name += ", mitred"
	}
	b.strip("strip-top-front", name, "top", geom.X, box(x, y, z, long.Result, b.lip, thick), long)
	b.join(part.Glued, "strip-top-front", "strip-top-left", "strip-top-right")
	if b.layers() == 2 {
		b.join(part.Glued, "top-2", "strip-top-left", "strip-top-right", "strip-top-front")
	}
	if !mitre {
		return
	}
	for i := range b.cart.Parts {
		p := &b.cart.Parts[i]
		for _, cx := range [2]measure.Length{x, t.Max[geom.X]} {
			at := box(cx, y, z, b.lip, b.lip, thick)
			if (p.ID == "strip-top-left" || p.ID == "strip-top-right" || p.ID == "strip-top-front") && p.Box.Overlaps(at) {
				p.Features = append(p.Features, part.Feature{Kind: part.Mitre, Box: at})
			}
		}
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
	proud := b.t.Floor(min(max(f.Proud, 0), max(stile-b.ply, 0)))
	if proud < b.t.Floor(f.Proud) {
		b.f.Add(issue.Warn, FrameProud, []string{"cabinet.face.proud"}, f.Proud, stile, proud)
	}
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
			x = -proud
		case n - 1:
			x = b.width - stile + proud
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
		name := "Face stile"
		switch i {
		case 0:
			name = "Face stile, left"
		case n - 1:
			name = "Face stile, right"
		}
		add(id, name, tall, stile, geom.Z, geom.X, box(b.stileX[i][0], 0, foot, stile, b.lip, tall), why, given("width of a stile", stile))
		b.join(part.Faced, id, b.ups[i])
	}
	b.railTop, b.railBottom, b.rail = b.z1-rail, foot+rail, rail
	for i := range n - 1 {
		x0, x1 := b.stileX[i][1], b.stileX[i+1][0]
		long := part.Sum(part.Term{Name: "between the stiles", Times: 1, Value: x1 - x0}).RoundedBy(b.t.Floor)
		x := x0 + (x1-x0-long.Result)/2
		for _, r := range []struct {
			id   part.ID
			name string
			z    measure.Length
		}{{"rail-top-", "Face rail, upper", b.railTop}, {"rail-bottom-", "Face rail, lower", foot}} {
			id := add(r.id+part.ID(itoa(i+1)), r.name, long.Result, rail, geom.X, geom.Z, box(x, 0, r.z, long.Result, b.lip, rail), long, given("width of a rail", rail))
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

// midRail places a rail of the face frame under opening i-1, its lower edge at
// z.
func (b *builder) midRail(n, i int, bay *Bay, z measure.Length) {
	f := &b.p.Cabinet.Face
	m, _ := b.p.Material(f.Material)
	x0, x1 := b.stileX[n][1], b.stileX[n+1][0]
	long := part.Sum(part.Term{Name: "between the stiles", Times: 1, Value: x1 - x0}).RoundedBy(b.t.Floor)
	id := b.add(part.Part{ID: part.ID("rail-mid-" + itoa(n+1) + "-" + itoa(i)), Name: "Face rail, middle", Material: f.Material,
		Length: long.Result, Width: b.rail, Thick: b.lip, LengthAxis: geom.X, WidthAxis: geom.Z,
		Box:     box(x0+(x1-x0-long.Result)/2, 0, z, long.Result, b.lip, b.rail),
		Reasons: [3]part.Reason{long, given("width of a rail", b.rail), own(m, b.lip)}, Front: "face"})
	b.join(part.Butt, id, "stile-"+b.ups[n], "stile-"+b.ups[n+1])
	if shelf := part.ID("bay" + itoa(n+1) + "/shelf" + itoa(i)); touches(b.cart.Parts[len(b.cart.Parts)-1], b.part(shelf)) {
		b.join(part.Faced, id, shelf)
	}
	b.rest(id)
}

// part returns a part of the cart, an empty one if it has none of that name.
func (b *builder) part(id part.ID) part.Part {
	p, _ := find(b.cart.Parts, id)
	return p
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
