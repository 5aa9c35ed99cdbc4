// Package svg shows scenes as SVG: for print, for files, before the canvas
// program has arrived, and where there is no WebGL.
//
// The text holds no style element, no style attribute and no script, so that
// it passes the strictest content security policy. Hatches, dashes of hatches
// and zigzags are real paths, since pattern fills print badly.
package svg

import (
	"fmt"
	"strconv"
	"strings"

	"cartwright/engine/scene"
)

// Options tune [Render]. The zero Options makes a drawing for a page that has
// the custom properties of the theme (--ink, --paper and so on), and which
// cannot be tapped.
type Options struct {
	// Live makes each spot an element that can be focused and tapped:
	// <g role="button" tabindex="0" class="spot" data-ref="…">, and for one
	// that can be dragged data-drag, data-perpx and data-step.
	Live bool
	// Standalone writes the light theme's colours out, for a file of its own.
	Standalone bool
	// Mono draws in black on white without grey fills, for print.
	Mono bool
}

// Render returns s as one svg element.
func Render(s scene.Scene, o Options) string {
	w := writer{o: o}
	w.raw(`<svg xmlns="http://www.w3.org/2000/svg" width="`, num(s.W), `" height="`, num(s.H),
		`" viewBox="0 0 `, num(s.W), ` `, num(s.H), `" class="scene" font-family="system-ui,sans-serif"`)
	if s.Title != "" {
		w.raw(` role="`, w.role(), `" aria-label="`, escape(s.Title), `"`)
	}
	w.raw(`><g`)
	if o.Live || s.Title != "" {
		w.raw(` aria-hidden="true"`)
	}
	w.raw(">\n")
	for _, it := range s.Items {
		w.item(it)
	}
	w.flush()
	w.raw("</g>\n")
	if o.Live {
		for _, sp := range s.Spots {
			w.spot(sp)
		}
	}
	w.raw("</svg>\n")
	return w.b.String()
}

// A writer collects strokes of one kind into one path as long as nothing else
// is painted between them.
type writer struct {
	b    strings.Builder
	o    Options
	pen  stroke
	path strings.Builder
}

// A stroke is what strokes must share to go into one path.
type stroke struct {
	width  scene.Unit
	tone   scene.Tone
	dash   string
	square bool // all along the axes: kept sharp
}

func (w *writer) raw(s ...string) {
	for _, s := range s {
		w.b.WriteString(s)
	}
}

// role is what the whole drawing is to a screen reader: a picture, unless it
// holds buttons.
func (w *writer) role() string {
	if w.o.Live {
		return "group"
	}
	return "img"
}

func (w *writer) item(it scene.Item) {
	switch it := it.(type) {
	case scene.Line:
		w.line(it)
	case scene.Area:
		w.area(it)
	case scene.Round:
		w.round(it)
	case scene.Label:
		w.label(it)
	case scene.Badge:
		for _, p := range it.Parts() {
			w.item(p)
		}
	default:
		panic(fmt.Sprintf("svg: unknown item %T", it))
	}
}

func (w *writer) line(l scene.Line) {
	switch l.Pen {
	case scene.Rough:
		w.stroke(scene.Zigzag(l.Pts), false, l.Pen, l.Tone)
	case scene.Next:
		if w.o.Mono { // an outlined band: black, white, black
			w.strokeWide(l.Pts, scene.Band+3*scene.PX, scene.Ink)
			w.strokeWide(l.Pts, scene.Band, scene.Sheet)
		} else {
			w.strokeWide(l.Pts, scene.Band, scene.Now)
		}
		w.strokeWide(l.Pts, l.Pen.Width(), scene.NowInk)
	default:
		w.stroke(l.Pts, false, l.Pen, l.Tone)
	}
}

func (w *writer) area(a scene.Area) {
	if len(a.Pts) < 2 {
		return
	}
	if c := w.color(a.Fill); c != "" {
		w.flush()
		if r, ok := rect(a.Pts); ok {
			w.raw(`<rect x="`, num(r.Min.X), `" y="`, num(r.Min.Y), `" width="`, num(r.W()), `" height="`, num(r.H()), `"`)
		} else {
			w.raw(`<path fill-rule="evenodd" d="`, run(a.Pts, true), `"`)
		}
		w.raw(` fill="`, c, `"/>`, "\n")
	}
	if segs := a.Hatch.Strokes(a.Pts); len(segs) > 0 {
		w.begin(stroke{width: a.Hatch.Width(), tone: a.Hatch.Tone()})
		for _, s := range segs {
			w.path.WriteString(run([]scene.Pt{s.A, s.B}, false))
		}
	}
	if a.Pen == scene.Rough {
		w.stroke(scene.Zigzag(append(a.Pts[:len(a.Pts):len(a.Pts)], a.Pts[0])), true, a.Pen, a.Tone)
		return
	}
	w.stroke(a.Pts, true, a.Pen, a.Tone)
}

func (w *writer) round(r scene.Round) {
	fill := w.color(r.Fill)
	line := w.color(r.Tone)
	if r.Pen == scene.NoPen {
		line = ""
	}
	if r.R <= 0 || fill == "" && line == "" {
		return
	}
	w.flush()
	if fill == "" {
		fill = "none"
	}
	w.raw(`<circle cx="`, num(r.At.X), `" cy="`, num(r.At.Y), `" r="`, num(r.R), `" fill="`, fill, `"`)
	if line != "" {
		w.raw(` stroke="`, line, `" stroke-width="`, num(r.Pen.Width()), `"`)
		if d := dashes(r.Pen); d != "" {
			w.raw(` stroke-dasharray="`, d, `"`)
		}
	}
	w.raw("/>\n")
}

// stroke adds a run of strokes in pen and tone.
func (w *writer) stroke(pts []scene.Pt, closed bool, pen scene.Pen, tone scene.Tone) {
	if pen == scene.NoPen || tone == scene.Clear || len(pts) < 2 {
		return
	}
	w.begin(stroke{width: pen.Width(), tone: tone, dash: dashes(pen), square: square(pts)})
	w.path.WriteString(run(pts, closed))
}

func (w *writer) strokeWide(pts []scene.Pt, width scene.Unit, tone scene.Tone) {
	if len(pts) < 2 {
		return
	}
	w.begin(stroke{width: width, tone: tone, square: square(pts)})
	w.path.WriteString(run(pts, false))
}

// begin makes s the stroke of the path at hand.
func (w *writer) begin(s stroke) {
	if s != w.pen {
		w.flush()
		w.pen = s
	}
}

// flush writes the path at hand.
func (w *writer) flush() {
	if w.path.Len() > 0 {
		w.raw(`<path fill="none" stroke="`, w.color(w.pen.tone), `" stroke-width="`, num(w.pen.width), `"`)
		if w.pen.dash != "" {
			w.raw(` stroke-dasharray="`, w.pen.dash, `"`)
		}
		if w.pen.square {
			w.raw(` shape-rendering="crispEdges"`)
		}
		w.raw(` d="`, w.path.String(), `"/>`, "\n")
		w.path.Reset()
	}
	w.pen = stroke{}
}

// spot writes a place that can be tapped, at least 44 px wide and high.
func (w *writer) spot(s scene.Spot) {
	r := s.At.Widen(scene.Touch)
	w.raw(`<g role="button" tabindex="0" class="spot" data-ref="`, escape(s.Ref), `"`)
	if s.Name != "" {
		w.raw(` aria-label="`, escape(s.Name), `"`)
	}
	if s.Drag != 0 {
		w.raw(` data-drag="`, escape(string(rune(s.Drag))), `" data-perpx="`, strconv.FormatInt(s.PerPX, 10),
			`" data-step="`, strconv.FormatInt(s.Step, 10), `"`)
	}
	w.raw(`><rect x="`, num(r.Min.X), `" y="`, num(r.Min.Y), `" width="`, num(r.W()), `" height="`, num(r.H()),
		`" fill="none" pointer-events="all"/></g>`, "\n")
}

// run returns path data through pts.
func run(pts []scene.Pt, closed bool) string {
	b := make([]byte, 0, 12*len(pts)+2)
	last := scene.Pt{}
	for i, p := range pts {
		switch {
		case i == 0:
			b = append(append(append(append(b, 'M'), num(p.X)...), ' '), num(p.Y)...)
		case p == last:
			continue
		case p.Y == last.Y:
			b = append(append(b, 'H'), num(p.X)...)
		case p.X == last.X:
			b = append(append(b, 'V'), num(p.Y)...)
		default:
			b = append(append(append(append(b, 'L'), num(p.X)...), ' '), num(p.Y)...)
		}
		last = p
	}
	if closed {
		b = append(b, 'Z')
	}
	return string(b)
}

// square reports whether all strokes between pts run along the axes.
func square(pts []scene.Pt) bool {
	for i := 1; i < len(pts); i++ {
		if pts[i].X != pts[i-1].X && pts[i].Y != pts[i-1].Y {
			return false
		}
	}
	return true
}

// rect returns the rectangle whose corners, in order, are pts.
func rect(pts []scene.Pt) (scene.Rect, bool) {
	if len(pts) != 4 || !square(pts) || !square([]scene.Pt{pts[3], pts[0]}) {
		return scene.Rect{}, false
	}
	r := scene.Rect{Min: pts[0], Max: pts[0]}
	for _, p := range pts {
		r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
		r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
	}
	return r, !r.Empty() && pts[0] != pts[2] && pts[1] != pts[3]
}

func dashes(p scene.Pen) string {
	var parts []string
	for _, u := range p.Dash() {
		parts = append(parts, num(u))
	}
	return strings.Join(parts, " ")
}

// num returns u in pixels, in as many decimals as sixteenths need.
func num(u scene.Unit) string {
	if u%scene.PX == 0 {
		return strconv.Itoa(int(u / scene.PX))
	}
	sign, v := "", int64(u)
	if v < 0 {
		sign, v = "-", -v
	}
	frac := strconv.FormatInt(10000+v%16*625, 10)[1:]
	return sign + strconv.FormatInt(v/16, 10) + "." + strings.TrimRight(frac, "0")
}
