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

// backThick settles what closes the back, and how thick it is.
func (b *builder) backThick() (kind string, frame, skin measure.Length) {
	k := &b.p.Cabinet.Back
	kind = b.oneOf("cabinet.back.kind", k.Kind, "frame", "panel", "none")
	switch kind {
	case "frame":
		_, frame = b.material("cabinet.back.frame", "the back frame", k.Frame, in*3/4, 18*mm)
		_, skin = b.material("cabinet.back.skin", "the skin of the back", k.Skin, in/4, 6*mm)
	case "panel":
		_, skin = b.material("cabinet.back.skin", "the back panel", k.Skin, in/2, 12*mm)
	}
	return kind, frame, skin
}

// carcass places sides, bottom and partitions.
func (b *builder) carcass() {
	c := &b.p.Cabinet
	if b.oneOf("cabinet.face.kind", c.Face.Kind, "bare", "strips") == "strips" {
		b.lip = b.t.Floor(b.def(c.Face.Thick, in/4, 6*mm))
	}
	kind, frame, skin := b.backThick()
	b.backKind, b.backFrame, b.backSkin = kind, frame, skin

	m, _ := b.p.Material(c.Material)
	deep := part.Sum(
		part.Term{Name: "depth", Times: 1, Value: c.Depth},
		part.Term{Name: "strip on the face", Times: -1, Value: b.lip},
		part.Term{Name: "back frame", Times: -1, Value: frame},
		part.Term{Name: "back skin", Times: -1, Value: skin},
	).RoundedBy(b.t.Floor)
	deep.Terms = trimmed(deep.Terms)
	b.inside = b.lip + deep.Result
	b.end = b.inside + frame + skin
	b.cart.Case = geom.Box{Max: geom.Pt{b.width, b.end, b.z1}}
	b.cart.Case.Min[geom.Z] = b.z0 - b.ply

	foot := b.z0 - b.ply // underside of the bottom
	sideFoot := b.z0
	if !b.under {
		sideFoot = foot
	}
	upright := func(id part.ID, name string, x, z, h measure.Length, why part.Reason) part.ID {
		b.ups = append(b.ups, id)
		b.xs = append(b.xs, x)
		return b.add(part.Part{
			ID: id, Name: name, Material: c.Material,
			Length: h, Width: deep.Result, Thick: b.ply,
			LengthAxis: geom.Z, WidthAxis: geom.Y,
			Box:     box(x, b.lip, z, b.ply, deep.Result, h),
			Reasons: [3]part.Reason{why, deep, own(m, b.ply)},
			Match:   "uprights", Front: "front edge",
		})
	}

	left := upright("side-left", "Side, left", 0, sideFoot, b.side, b.sideWhy)

	// The bottom.
	long := part.Sum(part.Term{Name: "width", Times: 1, Value: c.Width})
	x := measure.Length(0)
	if !b.under {
		long = part.Sum(part.Term{Name: "width", Times: 1, Value: c.Width}, part.Term{Name: "side", Times: -2, Value: b.ply})
		x = b.ply
	}
	long = long.RoundedBy(b.t.Floor)
	wide := part.Sum(part.Term{Name: "depth of the sides", Times: 1, Value: deep.Result},
		part.Term{Name: "back frame", Times: 1, Value: frame}, part.Term{Name: "back skin", Times: 1, Value: skin})
	if !b.under {
		wide = part.Sum(part.Term{Name: "depth of the sides", Times: 1, Value: deep.Result})
	}
	wide = wide.RoundedBy(b.t.Floor)
	wide.Terms = trimmed(wide.Terms)
	bottom := b.add(part.Part{
		ID: "bottom", Name: "Bottom", Material: c.Material,
		Length: long.Result, Width: wide.Result, Thick: b.ply,
		LengthAxis: geom.X, WidthAxis: geom.Y,
		Box:     box(x, b.lip, foot, long.Result, wide.Result, b.ply),
		Reasons: [3]part.Reason{long, wide, own(m, b.ply)}, Front: "front edge",
	})

	// Partitions stand where the bays end.
	widths := b.bayWidths()
	clear := part.Sum(part.Term{Name: "sides", Times: 1, Value: b.side})
	if !b.under {
		clear = part.Sum(part.Term{Name: "sides", Times: 1, Value: b.side}, part.Term{Name: "bottom", Times: -1, Value: b.ply}).RoundedBy(b.t.Floor)
	}
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
		id := upright(part.ID("partition-"+itoa(i+1)), name, at, b.z0, clear.Result, clear)
		b.join(part.Butt, bottom, id)
		at += b.ply
	}
	right := upright("side-right", "Side, right", b.width-b.ply, sideFoot, b.side, b.sideWhy)
	b.join(part.Butt, bottom, left, right)
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

// bayWidths shares out the inside width. It returns one width a bay; none if
// they cannot be built.
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
			widths[i] = b.t.Floor(rest / measure.Length(shares) * measure.Length(max(bay.Share, 1)))
			left -= widths[i]
		}
	}
	if last >= 0 {
		widths[last] += left // the last one takes what the tape leaves over
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

// back places the back frame with its skin, or the panel.
func (b *builder) back() {
	k := &b.p.Cabinet.Back
	kind, frame, skin := b.backKind, b.backFrame, b.backSkin
	foot := b.z1 - b.side
	wide := b.width
	switch kind {
	case "none":
		b.f.Add(issue.Warn, NoBack, []string{"cabinet.back.kind"})
		return
	case "frame":
		m, _ := b.p.Material(k.Frame)
		rail := b.t.Floor(b.def(k.Rail, in*5/2, 64*mm))
		rail = max(min(rail, b.side/2-b.t.Least(), b.width/3), b.t.Least())
		rail = b.t.Floor(rail)
		long := part.Sum(part.Term{Name: "width", Times: 1, Value: b.width}, part.Term{Name: "stile", Times: -2, Value: rail}).RoundedBy(b.t.Floor)
		wide = long.Result + 2*rail
		x := (b.width - wide) / 2
		own := own(m, frame)
		tall := given("as high as the sides", b.side)
		stile := func(id part.ID, name string, x measure.Length) part.ID {
			return b.add(part.Part{ID: id, Name: name, Material: k.Frame, Length: b.side, Width: rail, Thick: frame,
				LengthAxis: geom.Z, WidthAxis: geom.X, Box: box(x, b.inside, foot, rail, frame, b.side),
				Reasons: [3]part.Reason{tall, given("rail and stile width", rail), own}, Match: "back stiles"})
		}
		bar := func(id part.ID, name string, z measure.Length) part.ID {
			return b.add(part.Part{ID: id, Name: name, Material: k.Frame, Length: long.Result, Width: rail, Thick: frame,
				LengthAxis: geom.X, WidthAxis: geom.Z, Box: box(x+rail, b.inside, z, long.Result, frame, rail),
				Reasons: [3]part.Reason{long, given("rail and stile width", rail), own}, Match: "back rails"})
		}
		sl := stile("back-stile-left", "Back stile", x)
		sr := stile("back-stile-right", "Back stile", x+rail+long.Result)
		rt := bar("back-rail-top", "Back rail", b.z1-rail)
		rb := bar("back-rail-bottom", "Back rail", foot)
		b.join(part.Butt, rt, sl, sr)
		b.join(part.Butt, rb, sl, sr)
		b.join(part.Faced, sl, "side-left")
		b.join(part.Faced, sr, "side-right")
		for i, id := range b.ups[1 : len(b.ups)-1] {
			if b.partitionMeets(b.xs[i+1], x, rail, long.Result) {
				b.join(part.Faced, id, rt, rb)
			}
		}
		b.join(part.Butt, "bottom", sl, sr, rb)
		b.backs = []part.ID{sl, sr, rt, rb}
	}
	m, _ := b.p.Material(k.Skin)
	name := "Back skin"
	if kind == "panel" {
		name = "Back panel"
	}
	w := part.Sum(part.Term{Name: "width of the back", Times: 1, Value: wide}).RoundedBy(b.t.Floor)
	id := b.add(part.Part{ID: "back-skin", Name: name, Material: k.Skin, Length: w.Result, Width: b.side, Thick: skin,
		LengthAxis: geom.X, WidthAxis: geom.Z, Box: box((b.width-w.Result)/2, b.inside+frame, foot, w.Result, skin, b.side),
		Reasons: [3]part.Reason{w, given("as high as the sides", b.side), own(m, skin)}, Grain: part.AnyWay})
	if kind == "frame" {
		b.join(part.Nailed, id, b.backs...)
	} else {
		b.join(part.Nailed, id, b.ups...)
		b.join(part.Nailed, id, "bottom")
	}
	b.backs = append(b.backs, id)
}

// partitionMeets reports whether a partition at x lies behind the rail, as all
// but the narrowest outer bays do.
func (b *builder) partitionMeets(x, frameX, stile, rail measure.Length) bool {
	return x < frameX+stile+rail && x+b.ply > frameX+stile
}

func (b *builder) topMaterial() (project.Material, measure.Length) {
	id := b.p.Cabinet.Top.Material
	if id == "" {
		id = b.p.Cabinet.Material
	}
	m, ok := b.p.Material(id)
	if !ok || m.Thick() <= 0 {
		return project.Material{ID: id}, b.def(0, in*3/4, 18*mm)
	}
	return m, m.Thick()
}

func (b *builder) layers() int {
	return min(max(b.p.Cabinet.Top.Layers, 1), 2)
}

// worktop lays the top on the case.
func (b *builder) worktop() {
	t := &b.p.Cabinet.Top
	m, thick := b.topMaterial()
	if _, ok := b.p.Material(m.ID); !ok {
		b.f.Add(issue.Block, Material, []string{"cabinet.top.material"}, "the worktop", m.ID)
	}
	if t.Layers > 2 {
		b.f.Add(issue.Warn, Many, []string{"cabinet.top.layers"}, "layers of the worktop", t.Layers, 2)
	}
	var strip measure.Length
	if t.Strips && b.lip > 0 {
		strip = b.lip
	}
	long := part.Sum(part.Term{Name: "width", Times: 1, Value: b.width},
		part.Term{Name: "overhang left", Times: 1, Value: t.Overhang.Left}, part.Term{Name: "overhang right", Times: 1, Value: t.Overhang.Right},
		part.Term{Name: "strip", Times: -2, Value: strip}).RoundedBy(b.t.Floor)
	wide := part.Sum(part.Term{Name: "depth of the case", Times: 1, Value: b.end},
		part.Term{Name: "overhang front", Times: 1, Value: t.Overhang.Front}, part.Term{Name: "overhang back", Times: 1, Value: t.Overhang.Back},
		part.Term{Name: "strip", Times: -1, Value: strip}).RoundedBy(b.t.Floor)
	long.Terms, wide.Terms = trimmed(long.Terms), trimmed(wide.Terms)
	if long.Result <= 0 || wide.Result <= 0 || long.Result > mostSize || wide.Result > mostSize {
		b.f.Add(issue.Block, NoSize, []string{"cabinet.top.overhang"}, "Worktop", min(long.Result, wide.Result), b.leastCase())
		return
	}
	x := -t.Overhang.Left + strip
	y := -t.Overhang.Front + strip
	for i := range b.layers() {
		id, name := part.ID("top"), "Worktop"
		if i > 0 {
			id, name = "top-2", "Worktop, upper layer"
		}
		b.add(part.Part{ID: id, Name: name, Material: m.ID, Length: long.Result, Width: wide.Result, Thick: thick,
			LengthAxis: geom.X, WidthAxis: geom.Y, Box: box(x, y, b.z1+measure.Length(i)*thick, long.Result, wide.Result, thick),
			Reasons: [3]part.Reason{long, wide, own(m, thick)}, Front: "face"})
	}
	b.topBox = box(x, y, b.z1, long.Result, wide.Result, measure.Length(b.layers())*thick)
	if b.layers() == 2 {
		b.join(part.Glued, "top", "top-2")
	}
	b.join(part.Butt, "top", b.ups...)
	for _, id := range b.backs {
		switch id {
		case "back-rail-top", "back-stile-left", "back-stile-right":
			b.join(part.Faced, "top", id)
		}
	}
	for _, id := range b.backs {
		b.rest(id)
	}
}
