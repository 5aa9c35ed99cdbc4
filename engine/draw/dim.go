package draw

import "cartwright/engine/scene"

// A dim says how a dimension line looks. The zero dim has a number of 15 px in
// ink, above its line or left of it, and no extension lines.
type dim struct {
	// size of the number; zero: 15 px.
	size scene.Unit
	// edge is where the thing that is measured ends: extension lines run from
	// there to the dimension line. Only if ext.
	edge scene.Unit
	ext  bool
	// below puts the number under the line, or right of an upright one.
	below bool
	// moved lights the number: it has just changed.
	moved bool
}

func (d dim) text() scene.Unit {
	if d.size == 0 {
		return 15 * px
	}
	return max(d.size, least)
}

// A member is one length of a chain.
type member struct {
	to    scene.Unit // where it ends on the drawing
	text  string
	moved bool
}

// across draws a dimension of text from x0 to x1 at height y.
func (k *sketch) across(x0, x1, y scene.Unit, text string, d dim) {
	k.chainAcross(x0, []member{{to: x1, text: text, moved: d.moved}}, y, d)
}

// upright draws a dimension of text from y0 to y1 at x.
func (k *sketch) upright(y0, y1, x scene.Unit, text string, d dim) {
	k.chainUpright(y0, []member{{to: y1, text: text, moved: d.moved}}, x, d)
}

// chainAcross draws an unbroken chain of dimensions from x0, member by member,
// at height y.
func (k *sketch) chainAcross(x0 scene.Unit, chain []member, y scene.Unit, d dim) {
	k.chain(x0, chain, y, d, false)
}

// chainUpright draws an unbroken chain of dimensions from y0, member by
// member, at x.
func (k *sketch) chainUpright(y0 scene.Unit, chain []member, x scene.Unit, d dim) {
	k.chain(y0, chain, x, d, true)
}

// chain draws a chain along one axis; at is its place on the other.
func (k *sketch) chain(from scene.Unit, chain []member, at scene.Unit, d dim, upright bool) {
	if len(chain) == 0 {
		return
	}
	pt := func(along, off scene.Unit) scene.Pt {
		if upright {
			return scene.Pt{X: off, Y: along}
		}
		return scene.Pt{X: along, Y: off}
	}
	k.line(scene.Thin, scene.Ink2, pt(from, at), pt(chain[len(chain)-1].to, at))
	mark := func(v scene.Unit) {
		if d.ext {
			gap, past := 3*px, 4*px
			if d.edge > at {
				gap, past = -gap, -past
			}
			k.line(scene.Fine, scene.Rule, pt(v, d.edge+gap), pt(v, at+past))
		}
		const t = 4 * px // a slanted tick of 8 px
		k.line(scene.Medium, scene.Ink, scene.Pt{X: pt(v, at).X - t, Y: pt(v, at).Y + t},
			scene.Pt{X: pt(v, at).X + t, Y: pt(v, at).Y - t})
	}
	mark(from)
	for i, m := range chain {
		mark(m.to)
		lo, hi := min(from, m.to), max(from, m.to)
		k.number(lo, hi, at, m, d, upright, len(chain) == 1 || i == len(chain)-1)
		from = m.to
	}
}

// number sets the number of one member: within its ticks if there is room,
// else turned (upright chains), on the other side, or past the end.
func (k *sketch) number(lo, hi, at scene.Unit, m member, d dim, upright, last bool) {
	if m.text == "" {
		return // the thickness between two clear widths
	}
	size := d.text()
	l := scene.Label{Text: m.text, Size: size, Bold: true, Tone: scene.Ink}
	if m.moved {
		l.Back = scene.Lit
	}
	w := scene.TextWidth(m.text, size, true)
	mid, side := (lo+hi)/2, scene.Unit(-1)
	if d.below {
		side = 1
	}
	var places []scene.Label
	place := func(x, y scene.Unit, a scene.Align, turn bool) {
		l.At, l.Align, l.Turn = scene.Pt{X: x, Y: y}, a, turn
		places = append(places, l)
	}
	if !upright {
		up := size/2 + 4*px
		if w+6*px <= hi-lo {
			place(mid, at+side*up, scene.Middle, false)
		}
		if last {
			place(hi+8*px, at, scene.Left, false)
		}
		place(mid, at-side*up, scene.Middle, false)
		place(mid, at+side*(up+size+2*px), scene.Middle, false)
		place(mid, at-side*(up+size+2*px), scene.Middle, false)
		place(lo-8*px, at, scene.Right, false)
		place(mid, at+side*up, scene.Middle, false)
	} else {
		beside := func(side scene.Unit) {
			if side < 0 {
				place(at-8*px, mid, scene.Right, false)
			} else {
				place(at+8*px, mid, scene.Left, false)
			}
		}
		beside(side)
		if w+6*px <= hi-lo {
			place(at+side*(size/2+4*px), mid, scene.Middle, true)
		}
		beside(-side)
		if last {
			place(at, hi+size/2+8*px, scene.Middle, false)
		}
		place(at, lo-size/2-8*px, scene.Middle, false)
		beside(side)
	}
	for i, l := range places {
		r := l.Extent()
		// The last place is taken whatever lies there: a number is never
		// left out.
		if i < len(places)-1 && (!k.holds(r) || !k.free(r)) {
			continue
		}
		k.label(l)
		if m.moved { // the amber foot of a number that has just changed
			r = r.Grow(4 * px)
			k.Add(scene.Area{Pts: scene.R(r.Min.X, r.Max.Y-3*px, r.W(), 3*px).Corners(), Fill: scene.Now})
		}
		return
	}
}
