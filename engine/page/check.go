package page

import (
	"strconv"

	"cartwright/engine/check"
	"cartwright/engine/measure"
)

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
		sums = append(sums, b.weights(), b.countsOn(), b.trials())
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
	mends, subs := nodes{}, nodes{}
	for i, x := range sum.Subs {
		id := key(sum.Title) + "-" + strconv.Itoa(i)
		subs = append(subs, el("details", attr{"data-keep", "sub-" + id},
			el("summary", attr{"id", "s-sub-" + id}, span("", rich(x.Title)), span("verdict plain-fact", span("", rich(x.Result)))), sumTable(x.Rows)))
	}
	for i, m := range sum.Mends {
		act := item(nil)
		switch to, ok := placeOf(m.Path); {
		case b.ReadOnly || m.Path == "":
		case m.Value == "" && ok:
			act = button("plain", do(doPlace, "to", string(to), "path", m.Path), attr{"id", "show-" + key(sum.Title) + "-" + strconv.Itoa(i)},
				attr{"aria-label", "Show the field: " + Plain(m.Text)}, text("Show"))
		case m.Value != "":
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
		el("summary", attr{"id", "s-sum-" + key(sum.Title)}, span("", rich(sum.Title)), span(class, mark, span("", rich(sum.Verdict)))),
		when2(sum.Title == b.Report.Tip.Title, b.tipping(b.Report.Tip)),
		sumTable(sum.Rows),
		when(len(mends) > 0, nodes{el("h3", text("Ways to mend it")), el("ul", attr{"class", "mends"}, mends)}),
		subs,
		when(sum.Source != "", el("p", attr{"class", "small"}, rich(sum.Source))))
}

func sumTable(rows []check.SumRow) node {
	out := nodes{}
	for _, r := range rows {
		row := el("tr", el("th", attr{"scope", "row"}, rich(r.Cause)), el("td", rich(r.Factors)), el("td", attr{"class", "result"}, rich(r.Result)))
		if r.Total {
			attr{"class", "total"}.join(row)
		}
		out = append(out, row)
	}
	return el("table", attr{"class", "check"}, el("tbody", out))
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
		b.mass("base.ballast", "Ballast on the bottom, at the back", p.Base.Ballast, "none if empty"),
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

// trials are the test cuts of each saw.
func (b *builder) trials() node {
	out := nodes{el("p", attr{"class", "small"}, text("Five test cuts tell how far a fence is off and how much a saw scatters; the odds count on it, and What the saw does says how to set it. Enter those that came out right too."))}
	for i, s := range b.Project.Shop.Saws {
		path := "shop.saws." + strconv.Itoa(i) + ".trials"
		out = append(out, el("h3", text(or(s.Name, s.Kind, "Saw "+strconv.Itoa(i+1)))))
		for k, c := range s.Trials {
			at := path + "." + strconv.Itoa(k)
			out = append(out, b.entry(path, k, "Test cut "+strconv.Itoa(k+1),
				b.length(at+".set", "Set to", c.Set, hint{}),
				b.length(at+".got", "Came out at", c.Got, hint{}),
				b.length(at+".from", "Cut from a piece of", c.From, hint{note: "for the kerf; measured before"}),
				b.length(at+".rest", "What is left of it", c.Rest, hint{note: "for the kerf"})))
		}
		out = append(out, b.add(path, "a test cut"))
	}
	return more("trials", "Test cuts of your saws", out)
}

func (b *builder) problems() string {
	n := b.Findings.Problems()
	if n == 0 {
		return "No problems found"
	}
	return count(n, "problem", "problems")
}
