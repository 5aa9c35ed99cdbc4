package draw

import (
	"slices"
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// low and high name the edges and ends of a part by where they stand.
var low = [3]string{"left", "front", "lower"}
var high = [3]string{"right", "back", "upper"}

// Part draws the faces of part i that have holes, as they lie before whoever
// drills them: each hole with its distances from the low edges, running from
// one edge. rows are the drills of the part, numbered as they come.
func Part(c design.Cart, i int, rows []work.Drill, w, h int) scene.Scene {
	q := c.Parts[i]
	k := newSketch(scene.Unit(w)*px, scene.Unit(h)*px, q.Name)
	var faces []design.Side
	for _, r := range rows {
		if len(r.Spots) > 0 && !slices.Contains(faces, r.Face) {
			faces = append(faces, r.Face)
		}
	}
	for n, f := range faces {
		hh := k.H / scene.Unit(len(faces))
		k.face(c.Tape, q, f, rows, scene.R(0, hh*scene.Unit(n), k.W, hh))
	}
	if len(faces) == 0 {
		k.block(words(16*px, true, scene.Ink, "No holes that are measured on this part."), scene.Pt{X: k.W / 2, Y: k.H / 2})
	}
	return k.Scene
}

// FaceName says which face it is.
func FaceName(s design.Side) string {
	name := low[s.Axis]
	if s.High {
		name = high[s.Axis]
	}
	return name + " face"
}

// face draws one face within room.
func (k *sketch) face(t measure.Tape, q part.Part, f design.Side, rows []work.Drill, room scene.Rect) {
	var on work.Drill
	for _, r := range rows {
		if r.Face == f {
			on = r
		}
	}
	la, wa := q.Box.Size(on.Along), q.Box.Size(on.Across)
	const left, right, top, bottom = 92 * px, 40 * px, 48 * px, 62 * px
	dw, dh := int64(room.W()-left-right), int64(room.H()-top-bottom)
	if dw < 40 || dh < 40 || la <= 0 || wa <= 0 {
		return
	}
	// The larger of ticks per unit keeps both in.
	per := max(int64(la)/dw, int64(wa)/dh) + 1
	fw, fh := scene.Unit(int64(la)/per), scene.Unit(int64(wa)/per)
	at := scene.R(room.Min.X+left+(scene.Unit(dw)-fw)/2, room.Min.Y+top+(scene.Unit(dh)-fh)/2, fw, fh)
	// Seen from outside: along to the right, across up or down as the hand has it.
	up := f.High
	if (int(f.Axis)+1)%3 != int(on.Along) {
		up = !up
	}
	x := func(v measure.Length) scene.Unit { return at.Min.X + scene.Unit(int64(v)/per) }
	y := func(v measure.Length) scene.Unit {
		if up {
			return at.Max.Y - scene.Unit(int64(v)/per)
		}
		return at.Min.Y + scene.Unit(int64(v)/per)
	}
	k.box(at, scene.Sheet, scene.Medium, scene.Ink)
	for _, g := range q.Features {
		b := g.Box.Intersect(q.Box)
		if b.Empty() || f.Of(b) != f.Of(q.Box) {
			continue
		}
		a0, a1 := x(b.Min[on.Along]-q.Box.Min[on.Along]), x(b.Max[on.Along]-q.Box.Min[on.Along])
		b0, b1 := y(b.Min[on.Across]-q.Box.Min[on.Across]), y(b.Max[on.Across]-q.Box.Min[on.Across])
		if g.Kind != part.Hole {
			k.box(scene.R(a0, min(b0, b1), a1-a0, max(b0, b1)-min(b0, b1)), scene.Tint, scene.Hidden, scene.Ink2)
		}
	}
	word := func(text string, size scene.Unit, bold bool, p ...scene.Pt) {
		k.fit(scene.Label{Text: text, Size: size, Bold: bold, Tone: scene.Ink2, Align: scene.Middle}, p...)
	}
	k.label(scene.Label{At: scene.Pt{X: room.Min.X + 12*px, Y: room.Min.Y + 18*px}, Text: q.Name + ", " + FaceName(f), Size: 16 * px, Bold: true, Align: scene.Left, Tone: scene.Ink})
	lowA, highA := low[on.Along], high[on.Along]
	word(lowA+" end", least, false, scene.Pt{X: at.Min.X + 44*px, Y: at.Min.Y - 12*px}, scene.Pt{X: at.Min.X, Y: at.Min.Y - 12*px})
	word(highA+" end", least, false, scene.Pt{X: at.Max.X - 44*px, Y: at.Min.Y - 12*px})

	var as, bs []measure.Length
	for n, r := range rows {
		if r.Face != f {
			continue
		}
		for m, s := range r.Spots {
			p := scene.Pt{X: x(s.A), Y: y(s.B)}
			rad := max(3*px, scene.Unit(int64(r.Dia/2)/per))
			switch r.Kind {
			case work.PinHole:
				k.line(scene.Thin, scene.Ink, scene.Pt{X: p.X - 4*px, Y: p.Y}, scene.Pt{X: p.X + 4*px, Y: p.Y})
				k.line(scene.Thin, scene.Ink, scene.Pt{X: p.X, Y: p.Y - 4*px}, scene.Pt{X: p.X, Y: p.Y + 4*px})
			case work.PocketHole:
				to := p
				if r.Toward.Axis == r.Along {
					to.X = at.Min.X
					if r.Toward.High {
						to.X = at.Max.X
					}
				} else {
					to.Y = y(0)
					if r.Toward.High {
						to.Y = y(wa)
					}
				}
				k.line(scene.Hidden, scene.Ink2, p, to)
				k.Add(scene.Round{At: p, R: rad + px, Fill: scene.Sheet, Pen: scene.Medium, Tone: scene.Ink})
			default:
				k.Add(scene.Round{At: p, R: rad, Fill: scene.Sheet, Pen: scene.Medium, Tone: scene.Ink})
			}
			k.take(scene.R(p.X-rad, p.Y-rad, 2*rad, 2*rad))
			if m == 0 {
				k.fit(scene.Label{Text: strconv.Itoa(n + 1), Size: least, Bold: true, Tone: scene.Store, Align: scene.Middle},
					scene.Pt{X: p.X + 14*px, Y: p.Y - 12*px}, scene.Pt{X: p.X - 14*px, Y: p.Y - 12*px}, scene.Pt{X: p.X + 14*px, Y: p.Y + 12*px}, scene.Pt{X: p.X, Y: p.Y - 18*px}, scene.Pt{X: p.X + 24*px, Y: p.Y})
			}
			if r.Kind != work.PocketHole || r.Toward.Axis != r.Along {
				as = append(as, s.A)
			}
			if r.Kind != work.PocketHole || r.Toward.Axis != r.Across {
				bs = append(bs, s.B)
			}
		}
	}
	k.running(t, as, x, at.Max.Y, true)
	k.running(t, bs, y, at.Min.X, false)
	lowB := low[on.Across] + " edge"
	word(lowB, least, false, scene.Pt{X: at.Mid().X, Y: y(0) - 10*px}, scene.Pt{X: at.Mid().X, Y: y(0) + 12*px}, scene.Pt{X: at.Max.X - 60*px, Y: y(0) + 14*px}, scene.Pt{X: at.Max.X - 60*px, Y: y(0) - 12*px})
}

// running writes distances from one edge at the places they belong to, along
// the bottom of the face or up its left side.
func (k *sketch) running(t measure.Tape, vs []measure.Length, at func(measure.Length) scene.Unit, edge scene.Unit, along bool) {
	slices.Sort(vs)
	vs = slices.Compact(vs)
	for _, v := range vs {
		l := scene.Label{Text: t.Show(v), Size: 15 * px, Bold: true, Tone: scene.Ink, Align: scene.Middle}
		p := at(v)
		if along {
			k.line(scene.Fine, scene.Rule, scene.Pt{X: p, Y: edge + 2*px}, scene.Pt{X: p, Y: edge + 12*px})
			k.fit(l, scene.Pt{X: p, Y: edge + 24*px}, scene.Pt{X: p, Y: edge + 42*px}, scene.Pt{X: p + 18*px, Y: edge + 24*px}, scene.Pt{X: p + 18*px, Y: edge + 42*px}, scene.Pt{X: p - 18*px, Y: edge + 42*px})
			continue
		}
		k.line(scene.Fine, scene.Rule, scene.Pt{X: edge - 12*px, Y: p}, scene.Pt{X: edge - 2*px, Y: p})
		l.Align = scene.Right
		k.fit(l, scene.Pt{X: edge - 16*px, Y: p}, scene.Pt{X: edge - 16*px, Y: p + 12*px}, scene.Pt{X: edge - 16*px, Y: p - 12*px}, scene.Pt{X: edge - 56*px, Y: p})
	}
}
