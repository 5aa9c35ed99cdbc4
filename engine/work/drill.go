package work

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// HoleEdge: a hole lies too near an edge of its part, or beside it. Args: the
// part (string), what the hole is for (string), its distance from the edge,
// negative if outside (Length), the least (Length). Example: hole-edge.json
const HoleEdge issue.Code = "work.hole-edge"

// A HoleKind is what a hole is for.
type HoleKind string

const (
	PocketHole HoleKind = "pocket"
	Clearance  HoleKind = "clearance" // for a screw straight through
	FrontHole  HoleKind = "fixing"    // clearance, for the screws of a show front
	PinHole    HoleKind = "pin"       // no hole: a line of brads
	SlotHole   HoleKind = "slot"      // of a slide, slotted: driven first
	RoundHole  HoleKind = "round"     // of a slide, when the drawer runs
	PullHole   HoleKind = "pull"
	ShelfHole  HoleKind = "shelf"  // for a shelf pin
	CasterHole HoleKind = "caster" // through the plate
	HingeHole  HoleKind = "hinge"
	FootHole   HoleKind = "foot" // of the machine, from its own foot
	PanelHole  HoleKind = "hole" // for a hose, a cable, a hand
)

// A When is when a hole is made.
type When int

const (
	Flat       When = iota // on the bench, before assembly
	InPlace                // when its part stands where it belongs
	AfterTrial             // when what it holds has been set and tried
)

// A Drill is a row of equal holes in one face of a part.
type Drill struct {
	// ID names it by content: "drill/<part>/<kind>/<other part or number>".
	ID   string
	Part int // index in Cart.Parts
	Kind HoleKind
	Face design.Side
	// Along and Across are the axes of the face; a spot is measured from the
	// low edges along both: left, front, lower.
	Along, Across geom.Axis
	Spots         []Spot
	// Into is the index of the part that the screws hold, -1 for none.
	Into int
	// Toward is, for pockets, the edge at which they open.
	Toward design.Side
	// Dia is the bit. Depth is 0 for a hole right through.
	Dia, Depth measure.Length
	// Collar is the mark to set for pockets; Screw the length of the screw,
	// Fine its thread: fine in solid hardwood, coarse in ply, MDF, softwood
	// (a woodworking magazine, 2003).
	Collar, Screw measure.Length
	Fine          bool
	When          When
	// Joint is the index of the joint it is for, -1 for none.
	Joint int
}

// A Spot is the middle of a hole, exact; a tape shows it to its nearest mark,
// halves away from zero.
type Spot struct {
	A, B measure.Length // from the low edges along Along and Across
	At   geom.Pt        // in cabinet space, on the face
}

// Bits and edges, common practice without a source where nothing else is said.
const (
	inch = measure.Inch
	mm   = measure.MM

	pilot     = inch / 8      // No. 8 in ply and hardwood: .9 of its root of .13 in
	pinBit    = 5 * mm        // 32-mm system
	pinDeep   = 8 * mm        // two back to back stay inside 18 mm
	pinRow    = 37 * mm       // from the front edge, 32-mm system
	pullBit   = inch * 3 / 16 // for a machine screw of 4 mm or No. 8
	leastEdge = inch / 4      // wood to an edge, from the middle of a hole
	hingeEnd  = 3 * inch      // from the end of the door to the hinge's middle
	hardwood  = 600 / 1000.0  // g/cm³ from which solid wood counts as hard
)

// Drilling is the schedule of all holes, part by part in the order of the cut
// list's parts.
type Drilling struct {
	Drills   []Drill
	Findings issue.List
}

// Drill lists every hole of the cart.
func Drills(p *project.Project, c design.Cart) Drilling {
	d := driller{p: p, c: c}
	d.screws()
	d.slides()
	d.things()
	d.doors()
	d.shelves()
	for i, q := range c.Parts {
		for k, f := range q.Features {
			if f.Kind == part.Hole {
				at := f.Box
				mid := geom.Pt{(at.Min[0] + at.Max[0]) / 2, (at.Min[1] + at.Max[1]) / 2, (at.Min[2] + at.Max[2]) / 2}
				d.add(i, PanelHole, itoa(k), design.Side{Axis: q.ThickAxis(), High: true}, Drill{Into: -1, Joint: -1, Dia: at.Size(q.LengthAxis)}, mid)
			}
		}
	}
	out := Drilling{Findings: d.found}
	for i := range c.Parts {
		from := len(out.Drills)
		for _, h := range d.out {
			if h.Part == i {
				out.Drills = append(out.Drills, h)
				d.edges(&out.Findings, h)
			}
		}
		d.meets(&out.Findings, out.Drills[from:])
	}
	return out
}

type driller struct {
	p   *project.Project
	c   design.Cart
	out []Drill
	// found are findings about places that are given.
	found issue.List
}

// add adds a row to part i, or its spots to the row of that name.
func (d *driller) add(i int, kind HoleKind, name string, face design.Side, h Drill, at ...geom.Pt) {
	q := d.c.Parts[i]
	h.ID, h.Part, h.Kind, h.Face = "drill/"+string(q.ID)+"/"+string(kind)+"/"+name, i, kind, face
	axes := [3]geom.Axis{q.LengthAxis, q.WidthAxis, q.ThickAxis()}
	k := 0
	if axes[0] == face.Axis {
		k = 1
	}
	h.Along = axes[k]
	if k++; axes[k] == face.Axis {
		k++
	}
	h.Across = axes[k]
	row := -1
	for j := range d.out {
		if d.out[j].ID == h.ID {
			row = j
		}
	}
	if row < 0 {
		row = len(d.out)
		d.out = append(d.out, h)
	}
	for _, pt := range at {
		pt[face.Axis] = face.Of(q.Box)
		d.out[row].Spots = append(d.out[row].Spots, Spot{pt[h.Along] - q.Box.Min[h.Along], pt[h.Across] - q.Box.Min[h.Across], pt})
	}
}

// hard reports whether a part is of solid hardwood.
func (d *driller) hard(i int) bool {
	m, _ := d.p.Material(d.c.Parts[i].Material)
	return m.Kind == "solid" && (m.Density == 0 || m.Density/1000 >= hardwood)
}

// screws lists what the joints take.
func (d *driller) screws() {
	for _, s := range d.c.Screws {
		q := d.c.Parts[s.In]
		h := Drill{Into: s.Into, Joint: s.Joint, Toward: s.Toward, Screw: s.Long, Fine: d.hard(s.Into)}
		at, kind := s.At, Clearance
		switch {
		case s.Kind == design.Pocket:
			kind, h.Dia = PocketHole, design.Bore
			h.Collar, _, _ = design.Collar(q.Thick)
			at[s.Toward.Axis] = s.Toward.Back().Out(at[s.Toward.Axis], design.Mouth(q.Thick))
		case s.Kind == design.Pinned:
			kind = PinHole
		default:
			h.Dia = design.BoreThrough
			if d.c.Fixes(s) {
				kind = FrontHole
			}
		}
		d.add(s.In, kind, string(d.c.Parts[s.Into].ID), s.Face, h, at)
	}
}

// at returns the index of the standing part whose face s lies at x = v and
// holds pt, -1 if there is none.
func (d *driller) at(s design.Side, v measure.Length, pt geom.Pt) int {
	for i, q := range d.c.Parts {
		if q.Drawer > 0 || q.Door > 0 || q.Loose || (s.Of(q.Box)-v).Abs() > d.c.Tape.Least() {
			continue
		}
		in := true
		for a := geom.X; a <= geom.Z; a++ {
			in = in && (a == s.Axis || q.Box.Min[a] <= pt[a] && pt[a] < q.Box.Max[a])
		}
		if in {
			return i
		}
	}
	return -1
}

func (d *driller) index(id part.ID) int {
	for i, q := range d.c.Parts {
		if q.ID == id {
			return i
		}
	}
	return -1
}

// box returns the index of a part of drawer n (from 0): the first whose ID
// ends in name.
func (d *driller) box(n int, name string) int {
	for i, q := range d.c.Parts {
		if id := string(q.ID); q.Drawer == n+1 && len(id) > len(name) && id[len(id)-len(name)-1:] == "/"+name {
			return i
		}
	}
	return -1
}

func (d *driller) slides() {
	for _, s := range design.Slides(d.c) {
		side, name := design.Side{Axis: geom.X, High: true}, "side-left"
		if s.Right {
			side, name = side.Back(), "side-right"
		}
		for k, kind := range [2]HoleKind{SlotHole, RoundHole} {
			holes := s.Holes[k*s.Slots : (k+1)*s.Slots]
			h := Drill{Into: -1, Joint: -1, Dia: pilot * 3 / 4, When: [2]When{Flat, AfterTrial}[k]}
			deep := func(i int) Drill { // not through a thin box side
				h.Depth = min(design.SlideScrew, d.c.Parts[i].Box.Size(geom.X)-inch/16)
				return h
			}
			for _, pt := range holes {
				if i := d.at(side, pt[geom.X], pt); i >= 0 {
					d.add(i, kind, itoa(s.Drawer+1), side, deep(i), pt)
				}
			}
			if i := d.box(s.Drawer, name); i >= 0 { // the drawer's member
				d.add(i, kind, itoa(s.Drawer+1), side.Back(), deep(i), holes...)
			}
		}
	}
}

// things lists what casters, pulls and the machine take.
func (d *driller) things() {
	down := design.Side{Axis: geom.Z}
	front := design.Side{Axis: geom.Y}
	casters := 0
	for _, t := range d.c.Things {
		at := t.Screws()
		switch t.Kind {
		case design.CasterThing:
			casters++
			i := d.index("bottom")
			deep := measure.Length(0)
			if i >= 0 {
				deep = d.c.Parts[i].Thick
			}
			if k := d.at(down, t.Box.Max[geom.Z], at[0]); k >= 0 && k != i { // a pad
				deep += d.c.Parts[k].Thick
				i = k
			}
			if i >= 0 {
				long := inch / 2
				for _, l := range []measure.Length{inch * 5 / 8, inch * 3 / 4, inch, inch * 5 / 4} {
					if l <= deep-inch/16 {
						long = l
					}
				}
				d.add(i, CasterHole, itoa(casters), down, Drill{Into: -1, Joint: -1, Dia: pilot, Depth: long, Screw: long}, at...)
			}
		case design.PullThing:
			d.pull(t, at, front)
		case design.MachineThing:
			top := d.index("top")
			if k := d.index("top-2"); k >= 0 {
				top = k
			}
			if top >= 0 {
				h := Drill{Into: -1, Joint: -1, When: InPlace}
				if len(at) > 0 {
					h.Dia = t.Bolt + inch/32
				}
				d.add(top, FootHole, "machine", design.Side{Axis: geom.Z, High: true}, h, at...)
				d.foot(top, t)
			}
		}
	}
}

// pull bores a drawer's front flat, then its box through the front.
func (d *driller) pull(t design.Thing, at []geom.Pt, front design.Side) {
	h := Drill{Into: -1, Joint: -1, Dia: pullBit}
	mid := at[0]
	if t.Drawer == 0 {
		for i, q := range d.c.Parts {
			if q.Door > 0 && q.Box.Min[geom.X] <= mid[geom.X] && mid[geom.X] < q.Box.Max[geom.X] && q.Box.Min[geom.Z] <= mid[geom.Z] && mid[geom.Z] < q.Box.Max[geom.Z] {
				h.Screw = screwThrough(q.Thick)
				d.add(i, PullHole, "door", front, h, at...)
			}
		}
		return
	}
	f, b := d.box(t.Drawer-1, "front"), d.box(t.Drawer-1, "box-front")
	if f < 0 || b < 0 {
		return
	}
	h.Screw = screwThrough(d.c.Parts[f].Thick + d.c.Parts[b].Thick)
	d.add(f, PullHole, itoa(t.Drawer), front, h, at...)
	h.When = AfterTrial
	d.add(b, PullHole, itoa(t.Drawer), front, h, at...)
}

// screwThrough is the machine screw for a pull on wood of that thickness: the
// next 1/8 in that leaves 1/4 in for the thread (common practice, no source).
func screwThrough(thick measure.Length) measure.Length {
	const step = inch / 8
	return (thick + inch/4 + step - 1) / step * step
}

// doors lists the middles of the hinges, on the door and on what it hangs on.
func (d *driller) doors() {
	for n, door := range d.c.Doors {
		at, up := -1, -1
		for i, q := range d.c.Parts {
			if q.Door == n+1 {
				at = i
			}
		}
		if at < 0 {
			continue
		}
		b := door.Front
		side := design.Side{Axis: geom.X, High: door.Hinge == "right"}
		bay := d.c.Bays[door.Bay].Clear
		var spots, posts []geom.Pt
		k := design.Hinges(b.Size(geom.Z))
		for i := range k {
			end := min(hingeEnd, b.Size(geom.Z)/4)
			z := b.Min[geom.Z] + end + (b.Size(geom.Z)-2*end)*measure.Length(i)/measure.Length(k-1)
			spots = append(spots, geom.Pt{side.Back().Out(side.Of(b), inch*7/8), b.Max[geom.Y], z})
			posts = append(posts, geom.Pt{side.Of(bay), max(b.Max[geom.Y], bay.Min[geom.Y]) + inch, z})
		}
		h := Drill{Into: -1, Joint: -1, Dia: pilot * 3 / 4, Depth: inch / 2}
		d.add(at, HingeHole, "leaf", design.Side{Axis: geom.Y, High: true}, h, spots...)
		h.When = InPlace
		if up = d.at(side.Back(), side.Of(bay), posts[0]); up < 0 { // the edge of a stile
			for i := range posts {
				posts[i][geom.Y] = inch * 3 / 8
			}
			up = d.at(side.Back(), side.Of(bay), posts[0])
		}
		if up >= 0 {
			d.add(up, HingeHole, string(d.c.Parts[at].ID), side.Back(), h, posts...)
		}
	}
}

// shelves lists the holes for the pins of loose shelves.
func (d *driller) shelves() {
	for _, q := range d.c.Parts {
		if !q.Loose {
			continue
		}
		for _, s := range []design.Side{{Axis: geom.X, High: true}, {Axis: geom.X}} {
			row := min(pinRow, q.Box.Size(geom.Y)/4)
			for _, y := range []measure.Length{q.Box.Min[geom.Y] + row, q.Box.Max[geom.Y] - row} {
				pt := geom.Pt{0, y, q.Box.Min[geom.Z] - pinBit/2}
				for _, b := range d.c.Bays {
					if b.Inside.Min[geom.X] <= q.Box.Min[geom.X] && q.Box.Max[geom.X] <= b.Inside.Max[geom.X] {
						pt[geom.X] = s.Back().Of(b.Inside)
					}
				}
				if i := d.at(s, pt[geom.X], pt); i >= 0 {
					d.add(i, ShelfHole, string(q.ID), s, Drill{Into: -1, Joint: -1, Dia: pinBit, Depth: pinDeep}, pt)
				}
			}
		}
	}
}

// edges tells of holes of fittings that lie too near an edge.
func (d *driller) edges(f *issue.List, h Drill) {
	switch h.Kind {
	case PullHole, CasterHole, SlotHole, RoundHole, ShelfHole, HingeHole:
	default:
		return
	}
	if least := h.nearest(d.c.Parts[h.Part].Box); least < leastEdge {
		f.Add(issue.Warn, HoleEdge, []string{string(d.c.Parts[h.Part].ID)}, d.c.Parts[h.Part].Name, string(h.Kind), least, leastEdge)
	}
}

func itoa(n int) string { return strconv.Itoa(n) }
