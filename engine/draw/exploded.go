package draw

import (
	"slices"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// iso turns a point of cabinet space into one of the drawing, in ticks: seen
// from the front, the right and above, all three axes at one scale (sin 30° is
// 1/2, cos 30° .866).
func iso(p geom.Pt) (x, y int64) {
	px, py, pz := int64(p[0]), int64(p[1]), int64(p[2])
	return (px + py) * 866 / 1000, (px-py)/2 - pz
}

// A solid is a part as it stands in an exploded view.
type solid struct {
	part  int
	box   geom.Box
	isNew bool
}

// Exploded draws a step of building: what stands already, and the new parts
// lit and drawn apart along the way they come in.
func Exploded(c design.Cart, s work.Step, w, h int) scene.Scene {
	k := newSketch(scene.Unit(w)*px, scene.Unit(h)*px, s.Title)
	var all []solid
	for _, i := range s.Have {
		if !slices.ContainsFunc(s.Adds, func(a work.Add) bool { return a.Part == i }) {
			all = append(all, solid{part: i, box: c.Parts[i].Box})
		}
	}
	var home geom.Box
	for _, a := range s.Adds {
		home = home.Union(c.Parts[a.Part].Box)
	}
	for _, a := range all {
		home = home.Union(a.box)
	}
	var far measure.Length
	for a := geom.X; a <= geom.Z; a++ {
		far = max(far, home.Size(a))
	}
	sub := len(s.Have) == 0
	for n, a := range s.Adds {
		d := far * 3 / 10
		if sub {
			d = far / 4
			if n == 0 {
				d = 0 // the first lies there
			}
		}
		var by geom.Pt
		by[a.From.Axis] = a.From.Out(0, d)
		all = append(all, solid{a.Part, c.Parts[a.Part].Box.Add(by), true})
	}
	if len(all) == 0 {
		return k.Scene
	}
	// The scale that keeps all of it in.
	first := true
	var x0, y0, x1, y1 int64
	for _, b := range all {
		for n := range 8 {
			x, y := iso(corner(b.box, n))
			if first {
				x0, y0, x1, y1, first = x, y, x, y, false
			}
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		}
	}
	const margin = 36 * px
	per := max((x1-x0)/int64(max(k.W-2*margin, px)), (y1-y0)/int64(max(k.H-2*margin, px))) + 1
	ox, oy := (int64(k.W)-(x1-x0)/per)/2, (int64(k.H)-(y1-y0)/per)/2
	at := func(p geom.Pt) scene.Pt {
		x, y := iso(p)
		return scene.Pt{X: scene.Unit(ox + (x-x0)/per), Y: scene.Unit(oy + (y-y0)/per)}
	}
	tags := map[part.ID]string{}
	for i, l := range c.Lines {
		for _, id := range l.Parts {
			tags[id] = part.Tag(i)
		}
	}
	for _, b := range inOrder(all) {
		fill := scene.Sheet
		pen := scene.Thin
		if b.isNew {
			fill, pen = scene.Lit, scene.Medium
		}
		k.cuboid(b.box, at, fill, pen)
		if b.isNew { // the way home
			from, to := middle(b.box), middle(c.Parts[b.part].Box)
			if from != to {
				k.line(scene.Hidden, scene.Ink2, at(from), at(to))
			}
		}
	}
	for _, b := range all {
		if !b.isNew {
			continue
		}
		m := middle(b.box)
		m[geom.X], m[geom.Z] = b.box.Max[geom.X], b.box.Max[geom.Z] // where it is seen
		p := at(middle(b.box))
		text := tags[c.Parts[b.part].ID]
		for _, q := range []scene.Pt{p, at(m), {X: p.X, Y: p.Y - 30*px}, {X: p.X + 34*px, Y: p.Y}, {X: p.X - 34*px, Y: p.Y}} {
			g := scene.Badge{At: q, Shape: scene.PartTag, Text: text, Size: 26 * px}
			if k.free(g.Extent()) && k.holds(g.Extent()) {
				k.badge(g)
				k.spot(g.Extent(), "part/"+text, c.Parts[b.part].Name)
				break
			}
		}
	}
	return k.Scene
}

func corner(b geom.Box, n int) geom.Pt {
	p := b.Min
	for a := range p {
		if n>>a&1 == 1 {
			p[a] = b.Max[a]
		}
	}
	return p
}

func middle(b geom.Box) geom.Pt {
	var p geom.Pt
	for a := range p {
		p[a] = (b.Min[a] + b.Max[a]) / 2
	}
	return p
}

// cuboid draws the three faces of b that are seen: front, right, top.
func (k *sketch) cuboid(b geom.Box, at func(geom.Pt) scene.Pt, fill scene.Tone, pen scene.Pen) {
	for _, f := range [3][4]int{{0, 1, 5, 4}, {1, 3, 7, 5}, {4, 5, 7, 6}} {
		var pts []scene.Pt
		for _, n := range f {
			pts = append(pts, at(corner(b, n)))
		}
		k.Add(scene.Area{Pts: pts, Fill: fill, Pen: pen, Tone: scene.Ink})
	}
}

// inOrder sorts solids so that each is drawn after those it hides: what lies
// further left, further back or lower comes first.
func inOrder(all []solid) []solid {
	hides := func(a, b geom.Box) bool { // a is drawn after b
		return a.Min[geom.X] >= b.Max[geom.X] || a.Max[geom.Y] <= b.Min[geom.Y] || a.Min[geom.Z] >= b.Max[geom.Z]
	}
	left := slices.Clone(all)
	var out []solid
	for len(left) > 0 {
		at := 0
		for i, s := range left {
			first := true
			for j, o := range left {
				if i != j && hides(s.box, o.box) && !hides(o.box, s.box) && meetOnPaper(s.box, o.box) {
					first = false
					break
				}
			}
			if first {
				at = i
				break
			}
		}
		out = append(out, left[at])
		left = slices.Delete(left, at, at+1)
	}
	return out
}

// meetOnPaper reports whether the outlines of two boxes may cross.
func meetOnPaper(a, b geom.Box) bool {
	span := func(b geom.Box) (r [4]int64) {
		for n := range 8 {
			x, y := iso(corner(b, n))
			if n == 0 {
				r = [4]int64{x, y, x, y}
			}
			r = [4]int64{min(r[0], x), min(r[1], y), max(r[2], x), max(r[3], y)}
		}
		return r
	}
	p, q := span(a), span(b)
	return p[0] < q[2] && q[0] < p[2] && p[1] < q[3] && q[1] < p[3]
}
