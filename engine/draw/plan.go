package draw

import (
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/scene"
)

// A Look is a way to look at a cart.
type Look int

const (
	FrontAndSide Look = iota // the front, and the side where there is room
	SideLook                 // the side, cut open
	PlanLook                 // from above, the worktop taken off
)

// plan draws the cart from above, the front at the bottom: cut above the
// bottom, with the worktop, the machine and what it needs as ghosts.
func (v *cartView) plan() {
	top := v.all
	if top.Size(geom.Z) == 0 {
		return
	}
	if o := v.other(); !o.Empty() {
		top = top.Union(o)
	}
	low := min(top.Min[geom.Y], 0)
	for _, d := range v.c.Drawers {
		low = min(low, d.Front.Min[geom.Y]-d.Travel)
	}
	wide, deep := top.Size(geom.X), top.Max[geom.Y]-low
	fit := func(world measure.Length, room scene.Unit) int64 {
		return (int64(world)*int64(px) + int64(room) - 1) / max(int64(room), 1)
	}
	const ml, mr, mt, mb = 30 * px, 96 * px, 40 * px, 76 * px
	v.per = max(fit(wide, max(v.W-ml-mr, 60*px)), fit(deep, max(v.H-mt-mb, 60*px)), 1)
	v.x0 = ml + max(v.W-ml-mr-v.len(wide), 0)/2 + v.len(-top.Min[geom.X])
	v.z0 = v.H - mb - max(v.H-mt-mb-v.len(deep), 0)/2 + v.len(low) // drawing y of y = 0
	v.head = v.z0 - v.len(top.Max[geom.Y]) - 24*px
	v.caption(v.x(top.Min[geom.X]), v.x(top.Max[geom.X]), "from above")

	if bot, ok := v.part("bottom"); ok {
		v.box(v.above(bot.Box), scene.Sheet, scene.Thin, scene.Ink2)
		v.spotPart(bot, v.above(bot.Box))
	}
	for _, t := range v.c.Things {
		if t.Kind == design.CasterThing || t.Kind == design.FootThing {
			v.box(v.above(t.Box), scene.Clear, scene.Hidden, scene.Rule)
		}
	}
	worktop := geom.Box{}
	for _, p := range v.c.Parts {
		r := v.above(p.Box)
		switch {
		case p.ID == "bottom" || p.Loose:
		case p.ID == "top" || p.ID == "top-2" || p.Proud != 0 && p.Box.Min[geom.Z] >= v.c.Case.Max[geom.Z]:
			worktop = worktop.Union(p.Box)
		case p.Drawer > 0 || p.Door > 0:
			if p.Front == "face" || p.ThickAxis() != geom.Z {
				v.box(r, scene.Clear, scene.Thin, scene.Ink2)
			}
		case p.ThickAxis() == geom.Z && p.Proud == 0:
			v.box(r, scene.Clear, scene.Hidden, scene.Rule) // shelves, stretchers, pads
		case p.Proud == 0 || p.LengthAxis == geom.Z: // cut through
			v.ply(r, p.Front == "face")
			v.spotPart(p, r)
		}
	}
	for _, d := range v.c.Drawers { // how far they come out
		f := d.Front
		f.Min[geom.Y], f.Max[geom.Y] = f.Min[geom.Y]-d.Travel, f.Min[geom.Y]
		v.box(v.above(f), scene.Clear, scene.Ghost, scene.Rule)
	}
	edge := v.above(worktop)
	v.box(edge, scene.Clear, scene.Medium, scene.Ink)
	if !v.o.Print { // before the words, which keep clear of them
		v.edges(edge, "top/front", "top/back")
		v.bayGrips(func(b design.Bay) scene.Unit { return v.depth(b.Inside.Min[geom.Y] + b.Inside.Size(geom.Y)*4/5) })
	}
	v.otherAbove()
	for _, t := range v.c.Things {
		if t.Kind == design.MachineThing {
			v.ghostIn(t, v.above(t.Box), geom.Y)
		}
	}
	for _, t := range v.c.Rooms {
		v.ghostIn(t, v.above(t.Box), geom.Y)
	}
	v.planDims(worktop, top)
}

// depth returns where y lies on a drawing from above.
func (v *cartView) depth(y measure.Length) scene.Unit { return v.z0 - v.len(y) }

// above returns a box as seen from above.
func (v *cartView) above(b geom.Box) scene.Rect {
	return scene.Rect{Min: scene.Pt{X: v.x(b.Min[geom.X]), Y: v.depth(b.Max[geom.Y])}, Max: scene.Pt{X: v.x(b.Max[geom.X]), Y: v.depth(b.Min[geom.Y])}}
}

// planDims draws the chain of bays under the plan, and the depths beside it:
// clear of all that is drawn but drawers on their way out.
func (v *cartView) planDims(worktop, all geom.Box) {
	c := v.c.Case
	y := v.depth(min(worktop.Min[geom.Y], 0)) + 30*px
	if v.c.SurfaceSide == "front" {
		y = v.depth(min(all.Min[geom.Y], 0)) + 30*px
	}
	var chain []member
	from := scene.Unit(0)
	for i, b := range v.c.Bays {
		if i == 0 {
			from = v.x(b.Inside.Min[geom.X])
		} else {
			chain = append(chain, member{to: v.x(b.Inside.Min[geom.X])})
		}
		chain = append(chain, member{to: v.x(b.Inside.Max[geom.X]), text: v.t.Show(b.Inside.Size(geom.X))})
	}
	if len(v.c.Bays) <= 4 {
		v.chainAcross(from, chain, y, dim{})
		y += 30 * px
	}
	side := func(out, in measure.Length) string { // an overhang, if there is one
		if out == in {
			return ""
		}
		return v.t.Show((out - in).Abs())
	}
	x := func(l measure.Length) scene.Unit { return v.x(l) }
	v.chainAcross(x(worktop.Min[geom.X]), []member{{to: x(c.Min[geom.X]), text: side(worktop.Min[geom.X], c.Min[geom.X])},
		{to: x(c.Max[geom.X]), text: v.t.Show(c.Size(geom.X))}, {to: x(worktop.Max[geom.X]), text: side(worktop.Max[geom.X], c.Max[geom.X])}}, y, dim{})
	v.chainUpright(v.depth(worktop.Min[geom.Y]), []member{{to: v.depth(c.Min[geom.Y]), text: side(worktop.Min[geom.Y], c.Min[geom.Y])},
		{to: v.depth(c.Max[geom.Y]), text: v.t.Show(c.Size(geom.Y))}, {to: v.depth(worktop.Max[geom.Y]), text: side(worktop.Max[geom.Y], c.Max[geom.Y])}},
		v.x(max(all.Max[geom.X], worktop.Max[geom.X]))+24*px, dim{below: true})
}

// PartFace draws a part as it lies on the bench, its good face up: its
// outline, the grain, grooves, holes and mitres, with length and width.
func PartFace(c design.Cart, q part.Part, w, h int) scene.Scene {
	k := newSketch(scene.Unit(w)*px, scene.Unit(h)*px, q.Name)
	const ml, mr, mt, mb = 70 * px, 36 * px, 34 * px, 64 * px
	dw, dh := max(int64(k.W-ml-mr), 1), max(int64(k.H-mt-mb), 1)
	per := max(int64(q.Length)/dw, int64(q.Width)/dh, 1) + 1
	fw, fh := scene.Unit(int64(q.Length)/per), scene.Unit(int64(q.Width)/per)
	at := scene.R(ml+(scene.Unit(dw)-fw)/2, mt+(scene.Unit(dh)-fh)/2, fw, fh)
	k.box(at, scene.Sheet, scene.Medium, scene.Ink)
	k.take(scene.R(at.Min.X, at.Min.Y, at.W(), 2*px))
	// Seen on its good face: turned over if the hand wants it.
	flip := q.GoodHigh != ((q.WidthAxis-q.LengthAxis+3)%3 == 1)
	pos := func(b geom.Box) scene.Rect {
		lo, hi := b.Min[q.LengthAxis]-q.Box.Min[q.LengthAxis], b.Max[q.LengthAxis]-q.Box.Min[q.LengthAxis]
		if flip {
			lo, hi = q.Length-hi, q.Length-lo
		}
		a, z := b.Min[q.WidthAxis]-q.Box.Min[q.WidthAxis], b.Max[q.WidthAxis]-q.Box.Min[q.WidthAxis]
		return scene.Rect{Min: scene.Pt{X: at.Min.X + scene.Unit(int64(lo)/per), Y: at.Max.Y - scene.Unit(int64(z)/per)},
			Max: scene.Pt{X: at.Min.X + scene.Unit(int64(hi)/per), Y: at.Max.Y - scene.Unit(int64(a)/per)}}
	}
	ta := q.ThickAxis()
	for _, f := range q.Features {
		b := f.Box.Intersect(q.Box)
		if b.Empty() {
			continue
		}
		r := pos(b)
		pen := scene.Thin
		if q.GoodHigh && b.Max[ta] < q.Box.Max[ta] || !q.GoodHigh && b.Min[ta] > q.Box.Min[ta] {
			pen = scene.Hidden // on the back
		}
		switch f.Kind {
		case part.Hole:
			k.Add(scene.Round{At: r.Mid(), R: min(r.W(), r.H()) / 2, Pen: pen, Tone: scene.Ink})
		case part.Mitre:
			k.line(scene.Medium, scene.Ink, r.Min, scene.Pt{X: r.Max.X, Y: r.Max.Y})
		default:
			k.box(r, scene.Clear, pen, scene.Ink)
		}
	}
	if q.Grain != part.AnyWay && min(fw, fh) > 16*px {
		up := q.Grain == part.AlongWidth
		long := fw
		if up {
			long = fh
		}
		k.grain(at.Mid(), min(long*2/3, 120*px), up)
	}
	k.across(at.Min.X, at.Max.X, at.Max.Y+26*px, c.Tape.Show(q.Length), dim{below: true})
	k.upright(at.Max.Y, at.Min.Y, at.Min.X-22*px, c.Tape.Show(q.Width), dim{})
	face := FaceName(design.Side{Axis: ta, High: q.GoodHigh})
	k.label(scene.Label{At: scene.Pt{X: k.W / 2, Y: 16 * px}, Text: q.Name + ", its good face up: the " + face, Size: 15 * px, Tone: scene.Ink2})
	return k.Scene
}
