package page

import (
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/work"
)

// NextMill is the groove or mitre at hand: the chosen one, or the first that is
// not done when no cut is left to make.
func NextMill(steps work.Steps, state mark.State, chosen string, cutsLeft bool) (work.Mill, bool) {
	for _, m := range steps.Mills {
		if millsDone(m, state) < len(m.IDs) && (!cutsLeft || chosen == strings.Join(m.IDs, " ")) {
			return m, true
		}
	}
	return work.Mill{}, false
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

// of lists the parts of m: "P ×2, S and T".
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
		act, badge := do(doSelect, "ref", id), item(text(string(rune('a'+i%26))))
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
	what := nodes{div("head", div("verb", el("h2", attr{"id", "cut-title"}, text(m.Verb+" "+of)), el("p", text(or(m.Saw, "no saw of yours takes this: a router, or chisel and plane")))))}
	if len(m.Tags) > 4 {
		what = append(what, el("p", el("b", text(millOf(m)))))
	}
	for _, s := range b.millSays(m) {
		what = append(what, el("p", rich(s)))
	}
	if w := b.millWaits(m); len(w) > 0 {
		what = append(what, el("p", attr{"class", "same"}, el("b", text("Waits for "+count(len(w), "cut", "cuts")+": "+listed(w)+"."))))
	}
	if say := caution(m.Cautions); say != "" {
		what = append(what, el("p", attr{"class", "caution"}, icon(triangle), span("", rich(say))))
	}
	over, big := "Fence at", m.Set
	switch {
	case m.Verb == "Mitre":
		return nodes{div("measure", el("p", attr{"class", "over"}, text("Blade at")), div("figure u10", span("whole", text("45°")))), div("what", what)}
	case m.Set == 0:
		over, big = "Wide", m.Wide
	case len(m.Fences) == 0:
		over = "Guide at"
	}
	return nodes{
		div("measure", el("p", attr{"class", "over"}, text(over)), figure(b.t, b.t.Round(big)), el("p", attr{"class", "under"}, attr{"aria-hidden", "true"}, text(b.t.Unit()))),
		div("what", what),
	}
}

// millSays is how it is done, step by step.
func (b *builder) millSays(m work.Mill) []string {
	var out []string
	if m.Verb == "Mitre" {
		out = append(out, "45°, to the full length at the long point. Cut a test pair from scrap and hold it to a square first.",
			count(m.Left, "end", "ends")+" at the left corner, "+strconv.Itoa(m.Right)+" at the right, mirror images: lay the parts as they will stand and mark each end first.")
		return out
	}
	out = append(out, "Blade "+b.t.Show(b.t.Round(m.Deep))+" high. Inside face down, "+m.Edge+" on the fence.")
	var at []string
	for _, f := range m.Fences {
		at = append(at, b.t.Show(b.t.Round(f)))
	}
	switch {
	case m.Set == 0 && len(at) > 0:
		out = append(out, "Screw a board to the fence so that the blade may touch it; "+count(len(at), "pass", "passes")+".")
	case len(at) == 1 && m.Over > 0:
		out = append(out, "One pass: the blade is wider than the groove, the panel has play.")
	case len(at) > 1:
		out = append(out, count(len(at), "pass", "passes")+", all parts at each setting: fence at "+listed(at)+".")
	case len(at) == 0:
		out = append(out, "Clamp a guide; depth in two steps.")
	}
	fit := "Groove a piece of scrap first"
	if m.Fits != "" {
		fit += ": " + m.Fits + " must slide in by hand"
		if !m.Measured {
			fit += "; its thickness is not measured, so trust the scrap, not the number"
		}
	}
	out = append(out, fit+". "+b.t.Show(b.t.Round(m.Wide))+" wide in the plan.")
	if m.Left > 0 && m.Right > 0 {
		out = append(out, strconv.Itoa(m.Left)+" left- and "+strconv.Itoa(m.Right)+" right-handed: mark each inside face; they run in from opposite ends, the same edge on the fence.")
	}
	if m.Across {
		out = append(out, "Across the grain: score the lines with a knife.")
	}
	return out
}

// undoMill takes back the last groove that is marked, else the last cut.
func (b *builder) undoMill() node {
	for i := len(b.Steps.Mills) - 1; i >= 0 && !b.ReadOnly; i-- {
		if m := b.Steps.Mills[i]; millsDone(m, b.State) == len(m.IDs) {
			return button("back", do(doUnmark, "cut", strings.Join(m.IDs, " ")), attr{"id", "unmark"}, icon(undo), text("Undo "+string(rune('a'+i%26))))
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
