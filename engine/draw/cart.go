package draw

import (
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/scene"
)

// CartOptions say how a cart is drawn. The zero CartOptions is a plain drawing.
type CartOptions struct {
	// Selected is the Ref of the chosen thing, "part/A".
	Selected string
	// Drag is the Ref of the handle that is being dragged, "bay/0".
	Drag string
	// Before is the cart before the drag or edit: numbers that differ are lit.
	Before *design.Cart
	// Print leaves out handles.
	Print bool
	// Front draws the front view alone.
	Front bool
	// Note is said beside the handle that is dragged, a line each.
	Note []string
	// Look is the way to look at it.
	Look Look
}

// Cart draws the front view of a cart with its drawer stack and, where there
// is room, the side section, for a viewport of w by h CSS pixels.
//
// From above it is drawn with its bays, and the worktop as its edge.
//
// Its handles: "bay/i" moves the right end of bay i (dragged to the right, the
// bay grows by the ticks that it moved); "opening/i/j" moves the lower end of
// opening j of bay i (dragged down, the opening grows); "top/left" … "side/back" move an edge
// of the worktop. Parts are "part/<tag>".
func Cart(c design.Cart, w, h int, o CartOptions) scene.Scene {
	v := cartView{sketch: newSketch(scene.Unit(w)*px, scene.Unit(h)*px, "The cart, from the front and cut from the side"), c: c, o: o, t: c.Tape}
	if len(c.Parts) == 0 {
		v.label(scene.Label{At: scene.Pt{X: v.W / 2, Y: v.H / 2}, Text: "Nothing to draw yet: the sizes do not add up.", Size: 16 * px, Tone: scene.Ink2})
		return v.Scene
	}
	v.tags()
	v.layout()
	if o.Look == PlanLook {
		v.plan()
		v.handles()
		return v.Scene
	}
	v.floor()
	v.grips()
	v.bench()
	if !v.alone {
		v.front()
	}
	if v.both {
		v.section()
	}
	v.machineTable()
	v.step()
	v.dims()
	v.handles()
	return v.Scene
}

// A cartView draws one cart. World axes: x or y to the right, z up.
type cartView struct {
	*sketch
	c design.Cart
	o CartOptions
	t measure.Tape

	tag   map[part.ID]string
	per   int64 // ticks per px
	x0    scene.Unit
	s0    scene.Unit // drawing x of y = 0 in the section
	z0    scene.Unit // drawing y of the floor
	all   geom.Box   // everything of the cart itself
	both  bool
	alone bool       // the side alone: both, without the front
	shown geom.Box   // all, with the other surface and the reach of pulls
	right scene.Unit // where the height chain stands
	head  scene.Unit // y of the captions
	grip  []grip
}

func (v *cartView) tags() {
	v.tag = map[part.ID]string{}
	for _, l := range v.c.Lines {
		for _, id := range l.Parts {
			v.tag[id] = l.Tag
		}
	}
}

// layout chooses the scale: as large as both views, or the front alone, allow.
func (v *cartView) layout() {
	for _, p := range v.c.Parts {
		v.all = v.all.Union(p.Box)
	}
	for _, t := range v.c.Rooms {
		v.all = v.all.Union(t.Box)
	}
	high := v.all.Max[geom.Z]
	for _, t := range v.c.Things {
		if t.Kind == design.MachineThing {
			high = max(high, t.Box.Max[geom.Z])
		}
	}
	if v.c.Surface > 0 {
		high = max(high, v.c.Surface)
	}
	v.shown = v.all
	v.shown.Min[geom.Y] = min(v.all.Min[geom.Y], -pullReach)
	v.shown = v.shown.Union(v.other())
	left, wide, deep := v.shown.Min[geom.X], v.shown.Size(geom.X), v.shown.Size(geom.Y)
	ml, mr, mt, mb := 16*px, 92*px, 34*px, 96*px
	gap := 44 * px
	if v.H < 420*px {
		mt, mb = 26*px, 84*px
	}
	fit := func(world measure.Length, room scene.Unit) int64 {
		return (int64(world)*int64(px) + int64(room) - 1) / max(int64(room), 1)
	}
	perH := fit(high, max(v.H-mt-mb, 60*px))
	one := max(fit(wide, max(v.W-ml-mr, 60*px)), perH)
	two := max(fit(wide+deep, max(v.W-ml-mr-gap, 60*px)), perH)
	// The section is worth it while the front keeps two thirds of its size.
	v.both = !v.o.Front && one*5/3 >= two && v.W >= 480*px
	v.alone = v.o.Look == SideLook
	v.per = max(one, 1)
	if v.alone {
		v.both = true
		v.per = max(fit(deep, max(v.W-ml-mr, 60*px)), perH, 1)
		left, wide = v.shown.Max[geom.X], 0
		gap = 0
	} else if v.both {
		v.per = max(two, 1)
	}
	used := v.len(wide)
	if v.both {
		used += gap + v.len(deep)
	}
	slack := max(v.W-ml-mr-used, 0) / 2
	v.x0 = ml + slack + v.len(-left)
	v.s0 = v.x0 + v.len(v.shown.Max[geom.X]) + gap + v.len(-v.shown.Min[geom.Y])
	v.z0 = v.H - mb - max(v.H-mt-mb-v.len(high), 0)/2
	v.head = v.z(high) - 16*px
	v.right = v.x0 + v.len(v.shown.Max[geom.X]) + 30*px
	if v.both {
		v.right = v.s0 + v.len(v.shown.Max[geom.Y]) + 26*px
	}
}

// len returns a length on the drawing.
func (v *cartView) len(l measure.Length) scene.Unit {
	return scene.Unit(int64(l) * int64(px) / v.per)
}

func (v *cartView) x(l measure.Length) scene.Unit { return v.x0 + v.len(l) }
func (v *cartView) y(l measure.Length) scene.Unit { return v.s0 + v.len(l) }
func (v *cartView) z(l measure.Length) scene.Unit { return v.z0 - v.len(l) }

// face returns the front elevation of a box.
func (v *cartView) face(b geom.Box) scene.Rect {
	return scene.Rect{Min: scene.Pt{X: v.x(b.Min[geom.X]), Y: v.z(b.Max[geom.Z])}, Max: scene.Pt{X: v.x(b.Max[geom.X]), Y: v.z(b.Min[geom.Z])}}
}

// flank returns the side elevation of a box.
func (v *cartView) flank(b geom.Box) scene.Rect {
	return scene.Rect{Min: scene.Pt{X: v.y(b.Min[geom.Y]), Y: v.z(b.Max[geom.Z])}, Max: scene.Pt{X: v.y(b.Max[geom.Y]), Y: v.z(b.Min[geom.Z])}}
}

// floor draws the floor under both views.
func (v *cartView) floor() {
	strip := func(a, b scene.Unit) {
		v.hatch(scene.R(a, v.z0, b-a, 8*px), scene.GroundHatch)
		v.line(scene.Heavy, scene.Ink, scene.Pt{X: a, Y: v.z0}, scene.Pt{X: b, Y: v.z0})
	}
	if !v.alone {
		strip(v.x(v.shown.Min[geom.X])-4*px, v.x(v.shown.Max[geom.X])+14*px)
	}
	if v.both {
		strip(v.y(v.shown.Min[geom.Y])-14*px, v.y(v.shown.Max[geom.Y])+14*px)
	}
}

// ply draws a panel seen on its edge: hatched, unless a strip hides the edge.
func (v *cartView) ply(r scene.Rect, hidden bool) {
	v.box(r, scene.Sheet, scene.NoPen, scene.Clear)
	if !hidden {
		v.hatch(r, scene.PlyHatch)
	}
	v.box(r, scene.Clear, scene.Medium, scene.Ink)
	v.take(r)
}

func (v *cartView) part(id part.ID) (part.Part, bool) {
	for _, p := range v.c.Parts {
		if p.ID == id {
			return p, true
		}
	}
	return part.Part{}, false
}

// spotPart makes a part tappable.
func (v *cartView) spotPart(p part.Part, r scene.Rect) {
	tag := v.tag[p.ID]
	ref := "part/" + tag
	if v.o.Selected == ref {
		v.box(r, scene.Clear, scene.Select, scene.Ink)
	}
	v.spot(r, ref, "Part "+tag+": "+p.Name+", "+v.t.Plain(p.Length)+" × "+v.t.Plain(p.Width)+" "+v.t.Unit())
}

// front draws the front elevation.
func (v *cartView) front() {
	if v.both {
		v.caption(v.x(v.all.Min[geom.X]), v.x(v.all.Max[geom.X]), "front")
	}
	for _, t := range v.c.Things {
		v.stand(t, v.face(t.Box))
	}
	// What is behind goes first: panels on their edges, then the face.
	faced := v.faced()
	for _, p := range v.c.Parts {
		switch {
		case p.Drawer > 0 || p.Door > 0 || p.ThickAxis() == geom.Y && p.Front != "face" || p.LengthAxis == geom.Y || p.Proud != 0 || v.behindDoor(p):
			continue // behind, or drawn with what covers it
		}
		if p.Front == "face" && p.ThickAxis() == geom.Y {
			continue // the face frame
		}
		r := v.face(p.Box)
		if top := p.ID == "top" || p.ID == "top-2"; top {
			if s, ok := v.part("strip-top-front"); ok {
				if p.ID == "top-2" {
					continue
				}
				v.ply(v.face(s.Box), true)
				v.spotPart(p, v.face(s.Box))
				continue
			}
			v.ply(r, false)
		} else {
			v.ply(r, faced[p.ID])
		}
		v.spotPart(p, r)
	}
	for _, p := range v.c.Parts {
		if p.Drawer == 0 && p.Door == 0 && p.Front == "face" && p.ThickAxis() == geom.Y {
			v.ply(v.face(p.Box), true)
			v.spotPart(p, v.face(p.Box))
		}
	}
	v.holes(geom.Y, v.face)
	for _, t := range v.c.Things {
		if t.Kind == design.HeldThing && t.Drawer == 0 {
			v.ghost(t, v.face(t.Box), true)
		}
	}
	for n, d := range v.c.Drawers {
		v.drawerFront(n, d)
	}
	for n, d := range v.c.Doors {
		v.door(n, d)
	}
	for _, t := range v.c.Things {
		switch t.Kind {
		case design.PullThing:
			r := v.face(t.Box)
			if r.W() > r.H() {
				r = scene.R(r.Min.X, r.Mid().Y-2*px, r.W(), 4*px)
			} else {
				r = scene.R(r.Mid().X-2*px, r.Min.Y, 4*px, r.H())
			}
			v.Add(scene.Area{Pts: r.Corners(), Fill: scene.Ink})
		case design.MachineThing:
			v.ghost(t, v.face(t.Box), true)
		}
	}
	for _, t := range v.c.Rooms {
		v.ghost(t, v.face(t.Box), true)
	}
}

// faced tells which parts have their front edge behind a strip.
func (v *cartView) faced() map[part.ID]bool {
	m := map[part.ID]bool{}
	for _, j := range v.c.Joints {
		for _, pair := range [2][2]part.ID{{j.A, j.B}, {j.B, j.A}} {
			if p, ok := v.part(pair[0]); ok && p.Proud != 0 && j.Kind == part.Glued {
				m[pair[1]] = true
			}
		}
	}
	return m
}

// behindDoor reports whether a part cannot be seen for a door.
func (v *cartView) behindDoor(p part.Part) bool {
	for _, d := range v.c.Doors {
		f := d.Front
		if f.Min[geom.X] <= p.Box.Min[geom.X]+20*measure.MM && (p.Box.Min[geom.X]+p.Box.Max[geom.X])/2 <= f.Max[geom.X]+p.Box.Size(geom.X)/2 &&
			f.Min[geom.Z] < p.Box.Min[geom.Z] && p.Box.Max[geom.Z] < f.Max[geom.Z] {
			return true
		}
	}
	return false
}

// door draws a leaf with the lines that meet at its hinges.
func (v *cartView) door(n int, d design.Door) {
	r := v.face(d.Front)
	v.box(r, scene.Sheet, scene.Medium, scene.Ink)
	near, far := r.Min.X, r.Max.X
	if d.Hinge == "right" {
		near, far = far, near
	}
	v.line(scene.Hidden, scene.Rule, scene.Pt{X: far, Y: r.Min.Y}, scene.Pt{X: near, Y: r.Mid().Y}, scene.Pt{X: far, Y: r.Max.Y})
	for _, p := range v.c.Parts {
		if p.Door == n+1 {
			v.spotPart(p, r)
		}
	}
	l := scene.Label{Text: "door", Size: 14 * px, Tone: scene.Ink2, At: r.Mid(), Back: scene.Sheet}
	if l.Extent().W() < r.W()-20*px {
		v.fit(l, r.Mid())
	}
}

// holes draws the holes of panels that face the view, as hidden circles.
func (v *cartView) holes(axis geom.Axis, at func(geom.Box) scene.Rect) {
	for _, p := range v.c.Parts {
		if p.ThickAxis() != axis || p.Drawer > 0 {
			continue
		}
		for _, f := range p.Features {
			if f.Kind == part.Hole {
				r := at(f.Box)
				v.Add(scene.Round{At: r.Mid(), R: min(r.W(), r.H()) / 2, Pen: scene.Hidden, Tone: scene.Ink2})
			}
		}
	}
}

func (v *cartView) caption(a, b scene.Unit, text string) {
	v.label(scene.Label{At: scene.Pt{X: (a + b) / 2, Y: v.head}, Text: text, Size: 14 * px, Tone: scene.Ink2})
}

// stand draws a caster or a foot in its room r; other things it leaves alone.
func (v *cartView) stand(t design.Thing, r scene.Rect) {
	switch t.Kind {
	case design.FootThing:
		v.ply(scene.R(r.Min.X+r.W()/4, r.Min.Y, r.W()/2, r.H()), true)
		return
	case design.CasterThing:
	default:
		return
	}
	h := r.H()
	wheel := h * 43 / 100
	mid := scene.Pt{X: r.Mid().X, Y: r.Max.Y - wheel}
	v.Add(scene.Area{Pts: scene.R(r.Min.X, r.Min.Y, r.W(), 3*px).Corners(), Fill: scene.Ink})
	v.line(scene.Medium, scene.Ink, scene.Pt{X: mid.X - wheel/3, Y: r.Min.Y}, mid, scene.Pt{X: mid.X + wheel/3, Y: r.Min.Y})
	v.Add(scene.Round{At: mid, R: wheel, Fill: scene.Sheet, Pen: scene.Medium, Tone: scene.Ink}, scene.Round{At: mid, R: 3 * px, Fill: scene.Ink})
	v.take(r)
}

// ghost draws a thing that is not made here, with its name and size.
func (v *cartView) ghost(t design.Thing, r scene.Rect, name bool) {
	if name {
		v.ghostIn(t, r, geom.Z)
		return
	}
	v.box(r, scene.Clear, scene.Ghost, scene.Rule)
}

// ghostIn draws a thing with its name, where up is the axis that goes up on the
// drawing.
func (v *cartView) ghostIn(t design.Thing, r scene.Rect, up geom.Axis) {
	v.box(r, scene.Clear, scene.Ghost, scene.Rule)
	size := v.t.Show(t.Box.Size(geom.X)) + " × " + v.t.Show(t.Box.Size(up))
	for _, b := range []block{words(14*px, false, scene.Ink2, t.Name, size), words(14*px, false, scene.Ink2, t.Name),
		words(14*px, false, scene.Ink2, strings.Fields(t.Name)...)} {
		w, h := b.size()
		if w > r.W()-8*px || h > r.H()-8*px {
			continue
		}
		mid := scene.Pt{X: r.Mid().X, Y: r.Min.Y + max(r.H()/2, h)}
		for _, at := range append([]scene.Pt{mid}, spread(r, w, h, 20*px)...) {
			if v.offGrips(scene.R(at.X-w/2, at.Y-h/2, w, h)) {
				for i := range b.lines {
					if up == geom.Y { // what is below is drawn, too
						b.lines[i].Back = scene.Sheet
					}
				}
				v.block(b, at)
				return
			}
		}
	}
}

// drawerFront draws a show front with its height.
func (v *cartView) drawerFront(n int, d design.Drawer) {
	r := v.face(d.Front)
	v.box(r, scene.Sheet, scene.Medium, scene.Ink)
	for _, p := range v.c.Parts {
		if p.Drawer == n+1 && p.Front == "face" {
			v.spotPart(p, r)
		}
	}
	for _, t := range v.c.Things {
		if t.Kind == design.PullThing && t.Drawer == n+1 {
			p := v.face(t.Box)
			v.take(scene.R(p.Min.X, p.Mid().Y-4*px, p.W(), 8*px))
		}
	}
	l := scene.Label{Text: v.t.Show(d.Front.Size(geom.Z)), Size: 15 * px, Bold: true, Tone: scene.Ink}
	if v.before(func(c *design.Cart) bool {
		return n >= len(c.Drawers) || c.Drawers[n].Front.Size(geom.Z) != d.Front.Size(geom.Z)
	}) {
		l.Back = scene.Lit
	}
	w := scene.TextWidth(l.Text, l.Size, true)
	mid := r.Mid()
	right := scene.Pt{X: r.Max.X - w/2 - 8*px, Y: mid.Y}
	for _, at := range []scene.Pt{right, {X: mid.X, Y: mid.Y + 16*px}, {X: mid.X, Y: mid.Y - 16*px}, {X: right.X, Y: r.Max.Y - l.Size/2 - 3*px}, {X: r.Min.X + w/2 + 8*px, Y: mid.Y}} {
		l.At = at
		if e := l.Extent(); e.Min.X > r.Min.X && e.Max.X < r.Max.X && e.Min.Y >= r.Min.Y && e.Max.Y <= r.Max.Y && v.fit(l, at) {
			return
		}
	}
}

// before reports whether something differs from the cart before the edit.
func (v *cartView) before(differs func(*design.Cart) bool) bool {
	return v.o.Before != nil && differs(v.o.Before)
}

// section draws the side, cut through the first bay with drawers.
func (v *cartView) section() {
	v.caption(v.y(v.all.Min[geom.Y]), v.y(v.all.Max[geom.Y]), "side, cut open")
	for _, t := range v.c.Things {
		if t.Box.Min[geom.X] < v.c.Case.Max[geom.X]/2 {
			v.stand(t, v.flank(t.Box))
		}
	}
	bay := -1
	if len(v.c.Drawers) > 0 {
		bay = v.c.Drawers[0].Bay
	}
	// What is behind the cut first: the upright.
	if p, ok := v.part("side-right"); ok {
		v.box(v.flank(p.Box), scene.Sheet, scene.Medium, scene.Ink)
	}
	cutX := measure.Length(0)
	if bay >= 0 && bay < len(v.c.Bays) {
		b := v.c.Bays[bay].Clear
		cutX = (b.Min[geom.X] + b.Max[geom.X]) / 2
	}
	for n, d := range v.c.Drawers {
		if d.Bay != bay {
			continue
		}
		for _, p := range v.c.Parts {
			if p.Drawer != n+1 {
				continue
			}
			r := v.flank(p.Box)
			switch {
			case p.Box.Min[geom.X] < cutX && cutX < p.Box.Max[geom.X]:
				v.ply(r, false)
			case p.ID != "":
				v.box(r, scene.Clear, scene.Thin, scene.Ink2)
			}
		}
	}
	for _, p := range v.c.Parts {
		if p.Drawer > 0 || p.ThickAxis() == geom.X && p.Proud == 0 {
			continue // drawn, or an upright
		}
		if p.Box.Min[geom.X] < cutX && cutX < p.Box.Max[geom.X] || cutX == 0 {
			v.ply(v.flank(p.Box), p.Proud != 0)
		}
	}
	v.holes(geom.X, v.flank)
	for _, t := range v.c.Things {
		switch t.Kind {
		case design.PullThing:
			if t.Drawer > 0 && v.c.Drawers[t.Drawer-1].Bay == bay {
				r := v.flank(t.Box)
				v.Add(scene.Area{Pts: scene.R(r.Min.X, r.Mid().Y-2*px, r.W(), 4*px).Corners(), Fill: scene.Ink})
			}
		case design.MachineThing:
			v.ghost(t, v.flank(t.Box), false)
		}
	}
	for _, t := range v.c.Rooms {
		v.ghost(t, v.flank(t.Box), false)
	}
}

// machineTable draws the machine's table as a heavy line.
func (v *cartView) machineTable() {
	for _, t := range v.c.Things {
		if t.Kind != design.MachineThing || v.c.Surface <= 0 {
			continue
		}
		y := v.z(v.c.Reached)
		r := v.face(t.Box)
		if !v.alone {
			v.line(scene.Heavy, scene.Ink, scene.Pt{X: r.Min.X, Y: y}, scene.Pt{X: r.Max.X, Y: y})
		}
		if v.both {
			r = v.flank(t.Box)
			v.line(scene.Heavy, scene.Ink, scene.Pt{X: r.Min.X, Y: y}, scene.Pt{X: r.Max.X, Y: y})
		}
	}
}

// dims draws the chains: bays and width under the front, depth under the
// section, the heights at the right.
func (v *cartView) dims() {
	y := v.z0 + 34*px
	if v.H < 420*px {
		y = v.z0 + 28*px
	}
	from := v.x(0)
	var chain []member
	for i, b := range v.c.Bays {
		if i == 0 {
			from = v.x(b.Clear.Min[geom.X])
		} else {
			chain = append(chain, member{to: v.x(b.Clear.Min[geom.X])})
		}
		w := b.Clear.Size(geom.X)
		moved := v.before(func(c *design.Cart) bool { return i >= len(c.Bays) || c.Bays[i].Clear.Size(geom.X) != w })
		chain = append(chain, member{to: v.x(b.Clear.Max[geom.X]), text: v.t.Show(w), moved: moved})
	}
	if len(v.c.Bays) <= 4 && !v.alone {
		v.chainAcross(from, chain, y, dim{below: false})
		y += 30 * px
	}
	width := v.c.Case.Size(geom.X)
	if !v.alone {
		v.across(v.x(0), v.x(width), y, v.t.Show(width), dim{moved: v.before(func(c *design.Cart) bool { return c.Case.Size(geom.X) != width })})
	}
	if v.both {
		deep := v.c.Case.Size(geom.Y)
		v.across(v.y(0), v.y(deep), v.z0+34*px, v.t.Show(deep), dim{moved: v.before(func(c *design.Cart) bool { return c.Case.Size(geom.Y) != deep })})
	}
	var sum measure.Length
	chain = nil
	for i, l := range v.c.Chain {
		sum += l.Height
		moved := v.before(func(c *design.Cart) bool { return i >= len(c.Chain) || c.Chain[i].Height != l.Height })
		chain = append(chain, member{to: v.z(sum), text: v.t.Show(l.Height), moved: moved})
	}
	v.chainUpright(v.z(0), chain, v.right, dim{below: true})
}
