package main

import (
	"math"

	"cartwright/engine/scene"
	"cartwright/wasm/view/ink"

	"github.com/hajimehoshi/ebiten/v2"
)

// An item is a scene item with its strokes cut, which is done once for each
// scene, not for each frame.
type item struct {
	scene.Item
	segs []scene.Seg // dashes of the outline, or nil: pts as a run
	pts  []scene.Pt  // the run of strokes, if it is not the item's own
	fill []scene.Seg // the hatch
}

// prepare takes badges apart and cuts dashes, zigzags and hatches.
func prepare(items []scene.Item) []item {
	out := make([]item, 0, len(items)+len(items)/4)
	for _, it := range items {
		switch it := it.(type) {
		case scene.Badge:
			out = append(out, prepare(it.Parts())...)
		case scene.Line:
			p := item{Item: it, pts: it.Pts}
			if it.Pen == scene.Rough {
				p.pts = scene.Zigzag(it.Pts)
			} else if d := it.Pen.Dash(); d != nil {
				p.segs = scene.Dashed(scene.Segs(it.Pts, false), d)
			}
			out = append(out, p)
		case scene.Area:
			p := item{Item: it, pts: it.Pts, fill: it.Hatch.Strokes(it.Pts)}
			if it.Pen == scene.Rough && len(it.Pts) > 1 {
				p.pts = scene.Zigzag(append(it.Pts[:len(it.Pts):len(it.Pts)], it.Pts[0]))
			} else if d := it.Pen.Dash(); d != nil {
				p.segs = scene.Dashed(scene.Segs(it.Pts, true), d)
			}
			out = append(out, p)
		default:
			out = append(out, item{Item: it})
		}
	}
	return out
}

// A brush paints on the screen: it collects triangles, and draws them before
// anything else has to lie on top.
type brush struct {
	screen  *ebiten.Image
	theme   *theme
	white   *ebiten.Image
	mesh    ink.Mesh
	buffer  []ebiten.Vertex
	run     []ink.Pt
	letters letters
}

func (b *brush) init() {
	img := ebiten.NewImage(3, 3)
	pix := make([]byte, 3*3*4)
	for i := range pix {
		pix[i] = 255
	}
	img.WritePixels(pix)
	b.white = img
	b.letters.init()
}

func (b *brush) begin(screen *ebiten.Image, t *theme) { b.screen, b.theme = screen, t }

func (b *brush) end() {
	b.flush()
	b.letters.trim()
}

// flush draws the triangles collected so far.
func (b *brush) flush() {
	if len(b.mesh.I) > 0 {
		b.buffer = b.buffer[:0]
		for _, v := range b.mesh.V {
			b.buffer = append(b.buffer, ebiten.Vertex{DstX: v.X, DstY: v.Y, SrcX: 1, SrcY: 1,
				ColorR: v.Color[0], ColorG: v.Color[1], ColorB: v.Color[2], ColorA: v.Color[3]})
		}
		b.screen.DrawTriangles(b.buffer, b.mesh.I, b.white, &ebiten.DrawTrianglesOptions{ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha})
	}
	b.mesh.Reset()
}

func (b *brush) item(it *item, p paper) {
	if b.mesh.Full() {
		b.flush()
	}
	switch v := it.Item.(type) {
	case scene.Line:
		if v.Pen == scene.Next {
			b.stroke(it.pts, false, scene.Band, scene.Now, p)
			b.stroke(it.pts, false, v.Pen.Width(), scene.NowInk, p)
			return
		}
		b.outline(it, false, v.Pen, v.Tone, p)
	case scene.Area:
		b.area(it, v, p)
	case scene.Round:
		at, r := p.at(v.At), float64(v.R)*p.scale
		if c := b.theme[v.Fill]; c[3] > 0 {
			b.mesh.Disc(at, r, c)
		}
		if c := b.theme[v.Tone]; c[3] > 0 && v.Pen != scene.NoPen {
			b.ring(v, at, r, c, p)
		}
	case scene.Label:
		b.label(v, p)
	}
}

func (b *brush) area(it *item, a scene.Area, p paper) {
	if c := b.theme[a.Fill]; c[3] > 0 {
		if len(a.Pts) == 4 && a.Pts[0].X == a.Pts[3].X && a.Pts[0].Y == a.Pts[1].Y && a.Pts[1].X == a.Pts[2].X && a.Pts[2].Y == a.Pts[3].Y {
			m, n := p.at(a.Pts[0]), p.at(a.Pts[2])
			b.mesh.Rect(math.Min(m.X, n.X), math.Min(m.Y, n.Y), math.Max(m.X, n.X), math.Max(m.Y, n.Y), c)
		} else {
			b.mesh.Fill(b.points(a.Pts, p), c)
		}
	}
	if len(it.fill) > 0 {
		c, w := b.theme[a.Hatch.Tone()], math.Max(1, float64(a.Hatch.Width())*p.scale)
		for _, s := range it.fill {
			b.mesh.Curve([]ink.Pt{p.at(s.A), p.at(s.B)}, false, w, c)
			if b.mesh.Full() {
				b.flush()
			}
		}
	}
	b.outline(it, true, a.Pen, a.Tone, p)
}

func (b *brush) outline(it *item, closed bool, pen scene.Pen, tone scene.Tone, p paper) {
	if pen == scene.NoPen || b.theme[tone][3] == 0 {
		return
	}
	if it.segs == nil {
		b.stroke(it.pts, closed, pen.Width(), tone, p)
		return
	}
	for _, s := range it.segs {
		b.stroke([]scene.Pt{s.A, s.B}, false, pen.Width(), tone, p)
		if b.mesh.Full() {
			b.flush()
		}
	}
}

// ring draws the outline of a circle, dashed ones in equal parts.
func (b *brush) ring(v scene.Round, at ink.Pt, r float64, c ink.Color, p paper) {
	w := ink.Width(float64(v.Pen.Width()) * p.scale)
	d := v.Pen.Dash()
	if d == nil {
		b.mesh.Curve(ink.Circle(at, r), true, w, c)
		return
	}
	period := float64(d[0] + d[1])
	n := max(3, min(400, int(2*math.Pi*float64(v.R)/period)))
	part := 2 * math.Pi / float64(n) * float64(d[0]) / period
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		var pts []ink.Pt
		for k := range 4 {
			s, o := math.Sincos(a + part*float64(k)/3)
			pts = append(pts, ink.Pt{X: at.X + r*o, Y: at.Y + r*s})
		}
		b.mesh.Curve(pts, false, w, c)
	}
}

func (b *brush) stroke(pts []scene.Pt, closed bool, width scene.Unit, tone scene.Tone, p paper) {
	b.mesh.Stroke(b.points(pts, p), closed, float64(width)*p.scale, b.theme[tone])
}

// points returns pts on the screen, in memory that is used again.
func (b *brush) points(pts []scene.Pt, p paper) []ink.Pt {
	b.run = b.run[:0]
	for _, q := range pts {
		b.run = append(b.run, p.at(q))
	}
	return b.run
}

// label paints the background of a label, its letters and the line through it.
func (b *brush) label(l scene.Label, p paper) {
	tone := b.theme[l.Tone]
	if l.Text == "" || tone[3] == 0 || l.Size <= 0 {
		return
	}
	word := b.letters.word(l.Text, float64(l.Size)*p.sharp, l.Bold)
	if word == nil {
		return
	}
	k := p.scale / p.sharp // not 1 while fingers zoom
	at := p.at(l.At)
	w, h := word.width*k, float64(l.Size)*p.scale
	left := -w / 2
	switch l.Align {
	case scene.Left:
		left = 0
	case scene.Right:
		left = -w
	}
	// box paints a rectangle given from the label's place, turned with it.
	box := func(x0, y0, x1, y1 float64, c ink.Color) {
		if l.Turn {
			x0, y0, x1, y1 = y0, -x1, y1, -x0
		}
		b.mesh.Rect(at.X+x0, at.Y+y0, at.X+x1, at.Y+y1, c)
	}
	if back := b.theme[l.Back]; back[3] > 0 {
		m := 4 * float64(scene.PX) * p.scale
		box(left-m, -h/2-m, left+w+m, h/2+m, back)
		if l.Back == scene.Lit {
			box(left-m, h/2+m, left+w+m, h/2+m*7/4, b.theme[scene.Now])
		}
	}
	b.flush()
	o := &ebiten.DrawImageOptions{}
	o.GeoM.Translate(-word.pad, -word.middle)
	o.GeoM.Scale(k, k)
	o.GeoM.Translate(left, 0)
	if l.Turn {
		o.GeoM.Rotate(-math.Pi / 2)
	}
	if k == 1 { // onto whole pixels: sharp letters
		x, y := o.GeoM.Apply(0, 0)
		at.X, at.Y = math.Round(at.X+x)-x, math.Round(at.Y+y)-y
	} else {
		o.Filter = ebiten.FilterLinear
	}
	o.GeoM.Translate(at.X, at.Y)
	o.ColorScale.SetR(tone[0])
	o.ColorScale.SetG(tone[1])
	o.ColorScale.SetB(tone[2])
	o.ColorScale.SetA(tone[3])
	b.screen.DrawImage(word.img, o)
	if l.Strike {
		t := math.Max(1, h/14) / 2
		box(left, h/20-t, left+w, h/20+t, tone)
	}
}
