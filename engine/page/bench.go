package page

import (
	"strconv"

	"cartwright/engine/part"
)

// bench is the step at hand, the order of building, the drilling schedule part
// by part, and what is held to what.
func (b *builder) bench() screen {
	if len(b.Cart.Joints) == 0 {
		return screen{list: empty("No joints yet. Set width and depth at Size and they appear here.", Size, "Go to Size")}
	}
	tags := b.partTags()
	steps := b.Bench.Steps
	at, made := b.stepAt(), 0
	for _, s := range steps {
		if b.stepDone(s.ID) {
			made++
		}
	}
	s := screen{side: nodes{el("h2", text("Height, from the floor")), b.heights(), b.weighs()}, findings: b.findingsPanel(3)}
	list := nodes{}
	if i, ok := b.chosenPart(); ok {
		s.title = nodes{el("h2", attr{"data-now", ""}, tag(tags[b.Cart.Parts[i].ID], false), text(" "+b.Cart.Parts[i].Name+": holes")), span("push"),
			button("plain", do(doSelect, "ref", ""), attr{"id", "to-steps"}, text("Back to the steps"))}
		list = append(list, b.drillRows(i))
	} else if g, ok := b.guide(); ok {
		s.title = nodes{el("h2", attr{"data-now", ""}, text("Drilling guide")), span("push"),
			button("plain", do(doSelect, "ref", ""), attr{"id", "to-steps"}, text("Back to the steps"))}
		list = append(list, b.guideCard(g))
	} else if at >= 0 {
		s.title = nodes{el("h2", attr{"data-now", ""}, text("Step "+strconv.Itoa(at+1)+" of "+strconv.Itoa(len(steps))))}
		list = append(list, b.step(at, tags))
	} else if len(steps) > 0 {
		s.title = nodes{el("h2", icon(tick), text("All "+strconv.Itoa(len(steps))+" steps are done"))}
	}
	rows := nodes{}
	for i, x := range steps {
		class, badge := "cut todo", item(text(strconv.Itoa(i+1)))
		if b.stepDone(x.ID) {
			class, badge = "cut done", icon(tick)
		}
		if i == at {
			class += " next"
		}
		rows = append(rows, el("li", attr{"class", class}, button("", do(doSelect, "ref", x.ID), attr{"id", "row-" + x.ID},
			when(i == at, attr{"aria-current", "step"}), span("badge", attr{"aria-hidden", "true"}, badge),
			span("do", text(x.Title)), when(b.stepDone(x.ID), span("sr", text(", done"))))))
	}
	list = append(list, more("bench-steps", "All steps, "+strconv.Itoa(made)+" of "+strconv.Itoa(len(steps))+" done", el("ol", attr{"class", "cuts"}, rows)))
	list = append(list, el("p", attr{"class", "choice"}, button("plain", do(doPrint, "to", "bench"), attr{"id", "print-bench"}, icon(printer), text("Print steps, holes and spacers")),
		button("plain", do(doTemplate), attr{"id", "template"}, text("1:1 templates (PDF)"))), b.lostMarks(), b.drilling(tags), b.guides(), b.spacers(), b.cards(), b.finish(), b.joints(tags))
	s.list = list
	return s
}

// partTags are the letters of the parts.
func (b *builder) partTags() map[part.ID]string {
	tags := map[part.ID]string{}
	for i, l := range b.Cart.Lines {
		for _, id := range l.Parts {
			tags[id] = or(l.Tag, part.Tag(i))
		}
	}
	for _, p := range b.Cart.Parts {
		tags[p.ID] = or(tags[p.ID], "?")
	}
	return tags
}

func (b *builder) joints(tags map[part.ID]string) node {
	names := map[part.ID]string{}
	for _, p := range b.Cart.Parts {
		names[p.ID] = p.Name
	}
	groups := nodes{}
	for k := part.Butt; k <= part.Resting; k++ {
		rows := nodes{}
		for _, j := range b.Cart.Joints {
			if j.Kind != k {
				continue
			}
			rows = append(rows, el("li",
				tag(or(tags[j.A], "?"), false), span("", text(or(names[j.A], string(j.A)))),
				span("to", text("to")),
				tag(or(tags[j.B], "?"), false), span("", text(or(names[j.B], string(j.B))))))
		}
		if len(rows) > 0 {
			groups = append(groups, more("joint-"+strconv.Itoa(int(k)), capital(k.String())+" ("+strconv.Itoa(len(rows))+")",
				el("ul", attr{"class", "joints"}, rows)))
		}
	}
	return nodes{el("h2", text("What is held to what")), groups}
}

// weighs is the cart's own weight and what it rolls with.
func (b *builder) weighs() node {
	r := b.Report
	if r.Empty == 0 {
		return nodes{}
	}
	s := "The cart weighs " + b.t.ShowMass(r.Empty) + " " + b.t.MassUnit() + " empty"
	if r.Loaded > r.Empty {
		s += ", " + b.t.ShowMass(r.Loaded) + " " + b.t.MassUnit() + " loaded"
	}
	return el("p", text(s+"."))
}
