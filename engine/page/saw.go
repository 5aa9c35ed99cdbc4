package page

import (
	"strconv"
	"strings"

	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/work"
)

// saw is the cut at hand, with the figure that can be read from two metres,
// and the list of all cuts.
func (b *builder) saw() screen {
	shop := b.Steps.Shop
	if len(shop) == 0 {
		return screen{
			block:    empty("No cuts yet. They appear here as soon as the parts have found their sheets.", Size, "Go to Size"),
			findings: b.findingsPanel(3),
		}
	}
	next := b.nextCut()
	made := 0
	for _, c := range shop {
		if b.done(c.ID) {
			made++
		}
	}
	mill, atMill := NextMill(b.Steps, b.State, b.Selected, next >= 0)
	s := screen{
		title: nodes{
			el("h2", text(strconv.Itoa(made+b.Past.ShopCuts)+" of "+count(len(shop)+b.Past.ShopCuts, "cut", "cuts")+" made"+b.millsMade()+b.earlier())), span("push"),
			button("plain", do(doPrint, "to", "saw"), attr{"id", "print-saw"}, icon(printer), text("Print")),
		},
		list: nodes{div("beside", smallLine(b.moves()), b.flaw()), b.bad(b.Sheet), b.cutList(next), b.millList(mill), b.reserve(), b.insured()},
	}
	if atMill {
		s.block, s.buttons = b.millBlock(mill), nodes{b.undoMill(), b.millButton(mill)}
		return s
	}
	if next < 0 && made < len(shop) {
		s.block = div("alldone", el("h2", text("Nothing more can be cut")),
			el("p", text("What the other cuts need is spoiled: plan the uncut again.")))
		s.buttons = nodes{b.undoButton(), b.otherSize()}
		return s
	}
	if next < 0 {
		s.block = div("alldone", el("h2", icon(tick), text("All "+strconv.Itoa(len(shop))+" cuts are made"+map[bool]string{true: ", and every groove and mitre"}[len(b.Steps.Mills) > 0])),
			el("p", text("Every part lies cut. Bench says what is held to what.")), b.leftover(),
			button("plain", do(doPlace, "to", string(Bench)), attr{"id", "to-bench"}, text("Go to Bench")))
		s.buttons = nodes{b.undoButton(), b.otherSize()}
		if ask := b.came(); ask != nil {
			s.buttons = ask
		}
		return s
	}
	c := shop[next]
	s.block = b.cutBlock(c)
	s.buttons = nodes{b.undoButton(), b.otherSize(), b.doneButton(c)}
	if ask := b.came(); ask != nil {
		s.buttons = ask
	}
	return s
}

// nextCut is the index of the first cut that is not made and waits for none,
// or of the one the user chose; -1 when all is cut.
func (b *builder) nextCut() int {
	first := -1
	for i, c := range b.Steps.Shop {
		if b.done(c.ID) || len(b.waits(c)) > 0 || b.so.now.Spoilt(c.Piece) {
			continue
		}
		if c.ID == b.Selected {
			return i
		}
		if first < 0 {
			first = i
		}
	}
	return first
}

// waits lists the numbers of the shop cuts that must be made before c. Store
// cuts are not among them: whoever marks c has the pieces at home.
func (b *builder) waits(c work.Cut) []string {
	var out []string
	for _, id := range c.After {
		if d, ok := b.Steps.Cut(id); ok && d.Tier == nest.ShopTier && !b.done(id) {
			out = append(out, strconv.Itoa(d.N))
		}
	}
	return out
}

// withStore is c's ID after those of the store cuts that it implies and that
// nobody has marked, in the order they were made.
func (b *builder) withStore(c work.Cut) string {
	var ids []string
	for _, id := range b.so.stands[c.ID].Waits {
		if d, ok := b.Steps.Cut(id); ok && d.Tier == nest.StoreTier {
			ids = append(ids, id)
		}
	}
	return strings.Join(append(ids, c.ID), " ")
}

// guide is what a measure is set on, as a person says it.
func guide(c work.Cut) string {
	switch c.Guide {
	case work.Stop:
		return "stop"
	case work.Track:
		return "track"
	}
	return "fence"
}

// capital is s with a large first letter.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// title is the verb and the piece: "Crosscut R2".
func cutTitle(c work.Cut) string {
	if c.Piece.Name == "" {
		return string(c.Verb) + " the sheet"
	}
	return string(c.Verb) + " " + c.Piece.Name
}

func (b *builder) cutBlock(c work.Cut) node {
	saw := or(c.Saw, c.SawIs)
	if saw == "" {
		saw = "no saw of yours takes this cut"
	}
	over := capital(guide(c)) + " at"
	if c.Guide == work.Track {
		over = "Mark at"
	}
	what := nodes{
		div("head", span("pennant", el("b", text(strconv.Itoa(c.N)))),
			div("verb", el("h2", attr{"id", "cut-title"}, text(cutTitle(c))), el("p", text(saw)))),
	}
	if c.Late && b.standNow() {
		what = append(what, el("p", attr{"class", "same"}, text("When the case stands: first measure its openings.")))
	}
	what = append(what, el("p", rich(b.ride(c))))
	if c.Same && len(c.SameAs) > 0 {
		same, leave := "Same "+guide(c)+" as ", "leave it."
		if c.Guide == work.Track {
			same, leave = "Same mark as ", "measure with one stick."
		}
		what = append(what, el("p", attr{"class", "same"}, text(same+listed(runs(c.SameAs))+": "), el("b", text(leave))))
	} else if n := b.sharers(c); n > 0 {
		s := "Leave it so for the next "
		if c.Guide == work.Track {
			s = "Keep the measure for the next "
		}
		if n > 1 {
			s += inWords(n) + " cuts."
		} else {
			s += "cut."
		}
		what = append(what, el("p", text(s)))
	}
	if say := caution(c.Cautions); say != "" { // before what may lie below the edge of the screen
		what = append(what, el("p", attr{"class", "caution"}, icon(triangle), span("", rich(say))))
	}
	what = append(what, b.comesOff(c))
	if c.Rest > 0 {
		what = append(what, el("p", rich("The other piece is to be "+b.t.Show(c.Rest)+": if it is larger, one more pass at that.")))
	}
	if strings.Contains(b.withStore(c), " ") && !b.ReadOnly {
		what = append(what, el("p", attr{"class", "aside"}, text("The store's cuts that free this piece are marked with it.")))
	}
	return nodes{
		div("measure", el("p", attr{"class", "over"}, text(over)), figure(b.t, c.Set), el("p", attr{"class", "under"}, attr{"aria-hidden", "true"}, text(b.t.Unit()))),
		div("what", what),
	}
}

// runs writes rising numbers, three or more in a row as "31 to 36".
func runs(ns []int) (out []string) {
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		if j-i < 2 {
			j = i
			out = append(out, strconv.Itoa(ns[i]))
		} else {
			out = append(out, strconv.Itoa(ns[i])+" to "+strconv.Itoa(ns[j]))
		}
		i = j + 1
	}
	return out
}

// ride says which edge rides, or where to measure from.
func (b *builder) ride(c work.Cut) string {
	is := or(c.RideIs, "edge")
	end := string(c.Ride)
	switch c.Guide {
	case work.Stop:
		return capital(is) + ", " + end + ", against the stop."
	case work.Track:
		return "Measure from the " + is + ", " + end + ". Blade beyond the mark."
	}
	return capital(is) + ", " + end + ", on the fence."
}

// moves says how often a fence or stop is moved, and what the order saves.
func (b *builder) moves() string {
	if b.Steps.Moves == 0 {
		return ""
	}
	s := "Fence and stops are moved " + count(b.Steps.Moves, "time", "times")
	if n := b.Steps.Naive; n > b.Steps.Moves {
		s += "; sheet by sheet it would be " + strconv.Itoa(n)
	}
	return s + "."
}

// smallLine is a small line, or nothing.
func smallLine(s string) node {
	if s == "" {
		return nodes{}
	}
	return el("p", attr{"class", "small"}, text(s))
}

// sharers counts the cuts right after c that are made on its setting.
func (b *builder) sharers(c work.Cut) int {
	n := 0
	for i := range b.Steps.Shop {
		d := &b.Steps.Shop[i]
		if d.N > c.N && d.Same && len(d.SameAs) > 0 && d.SameAs[0] == c.N {
			n++
		}
	}
	return n
}

// comesOff says what each piece is after the cut.
func (b *builder) comesOff(c work.Cut) node {
	var parts, rest nodes
	for i, p := range c.Makes {
		if i >= len(c.Kinds) {
			break
		}
		switch c.Kinds[i] {
		case work.ToPart:
			line := -1
			if i < len(c.Lines) {
				line = c.Lines[i]
			}
			if line < 0 || line >= len(b.Cart.Lines) {
				continue
			}
			l := b.Cart.Lines[line]
			parts = append(parts, el("p", attr{"class", "off"}, tag(or(l.Tag, part.Tag(line)), false),
				span("", text("comes off: "), el("b", text(l.Name)))))
		case work.ToCut:
			switch {
			case len(c.Makes) < 2 || p.Name == "":
			case p.Name == c.Piece.Name:
				rest = append(rest, el("p", el("b", text(p.Name)), text(" goes on: "), bySize(b.t, p.L, p.W), text(".")))
			default:
				parts = append(parts, el("p", text("Comes off: "), el("b", text(p.Name)), text(", "), bySize(b.t, p.L, p.W), text(".")))
			}
		case work.ToKeep:
			rest = append(rest, el("p", text("Keep the rest: "), bySize(b.t, p.L, p.W), text(".")))
		case work.ToWaste:
			rest = append(rest, el("p", text("What falls off is waste.")))
		}
	}
	return append(parts, rest...)
}

// yields is the end of a row: what the cut makes, in few words.
func (b *builder) yields(c work.Cut) string {
	var parts, pieces []string
	for i, k := range c.Kinds {
		if i >= len(c.Makes) {
			break
		}
		switch {
		case k == work.ToPart && i < len(c.Lines) && c.Lines[i] >= 0 && c.Lines[i] < len(b.Cart.Lines):
			l := b.Cart.Lines[c.Lines[i]]
			parts = append(parts, or(l.Tag, part.Tag(c.Lines[i]))+" "+l.Name)
		case k == work.ToCut && c.Makes[i].Name != c.Piece.Name && c.Makes[i].Name != "":
			pieces = append(pieces, c.Makes[i].Name)
		}
	}
	if len(parts) > 0 {
		return strings.Join(parts, ", ")
	}
	return strings.Join(pieces, ", ")
}

// cutList is every cut in the order of the saw. Those around the next one are
// "near": a small screen shows only them.
func (b *builder) cutList(next int) node {
	rows := b.earlierRows()
	last := -1 // the made cut before the next one
	for i := range b.Steps.Shop {
		if (next < 0 || i < next) && b.done(b.Steps.Shop[i].ID) {
			last = i
		}
	}
	for i, c := range b.Steps.Shop {
		class, note := "cut todo", ""
		done, waits := b.done(c.ID), b.waits(c)
		act := do(doMark, "cut", b.withStore(c))
		badge := item(text(strconv.Itoa(c.N)))
		state := ""
		switch {
		case done:
			class, state, badge = "cut done", "made", icon(tick)
			if is, wanted, _ := b.so.now.Came(b.Steps, c); is != wanted {
				note = "came out " + b.t.Show(is)
			}
			act = do(doSelect, "ref", c.ID)
			if c.ID == b.Selected {
				class, act = "cut done chosen", do(doSelect, "ref", "")
			}
		case i == next:
			class, state = "cut next", "next"
		case len(waits) > 0:
			class, note = "cut wait", "waits for "+listed(waits)
			act = do(doSelect, "ref", c.ID)
		}
		if b.ReadOnly {
			act = do(doSelect, "ref", c.ID)
		}
		if i == last || i == next || next >= 0 && i == next+1 {
			class += " near"
		}
		row := button("", act, attr{"id", "row-" + c.ID},
			when(i == next, attr{"aria-current", "step"}),
			when(len(waits) > 0 && !done, attr{"aria-disabled", "true"}),
			span("badge", attr{"aria-hidden", "true"}, badge),
			span("sr", text("Cut "+strconv.Itoa(c.N)+": ")),
			span("do", text(cutTitle(c)+" at "), size(b.t, c.Set)),
			when(state != "", span("sr", text(", "+state))),
			span("yield", text(or(note, b.yields(c)))))
		if s := b.standFirst(i); s != "" {
			rows = append(rows, el("li", attr{"class", "stand"}, text(s)))
		}
		rows = append(rows, el("li", attr{"class", class}, when(i == next, attr{"data-now", ""}), row))
	}
	return el("ol", attr{"class", "cuts"}, attr{"aria-label", "Cuts in order"}, rows)
}

func (b *builder) doneButton(c work.Cut) node {
	if b.ReadOnly {
		return button("done", do(doCopy), attr{"id", "done"}, text("Work on a copy to mark cuts"))
	}
	return button("done", do(doMark, "cut", b.withStore(c)), attr{"id", "done"}, attr{"aria-describedby", "cut-title"},
		icon(tick), text("Cut "+strconv.Itoa(c.N)+" is done"))
}

// undoButton takes a mark back, by name: that on the chosen cut, else the last.
func (b *builder) undoButton() node {
	c, ok := b.Steps.Cut(b.Selected)
	if !ok || !b.canUndo(c.ID) || c.Tier != nest.ShopTier {
		c, ok = b.lastMade()
	}
	if !ok || b.ReadOnly || !b.canUndo(c.ID) {
		return button("back", do(doUnmark), attr{"id", "unmark"}, attr{"disabled", ""}, icon(undo), text("Undo"))
	}
	return button("back", do(doUnmark, "cut", c.ID), attr{"id", "unmark"}, icon(undo), text("Undo "+strconv.Itoa(c.N)))
}

// sawLive is the sentence after a mark.
func (b *builder) sawLive() string {
	c, ok := b.lastMade()
	next := b.nextCut()
	switch {
	case !ok:
		return ""
	case next < 0:
		return "Cut " + strconv.Itoa(c.N) + " is done. All cuts are made."
	}
	n := b.Steps.Shop[next]
	return "Cut " + strconv.Itoa(c.N) + " is done. Next: cut " + strconv.Itoa(n.N) + ", " +
		strings.ToLower(string(n.Verb)) + " " + n.Piece.Name + " at " + b.t.Say(n.Set) + "."
}
