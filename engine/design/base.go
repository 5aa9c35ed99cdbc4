package design

import (
	"cmp"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

func (b *builder) casterName() string {
	if n := b.p.Base.Caster.Name; n != "" {
		return n
	}
	return "Caster"
}

func (b *builder) onCasters() bool {
	return b.oneOf("base.kind", b.p.Base.Kind, "casters", "feet") == "casters"
}

// mount returns what stands under the bottom: its height, its name and the
// field that sets it. Pads for the casters' screws count with them.
func (b *builder) mount() (h measure.Length, name, path string) {
	if !b.onCasters() {
		return b.p.Base.Foot, "feet", "base.foot"
	}
	h = b.p.Base.Caster.Mount
	if b.p.Base.Pad == "" {
		return h, "casters", "base.caster.mount"
	}
	_, pad := b.drawerMaterial("base.pad", "the casters' pads", b.p.Base.Pad, in*3/4, 18*mm)
	return h + pad, "casters and pads", "base.caster.mount"
}

// base puts a caster, or a foot, under each corner of the bottom.
func (b *builder) base() {
	c := &b.p.Base.Caster
	high, _, _ := b.mount()
	plate := b.def(c.Plate, in*15/4, 95*mm)
	inset := b.def(b.p.Base.Inset, in/2, 12*mm)
	bot, ok := find(b.cart.Parts, "bottom")
	if !ok || high <= 0 {
		return
	}
	if room := (min(bot.Box.Size(geom.X), bot.Box.Size(geom.Y))-2*inset)/2 - b.t.Least(); plate > room { // or they would overlap
		b.f.Add(issue.Warn, Limit, []string{"base.caster.plate"}, "A plate", plate, in, room, room)
		plate = room
	}
	kind, name, weight, pads := CasterThing, b.casterName(), c.Weight, b.p.Base.Pad != ""
	if !b.onCasters() {
		kind, name, weight, pads = FootThing, "Foot", 0, false
	}
	lo, hi := bot.Box.Min, bot.Box.Max
	wide := plate
	if pads {
		wide = b.t.Ceil(plate)
	}
	n := 0
	for _, x := range []measure.Length{lo[geom.X] + inset, hi[geom.X] - inset - wide} {
		for _, y := range []measure.Length{lo[geom.Y] + inset, hi[geom.Y] - inset - wide} {
			n++
			z := high
			if pads {
				z = c.Mount
				m, pad := b.drawerMaterial("base.pad", "the casters' pads", b.p.Base.Pad, in*3/4, 18*mm)
				size := given("as large as the caster's plate", plate).RoundedBy(b.t.Ceil)
				b.join(part.Glued, b.add(part.Part{ID: part.ID("pad-" + itoa(n)), Name: "Caster pad", Material: b.p.Base.Pad, Length: wide, Width: wide, Thick: pad,
					LengthAxis: geom.X, WidthAxis: geom.Y, Box: box(x, y, z, wide, wide, pad),
					Reasons: [3]part.Reason{size, size, own(m, pad)}, Grain: part.AnyWay}), "bottom")
			}
			b.cart.Things = append(b.cart.Things, Thing{Kind: kind, Name: name, Weight: weight,
				Box: box(x, y, 0, plate, plate, z)})
		}
	}
}

// mostFoot is how many bolts a machine may have.
const mostFoot = 24

// machine stands the machine on the middle of the worktop.
func (b *builder) machine() {
	m := &b.p.Machine
	if m.Width <= 0 && m.Depth <= 0 && m.Height <= 0 {
		return
	}
	top := b.topBox
	name := m.Name
	if name == "" {
		name = "machine"
	}
	for _, c := range []struct {
		dir        string
		need, have measure.Length
	}{
		{"wide", m.Width, top.Size(geom.X) + 2*b.topStrip()},
		{"deep", m.Depth, top.Size(geom.Y) + b.topStrip()},
	} {
		if c.need > c.have {
			b.f.Add(issue.Warn, MachineWide, []string{"machine.width", "cabinet.width"}, name, c.dir, c.need, c.have, c.need-c.have)
		}
	}
	x := (top.Min[geom.X] + top.Max[geom.X] - m.Width) / 2
	y := (top.Min[geom.Y] + top.Max[geom.Y] - m.Depth) / 2
	t := Thing{Kind: MachineThing, Name: name, Weight: m.Weight, Bolt: b.def(m.Bolt, in*5/16, 8*mm),
		Box: box(x, y, top.Max[geom.Z], m.Width, m.Depth, max(m.Height, m.Table))}
	for i, h := range m.Foot {
		if i == mostFoot {
			b.f.Add(issue.Block, Many, []string{"machine.foot"}, "holes in the machine's foot", len(m.Foot), mostFoot)
			break
		}
		t.Holes = append(t.Holes, geom.Pt{x + h.Right, y + h.Back, top.Max[geom.Z]})
	}
	b.cart.Things = append(b.cart.Things, t)
}

// lines gathers the parts into the cut list. Parts equal in everything but
// their place share a line; extra parts come last.
func (b *builder) lines() {
	type key struct {
		name, material string
		l, w, t        measure.Length
		grain          part.Grain
		chain          string
		link           int
	}
	at := map[key]int{}
	for _, p := range b.cart.Parts {
		k := key{p.Name, p.Material, p.Length, p.Width, p.Thick, p.Grain, p.Chain, p.Link}
		i, ok := at[k]
		if !ok {
			i = len(b.cart.Lines)
			at[k] = i
			b.cart.Lines = append(b.cart.Lines, part.Line{Tag: part.Tag(i), Name: p.Name, Material: p.Material,
				Length: p.Length, Width: p.Width, Thick: p.Thick, Grain: p.Grain, Reasons: p.Reasons,
				Match: p.Match, Chain: p.Chain, Link: p.Link, Late: b.late(p)})
		}
		l := &b.cart.Lines[i]
		l.Count++
		l.Parts = append(l.Parts, p.ID)
	}
	b.cart.Reserve = b.reserve()
	for i, e := range b.p.Extra {
		if e.Length <= 0 || e.Width <= 0 {
			continue
		}
		path := "extra." + itoa(i)
		m, _ := b.p.Material(e.Material)
		thick := m.Thick()
		if thick == 0 {
			b.f.Add(issue.Block, Material, []string{path + ".material"}, cmp.Or(e.Name, "an extra part"), e.Material)
			thick = e.Thickness
		}
		grain := part.AlongLength
		switch b.oneOf(path+".grain", e.Grain, "length", "width", "free") {
		case "width":
			grain = part.AlongWidth
		case "free":
			grain = part.AnyWay
		}
		n := max(e.Count, 1)
		if n > 1000 {
			b.f.Add(issue.Block, Many, []string{path + ".count"}, cmp.Or(e.Name, "extra parts"), n, 1000)
			n = 1000
		}
		l, w := b.t.Floor(e.Length), b.t.Floor(e.Width)
		if l <= 0 || w <= 0 || l > 10*mostSize || w > 10*mostSize {
			b.f.Add(issue.Block, NoSize, []string{path + ".length"}, cmp.Or(e.Name, "an extra part"), min(l, w), b.t.Least())
			continue
		}
		b.cart.Lines = append(b.cart.Lines, part.Line{Tag: part.Tag(len(b.cart.Lines)), Name: cmp.Or(e.Name, "Extra part"), Material: e.Material,
			Length: l, Width: w, Thick: thick, Grain: grain, Count: n,
			Reasons: [3]part.Reason{given("as listed", e.Length).RoundedBy(b.t.Floor), given("as listed", e.Width).RoundedBy(b.t.Floor), own(m, thick)}})
	}
}
