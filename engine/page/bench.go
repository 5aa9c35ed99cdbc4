package page

import (
	"strconv"

	"cartwright/engine/check"
	"cartwright/engine/measure"
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
		s.title = nodes{el("h2", tag(tags[b.Cart.Parts[i].ID], false), text(" "+b.Cart.Parts[i].Name+": holes")), span("push"),
			button("plain", do(doSelect, "ref", ""), attr{"id", "to-steps"}, text("Back to the steps"))}
		list = append(list, b.drillRows(i))
	} else if at >= 0 {
		s.title = nodes{el("h2", text("Step "+strconv.Itoa(at+1)+" of "+strconv.Itoa(len(steps))))}
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
	list = append(list, el("p", button("plain", do(doPrint, "to", "bench"), attr{"id", "print-bench"}, icon(printer), text("Print steps, holes and spacers")),
		when(len(b.Cart.Drawers) > 0, button("plain", do(doTemplate), attr{"id", "template"}, text("1:1 template for the pulls (PDF)")))), b.drilling(tags), b.spacers(), b.cards(), b.finish(), b.joints(tags))
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

// check is every finding by weight, then every sum that was made: the worst
// first, each with the ways to mend it.
func (b *builder) check() screen {
	s := screen{findings: nodes{el("h2", text(b.problems())), b.findingsPanel(0)}}
	sums := nodes{}
	var n [4]int
	for _, sum := range b.Report.Sums {
		n[sum.State]++
		sums = append(sums, b.sum(sum))
	}
	if len(b.Report.Weights) > 0 {
		sums = append(sums, b.weights(), b.countsOn())
	}
	head := "Nothing checked yet"
	if len(b.Report.Sums) > 0 {
		head = strconv.Itoa(n[check.Fine]) + " fine"
		if k := n[check.Fails]; k > 0 {
			head = count(k, "check fails", "checks fail") + ", " + head
		}
		if k := n[check.NotChecked]; k > 0 {
			head += ", " + strconv.Itoa(k) + " not checked"
		}
	}
	s.title = nodes{el("h2", text(capital(head)))}
	s.list = nodes{sums, when2(len(sums) > 0, el("p", attr{"class", "small"}, text("Planning aids, by the formulas and within the limits that stand at each. Manuals, local codes and licensed practice come first.")))}
	return s
}

func when2(ok bool, n node) node {
	if ok {
		return n
	}
	return nodes{}
}

// sum is one check: what came out, and on demand how.
func (b *builder) sum(sum check.Sum) node {
	rows, mends := nodes{}, nodes{}
	for _, r := range sum.Rows {
		row := el("tr", el("th", attr{"scope", "row"}, rich(r.Cause)), el("td", rich(r.Factors)), el("td", attr{"class", "result"}, rich(r.Result)))
		if r.Total {
			attr{"class", "total"}.join(row)
		}
		rows = append(rows, row)
	}
	for i, m := range sum.Mends {
		act := item(nil)
		if m.Path != "" && !b.ReadOnly {
			act = button("plain", do(doSet, "path", m.Path, "value", m.Value), attr{"id", "try-" + key(sum.Title) + "-" + strconv.Itoa(i)},
				attr{"aria-label", "Try it: " + Plain(m.Text)}, text("Try it"))
		}
		mends = append(mends, el("li", span("", rich(m.Text+": "+m.Result)), act))
	}
	mark, class := item(icon(tick)), "verdict"
	switch sum.State {
	case check.Fails:
		mark, class = icon(triangle), "verdict bad"
	case check.NotChecked:
		mark, class = icon(square), "verdict plain-fact"
	case check.Fact:
		mark, class = nil, "verdict plain-fact"
	}
	return el("details", attr{"data-keep", "sum-" + key(sum.Title)},
		el("summary", attr{"id", "s-sum-" + key(sum.Title)}, span("", rich(sum.Title)), span(class, mark, rich(sum.Verdict))),
		when2(sum.Title == b.Report.Tip.Title, b.tipping(b.Report.Tip)),
		el("table", attr{"class", "check"}, el("tbody", rows)),
		when(len(mends) > 0, nodes{el("h3", text("Ways to mend it")), el("ul", attr{"class", "mends"}, mends)}),
		when(sum.Source != "", el("p", attr{"class", "small"}, rich(sum.Source))))
}

// key is a text as part of an id.
func key(s string) string {
	out := []byte(s)
	for i, c := range out {
		if c >= 0x80 || !isDigit(c) && (c|0x20 < 'a' || c|0x20 > 'z') {
			out[i] = '-'
		}
	}
	return string(out)
}

// weights is what everything weighs, and where the centre of gravity is.
func (b *builder) weights() node {
	r := b.Report
	table := func(head []string, rows nodes) node {
		return el("table", attr{"class", "check"}, el("thead", el("tr", el("td"), heads(head...))), el("tbody", rows))
	}
	rows := nodes{}
	for _, w := range r.Weights {
		rows = append(rows, el("tr", el("th", attr{"scope", "row"}, rich(w.Name)), el("td", rich(w.How)), el("td", attr{"class", "result"}, text(b.t.ShowMass(w.Mass)))))
	}
	lines := nodes{}
	for _, l := range r.Lines {
		lines = append(lines, el("tr", el("th", attr{"scope", "row"}, text(l.Tag+", "+l.Name)), el("td", text(strconv.Itoa(l.Count)+" ×")), el("td", attr{"class", "result"}, text(b.t.ShowMass(l.Each)))))
	}
	states := nodes{}
	for _, st := range r.States {
		at := ""
		for _, v := range st.At {
			if b.t.Metric {
				v *= 25.4
			}
			at += strconv.FormatFloat(v/0.0254, 'f', 1, 64) + "  "
		}
		states = append(states, el("tr", el("th", attr{"scope", "row"}, text(st.Name)), el("td", text(at)), el("td", attr{"class", "result"}, text(b.t.ShowMass(st.Mass)))))
	}
	unit := b.t.MassUnit()
	return el("details", attr{"data-keep", "weights"},
		el("summary", attr{"id", "s-weights"}, span("", text("Weight")), span("verdict plain-fact", text(b.t.ShowMass(r.Empty)+" "+unit+" empty, "+b.t.ShowMass(r.Loaded)+" "+unit+" loaded"))),
		table([]string{"how", unit}, append(rows, el("tr", attr{"class", "total"}, el("th", attr{"scope", "row"}, text("empty")), el("td"), el("td", attr{"class", "result"}, text(b.t.ShowMass(r.Empty)))))),
		el("h3", text("Centre of gravity")), table([]string{"right, back, up (" + b.t.Unit() + ")", unit}, states),
		el("h3", text("Each part")), table([]string{"count", unit + " each"}, lines))
}

// countsOn are the fields that the checks count on.
func (b *builder) countsOn() node {
	p := b.Project
	fields := nodes{
		b.mass("drawers.slideRating", "A pair of slides carries", p.Drawers.SlideRating, "at its length"),
		b.tickbox("drawers.interlock", "Only one drawer opens at a time", p.Drawers.Interlock),
		b.mass("loads.push", "A push at the top", p.Loads.Push, "20 lb or 9 kg if empty"),
		b.mass("loads.feed", "Work is fed in with", p.Loads.Feed, "20 lb or 9 kg if empty"),
		b.choice("loads.sag", "Limit of sag", or(p.Loads.Sag, "kcma"),
			option{"kcma", "1/16 in per foot (KCMA)"}, option{"eye", "what the eye sees: 1/32 in per foot"},
			option{"design", "0.02 in per foot at first"}, option{"l/144", "span ÷ 144"}),
		b.number("loads.creep", "Lasting sag over first sag", p.Loads.Creep, 1.5, "times"),
		b.number("loads.dry", "Driest air of the year", p.Loads.Dry, 30, "% humidity"),
		b.number("loads.damp", "Dampest", p.Loads.Damp, 65, "% humidity"),
		b.length("shop.accuracy", "A cut is right to ±", p.Shop.Accuracy, b.usual(measure.Inch/32, measure.MM*4/5)),
	}
	return more("counts-on", "What the checks count on", fields)
}

func (b *builder) problems() string {
	n := b.Findings.Problems()
	if n == 0 {
		return "No problems found"
	}
	return count(n, "problem", "problems")
}
