package page

import (
	"strconv"
	"strings"

	"cartwright/engine/nest"
	"cartwright/engine/work"
)

// store is what to buy, one card for each sheet that the store cuts, and what
// the car takes.
func (b *builder) store() screen {
	if len(b.Plan.Sheets) == 0 {
		return screen{
			list:     empty("Nothing to buy yet. It appears here as soon as the parts have found their sheets.", Size, "Go to Size"),
			findings: b.findingsPanel(3),
			side:     b.carSide(),
		}
	}
	s := screen{
		title:    nodes{el("h2", text("To buy")), span("push"), b.accept()},
		list:     nodes{b.shopping(), b.saved(), b.quality(), b.bookOffer(), b.reserve(), b.insured()},
		findings: b.findingsPanel(3),
		side:     b.carSide(),
	}
	sheets := b.storeSheets()
	if len(sheets) == 0 {
		s.block = nodes{el("p", attr{"class", "small"}, text("Nothing is cut at the store: every piece comes as it is.")), b.counter()}
		return s
	}
	at := 0
	tabs := nodes{}
	for k, i := range sheets {
		now := item(nil)
		if i == b.Sheet {
			at, now = k, attr{"aria-current", "true"}
		}
		tabs = append(tabs, button("", do(doSheet, "at", strconv.Itoa(i)), attr{"id", "sheet-" + strconv.Itoa(i)}, now, text("Sheet "+strconv.Itoa(k+1))))
	}
	s.buttons = nodes{
		div("tabs", attr{"role", "group"}, attr{"aria-label", "Sheets"}, tabs), span("push"),
		button("plain", do(doPrint, "to", "cards"), attr{"id", "print-cards"}, icon(printer), text("Print the cards")),
	}
	s.block = nodes{b.card(sheets[at], at, len(sheets), false, nil), b.counter(), b.flaw()}
	return s
}

// storeSheets lists the indices of the plan's sheets that come from the store;
// boards that nobody cuts there are not among them.
func (b *builder) storeSheets() []int {
	var out []int
	for i, l := range b.Plan.Sheets {
		if l.Stock >= 0 && l.Stock < len(b.Job.Stock) && (b.isSheet(b.Job.Stock[l.Stock].ID) || strings.Contains(b.Job.Stock[l.Stock].ID, work.BadCorner) || b.storeCuts(i) > 0) {
			out = append(out, i)
		}
	}
	return out
}

func (b *builder) storeCuts(sheet int) int {
	n := 0
	for _, c := range b.Steps.Store {
		if c.Sheet == sheet {
			n++
		}
	}
	return n
}

// accept holds the plan, or says why it cannot be held, or that it is.
func (b *builder) accept() node {
	switch {
	case b.ReadOnly:
		return nodes{}
	case b.Held:
		return el("p", attr{"class", "held"}, icon(tick), text("In use"))
	case len(b.Plan.Left) > 0:
		return el("p", attr{"class", "held bad"}, icon(octagon), text(count(len(b.Plan.Left), "piece has", "pieces have")+" no place yet"))
	}
	return button("plain", do(doAccept), attr{"id", "accept"}, text("Use this plan"))
}

func (b *builder) shopping() node {
	rows := nodes{}
	for i, r := range b.Buy.Rows {
		total := item(text(b.money(r.Total)))
		if r.NoPrice {
			total = span("small", text("no price"))
		}
		note := r.Why
		if r.Home > 0 {
			if note != "" {
				note += "; "
			}
			note += strconv.Itoa(r.Home) + " at home"
		}
		pcs := item(text(strconv.Itoa(r.Count)))
		if r.Count == 0 {
			pcs = icon(tick)
			if r.Total == 0 {
				total = text("")
			}
		}
		if k := b.part(r); k > 0 {
			note = strconv.Itoa(k) + " bought, " + strconv.Itoa(r.Count-k) + " more to buy; " + note
		}
		rows = append(rows, el("tr", el("td", b.tickOff(i, r)),
			el("td", attr{"class", "pcs"}, pcs),
			el("th", attr{"scope", "row"}, span("", rich(r.Name)), when(note != "", el("small", rich(note)))),
			el("td", attr{"class", "money"}, total)))
	}
	if b.Buy.StoreCut != 0 {
		rows = append(rows, el("tr", el("td"), el("td"), el("th", attr{"scope", "row"}, text("Store cuts"), el("small", text(count(b.Plan.StoreCuts, "cut", "cuts")))),
			el("td", attr{"class", "money"}, text(b.money(b.Buy.StoreCut)))))
	}
	if b.Buy.Delivery != 0 {
		rows = append(rows, el("tr", el("td"), el("td"), el("th", attr{"scope", "row"}, text("Delivery")), el("td", attr{"class", "money"}, text(b.money(b.Buy.Delivery)))))
	}
	total := "Together"
	if b.Buy.Unpriced > 0 {
		total = "Together at least; " + count(b.Buy.Unpriced, "row has", "rows have") + " no price"
	}
	return el("table", attr{"class", "buy"}, attr{"aria-label", "To buy"},
		el("tbody", rows),
		el("tfoot", el("tr", el("td"), el("td"), el("th", attr{"scope", "row"}, text(total)), el("td", attr{"class", "money"}, text(b.money(b.Buy.Total))))))
}

// quality says how good the plan is, and lets the search go on or end.
func (b *builder) quality() node {
	p := b.Plan
	if b.Searching {
		return div("quality", el("p", rich(b.bestSoFar())), b.rule(), button("plain", do(doStop), attr{"id", "stop"}, text("Stop")))
	}
	further := when(!b.Held && !b.ReadOnly, button("plain", do(doMore), attr{"id", "more"}, text("Look further")))
	if p.Proven && len(p.Left) == 0 {
		s := "Proven: no plan uses fewer sheets"
		switch {
		case p.StoreCuts > 0 && p.StoreCuts <= p.LeastLeaving:
			s += ", and none on so many needs fewer store cuts"
		case p.StoreCuts > 0 && p.StoreCuts <= p.LeastCuts:
			s += ", and none that brings all of them home needs fewer store cuts"
		}
		return div("quality", el("p", icon(tick), text(s+".")), further)
	}
	s := b.bought()
	if p.AtLeast > 0 {
		s += "; fewer than " + strconv.Itoa(p.AtLeast) + " is impossible"
	}
	return div("quality", el("p", text(s+".")), further)
}

// bought counts what the bound counts: boards as well as sheets.
func (b *builder) bought() string {
	if n := b.sheets(); n != b.Plan.Bought {
		return count(b.Plan.Bought, "sheet or board", "sheets and boards")
	}
	return count(b.Plan.Bought, "sheet", "sheets")
}

// card is what the operator of the store's saw is asked to do with one sheet.
func (b *builder) card(sheet, at, of int, print bool, picture item) node {
	var cuts []work.Cut
	for _, c := range b.Steps.Store {
		if c.Sheet == sheet {
			cuts = append(cuts, c)
		}
	}
	head := "Sheet " + strconv.Itoa(at+1) + " of " + strconv.Itoa(of) + ": "
	switch n := len(cuts); n {
	case 0:
		head += "no cuts"
	case 1:
		head += "one cut, please"
	default:
		head += inWords(n) + " cuts, please"
	}
	rows := nodes{}
	var all []string
	made := len(cuts) > 0
	for _, c := range cuts {
		if !b.done(c.ID) {
			made = false
			all = append(all, c.ID)
		}
		rows = append(rows, b.cardRow(c))
	}
	out := nodes{
		el("h2", text(head)),
		el("p", attr{"class", "from"}, rich(b.sheetSays(sheet))),
		b.bad(sheet),
	}
	if picture != nil {
		out = append(out, div("", picture))
	}
	out = append(out,
		el("ol", attr{"class", "store"}, rows))
	var names []string
	for _, r := range b.Steps.Rough {
		if r.Sheet == sheet {
			names = append(names, r.Name)
		}
	}
	if len(cuts) > 0 {
		out = append(out, b.cardNotes(sheet, strings.Join(names, ", "), len(cuts)))
	}
	if print || b.ReadOnly || len(cuts) == 0 {
		return out
	}
	if made {
		last := item(nil)
		for _, c := range cuts {
			if b.canUndo(c.ID) {
				last = button("plain", do(doUnmark, "cut", c.ID), attr{"id", "unmark-store"}, icon(undo), text("Undo cut "+strconv.Itoa(c.N)))
			}
		}
		if c, ok := b.Steps.Cut(b.Came.Cut); ok && c.Tier == nest.StoreTier && c.Sheet == sheet {
			return append(out, div("made came-at-store", b.came()))
		}
		ask := nodes{}
		for _, c := range cuts {
			if _, _, lies := b.so.now.Came(b.Steps, c); lies {
				name, _ := b.setPiece(c)
				ask = append(ask, button("plain", do(doAsk, "cut", c.ID), attr{"id", "other-" + c.ID}, text(capital(name)+": another size")))
			}
		}
		return append(out, div("made", el("p", icon(tick), text("Cut at the store")), last), div("choice", ask))
	}
	return append(out, div("made", button("plain", do(doMark, "cut", strings.Join(all, " ")), attr{"id", "mark-store"},
		icon(tick), text("The store has made "+map[bool]string{true: "this cut", false: "these cuts"}[len(cuts) == 1]))))
}

// sheetSays is the second line of a card: what the sheet is, its grain, and
// how exact the cuts must be.
func (b *builder) sheetSays(sheet int) string {
	l := b.Plan.Sheets[sheet]
	s := b.stockName(l) + " " + b.t.Unit()
	switch st := b.Job.Stock[l.Stock]; st.Grain {
	case nest.Along:
		s += ", grain along the " + b.t.Show(st.L)
	case nest.Across:
		s += ", grain along the " + b.t.Show(st.W)
	}
	s += "."
	if t := b.Job.Store.Trim - b.Job.Store.Kerf; t > 0 && len(b.Steps.Store) > 0 {
		s += " Within " + b.t.Show(b.t.Floor(t)) + " " + b.t.Unit() + " is fine."
	}
	return s
}

func (b *builder) cardRow(c work.Cut) node {
	return el("li", attr{"id", "store-" + c.ID},
		span("badge square", text(strconv.Itoa(c.N))),
		div("words", el("p", attr{"class", "lead"}, rich(b.storeCut(c))), el("p", rich(b.gives(c)))),
		el("p", attr{"class", "big"}, size(b.t, c.Set), span("unit", attr{"aria-hidden", "true"}, text(b.t.Unit()))))
}

// storeCut is "Across, 48 from the left end", "Left half, along, 24 from the top".
func (b *builder) storeCut(c work.Cut) string {
	way, end := "across", " end"
	if c.Dir == nest.Y {
		way, end = "along", ""
	}
	s := way + ", " + b.t.Show(c.Set) + " from the " + string(c.Ride) + end
	if c.Piece.Name != "" {
		s = c.Piece.Name + ", " + s
	}
	return capital(s)
}

// gives names the pieces of a store cut with their sizes.
func (b *builder) gives(c work.Cut) string {
	sides := [...]string{"left", "right"}
	if c.Dir == nest.Y {
		sides = [...]string{"top", "bottom"}
	}
	var out []string
	for i, p := range c.Makes {
		if i >= len(sides) {
			break
		}
		name := p.Name
		if name == "" {
			name = "the rest"
		}
		if !strings.Contains(name, sides[i]) {
			name += " (" + sides[i] + ")"
		}
		out = append(out, name+" "+b.t.Show(p.L)+" × "+b.t.Show(p.W))
	}
	s := "Gives " + listed(out) + "."
	if c.Same {
		s = "Leave the stop. " + s
	}
	return s
}

func orList(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}
