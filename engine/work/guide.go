package work

import (
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A DrillGuide is a plate with holes that leads the bit, and what stops it at the
// edge of the work. It is made from offcuts.
type DrillGuide struct {
	ID   string   // "guide/pull-1"
	For  []string // "drawer 1", …
	Kind HoleKind // PullHole, or SlotHole for slides
	// Plate is the plate, lying with its stopped edge below or, for slides,
	// its stopped end left; Rows are its holes.
	Plate part.Part
	Rows  []Drill
	// Setback is, for slides, how far the box begins behind the stop.
	Setback measure.Length
	// Cuts are its pieces, as lines of the cut list.
	Cuts []project.Extra
}

// Sizes of guides, common practice without a source.
const (
	guideEnd  = 2 * inch // of plate beyond the outer holes
	guideWide = inch * 3 / 2
	guideStop = 2 * inch // width of fence and stop
)

// Guides lists a guide for every pull and every slide, equal ones once.
func Guides(p *project.Project, c design.Cart) []DrillGuide {
	d := driller{p: p, c: c}
	d.slides()
	d.things()
	g := guider{p: p, c: c}
	for _, h := range d.out {
		q := c.Parts[h.Part]
		if h.Kind == PullHole && h.Face == (design.Side{Axis: geom.Y}) && (q.Door > 0 || q.Front == "face") {
			for i := 0; i+1 < len(h.Spots); i += 2 {
				g.pull(q, h.Spots[i].At, h.Spots[i+1].At)
			}
		}
	}
	for _, s := range design.Slides(c) {
		g.slide(d, s)
	}
	return g.out
}

type guider struct {
	p   *project.Project
	c   design.Cart
	out []DrillGuide
}

// add takes a guide in, or adds what it is for to its equal.
func (g *guider) add(n DrillGuide, name string, holes [2][]geom.Pt, bit measure.Length) {
	for i := range g.out {
		o := &g.out[i]
		same := o.Kind == n.Kind && o.Plate.Length == n.Plate.Length && o.Plate.Width == n.Plate.Width && o.Setback == n.Setback
		for k := range o.Rows {
			for m, s := range o.Rows[k].Spots {
				same = same && m < len(holes[k]) && s.A == holes[k][m][geom.X] && s.B == holes[k][m][geom.Z]
			}
		}
		if same {
			if o.For[len(o.For)-1] != name {
				o.For = append(o.For, name)
			}
			return
		}
	}
	t := g.c.Tape
	m, _ := g.p.Material(g.p.Cabinet.Material)
	q := &n.Plate
	q.Name, q.Material, q.Thick, q.Grain = "Guide plate", m.ID, m.Thick(), part.AnyWay
	q.LengthAxis, q.WidthAxis = geom.X, geom.Z
	q.Box = geom.Box{Max: geom.Pt{q.Length, max(q.Thick, 1), q.Width}}
	n.ID, n.For = "guide/"+string(n.Kind)+"-"+itoa(len(g.out)+1), []string{name}
	for k, kind := range [2]HoleKind{n.Kind, RoundHole} {
		if len(holes[k]) == 0 {
			continue
		}
		r := Drill{ID: n.ID, Kind: kind, Along: geom.X, Across: geom.Z, Face: design.Side{Axis: geom.Y}, Into: -1, Joint: -1, Dia: bit}
		for _, pt := range holes[k] {
			r.Spots = append(r.Spots, Spot{pt[geom.X], pt[geom.Z], pt})
		}
		n.Rows = append(n.Rows, r)
	}
	stop := q.Length
	if n.Kind == SlotHole {
		stop = q.Width
	}
	piece := func(name string, l, w measure.Length) {
		n.Cuts = append(n.Cuts, project.Extra{Name: name + ", " + n.For[0], Length: t.Ceil(l), Width: t.Ceil(w), Count: 1, Grain: "free", Material: m.ID})
	}
	piece("Guide plate", q.Length, q.Width)
	piece("Guide stop", stop, guideStop)
	g.out = append(g.out, n)
}

// pull makes the guide for a pull in the face of q: its fence lies on the upper
// edge of a drawer's front, or on the edge of a door that is nearer.
func (g *guider) pull(q part.Part, a, b geom.Pt) {
	along, span, drop := geom.X, (b[geom.X] - a[geom.X]).Abs(), q.Box.Max[geom.Z]-a[geom.Z]
	if span == 0 {
		along = geom.Z
		span = (b[along] - a[along]).Abs()
		drop = min(a[geom.X]-q.Box.Min[geom.X], q.Box.Max[geom.X]-a[geom.X])
	}
	t := g.c.Tape
	long, wide := t.Ceil(span+2*guideEnd), t.Ceil(drop+guideWide)
	name := "door " + itoa(q.Door)
	if q.Drawer > 0 {
		name = "drawer " + itoa(q.Drawer)
	}
	g.add(DrillGuide{Kind: PullHole, Plate: part.Part{Length: long, Width: wide}}, "pull of "+name,
		[2][]geom.Pt{{{(long - span) / 2, 0, drop}, {(long + span) / 2, 0, drop}}}, pullBit)
}

// slide makes the guide for a slide. It stands on the spacer that sets the
// slide, on the upright and on the box alike, and stops at the front edge of
// the upright; on the box its line for the box's front lies there.
func (g *guider) slide(d driller, s design.Slide) {
	side := design.Side{Axis: geom.X, High: !s.Right}
	up := d.at(side, s.Holes[0][geom.X], s.Holes[0])
	if up < 0 {
		return
	}
	if k := -1; design.Packs(d.c.Parts[up].ID) { // packing: measure from its upright
		for i, q := range d.c.Parts {
			if i != up && q.Box.Min[geom.Z] <= s.Holes[0][geom.Z] && s.Holes[0][geom.Z] < q.Box.Max[geom.Z] && q.ThickAxis() == geom.X && q.Drawer == 0 {
				if area, _ := q.Box.Contact(d.c.Parts[up].Box); area > 0 {
					k = i
				}
			}
		}
		if k >= 0 {
			up = k
		}
	}
	front := d.c.Parts[up].Box.Min[geom.Y]
	half := min(measure.Length(45*mm), boxHeight(d.c, s.Drawer)) / 2
	var holes [2][]geom.Pt
	far := measure.Length(0)
	for i, pt := range s.Holes {
		k := 0
		if i >= s.Slots {
			k = 1
		}
		holes[k] = append(holes[k], geom.Pt{pt[geom.Y] - front, 0, half})
		far = max(far, pt[geom.Y]-front)
	}
	t := g.c.Tape
	g.add(DrillGuide{Kind: SlotHole, Setback: d.c.Drawers[s.Drawer].Box.Min[geom.Y] - front,
		Plate: part.Part{Length: t.Ceil(far + guideEnd), Width: t.Ceil(max(2*inch, 2*half))}},
		[2]string{"left", "right"}[btoi(s.Right)]+" slide of drawer "+itoa(s.Drawer+1), holes, pilot*3/4)
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
