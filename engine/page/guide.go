package page

import (
	"strconv"
	"strings"

	"cartwright/engine/work"
)

// lostMarks lists what is marked as done and is no step now.
func (b *builder) lostMarks() node {
	rows := nodes{}
	for _, id := range b.Bench.Orphans(b.State) {
		rows = append(rows, el("li", text(work.StepName(id)+" "), b.markButton("plain", id, "", "Not done")))
	}
	if len(rows) == 0 {
		return rows
	}
	return more("bench-lost", "Marked, but no step now ("+strconv.Itoa(len(rows))+")", el("ul", attr{"class", "plainlist"}, rows))
}

// guide is the chosen drilling guide, by its place in the list.
func (b *builder) guide() (work.DrillGuide, bool) {
	if strings.HasPrefix(b.Selected, "guide/") {
		for _, g := range work.Guides(b.Project, b.Cart) {
			if g.ID == b.Selected {
				return g, true
			}
		}
	}
	return work.DrillGuide{}, false
}

// whom joins names that differ in their last word alone: "left slide of drawers
// 1, 2 and 3".
func whom(names []string) string {
	first, _ := cutLast(names[0])
	var ends []string
	for _, n := range names {
		head, end := cutLast(n)
		if head != first {
			return listed(names)
		}
		ends = append(ends, end)
	}
	if len(ends) == 1 {
		return names[0]
	}
	return first + "s " + listed(ends)
}

func cutLast(s string) (head, end string) {
	i := strings.LastIndexByte(s, ' ')
	return s[:max(i, 0)], s[i+1:]
}

// guideLines say of what a guide is made, where its holes are, how it lies.
func (b *builder) guideLines(g work.DrillGuide) []string {
	stop := "Stop " + b.t.Show(g.Cuts[1].Length) + " × " + b.t.Show(g.Cuts[1].Width)
	out := []string{"For " + listed(g.For) + ".", "Plate " + b.t.Show(g.Plate.Length) + " × " + b.t.Show(g.Plate.Width) + "."}
	if g.Kind == work.PullHole {
		return append(out, stop+": glue and screw it under the plate along its lower edge, half of its width beyond.",
			"Pencil a line across the plate in the middle between its holes. In use the stop lies on the edge of the front, the line on the middle of the pull's place; clamp it.")
	}
	return append(out, stop+": glue and screw it under the plate across its left end, half of its width beyond.",
		"In use the plate stands on the spacer of the slide; on an upright the stop lies on the front edge, on a box its line at "+b.t.Show(g.Setback)+" from the left end lies on the box's front. Slots first.")
}

// guideCard is the chosen guide: its lines and holes, and its pieces.
func (b *builder) guideCard(g work.DrillGuide) node {
	rows := nodes{}
	for _, s := range b.guideLines(g) {
		rows = append(rows, el("li", rich(s)))
	}
	for _, r := range g.Rows {
		rows = append(rows, b.drillRow(r, "", nodes{}))
	}
	return nodes{el("ul", attr{"class", "plainlist drills"}, rows), b.guideAdd(g)}
}

func (b *builder) guideAdd(g work.DrillGuide) node {
	if b.ReadOnly {
		return nodes{}
	}
	return button("plain", do(doGuide, "ref", g.ID), attr{"id", "add-" + g.ID}, text("Add its "+count(len(g.Cuts), "piece", "pieces")+" to the cut list"))
}

// guides lists the drilling guides.
func (b *builder) guides() node {
	rows := nodes{}
	for _, g := range work.Guides(b.Project, b.Cart) {
		rows = append(rows, el("li", attr{"class", "cut todo"}, button("", do(doSelect, "ref", g.ID), attr{"id", "row-" + g.ID}, span("do", text(capital(whom(g.For)))),
			span("yield", rich(b.t.Show(g.Plate.Length)+" × "+b.t.Show(g.Plate.Width))))))
	}
	if len(rows) == 0 {
		return rows
	}
	return more("bench-guides", "Drilling guides from offcuts ("+strconv.Itoa(len(rows))+")",
		el("p", attr{"class", "small"}, text("One for each pull and each slide, equal ones once. Tap one for its drawing, its holes and its pieces.")), el("ol", attr{"class", "cuts"}, rows))
}
