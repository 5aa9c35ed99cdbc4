package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// A box is what the parts of one drawer box have in common.
type drawerBox struct {
	prefix           part.ID
	num              int
	joint            string         // of the bottom: "groove", "under", "inside"
	x, y, z          measure.Length // low corner of the sides
	wide, long, high measure.Length // outside, of the sides' height
	inner            measure.Length // between the sides
	thick, bottom    measure.Length
	groove           measure.Length // depth of the groove
}

// drawer places the box, front, slides and pull of one drawer. clear is
// where the opening behind its front begins and ends, gapBelow the reveal under it.
func (b *builder) drawer(n, i int, bay *Bay, op *Opening, clear [2]measure.Length, gapBelow measure.Length) {
	d := &b.p.Drawers
	path := "cabinet.bays." + itoa(n) + ".openings." + itoa(i)
	s := b.span(n, bay)
	boxM, boxT := b.drawerMaterial("drawers.box", "drawer boxes", d.Box, in/2, 12*mm)
	botM, botT := b.drawerMaterial("drawers.bottom", "drawer bottoms", d.Bottom, in/4, 6*mm)
	wood := b.oneOf("drawers.slide", d.Slide, "ball", "wood") == "wood"
	joint := b.oneOf("drawers.joint", d.Joint, "groove", "under", "inside")

	// Where the box begins and how deep it may be.
	y := s.y + s.thick
	if b.overlay {
		y = -b.bump()
	}
	slide := b.slide(path, y, bay.Back, wood)
	if slide == 0 {
		return
	}

	// The show front.
	wide := part.Sum(s.why...).RoundedBy(b.t.Floor)
	gapLeft := (s.width - wide.Result) / 2
	high := op.Cell.Size(geom.Z)
	z := op.Cell.Min[geom.Z]

	// The box behind it: high enough over the bottom of the bay, low enough
	// under the front's upper edge.
	below := b.def(d.Below, in/4, 6*mm)
	above := b.def(d.Above, in/2, 13*mm)
	var runner measure.Length
	if wood {
		_, runner = b.drawerMaterial("drawers.runner", "the drawers' runners", d.Runner, in*3/4, 19*mm)
	}
	terms := []part.Term{{Name: "height of the front", Times: 1, Value: high}, {Name: "below the box", Times: -1, Value: below}, {Name: "above the box", Times: -1, Value: above}}
	boxZ := z + below
	if lift := clear[0] + below - boxZ; lift > 0 && z < clear[0] {
		name := "over the bottom's edge"
		if clear[0] > bay.Clear.Min[geom.Z] {
			name = "over the rail"
		}
		terms = append(terms, part.Term{Name: name, Times: -1, Value: lift})
		boxZ += lift
	}
	if drop := z + high - above + below - clear[1]; drop > 0 && z+high > clear[1] {
		terms = append(terms, part.Term{Name: "under the rail", Times: -1, Value: drop})
	}
	if runner > 0 {
		terms = append(terms, part.Term{Name: "runner under the box", Times: -1, Value: runner})
		boxZ += runner
	}
	if joint == "under" {
		terms = append(terms, part.Term{Name: "bottom, under the box", Times: -1, Value: botT})
		boxZ += botT
	}
	tall := part.Sum(terms...).RoundedBy(b.t.Floor)
	least := b.leastBox()
	if joint != "under" { // something stands over the bottom
		least = max(least, b.grooveUp()+botT+in/2)
	}
	if b.stileX != nil { // and the packing of the slides goes behind it
		least = max(least, b.lip)
	}
	if tall.Result < least {
		b.f.Add(issue.Block, DrawerLow, []string{path + ".height"}, op.Name, high, high-tall.Result+least)
		return
	}
	inner, ok := b.inner(n, path, bay, boxT, wood)
	if !ok || wide.Result <= 0 {
		return
	}
	if slide-2*boxT < b.leastInside() {
		b.f.Add(issue.Block, BoxShort, []string{"drawers.slideLength", "drawers.box"}, slide, 2*boxT, b.leastInside())
		b.slideTold = true
		return
	}
	groove := b.t.Floor(b.def(d.Groove, min(in/4, boxT/2), min(6*mm, boxT/2)))
	if joint == "groove" && groove*2 > boxT {
		if !b.grooveTold {
			b.f.Add(issue.Warn, GrooveDeep, []string{"drawers.groove", "drawers.box"}, groove, boxT)
		}
		b.grooveTold = true
		if groove >= boxT { // would come out on the other side
			groove = b.t.Floor(boxT / 2)
		}
	}

	mid := (bay.Clear.Min[geom.X] + bay.Clear.Max[geom.X]) / 2
	k := drawerBox{prefix: part.ID("bay" + itoa(n+1) + "/drawer" + itoa(i+1) + "/"), num: len(b.cart.Drawers) + 1, joint: joint,
		y: y, z: boxZ, wide: inner.Result + 2*boxT, long: slide, high: tall.Result, inner: inner.Result, thick: boxT, bottom: botT, groove: groove}
	k.x = mid - k.wide/2
	bf := b.drawerBox(k, d.Box, boxM, inner, tall)
	bottom := b.drawerBottom(k, botM, d.Bottom)
	front := part.Part{ID: k.prefix + "front", Name: "Drawer front", Material: d.Front,
		Length: wide.Result, Width: high, Thick: s.thick, LengthAxis: geom.X, WidthAxis: geom.Z,
		Box:     box(s.x0+gapLeft, s.y, z, wide.Result, s.thick, high),
		Reasons: [3]part.Reason{wide, given("height of the front", high), own(s.m, s.thick)}, Drawer: k.num, Front: "face"}
	if grain := b.oneOf("drawers.grain", d.Grain, "across", "up", "on"); grain != "across" {
		front.Length, front.Width = front.Width, front.Length
		front.LengthAxis, front.WidthAxis = geom.Z, geom.X
		front.Reasons[0], front.Reasons[1] = front.Reasons[1], front.Reasons[0]
		if grain == "on" {
			front.Chain, front.Link = "fronts of bay "+itoa(n+1), i+1
		}
	}
	show := b.add(front)
	b.join(part.Faced, show, bf)
	b.join(part.Resting, show, k.prefix+"side-left", k.prefix+"side-right")
	if joint == "under" {
		b.join(part.Resting, show, bottom)
	}

	dr := Drawer{Bay: n, Opening: i, Front: box(s.x0+gapLeft, s.y, z, wide.Result, s.thick, high),
		Box:   box(k.x, y, boxZ, k.wide, slide, tall.Result),
		Slide: slide, Travel: slide, Side: (bay.Width - k.wide) / 2,
		GapLeft: gapLeft, GapRight: s.width - wide.Result - gapLeft, GapAbove: op.Above, GapBelow: gapBelow}
	dr.Play, dr.LeastPlay, dr.MostPlay = b.playOf(inner)
	dr.Inside = box(k.x+boxT, y+boxT, boxZ, inner.Result, slide-2*boxT, tall.Result)
	switch joint {
	case "under":
		dr.Box.Min[geom.Z] -= botT
	case "groove":
		dr.Inside.Min[geom.Z] += b.grooveUp() + botT
	default:
		dr.Inside.Min[geom.Z] += botT
	}
	op.Drawer = k.num
	b.cart.Drawers = append(b.cart.Drawers, dr)
	b.pulls(op.Name, path, &b.cart.Drawers[k.num-1])
	dr = b.cart.Drawers[k.num-1]
	if wood {
		b.runners(n, k, runner, y)
	} else if b.stileX != nil {
		b.packing(n, k, bay)
	}
	b.fittings(k.num, dr, mid-bay.Width/2, mid-bay.Width/2+bay.Width, wood)
}

// slide returns the length of the slides, or of a box on wooden runners; 0 with
// a finding if none fits.
func (b *builder) slide(path string, from, back measure.Length, wood bool) measure.Length {
	depth := back - max(from, 0)
	if !wood { // a box that is shut does not touch the back
		depth -= b.t.Least()
	}
	slide := b.p.Drawers.SlideLength
	if slide == 0 {
		if wood {
			slide = b.t.Floor(depth - b.def(0, in/2, 12*mm))
		} else {
			slide = stock.LongestSlide(b.t.Metric, depth)
		}
	}
	switch {
	case b.slideTold:
		return 0
	case slide <= 0:
		b.f.Add(issue.Block, Shallow, []string{"cabinet.depth", path}, depth)
	case slide > depth:
		b.f.Add(issue.Block, SlideLong, []string{"drawers.slideLength", "cabinet.depth"}, slide, depth)
	default:
		return slide
	}
	b.slideTold = true
	return 0
}

// inner returns the length of box front and back: what slides, play and sides
// leave of the opening.
func (b *builder) inner(n int, path string, bay *Bay, boxT measure.Length, wood bool) (part.Reason, bool) {
	d := &b.p.Drawers
	play := b.def(d.Allowance, stock.Allowance(false), stock.Allowance(true))
	terms := []part.Term{{Name: "clear width of the bay", Times: 1, Value: bay.Width}}
	if wood {
		play = b.woodPlay()
	} else {
		b.checkPlay(play)
		terms = append(terms, part.Term{Name: "slide", Times: -2, Value: b.def(d.SlideThick, stock.SlideThick, stock.SlideThick)})
	}
	terms = append(terms, part.Term{Name: "play", Times: -1, Value: play}, part.Term{Name: "box side", Times: -2, Value: boxT})
	inner := part.Sum(terms...).RoundedBy(b.t.Floor)
	if inner.Result < b.leastInside() {
		if b.narrowTold != n+1 {
			b.f.Add(issue.Block, DrawerNarrow, []string{"cabinet.bays." + itoa(n) + ".width", path}, bay.Name, bay.Width, bay.Width-inner.Result+inner.Off, b.leastInside())
		}
		b.narrowTold = n + 1
		return inner, false
	}
	return inner, true
}

// woodPlay is how much narrower than its opening a box on wooden runners is:
// 1/8 in or 3 mm unless the user says (common practice, no source).
func (b *builder) woodPlay() measure.Length {
	return b.def(b.p.Drawers.Allowance, in/8, 3*mm)
}

// drawerBox places the four walls of a box, front and back between the sides,
// and returns the ID of its front.
func (b *builder) drawerBox(k drawerBox, material string, m project.Material, inner, tall part.Reason) part.ID {
	thick := own(m, k.thick)
	add := func(id part.ID, name string, l measure.Length, la geom.Axis, at geom.Box, long part.Reason) part.ID {
		p := part.Part{ID: k.prefix + id, Name: name, Material: material, Length: l, Width: k.high, Thick: k.thick,
			LengthAxis: la, WidthAxis: geom.Z, Box: at, Reasons: [3]part.Reason{long, tall, thick}, Drawer: k.num}
		if k.joint == "groove" {
			p.Features = []part.Feature{{Kind: part.Groove, Box: b.groove(k, at)}}
		}
		return b.add(p)
	}
	asSlide := given("as long as its slides", k.long)
	sl := add("side-left", "Drawer side, left", k.long, geom.Y, box(k.x, k.y, k.z, k.thick, k.long, k.high), asSlide)
	sr := add("side-right", "Drawer side, right", k.long, geom.Y, box(k.x+k.thick+k.inner, k.y, k.z, k.thick, k.long, k.high), asSlide)
	bf := add("box-front", "Drawer box front", k.inner, geom.X, box(k.x+k.thick, k.y, k.z, k.inner, k.thick, k.high), inner)
	bb := add("box-back", "Drawer box back", k.inner, geom.X, box(k.x+k.thick, k.y+k.long-k.thick, k.z, k.inner, k.thick, k.high), inner)
	b.join(part.Butt, sl, bf, bb)
	b.join(part.Butt, sr, bf, bb)
	return bf
}

// grooveUp is the wood left under a bottom in its groove.
func (b *builder) grooveUp() measure.Length { return b.t.Ceil(b.def(0, in/4, 6*mm)) }

// groove returns the room of the groove in the box part at: from edge to edge,
// as a saw cuts it.
func (b *builder) groove(k drawerBox, at geom.Box) geom.Box {
	in := k.thick - k.groove
	g := at.Intersect(box(k.x+in, k.y+in, k.z+b.grooveUp(), k.wide-2*in, k.long-2*in, k.bottom))
	for a := geom.X; a <= geom.Y; a++ {
		if at.Size(a) > k.thick {
			g.Min[a], g.Max[a] = at.Min[a], at.Max[a]
		}
	}
	return g
}

// drawerBottom places the bottom: let into the grooves with a little room to
// slip in, flat under the box, or inside it.
func (b *builder) drawerBottom(k drawerBox, m project.Material, material string) part.ID {
	var long, wide part.Reason
	z, kind := k.z, part.Butt
	inside := []part.Term{{Name: "inside of the box", Times: 1, Value: k.inner}}
	deep := []part.Term{{Name: "length of the box", Times: 1, Value: k.long}, {Name: "box front and back", Times: -2, Value: k.thick}}
	switch k.joint {
	case "under":
		long = given("width of the box", k.wide).RoundedBy(b.t.Floor)
		wide = given("length of the box", k.long).RoundedBy(b.t.Floor)
		z, kind = k.z-k.bottom, part.Nailed
	case "groove":
		more := []part.Term{{Name: "groove", Times: 2, Value: k.groove}, {Name: "room to slip in", Times: -1, Value: b.t.Ceil(b.def(0, in/16, mm*3/2))}}
		long = part.Sum(append(inside, more...)...).RoundedBy(b.t.Floor)
		wide = part.Sum(append(deep, more...)...).RoundedBy(b.t.Floor)
		z, kind = k.z+b.grooveUp(), part.LetIn
	default:
		long = part.Sum(inside...).RoundedBy(b.t.Floor)
		wide = part.Sum(deep...).RoundedBy(b.t.Floor)
	}
	id := b.add(part.Part{ID: k.prefix + "bottom", Name: "Drawer bottom", Material: material,
		Length: long.Result, Width: wide.Result, Thick: k.bottom, LengthAxis: geom.X, WidthAxis: geom.Y,
		Box:     box(k.x+(k.wide-long.Result)/2, k.y+(k.long-wide.Result)/2, z, long.Result, wide.Result, k.bottom),
		Reasons: [3]part.Reason{long, wide, own(m, k.bottom)}, Grain: part.AnyWay, Drawer: k.num})
	b.join(kind, id, k.prefix+"side-left", k.prefix+"side-right", k.prefix+"box-front", k.prefix+"box-back")
	return id
}

// runners screws a strip of solid wood to each upright, on which the box slides.
func (b *builder) runners(n int, k drawerBox, high, from measure.Length) {
	d := &b.p.Drawers
	m, _ := b.drawerMaterial("drawers.runner", "the drawers' runners", d.Runner, in*3/4, 19*mm)
	y := max(from, b.lip)
	long := part.Sum(part.Term{Name: "depth behind the front", Times: 1, Value: b.inside - y}).RoundedBy(b.t.Floor)
	under := k.z
	if k.joint == "under" {
		under -= k.bottom
	}
	for side, up := range b.ups[n : n+2] {
		edge := b.xs[n] + b.ply
		to := k.x + k.thick + in/4 // under the box's side, a little past it
		if side == 1 {
			edge = b.xs[n+1]
			to = k.x + k.wide - k.thick - in/4
		}
		w := part.Sum(part.Term{Name: "play and box side", Times: 1, Value: (to - edge).Abs()}).RoundedBy(b.t.Ceil)
		x := edge
		if side == 1 {
			x = edge - w.Result
		}
		name := [...]string{"left", "right"}[side]
		id := b.add(part.Part{ID: k.prefix + part.ID("runner-"+name), Name: "Drawer runner", Material: d.Runner,
			Length: long.Result, Width: w.Result, Thick: high, LengthAxis: geom.Y, WidthAxis: geom.X,
			Box: box(x, y, under-high, w.Result, long.Result, high), Reasons: [3]part.Reason{long, w, own(m, high)}})
		b.join(part.Faced, id, up)
		b.rest(id)
		for _, q := range []part.ID{"side-left", "side-right", "bottom", "box-front", "box-back"} {
			if !b.joined(id, k.prefix+q) {
				if p, ok := find(b.cart.Parts, k.prefix+q); ok && touches(b.cart.Parts[len(b.cart.Parts)-1], p) {
					b.join(part.Resting, id, k.prefix+q)
				}
			}
		}
	}
}

func touches(p, q part.Part) bool {
	area, _ := p.Box.Contact(q.Box)
	return area > 0
}

// packing fills the room between an upright and the edge of the stile before
// it, so that a slide can be screwed on in line with the opening.
func (b *builder) packing(n int, k drawerBox, bay *Bay) {
	f := &b.p.Cabinet.Face
	m, _ := b.p.Material(f.Material)
	high := b.lip // a strip of the frame's stock, on edge
	z := k.z + max(k.high-high, 0)/2
	for side, up := range b.ups[n : n+2] {
		room := bay.Clear.Min[geom.X] - bay.Inside.Min[geom.X]
		x := bay.Inside.Min[geom.X]
		if side == 1 {
			room = bay.Inside.Max[geom.X] - bay.Clear.Max[geom.X]
		}
		w := part.Sum(part.Term{Name: "from the upright to the stile's edge", Times: 1, Value: room}).RoundedBy(b.t.Floor)
		if w.Result <= 0 {
			continue
		}
		if side == 1 {
			x = bay.Inside.Max[geom.X] - w.Result
		}
		long := part.Sum(part.Term{Name: "length of the slide", Times: 1, Value: k.long}).RoundedBy(b.t.Floor)
		if room := b.t.Floor(b.inside - b.lip); long.Result > room {
			long = given("depth behind the frame", b.inside-b.lip).RoundedBy(b.t.Floor)
		}
		name := [...]string{"left", "right"}[side]
		id := b.add(part.Part{ID: k.prefix + part.ID("packing-"+name), Name: "Slide packing", Material: f.Material,
			Length: long.Result, Width: w.Result, Thick: high, LengthAxis: geom.Y, WidthAxis: geom.X,
			Box: box(x, b.lip, z, w.Result, long.Result, high), Reasons: [3]part.Reason{long, w, own(m, high)}})
		b.join(part.Faced, id, up)
		b.rest(id)
	}
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

// playOf is the play that comes of the sum for a box's front, what the tape gave
// to it included, and the least and most that runs.
func (b *builder) playOf(inner part.Reason) (play, least, most measure.Length) {
	for _, t := range inner.Terms {
		if t.Name == "play" {
			play = t.Value - inner.Off
		}
	}
	if b.p.Drawers.Slide == "wood" {
		return play, b.def(0, in/32, mm), b.def(0, in/4, 6*mm)
	}
	least, most = b.ballPlay()
	return play, least, most
}

// ballPlay is how much play ball-bearing slides need, and take.
func (b *builder) ballPlay() (least, most measure.Length) {
	return b.def(0, in/64, stock.LeastPlay), b.def(0, in/16, mm*3/2)
}

func (b *builder) checkPlay(play measure.Length) {
	least, most := b.ballPlay()
	if (play < least || play > most) && !b.told(Play, "drawers.allowance") {
		b.f.Add(issue.Warn, Play, []string{"drawers.allowance"}, play, least, most)
	}
}
