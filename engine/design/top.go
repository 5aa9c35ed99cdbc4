package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

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
	strip := b.topStrip()
	over := t.Overhang
	// The ply of the worktop must reach over the sides, its strips beside it.
	least := strip - b.ply + b.t.Least()
	for _, o := range []struct {
		path string
		v    *measure.Length
	}{{"left", &over.Left}, {"right", &over.Right}} {
		if *o.v < least {
			b.f.Add(issue.Warn, Limit, []string{"cabinet.top.overhang." + o.path}, "An overhang", *o.v, least, 24*in, least)
			*o.v = least
		}
	}
	long := part.Sum(part.Term{Name: "width", Times: 1, Value: b.width},
		part.Term{Name: "overhang left", Times: 1, Value: over.Left}, part.Term{Name: "overhang right", Times: 1, Value: over.Right},
		part.Term{Name: "strip", Times: -2, Value: strip}).RoundedBy(b.t.Floor)
	wide := part.Sum(part.Term{Name: "depth of the case", Times: 1, Value: b.end},
		part.Term{Name: "overhang front", Times: 1, Value: over.Front}, part.Term{Name: "overhang back", Times: 1, Value: over.Back},
		part.Term{Name: "strip", Times: -1, Value: strip}).RoundedBy(b.t.Floor)
	long.Terms, wide.Terms = trimmed(long.Terms), trimmed(wide.Terms)
	if long.Result <= 0 || wide.Result <= 0 || long.Result > mostSize || wide.Result > mostSize {
		b.f.Add(issue.Block, NoSize, []string{"cabinet.top.overhang"}, "Worktop", min(long.Result, wide.Result), b.leastCase())
		b.restBehind()
		return
	}
	x := -over.Left + strip
	y := -over.Front + strip
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
	b.join(part.Butt, "top", "side-left", "side-right")
	if b.upper == "sides" {
		b.join(part.Butt, "top", b.ups[1:len(b.ups)-1]...)
	} else {
		b.join(part.Faced, "top", b.uppers...)
	}
	for _, id := range b.backs {
		switch id {
		case "back-rail-top", "back-stile-left", "back-stile-right":
			b.join(part.Faced, "top", id)
		}
	}
	b.restBehind()
}

// restBehind declares what back, stretchers and sub-top merely touch.
func (b *builder) restBehind() {
	for _, id := range append(append([]part.ID{}, b.backs...), b.uppers...) {
		b.rest(id)
	}
}

// topStrip is the thickness of the strips on the worktop's edges, 0 for none.
func (b *builder) topStrip() measure.Length {
	if b.p.Cabinet.Top.Strips && b.faceKind == "strips" {
		return b.lip
	}
	return 0
}
