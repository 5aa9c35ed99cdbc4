package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// bays fills the columns with openings, shelves and drawers.
func (b *builder) bays() {
	bays := b.p.Cabinet.Bays
	if len(bays) == 0 {
		bays = []project.Bay{{}}
	}
	b.gap = max(b.def(b.p.Drawers.Gap, in*3/32, mm*5/2), b.t.Least())
	for i := range len(b.ups) - 1 {
		name := "Bay " + itoa(i+1)
		var in project.Bay
		if b.baysFit {
			in = bays[i]
		}
		if in.Name != "" {
			name = in.Name
		}
		x := b.xs[i] + b.ply
		bay := Bay{Name: name, Clear: geom.Box{Min: geom.Pt{x, 0, b.z0}, Max: geom.Pt{b.xs[i+1], b.inside, b.z1}}}
		if b.baysFit {
			b.openings(i, &bay, in.Openings)
		}
		b.cart.Bays = append(b.cart.Bays, bay)
	}
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
	kinds := make([]string, len(list))
	for i, o := range list {
		kinds[i] = b.oneOf(path+"."+itoa(i)+".kind", o.Kind, "open", "drawer", "shelf", "door")
		if kinds[i] == "door" {
			b.f.Add(issue.Warn, NoDoor, []string{path + "." + itoa(i)}, b.openingName(bay, list[i], i))
		}
	}
	front := func(i int) bool { return i >= 0 && i < len(kinds) && kinds[i] == "drawer" }
	shelf := func(i int) bool { return kinds[i] == "shelf" && i < len(kinds)-1 }

	// What is taken before shares: gaps, boards, fixed heights.
	room := bay.Clear.Size(geom.Z)
	heights := make([]measure.Length, len(list))
	var taken measure.Length
	gaps, shares, lastOpen, lastShare := 0, 0, -1, -1
	for i, o := range list {
		// The gap above cell i; with a shelf between, one on each side of it.
		switch {
		case i > 0 && shelf(i-1):
			gaps += bit(front(i))
		case front(i) || front(i-1):
			gaps++
		}
		if shelf(i) {
			taken += b.ply
		}
		if o.Height > 0 {
			heights[i] = min(o.Height, mostSize)
			if front(i) {
				heights[i] = b.t.Floor(heights[i])
			}
			taken += heights[i]
			continue
		}
		shares += max(o.Share, 1)
		lastShare = i
		if !front(i) {
			lastOpen = i
		}
	}
	gaps += bit(front(len(kinds) - 1))
	taken += measure.Length(gaps) * b.gap
	rest := room - taken
	left := rest
	for i, o := range list {
		if o.Height <= 0 {
			heights[i] = b.t.Floor(rest / measure.Length(shares) * measure.Length(max(o.Share, 1)))
			left -= heights[i]
		}
	}
	switch {
	case lastShare >= 0 && rest < b.leastBox()*measure.Length(shares):
		want := taken + b.leastBox()*measure.Length(shares)
		b.f.Add(issue.Block, Openings, []string{path}, bay.Name, want, room, want-room)
		return
	case lastOpen >= 0:
		heights[lastOpen] += left
		left = 0
	case gaps > 0 && lastShare >= 0:
		// Spread over the gaps below.
	case left.Abs() > b.t.Least()*measure.Length(max(gaps, 1)):
		b.f.Add(issue.Block, Openings, []string{path}, bay.Name, taken, room, taken-room)
		if left < 0 {
			return
		}
	case gaps == 0:
		heights[len(heights)-1] += left
		left = 0
	}

	z := bay.Clear.Max[geom.Z]
	nth := 0
	gapAt := func() measure.Length { // equal to the tick: the first ones take what does not divide
		g := b.gap
		if spread := left; gaps > 0 && spread.Abs() <= b.t.Least()*measure.Length(4*gaps) {
			g += spread / measure.Length(gaps)
			if r := spread % measure.Length(gaps); r > 0 && measure.Length(nth) < r {
				g++
			} else if r < 0 && measure.Length(nth) < -r {
				g--
			}
		}
		nth++
		return g
	}
	for i, o := range list {
		var above measure.Length
		if i > 0 && shelf(i-1) {
			z -= b.ply
			b.shelf(n, i, bay, z)
			if front(i) {
				above = gapAt()
			}
		} else if front(i) || front(i-1) {
			above = gapAt()
		}
		z -= above + heights[i]
		cell := bay.Clear
		cell.Min[geom.Z], cell.Max[geom.Z] = z, z+heights[i]
		op := Opening{Name: b.openingName(bay, o, i), Kind: kinds[i], Cell: cell, Above: above}
		bay.Openings = append(bay.Openings, op)
	}
	var below measure.Length
	if front(len(kinds) - 1) {
		below = gapAt()
	}
	for i := range bay.Openings {
		op := &bay.Openings[i]
		if op.Kind == "drawer" {
			gapBelow := below
			if i+1 < len(bay.Openings) {
				gapBelow = bay.Openings[i+1].Above
			}
			b.drawer(n, i, bay, op, gapBelow)
		}
		b.holds(path+"."+itoa(i), bay, op, list[i].Holds)
	}
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
	w := bay.Clear.Size(geom.X)
	long := part.Sum(part.Term{Name: "clear width of the bay", Times: 1, Value: w}).RoundedBy(b.t.Floor)
	wide := given("as deep as the sides", b.inside-b.lip)
	id := b.add(part.Part{ID: part.ID("bay" + itoa(n+1) + "/shelf" + itoa(i)), Name: "Shelf", Material: c.Material,
		Length: long.Result, Width: b.inside - b.lip, Thick: b.ply, LengthAxis: geom.X, WidthAxis: geom.Y,
		Box:     box(bay.Clear.Min[geom.X], b.lip, z, long.Result, b.inside-b.lip, b.ply),
		Reasons: [3]part.Reason{long, wide, own(m, b.ply)}, Front: "front edge"})
	b.join(part.Butt, id, b.ups[n], b.ups[n+1])
	b.rest(id)
}

// drawer places the box, front, slides and pull of one drawer.
func (b *builder) drawer(n, i int, bay *Bay, op *Opening, gapBelow measure.Length) {
	d := &b.p.Drawers
	path := "cabinet.bays." + itoa(n) + ".openings." + itoa(i)
	num := len(b.cart.Drawers) + 1
	prefix := part.ID("bay" + itoa(n+1) + "/drawer" + itoa(i+1) + "/")
	frontM, frontT := b.drawerMaterial("drawers.front", "drawer fronts", d.Front, in*3/4, 18*mm)
	boxM, boxT := b.drawerMaterial("drawers.box", "drawer boxes", d.Box, in/2, 12*mm)
	botM, botT := b.drawerMaterial("drawers.bottom", "drawer bottoms", d.Bottom, in/4, 6*mm)
	slideT := b.def(d.SlideThick, stock.SlideThick, stock.SlideThick)
	play := b.def(d.Allowance, stock.Allowance(false), stock.Allowance(true))
	b.checkPlay(play)
	clear := bay.Clear.Size(geom.X)

	slide, depth := b.slideLength(frontT)
	switch {
	case slide == 0 && !b.slideTold:
		b.f.Add(issue.Block, Shallow, []string{"cabinet.depth", path}, depth)
	case slide > depth && !b.slideTold:
		b.f.Add(issue.Block, SlideLong, []string{"drawers.slideLength", "cabinet.depth"}, slide, depth)
	}
	if slide == 0 || slide > depth {
		b.slideTold = true
		return
	}

	// The show front.
	wide := part.Sum(part.Term{Name: "clear width of the bay", Times: 1, Value: clear}, part.Term{Name: "gap at the side", Times: -2, Value: b.gap}).RoundedBy(b.t.Floor)
	gapLeft := (clear - wide.Result) / 2
	x0 := bay.Clear.Min[geom.X]
	high := op.Cell.Size(geom.Z)
	z := op.Cell.Min[geom.Z]

	// The box behind it.
	below := b.def(d.Below, in/4, 6*mm)
	above := b.def(d.Above, in/2, 13*mm)
	tall := part.Sum(part.Term{Name: "height of the front", Times: 1, Value: high},
		part.Term{Name: "below the box", Times: -1, Value: below}, part.Term{Name: "above the box", Times: -1, Value: above}).RoundedBy(b.t.Floor)
	under := b.oneOf("drawers.joint", d.Joint, "groove", "under") == "under"
	boxZ := z + below
	if under {
		tall.Terms = append(tall.Terms, part.Term{Name: "bottom, under the box", Times: -1, Value: botT})
		tall = part.Sum(tall.Terms...).RoundedBy(b.t.Floor)
		boxZ += botT
	}
	if least := b.leastBox() + below + above; tall.Result < b.leastBox() {
		b.f.Add(issue.Block, DrawerLow, []string{path + ".height"}, op.Name, high, least)
		return
	}
	inner := part.Sum(part.Term{Name: "clear width of the bay", Times: 1, Value: clear}, part.Term{Name: "slide", Times: -2, Value: slideT},
		part.Term{Name: "play", Times: -1, Value: play}, part.Term{Name: "box side", Times: -2, Value: boxT}).RoundedBy(b.t.Floor)
	if inner.Result < b.leastInside() || wide.Result <= 0 {
		if b.narrowTold != n+1 {
			b.f.Add(issue.Block, DrawerNarrow, []string{"cabinet.bays." + itoa(n) + ".width", path}, bay.Name, clear, 2*slideT+play+2*boxT, b.leastInside())
		}
		b.narrowTold = n + 1
		return
	}
	groove := b.t.Floor(b.def(d.Groove, min(in/4, boxT/2), min(6*mm, boxT/2)))
	if !under && groove*2 > boxT {
		if !b.grooveTold {
			b.f.Add(issue.Warn, GrooveDeep, []string{"drawers.groove", "drawers.box"}, groove, boxT)
		}
		b.grooveTold = true
		if groove >= boxT { // would come out on the other side
			groove = b.t.Floor(boxT / 2)
		}
	}

	boxW := inner.Result + 2*boxT
	bx := x0 + (clear-boxW)/2
	y := frontT
	reasonT := own(boxM, boxT)
	add := func(id part.ID, name string, l, w measure.Length, la geom.Axis, at geom.Box, why part.Reason, front string) part.ID {
		p := part.Part{ID: prefix + id, Name: name, Material: d.Box, Length: l, Width: w, Thick: boxT,
			LengthAxis: la, WidthAxis: geom.Z, Box: at, Reasons: [3]part.Reason{why, tall, reasonT}, Drawer: num, Front: front}
		if !under {
			p.Features = []part.Feature{{Kind: part.Groove, Box: b.groove(at, bx, y, boxW, slide, boxT, groove, botT, boxZ)}}
		}
		return b.add(p)
	}
	asSlide := given("as long as its slides", slide)
	sl := add("side-left", "Drawer side", slide, tall.Result, geom.Y, box(bx, y, boxZ, boxT, slide, tall.Result), asSlide, "")
	sr := add("side-right", "Drawer side", slide, tall.Result, geom.Y, box(bx+boxT+inner.Result, y, boxZ, boxT, slide, tall.Result), asSlide, "")
	bf := add("box-front", "Drawer box front", inner.Result, tall.Result, geom.X, box(bx+boxT, y, boxZ, inner.Result, boxT, tall.Result), inner, "")
	bb := add("box-back", "Drawer box back", inner.Result, tall.Result, geom.X, box(bx+boxT, y+slide-boxT, boxZ, inner.Result, boxT, tall.Result), inner, "")
	b.join(part.Butt, sl, bf, bb)
	b.join(part.Butt, sr, bf, bb)

	bottom := b.drawerBottom(prefix, num, under, botM, d.Bottom, bx, y, boxZ, boxW, slide, boxT, inner.Result, groove, botT)
	kind := part.LetIn
	if under {
		kind = part.Nailed
	}
	b.join(kind, bottom, sl, sr, bf, bb)

	tallFront := given("height of the front", high)
	show := b.add(part.Part{ID: prefix + "front", Name: "Drawer front", Material: d.Front,
		Length: wide.Result, Width: high, Thick: frontT, LengthAxis: geom.X, WidthAxis: geom.Z,
		Box:     box(x0+gapLeft, 0, z, wide.Result, frontT, high),
		Reasons: [3]part.Reason{wide, tallFront, own(frontM, frontT)}, Drawer: num, Front: "face"})
	b.join(part.Faced, show, bf)
	b.join(part.Resting, show, sl, sr)
	if under {
		b.join(part.Resting, show, bottom)
	}

	side := (clear - boxW) / 2
	dr := Drawer{Bay: n, Opening: i, Front: box(x0+gapLeft, 0, z, wide.Result, frontT, high),
		Box:   box(bx, y, z+below, boxW, slide, boxZ+tall.Result-z-below),
		Slide: slide, Travel: slide, Side: side,
		GapLeft: gapLeft, GapRight: clear - wide.Result - gapLeft, GapAbove: op.Above, GapBelow: gapBelow}
	dr.Pull, dr.Pulls = stock.Pull(wide.Result)
	if d.Pull > 0 {
		dr.Pull = d.Pull
	}
	op.Drawer = num
	b.cart.Drawers = append(b.cart.Drawers, dr)
	b.fittings(num, dr, x0, bay.Clear.Max[geom.X])
}

// groove returns the room of the groove in the box part at, all four of which
// hold the bottom.
func (b *builder) groove(at geom.Box, bx, y, boxW, slide, boxT, depth, botT, boxZ measure.Length) geom.Box {
	up := b.t.Ceil(b.def(0, in/4, 6*mm)) // wood left under the bottom
	plane := box(bx+boxT-depth, y+boxT-depth, boxZ+up, boxW-2*(boxT-depth), slide-2*(boxT-depth), botT)
	g := at.Intersect(plane)
	// From edge to edge of the part, as a saw cuts it.
	for a := geom.X; a <= geom.Y; a++ {
		if at.Size(a) > boxT {
			g.Min[a], g.Max[a] = at.Min[a], at.Max[a]
		}
	}
	return g
}

// drawerBottom places the bottom: let into the grooves with a little room to
// slip in, or flat under the box.
func (b *builder) drawerBottom(prefix part.ID, num int, under bool, m project.Material, material string,
	bx, y, boxZ, boxW, slide, boxT, inner, groove, botT measure.Length) part.ID {
	var long, wide part.Reason
	z := boxZ - botT
	if under {
		long = given("width of the box", boxW).RoundedBy(b.t.Floor)
		wide = given("length of the box", slide).RoundedBy(b.t.Floor)
	} else {
		room := b.t.Ceil(b.def(0, in/16, mm*3/2))
		long = part.Sum(part.Term{Name: "inside of the box", Times: 1, Value: inner}, part.Term{Name: "groove", Times: 2, Value: groove}, part.Term{Name: "room to slip in", Times: -1, Value: room}).RoundedBy(b.t.Floor)
		wide = part.Sum(part.Term{Name: "length of the box", Times: 1, Value: slide}, part.Term{Name: "box front and back", Times: -2, Value: boxT}, part.Term{Name: "groove", Times: 2, Value: groove}, part.Term{Name: "room to slip in", Times: -1, Value: room}).RoundedBy(b.t.Floor)
		z = boxZ + b.t.Ceil(b.def(0, in/4, 6*mm))
	}
	return b.add(part.Part{ID: prefix + "bottom", Name: "Drawer bottom", Material: material,
		Length: long.Result, Width: wide.Result, Thick: botT, LengthAxis: geom.X, WidthAxis: geom.Y,
		Box:     box(bx+(boxW-long.Result)/2, y+(slide-wide.Result)/2, z, long.Result, wide.Result, botT),
		Reasons: [3]part.Reason{long, wide, own(m, botT)}, Grain: part.AnyWay, Drawer: num})
}

// drawerMaterial is material, told once for all drawers.
func (b *builder) drawerMaterial(path, role, id string, inch, metric measure.Length) (project.Material, measure.Length) {
	if m, ok := b.p.Material(id); ok && m.Thick() > 0 {
		return m, m.Thick()
	}
	if !b.told(Material, path) {
		b.f.Add(issue.Block, Material, []string{path}, role, id)
	}
	return project.Material{ID: id, Name: id}, b.def(0, inch, metric)
}

func (b *builder) told(code issue.Code, where string) bool {
	for _, f := range b.f {
		if f.Code == code && len(f.Where) > 0 && f.Where[0] == where {
			return true
		}
	}
	return false
}

func (b *builder) checkPlay(play measure.Length) {
	least, most := b.def(0, in/64, stock.LeastPlay), b.def(0, in/16, mm*3/2)
	if (play < least || play > most) && !b.told(Play, "drawers.allowance") {
		b.f.Add(issue.Warn, Play, []string{"drawers.allowance"}, play, least, most)
	}
}

// fittings adds slides and pull of a drawer as things that take room.
func (b *builder) fittings(num int, d Drawer, left, right measure.Length) {
	high := min(measure.Length(45*mm), d.Box.Size(geom.Z))
	z := d.Box.Min[geom.Z] + (d.Box.Size(geom.Z)-high)/2
	y := d.Box.Min[geom.Y]
	b.cart.Things = append(b.cart.Things,
		Thing{Kind: SlideThing, Name: "slide", Box: box(left, y, z, d.Box.Min[geom.X]-left, d.Slide, high)},
		Thing{Kind: SlideThing, Name: "slide", Box: box(d.Box.Max[geom.X], y, z, right-d.Box.Max[geom.X], d.Slide, high)})
	mid := (d.Front.Min[geom.X] + d.Front.Max[geom.X]) / 2
	long := d.Pull + 12*mm
	zp := (d.Front.Min[geom.Z]+d.Front.Max[geom.Z])/2 - 6*mm
	w := d.Front.Size(geom.X)
	for i := range d.Pulls {
		at := mid - long/2
		if d.Pulls == 2 {
			at = d.Front.Min[geom.X] + w/4 + measure.Length(i)*(w/2) - long/2
		}
		b.cart.Things = append(b.cart.Things, Thing{Kind: PullThing, Name: "pull", Box: box(at, -32*mm, zp, long, 32*mm, 12*mm), Drawer: num})
	}
}

// holds checks that an opening holds the thing it must, and puts it there.
func (b *builder) holds(path string, bay *Bay, op *Opening, t *project.Thing) {
	if t == nil || t.Width <= 0 && t.Height <= 0 && t.Depth <= 0 {
		return
	}
	room := op.Cell
	if op.Drawer > 0 { // inside the box
		d := b.cart.Drawers[op.Drawer-1]
		_, boxT := b.drawerMaterial("drawers.box", "drawer boxes", b.p.Drawers.Box, in/2, 12*mm)
		_, botT := b.drawerMaterial("drawers.bottom", "drawer bottoms", b.p.Drawers.Bottom, in/4, 6*mm)
		room = d.Box
		for a := geom.X; a <= geom.Y; a++ {
			room.Min[a] += boxT
			room.Max[a] -= boxT
		}
		room.Min[geom.Z] += b.def(0, in/4, 6*mm) + botT
		room.Max[geom.Z] = op.Cell.Max[geom.Z]
	}
	name := t.Name
	if name == "" {
		name = "the thing"
	}
	for _, c := range []struct {
		dir        string
		need, have measure.Length
	}{
		{"wide", t.Width + 2*t.Clear, room.Size(geom.X)},
		{"high", t.Height + t.Clear, room.Size(geom.Z)},
		{"deep", t.Depth, room.Size(geom.Y)},
	} {
		if c.need > c.have {
			b.f.Add(issue.Warn, Holds, []string{path + ".holds", "cabinet.bays"}, op.Name, name, c.dir, c.need, c.have, c.need-c.have)
		}
	}
	mid := (room.Min[geom.X] + room.Max[geom.X] - t.Width) / 2
	b.cart.Things = append(b.cart.Things, Thing{Kind: HeldThing, Name: name, Weight: t.Weight, Drawer: op.Drawer,
		Box: box(mid, room.Min[geom.Y]+min(b.lip, in), room.Min[geom.Z], t.Width, t.Depth, t.Height)})
}
