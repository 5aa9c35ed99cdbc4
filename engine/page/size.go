package page

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// sections are the panels of fields, so that an edit patches a small part of
// the page; places are where each is shown, moves says that a drag can change
// what it shows.
var sections = [...]section{
	{"f-lineup", true, (*builder).lineUp, []Place{Size}},
	{"f-chain", true, (*builder).chain, []Place{Size}},
	{"f-nearby", false, (*builder).nearby, []Place{Size}},
	{"f-bays", true, (*builder).bays, []Place{Size}},
	{"f-drawers", true, (*builder).drawers, []Place{Size}},
	{"f-case", true, (*builder).caseFields, []Place{Size}},
	{"f-base", false, (*builder).base, []Place{Size}},
	{"f-stock", false, (*builder).stock, []Place{Size}},
	{"f-store", false, (*builder).storeFields, []Place{Size, Store}},
	{"f-car", false, (*builder).car, []Place{Size, Store}},
	{"f-saws", false, (*builder).saws, []Place{Size}},
	{"f-extra", false, (*builder).extra, []Place{Parts}},
}

type section struct {
	id     string
	moves  bool
	make   func(*builder) node
	places []Place
}

func (b *builder) section(s section) node {
	if b.Project == nil {
		return nil
	}
	for _, p := range s.places {
		if p == b.place() {
			return s.make(b)
		}
	}
	return nil
}

// size is what Size shows besides its fields.
func (b *builder) size() screen {
	return screen{title: b.looks(), list: b.chosen(), keys: b.keys(), findings: b.findingsPanel(3)}
}

// keys are the fraction keys, for the field in focus.
func (b *builder) keys() node {
	if b.ReadOnly {
		return nil
	}
	step := b.t.Show(b.t.Least())
	out := nodes{
		button("", do(doNudge, "by", "-step"), attr{"id", "key-minus"}, rich("\u2212"+step)),
		button("", do(doNudge, "by", "step"), attr{"id", "key-plus"}, rich("+"+step)),
	}
	if b.t.Metric {
		return out
	}
	for _, k := range [...]string{"1/2", "1/4", "1/8", "1/16"} {
		out = append(out, button("", do(doKey, "to", k), attr{"id", "key-" + k}, rich(k)))
	}
	return out
}

func (b *builder) lineUp() node {
	p := b.Project
	l := p.LineUp
	machine := or(p.Machine.Name, "machine")
	out := nodes{el("h2", text("Line up"))}
	if p.Note != "" {
		out = append(out, el("p", attr{"class", "note"}, rich(p.Note)))
	}
	out = append(out, b.choice("lineUp.mode", "What must stand at a height", or(l.Mode, "match"),
		option{"match", "the machine's table"}, option{"height", "the worktop"}))
	if l.Mode == "height" {
		// NIOSH 97-117, Elements of Ergonomics Programs: standing, light work 34
		// to 37 in, heavy 28 to 35; of the work, not of the bench.
		show := func(inch, mm measure.Length) string { return b.t.Show(b.least(inch*measure.Inch, mm*measure.MM)) }
		out = append(out, b.length("lineUp.height", "Top of the worktop", l.Height, hint{note: "from the floor; light work, standing, is done at " + show(34, 860) + " to " + show(37, 940) + ", heavy work at " + show(28, 710) + " to " + show(35, 890)}))
	} else {
		step := b.usual(measure.Inch/16, measure.MM*3/2)
		role := or(l.Role, "receives")
		out = append(out,
			b.name("lineUp.name", "Surface to match", l.Name, "assembly table, bench, …"),
			b.length("lineUp.surface", "Height of the "+or(l.Name, "surface to match"), l.Surface, hint{note: "from the floor"}),
			b.choice("lineUp.role", capital(or(l.Name, "that surface")), role,
				option{"receives", "takes work from the machine"},
				option{"feeds", "hands work to the machine"},
				option{"both", "does both: level"},
				option{"beside", "stands beside it: level"}))
		switch role {
		case "receives":
			out = append(out, b.length("lineUp.step", "Stay above it by", l.Step, step))
		case "feeds":
			out = append(out, b.length("lineUp.step", "Stay below it by", l.Step, step))
		}
		out = append(out, b.choice("lineUp.side", "It stands", or(l.Side, "left"), sides[:]...))
	}
	out = append(out,
		b.name("machine.name", "Machine", p.Machine.Name, "jointer, planer, …"),
		b.length("machine.table", "Table of the "+machine, p.Machine.Table, hint{note: "above its foot"}),
		more("lineup", "More about the machine",
			b.mass("machine.weight", "Weight", p.Machine.Weight, ""),
			b.length("machine.width", "Body, across", p.Machine.Width, hint{}),
			b.length("machine.depth", "Body, front to back", p.Machine.Depth, hint{}),
			b.length("machine.height", "Body, height", p.Machine.Height, hint{}),
			el("h3", text("Must stay free around it")),
			b.sides("machine.clear", p.Machine.Clear),
			when(l.Mode != "height", b.length("lineUp.legs", "Legs of the "+or(l.Name, "other surface")+" stand out past its top by", l.Legs, hint{note: "negative: they stand back"})),
			b.footFields()),
		more("needs", "Crank, cord, port, fence, hold-downs", b.needs()))
	return out
}

var sides = [...]option{{"left", "on the left"}, {"right", "on the right"}, {"front", "in front"}, {"back", "behind"}}

// needs are the rooms that things on the machine take, one entry each.
func (b *builder) needs() nodes {
	out := nodes{}
	for i, n := range b.Project.Machine.Needs {
		path := "machine.needs." + strconv.Itoa(i)
		name := or(n.Name, "Need "+strconv.Itoa(i+1))
		high := hint{note: "over its foot"}
		if n.High == 0 {
			high = hint{inUse: b.Project.Machine.Height, note: "as high as the machine"}
		}
		out = append(out, b.entry("machine.needs", i, name,
			b.name(path+".name", "What it is", n.Name, "crank, dust port, fence, …"),
			b.choice(path+".side", "It stands out", or(n.Side, "left"), sides[:]...),
			b.length(path+".reach", "How far", n.Reach, hint{note: "from the machine's body"}),
			b.length(path+".wide", "Its width", n.Wide, hint{note: "empty: the whole side"}),
			b.length(path+".at", "Its middle", n.At, hint{note: "from the left or front end of the body"}),
			b.length(path+".low", "Lowest point", n.Low, hint{note: "over the machine's foot; negative: below it"}),
			b.length(path+".high", "Highest point", n.High, high),
			b.tickbox(path+".top", "Stands on the worktop", n.Top),
			b.about(path)))
	}
	return append(out, b.add("machine.needs", "a need"))
}

func (b *builder) sides(path string, s project.Sides) nodes {
	return nodes{
		b.length(path+".left", "Left", s.Left, hint{}),
		b.length(path+".right", "Right", s.Right, hint{}),
		b.length(path+".front", "Front", s.Front, hint{}),
		b.length(path+".back", "Back", s.Back, hint{}),
	}
}

// chain is the height from the floor as a sum: every member, then the total.
func (b *builder) chain() node {
	if len(b.Cart.Chain) == 0 {
		return nil
	}
	return nodes{el("h2", text("Height, from the floor")), b.heights()}
}

func (b *builder) heights() node {
	c := b.Cart
	rows := nodes{}
	for _, l := range c.Chain {
		name := item(text(l.Name))
		if l.Path != "" && b.place() == Size {
			name = el("label", attr{"for", "i-" + l.Path}, text(l.Name))
		}
		rows = append(rows, el("tr", el("th", attr{"scope", "row"}, name), el("td", column(b.t, l.Height))))
	}
	foot := nodes{el("tr", attr{"class", "total"}, el("th", attr{"scope", "row"}, b.target()), el("td", column(b.t, c.Reached)))}
	// Sides are whole steps of the tape, so the sum may miss the target by less
	// than one. More than that is a finding, told as one.
	if d := c.Reached - c.Target; d != 0 && c.Target != 0 {
		word := "higher, by the tape's step"
		if d < 0 {
			word, d = "lower, by the tape's step", -d
		}
		foot = append(foot, el("tr", attr{"class", "step"},
			el("th", attr{"scope", "row"}, text(word)), el("td", column(b.exactTape(d), d))))
	}
	foot = append(foot, b.levelling())
	return el("table", attr{"class", "sum"}, el("tbody", rows), el("tfoot", foot))
}

// exactTape is the tape of the project, or a finer one if l would vanish on it.
func (b *builder) exactTape(l measure.Length) measure.Tape {
	t := b.t
	if t.On(l) {
		return t
	}
	t.Step = measure.Inch64
	if t.Metric {
		t.Step = measure.MM / 100
	}
	return t
}

// target is what the total is to be: "35 1⁄4 + 1⁄16".
func (b *builder) target() nodes {
	c := b.Cart
	if c.Surface == 0 || c.Target == 0 {
		return nodes{text("together")}
	}
	switch d := c.Target - c.Surface; {
	case d > 0:
		return rich(b.t.Show(c.Surface) + " + " + b.t.Show(d))
	case d < 0:
		return rich(b.t.Show(c.Surface) + " \u2212 " + b.t.Show(-d))
	}
	return rich("level with " + b.t.Show(c.Surface))
}

func (b *builder) bays() node {
	out := nodes{el("h2", text("Bays, inside"))}
	for i, bay := range b.Project.Cabinet.Bays {
		path := "cabinet.bays." + strconv.Itoa(i)
		h := hint{}
		var made *design.Bay
		if i < len(b.Cart.Bays) {
			made = &b.Cart.Bays[i]
			h = hint{inUse: made.Inside.Size(0), note: "takes what is left"}
		}
		if bay.Width != 0 {
			h.note = ""
		}
		name := or(bay.Name, "Bay "+strconv.Itoa(i+1))
		cells := nodes{}
		for j, o := range bay.Openings {
			cells = append(cells, b.opening(path+".openings", j, len(bay.Openings), o, made))
		}
		out = append(out, b.entry("cabinet.bays", i, name,
			b.length(path+".width", "Width inside", bay.Width, h),
			b.about(path+".openings"),
			when(len(cells) > 0, el("p", attr{"class", "small"}, text("From the top down:"))),
			cells,
			b.add(path+".openings", "an opening"),
			b.swap("cabinet.bays", i, len(b.Project.Cabinet.Bays), "Swap with the bay on its right"),
			more(path, "More about this bay",
				b.name(path+".name", "Name", bay.Name, name),
				b.whole(path+".share", "Share of what is left", bay.Share, "1", ""),
				b.measured(path+".measured", bay.Measured, made)),
			b.about(path+".measured")))
	}
	if says := b.about("cabinet.bays"); says != nil {
		out = append(out, el("div", says))
	}
	return append(out, b.add("cabinet.bays", "a bay"))
}

// measured are the fields for what a bay really is once the case stands.
func (b *builder) measured(path string, m *project.Measured, bay *design.Bay) nodes {
	var is project.Measured
	if m != nil {
		is = *m
	}
	wide, high := hint{note: "as planned"}, hint{note: "as planned"}
	if bay != nil {
		wide.inUse, high.inUse = bay.Clear.Size(0), bay.Clear.Size(2)
	}
	return nodes{
		el("h3", text("Measured after glue-up")),
		b.length(path+".front", "Width at the front", is.Front, wide),
		b.length(path+".back", "Width at the back", is.Back, hint{}),
		b.length(path+".height", "Height", is.Height, high),
		b.length(path+".depth", "Depth inside", is.Depth, hint{note: "front edges included"}),
		b.length(path+".diagonalA", "One diagonal", is.DiagonalA, hint{}),
		b.length(path+".diagonalB", "The other diagonal", is.DiagonalB, hint{}),
	}
}

var openingKinds = []option{{"drawer", "drawer"}, {"open", "open"}, {"shelf", "shelf"}, {"door", "door"}}

// opening is one cell of a bay: what it is and how high, in one row.
func (b *builder) opening(list string, at, of int, o project.Opening, bay *design.Bay) node {
	path := list + "." + strconv.Itoa(at)
	kind := or(o.Kind, "open")
	name := or(o.Name, kind+" "+strconv.Itoa(at+1))
	h := hint{note: "takes what is left"}
	if bay != nil && at < len(bay.Openings) {
		cell := bay.Openings[at]
		h.inUse = cell.Cell.Size(2)
		if cell.Drawer > 0 {
			name = or(o.Name, "Drawer "+strconv.Itoa(cell.Drawer))
		}
	}
	if o.Height != 0 {
		h.note = ""
	}
	label := name + ", height"
	if kind == "drawer" {
		label = name + ", front"
	}
	thing := project.Thing{}
	if o.Holds != nil {
		thing = *o.Holds
	}
	hold := path + ".holds"
	return div("opening",
		b.length(path+".height", label, o.Height, h),
		b.about(path), b.about(hold),
		b.choice(path+".kind", "What "+name+" is", kind, openingKinds...),
		more(path, "More",
			b.name(path+".name", "Name", o.Name, name),
			b.mass(path+".load", "What lies in it weighs", o.Load, ""),
			b.whole(path+".share", "Share of what is left", o.Share, "1", ""),
			when(kind == "door", b.choice(path+".doors", "Doors", strconv.Itoa(max(o.Doors, 1)), option{"1", "one"}, option{"2", "two"})),
			when(kind == "door" && o.Doors < 2, b.choice(path+".hinge", "Hinges", or(o.Hinge, "left"), option{"left", "on the left"}, option{"right", "on the right"})),
			when(kind != "drawer", b.whole(path+".pins", "Loose shelves on pins", o.Pins, "0", "")),
			nodes{
				el("h3", text(holdWord(kind))),
				b.name(hold+".name", "Thing", thing.Name, "a case, a hose reel, …"),
				b.length(hold+".width", "Its width", thing.Width, hint{}),
				b.length(hold+".depth", "Its depth", thing.Depth, hint{}),
				b.length(hold+".height", "Its height", thing.Height, hint{}),
				b.length(hold+".clear", "Free on each side and above", thing.Clear, hint{}),
				b.mass(hold+".weight", "Its weight", thing.Weight, ""),
			},
			b.swap(list, at, of, "Swap with the one below"),
			b.drop(list, at, name)))
}

// holdWord heads the fields of what an opening must hold.
func holdWord(kind string) string {
	if kind == "drawer" {
		return "Must hold: its tallest tool"
	}
	return "Must hold"
}

func (b *builder) drawers() node {
	d := b.Project.Drawers
	in, mm := measure.Inch, measure.MM
	out := nodes{el("h2", text("Drawers"))}
	if len(b.Cart.Drawers) == 0 {
		out = append(out, el("p", attr{"class", "small"}, text("No drawers yet: make an opening a drawer at Bays.")))
	} else {
		rows := nodes{}
		for i, w := range b.Cart.Drawers {
			name := "Drawer " + strconv.Itoa(i+1)
			rows = append(rows, el("tr", el("th", attr{"scope", "row"}, text(name)),
				el("td", column(b.t, w.Box.Size(0))), el("td", column(b.t, w.Box.Size(1))), el("td", column(b.t, w.Box.Size(2)))))
		}
		out = append(out, el("table", attr{"class", "nums"},
			el("caption", text("Boxes, outside")),
			el("thead", el("tr", el("td"), heads("wide", "deep", "high"))), el("tbody", rows)))
	}
	gap := b.usual(in*3/32, mm*5/2)
	if g := b.Cart.Gap; g > gap.inUse {
		gap = hint{inUse: g, note: "so that solid wood can grow"}
	}
	slide := hint{note: "the longest that fits"}
	if len(b.Cart.Drawers) > 0 {
		slide.inUse = b.Cart.Drawers[0].Slide
	}
	if d.SlideLength != 0 {
		slide.note = ""
	}
	return append(out,
		b.length("drawers.slideLength", "Slides, length", d.SlideLength, slide),
		b.material("drawers.box", "Box sides", d.Box),
		b.material("drawers.bottom", "Box bottom", d.Bottom),
		b.bottomTrade(),
		b.material("drawers.front", "Front", d.Front),
		b.length("drawers.gap", "Gap round a front", d.Gap, gap),
		more("drawers", "More about drawers",
			b.choice("drawers.fit", "Fronts and doors", or(d.Fit, "inset"), option{"inset", "inside the opening"}, option{"overlay", "before the case"}),
			b.choice("drawers.grain", "Grain of the fronts", or(d.Grain, "across"), option{"across", "across the cart"}, option{"up", "upright"}, option{"on", "upright, running on from front to front"}),
			b.choice("drawers.slide", "Boxes run on", or(d.Slide, "ball"), option{"ball", "ball-bearing slides at the side"}, option{"wood", "wooden runners"}),
			when(d.Slide == "wood", b.material("drawers.runner", "Runners", d.Runner)),
			when(d.Slide != "wood", b.length("drawers.slideThick", "One slide, thickness", d.SlideThick, b.usual(in/2, mm*127/10))),
			b.length("drawers.allowance", "Box narrower by", d.Allowance, b.play()),
			b.choice("drawers.joint", "Bottom is", or(d.Joint, "groove"), option{"groove", "let into a groove"}, option{"under", "fixed under the box"}, option{"inside", "inside the box, on pocket screws"}),
			when(or(d.Joint, "groove") == "groove", b.length("drawers.groove", "Groove, depth", d.Groove, b.usual(in/4, 6*mm))),
			b.length("drawers.below", "Front below the box", d.Below, b.usual(in/4, 6*mm)),
			b.length("drawers.above", "Front above the box", d.Above, b.usual(in/2, 13*mm)),
			b.pullFields(),
			b.reserveField()))
}

// play is how much narrower than its room a box is made, if nothing is said.
func (b *builder) play() hint {
	if b.Project.Drawers.Slide == "wood" {
		return b.usual(measure.Inch/8, 3*measure.MM)
	}
	return b.usual(measure.Inch/32, measure.MM*4/5)
}

func heads(names ...string) nodes {
	out := nodes{}
	for _, n := range names {
		out = append(out, el("th", attr{"scope", "col"}, text(n)))
	}
	return out
}

func (b *builder) caseFields() node {
	c := b.Project.Cabinet
	in, mm := measure.Inch, measure.MM
	back, face := or(c.Back.Kind, "frame"), or(c.Face.Kind, "bare")
	return nodes{el("h2", text("Case")),
		b.length("cabinet.width", "Width", c.Width, hint{note: "outside, without the worktop"}),
		b.length("cabinet.depth", "Depth", c.Depth, hint{note: "front and back included"}),
		b.material("cabinet.material", "Sides, bottom, partitions", c.Material),
		b.material("cabinet.top.material", "Worktop", c.Top.Material),
		b.length("cabinet.top.overhang.front", "Worktop over the front by", c.Top.Overhang.Front, hint{}),
		b.length("cabinet.top.overhang.left", "Over the left by", c.Top.Overhang.Left, hint{}),
		b.length("cabinet.top.overhang.right", "Over the right by", c.Top.Overhang.Right, hint{}),
		more("case", "More about the case",
			b.choice("cabinet.bottom", "Bottom stands", or(c.Bottom, "under"), option{"under", "under the sides"}, option{"between", "between the sides"}),
			b.choice("cabinet.back.kind", "Back", back, option{"frame", "frame with a skin"}, option{"panel", "panel behind the sides"},
				option{"between", "panel between the sides"}, option{"let-in", "panel let into the sides"}, option{"none", "open"}),
			when(back == "frame", nodes{
				b.material("cabinet.back.frame", "Back frame", c.Back.Frame),
				b.length("cabinet.back.rail", "Frame rails, width", c.Back.Rail, b.usual(in*5/2, 64*mm))}),
			when(back != "none", b.material("cabinet.back.skin", "Skin or panel", c.Back.Skin)),
			b.choice("cabinet.face.kind", "Front edges", face, option{"bare", "bare"}, option{"strips", "solid strips"}, option{"frame", "face frame"}),
			when(face == "frame", nodes{
				b.material("cabinet.face.material", "Face frame", c.Face.Material),
				b.length("cabinet.face.stile", "Stiles, width", c.Face.Stile, b.usual(in*3/2, 38*mm)),
				b.length("cabinet.face.rail", "Rails, width", c.Face.Rail, b.usual(in*3/2, 38*mm)),
				b.tickbox("cabinet.face.mid", "Rails between the openings too", c.Face.Mid),
				b.length("cabinet.face.proud", "Frame past the sides by", c.Face.Proud, hint{note: "empty: flush"})}),
			when(face == "strips", nodes{
				b.material("cabinet.face.material", "Strips", c.Face.Material),
				b.length("cabinet.face.thick", "Strips, thickness", c.Face.Thick, b.usual(in/4, 6*mm)),
				b.choice("cabinet.face.edges", "Strips on", or(c.Face.Edges, "all"), option{"all", "all edges of the case"}, option{"uprights", "the uprights alone"}, option{"shelves", "all edges, fixed shelves too"}),
				b.length("cabinet.face.proud", "Strips thicker than the ply by", c.Face.Proud, hint{note: "flushed after glue-up; empty: as thick as the board"})}),
			b.choice("cabinet.upper", "The worktop lies on", or(c.Upper, "sides"), option{"sides", "the sides"}, option{"stretchers", "stretchers between them"}, option{"sub-top", "a sub-top between them"}),
			when(c.Upper == "stretchers", b.length("cabinet.stretcher", "Stretchers, width", c.Stretcher, b.usual(4*in, 100*mm))),
			b.whole("cabinet.top.layers", "Worktop layers", c.Top.Layers, "1", ""),
			b.length("cabinet.top.overhang.back", "Worktop over the back by", c.Top.Overhang.Back, hint{}),
			b.tickbox("cabinet.top.strips", "Solid strips round the worktop", c.Top.Strips),
			when(c.Top.Strips && face == "strips", b.choice("cabinet.face.corner", "Corners of these strips", or(c.Face.Corner, "butt"), option{"butt", "butted"}, option{"mitre", "mitred"}))),
		more("holes", "Holes for hose, cable and hands", b.panelHoles())}
}

func (b *builder) base() node {
	c := b.Project.Base.Caster
	in, mm := measure.Inch, measure.MM
	kind := b.choice("base.kind", "Stands on", or(b.Project.Base.Kind, "casters"), option{"casters", "casters"}, option{"feet", "feet"})
	if b.Project.Base.Kind == "feet" {
		return nodes{el("h2", text("Base")), kind, b.length("base.foot", "Feet, height", b.Project.Base.Foot, hint{}), b.level()}
	}
	return nodes{el("h2", text("Base")), kind,
		b.length("base.caster.mount", "Caster, floor to plate top", c.Mount, hint{}),
		b.mass("base.caster.rating", "One caster carries", c.Rating, ""),
		b.whole("base.caster.brakes", "Casters with a brake", c.Brakes, "0", "of four"),
		more("base", "More about the casters",
			b.name("base.caster.name", "Name", c.Name, "caster"),
			b.length("base.caster.wheel", "Wheel, diameter", c.Wheel, hint{}),
			b.length("base.caster.lead", "Swivel lead", c.Lead, hint{}),
			b.length("base.caster.plate", "Plate, longer side", c.Plate, b.usual(in*15/4, 95*mm)),
			b.mass("base.caster.weight", "One caster weighs", c.Weight, ""),
			b.spare("base.pad", "Pads glued under the bottom", b.Project.Base.Pad),
			b.level(),
			b.length("base.inset", "Plates in from the edge", b.Project.Base.Inset, b.usual(in/2, 12*mm)))}
}

// panelHoles are the holes in panels, one entry each.
func (b *builder) panelHoles() nodes {
	panels := []option{{"", "choose a panel"}}
	for _, p := range b.Cart.Parts {
		if p.Drawer == 0 && p.Door == 0 && p.Proud == 0 {
			panels = append(panels, option{string(p.ID), p.Name})
		}
	}
	out := nodes{}
	for i, h := range b.Project.Cabinet.Holes {
		pic := item(nil)
		for _, p := range b.Cart.Parts {
			if string(p.ID) == h.Panel {
				pic = holePicture(p, h)
			}
		}
		path := "cabinet.holes." + strconv.Itoa(i)
		name := or(h.Name, "Hole "+strconv.Itoa(i+1))
		out = append(out, b.entry("cabinet.holes", i, name,
			b.name(path+".name", "Name", h.Name, "hose, cable, hand"),
			b.choice(path+".panel", "In", h.Panel, panels...),
			b.length(path+".diameter", "Diameter", h.Diameter, hint{}),
			b.length(path+".along", "Middle, along the panel", h.Along, hint{note: "from its low or left end"}),
			b.length(path+".across", "Middle, across it", h.Across, hint{note: "from its front or low edge"}),
			pic, b.about(path)))
	}
	return append(out, b.add("cabinet.holes", "a hole"))
}
