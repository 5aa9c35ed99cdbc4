package page

import (
	"strconv"
	"strings"

	"cartwright/engine/check"
	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// spacerText says a set-out: what it sets, and the scraps that make it or the
// block to rip.
func (b *builder) spacerText(all []work.SetOut, i int) string {
	s := all[i]
	say := strings.Join(s.Names, "; ") + ". "
	if len(s.Names) > 1 {
		say += "One spacer for all. "
	}
	var of []string
	for _, k := range s.Stack.Pieces {
		x := b.Project.Stock.Scraps[k]
		of = append(of, or(x.Name, "scrap")+" "+b.t.ShowExact(x.Thick))
	}
	switch {
	case s.Fits:
		say += "Stack " + listed(of)
		if s.Stack.Sum < s.Want {
			say += ", under by " + b.t.ShowExact(s.Want-s.Stack.Sum)
		}
		say += "."
	case len(of) > 0:
		say += "Scraps make " + b.t.ShowExact(s.Stack.Sum) + " (" + listed(of) + ") with a shim of " + b.t.ShowExact(s.Want-s.Stack.Sum) + "; or rip a block to " + b.t.Show(s.Block) + "."
	default:
		say += "Rip a block to " + b.t.Show(s.Block) + " from an offcut."
	}
	if s.Near >= 0 {
		more := b.t.ShowExact(s.By.Abs()) + " more than"
		if s.By < 0 {
			more = b.t.ShowExact(s.By.Abs()) + " less than"
		}
		say += " Near another: " + more + " " + b.t.ShowExact(all[s.Near].Want) + ", do not mix them up; a shim on the smaller makes the larger."
	}
	return capital(say)
}

// spacers lists every height and gap that a spacer sets.
func (b *builder) spacers() node {
	rows := nodes{}
	all := work.Spacers(b.Project, b.Cart)
	for i, s := range all {
		li := el("li", el("p", el("b", bare(b.t.ShowExact(s.Want))), text(" "), rich(b.spacerText(all, i))))
		if !s.Fits && s.Block > 0 && !b.ReadOnly {
			button("plain", do(doSpacer, "at", strconv.Itoa(i)), attr{"id", "spacer-" + strconv.Itoa(i)}, text("Add the block to the cut list")).join(li)
		}
		rows = append(rows, li)
	}
	if len(rows) == 0 {
		return nodes{}
	}
	return more("bench-spacers", "Spacers ("+strconv.Itoa(len(rows))+")",
		el("p", attr{"class", "small"}, text("Never over: over binds. Scraps come from Material, with their thickness as measured. Clamp a stack, no dust between.")),
		el("ul", attr{"class", "plainlist"}, rows))
}

// A pairs is names with what is said of them.
type pairs [][2]string

//go:noinline
func (p *pairs) add(name, s string) { *p = append(*p, [2]string{name, s}) }

// hangLines are the card of a drawer in words, in the order a person does it.
func (b *builder) hangLines(h work.Hanging) (rows pairs) {
	d := b.Cart.Drawers[h.Drawer]
	show := b.t.ShowExact
	ends := [2]string{"front", "back"}
	is := "as planned"
	if h.Built[0] || h.Built[1] {
		is = "as built"
	}
	rows.add("Box", b.t.Show(d.Box.Size(0))+" wide, "+b.t.Show(d.Box.Size(1))+" deep, "+b.t.Show(d.Box.Size(2))+" high")
	rows.add("Room left and right", show(h.Side[0])+" at the front, "+show(h.Side[1])+" at the back, slide included, "+is)
	if bay, box, ok := h.Line(b.Cart); ok {
		rows.add("Middle of the slides", b.t.Show(bay)+" over the bottom, "+b.t.Show(box)+" over the box's lower edge")
		rows.add("First", "slotted holes only; run it; then the round ones")
	}
	rows.add("Front", "gaps "+show(d.GapBelow)+" below, "+show(d.GapAbove)+" above, "+show(d.GapLeft)+" left, "+show(d.GapRight)+" right")
	said := false
	for i, end := range ends {
		switch {
		case h.Take[i] > 0:
			said = true
			rows.add("Binds at the "+end, "play "+strings.Replace(show(h.Play[i]), "-", "\u2212", 1)+": take "+show(h.Take[i])+" off the box there, or let a slide that much into its side")
		case h.Shim[i] > 0:
			said = true
			rows.add("Loose at the "+end, "play "+show(h.Play[i])+": shim the slides by "+show(h.Shim[i])+" together, half behind each")
		}
	}
	if !said {
		rows.add("If it binds", "measure the opening between the slides at front and back; ease the tighter slide out at its slots, or plane the box")
		rows.add("If it is loose", "a strip of card behind one slide, as thick as half the play over "+show(b.least(measure.Inch/32, measure.MM)))
	}
	rows.add("If the front leans", "loosen its four screws, set it on spacers, tighten from the middle")
	return rows
}

func (b *builder) drawerName(h work.Hanging) string {
	d := b.Cart.Drawers[h.Drawer]
	return "Drawer " + strconv.Itoa(h.Drawer+1) + ", " + b.Cart.Bays[d.Bay].Openings[d.Opening].Name
}

func (b *builder) hangList(h work.Hanging) node {
	list := nodes{}
	for _, r := range b.hangLines(h) {
		list = append(list, el("dt", text(r[0])), el("dd", rich(r[1])))
	}
	return el("dl", attr{"class", "data"}, list)
}

// cards has a card for each drawer, the lowest first: what to check, in the
// order a person does it.
func (b *builder) cards() node {
	out := nodes{}
	for _, h := range work.Hang(b.Project, b.Cart, b.State) {
		fields := nodes{}
		if !b.ReadOnly && h.ID != "" {
			planned := hint{inUse: b.Cart.Drawers[h.Drawer].Box.Size(0), note: "as planned"}
			for k, end := range [2]string{"front", "back"} {
				v := measure.Length(0)
				if h.Built[k] {
					v = h.Box[k]
				}
				fields = append(fields, b.length(work.BuiltOn(h.ID, k), "Box as built, width at the "+end, v, planned))
			}
		}
		out = append(out, more("card-"+strconv.Itoa(h.Drawer+1), b.drawerName(h), fields, b.hangList(h)))
	}
	if len(out) == 0 {
		return out
	}
	return more("bench-cards", "Hanging the drawers, the lowest first", out)
}

// area is square metres in the unit of the tape.
func (b *builder) area(m2 float64) string {
	if b.t.Metric {
		return strconv.FormatFloat(m2, 'f', 2, 64) + " m²"
	}
	return strconv.FormatFloat(m2/0.09290304, 'f', 1, 64) + " ft²"
}

// finishTitle is how much, finishText the rule and what stays bare, finishPlan
// the days it takes.
func (b *builder) finishTitle(f work.Coating) string {
	can := "quart can"
	if b.t.Metric {
		can = "can of 0.75 L"
	}
	return "Finish: " + b.area(f.Area) + ", " + count(f.Cans, can, can+"s")
}

func finishText(f work.Coating) string {
	return "Open faces of all parts, less what others cover; " + f.Rule + ", cans rounded up. What is masked is glued to: no glue holds on a finished face. It counts where a part is finished before it is built in."
}

func finishPlan(f work.Coating) (out []string) {
	for _, e := range f.Plan {
		out = append(out, "Day "+strconv.Itoa(e.At/24+1)+", hour "+strconv.Itoa(e.At%24)+": "+e.Name+", "+strconv.Itoa(e.Long)+" h")
	}
	return out
}

// noFinish is said where nothing is coated.
const noFinish = "Every sheet comes finished: nothing to coat but cut edges."

// finish is areas, cans and the days it takes.
func (b *builder) finish() node {
	f := work.Finish(b.Project, b.Cart)
	if f.Area == 0 {
		return el("p", attr{"class", "small"}, text(noFinish))
	}
	rows, plan := nodes{}, nodes{}
	for _, r := range f.Rows {
		name := r.Name
		if r.Bare {
			name += ": no coat"
		}
		rows = append(rows, el("tr", el("th", attr{"scope", "row"}, text(name)), el("td", attr{"class", "result"}, text(b.area(r.Area))), el("td", attr{"class", "result"}, text(b.area(r.Masked)))))
	}
	for _, s := range finishPlan(f) {
		plan = append(plan, el("li", text(s)))
	}
	k := check.CautionFor(check.Finishing)
	return more("bench-finish", b.finishTitle(f),
		el("table", attr{"class", "check"}, el("thead", el("tr", el("td"), heads("finish", "mask"))), el("tbody", rows)),
		el("p", attr{"class", "small"}, text(finishText(f))),
		el("p", attr{"class", "caution small"}, icon(triangle), span("", rich(k.Text()))),
		el("ul", attr{"class", "plainlist"}, plan),
		el("p", attr{"class", "field wide"}, el("label", attr{"for", "i-finish.start"}, text("Start at, for your calendar")),
			el("input", attr{"id", "i-finish.start"}, attr{"type", "datetime-local"}, do(doICS, "path", "finish.start"))))
}
