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

// step is one step of building: what to take, how, with what, what to check.
func (b *builder) step(n int, tags map[part.ID]string) node {
	s := b.Bench.Steps[n]
	var take []string
	for _, a := range s.Adds {
		if t := tags[b.Cart.Parts[a.Part].ID]; !slices.Contains(take, t) {
			take = append(take, t)
		}
	}
	rows := nodes{}
	say := func(text string) { rows = append(rows, el("li", rich(text))) }
	if len(take) > 0 && len(s.Adds) > 1 || len(s.Have) > 0 && len(take) > 0 {
		say("Take " + listed(take) + ", " + count(len(s.Adds), "part", "parts") + ".")
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
		say(lies)
	}
	if s.Glue {
		say("Dry fit first, without glue. Then glue and close within " + strconv.Itoa(10) + " min. No glue holds on a finished face: keep it bare, or scuff it.")
	}
	for _, c := range s.Screws {
		say(b.screwText(c.Kind, c.Long, c.N) + ".")
	}
	for _, q := range s.Squares {
		say("Diagonals of " + q.Name + ": both " + b.t.Show(q.Diagonal) + " (" + b.t.Show(q.W) + " × " + b.t.Show(q.H) + "), within " + b.t.Show(b.least(measure.Inch/16, 3*measure.MM/2)) + ". If not, squeeze the longer one by half the difference.")
	}
	if s.Clamped > 0 {
		say(strconv.Itoa(s.Clamped) + " min in clamps; the next step after " + strconv.Itoa(s.Next) + " min; full strength the next day.")
	} else if s.Glue {
		say("The screws clamp it: go on at once, full strength the next day.")
	}
	out := nodes{el("h3", attr{"class", "steptitle"}, text(s.Title)), el("ul", attr{"class", "plainlist"}, rows)}
	for _, c := range s.Clamps {
		need := count(c.Count, c.Kind+" clamp that opens", c.Kind+" clamps that open") + " to " + b.t.Show(c.Open)
		if c.Way == "" {
			out = append(out, el("p", rich(capital(need)+": you have "+strconv.Itoa(c.Have)+".")))
			continue
		}
		out = append(out, el("p", attr{"class", "says bad"}, icon(triangle), span("", rich(capital(need)+" needed, you have "+strconv.Itoa(c.Have)+". "+c.Way))))
	}
	for _, c := range s.Cautions {
		if k := check.CautionFor(check.Step(c)); k.Say != "" {
			out = append(out, el("p", attr{"class", "caution small"}, icon(triangle), span("", rich(k.Text()))))
		}
	}
	n1 := strconv.Itoa(n + 1)
	return append(out, el("p", b.markButton("done", s.ID, "Step "+n1+" is done", "Step "+n1+" is not done")))
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

// drillRows are the rows of holes of one part.
func (b *builder) drillRows(i int) node {
	rows := nodes{}
	n := 0
	for _, d := range b.Bench.Drills {
		if d.Part != i {
			continue
		}
		n++
		rows = append(rows, el("li", el("p", el("b", text(strconv.Itoa(n)+". ")), rich(b.drillText(d))),
			b.markButton("plain", d.ID, "Done", "Not done")))
	}
	return nodes{el("p", attr{"class", "small"}, rich("Measured from the edges named, in "+b.t.Unit()+", to the nearest mark of your tape; halves go up.")), el("ul", attr{"class", "plainlist drills"}, rows)}
}

var lowEdge = [3]string{"left edge", "front edge", "lower edge"}

// drillText says one row of holes: how many, where, with what, when.
func (b *builder) drillText(d work.Drill) string {
	p := b.Cart.Parts[d.Part]
	n := len(d.Spots)
	face := edgeWord(d.Face) + " face"
	into := ""
	if d.Into >= 0 {
		into = " into " + b.partName(b.Cart.Parts[d.Into])
	}
	at := b.places(d)
	when := [...]string{"Flat, before assembly.", "In place.", "Last, when it has been set and tried."}[d.When]
	bit := "Bit " + b.bit(d.Dia)
	if d.Depth > 0 {
		bit += ", " + b.bit(d.Depth) + " deep"
	}
	switch d.Kind {
	case work.PocketHole:
		thread := "coarse thread"
		if d.Fine {
			thread = "fine thread"
		}
		return count(n, "pocket hole", "pocket holes") + into + ", " + face + ", jig against the " + endWord(d.Toward) + ": " + at +
			". Collar on " + b.bit(d.Collar) + "; screws " + b.screwSize(d.Screw) + ", " + thread + ". " + when
	case work.Clearance:
		return count(n, "clearance hole", "clearance holes") + into + ", " + face + ": " + at + ". " + bit + "; screws " + b.screwSize(d.Screw) + "; pilot " + b.bit(measure.Inch/8) + " through it when both are clamped. " + when
	case work.FrontHole:
		return count(n, "hole", "holes") + " for the show front, " + face + ": " + at + ". " + bit + ", a size larger lets the front move; screws " + b.screwSize(d.Screw) + " with washers. " + when
	case work.PinHole:
		return count(n, "pin", "pins") + " " + b.screwSize(d.Screw) + into + ", " + face + ": " + at + ". Pencil the line first. " + when
	case work.SlotHole:
		return count(n, "slotted hole", "slotted holes") + " of a slide, " + face + ": " + at + ". Mark through the slide's own slots on this line. " + bit + ", screws no deeper. " + when
	case work.RoundHole:
		return count(n, "round hole", "round holes") + " of a slide, " + face + ": " + at + ". " + bit + ". When the drawer runs."
	case work.PullHole:
		s := count(n, "hole", "holes") + " for the pull, " + face + ": " + at + ". " + bit + "; machine screws " + b.screwSize(d.Screw) + ". "
		if d.When == work.AfterTrial {
			return s + "Through the front's own holes, when the front sits right."
		}
		return s + when
	case work.ShelfHole:
		return count(n, "hole", "holes") + " for shelf pins, " + face + ": " + at + ". " + bit + ". " + when
	case work.CasterHole:
		return count(n, "hole", "holes") + " for a caster, " + face + ": about " + at + ". Mark through its own plate. " + bit + "; screws " + b.screwSize(d.Screw) + ". " + when
	case work.HingeHole:
		return count(n, "hinge", "hinges") + ", " + face + ", middle at " + at + ". Mark through the hinge's own holes. " + bit + ". " + when
	case work.FootHole:
		return "Bolts of the machine: stand it where it belongs and mark through its own foot; drill right through. " + when
	}
	return "A hole of " + b.t.Show(d.Dia) + " through " + p.Name + ": " + at + ". " + when
}

// bit is a small length, on the tape or exactly.
func (b *builder) bit(l measure.Length) string {
	if b.t.Metric {
		return strconv.FormatFloat(l.Metres()*1000, 'f', 1, 64) + " mm"
	}
	return measure.Tape{Step: measure.Inch64}.Show(l)
}

// places are the distances of a row from two edges.
func (b *builder) places(d work.Drill) string {
	var as, bs, both []string
	add := func(to []string, l measure.Length) []string {
		if s := b.t.Show(l); !slices.Contains(to, s) {
			return append(to, s)
		}
		return to
	}
	for _, s := range d.Spots {
		as, bs = add(as, s.A), add(bs, s.B)
		both = append(both, b.t.Show(s.A)+" × "+b.t.Show(s.B))
	}
	ea, eb := endWord(design.Side{Axis: d.Along}), lowEdge[d.Across]
	switch {
	case d.Kind == work.PocketHole && d.Toward.Axis == d.Along:
		return listed(bs) + " from the " + eb
	case d.Kind == work.PocketHole:
		return listed(as) + " from the " + ea
	case len(bs) == 1:
		return listed(as) + " from the " + ea + ", " + bs[0] + " from the " + eb
	case len(as) == 1:
		return listed(bs) + " from the " + eb + ", " + as[0] + " from the " + ea
	}
	return strings.Join(both, "; ") + " from the " + ea + " and the " + eb
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
