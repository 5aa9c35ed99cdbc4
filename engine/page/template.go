package page

import (
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// Templates are 1:1 prints as a PDF file: pulls on each width of front, plates
// of casters, the machine's foot, lines of slides, each with check bars, on A4 or
// Letter by the tape. PDF because browsers shrink pages of HTML silently; written
// here by hand, since all it takes is lines and a standard font. It has no
// dates: the same project gives the same bytes. "" if there is nothing to draw.
//
// It stands in package page, the last of the engine's tiers, since it puts
// results into a form that is read; it needs nothing that page does not import.
func Templates(v View) string {
	b := newBuilder(v)
	p := pdf{w: 279.4, h: 215.9} // Letter, lying
	if b.t.Metric {
		p.w, p.h = 297, 210 // A4
	}
	plots := b.pullPlots()
	for _, t := range b.Cart.Things {
		if t.Kind == design.CasterThing && (len(plots) == 0 || !strings.HasPrefix(plots[len(plots)-1].title, "Caster")) {
			plots = append(plots, b.casterPlot(t))
		}
	}
	for _, t := range b.Cart.Things {
		if len(t.Holes) > 0 {
			plots = append(plots, b.footPlot(t))
		}
	}
	plots = append(plots, b.slidePlots()...)
	if len(plots) == 0 {
		return ""
	}
	for _, d := range plots {
		p.plot(d)
	}
	return p.end()
}

func mms(l measure.Length) float64 { return l.Metres() * 1000 }

// withUnit is a length with its unit: on the tape, in whole millimetres as
// fittings are sold, or exactly.
func (b *builder) withUnit(l measure.Length) string {
	if !b.t.On(l) && l%measure.MM == 0 {
		return strconv.FormatInt(int64(l/measure.MM), 10) + " mm"
	}
	return b.t.ShowExact(l) + " " + b.t.Unit()
}

// pullPlots draws the pulls of fronts and doors, equal ones once: the upper
// edge, the ends of a front or the nearer edge of a door, the middle, the holes.
func (b *builder) pullPlots() []*plot {
	var out []*plot
	var names [][]string // what each is for
	for _, d := range b.Bench.Drills {
		q := b.Cart.Parts[d.Part]
		if d.Kind != work.PullHole || d.When != work.Flat || len(d.Spots) < 2 {
			continue
		}
		box := q.Box
		lowest := box.Max[geom.Z]
		for _, s := range d.Spots {
			lowest = min(lowest, s.At[geom.Z])
		}
		left, right, name := box.Min[geom.X], box.Max[geom.X], "drawer "+strconv.Itoa(q.Drawer)
		if q.Door > 0 { // from the edge that is nearer
			name = "door " + strconv.Itoa(q.Door)
			if x := d.Spots[0].At[geom.X]; x-left < right-x {
				right = min(right, x+20*measure.MM)
			} else {
				left = max(left, x-20*measure.MM)
			}
		}
		foot := lowest - 12*measure.MM
		g := &plot{w: mms(right - left), h: mms(box.Max[geom.Z] - foot)}
		if left == box.Min[geom.X] {
			g.line(.35, 0, 0, 0, g.h)
		}
		if right == box.Max[geom.X] {
			g.line(.35, g.w, 0, g.w, g.h)
		}
		g.line(.35, 0, g.h, g.w, g.h)
		g.word(24, g.h-5, "upper edge")
		span := d.Spots[1].At[geom.X] - d.Spots[0].At[geom.X] + d.Spots[1].At[geom.Z] - d.Spots[0].At[geom.Z]
		if q.Door == 0 {
			mid := mms((box.Min[geom.X]+box.Max[geom.X])/2 - left)
			g.line(.2, mid, 0, mid, g.h)
			g.word(mid+2, g.h-5, "middle")
		}
		for _, s := range d.Spots {
			g.cross(mms(s.At[geom.X]-left), mms(s.At[geom.Z]-foot), "")
		}
		g.title = "Front " + b.withUnit(box.Size(geom.X)) + " wide: pull, holes " + b.withUnit(span.Abs()) + " apart, bit " + b.bit(d.Dia) + "."
		g.notes = []string{"Lay the lines for edges on the edges of the part, prick the crosses through."}
		at := -1
		for i, o := range out {
			if o.title == g.title && o.w == g.w && o.h == g.h {
				at = i
			}
		}
		if at < 0 {
			at = len(out)
			out, names = append(out, g), append(names, nil)
		}
		names[at] = append(names[at], name)
	}
	for i, g := range out {
		g.notes = append(g.notes, "For "+whom(names[i])+".")
	}
	return out
}

// casterPlot draws the plate of a caster from a corner of the bottom.
func (b *builder) casterPlot(t design.Thing) *plot {
	base := t.Box
	for _, q := range b.Cart.Parts {
		if q.ID == "bottom" {
			base = q.Box
		}
	}
	x := func(l measure.Length) float64 { return mms(l - base.Min[geom.X]) }
	y := func(l measure.Length) float64 { return mms(l - base.Min[geom.Y]) }
	d := &plot{title: "Caster, from the front left corner of the bottom.", w: x(t.Box.Max[geom.X]) + 10, h: y(t.Box.Max[geom.Y]) + 10,
		notes: []string{"Lay both long lines on the edges, prick the crosses through. Turn the sheet over for the other corners.", "If your plate has its holes elsewhere, mark through the plate: the plate is right."}}
	d.line(.35, 0, 0, d.w, 0)
	d.line(.35, 0, 0, 0, d.h)
	d.frame(x(t.Box.Min[geom.X]), y(t.Box.Min[geom.Y]), x(t.Box.Max[geom.X]), y(t.Box.Max[geom.Y]))
	for _, pt := range t.Screws() {
		d.cross(x(pt[geom.X]), y(pt[geom.Y]), "")
	}
	return d
}

// footPlot draws the machine's foot with its holes as they were measured.
func (b *builder) footPlot(t design.Thing) *plot {
	top := t.Box
	for _, q := range b.Cart.Parts {
		if q.ID == "top" {
			top = q.Box
		}
	}
	w, h := mms(t.Box.Size(geom.X)), mms(t.Box.Size(geom.Y))
	ox, oy := 10.0, 10.0 // of the body in the drawing; a hole may lie beside it
	for _, pt := range t.Holes {
		ox, oy = max(ox, 10-mms(pt[geom.X]-t.Box.Min[geom.X])), max(oy, 10-mms(pt[geom.Y]-t.Box.Min[geom.Y]))
	}
	d := &plot{title: "Foot of the " + t.Name + ", bolts " + b.bit(t.Bolt) + ".", w: ox + w + 10, h: oy + h + 10,
		notes: []string{"Its front left corner stands " + b.withUnit(t.Box.Min[geom.X]-top.Min[geom.X]) + " from the left and " + b.withUnit(t.Box.Min[geom.Y]-top.Min[geom.Y]) + " from the front edge of the sheet.", "Lay it under the machine first: its own holes are right."}}
	d.frame(ox, oy, ox+w, oy+h)
	for i, pt := range t.Holes {
		x, y := ox+mms(pt[geom.X]-t.Box.Min[geom.X]), oy+mms(pt[geom.Y]-t.Box.Min[geom.Y])
		d.cross(x, y, strconv.Itoa(i+1))
		d.w, d.h = max(d.w, x+10), max(d.h, y+10)
	}
	return d
}

// slidePlots draws the line of a slide with its holes, once for each that
// differs: from the front edge of the upright, with a line for the box's front.
func (b *builder) slidePlots() []*plot {
	var out []*plot
	for _, g := range work.Guides(b.Project, b.Cart) {
		if g.Kind != work.SlotHole {
			continue
		}
		d := &plot{title: "Line of the " + whom(g.For) + ".", w: mms(g.Plate.Length), h: 40,
			notes: []string{"Lay it on the line at the slide's height, the left edge on the front edge of the upright (for a right upright turn it over);",
				"on a box lay the line marked “box” on its front. s: slot, first. r: round, when the drawer runs. Mark through the slide: its holes are right."}}
		d.line(.35, 0, 0, 0, d.h)
		d.line(.35, 0, d.h/2, d.w, d.h/2)
		x := mms(g.Setback)
		d.line(.2, x, 0, x, d.h)
		d.word(x+1, d.h-5, "box")
		d.word(1, 2, "upright")
		for _, r := range g.Rows {
			s := "s"
			if r.Kind == work.RoundHole {
				s = "r"
			}
			for _, pt := range r.Spots {
				d.cross(mms(pt.A), d.h/2, s)
			}
		}
		out = append(out, d)
	}
	return out
}
