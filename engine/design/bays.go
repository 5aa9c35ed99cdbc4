package design

import (
	"math"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// bays fills the columns with openings, shelves, drawers and doors.
func (b *builder) bays() {
	bays := b.p.Cabinet.Bays
	if len(bays) == 0 {
		bays = []project.Bay{{}}
	}
	b.gap = max(b.def(b.p.Drawers.Gap, in*3/32, mm*5/2), b.t.Least(), b.leastGap)
	if most := b.mostGap(); b.gap > most || b.p.Drawers.Gap < 0 {
		b.gap = min(b.gap, most)
		b.f.Add(issue.Warn, Gap, []string{"drawers.gap"}, b.p.Drawers.Gap, b.t.Least(), most, b.gap)
	}
	b.overlay = b.oneOf("drawers.fit", b.p.Drawers.Fit, "inset", "overlay") == "overlay"
	for i := range len(b.ups) - 1 {
		name := "Bay " + itoa(i+1)
		var p project.Bay
		if b.baysFit {
			p = bays[i]
		}
		if p.Name != "" {
			name = p.Name
		}
		x := b.xs[i] + b.ply
		inside := geom.Box{Min: geom.Pt{x, 0, b.z0}, Max: geom.Pt{b.xs[i+1], b.inside, b.zc}}
		bay := Bay{Name: name, Inside: inside, Clear: inside}
		if b.stileX != nil {
			bay.Clear.Min[geom.X], bay.Clear.Max[geom.X] = max(x, b.stileX[i][1]), min(b.xs[i+1], b.stileX[i+1][0])
			bay.Clear.Min[geom.Z], bay.Clear.Max[geom.Z] = max(b.z0, b.railBottom), min(b.zc, b.railTop)
		}
		bay.Back = b.inside
		bay.Width, bay.Height = bay.Clear.Size(geom.X), bay.Clear.Size(geom.Z)
		if p.Measured != nil {
			b.measured(i, &bay, *p.Measured)
		}
		if b.baysFit {
			b.openings(i, &bay, p.Openings)
		}
		b.cart.Bays = append(b.cart.Bays, bay)
	}
}

// mostGap is the widest reveal that is planned: a front still covers the edges
// of its box (common practice, no source).
func (b *builder) mostGap() measure.Length { return b.def(0, in*3/8, 10*mm) }

// measured takes what a bay really is: the narrower end counts for what must
// go in. What contradicts the plan, tapers or leans is told.
func (b *builder) measured(i int, bay *Bay, m project.Measured) {
	path := "cabinet.bays." + itoa(i) + ".measured"
	// credible tells what is too far off to be the size of this opening; then
	// the planned size stays in use.
	wider := min(2*b.gap, b.def(0, in/4, 6*mm))
	if b.p.Drawers.Slide == "wood" { // no wider than the model has room for
		wider = min(wider, b.woodPlay())
	}
	credible := func(what string, v, plan measure.Length) bool {
		if d := v - plan; d <= wider && -d <= b.def(0, in/2, 12*mm) {
			return true
		}
		b.f.Add(issue.Warn, Doubt, []string{path}, bay.Name, what, v, plan, v-plan)
		return false
	}
	wide := m.Front
	if m.Back > 0 && (wide <= 0 || m.Back < wide) {
		wide = m.Back
	}
	if wide > 0 && credible("width", wide, bay.Width) {
		bay.Width = wide
	}
	if m.Front > 0 && m.Back > 0 && (m.Front-m.Back).Abs() > b.t.Least() {
		b.f.Add(issue.Warn, Tapers, []string{path}, bay.Name, m.Front, m.Back, (m.Front - m.Back).Abs())
	}
	if deep := b.inside; m.Depth > 0 && credible("depth", m.Depth, deep) {
		bay.Back = min(deep, m.Depth) // deeper than planned is no use to a slide
	}
	wider = min(wider, b.gap-b.t.Least()) // or the lowest front would stand on the bottom
	if m.Height > 0 && credible("height", m.Height, bay.Height) {
		bay.Height = m.Height
	}
	if m.DiagonalA > 0 && m.DiagonalB > 0 {
		// By the parallelogram's law both diagonals and both sides agree.
		high, wide := bay.Height, bay.Width
		if m.Front > 0 {
			wide = m.Front
		}
		want := measure.Length(hypot(float64(wide), float64(high)))
		is := measure.Length(hypot(float64(m.DiagonalA), float64(m.DiagonalB)) / math.Sqrt2)
		if off := (is - want).Abs(); off > b.def(0, in/8, 3*mm) {
			b.f.Add(issue.Warn, Contradict, []string{path}, bay.Name, is, want, off)
		}
	}
	if d := (m.DiagonalA - m.DiagonalB).Abs(); m.DiagonalA > 0 && m.DiagonalB > 0 && d > 0 {
		lean := OutOf(bay.Width, bay.Height, d)
		level := issue.Note
		if lean > b.def(0, in/32, mm*4/5) {
			level = issue.Warn
		}
		b.f.Add(level, OutOfSquare, []string{path}, bay.Name, d, lean)
	}
}

// OutOf returns how far a w by h opening whose diagonals differ by d leans over
// its height: d × diagonal ÷ (2 × w), from the rectangle's geometry for small d,
// to the nearest tick.
func OutOf(w, h, d measure.Length) measure.Length {
	if w <= 0 {
		return 0
	}
	diagonal := hypot(float64(w), float64(h))
	return measure.Length(float64(d)*diagonal/(2*float64(w)) + 0.5)
}

// A stack is the vertical order of a bay while it is settled.
type stack struct {
	kinds   []string
	heights []measure.Length
	gaps    int            // how many reveals there are
	left    measure.Length // what shares and tape leave for the gaps
}

func (s stack) front(i int) bool {
	return i >= 0 && i < len(s.kinds) && (s.kinds[i] == "drawer" || s.kinds[i] == "door")
}

// shelf reports whether a fixed shelf is the floor of cell i.
func (s stack) shelf(i int) bool { return s.kinds[i] == "shelf" && i < len(s.kinds)-1 }

// mid reports whether the face frame has rails between the openings.
func (b *builder) mid() bool { return b.p.Cabinet.Face.Mid && b.stileX != nil }

// between is the height of what stands in the face under cell i: a shelf, a rail
// of the face frame, or both, flush above. A rail that overlay fronts hide on
// both sides takes none.
func (b *builder) between(s *stack, i int) measure.Length {
	var h measure.Length
	if i == len(s.kinds)-1 {
		return 0
	}
	if s.shelf(i) {
		h = b.ply
	}
	if b.mid() && !(b.overlay && s.front(i) && s.front(i+1)) {
		h = max(h, b.rail)
	}
	return h
}

// openings stacks the cells of a bay from the top down: equal gaps round every
// front, shelves under the cells that have one, shares of what is left.
func (b *builder) openings(n int, bay *Bay, list []project.Opening) {
	path := "cabinet.bays." + itoa(n) + ".openings"
	if len(list) > mostOpenings {
		b.f.Add(issue.Block, Many, []string{path}, "openings in "+bay.Name, len(list), mostOpenings)
		return
	}
	if len(list) == 0 {
		list = []project.Opening{{Kind: "open"}}
	}
	s := stack{kinds: make([]string, len(list)), heights: make([]measure.Length, len(list))}
	for i, o := range list {
		s.kinds[i] = b.oneOf(path+"."+itoa(i)+".kind", o.Kind, "open", "drawer", "shelf", "door")
	}
	room := bay.Clear
	room.Min[geom.Z] = room.Max[geom.Z] - bay.Height
	if b.overlay && b.stileX == nil && s.front(len(s.kinds)-1) {
		room.Min[geom.Z] -= b.ply - b.gap // the last front covers the edge of the bottom
	}
	if !b.heights(path, bay, list, &s, room.Size(geom.Z)) {
		return
	}

	z := room.Max[geom.Z]
	nth := 0
	gapAt := func() measure.Length { // equal to the tick: the first ones take what does not divide
		g := b.gap
		if k := measure.Length(s.gaps); k > 0 && s.left.Abs() <= b.t.Least()*4*k {
			g += s.left / k
			if r := s.left % k; r > 0 && measure.Length(nth) < r {
				g++
			} else if r < 0 && measure.Length(nth) < -r {
				g--
			}
		}
		nth++
		return g
	}
	below := make([]measure.Length, len(list))
	floor, roof := make([]measure.Length, len(list)), make([]measure.Length, len(list))
	for i, o := range list {
		var above measure.Length
		roof[i] = bay.Clear.Max[geom.Z]
		if high := b.between(&s, max(i-1, 0)); i > 0 && high > 0 {
			if s.front(i - 1) {
				below[i-1] = gapAt()
			}
			z -= below[i-1]
			top := z
			z -= high
			if s.shelf(i - 1) {
				b.shelf(n, i, bay, top-b.ply)
			}
			if b.mid() {
				b.midRail(n, i, bay, top-b.rail)
			}
			floor[i-1], roof[i] = top, z
			if s.front(i) {
				above = gapAt()
			}
		} else if s.front(i) || s.front(i-1) {
			above = gapAt()
			if i > 0 {
				below[i-1], floor[i-1] = above, bay.Clear.Min[geom.Z]
				if low := z - above/2 - b.rail/2; b.mid() { // hidden behind the gap
					left := min(roof[i-1]-low-b.rail, low-bay.Clear.Min[geom.Z])
					if left < b.leastBox() {
						b.f.Add(issue.Block, FrameWide, []string{"cabinet.face.rail", path + "." + itoa(i-1)}, b.openingName(bay, list[i-1], i-1), left, b.leastBox())
					} else {
						b.midRail(n, i, bay, low)
						floor[i-1], roof[i] = low+b.rail, low
					}
				}
			}
		}
		z -= above + s.heights[i]
		cell := bay.Clear
		cell.Min[geom.Z], cell.Max[geom.Z] = z, z+s.heights[i]
		bay.Openings = append(bay.Openings, Opening{Name: b.openingName(bay, o, i), Kind: s.kinds[i], Cell: cell, Above: above})
	}
	last := len(list) - 1
	if s.front(last) {
		below[last] = gapAt()
	}
	floor[last] = bay.Clear.Min[geom.Z]
	for i := range bay.Openings {
		op := &bay.Openings[i]
		switch op.Kind {
		case "drawer":
			b.drawer(n, i, bay, op, [2]measure.Length{floor[i], roof[i]}, below[i])
		case "door":
			b.doors(n, i, bay, op, list[i])
		}
		if op.Kind != "drawer" && list[i].Pins > 0 {
			b.pinShelves(n, i, bay, op, list[i].Pins)
		}
		b.holds(path+"."+itoa(i), bay, op, list[i].Holds)
	}
}

// heights settles the heights of the cells in the room there is. It is false if
// they cannot be built.
func (b *builder) heights(path string, bay *Bay, list []project.Opening, s *stack, room measure.Length) bool {
	var taken measure.Length
	shares, lastOpen, lastShare := 0, -1, -1
	for i, o := range list {
		// The gap above cell i; with a shelf or rail between, one on each side of it.
		switch {
		case i > 0 && b.between(s, i-1) > 0:
			s.gaps += bit(s.front(i-1)) + bit(s.front(i))
		case s.front(i) || s.front(i-1):
			s.gaps++
		}
		taken += b.between(s, i)
		if o.Height > 0 {
			s.heights[i] = min(o.Height, mostSize)
			if s.front(i) {
				s.heights[i] = b.t.Floor(s.heights[i])
			}
			taken += s.heights[i]
			continue
		}
		shares += max(o.Share, 1)
		lastShare = i
		if !s.front(i) {
			lastOpen = i
		}
	}
	s.gaps += bit(s.front(len(s.kinds) - 1))
	taken += measure.Length(s.gaps) * b.gap
	rest := room - taken
	s.left = rest
	for i, o := range list {
		if o.Height <= 0 {
			s.heights[i] = b.t.Floor(rest / measure.Length(shares) * measure.Length(max(o.Share, 1)))
			s.left -= s.heights[i]
		}
	}
	step := b.t.Least()
	switch {
	case lastShare >= 0 && rest < b.leastBox()*measure.Length(shares):
		want := taken + b.leastBox()*measure.Length(shares)
		b.f.Add(issue.Block, Openings, []string{path}, bay.Name, want, room, want-room)
		return false
	case lastOpen >= 0: // an open cell takes what the tape leaves over
		s.heights[lastOpen] += s.left
		s.left = 0
	case s.gaps > 0 && lastShare >= 0: // the gaps take it
	case s.left.Abs() > step*measure.Length(max(s.gaps, 1)):
		b.f.Add(issue.Block, Openings, []string{path}, bay.Name, taken, room, taken-room)
		return s.left > 0
	case s.gaps == 0:
		s.heights[len(s.heights)-1] += s.left
		s.left = 0
	}
	return true
}

func bit(v bool) int {
	if v {
		return 1
	}
	return 0
}

func (b *builder) openingName(bay *Bay, o project.Opening, i int) string {
	if o.Name != "" {
		return o.Name
	}
	return bay.Name + ", opening " + itoa(i+1)
}

// shelf places a fixed shelf whose underside is at z, the floor of opening i-1.
func (b *builder) shelf(n, i int, bay *Bay, z measure.Length) {
	c := &b.p.Cabinet
	m, _ := b.p.Material(c.Material)
	w := bay.Inside.Size(geom.X)
	long := part.Sum(part.Term{Name: "clear width of the bay", Times: 1, Value: w}).RoundedBy(b.t.Floor)
	deep := b.deepInside()
	at := box(bay.Inside.Min[geom.X], b.bare, z, long.Result, deep.Result, b.ply)
	id := b.add(part.Part{ID: part.ID("bay" + itoa(n+1) + "/shelf" + itoa(i)), Name: "Shelf", Material: c.Material,
		Length: long.Result, Width: deep.Result, Thick: b.ply, LengthAxis: geom.X, WidthAxis: geom.Y, Box: at,
		Reasons: [3]part.Reason{long, deep, own(m, b.ply)}, Front: "front edge"})
	b.join(part.Butt, id, b.ups[n], b.ups[n+1])
	b.rest(id)
	if b.edges() == "shelves" {
		at.Min[geom.Y], at.Max[geom.Y] = 0, b.lip
		b.strip("strip-"+id, "Face strip, shelf", id, geom.X, at, given("as long as the shelf", long.Result))
		b.rest("strip-" + id)
	}
}

// pinShelves spreads loose shelves over an opening. They lie on pins, 1/16 in or
// 1.5 mm short at each end, behind the doors.
func (b *builder) pinShelves(n, i int, bay *Bay, op *Opening, count int) {
	c := &b.p.Cabinet
	if count > 12 {
		b.f.Add(issue.Warn, Many, []string{"cabinet.bays." + itoa(n) + ".openings." + itoa(i) + ".pins"}, "loose shelves in "+op.Name, count, 12)
		count = 12
	}
	m, _ := b.p.Material(c.Material)
	play := b.def(0, in/16, mm*3/2)
	front := b.lip
	if op.Kind == "door" && !b.overlay {
		_, t := b.drawerMaterial("drawers.front", "fronts", b.p.Drawers.Front, in*3/4, 18*mm)
		front = max(front, t)
	}
	long := part.Sum(part.Term{Name: "clear width of the bay", Times: 1, Value: bay.Inside.Size(geom.X)}, part.Term{Name: "play at each end", Times: -2, Value: play}).RoundedBy(b.t.Floor)
	wide := part.Sum(part.Term{Name: "depth inside", Times: 1, Value: b.inside - front}, part.Term{Name: "play behind the front", Times: -2, Value: play}).RoundedBy(b.t.Floor)
	step := op.Cell.Size(geom.Z) / measure.Length(count+1)
	if long.Result <= 0 || wide.Result <= 0 || step < 2*b.ply {
		return
	}
	for k := range count {
		z := op.Cell.Min[geom.Z] + step*measure.Length(k+1)
		b.add(part.Part{ID: part.ID("bay" + itoa(n+1) + "/pins" + itoa(i+1) + "-" + itoa(k+1)), Name: "Loose shelf", Material: c.Material,
			Length: long.Result, Width: wide.Result, Thick: b.ply, LengthAxis: geom.X, WidthAxis: geom.Y, Loose: true,
			Box:     box(bay.Inside.Min[geom.X]+(bay.Inside.Size(geom.X)-long.Result)/2, front+play, z, long.Result, wide.Result, b.ply),
			Reasons: [3]part.Reason{long, wide, own(m, b.ply)}, Front: "front edge"})
		b.loose++
	}
}
