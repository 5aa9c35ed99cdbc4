package draw

import (
	"strconv"

	"cartwright/engine/measure"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// Groove draws the setting of m, the blade as it stands at the first pass: a
// section of the part by the edge that rides the fence, inside face down on a
// table saw, up under a router; a mitre from above.
func Groove(t measure.Tape, m work.Mill, w, h int) scene.Scene {
	k := newSketch(scene.Unit(w)*px, scene.Unit(h)*px, m.Verb+", as it is set")
	flat := k.W > 2*k.H // less under each other, so that the letters stay large
	room := k.H / 18
	if flat {
		room = k.H / 11
	}
	g := section{sketch: k, t: t, m: m, em: min(max(min(k.W/26, room), least), 24*px), flat: flat}
	if m.Verb == "Mitre" {
		g.mitre()
	} else {
		g.draw()
	}
	return k.Scene
}

// A section is the drawing of a [work.Mill] being made.
type section struct {
	*sketch
	t  measure.Tape
	m  work.Mill
	em scene.Unit // size of the letters

	flat bool
}

func (g *section) show(l measure.Length) string { return g.t.Show(g.t.Round(l)) }

// fine shows what no tape sets: to 1/64 in or 0.1 mm.
func (g *section) fine(l measure.Length) string {
	t := measure.Tape{Metric: g.t.Metric, Step: measure.Inch64}
	if t.Metric {
		t.Step = measure.MM / 10
	}
	return t.Show(l)
}

// word sets text where it is put, on a ground that keeps hatches off it.
func (g *section) word(x, y scene.Unit, text string, a scene.Align, tone scene.Tone, turn bool) {
	g.label(scene.Label{At: scene.Pt{X: x, Y: y}, Text: text, Size: g.em, Bold: true, Align: a, Tone: tone, Back: scene.Sheet, Turn: turn})
}

func (g *section) draw() {
	m, em := g.m, g.em
	fences, blade, name, table := m.Fences, m.Kerf, "blade", true
	if len(fences) == 0 {
		fences, blade, name, table = []measure.Length{m.Set}, m.Wide, "bit", false
	}
	// Of many passes as many as have room, the last among them.
	rows := min(len(fences), max(int(g.H/3/(em*3/2)), 2))
	switch {
	case !table && m.Set == 0:
		rows = 0
	case g.flat:
		rows = 1
	}
	wide := m.Wide
	if m.Set > 0 {
		wide += m.Over
	}
	reach, left, board := m.Set+wide, em*5/2, scene.Unit(0) // the fence is two letters thick
	if m.Set == 0 {
		reach, board = m.Wide+m.Over, em*2
	}
	tall := []measure.Length{m.Deep, m.Thick}
	if len(m.Depths) > 1 {
		tall = []measure.Length{m.Depths[0], m.Deep, m.Thick}
	}
	right := g.W - em - em*13/4*scene.Unit(len(tall))
	high := em*6 + em*3/2*scene.Unit(rows) // all but the part
	per := max(int64(reach)/int64(max(right-left-board-em*7, px)), int64(m.Thick)/int64(max(g.H-high, px))) + 1
	at := func(l measure.Length) scene.Unit { return scene.Unit(int64(l) / per) }
	if board > 0 {
		board = max(board, at(m.Over)+em)
		left += board
	}
	right = min(right, left+at(reach)+em*12)
	x := func(l measure.Length) scene.Unit { return left + at(l) }
	thick, deep := at(m.Thick), at(m.Deep)

	// y counts from the face that is cut, into the part; below 0 is the table.
	face, up := (g.H-high-thick)/2+em*3+thick, scene.Unit(1)
	if !table {
		face, up = g.H-face, -1
	}
	y := func(d scene.Unit) scene.Unit { return face - up*d }
	rect := func(x0, x1, d0, d1 scene.Unit) scene.Rect {
		return scene.R(x0, min(y(d0), y(d1)), x1-x0, max(d1-d0, d0-d1))
	}
	pt := func(x, d scene.Unit) scene.Pt { return scene.Pt{X: x, Y: y(d)} }

	// The table with the fence on it, or the router's base.
	under := rect(em/2, right, -em, 0)
	g.box(under, scene.Sheet, scene.NoPen, scene.Ink)
	g.hatch(under, scene.GroundHatch)
	g.line(scene.Heavy, scene.Ink, pt(em/2, 0), pt(right, 0))
	stands := rect(em/2, left-board, 0, thick+em)
	g.box(stands, scene.Sheet, scene.Medium, scene.Ink)
	g.hatch(stands, scene.GroundHatch)
	clear := y((deep + thick + em) / 2) // of the blade
	g.word(stands.Mid().X, clear, "fence", scene.Middle, scene.Ink, true)
	if board > 0 {
		r := rect(left-board, left, 0, thick+em)
		g.box(r, scene.Sheet, scene.Medium, scene.Ink)
		g.word(r.Mid().X, clear, "board", scene.Middle, scene.Ink, true)
	}

	// The part, what is cut of it, and each pass.
	near, far := x(m.Set), x(m.Set+wide)
	outline := []scene.Pt{pt(right, thick), pt(left, thick), pt(left, 0), pt(near, 0), pt(near, deep), pt(far, deep), pt(far, 0), pt(right, 0)}
	g.Add(scene.Area{Pts: outline, Fill: scene.Sheet, Hatch: scene.PlyHatch})
	g.line(scene.Medium, scene.Ink, outline...)
	g.broken(right, y(thick), y(0))
	g.box(rect(near, far, 0, deep), scene.Sheet, scene.NoPen, scene.Ink)
	for _, f := range fences[1:] {
		for _, e := range [2]measure.Length{f, f + blade} {
			g.line(scene.Hidden, scene.Ink2, pt(x(e), 0), pt(x(e), deep))
		}
	}
	for _, d := range m.Depths {
		g.line(scene.Hidden, scene.Ink2, pt(near, at(d)), pt(far, at(d)))
	}
	g.line(scene.Medium, scene.Ink, pt(near, 0), pt(near, deep), pt(far, deep), pt(far, 0))
	b0, b1 := x(fences[0]), x(fences[0]+blade)
	g.box(rect(b0, b1, -em*3/2, at(tall[0])), scene.Now, scene.Select, scene.NowInk)
	g.line(scene.Select, scene.Store, pt(far, 0), pt(right, 0))
	if m.Set > 0 {
		g.line(scene.Select, scene.Store, pt(left, 0), pt(near, 0))
	}
	g.word(far+em/2, y(em*4/5), "inside face", scene.Left, scene.Store, false)

	// Sizes: of the groove beyond the part, of each pass on the table's side.
	g.across(near, far, y(thick+em), g.show(wide), dim{size: em, ext: true, edge: y(thick), below: !table})
	for i, l := range tall {
		text := g.show(l)
		if i == len(tall)-1 {
			text = g.fine(l)
		}
		g.upright(y(0), y(at(l)), right+em*3/4+em*13/4*scene.Unit(i), text, dim{size: em, below: true})
	}
	last := x(max(fences[0], fences[len(fences)-1]))
	g.word(max(last, b1)+em, y(-em*2), name+" "+g.fine(blade), scene.Left, scene.Ink, false)
	for r := range rows {
		i := r
		if r > 0 && r == rows-1 {
			i = len(fences) - 1
		}
		f := fences[i]
		row := y(-em*7/2 - em*3/2*scene.Unit(r))
		g.across(x(0), x(f), row, "", dim{ext: true, edge: y(-em)})
		text := g.show(f)
		if f < 0 {
			text = g.fine(-f) + " in the board"
		}
		switch {
		case len(fences) == 1:
		case g.flat:
			text = "passes: " + text
			for _, f := range fences[1:] {
				text += ", " + g.show(f)
			}
		default:
			text = "pass " + strconv.Itoa(i+1) + ": " + text
		}
		g.word(last+em, row, text, scene.Left, scene.Ink, false)
	}
}

// broken draws the end of what goes on beyond the drawing.
func (g *section) broken(x, y0, y1 scene.Unit) {
	mid, d := (y0+y1)/2, g.em/3
	if y1 < y0 {
		d = -d
	}
	g.line(scene.Thin, scene.Ink, scene.Pt{X: x, Y: y0}, scene.Pt{X: x, Y: mid - d}, scene.Pt{X: x + g.em/3, Y: mid - d/2},
		scene.Pt{X: x - g.em/3, Y: mid + d/2}, scene.Pt{X: x, Y: mid + d}, scene.Pt{X: x, Y: y1})
}

// mitre draws a strip as it lies on the saw, from above.
func (g *section) mitre() {
	m, em := g.m, g.em
	against, blade := "fence", "blade"
	switch m.SawIs {
	case "":
		against, blade = "mitre box", "saw"
	case "table":
		against = "gauge"
	}
	left, end := em*4, g.W-em/2
	lip := max(min(g.H-em*10, (end-left-em*7)/3), em)
	point := end - em*4 - lip/2 // the long point
	y0 := (g.H-em*10-lip)/2 + em*5
	y1 := y0 + lip
	pt := func(x, y scene.Unit) scene.Pt { return scene.Pt{X: x, Y: y} }

	stands := scene.R(em/2, y0-em*2, end-em/2, em*2)
	g.box(stands, scene.Sheet, scene.Medium, scene.Ink)
	g.hatch(stands, scene.GroundHatch)
	g.word(left+em/2, y0-em, against, scene.Left, scene.Ink, false)
	g.Add(scene.Area{Pts: []scene.Pt{pt(point, y0), pt(end, y0), pt(end, y1), pt(point-lip, y1)}, Hatch: scene.WasteHatch})
	g.line(scene.Hidden, scene.Ink2, pt(point-lip, y1), pt(end, y1))
	g.line(scene.Medium, scene.Ink, pt(left, y1), pt(point-lip, y1))
	g.broken(left, y0, y1)
	wide := max(scene.Unit(int64(lip)*int64(m.Kerf)/int64(max(m.Wide, 1))*1414/1000), 4*px) // along the fence
	a, b := pt(point+em, y0-em), pt(point-lip-em*3/2, y1+em*3/2)
	g.Add(scene.Area{Pts: []scene.Pt{a, pt(a.X+wide, a.Y), pt(b.X+wide, b.Y), b}, Fill: scene.Now, Pen: scene.Select, Tone: scene.NowInk})
	g.line(scene.Select, scene.Store, pt(left, y0), pt(point, y0))

	g.word(left+em/2, y0+em*4/5, "outer face", scene.Left, scene.Store, false)
	g.word(b.X-em/2, b.Y-em/2, blade+" at 45°", scene.Right, scene.Ink, false)
	g.line(scene.Thin, scene.Ink, pt(point, y0), pt(point, y0-em*3))
	g.Add(scene.Round{At: pt(point, y0), R: 3 * px, Fill: scene.Ink})
	g.word(point+em*2, y0-em*7/2, "long point: full length", scene.Right, scene.Ink, false)
	g.across(point-lip, point, y1+em*3, g.show(m.Wide), dim{size: em, ext: true, edge: y1, below: true})
	g.upright(y0, y1, left-em, g.show(m.Wide), dim{size: em})
}
