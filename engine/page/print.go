package page

import (
	"strconv"
	"strings"

	"cartwright/engine/part"
	"cartwright/engine/work"
)

// Print returns what goes into #print for "parts" (the cut list), "cards" (one
// store card a page), "saw" (the cuts in order, to tick off by pencil, then
// grooves and mitres two a page), "labels" (of the parts, twelve a page) or
// "bench" (steps and drilling sheets four a page, spacers, drawer cards, finish).
// drawing returns the SVG of a sheet of the plan, by its index, as package svg
// renders it in black; at the saw -1-i is groove or mitre i; at the bench it is
// that of a step, or of part i as -1-i; nil leaves drawings out. when is the
// line that says when it was printed: the caller has the clock.
func Print(v View, what, when string, drawing func(sheet int) string) string {
	if v.Project == nil {
		return ""
	}
	b := newBuilder(v)
	picture := func(sheet int) item {
		if drawing == nil {
			return nil
		}
		return div("picture", raw(drawing(sheet)))
	}
	switch what {
	case "parts":
		return html(b.printParts(when))
	case "cards":
		out := nodes{}
		sheets := b.storeSheets()
		for k, i := range sheets {
			out = append(out, b.printCard(i, k, len(sheets), when, picture(i)))
		}
		return html(out)
	case "saw":
		return html(b.printSaw(when, picture))
	case "bench":
		return html(b.printBench(when, picture))
	case "labels":
		return html(b.printLabels(when))
	}
	return ""
}

func (b *builder) foot(left, when string) node {
	return el("footer", span("", rich(or(b.Project.Name, "Cart")+". "+left)), span("", text(when)))
}

func (b *builder) printParts(when string) node {
	rows := nodes{}
	from := b.homes()
	for i, l := range b.Cart.Lines {
		name := l.Material
		if m, ok := b.Project.Material(l.Material); ok {
			name = or(m.Name, m.ID)
		}
		rows = append(rows, el("tr", el("td", span("square")),
			el("td", tag(or(l.Tag, part.Tag(i)), false)), el("th", attr{"scope", "row"}, text(l.Name), b.printWhy(l)),
			el("td", attr{"class", "pcs"}, text(strconv.Itoa(l.Count))), el("td", column(b.t, l.Length)), el("td", column(b.t, l.Width)),
			el("td", column(b.exactTape(l.Thick), l.Thick)), el("td", rich(name)), el("td", text(strings.Join(from[i], " ")))))
	}
	return el("article", attr{"class", "page list"},
		el("h1", text("Cut list")),
		el("p", attr{"class", "from"}, rich("Finished sizes, "+tapeName(b.t)+". Length runs along the grain.")),
		el("table", attr{"class", "cutlist"},
			el("thead", el("tr", el("td"), el("td"), heads("part", "pcs", "length", "width", "thick", "material", "from"))), el("tbody", rows)),
		b.foot("Cut list.", when))
}

// printWhy is what stands under a part's name on paper: its good face, and the
// sums behind its length and width.
func (b *builder) printWhy(l part.Line) node {
	out := nodes{}
	if face := b.goodFace(l); face != "" {
		out = append(out, el("small", text("Good face: "+face+".")))
	}
	for k, name := range [...]string{"Length", "Width"} {
		if r := l.Reasons[k]; len(r.Terms) > 0 {
			out = append(out, el("small", rich(name+" "+b.sumLine(r)+".")))
		}
	}
	return out
}

// sumLine is a reason in one line: "19 = 22 depth − 2 × 1 1/2 stile", or of one
// term "19: sides".
func (b *builder) sumLine(r part.Reason) string {
	if one := r.Terms[0]; len(r.Terms) == 1 && one.Times == 1 && r.Off == 0 {
		return b.exactTape(one.Value).Show(one.Value) + ": " + one.Name
	}
	out := b.exactTape(r.Result).Show(r.Result) + " ="
	for i, t := range r.Terms {
		n, v := t.Times, t.Value
		if v < 0 {
			n, v = -n, -v
		}
		switch {
		case n < 0:
			out += " \u2212"
			n = -n
		case i > 0:
			out += " +"
		}
		if n > 1 {
			out += " " + strconv.Itoa(n) + " ×"
		}
		out += " " + b.exactTape(v).Show(v) + " " + t.Name
	}
	switch {
	case r.Off < 0:
		out += ", rounded down"
	case r.Off > 0:
		out += ", rounded up"
	}
	return out
}

func (b *builder) printCard(sheet, at, of int, when string, picture item) node {
	kerf := "Saw kerf counted: " + b.t.Show(b.Job.Store.Kerf) + " " + b.t.Unit() + "."
	class := "page storecard"
	if b.storeCuts(sheet) > 4 {
		class += " many"
	}
	return el("article", attr{"class", class}, b.card(sheet, at, of, true, picture),
		b.foot("Card "+strconv.Itoa(at+1)+" of "+strconv.Itoa(of)+". "+kerf, when))
}

func (b *builder) printSaw(when string, picture func(int) item) node {
	rows := nodes{}
	for i, c := range b.Steps.Shop {
		mark := span("square")
		if b.done(c.ID) {
			mark = span("square ticked", icon(tick))
		}
		over := capital(guide(c))
		if c.Same && c.Guide == work.Track {
			over = "Same mark"
		} else if c.Same {
			over = "Same " + guide(c)
		}
		if s := b.standFirst(i); s != "" {
			rows = append(rows, el("tr", el("td"), el("td"), el("th", attr{"scope", "row"}, attr{"colspan", "4"}, text(s))))
		}
		rows = append(rows, el("tr", el("td", mark), el("td", attr{"class", "pcs"}, text(strconv.Itoa(c.N))),
			el("th", attr{"scope", "row"}, text(cutTitle(c)), el("small", rich(b.ride(c)))),
			el("td", text(over)), el("td", attr{"class", "len"}, column(b.t, c.Set)), el("td", text(b.yields(c)))))
	}
	out := nodes{el("article", attr{"class", "page list"},
		el("h1", text("Cuts at the saw, in order")),
		el("p", attr{"class", "from"}, rich(tapeName(b.t)+". Kerf counted: "+b.t.Show(b.Job.Kerf)+" "+b.t.Unit()+". "+b.moves())),
		el("table", attr{"class", "cutlist"},
			el("thead", el("tr", el("td"), heads("cut", "what", "set", "at", "comes off"))), el("tbody", rows)),
		b.foot("Cuts at the saw.", when))}
	var cells []node
	for i, m := range b.Steps.Mills {
		cells = append(cells, b.printMill(i, m, picture(-1-i)))
	}
	for i := 0; i < len(cells); i += 2 {
		out = append(out, fours("Grooves and mitres, after the cuts", cells[i:min(i+2, len(cells))], b.foot("Grooves and mitres.", when))...)
	}
	for i := range b.Plan.Sheets {
		if p := picture(i); p != nil {
			out = append(out, el("article", attr{"class", "page sheet"},
				el("h1", text("Sheet "+strconv.Itoa(i+1))), el("p", attr{"class", "from"}, rich(b.stockName(b.Plan.Sheets[i])+" "+b.t.Unit())), p,
				b.foot("Sheet "+strconv.Itoa(i+1)+" of "+strconv.Itoa(len(b.Plan.Sheets))+".", when)))
		}
	}
	return out
}
