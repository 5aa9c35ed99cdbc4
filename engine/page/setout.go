package page

import (
	"strconv"
	"strings"

	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// spacers lists every height and gap that a spacer sets, with the scraps that
// make it or the block to rip.
func (b *builder) spacers() node {
	rows := nodes{}
	for i, s := range work.Spacers(b.Project, b.Cart) {
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
		li := el("li", el("p", el("b", bare(b.t.ShowExact(s.Want))), text(" "), rich(capital(say))))
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

// cards has a card for each drawer, the lowest first: what to check, in the
// order a person does it.
func (b *builder) cards() node {
	out := nodes{}
	slides := design.Slides(b.Cart)
	for n := len(b.Cart.Drawers) - 1; n >= 0; n-- {
		d := b.Cart.Drawers[n]
		row := func(name, value string) node {
			return nodes{el("dt", text(name)), el("dd", rich(value))}
		}
		list := nodes{
			row("Box", b.t.Show(d.Box.Size(geom.X))+" wide, "+b.t.Show(d.Box.Size(geom.Y))+" deep, "+b.t.Show(d.Box.Size(geom.Z))+" high; measure it as built, width at front and back"),
			row("Room beside it", b.t.ShowExact(d.Side)+" left and right, slide included"),
		}
		for _, s := range slides {
			if s.Drawer == n && !s.Right {
				bay := b.Cart.Bays[d.Bay].Inside.Min[geom.Z]
				list = append(list, row("Middle of the slides", b.t.Show(s.Holes[0][geom.Z]-bay)+" over the bottom, "+b.t.Show(s.Holes[0][geom.Z]-d.Box.Min[geom.Z])+" over the box's lower edge"),
					row("First", "slotted holes only; run it; then the round ones"))
			}
		}
		list = append(list,
			row("Front", "gaps "+b.t.ShowExact(d.GapBelow)+" below, "+b.t.ShowExact(d.GapAbove)+" above, "+b.t.ShowExact(d.GapLeft)+" left, "+b.t.ShowExact(d.GapRight)+" right"),
			row("It binds", "measure the opening between the slides at front and back; ease the tighter slide out at its slots, or plane the box"),
			row("It is loose", "a strip of card behind one slide, as thick as half the play over "+b.t.ShowExact(b.least(measure.Inch/32, measure.MM))),
			row("The front leans", "loosen its four screws, set it on spacers, tighten from the middle"))
		name := b.Cart.Bays[d.Bay].Openings[d.Opening].Name
		out = append(out, more("card-"+strconv.Itoa(n+1), "Drawer "+strconv.Itoa(n+1)+", "+name, el("dl", attr{"class", "data"}, list)))
	}
	if len(out) == 0 {
		return out
	}
	return more("bench-cards", "Hanging the drawers, the lowest first", out)
}

// finish is areas, cans and the days it takes.
func (b *builder) finish() node {
	f := work.Finish(b.Project, b.Cart)
	if f.Area == 0 {
		return el("p", attr{"class", "small"}, text("Every sheet comes finished: nothing to coat but cut edges."))
	}
	area := func(m2 float64) string {
		if b.t.Metric {
			return strconv.FormatFloat(m2, 'f', 2, 64) + " m²"
		}
		return strconv.FormatFloat(m2/0.09290304, 'f', 1, 64) + " ft²"
	}
	rows := nodes{}
	for _, r := range f.Rows {
		name := r.Name
		if r.Bare {
			name += ": no coat"
		}
		rows = append(rows, el("tr", el("th", attr{"scope", "row"}, text(name)), el("td", attr{"class", "result"}, text(area(r.Area)))))
	}
	can := "quart can"
	if b.t.Metric {
		can = "can of 0.75 L"
	}
	plan := nodes{}
	for _, e := range f.Plan {
		day, hour := e.At/24+1, e.At%24
		plan = append(plan, el("li", text("Day "+strconv.Itoa(day)+", hour "+strconv.Itoa(hour)+": "+e.Name+", "+strconv.Itoa(e.Long)+" h")))
	}
	k := check.CautionFor(check.Finishing)
	return more("bench-finish", "Finish: "+area(f.Area)+", "+count(f.Cans, can, can+"s"),
		el("table", attr{"class", "check"}, el("tbody", rows)),
		el("p", attr{"class", "small"}, text("Open faces of all parts, less where others touch them; "+f.Rule+", cans rounded up. Keep what is glued later bare: mask it.")),
		el("p", attr{"class", "caution small"}, icon(triangle), span("", rich(k.Text()))),
		el("ul", attr{"class", "plainlist"}, plan),
		el("p", attr{"class", "field wide"}, el("label", attr{"for", "i-finish.start"}, text("Start at, for your calendar")),
			el("input", attr{"id", "i-finish.start"}, attr{"type", "datetime-local"}, do(doICS, "path", "finish.start"))))
}
