package page

import (
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/work"
)

// tag is the letter of a part, in a square with one corner cut off; solid when
// all of its pieces are cut.
func tag(letter string, solid bool) node {
	class := "tag"
	if solid {
		class = "tag solid"
	}
	return span(class, text(letter))
}

// parts is the cut list: a row for each kind of part; an opened row shows the
// sum behind every size.
func (b *builder) parts() screen {
	lines := b.Cart.Lines
	if len(lines) == 0 {
		return screen{
			title:    nodes{el("h2", text("Parts"))},
			list:     empty("No parts yet. Set width and depth at Size and they appear here.", Size, "Go to Size"),
			findings: b.findingsPanel(3),
		}
	}
	from := b.homes()
	made := b.made()
	rows := nodes{}
	chosen := -1
	for i, l := range lines {
		ref := "part/" + part.Tag(i)
		open := b.Selected == ref
		if open {
			chosen = i
		}
		rows = append(rows, b.partRow(i, l, open, made[i], from[i]))
		if open {
			rows = append(rows, el("tr", attr{"class", "reason"}, el("td", attr{"colspan", "7"}, b.reasons(i, l))))
		}
	}
	pieces := 0
	for _, l := range lines {
		pieces += l.Count
	}
	title := nodes{
		el("h2", text(count(pieces, "part", "parts")+" of "+count(len(lines), "kind", "kinds"))),
		span("push"),
		button("plain", do(doCSV), attr{"id", "csv"}, text("Save as CSV")),
		button("plain", do(doPrint, "to", "parts"), attr{"id", "print-parts"}, icon(printer), text("Print")),
		button("plain", do(doPrint, "to", "labels"), attr{"id", "print-labels"}, text("Labels")),
	}
	table := el("table", attr{"class", "cutlist"}, attr{"aria-label", "Cut list, sizes in " + b.t.Unit()},
		el("thead", el("tr", el("td"), heads("part", "pcs", "along grain", "across", "thick", "from"))),
		el("tbody", rows))
	return screen{title: title, list: table, side: b.partSide(chosen, from), findings: b.findingsPanel(3)}
}

func (b *builder) partRow(i int, l part.Line, open bool, made int, from []string) node {
	cut := made >= l.Count && l.Count > 0
	ref, letter := "part/"+part.Tag(i), or(l.Tag, part.Tag(i))
	class := "row"
	if open {
		class = "row open"
	}
	act := do(doSelect, "ref", ref)
	if open {
		act = do(doSelect, "ref", "")
	}
	return el("tr", attr{"class", class}, attr{"id", "row-" + letter}, act,
		el("td", attr{"class", "letter"}, tag(letter, open || cut)),
		el("th", attr{"scope", "row"}, button("name", act, attr{"id", "open-" + letter}, attr{"aria-expanded", strconv.FormatBool(open)},
			span("sr", text(letter+", ")), text(l.Name), when(made > 0, span("cut", icon(tick), text(cutOf(made, l.Count)))))),
		el("td", attr{"class", "pcs"}, text(strconv.Itoa(l.Count))),
		el("td", attr{"class", "len"}, column(b.t, l.Length)),
		el("td", attr{"class", "wid"}, column(b.t, l.Width)),
		el("td", attr{"class", "thk"}, column(b.exactTape(l.Thick), l.Thick)),
		el("td", attr{"class", "from"}, text(strings.Join(short(from), " "))))
}

// short says "home" for pieces at home, whose names are the user's and long.
func short(names []string) []string {
	var out []string
	for _, n := range names {
		if len(n) > 4 {
			n = "home"
		}
		if len(out) == 0 || out[len(out)-1] != n {
			out = append(out, n)
		}
	}
	return out
}

// homes lists for each line of the cut list the rough pieces its parts come
// from, in the order of the plan.
func (b *builder) homes() [][]string {
	out := make([][]string, len(b.Cart.Lines))
	for _, e := range b.Steps.Ends {
		if e.Is != work.ToPart || e.Line < 0 || e.Line >= len(out) || e.Rough < 0 || e.Rough >= len(b.Steps.Rough) {
			continue
		}
		name := b.Steps.Rough[e.Rough].Name
		known := false
		for _, n := range out[e.Line] {
			known = known || n == name
		}
		if !known {
			out[e.Line] = append(out[e.Line], name)
		}
	}
	return out
}

// cutOf says how many pieces of a line are cut.
func cutOf(made, of int) string {
	if made >= of {
		return "cut"
	}
	return strconv.Itoa(made) + " cut"
}

// made counts for each line the pieces that are cut, each at its size.
func (b *builder) made() []int {
	out := b.before()
	for _, e := range b.Steps.Ends {
		if e.Is == work.ToPart && e.Line >= 0 && e.Line < len(out) && e.By != "" && b.done(e.By) && b.asPlanned(e.Piece) {
			out[e.Line]++
		}
	}
	return out
}

// reasons shows the sums behind length, width and thickness.
func (b *builder) reasons(i int, l part.Line) node {
	names := [...]string{"length", "width", "thickness"}
	sizes := [...]measure.Length{l.Length, l.Width, l.Thick}
	out := nodes{}
	for k, r := range l.Reasons {
		if len(r.Terms) == 0 {
			t := b.exactTape(sizes[k])
			switch {
			case len(l.Parts) == 0:
				out = append(out, el("p", attr{"class", "small"}, rich("The "+names[k]+" is as you gave it: "+t.Show(sizes[k])+".")))
			case k == 2:
				out = append(out, el("p", attr{"class", "small"}, rich("The thickness is that of the material: "+t.Show(sizes[k])+".")))
			}
			continue
		}
		if one := r.Terms[0]; len(r.Terms) == 1 && one.Times == 1 && r.Off == 0 {
			out = append(out, el("p", rich("The "+names[k]+" is "+b.exactTape(one.Value).Show(one.Value)+": "+one.Name+".")))
			continue
		}
		out = append(out, b.reason(r, names[k]+" of "+or(l.Tag, part.Tag(i))))
	}
	return div("reasons", out)
}

// reason is one sum as a table: number, cause; the result under a line.
func (b *builder) reason(r part.Reason, result string) node {
	rows := nodes{}
	for _, t := range r.Terms {
		name := nodes{text(t.Name)}
		v := measure.Length(t.Times) * t.Value
		switch {
		case t.Times > 1:
			name = append(nodes{text(inWords(t.Times) + " × ")}, append(bare(b.exactTape(t.Value).Show(t.Value)), text(" "+t.Name))...)
		case t.Times < -1:
			name = append(nodes{text(inWords(-t.Times) + " × ")}, append(bare(b.exactTape(t.Value).Show(t.Value)), text(" "+t.Name))...)
		}
		rows = append(rows, el("tr", el("td", column(b.exactTape(v), v)), el("th", attr{"scope", "row"}, name)))
	}
	if r.Off != 0 {
		word := "rounded up to your tape"
		if r.Off < 0 {
			word = "rounded down to your tape"
		}
		rows = append(rows, el("tr", el("td", text(b.fine(r.Off))), el("th", attr{"scope", "row"}, text(word))))
	}
	return el("table", attr{"class", "why"}, el("tbody", rows),
		el("tfoot", el("tr", el("td", column(b.exactTape(r.Result), r.Result)), el("th", attr{"scope", "row"}, text(result)))))
}

// fine shows a small difference that no tape has a mark for.
func (b *builder) fine(l measure.Length) string {
	s := b.t.ShowExact(l)
	return strings.Replace(s, "-", "\u2212", 1)
}

// partSide is what is known about the chosen part besides its sizes.
func (b *builder) partSide(i int, from [][]string) node {
	if i < 0 {
		return el("p", attr{"class", "small"}, text("Tap a part to see why it is as large as it is."))
	}
	l := b.Cart.Lines[i]
	row := func(name string, value ...item) node {
		return nodes{el("dt", text(name)), el("dd", value...)}
	}
	list := nodes{}
	pieces := strconv.Itoa(l.Count)
	if l.Count > 1 && l.Match != "" {
		pieces += ", on one setting"
	}
	list = append(list, row("Pieces", text(pieces)), row("Size", bySize(b.t, l.Length, l.Width)))
	if m, ok := b.Project.Material(l.Material); ok {
		name := or(m.Name, m.ID)
		if m.Measured != 0 && m.Measured != m.Nominal {
			name += ", measured " + b.t.ShowExact(m.Measured)
		}
		list = append(list, row("Material", rich(name)))
	} else if l.Material != "" {
		list = append(list, row("Material", text(l.Material)))
	}
	if face := b.goodFace(l); face != "" {
		list = append(list, row("Good face", text(face)))
	}
	if s := b.meets(l); s != "" {
		list = append(list, row("Meets", text(s)))
	}
	list = append(list, row("Grain", text([...]string{"along its length", "across its length", "any way"}[l.Grain])))
	if len(from[i]) > 0 {
		list = append(list, row("Rough piece", text(strings.Join(from[i], ", "))))
	}
	if cuts := b.cutsOf(i); cuts != "" {
		list = append(list, row("Cuts at the saw", text(cuts)))
	}
	if names := b.partNames(l); len(names) > 1 {
		list = append(list, row("Which", text(strings.Join(names, ", "))))
	}
	return nodes{el("h2", tag(or(l.Tag, part.Tag(i)), true), text(" "+l.Name)), el("dl", attr{"class", "data"}, list)}
}

// goodFace says which face of a line's parts shows, and which edge.
func (b *builder) goodFace(l part.Line) string {
	out := ""
	for _, p := range b.Cart.Parts {
		for _, id := range l.Parts {
			if p.ID != id {
				continue
			}
			s := draw.FaceName(design.Side{Axis: p.ThickAxis(), High: p.GoodHigh})
			if p.Front == "front edge" {
				s += ", the front edge shows"
			}
			if !strings.Contains(out, s) {
				out += "; " + s
			}
		}
	}
	return strings.TrimPrefix(out, "; ")
}

// cutsOf names the shop cuts that bring a line's parts off.
func (b *builder) cutsOf(line int) string {
	var ns []string
	for _, c := range b.Steps.Shop {
		for _, l := range c.Lines {
			if l == line {
				ns = append(ns, strconv.Itoa(c.N))
				break
			}
		}
	}
	return listed(ns)
}

func (b *builder) partNames(l part.Line) []string {
	var out []string
	for _, id := range l.Parts {
		for _, p := range b.Cart.Parts {
			if p.ID == id && p.Name != l.Name {
				out = append(out, p.Name)
				break
			}
		}
	}
	return out
}

// stockName is what a sheet of the plan is called: its material and size.
func (b *builder) stockName(l nest.Layout) string {
	if l.Stock < 0 || l.Stock >= len(b.Job.Stock) {
		return "sheet"
	}
	s := b.Job.Stock[l.Stock]
	name := s.Material
	if m, ok := b.Project.Material(s.Material); ok {
		name = or(m.Name, m.ID)
	}
	return name + ", " + b.t.Show(s.L) + " × " + b.t.Show(s.W)
}

// empty is what a place says before there is anything to show.
func empty(sentence string, to Place, label string) node {
	return div("empty", el("p", text(sentence)), button("plain", do(doPlace, "to", string(to)), attr{"id", "go-to-" + string(to)}, text(label)))
}
