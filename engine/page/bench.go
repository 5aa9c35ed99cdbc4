package page

import (
	"strconv"

	"cartwright/engine/part"
)

// bench is what is known for the bench so far: which part is held to which,
// and how; the heights.
func (b *builder) bench() screen {
	if len(b.Cart.Joints) == 0 {
		return screen{list: empty("No joints yet. Set width and depth at Size and they appear here.", Size, "Go to Size")}
	}
	tags := map[part.ID]string{}
	for i, l := range b.Cart.Lines {
		for _, id := range l.Parts {
			tags[id] = or(l.Tag, part.Tag(i))
		}
	}
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
	return screen{
		title: nodes{el("h2", text("What is held to what"))},
		list: nodes{
			el("p", attr{"class", "small"}, text("Holes, order of assembly and clamps are not planned yet. These are the joints that the plan counts on.")),
			groups},
		side: nodes{el("h2", text("Height, from the floor")), b.heights(), b.weighs()},
	}
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

// check is every finding by weight, then every sum that was made.
func (b *builder) check() screen {
	s := screen{findings: nodes{el("h2", text(b.problems())), b.findingsPanel(0)}}
	sums := nodes{}
	fine := 0
	for i, sum := range b.Report.Sums {
		if sum.OK {
			fine++
		}
		rows := nodes{}
		for _, r := range sum.Rows {
			rows = append(rows, el("tr", el("th", attr{"scope", "row"}, rich(r.Cause)), el("td", rich(r.Factors)), el("td", attr{"class", "result"}, rich(r.Result))))
		}
		mark, class := icon(tick), "verdict"
		if !sum.OK {
			mark, class = icon(triangle), "verdict bad"
		}
		key := "sum-" + strconv.Itoa(i)
		sums = append(sums, el("details", attr{"data-keep", key},
			el("summary", attr{"id", "s-" + key}, span("", rich(sum.Title)), span(class, mark, text(sum.Verdict))),
			el("table", attr{"class", "check"}, el("tbody", rows)),
			when(sum.Source != "", el("p", attr{"class", "small"}, rich(sum.Source)))))
	}
	if len(b.Report.Weights) > 0 {
		rows := nodes{}
		for _, w := range b.Report.Weights {
			rows = append(rows, el("tr", el("th", attr{"scope", "row"}, rich(w.Name)), el("td", rich(w.How)), el("td", attr{"class", "result"}, text(b.t.ShowMass(w.Mass)))))
		}
		sums = append(sums, el("details", attr{"data-keep", "weights"},
			el("summary", attr{"id", "s-weights"}, span("", text("Weight")), span("verdict plain-fact", text(b.t.ShowMass(b.Report.Empty)+" "+b.t.MassUnit()))),
			el("table", attr{"class", "check"},
				el("thead", el("tr", el("td"), el("td"), el("th", attr{"scope", "col"}, text(b.t.MassUnit())))),
				el("tbody", rows),
				el("tfoot", el("tr", el("th", attr{"scope", "row"}, text("empty")), el("td"), el("td", attr{"class", "result"}, text(b.t.ShowMass(b.Report.Empty)))))),
			when(b.Report.Loaded > b.Report.Empty, el("p", text("With its load: "+b.t.ShowMass(b.Report.Loaded)+" "+b.t.MassUnit()+".")))))
	}
	head := "Nothing checked yet"
	if n := len(b.Report.Sums); n > 0 {
		head = strconv.Itoa(fine) + " of " + count(n, "sum", "sums") + " fine"
	}
	s.title, s.list = nodes{el("h2", text(head))}, sums
	return s
}

func (b *builder) problems() string {
	n := b.Findings.Problems()
	if n == 0 {
		return "No problems found"
	}
	return count(n, "problem", "problems")
}
