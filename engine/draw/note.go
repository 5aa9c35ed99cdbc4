package draw

import "cartwright/engine/scene"

// note writes what another value of a dragged size would cost beside its
// handle: over it, where no hand lies, else under it, and always inside the
// drawing. It lies over everything else.
func (v *cartView) note(g grip) {
	b := words(15*px, true, scene.Ink, v.o.Note...)
	w, h := b.size()
	if w+24*px > v.W {
		b = words(least, false, scene.Ink, v.o.Note...)
		w, h = b.size()
	}
	w, h = w+16*px, h+12*px
	x := max(min(g.at.Mid().X-w/2, v.W-w-4*px), 4*px)
	y := g.at.Min.Y - 8*px - h
	if y < 4*px {
		y = g.at.Max.Y + 8*px
	}
	r := scene.R(x, y, w, h)
	v.box(r, scene.Sheet, scene.Medium, scene.Ink)
	v.block(b, r.Mid())
}
