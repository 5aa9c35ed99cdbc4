package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// backThick settles what closes the back, and how thick it is.
func (b *builder) backThick() (kind string, frame, skin measure.Length) {
	k := &b.p.Cabinet.Back
	kind = b.oneOf("cabinet.back.kind", k.Kind, "frame", "panel", "between", "let-in", "none")
	switch kind {
	case "frame":
		_, frame = b.material("cabinet.back.frame", "the back frame", k.Frame, in*3/4, 18*mm)
		_, skin = b.material("cabinet.back.skin", "the skin of the back", k.Skin, in/4, 6*mm)
	case "panel", "between", "let-in":
		_, skin = b.material("cabinet.back.skin", "the back panel", k.Skin, in/2, 12*mm)
	}
	return kind, frame, skin
}

// behind reports whether the back stands behind the sides, so that they end
// before it; else it stands between them.
func (b *builder) behind() bool { return b.backKind == "frame" || b.backKind == "panel" }

// rabbet is how far a let-in back reaches into each side: half its thickness,
// in whole steps (common practice, no source).
func (b *builder) rabbet() measure.Length {
	if b.backKind != "let-in" {
		return 0
	}
	return b.t.Floor(b.ply / 2)
}

// back places the back frame with its skin, or the panel.
func (b *builder) back() {
	k := &b.p.Cabinet.Back
	frame, skin := b.backFrame, b.backSkin
	foot := b.z1 - b.side // of the sides
	if b.backKind == "none" {
		b.f.Add(issue.Warn, NoBack, []string{"cabinet.back.kind"})
		return
	}
	m, _ := b.p.Material(k.Skin)
	if !b.behind() {
		b.innerBack(m.ID, own(m, skin))
		return
	}
	wide := b.width
	if b.backKind == "frame" {
		wide = b.frameBack(foot)
	}
	name := "Back skin"
	if b.backKind == "panel" {
		name = "Back panel"
	}
	w := part.Sum(part.Term{Name: "width of the back", Times: 1, Value: wide}).RoundedBy(b.t.Floor)
	id := b.add(part.Part{ID: "back-skin", Name: name, Material: k.Skin, Length: w.Result, Width: b.side, Thick: skin,
		LengthAxis: geom.X, WidthAxis: geom.Z, Box: box((b.width-w.Result)/2, b.inside+frame, foot, w.Result, skin, b.side),
		Reasons: [3]part.Reason{w, given("as high as the sides", b.side), own(m, skin)}, Grain: part.AnyWay})
	if b.backKind == "frame" {
		b.join(part.Nailed, id, b.backs...)
	} else {
		b.join(part.Nailed, id, b.ups...)
		b.join(part.Nailed, id, "bottom")
	}
	b.backs = append(b.backs, id)
}

// frameBack places rails and stiles behind the sides and returns the width of
// the frame, which is less than a step under that of the case.
func (b *builder) frameBack(foot measure.Length) measure.Length {
	k := &b.p.Cabinet.Back
	m, _ := b.p.Material(k.Frame)
	thick := b.backFrame
	rail := b.def(k.Rail, in*5/2, 64*mm)
	rail = b.t.Floor(max(min(rail, b.side/2-b.t.Least(), b.width/3), b.t.Least()))
	long := part.Sum(part.Term{Name: "width", Times: 1, Value: b.width}, part.Term{Name: "stile", Times: -2, Value: rail}).RoundedBy(b.t.Floor)
	wide := long.Result + 2*rail
	x := (b.width - wide) / 2
	own := own(m, thick)
	tall := given("as high as the sides", b.side)
	stile := func(id part.ID, name string, x measure.Length) part.ID {
		return b.add(part.Part{ID: id, Name: name, Material: k.Frame, Length: b.side, Width: rail, Thick: thick,
			LengthAxis: geom.Z, WidthAxis: geom.X, Box: box(x, b.inside, foot, rail, thick, b.side),
			Reasons: [3]part.Reason{tall, given("rail and stile width", rail), own}, Match: "back stiles"})
	}
	bar := func(id part.ID, name string, z measure.Length) part.ID {
		return b.add(part.Part{ID: id, Name: name, Material: k.Frame, Length: long.Result, Width: rail, Thick: thick,
			LengthAxis: geom.X, WidthAxis: geom.Z, Box: box(x+rail, b.inside, z, long.Result, thick, rail),
			Reasons: [3]part.Reason{long, given("rail and stile width", rail), own}, Match: "back rails"})
	}
	sl := stile("back-stile-left", "Back stile, left", x)
	sr := stile("back-stile-right", "Back stile, right", x+rail+long.Result)
	rt := bar("back-rail-top", "Back rail, upper", b.z1-rail)
	rb := bar("back-rail-bottom", "Back rail, lower", foot)
	b.join(part.Butt, rt, sl, sr)
	b.join(part.Butt, rb, sl, sr)
	b.join(part.Faced, sl, "side-left")
	b.join(part.Faced, sr, "side-right")
	b.join(part.Butt, "bottom", sl, sr, rb)
	b.backs = []part.ID{sl, sr, rt, rb}
	for i, id := range b.ups[1 : len(b.ups)-1] {
		// A partition close to a side stands before the stile instead.
		p, _ := find(b.cart.Parts, id)
		if x := b.xs[i+1]; x < b.width-rail && x+b.ply > rail {
			b.join(part.Faced, id, rb)
			if p.Box.Max[geom.Z] > b.z1-rail {
				b.join(part.Faced, id, rt)
			}
		}
	}
	if b.upper != "sides" {
		for _, id := range b.uppers {
			if p, ok := find(b.cart.Parts, id); ok && p.Box.Max[geom.Y] == b.inside {
				b.join(part.Faced, id, rt)
			}
		}
	}
	return wide
}

// innerBack places a panel between the sides, or in rabbets of them, on the
// bottom, flush with the back.
func (b *builder) innerBack(material string, thick part.Reason) {
	rab := b.rabbet()
	skin := b.backSkin
	clear := b.width - 2*b.ply
	w := part.Sum(part.Term{Name: "between the sides", Times: 1, Value: clear}, part.Term{Name: "rabbet", Times: 2, Value: rab}).RoundedBy(b.t.Floor)
	h := part.Sum(part.Term{Name: "bottom to worktop", Times: 1, Value: b.z1 - b.z0}).RoundedBy(b.t.Floor)
	w.Terms = trimmed(w.Terms)
	at := box((b.width-w.Result)/2, b.inside, b.z0, w.Result, skin, h.Result)
	id := b.add(part.Part{ID: "back-skin", Name: "Back panel", Material: material, Length: w.Result, Width: h.Result, Thick: skin,
		LengthAxis: geom.X, WidthAxis: geom.Z, Box: at, Reasons: [3]part.Reason{w, h, thick}, Grain: part.AnyWay})
	kind := part.Butt
	if rab > 0 {
		kind = part.LetIn
		for i := range b.cart.Parts {
			p := &b.cart.Parts[i]
			if p.ID != "side-left" && p.ID != "side-right" {
				continue
			}
			room := p.Box
			room.Min[geom.Y] = b.inside
			if p.ID == "side-left" {
				room.Min[geom.X] = room.Max[geom.X] - rab
			} else {
				room.Max[geom.X] = room.Min[geom.X] + rab
			}
			p.Features = append(p.Features, part.Feature{Kind: part.Groove, Box: room})
		}
	}
	b.join(kind, id, "side-left", "side-right")
	b.join(part.Nailed, id, b.ups[1:len(b.ups)-1]...)
	b.join(part.Butt, id, "bottom")
	for _, u := range b.uppers {
		if p, ok := find(b.cart.Parts, u); ok && p.Box.Max[geom.Y] == b.inside {
			b.join(part.Faced, id, u)
		}
	}
	b.backs = append(b.backs, id)
}
