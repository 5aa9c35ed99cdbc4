package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

const (
	in = measure.Inch
	mm = measure.MM
)

// Limits of what is planned: a cart beyond them is a slip of the finger.
const (
	mostBays     = 8
	mostOpenings = 40
	mostSize     = 5 * measure.Metre
)

// Build derives the cart of a project: all parts at finished size, placed in
// cabinet space, with their joints. What cannot be built is left out and
// stands in the findings; the rest is still there.
func Build(p *project.Project) (Cart, issue.List) {
	var told issue.List
	p = sane(p, p.Measure(), &told)
	b := builder{p: p, t: p.Measure()}
	b.all()
	if grows := b.growth(); grows > 0 && p.Drawers.Gap <= 0 {
		if g, usual := min(b.t.Ceil(grows+b.t.Least()), b.mostGap()), b.gap; g > usual {
			b = builder{p: p, t: b.t, leastGap: g}
			b.all()
			b.f.Add(issue.Note, Swells, []string{"drawers.gap"}, grows, g, usual)
		}
	}
	b.goodFaces()
	b.cart.Gap = b.gap
	b.lines()
	b.screws()
	b.hardware()
	b.f = append(append(b.f, told...), Verify(b.cart)...)
	b.f.Sort()
	return b.cart, b.f
}

// all applies the rules that place parts.
func (b *builder) all() {
	b.cart.Tape = b.t
	if b.frame() {
		b.carcass()
		b.back()
		b.worktop()
		b.face()
		b.bays()
		b.panelHoles()
		b.base()
		b.machine()
		b.around()
	}
}

// The least sizes that are planned, in round figures of either tape.
func (b *builder) leastSide() measure.Length   { return b.def(0, 4*in, 100*mm) }  // height of the sides
func (b *builder) leastCase() measure.Length   { return b.def(0, 6*in, 150*mm) }  // width, depth
func (b *builder) leastBay() measure.Length    { return b.def(0, in*5/4, 30*mm) } // clear width
func (b *builder) leastInside() measure.Length { return b.def(0, in*3/2, 40*mm) } // of a drawer box
func (b *builder) leastBox() measure.Length    { return b.def(0, in*5/4, 30*mm) } // height of a drawer box

// A builder collects the cart while its rules are applied in order.
type builder struct {
	p    *project.Project
	t    measure.Tape
	cart Cart
	f    issue.List

	ply    measure.Length   // thickness of the carcass
	width  measure.Length   // outside of the case, as it comes out
	side   measure.Length   // height of the sides
	lip    measure.Length   // how far face strips stand before the ply
	bare   measure.Length   // y of the edges that no strip covers: lip, or 0 where strips are on the uprights alone
	inside measure.Length   // y of the back's front: where the inside ends
	end    measure.Length   // y of the back of the case
	z0, z1 measure.Length   // top of the bottom, underside of the worktop
	zc     measure.Length   // where the inside ends above: z1, or under stretchers and sub-top
	under  bool             // bottom under the sides
	xs     []measure.Length // left faces of the uprights
	ups    []part.ID        // the uprights, from left to right
	backs  []part.ID
	frames []part.ID           // of the face frame
	stileX [][2]measure.Length // where each stile begins and ends
	// The rails of the face frame: lower edge of the upper, upper edge of the
	// lower, and their width.
	railTop, railBottom, rail measure.Length

	sideWhy             part.Reason
	backKind, faceKind  string
	upper               string         // what the worktop lies on
	uppers              []part.ID      // stretchers or sub-top
	backFrame, backSkin measure.Length // thickness
	topBox              geom.Box       // the ply of the worktop
	gap                 measure.Length // reveal round fronts
	leastGap            measure.Length // what solid fronts need to grow
	overlay             bool           // fronts stand before the case
	baysFit             bool
	loose               int // shelves on pins

	// What was told once and need not be told for every drawer.
	thinTold, slideTold, grooveTold bool
	narrowTold                      int
}

// def returns v, or the default in the unit of the tape.
func (b *builder) def(v, inch, metric measure.Length) measure.Length {
	switch {
	case v > 0:
		return v
	case b.t.Metric:
		return metric
	default:
		return inch
	}
}

// oneOf returns word if it is among known, else known[0] with a finding.
func (b *builder) oneOf(path, word string, known ...string) string {
	if word == "" {
		return known[0]
	}
	list := ""
	for i, k := range known {
		if k == word {
			return word
		}
		if i > 0 {
			list += ", "
		}
		list += k
	}
	b.f.Add(issue.Warn, Odd, []string{path}, path, word, list)
	return known[0]
}

// material finds a material; when it is missing the finding names the role and
// a common thickness stands in, so that the rest can be shown.
func (b *builder) material(path, role, id string, inch, metric measure.Length) (m project.Material, thick measure.Length) {
	if m, ok := b.p.Material(id); ok && m.Thick() > 0 {
		return m, m.Thick()
	}
	b.f.Add(issue.Block, Material, []string{path}, role, id)
	return project.Material{ID: id, Name: id}, b.def(0, inch, metric)
}

// frame settles the outer sizes and the height chain. It is false if there is
// nothing to build.
func (b *builder) frame() bool {
	c := &b.p.Cabinet
	for _, s := range []struct {
		path, name string
		v          measure.Length
	}{{"cabinet.width", "Width", c.Width}, {"cabinet.depth", "Depth", c.Depth}} {
		if s.v < b.leastCase() || s.v > mostSize {
			b.f.Add(issue.Block, NoSize, []string{s.path}, s.name, s.v, b.leastCase())
			return false
		}
	}
	_, b.ply = b.material("cabinet.material", "the case", c.Material, in*3/4, 18*mm)
	b.under = b.oneOf("cabinet.bottom", c.Bottom, "under", "between") == "under"
	if b.under {
		b.width = b.t.Floor(c.Width)
	} else {
		b.width = b.t.Floor(c.Width-2*b.ply) + 2*b.ply
		b.f.Add(issue.Note, BottomHangs, []string{"cabinet.bottom"})
	}
	b.faceKind = b.oneOf("cabinet.face.kind", c.Face.Kind, "bare", "strips", "frame")
	b.upper = b.oneOf("cabinet.upper", c.Upper, "sides", "stretchers", "sub-top")
	return b.chain()
}

// chain stacks floor to machine table and leaves the sides what remains.
func (b *builder) chain() bool {
	l := &b.p.LineUp
	_, topThick := b.topMaterial()
	layers := b.layers()
	mount, mountName, mountPath := b.mount()
	table := b.p.Machine.Table

	var terms []part.Term
	round := b.t.Round
	switch b.oneOf("lineUp.mode", l.Mode, "match", "height") {
	case "height":
		b.cart.Target = l.Height
		table = 0
		terms = append(terms, part.Term{Name: "top of the worktop", Times: 1, Value: l.Height})
	default:
		step := l.Step
		if step == 0 {
			step = b.def(0, in/16, mm*3/2)
		}
		b.cart.Surface, b.cart.SurfaceName = l.Surface, l.Name
		b.cart.SurfaceSide = b.oneOf("lineUp.side", l.Side, "left", "right", "front", "back")
		name := l.Name
		if name == "" {
			name = "surface to match"
		}
		terms = append(terms, part.Term{Name: name, Times: 1, Value: l.Surface})
		b.cart.Target = l.Surface
		switch b.oneOf("lineUp.role", l.Role, "receives", "feeds", "both", "beside") {
		case "receives":
			b.cart.Target += step
			terms = append(terms, part.Term{Name: "higher by the step", Times: 1, Value: step})
			round = b.t.Ceil // never below the surface that receives
		case "feeds":
			b.cart.Target -= step
			terms = append(terms, part.Term{Name: "lower by the step", Times: -1, Value: step})
			round = b.t.Floor
		}
		terms = append(terms, part.Term{Name: "machine's table above its foot", Times: -1, Value: table})
	}
	terms = append(terms, part.Term{Name: "worktop", Times: -layers, Value: topThick})
	if b.under {
		terms = append(terms, part.Term{Name: "bottom", Times: -1, Value: b.ply})
	}
	terms = append(terms, part.Term{Name: mountName, Times: -1, Value: mount})
	why := part.Sum(terms...).RoundedBy(round)
	b.side = why.Result

	b.link(mountName, mount, mountPath)
	if b.under {
		b.link("bottom", b.ply, "")
	}
	b.link("sides", b.side, "")
	b.link("worktop", measure.Length(layers)*topThick, "")
	if table != 0 {
		b.link("machine's table", table, "machine.table")
	}
	if b.side < b.leastSide() || b.side > mostSize {
		b.f.Add(issue.Block, Chain, []string{"lineUp.surface", mountPath, "machine.table"}, b.side, b.leastSide(), b.leastSide()-b.side)
		return false
	}
	b.levelling()
	b.z0 = mount + b.ply
	b.z1 = mount + b.side
	if b.under {
		b.z1 += b.ply
	}
	b.zc = b.z1
	if b.upper != "sides" {
		b.zc -= b.ply
	}
	b.sideWhy = why
	return true
}

func (b *builder) link(name string, h measure.Length, path string) {
	b.cart.Chain = append(b.cart.Chain, Link{name, h, path})
	b.cart.Reached += h
}

// add places a part.
func (b *builder) add(p part.Part) part.ID {
	b.cart.Parts = append(b.cart.Parts, p)
	return p.ID
}

// join declares that two parts meet.
func (b *builder) join(kind part.JointKind, x part.ID, ys ...part.ID) {
	for _, y := range ys {
		b.cart.Joints = append(b.cart.Joints, part.Joint{A: x, B: y, Kind: kind})
	}
}

// given is the reason of a size that the user set.
func given(name string, v measure.Length) part.Reason {
	return part.Sum(part.Term{Name: name, Times: 1, Value: v})
}

// own is the reason of a thickness: the stock's.
func own(m project.Material, thick measure.Length) part.Reason {
	name := "as its label says"
	if m.Measured > 0 {
		name = "as measured"
	}
	return given(name, thick)
}

// box places a box by its low corner and size.
func box(x, y, z, dx, dy, dz measure.Length) geom.Box { return geom.At(x, y, z, dx, dy, dz) }

// hardware counts what must be bought besides wood.
func (b *builder) hardware() {
	if len(b.cart.Parts) == 0 {
		return
	}
	add := func(id, name string, n int, why string) {
		if n > 0 {
			b.cart.Hardware = append(b.cart.Hardware, Hardware{id, name, n, why})
		}
	}
	drawers, pulls := len(b.cart.Drawers), 0
	for _, d := range b.cart.Drawers {
		pulls += d.Pulls
	}
	// Slides of one length are bought together.
	seen := map[measure.Length]bool{}
	for _, d := range b.cart.Drawers {
		if seen[d.Slide] {
			continue
		}
		seen[d.Slide] = true
		n := 0
		for _, e := range b.cart.Drawers {
			if e.Slide == d.Slide {
				n++
			}
		}
		add("slides", "Drawer slides, pair, "+b.t.Show(d.Slide)+" "+b.t.Unit(), n, count(n, "drawer", "drawers")+", a pair each")
	}
	if drawers > 0 {
		_, front := b.drawerMaterial("drawers.front", "fronts", b.p.Drawers.Front, in*3/4, 18*mm)
		_, box := b.drawerMaterial("drawers.box", "drawer boxes", b.p.Drawers.Box, in/2, 12*mm)
		add("pull-screw", "Pull screws", 2*pulls, "2 to a pull, through front and box: "+b.t.Show(front)+" + "+b.t.Show(box)+" = "+b.t.Show(front+box))
	}
	pulls += len(b.cart.Doors)
	add("pull", "Pull", pulls, count(drawers+len(b.cart.Doors), "front", "fronts"))
	if b.onCasters() {
		add("caster", b.casterName(), 4, "one at each corner")
		thick := b.ply
		if b.p.Base.Pad != "" {
			_, pad := b.drawerMaterial("base.pad", "the casters' pads", b.p.Base.Pad, in*3/4, 18*mm)
			thick += pad
		}
		add("caster-screw", "Caster screws or bolts", 16, "4 to a plate; screws no longer than the "+b.t.Show(thick)+" they go into"+b.nuts())
	} else {
		add("foot", "Foot", 4, "one at each corner")
	}
	for _, t := range b.cart.Things {
		add("machine-bolt", "Machine bolts "+b.t.ShowExact(t.Bolt)+", with two washers and a nut each", len(t.Holes), "as many as its foot has holes; long enough for the foot and the worktop")
	}
	hinges := 0
	for _, d := range b.cart.Doors {
		hinges += Hinges(d.Front.Size(geom.Z))
	}
	add("hinge", "Hinge", hinges, count(len(b.cart.Doors), "door", "doors"))
	add("latch", "Latch or catch", drawers+len(b.cart.Doors), "one for each front, so that it stays shut while rolling")
	add("shelf-pin", "Shelf pin", 4*b.loose, "4 to a loose shelf")
	all := func(Screw) bool { return true }
	screws, joints := b.cart.byKind(Pocket, all)
	add("pocket-screw", "Pocket-hole screws", spare(screws), count(joints, "joint", "joints")+", "+count(screws, "screw", "screws")+" and one in ten to spare")
	fronts, _ := b.cart.byKind(Through, b.cart.Fixes)
	add("front-screw", "Screws for drawer fronts", spare(fronts), count(fronts, "screw", "screws")+" through the boxes and one in ten to spare")
	faced, joints := b.cart.byKind(Through, func(s Screw) bool { return !b.cart.Fixes(s) })
	add("wood-screw", "Wood screws No. 8", spare(faced), count(joints, "joint", "joints")+" face to face, "+count(faced, "screw", "screws")+" and one in ten to spare")
	pins, _ := b.cart.byKind(Pinned, all)
	add("pin", "Brads or pins", spare(pins), count(pins, "pin", "pins")+" through thin panels and one in ten to spare")
	add("glue", "Wood glue", 1, "all glued joints")
}

// nuts says whether bolts through the bottom have room for their nuts under
// what stands or moves over the casters' plates: 3/8 in or 10 mm (common
// practice, no source).
func (b *builder) nuts() string {
	const far = 1 << 40
	room, need := measure.Length(far), b.def(0, in*3/8, 10*mm)
	for _, t := range b.cart.Things {
		if t.Kind != CasterThing {
			continue
		}
		over := t.Box
		over.Min[geom.Z], over.Max[geom.Z] = b.z0, b.z1
		for _, d := range b.cart.Drawers {
			if c := d.Box.Intersect(over); !c.Empty() {
				room = min(room, c.Min[geom.Z]-b.z0)
			}
		}
	}
	switch {
	case room == far:
		return "; bolts have room for nuts above"
	case room < need:
		return "; no bolts: under the lowest drawer " + b.t.ShowExact(room) + " is free, nuts need " + b.t.Show(need)
	}
	return "; bolts have room for nuts: " + b.t.ShowExact(room) + " under the lowest drawer"
}

// Hinges returns how many hinges a door of height h takes: two, three from 40 in
// or 1016 mm on (common practice, no source).
func Hinges(h measure.Length) int {
	if h >= 40*in {
		return 3
	}
	return 2
}

// spare adds one in ten, rounded up.
func spare(n int) int { return n + (n+9)/10 }

func find(parts []part.Part, id part.ID) (part.Part, bool) {
	for _, p := range parts {
		if p.ID == id {
			return p, true
		}
	}
	return part.Part{}, false
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return itoa(n) + " " + many
}
