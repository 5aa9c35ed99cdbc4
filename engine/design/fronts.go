package design

import (
	"math"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

func hypot(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }

// bump is how far an overlay front stands off the case, for bumpers (common
// practice, no source).
func (b *builder) bump() measure.Length { return b.def(0, in/16, mm*3/2) }

// A face is where a front stands: its clear span along x, what it is made from,
// and the planes of its back and front.
type span struct {
	x0, width measure.Length // of the room for the front, gaps included
	gap       measure.Length // at each side of it
	thick     measure.Length
	y         measure.Length // of its front face
	why       []part.Term
	m         project.Material
}

// span returns the room for the fronts of a bay. An inset front stands in the
// clear opening; an overlay front covers the edges beside it: all of an outer
// one and half of one that it shares, less the gap.
func (b *builder) span(n int, bay *Bay) span {
	m, t := b.drawerMaterial("drawers.front", "fronts", b.p.Drawers.Front, in*3/4, 18*mm)
	mid := (bay.Clear.Min[geom.X] + bay.Clear.Max[geom.X]) / 2
	s := span{x0: mid - bay.Width/2, width: bay.Width, gap: b.gap, thick: t, m: m,
		why: []part.Term{{Name: "clear width of the bay", Times: 1, Value: bay.Width}, {Name: "gap at the side", Times: -2, Value: b.gap}}}
	if !b.overlay {
		return s
	}
	edge := func(i int) measure.Length {
		w := b.ply
		if b.stileX != nil {
			w = b.stileX[i][1] - b.stileX[i][0]
		}
		if i > 0 && i < len(b.ups)-1 {
			return (w - b.gap) / 2 // the neighbour covers the other half
		}
		return w - b.gap
	}
	l, r := edge(n), edge(n+1)
	s.x0, s.width, s.gap = s.x0-l, s.width+l+r, 0
	s.y = -t - b.bump()
	s.why = []part.Term{{Name: "clear width of the bay", Times: 1, Value: bay.Width}, {Name: "over the left edge", Times: 1, Value: l}, {Name: "over the right edge", Times: 1, Value: r}}
	return s
}

// doors hangs one or two leaves on an opening.
func (b *builder) doors(n, i int, bay *Bay, op *Opening, o project.Opening) {
	path := "cabinet.bays." + itoa(n) + ".openings." + itoa(i)
	s := b.span(n, bay)
	leaves := measure.Length(1)
	if o.Doors == 2 {
		leaves = 2
	} else if o.Doors > 2 {
		b.f.Add(issue.Warn, Many, []string{path + ".doors"}, "doors on "+op.Name, o.Doors, 2)
	}
	terms := append([]part.Term{}, s.why...)
	if leaves == 2 {
		terms = append(terms, part.Term{Name: "gap between the doors", Times: -1, Value: b.gap})
	}
	all := part.Sum(terms...)
	wide := all
	if leaves == 2 {
		half := all.Result / 2
		wide = part.Sum(part.Term{Name: "half of " + b.t.Show(all.Result), Times: 1, Value: half})
	}
	wide = wide.RoundedBy(b.t.Floor)
	high := b.t.Floor(op.Cell.Size(geom.Z))
	if least := b.leastInside(); wide.Result < least || high < least {
		b.f.Add(issue.Block, DoorNarrow, []string{path}, op.Name, min(wide.Result, high), least)
		return
	}
	rest := s.width - leaves*wide.Result - (leaves-1)*b.gap
	x := s.x0 + rest/2
	tall := given("height of the opening", op.Cell.Size(geom.Z)).RoundedBy(b.t.Floor)
	for k := range leaves {
		hinge := b.oneOf(path+".hinge", o.Hinge, "left", "right")
		if leaves == 2 {
			hinge = [...]string{"left", "right"}[k]
		}
		num := len(b.cart.Doors) + 1
		at := box(x, s.y, op.Cell.Min[geom.Z], wide.Result, s.thick, high)
		b.add(part.Part{ID: part.ID("bay" + itoa(n+1) + "/door" + itoa(i+1) + "-" + itoa(int(k)+1)), Name: "Door, hinged " + hinge, Material: b.p.Drawers.Front,
			Length: high, Width: wide.Result, Thick: s.thick, LengthAxis: geom.Z, WidthAxis: geom.X, Box: at,
			Reasons: [3]part.Reason{tall, wide, own(s.m, s.thick)}, Door: num, Front: "face"})
		b.cart.Doors = append(b.cart.Doors, Door{Bay: n, Opening: i, Front: at, Hinge: hinge})
		x += wide.Result + b.gap
		px := at.Max[geom.X] - 40*mm
		if hinge == "right" {
			px = at.Min[geom.X] + 28*mm
		}
		long := min(measure.Length(108*mm), high/2)
		b.cart.Things = append(b.cart.Things, Thing{Kind: PullThing, Name: "pull",
			Box: box(px, s.y-32*mm, at.Max[geom.Z]-high/8-long, 12*mm, 32*mm, long)})
	}
}

// fittings adds slides and pull of a drawer as things that take room.
func (b *builder) fittings(num int, d Drawer, left, right measure.Length, runners bool) {
	if !runners {
		high := min(measure.Length(45*mm), d.Box.Size(geom.Z))
		z := d.Box.Min[geom.Z] + (d.Box.Size(geom.Z)-high)/2
		y := d.Box.Min[geom.Y]
		b.cart.Things = append(b.cart.Things,
			Thing{Kind: SlideThing, Name: "slide", Box: box(left, y, z, d.Box.Min[geom.X]-left, d.Slide, high)},
			Thing{Kind: SlideThing, Name: "slide", Box: box(d.Box.Max[geom.X], y, z, right-d.Box.Max[geom.X], d.Slide, high)})
	}
	mid := (d.Front.Min[geom.X] + d.Front.Max[geom.X]) / 2
	long := d.Pull + pullBar
	zp := d.Front.Max[geom.Z] - d.PullAt - pullBar/2
	w := d.Front.Size(geom.X)
	for i := range d.Pulls {
		at := mid - long/2
		if d.Pulls == 2 {
			at = d.Front.Min[geom.X] + w/4 + measure.Length(i)*(w/2) - long/2
		}
		b.cart.Things = append(b.cart.Things, Thing{Kind: PullThing, Name: "pull", Box: box(at, d.Front.Min[geom.Y]-32*mm, zp, long, 32*mm, pullBar), Drawer: num})
	}
}

// holds checks that an opening holds the thing it must and lets it pass on its
// way in, and puts it there.
func (b *builder) holds(path string, bay *Bay, op *Opening, t *project.Thing) {
	if t == nil || t.Width <= 0 && t.Height <= 0 && t.Depth <= 0 {
		return
	}
	room := op.Cell
	room.Min[geom.X], room.Max[geom.X] = bay.Inside.Min[geom.X], bay.Inside.Max[geom.X]
	if op.Kind == "door" && !b.overlay {
		_, thick := b.drawerMaterial("drawers.front", "fronts", b.p.Drawers.Front, in*3/4, 18*mm)
		room.Min[geom.Y] += thick
	}
	for _, q := range b.cart.Parts { // under the lowest loose shelf
		if q.Loose && q.Box.Overlaps(room) {
			room.Max[geom.Z] = min(room.Max[geom.Z], q.Box.Min[geom.Z])
		}
	}
	if op.Drawer > 0 { // inside the box
		d := b.cart.Drawers[op.Drawer-1]
		room = d.Inside
		room.Max[geom.Z] = op.Cell.Max[geom.Z]
	}
	name := t.Name
	if name == "" {
		name = "the thing"
	}
	where := []string{path + ".holds", "cabinet.bays"}
	short := false
	for _, c := range []struct {
		dir        string
		need, have measure.Length
	}{
		{"wide", t.Width + 2*t.Clear, room.Size(geom.X)},
		{"high", t.Height + t.Clear, room.Size(geom.Z)},
		{"deep", t.Depth, room.Size(geom.Y)},
	} {
		if c.need > c.have {
			short = true
			b.f.Add(issue.Warn, Holds, where, op.Name, name, c.dir, c.need, c.have, c.need-c.have)
		}
	}
	if have := bay.Clear.Size(geom.X); !short && op.Drawer == 0 && t.Width > have {
		b.f.Add(issue.Warn, Pass, where, op.Name, name, "wide", t.Width, have, t.Width-have)
	}
	mid := (room.Min[geom.X] + room.Max[geom.X] - t.Width) / 2
	b.cart.Things = append(b.cart.Things, Thing{Kind: HeldThing, Name: name, Weight: t.Weight, Drawer: op.Drawer,
		Box: box(mid, room.Min[geom.Y]+min(b.lip, in), room.Min[geom.Z], t.Width, t.Depth, t.Height)})
}

// panelHoles cuts the holes for hoses, cables and hands into their panels, and
// checks that they stay clear of edges and of other parts.
func (b *builder) panelHoles() {
	edge := b.def(0, in, 25*mm) // wood to leave beside a hole (common practice, no source)
	for i, h := range b.p.Cabinet.Holes {
		where := []string{"cabinet.holes." + itoa(i), h.Panel}
		name := h.Name
		if name == "" {
			name = "Hole " + itoa(i+1)
		}
		at := -1
		for k, p := range b.cart.Parts {
			if string(p.ID) == h.Panel {
				at = k
			}
		}
		if at < 0 || h.Diameter <= 0 {
			b.f.Add(issue.Warn, HoleOff, where, name, h.Panel, edge)
			continue
		}
		p := &b.cart.Parts[at]
		r := h.Diameter / 2
		if h.Along-r < edge || h.Along+r+edge > p.Length || h.Across-r < edge || h.Across+r+edge > p.Width {
			b.f.Add(issue.Warn, HoleOff, where, name, p.Name, edge)
		}
		hole := p.Box
		la, wa := p.LengthAxis, p.WidthAxis
		hole.Min[la], hole.Max[la] = p.Box.Min[la]+h.Along-r, p.Box.Min[la]+h.Along+r
		hole.Min[wa], hole.Max[wa] = p.Box.Min[wa]+h.Across-r, p.Box.Min[wa]+h.Across+r
		hole = hole.Intersect(p.Box)
		if hole.Empty() {
			continue
		}
		p.Features = append(p.Features, part.Feature{Kind: part.Hole, Box: hole})
		reach := hole
		ta := p.ThickAxis()
		reach.Min[ta] -= mm
		reach.Max[ta] += mm
		for _, q := range b.cart.Parts {
			if q.ID != p.ID && q.Box.Overlaps(reach) {
				b.f.Add(issue.Warn, HoleHits, where, name, p.Name, q.Name)
			}
		}
		for _, t := range b.cart.Things {
			if t.Kind == SlideThing && t.Box.Overlaps(reach) {
				b.f.Add(issue.Warn, HoleHits, where, name, p.Name, t.Name)
			}
		}
	}
}
