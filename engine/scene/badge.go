package scene

import "fmt"

// Parts returns what b is drawn with: lines, areas, rounds and labels, so that
// every renderer shows the same signs.
func (b Badge) Parts() []Item {
	half := b.Size / 2
	mark := Medium // the pen of a tick
	if b.Size >= 36*PX {
		mark = Select
	}
	at := func(dx, dy Unit) Pt { return Pt{b.At.X + dx, b.At.Y + dy} }
	text := func(size Unit, tone Tone) Item {
		return Label{At: b.At, Text: b.Text, Size: size, Bold: true, Tone: tone}
	}
	switch b.Shape {
	case Square:
		return []Item{
			Area{Pts: box(b.At, half, half), Fill: Ink},
			text(b.fit(70), Sheet),
		}
	case Circle:
		return []Item{
			Round{At: b.At, R: half, Fill: Sheet, Pen: Medium, Tone: Ink},
			text(b.fit(60), Ink),
		}
	case Ticked:
		return []Item{
			Round{At: b.At, R: half, Fill: Ink},
			Line{Pts: []Pt{at(-half*9/20, half/20), at(-half*3/20, half*7/20), at(half*9/20, -half*7/20)}, Pen: mark, Tone: Sheet},
		}
	case Unequal:
		d := half * 2 / 5
		return []Item{
			Round{At: b.At, R: half, Fill: Ink},
			Line{Pts: []Pt{at(-d, -d/2), at(d, -d/2)}, Pen: mark, Tone: Sheet},
			Line{Pts: []Pt{at(-d, d/2), at(d, d/2)}, Pen: mark, Tone: Sheet},
			Line{Pts: []Pt{at(d/2, -d*3/2), at(-d/2, d*3/2)}, Pen: mark, Tone: Sheet},
		}
	case PennantR:
		w := max(half, b.textWidth(64)/2+3*PX)
		return []Item{
			Area{Pts: []Pt{at(-w, -half), at(w, -half), at(w+half*4/5, 0), at(w, half), at(-w, half)},
				Fill: Now, Pen: Medium, Tone: NowInk},
			text(b.Size*64/100, NowInk),
		}
	case PennantD:
		w := max(half, b.textWidth(64)/2+5*PX)
		return []Item{
			Area{Pts: []Pt{at(-w, -half), at(w, -half), at(w, half/2), at(0, half*6/5), at(-w, half/2)},
				Fill: Now, Pen: Medium, Tone: NowInk},
			Label{At: at(0, -half/8), Text: b.Text, Size: b.Size * 64 / 100, Bold: true, Tone: NowInk},
		}
	case PartTag, PartSolid:
		fill, ink := Sheet, Ink
		if b.Shape == PartSolid {
			fill, ink = Ink, Sheet
		}
		w, cut := max(half, b.textWidth(58)/2+4*PX), half*11/20
		return []Item{
			Area{Pts: []Pt{at(-w, -half), at(w-cut, -half), at(w, cut-half), at(w, half), at(-w, half)},
				Fill: fill, Pen: Medium, Tone: Ink},
			text(b.Size*58/100, ink),
		}
	case RoughFrame:
		w := max(half, b.textWidth(64)/2+4*PX)
		return []Item{
			Area{Pts: box(b.At, w, half), Fill: Sheet, Pen: Medium, Tone: Store},
			text(b.Size*64/100, Store),
		}
	}
	panic(fmt.Sprintf("scene: unknown shape %d", b.Shape))
}

// Extent returns the rectangle that b covers.
func (b Badge) Extent() Rect {
	var r Rect
	add := func(p Pt) {
		if r == (Rect{}) {
			r = Rect{p, p}
		}
		r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
		r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
	}
	switch it := b.Parts()[0].(type) {
	case Round:
		return box2(it.At, it.R, it.R)
	case Area:
		for _, p := range it.Pts {
			add(p)
		}
	}
	return r
}

// fit returns the size of text that is pct of the badge, smaller if the text
// would not fit between its sides.
func (b Badge) fit(pct Unit) Unit {
	size := b.Size * pct / 100
	if w, room := b.textWidth(pct), b.Size*88/100; room > 0 && w > room {
		size = Unit(int64(size) * int64(room) / int64(w))
	}
	return size
}

func (b Badge) textWidth(pct Unit) Unit {
	return TextWidth(b.Text, b.Size*pct/100, true)
}

func box2(at Pt, w, h Unit) Rect { return R(at.X-w, at.Y-h, 2*w, 2*h) }

func box(at Pt, w, h Unit) []Pt { return box2(at, w, h).Corners() }

// Corners returns the corners of r, clockwise on the screen from the top left.
func (r Rect) Corners() []Pt {
	return []Pt{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}
