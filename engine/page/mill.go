package page

import (
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/work"
)

// NextMill is the groove or mitre at hand: the chosen one, or the first that is
// not done when no cut is left to make.
func NextMill(steps work.Steps, state mark.State, chosen string, cutsLeft bool) (next work.Mill, ok bool) {
	for _, m := range steps.Mills {
		if millsDone(m, state) == len(m.IDs) {
			continue
		}
		if chosen == strings.Join(m.IDs, " ") {
			return m, true
		}
		if !ok && !cutsLeft {
			next, ok = m, true
		}
	}
	return next, ok
}

// millsDone counts the parts of m that are marked.
func millsDone(m work.Mill, state mark.State) (n int) {
	for _, id := range m.IDs {
		if _, ok := state.Step(id); ok {
			n++
		}
	}
	return n
}

// millsMade goes on the heading: ", 1 of 3 grooves and mitres".
func (b *builder) millsMade() string {
	n := 0
	for _, m := range b.Steps.Mills {
		if millsDone(m, b.State) == len(m.IDs) {
			n++
		}
	}
	if len(b.Steps.Mills) == 0 {
		return ""
	}
	return ", " + strconv.Itoa(n) + " of " + count(len(b.Steps.Mills), "groove or mitre", "grooves and mitres")
}

// millLetter names the i-th of them: a, b, … as parts are lettered.
func millLetter(i int) string { return strings.ToLower(part.Tag(i)) }

// millOf lists the parts of m: "P × 2, S and T".
func millOf(m work.Mill) string {
	var out []string
	for i, t := range m.Tags {
		if m.N[i] > 1 {
			t += " × " + strconv.Itoa(m.N[i])
		}
		out = append(out, t)
	}
	return listed(out)
}

// millWaits lists the numbers of the cuts that m waits for.
func (b *builder) millWaits(m work.Mill) (out []string) {
	for _, id := range m.After {
		if c, ok := b.Steps.Cut(id); ok && !b.done(id) {
			out = append(out, strconv.Itoa(c.N))
		}
	}
	return out
}

// millRow is what and where, in a line: "1/4 deep, 7/32 wide, 1/4 from the
// bottom edge".
func (b *builder) millRow(m work.Mill) string {
	if m.Verb == "Mitre" {
		return "45°, the long point is the part's end"
	}
	s := b.t.Show(b.t.Round(m.Deep)) + " deep, " + b.t.Show(b.t.Round(m.Wide)) + " wide, "
	if m.Set == 0 {
		return s + "along the " + m.Edge
	}
	return s + b.t.Show(b.t.Round(m.Set)) + " from the " + m.Edge
}

func (b *builder) millList(at work.Mill) node {
	rows := nodes{}
	for i, m := range b.Steps.Mills {
		class, note, id := "cut todo", "", strings.Join(m.IDs, " ")
		done, waits := millsDone(m, b.State), b.millWaits(m)
		act, badge := do(doSelect, "ref", id), item(text(millLetter(i)))
		switch {
		case done == len(m.IDs):
			class, badge, act = "cut done", icon(tick), do(doUnmark, "cut", id)
		case len(at.IDs) > 0 && at.IDs[0] == m.IDs[0]:
			class = "cut next near"
			act = do(doMark, "cut", id)
		case len(waits) > 0:
			class, note = "cut wait", "waits for cuts"
		}
		if b.ReadOnly {
			act = do(doSelect, "ref", id)
		}
		rows = append(rows, el("li", attr{"class", class}, button("", act, attr{"id", "mill-" + strconv.Itoa(i)},
			span("badge", attr{"aria-hidden", "true"}, badge),
			span("do", rich(m.Verb+" "+millOf(m)+", "+b.millRow(m))),
			span("yield", text(note)))))
	}
	if len(rows) == 0 {
		return rows
	}
	return nodes{el("h2", attr{"class", "mills"}, text("Grooves and mitres, after the cuts")),
		el("ol", attr{"class", "cuts"}, attr{"aria-label", "Grooves and mitres"}, rows)}
}

// millBlock is the groove at hand, as cutBlock is the cut.
func (b *builder) millBlock(m work.Mill) node {
	of := millOf(m)
	if len(m.Tags) > 4 {
		of = count(len(m.IDs), "part", "parts")
	}
	what := nodes{div("head", div("verb", el("h2", attr{"id", "cut-title"}, text(m.Verb+" "+of)), el("p", text(millBy(m)))))}
	if len(m.Tags) > 4 {
		what = append(what, el("p", el("b", text(millOf(m)))))
	}
	for i, s := range b.millSays(m) {
		what = append(what, el("p", rich(s)))
		if say := caution(m.Cautions); say != "" && i == 0 { // below the rest it would lie under the edge of a tablet
			what = append(what, el("p", attr{"class", "caution"}, icon(triangle), span("", rich(say))))
		}
	}
	if w := b.millWaits(m); len(w) > 0 {
		what = append(what, el("p", attr{"class", "same"}, el("b", text("Waits for "+count(len(w), "cut", "cuts")+": "+listed(w)+"."))))
	}
	over, big := millFigure(m)
	if big == 0 {
		return nodes{div("measure mill", el("p", attr{"class", "over"}, text(over)), div("figure u3", span("whole", text("45°")))), div("what", what)}
	}
	return nodes{
		div("measure mill", el("p", attr{"class", "over"}, text(over)), figure(b.t, b.t.Round(big)), el("p", attr{"class", "under"}, attr{"aria-hidden", "true"}, text(b.t.Unit()))),
		div("what", what),
	}
}

// millBy is what makes it.
func millBy(m work.Mill) string {
	switch {
	case m.Saw != "":
		return m.Saw
	case m.Verb == "Mitre":
		return "no saw of yours takes this: a mitre box and a hand saw"
	}
	return "no table saw of yours takes this: a router with a fence"
}

// millFigure is what the first pass is set to; 0 for the 45° of a mitre.
func millFigure(m work.Mill) (over string, set measure.Length) {
	switch {
	case m.Verb == "Mitre":
		return "Angle", 0
	case m.Set > 0:
		return "Fence at", m.Set
	case len(m.Fences) > 1:
		return "Board at", m.Fences[0]
	case len(m.Depths) > 0:
		return "Bit shows", m.Wide
	}
	return "Blade shows", m.Wide
}

// millSays is how it is done, step by step, with the tool that does it.
func (b *builder) millSays(m work.Mill) []string {
	if m.Verb == "Mitre" {
		how := "Mitre box, outer face against its far side"
		switch m.SawIs {
		case "mitre":
			how = "Saw turned to 45°, outer face against the fence"
		case "table":
			how = "Mitre gauge at 45°, blade upright, outer face against the gauge"
		}
		return []string{how + ": the long point lies there, at the full length. Cut a test pair from scrap and hold it to a square first.",
			count(m.Left, "end", "ends") + " at the left corner, " + strconv.Itoa(m.Right) + " at the right, mirror images: lay the parts as they will stand and mark each end first."}
	}
	show := func(ls []measure.Length) string {
		var at []string
		for _, l := range ls {
			at = append(at, b.t.Show(b.t.Round(l)))
		}
		return listed(at)
	}
	wide := b.t.Show(b.t.Round(m.Wide))
	n := len(m.Fences)
	passes := count(n, "pass", "passes") + ", all parts at each setting: "
	over := b.exactTape(m.Over).Show(m.Over)
	if m.Over == 0 {
		over = "0"
	}
	var out []string
	if n == 0 {
		depths := "Bit " + show(m.Depths[:1]) + " deep"
		if len(m.Depths) > 1 {
			depths += ", then " + show(m.Depths[1:])
		}
		out = append(out, "By hand inside face up and clamped, on a router table face down; "+m.Edge+" along the fence. "+depths+".")
	} else {
		out = append(out, "Blade "+b.t.Show(b.t.Round(m.Deep))+" high. Inside face down, "+m.Edge+" on the fence.")
	}
	const board = "Screw a board to the fence"
	switch {
	case n == 0 && m.Set > 0:
		out = append(out, "Fence "+show([]measure.Length{m.Set})+" from the bit. A bit narrower than "+wide+" takes a second pass, its fence further off by the difference.")
	case n == 0:
		out = append(out, "A rabbet bit, or a straight bit let into a board on the fence: "+wide+" of it shows.")
	case n > 1 && m.Set > 0:
		out = append(out, passes+"fence at "+show(m.Fences)+".")
	case n > 1:
		out = append(out, board+" so that the blade may touch it. "+passes+"board at "+show(m.Fences[:n-1])+" from the blade, then touching it.")
	case m.Set > 0 && over != "0":
		out = append(out, "One pass: the blade is "+over+" wider than the groove, and what goes in has that play.")
	case over != "0":
		out = append(out, board+" and let the blade rise into it by "+over+", so that "+wide+" of it shows. One pass.")
	case m.Set == 0:
		out = append(out, board+" so that the blade may touch it. One pass, touching it.")
	default:
		out = append(out, "One pass.")
	}
	fit := "Cut it in scrap first"
	switch {
	case n > 1 && m.Set > 0:
		fit += " and set the last pass by it"
	case n > 1:
		fit += " and set the first pass by it"
	}
	if m.Fits != "" {
		fit += ": " + m.Fits + " must slide in by hand"
		if m.Set == 0 {
			fit = strings.TrimSuffix(fit, "slide in by hand") + "lie flush"
		}
		if !m.Measured {
			fit += "; its thickness is not measured, so trust the scrap, not the number"
		}
	}
	out = append(out, fit+". "+wide+" wide in the plan.")
	if m.Left > 0 && m.Right > 0 {
		out = append(out, strconv.Itoa(m.Left)+" left- and "+strconv.Itoa(m.Right)+" right-handed: mark each inside face; they run in from opposite ends, the same edge on the fence.")
	}
	if m.Across {
		out = append(out, "Across the grain: score the lines with a knife.")
	}
	return out
}

// printMill is a groove on half a page, its drawing on the left.
func (b *builder) printMill(i int, m work.Mill, picture item) node {
	box := span("square")
	if millsDone(m, b.State) == len(m.IDs) {
		box = span("square ticked", icon(tick))
	}
	says := nodes{el("p", el("b", rich(capital(millBy(m))+". "+capital(b.millRow(m))+".")))}
	for _, s := range b.millSays(m) {
		says = append(says, el("p", rich(s)))
	}
	if say := caution(m.Cautions); say != "" {
		says = append(says, el("p", icon(triangle), rich(" "+say)))
	}
	return div("quarter mill", el("h2", attr{"class", "steptitle"}, box, text(" "+millLetter(i)+". "+m.Verb+" "+millOf(m))), div("sides", picture, div("", says)))
}

// undoMill takes back the last groove that is marked, else the last cut.
func (b *builder) undoMill() node {
	for i := len(b.Steps.Mills) - 1; i >= 0 && !b.ReadOnly; i-- {
		if m := b.Steps.Mills[i]; millsDone(m, b.State) == len(m.IDs) {
			return button("back", do(doUnmark, "cut", strings.Join(m.IDs, " ")), attr{"id", "unmark"}, icon(undo), text("Undo "+millLetter(i)))
		}
	}
	return b.undoButton()
}

func (b *builder) millButton(m work.Mill) node {
	switch w := b.millWaits(m); {
	case b.ReadOnly:
		return button("done", do(doCopy), attr{"id", "done"}, text("Work on a copy to mark cuts"))
	case len(w) > 0:
		return button("done", do(doSelect, "ref", ""), attr{"id", "done"}, text("Back to the cuts"))
	}
	return button("done", do(doMark, "cut", strings.Join(m.IDs, " ")), attr{"id", "done"}, attr{"aria-describedby", "cut-title"},
		icon(tick), text(m.Verb+" is done"))
}
