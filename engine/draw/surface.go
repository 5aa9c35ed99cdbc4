package draw

import (
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/scene"
)

// The surface to line up with is drawn as the end of a slab, on its side of
// the cart and a little apart from it.
const (
	otherWide  = 5 * measure.Inch     // how much of it is shown
	otherThick = 3 * measure.Inch / 2 // common practice, no source
	otherGap   = 2 * measure.Inch     // from the furthest of the cart
	pullReach  = 32 * measure.MM      // of pulls, before the fronts
)

// other returns the shown end of the surface to line up with; empty if there
// is none. Beside the cart it is as deep as the cart, before and behind it as
// wide.
func (v *cartView) other() geom.Box {
	if v.c.Surface <= 0 {
		return geom.Box{}
	}
	b := v.all
	b.Min[geom.Z], b.Max[geom.Z] = v.c.Surface-otherThick, v.c.Surface
	switch v.c.SurfaceSide {
	case "right":
		b.Min[geom.X] = b.Max[geom.X] + otherGap
		b.Max[geom.X] = b.Min[geom.X] + otherWide
	case "front":
		b.Max[geom.Y] = min(b.Min[geom.Y], -pullReach) - otherGap
		b.Min[geom.Y] = b.Max[geom.Y] - otherWide
	case "back":
		b.Min[geom.Y] = b.Max[geom.Y] + otherGap
		b.Max[geom.Y] = b.Min[geom.Y] + otherWide
	default:
		b.Max[geom.X] = b.Min[geom.X] - otherGap
		b.Min[geom.X] = b.Max[geom.X] - otherWide
	}
	return b
}

// facing reports whether the other surface stands before or behind the cart.
func (v *cartView) facing() bool { return v.c.SurfaceSide == "front" || v.c.SurfaceSide == "back" }

// bench draws the surface to line up with, and the line at its height through
// both views. One that stands before the cart or behind it is drawn in the
// side alone: in the front view it would hide the drawers, or be hidden by
// them, so that there only the line says how high it is.
func (v *cartView) bench() {
	o := v.other()
	if o.Empty() {
		return
	}
	y := v.z(v.c.Surface)
	from, to := v.x(v.shown.Min[geom.X]), v.x(v.shown.Max[geom.X])+14*px
	if v.alone {
		from = v.y(v.shown.Min[geom.Y])
	}
	if v.both {
		to = v.y(v.shown.Max[geom.Y]) + 10*px
	}
	say := scene.Label{Text: v.t.Show(v.c.Surface), Size: 16 * px, Bold: true, Tone: scene.Store, Align: scene.Left, At: scene.Pt{X: from, Y: y - 13*px}}
	if v.facing() && !v.both {
		say.Text += " " + map[bool]string{true: "in front", false: "behind"}[v.c.SurfaceSide == "front"]
	}
	if !v.facing() && !v.alone {
		v.slab(v.face(o), v.c.SurfaceSide == "right")
		say.At.X = v.x(o.Min[geom.X])
	}
	if v.facing() && v.both {
		v.slab(v.flank(o), v.c.SurfaceSide == "back")
		say.At.X = v.y(o.Min[geom.Y])
	}
	v.line(scene.Level, scene.Store, scene.Pt{X: from, Y: y}, scene.Pt{X: to, Y: y})
	at := say.At
	v.beside(say, at, scene.Pt{X: at.X + 36*px, Y: at.Y}, scene.Pt{X: at.X - 14*px, Y: at.Y}, scene.Pt{X: at.X, Y: at.Y - 22*px})
}

// slab draws the end r of the other surface on a leg; high says that the cart
// is at its low end.
func (v *cartView) slab(r scene.Rect, high bool) {
	near, far := v.len(measure.Inch), v.len(3*measure.Inch/2)
	if high {
		near, far = far, near
	}
	v.box(scene.Rect{Min: scene.Pt{X: r.Min.X + far, Y: r.Max.Y}, Max: scene.Pt{X: r.Max.X - near, Y: v.z0}}, scene.Clear, scene.Ghost, scene.Rule)
	v.hatch(r, scene.GroundHatch)
	v.box(r, scene.Clear, scene.Medium, scene.Rule)
	v.take(r)
}

// step draws by how much the machine's table stands over the other surface, or
// under it, in the gap between them.
func (v *cartView) step() {
	o, d := v.other(), v.c.Reached-v.c.Surface
	if o.Empty() || d == 0 || v.facing() && !v.both || !v.facing() && v.alone {
		return
	}
	r, end := v.face(o), v.face(v.all)
	if v.facing() {
		r, end = v.flank(o), v.flank(v.all)
	}
	for _, t := range v.c.Things {
		if t.Kind == design.MachineThing && v.facing() {
			end = v.flank(t.Box)
		} else if t.Kind == design.MachineThing {
			end = v.face(t.Box)
		}
	}
	x, to := r.Max.X, end.Min.X
	if r.Min.X > end.Min.X {
		x, to = r.Min.X, end.Max.X
	}
	at, y := (x+to)/2, v.z(v.c.Reached)
	v.line(scene.Fine, scene.Ink2, scene.Pt{X: x, Y: y}, scene.Pt{X: to, Y: y})
	v.upright(v.z(v.c.Surface), y, at, "", dim{})
	l := scene.Label{Text: v.t.Show(d.Abs()), Size: 15 * px, Bold: true, Tone: scene.Ink, Back: scene.Sheet, At: scene.Pt{X: at, Y: max(y, v.z(v.c.Surface)) + 15*px}}
	if v.before(func(c *design.Cart) bool { return c.Reached-c.Surface != d }) {
		l.Back = scene.Lit
	}
	v.beside(l, l.At, scene.Pt{X: r.Mid().X, Y: r.Max.Y + 13*px}, scene.Pt{X: r.Mid().X, Y: r.Max.Y + 36*px})
}

// beside draws l at the first of the places that is free, else at the first.
func (v *cartView) beside(l scene.Label, places ...scene.Pt) {
	if !v.fit(l, places...) {
		l.At = places[0]
		v.label(l)
	}
}

// otherAbove draws the other surface as it is seen from above, with its name
// and its height.
func (v *cartView) otherAbove() {
	o := v.other()
	if o.Empty() {
		return
	}
	r := v.above(o)
	v.hatch(r, scene.GroundHatch)
	v.box(r, scene.Clear, scene.Medium, scene.Rule)
	name := v.c.SurfaceName
	if name == "" {
		name = "surface to match"
	}
	l := scene.Label{Size: 14 * px, Tone: scene.Ink2, Back: scene.Sheet, Align: scene.Middle, Turn: !v.facing()}
	for _, l.Text = range [...]string{name + ", " + v.t.Show(v.c.Surface), v.t.Show(v.c.Surface)} {
		for _, off := range [...]scene.Unit{0, -1, 1} { // words keep clear of the handles
			l.At = scene.Pt{X: r.Mid().X, Y: r.Mid().Y + off*r.H()/4}
			if v.facing() {
				l.At = scene.Pt{X: r.Mid().X + off*r.W()/4, Y: r.Mid().Y}
			}
			if e := l.Extent(); e.W() <= r.W() && e.H() <= r.H() && v.offGrips(e) {
				v.label(l)
				return
			}
		}
	}
}
