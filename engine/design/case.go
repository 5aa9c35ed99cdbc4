package design

import (
	"strconv"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

func itoa(n int) string { return strconv.Itoa(n) }

// carcass places sides, bottom, partitions, and what the worktop lies on.
func (b *builder) carcass() {
	c := &b.p.Cabinet
	switch b.faceKind {
	case "strips":
		b.lip = b.t.Floor(b.def(c.Face.Thick, in/4, 6*mm))
	case "frame":
		_, b.lip = b.material("cabinet.face.material", "the face frame", c.Face.Material, in*3/4, 19*mm)
	}
	b.bare = b.lip
	if b.edges() == "uprights" {
		b.bare = 0
	}
	b.backKind, b.backFrame, b.backSkin = b.backThick()

	m, _ := b.p.Material(c.Material)
	face := "strip on the face"
	if b.faceKind == "frame" {
		face = "face frame"
	}
	deep := part.Sum(
		part.Term{Name: "depth", Times: 1, Value: c.Depth},
		part.Term{Name: face, Times: -1, Value: b.lip},
		part.Term{Name: "back frame", Times: -1, Value: b.backFrame},
		part.Term{Name: "back", Times: -1, Value: b.backSkin},
	).RoundedBy(b.t.Floor)
	deep.Terms = trimmed(deep.Terms)
	b.inside = b.lip + deep.Result
	b.end = b.inside + b.backFrame + b.backSkin
	sides := deep
	if !b.behind() && b.backSkin > 0 { // the sides reach round the back
		sides = part.Sum(part.Term{Name: "partitions", Times: 1, Value: deep.Result}, part.Term{Name: "back", Times: 1, Value: b.backSkin}).RoundedBy(b.t.Ceil)
		b.end = b.lip + sides.Result
	}
	b.cart.Case = geom.Box{Max: geom.Pt{b.width, b.end, b.z1}}
	b.cart.Case.Min[geom.Z] = b.z0 - b.ply

	foot := b.z0 - b.ply // underside of the bottom
	sideFoot := b.z0
	if !b.under {
		sideFoot = foot
	}
	upright := func(id part.ID, name string, x, z, h measure.Length, tall, wide part.Reason) part.ID {
		b.ups = append(b.ups, id)
		b.xs = append(b.xs, x)
		return b.add(part.Part{
			ID: id, Name: name, Material: c.Material,
			Length: h, Width: wide.Result, Thick: b.ply,
			LengthAxis: geom.Z, WidthAxis: geom.Y,
			Box:     box(x, b.lip, z, b.ply, wide.Result, h),
			Reasons: [3]part.Reason{tall, wide, own(m, b.ply)},
			Match:   "uprights", Front: "front edge",
		})
	}
	left := upright("side-left", "Side, left", 0, sideFoot, b.side, b.sideWhy, sides)

	// The bottom.
	long := part.Sum(part.Term{Name: "width", Times: 1, Value: c.Width})
	x := measure.Length(0)
	if !b.under {
		long = part.Sum(part.Term{Name: "width", Times: 1, Value: c.Width}, part.Term{Name: "side", Times: -2, Value: b.ply})
		x = b.ply
	}
	long = long.RoundedBy(b.t.Floor)
	wide := part.Sum(part.Term{Name: "depth behind the face", Times: 1, Value: b.end - b.lip})
	if !b.under && b.behind() {
		wide = part.Sum(part.Term{Name: "depth of the sides", Times: 1, Value: sides.Result})
	}
	wide.Terms = append(wide.Terms, part.Term{Name: "to the front of the strips", Times: 1, Value: b.lip - b.bare})
	wide = part.Sum(trimmed(wide.Terms)...).RoundedBy(b.t.Floor)
	bottom := b.add(part.Part{
		ID: "bottom", Name: "Bottom", Material: c.Material,
		Length: long.Result, Width: wide.Result, Thick: b.ply,
		LengthAxis: geom.X, WidthAxis: geom.Y,
		Box:     box(x, b.bare, foot, long.Result, wide.Result, b.ply),
		Reasons: [3]part.Reason{long, wide, own(m, b.ply)}, Front: "front edge",
	})

	// Partitions stand where the bays end.
	widths := b.bayWidths()
	clear := part.Sum(part.Term{Name: "sides", Times: 1, Value: b.side})
	if !b.under {
		clear.Terms = append(clear.Terms, part.Term{Name: "bottom", Times: -1, Value: b.ply})
	}
	if b.upper != "sides" {
		clear.Terms = append(clear.Terms, part.Term{Name: b.upperName(), Times: -1, Value: b.ply})
	}
	clear = part.Sum(clear.Terms...).RoundedBy(b.t.Floor)
	at := b.ply
	for i := range widths {
		at += widths[i]
		if i == len(widths)-1 {
			break
		}
		name := "Partition"
		if len(widths) > 2 {
			name += " " + itoa(i+1)
		}
		id := upright(part.ID("partition-"+itoa(i+1)), name, at, b.z0, clear.Result, clear, deep)
		b.join(part.Butt, bottom, id)
		at += b.ply
	}
	right := upright("side-right", "Side, right", b.width-b.ply, sideFoot, b.side, b.sideWhy, sides)
	b.join(part.Butt, bottom, left, right)
	b.lays(m)
}

// upperName is what the worktop lies on, in words.
func (b *builder) upperName() string {
	if b.upper == "stretchers" {
		return "stretcher"
	}
	return "sub-top"
}

// lays places the stretchers or the sub-top between the sides, over the
// partitions, flush with the sides' upper ends.
func (b *builder) lays(m project.Material) {
	if b.upper == "sides" {
		return
	}
	c := &b.p.Cabinet
	clear := b.width - 2*b.ply
	long := part.Sum(part.Term{Name: "between the sides", Times: 1, Value: clear}).RoundedBy(b.t.Floor)
	x := b.ply + (clear-long.Result)/2
	full := b.deepInside()
	deep := full.Result
	lay := func(id part.ID, name string, y measure.Length, wide part.Reason) {
		b.uppers = append(b.uppers, b.add(part.Part{ID: id, Name: name, Material: c.Material,
			Length: long.Result, Width: wide.Result, Thick: b.ply, LengthAxis: geom.X, WidthAxis: geom.Y,
			Box:     box(x, y, b.zc, long.Result, wide.Result, b.ply),
			Reasons: [3]part.Reason{long, wide, own(m, b.ply)}, Front: "front edge"}))
	}
	if b.upper == "stretchers" {
		w := b.t.Floor(min(b.def(c.Stretcher, 4*in, 100*mm), deep/2-b.t.Least()))
		lay("stretcher-front", "Stretcher, front", b.bare, given("width of a stretcher", w))
		lay("stretcher-back", "Stretcher, back", b.inside-w, given("width of a stretcher", w))
	} else {
		lay("sub-top", "Sub-top", b.bare, full)
	}
	for _, id := range b.uppers {
		b.join(part.Butt, id, "side-left", "side-right")
		b.join(part.Butt, id, b.ups[1:len(b.ups)-1]...)
	}
}

// deepInside is the depth of what lies between the uprights.
func (b *builder) deepInside() part.Reason {
	return part.Sum(trimmed([]part.Term{{Name: "as deep as the partitions", Times: 1, Value: b.inside - b.lip},
		{Name: "to the front of the strips", Times: 1, Value: b.lip - b.bare}})...)
}

// trimmed drops the terms that are nothing.
func trimmed(terms []part.Term) []part.Term {
	kept := terms[:0:0]
	for _, t := range terms {
		if t.Value != 0 && t.Times != 0 {
			kept = append(kept, t)
		}
	}
	return kept
}

// bayWidths shares out the inside width. It returns one width a bay; a single
// bay if they cannot be built.
func (b *builder) bayWidths() []measure.Length {
	bays := b.p.Cabinet.Bays
	if len(bays) > mostBays {
		b.f.Add(issue.Block, Many, []string{"cabinet.bays"}, "bays", len(bays), mostBays)
		bays = bays[:mostBays]
	}
	if len(bays) == 0 {
		bays = []project.Bay{{}}
	}
	room := b.width - measure.Length(len(bays)+1)*b.ply
	widths := make([]measure.Length, len(bays))
	var fixed measure.Length
	shares, last := 0, -1
	for i, bay := range bays {
		if bay.Width > 0 {
			widths[i] = min(bay.Width, mostSize)
			fixed += widths[i]
		} else {
			shares += max(bay.Share, 1)
			last = i
		}
	}
	rest := room - fixed
	left := rest
	for i, bay := range bays {
		if bay.Width <= 0 {
			// A bay is not cut: equal shares are equal to the tick.
			widths[i] = rest * measure.Length(max(bay.Share, 1)) / measure.Length(shares)
			left -= widths[i]
		}
	}
	if last >= 0 {
		widths[last] += left
	}
	short := b.leastBay() * measure.Length(shares)
	switch {
	case last >= 0 && rest >= short:
	case last < 0 && left.Abs() <= b.t.Least():
		widths[len(widths)-1] += left // less than a step: the last bay takes it
	default:
		want := fixed + short
		b.f.Add(issue.Block, Bays, []string{"cabinet.bays", "cabinet.width"}, want, room, want-room)
		// Show the case with one bay, so that the rest can be seen.
		return []measure.Length{b.width - 2*b.ply}
	}
	b.baysFit = true
	return widths
}
