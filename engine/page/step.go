package page

import (
	"slices"
	"strconv"
	"strings"

	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/work"
)

// stepDone reports whether a step or a row of holes is marked.
func (b *builder) stepDone(id string) bool {
	_, ok := b.State.Step(id)
	return ok
}

// stepAt is the index of the chosen step, else of the first that is not done;
// -1 when all are.
func (b *builder) stepAt() int {
	first := -1
	for i, s := range b.Bench.Steps {
		if s.ID == b.Selected {
			return i
		}
		if first < 0 && !b.stepDone(s.ID) {
			first = i
		}
	}
	return first
}

// chosenPart is the part whose holes are shown.
func (b *builder) chosenPart() (int, bool) {
	id, ok := strings.CutPrefix(b.Selected, "drill/")
	i := slices.IndexFunc(b.Cart.Parts, func(p part.Part) bool { return string(p.ID) == id })
	return i, ok && i >= 0
}

// markButton marks a step, or takes the mark back.
func (b *builder) markButton(class, id, label, undone string) node {
	switch {
	case b.ReadOnly:
		return nodes{}
	case b.stepDone(id):
		return button("plain", do(doUnmark, "cut", id), attr{"id", "mark-" + id}, text(undone))
	}
	return button(class, do(doMark, "cut", id), attr{"id", "mark-" + id}, icon(tick), text(label))
}

// A talk is sentences, one after the other.
type talk []string

// say is called often; copies of it in line would cost some kilobytes.
//
//go:noinline
func (t *talk) say(s string) { *t = append(*t, s) }

// stepLines says a step: what to take, how it lies, with what it is fastened,
// what to read; then what it lacks in clamps.
func (b *builder) stepLines(n int, tags map[part.ID]string) (lines, lacks talk) {
	s := b.Bench.Steps[n]
	letters := func(parts []int) string {
		var out []string
		for _, i := range parts {
			if t := tags[b.Cart.Parts[i].ID]; !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
		return listed(out)
	}
	var adds []int
	for _, a := range s.Adds {
		adds = append(adds, a.Part)
	}
	if len(adds) > 1 || len(s.Have) > 0 && len(adds) > 0 {
		lines.say("Take " + letters(adds) + ", " + count(len(adds), "part", "parts") + ".")
	}
	if s.ID == "build/finish-first" {
		area := 0.0
		for _, i := range s.Have {
			area += work.Masked(b.Cart, i)
		}
		lines.say("Finish " + letters(s.Have) + " now, on all faces: a gap under " + b.t.Show(b.least(4*measure.Inch, 100*measure.MM)) + " lets no hand in later. Mask where they are glued, " + b.area(area) + ".")
	}
	lies := "It lies " + string(s.Attitude) + "."
	switch {
	case s.Attitude == work.Upright:
		lies = "It stands upright."
	case s.Attitude == work.LiesFlat:
		lies = "Work flat on the bench."
	}
	if s.Turn {
		lies = "Turn it " + string(s.Attitude) + ". Two people."
	}
	if s.Held {
		lies += " What is added does not stand alone: hold it, or clamp a block to it, until it is screwed."
	}
	if s.Attitude != "" {
		lines.say(lies)
	}
	b.flushLines(s, letters, &lines)
	if s.Glue {
		lines.say("Dry fit first, without glue. Then spread and close: " + strconv.Itoa(s.Minutes) + " min, the glue stays open for " + strconv.Itoa(work.OpenTime) + ".")
		if s.Minutes > work.OpenTime {
			lines.say("That is too long for common glue: take a slow one, or two people.")
		}
	}
	if len(s.Bare) > 0 {
		lines.say("No glue holds on a finished face: scuff " + letters(s.Bare) + " where the other part lies, or leave it masked when you finish; else count on screws alone.")
	}
	for _, c := range s.Screws {
		lines.say(b.screwText(c.Kind, c.Long, c.N) + ".")
	}
	for k, q := range s.Squares {
		name := q.Name
		if k+1 < len(s.Squares) && s.Squares[k+1].W == q.W && s.Squares[k+1].H == q.H {
			continue // both in one line
		} else if k > 0 && s.Squares[k-1].W == q.W && s.Squares[k-1].H == q.H {
			name = s.Squares[k-1].Name + " and of " + q.Name
		}
		lines.say("Diagonals of " + name + ": both " + b.t.Show(q.Diagonal) + " (" + b.t.Show(q.W) + " × " + b.t.Show(q.H) + "), within " + b.t.Show(b.least(measure.Inch/16, 3*measure.MM/2)) + ". If not, squeeze the longer one by half the difference.")
	}
	if s.Clamped > 0 {
		lines.say(strconv.Itoa(s.Clamped) + " min in clamps; the next step after " + strconv.Itoa(s.Next) + " min; full strength the next day.")
	} else if s.Glue {
		lines.say("The screws clamp it: go on at once, full strength the next day.")
	}
	for _, c := range s.Clamps {
		need := capital(count(c.Count, c.Kind+" clamp that opens", c.Kind+" clamps that open") + " to " + b.t.Show(c.Open))
		if c.Way == "" {
			lines.say(need + ": you have " + strconv.Itoa(c.Have) + ".")
			continue
		}
		lacks.say(need + " needed, you have " + strconv.Itoa(c.Have) + ". " + c.Way)
	}
	return lines, lacks
}

// step is one step of building.
func (b *builder) step(n int, tags map[part.ID]string) node {
	s := b.Bench.Steps[n]
	lines, lacks := b.stepLines(n, tags)
	rows := nodes{}
	for _, l := range lines {
		rows = append(rows, el("li", rich(l)))
	}
	out := nodes{el("h3", attr{"class", "steptitle"}, text(s.Title)), el("ul", attr{"class", "plainlist far"}, rows)}
	for _, l := range lacks {
		out = append(out, el("p", attr{"class", "says bad far"}, icon(triangle), span("", rich(l))))
	}
	for _, c := range s.Cautions {
		if k := check.CautionFor(check.Step(c)); k.Say != "" {
			out = append(out, el("p", attr{"class", "caution small"}, icon(triangle), span("", rich(k.Text()))))
		}
	}
	n1 := strconv.Itoa(n + 1)
	return append(out, el("p", attr{"class", "stick"}, b.markButton("done", s.ID, "Step "+n1+" is done", "Step "+n1+" is not done")))
}

// least is a length in round figures of either tape.
func (b *builder) least(inch, metric measure.Length) measure.Length {
	if b.t.Metric {
		return metric
	}
	return inch
}

// screwText is "12 pocket screws 1 1/4".
func (b *builder) screwText(k design.ScrewKind, long measure.Length, n int) string {
	name := [...]string{"pocket screw", "screw", "pin"}[k]
	return count(n, name, name+"s") + " " + b.screwSize(long)
}

// screwSize is the length of a screw as it is sold: in inches, or in whole
// millimetres.
func (b *builder) screwSize(long measure.Length) string {
	if b.t.Metric {
		return strconv.Itoa(int((long+measure.MM/2)/measure.MM)) + " mm"
	}
	return b.t.Show(long)
}

// drilling lists the parts that have holes, each with how many rows are done.
func (b *builder) drilling(tags map[part.ID]string) node {
	rows := nodes{}
	total, made := 0, 0
	for i, p := range b.Cart.Parts {
		n, m := 0, 0
		for _, d := range b.Bench.Drills {
			if d.Part == i {
				n++
				if b.stepDone(d.ID) {
					m++
				}
			}
		}
		total, made = total+n, made+m
		if n == 0 {
			continue
		}
		ref := "drill/" + string(p.ID)
		rows = append(rows, el("li", attr{"class", "cut todo"}, button("", do(doSelect, "ref", ref), attr{"id", "row-" + ref},
			span("badge", attr{"aria-hidden", "true"}, text(tags[p.ID])), span("do", text(b.partName(p))),
			span("yield", text(strconv.Itoa(m)+" of "+count(n, "row", "rows"))))))
	}
	return more("bench-drill", "Holes, part by part: "+strconv.Itoa(made)+" of "+count(total, "row", "rows")+" done", el("ol", attr{"class", "cuts"}, rows))
}

// partName is the name of a part, with its drawer if it has one.
func (b *builder) partName(p part.Part) string {
	if p.Drawer > 0 {
		return p.Name + ", drawer " + strconv.Itoa(p.Drawer)
	}
	return p.Name
}

// drillRows are the rows of holes of one part: the numbers first.
func (b *builder) drillRows(i int) node {
	rows := nodes{}
	for _, d := range b.Bench.Drills {
		if d.Part == i {
			rows = append(rows, b.drillRow(d, strconv.Itoa(len(rows)+1)+". ", b.markButton("plain", d.ID, "Done", "Not done")))
		}
	}
	return nodes{el("p", attr{"class", "small"}, rich("Measured from the edges named ("+tapeName(b.t)+"); halves go up.")), el("ul", attr{"class", "plainlist drills"}, rows)}
}

func (b *builder) drillRow(d work.Drill, n string, mark node) node {
	what, more := b.drillText(d)
	table := nodes{}
	places, pairs := b.places(d)
	class := "holes"
	if pairs { // a row for each hole
		class += " pairs"
		table = append(table, el("tr", heads(places[0].from, places[1].from)))
		for k := range places[0].at {
			table = append(table, el("tr", el("td", bare(places[0].at[k])), el("td", bare(places[1].at[k]))))
		}
		places = nil
	}
	for _, p := range places {
		nums := nodes{}
		for _, s := range p.at {
			nums = append(nums, span("num", bare(s)), text(" "))
		}
		table = append(table, el("tr", el("th", attr{"scope", "row"}, text(p.from)), el("td", nums)))
	}
	return el("li", el("p", el("b", text(n)), rich(what)), when(len(table) > 0, el("table", attr{"class", class}, el("tbody", table))), el("p", attr{"class", "small"}, rich(more)), mark)
}

var lowEdge = [3]string{"left edge", "front edge", "lower edge"}

// drillText says one row of holes: how many and where, then with what and when.
func (b *builder) drillText(d work.Drill) (what, more string) {
	n := len(d.Spots)
	face := ", " + edgeWord(d.Face) + " face"
	into := ""
	if d.Into >= 0 {
		into = " into " + b.partName(b.Cart.Parts[d.Into])
	}
	when := [...]string{"Flat, before assembly.", "In place.", "Last, when it has been set and tried."}[d.When]
	bit := "Bit " + b.bit(d.Dia)
	if d.Depth > 0 {
		bit += ", " + b.bit(d.Depth) + " deep"
	}
	screws := "; screws " + b.screwSize(d.Screw)
	switch d.Kind {
	case work.PocketHole:
		thread := ", coarse thread. "
		if d.Fine {
			thread = ", fine thread. "
		}
		return count(n, "pocket hole", "pocket holes") + into + face + ", jig against the " + endWord(d.Toward), "Collar on " + b.bit(d.Collar) + screws + thread + when
	case work.Clearance:
		return count(n, "clearance hole", "clearance holes") + into + face, bit + screws + "; pilot " + b.bit(measure.Inch/8) + " through it when both are clamped. " + when
	case work.FrontHole:
		return count(n, "hole", "holes") + " for the show front" + face, bit + ", a size larger lets the front move" + screws + " with washers. " + when
	case work.PinHole:
		return count(n, "pin", "pins") + " " + b.screwSize(d.Screw) + into + face, "Pencil the line first. " + when
	case work.SlotHole:
		return count(n, "slotted hole", "slotted holes") + " of a slide" + face, "Mark through the slide's own slots on this line. " + bit + ", screws no deeper. " + when
	case work.RoundHole:
		return count(n, "round hole", "round holes") + " of a slide" + face, bit + ". When the drawer runs."
	case work.PullHole:
		if d.When == work.AfterTrial {
			when = "Through the front's own holes, when the front sits right."
		}
		return count(n, "hole", "holes") + " for the pull" + face, bit + "; machine screws " + b.screwSize(d.Screw) + ". " + when
	case work.ShelfHole:
		return count(n, "hole", "holes") + " for shelf pins" + face, bit + ". " + when
	case work.CasterHole:
		return count(n, "hole", "holes") + " for a caster" + face + ", about", "Mark through its own plate. " + bit + screws + ". " + when
	case work.HingeHole:
		return count(n, "hinge", "hinges") + face + ", middle", "Mark through the hinge's own holes. " + bit + ". " + when
	case work.FootHole:
		if n == 0 {
			return "Bolts of the machine", "Stand it where it belongs and mark through its own foot; drill right through. Measured holes of the foot go in at Size, More about the machine. " + when
		}
		return count(n, "bolt", "bolts") + " of the machine" + face + ", taken from its foot", "Stand it there first: its own holes are right. " + bit + ", right through. " + when
	}
	return "A hole of " + b.t.Show(d.Dia) + " through " + b.Cart.Parts[d.Part].Name, when
}

// bit is a small length, on the tape or exactly.
func (b *builder) bit(l measure.Length) string {
	if b.t.Metric {
		return strconv.FormatFloat(l.Metres()*1000, 'f', 1, 64) + " mm"
	}
	return measure.Tape{Step: measure.Inch64}.Show(l)
}

// A placing is distances of holes from one edge.
type placing struct {
	from string
	at   []string
}

// places are the distances of a row from two edges, each once where the holes
// stand in a line; else hole by hole, one under the other.
func (b *builder) places(d work.Drill) (rows []placing, pairs bool) {
	if len(d.Spots) == 0 {
		return nil, false
	}
	ea, eb := placing{from: "from the " + endWord(design.Side{Axis: d.Along})}, placing{from: "from the " + lowEdge[d.Across]}
	add := func(to *placing, l measure.Length, once bool) {
		if s := b.t.Show(l); !once || !slices.Contains(to.at, s) {
			to.at = append(to.at, s)
		}
	}
	line := [2]bool{true, true}
	spots := slices.Clone(d.Spots) // in the order of the tape
	for i := range spots {
		for k := i; k > 0 && (spots[k].B < spots[k-1].B || spots[k].B == spots[k-1].B && spots[k].A < spots[k-1].A); k-- {
			spots[k], spots[k-1] = spots[k-1], spots[k]
		}
	}
	for _, s := range d.Spots {
		line[0] = line[0] && s.A == d.Spots[0].A
		line[1] = line[1] && s.B == d.Spots[0].B
	}
	once := line[0] || line[1] || d.Kind == work.PocketHole
	for _, s := range spots {
		add(&ea, s.A, once)
		add(&eb, s.B, once)
	}
	switch {
	case d.Kind == work.PocketHole && d.Toward.Axis == d.Along:
		return []placing{eb}, false
	case d.Kind == work.PocketHole:
		return []placing{ea}, false
	}
	return []placing{ea, eb}, !once
}

func edgeWord(s design.Side) string {
	if s.High {
		return [3]string{"right", "back", "upper"}[s.Axis]
	}
	return [3]string{"left", "front", "lower"}[s.Axis]
}

func endWord(s design.Side) string {
	if s.Axis == geom.Y {
		return edgeWord(s) + " edge"
	}
	return edgeWord(s) + " end"
}
