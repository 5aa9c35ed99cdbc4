package draw

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/scene"
)

// A grip is a handle: what it moves, and along which axis of the drawing.
type grip struct {
	at        scene.Rect
	ref, name string
	axis      byte
}

// grips settles where the handles stand, so that words keep clear of them: at
// the ends of bays and of openings.
func (v *cartView) grips() {
	if v.o.Print {
		return
	}
	long, thick := 40*px, 24*px
	if v.W < 480*px {
		long, thick = 30*px, 20*px
	}
	top, ok := v.part("top")
	for _, p := range v.c.Parts {
		if p.Proud != 0 && p.Box.Min[geom.Z] >= v.c.Case.Max[geom.Z] || p.ID == "top-2" {
			top.Box = top.Box.Union(p.Box)
		}
	}
	if v.both && ok {
		r := v.flank(top.Box)
		v.sideGrip("side/front", "Worktop's front edge, drag sideways", scene.Pt{X: r.Min.X, Y: r.Mid().Y})
		v.sideGrip("side/back", "Worktop's back edge, drag sideways", scene.Pt{X: r.Max.X, Y: r.Mid().Y})
	}
	if v.alone {
		return
	}
	if r := v.face(top.Box); ok {
		v.sideGrip("top/left", "Worktop's left end, drag sideways", scene.Pt{X: r.Min.X, Y: r.Mid().Y})
		v.sideGrip("top/right", "Worktop's right end, drag sideways", scene.Pt{X: r.Max.X, Y: r.Mid().Y})
	}
	v.bayGrips(func(b design.Bay) scene.Unit {
		return v.z(b.Clear.Min[geom.Z]) - (v.z(b.Clear.Min[geom.Z])-v.z(b.Clear.Max[geom.Z]))/4
	})
	for i, b := range v.c.Bays {
		for j, op := range b.Openings {
			if j+1 == len(b.Openings) {
				continue
			}
			x := v.x(b.Clear.Min[geom.X]) + (v.x(b.Clear.Max[geom.X])-v.x(b.Clear.Min[geom.X]))/6
			z := v.z(op.Cell.Min[geom.Z])
			v.addGrip(scene.R(x-long/2, z-thick/2, long, thick), 'y', "opening/"+strconv.Itoa(i)+"/"+strconv.Itoa(j), "Lower end of "+op.Name+", drag up or down")
		}
	}
}

// bayGrips puts a handle on every upright between two bays, at the height that
// at gives.
func (v *cartView) bayGrips(at func(design.Bay) scene.Unit) {
	long, thick := 40*px, 24*px
	if v.W < 480*px {
		long, thick = 30*px, 20*px
	}
	for i, b := range v.c.Bays {
		if i+1 < len(v.c.Bays) {
			x := (v.x(b.Clear.Max[geom.X]) + v.x(v.c.Bays[i+1].Clear.Min[geom.X])) / 2
			v.addGrip(scene.R(x-thick/2, at(b)-long/2, thick, long), 'x', "bay/"+strconv.Itoa(i), "Right end of "+b.Name+", drag sideways")
		}
	}
}

// handles draws the grips over everything else.
func (v *cartView) handles() {
	for _, g := range v.grip {
		fill, ink := scene.Sheet, scene.Ink
		if v.o.Drag == g.ref {
			fill, ink = scene.Now, scene.NowInk
		}
		v.box(g.at, fill, scene.Medium, ink)
		m := g.at.Mid()
		const d = 3 * px
		for _, s := range [2]scene.Unit{-d, d} {
			a, b := scene.Pt{X: m.X + s, Y: m.Y - 2*d}, scene.Pt{X: m.X + s, Y: m.Y + 2*d}
			if g.axis == 'y' {
				a, b = scene.Pt{X: m.X - 2*d, Y: m.Y + s}, scene.Pt{X: m.X + 2*d, Y: m.Y + s}
			}
			v.line(scene.Medium, ink, a, b)
		}
		v.Spots = append(v.Spots, scene.Spot{At: g.at, Ref: g.ref, Name: g.name, Drag: g.axis, PerPX: v.per, Step: int64(v.t.Least())})
	}
	for _, g := range v.grip {
		if v.o.Drag == g.ref && len(v.o.Note) > 0 {
			v.note(g)
			break
		}
	}
}

// edges puts a handle on each edge of the worktop, seen from above.
func (v *cartView) edges(r scene.Rect, front, back string) {
	if r.Empty() {
		return
	}
	m := r.Mid()
	v.sideGrip("top/left", "Worktop's left end, drag sideways", scene.Pt{X: r.Min.X, Y: m.Y})
	v.sideGrip("top/right", "Worktop's right end, drag sideways", scene.Pt{X: r.Max.X, Y: m.Y})
	v.addGrip(scene.R(m.X-20*px, r.Max.Y-12*px, 40*px, 24*px), 'y', front, "Worktop's front edge, drag up or down")
	v.addGrip(scene.R(m.X-20*px, r.Min.Y-12*px, 40*px, 24*px), 'y', back, "Worktop's back edge, drag up or down")
}

func (v *cartView) sideGrip(ref, name string, at scene.Pt) {
	v.addGrip(scene.R(at.X-12*px, at.Y-20*px, 24*px, 40*px), 'x', ref, name)
}

func (v *cartView) addGrip(r scene.Rect, axis byte, ref, name string) {
	v.grip = append(v.grip, grip{r, ref, name, axis})
	v.take(r)
}

// offGrips reports whether words in r keep clear of the handles.
func (v *cartView) offGrips(r scene.Rect) bool {
	for _, g := range v.grip {
		if g.at.Meets(r) {
			return false
		}
	}
	return true
}
