// Package draw turns results into drawings: scenes laid out for a viewport,
// with dimension lines, tags, hatches and the places that can be tapped.
package draw

import "cartwright/engine/scene"

// px is one CSS pixel.
const px = scene.PX

// least is the smallest text of a drawing.
const least = 14 * px

// A sketch is a scene being drawn, with the places that words and signs have
// taken. Whoever places a word asks [sketch.free] or lets [sketch.fit] choose.
type sketch struct {
	scene.Scene
	taken []scene.Rect
}

// newSketch returns an empty drawing of w by h.
func newSketch(w, h scene.Unit, title string) *sketch {
	return &sketch{Scene: scene.Scene{W: w, H: h, Title: title}}
}

// take marks r as taken.
func (k *sketch) take(r scene.Rect) { k.taken = append(k.taken, r) }

// free reports whether nothing has taken a point of r.
func (k *sketch) free(r scene.Rect) bool {
	for _, t := range k.taken {
		if t.Meets(r) {
			return false
		}
	}
	return true
}

// line draws an open run of strokes.
func (k *sketch) line(pen scene.Pen, tone scene.Tone, pts ...scene.Pt) {
	k.Add(scene.Line{Pts: pts, Pen: pen, Tone: tone})
}

// box draws the rectangle r: a fill, then an outline.
func (k *sketch) box(r scene.Rect, fill scene.Tone, pen scene.Pen, tone scene.Tone) {
	k.Add(scene.Area{Pts: r.Corners(), Fill: fill, Pen: pen, Tone: tone})
}

// hatch fills r with h, without an outline.
func (k *sketch) hatch(r scene.Rect, h scene.Hatch) {
	if !r.Empty() {
		k.Add(scene.Area{Pts: r.Corners(), Hatch: h})
	}
}

// label draws l and takes its place.
func (k *sketch) label(l scene.Label) {
	k.Add(l)
	k.take(l.Extent().Grow(px))
}

// badge draws b and takes its place.
func (k *sketch) badge(b scene.Badge) {
	k.Add(b)
	k.take(b.Extent().Grow(px))
}

// spot adds a place that can be tapped.
func (k *sketch) spot(at scene.Rect, ref, name string) {
	k.Spots = append(k.Spots, scene.Spot{At: at, Ref: ref, Name: name})
}

// fit draws l at the first of the places where it stands free and inside the
// drawing, and reports whether there was one.
func (k *sketch) fit(l scene.Label, places ...scene.Pt) bool {
	for _, p := range places {
		l.At = p
		if r := l.Extent().Grow(px); k.holds(r) && k.free(r) {
			k.label(l)
			return true
		}
	}
	return false
}

// holds reports whether r lies inside the drawing.
func (k *sketch) holds(r scene.Rect) bool {
	return r.Min.X >= 0 && r.Min.Y >= 0 && r.Max.X <= k.W && r.Max.Y <= k.H
}

// A block is a few lines of words set under each other about one middle.
type block struct {
	lines []scene.Label // At is ignored
	gap   scene.Unit    // between lines
}

// words returns a block of plain lines of one size.
func words(size scene.Unit, bold bool, tone scene.Tone, lines ...string) block {
	b := block{gap: size / 4}
	for _, t := range lines {
		b.lines = append(b.lines, scene.Label{Text: t, Size: size, Bold: bold, Tone: tone})
	}
	return b
}

// size returns the width and the height of b, a little on the wide side: fonts
// differ.
func (b block) size() (w, h scene.Unit) {
	for i, l := range b.lines {
		w = max(w, scene.TextWidth(l.Text, l.Size, l.Bold)*107/100)
		h += l.Size
		if i > 0 {
			h += b.gap
		}
	}
	return w, h
}

// block draws b about mid and takes its place.
func (k *sketch) block(b block, mid scene.Pt) {
	_, h := b.size()
	y := mid.Y - h/2
	for _, l := range b.lines {
		l.At, l.Align = scene.Pt{X: mid.X, Y: y + l.Size/2}, scene.Middle
		k.label(l)
		y += l.Size + b.gap
	}
}

// spread returns points in r that are middles of things of w by h inside r: a
// lattice of about step, the middle of r first, then outwards. It is empty if
// r is too small.
func spread(r scene.Rect, w, h, step scene.Unit) []scene.Pt {
	in := scene.Rect{
		Min: scene.Pt{X: r.Min.X + w/2, Y: r.Min.Y + h/2},
		Max: scene.Pt{X: r.Max.X - w/2, Y: r.Max.Y - h/2},
	}
	if in.Max.X < in.Min.X || in.Max.Y < in.Min.Y {
		return nil
	}
	mid := in.Mid()
	var out []scene.Pt
	most := min(12, max(in.W(), in.H())/2/step+1)
	for ring := scene.Unit(0); ring <= most; ring++ {
		for dy := -ring; dy <= ring; dy++ {
			for dx := -ring; dx <= ring; dx++ {
				if max(dx, -dx, dy, -dy) != ring {
					continue
				}
				p := scene.Pt{X: mid.X + dx*step, Y: mid.Y + dy*step}
				if in.Min.X <= p.X && p.X <= in.Max.X && in.Min.Y <= p.Y && p.Y <= in.Max.Y {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// grain draws the sign of the grain about mid: a thin line of the given length
// with half a barb at each end, on opposite sides.
func (k *sketch) grain(mid scene.Pt, length scene.Unit, upright bool) {
	half, bx, by := length/2, 9*px, 4*px
	at := func(along, off scene.Unit) scene.Pt {
		if upright {
			return scene.Pt{X: mid.X + off, Y: mid.Y + along}
		}
		return scene.Pt{X: mid.X + along, Y: mid.Y + off}
	}
	k.line(scene.Thin, scene.Ink, at(-half+bx, -by), at(-half, 0), at(half, 0), at(half-bx, by))
	k.take(grainExtent(mid, length, upright))
}

// grainExtent returns the rectangle that [sketch.grain] covers.
func grainExtent(mid scene.Pt, length scene.Unit, upright bool) scene.Rect {
	w, h := length, 10*px
	if upright {
		w, h = h, w
	}
	return scene.R(mid.X-w/2, mid.Y-h/2, w, h)
}

// callout draws a label at to, with a thin line from it to the point at and a
// small dot there.
func (k *sketch) callout(at, to scene.Pt, text string, tone scene.Tone) {
	l := scene.Label{At: to, Text: text, Size: 15 * px, Bold: true, Tone: tone, Back: scene.Sheet}
	r := l.Extent().Grow(4 * px)
	end := scene.Pt{X: min(max(at.X, r.Min.X), r.Max.X), Y: min(max(at.Y, r.Min.Y), r.Max.Y)}
	k.line(scene.Thin, tone, at, end)
	k.Add(scene.Round{At: at, R: 2 * px, Fill: tone})
	k.label(l)
}
