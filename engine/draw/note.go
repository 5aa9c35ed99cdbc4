package draw

import "cartwright/engine/scene"

// note writes what another value of a dragged size would cost beside its
// handle: under it, else over it, and always inside the drawing. It lies over
// everything else.
func (v *cartView) note(g grip) {
	b := words(15*px, true, scene.Ink, v.o.Note...)
	w, h := b.size()
	w, h = w+16*px, h+12*px
	x := min(max(g.at.Mid().X-w/2, 4*px), max(v.W-w-4*px, 4*px))
	y := g.at.Max.Y + 8*px
	if y+h > v.H-4*px {
		y = g.at.Min.Y - 8*px - h
	}
	r := scene.R(x, y, w, h)
	v.box(r, scene.Sheet, scene.Medium, scene.Ink)
	v.block(b, r.Mid())
}
