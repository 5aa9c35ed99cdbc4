package page

import (
	"slices"
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/work"
)

// asPlanned reports whether a piece has the size it was to have.
func (b *builder) asPlanned(p mark.Piece) bool {
	l, w := b.so.now.Size(p)
	return l == p.L && w == p.W
}

// setPiece names the piece that a cut was set for, and says whether it is a
// finished part.
func (b *builder) setPiece(c work.Cut) (name string, isPart bool) {
	i := c.SetPiece()
	if c.Kinds[i] == work.ToPart && c.Lines[i] >= 0 && c.Lines[i] < len(b.Cart.Lines) {
		return or(b.Cart.Lines[c.Lines[i]].Tag, part.Tag(c.Lines[i])), true
	}
	if c.Kinds[i] == work.ToKeep || c.Makes[i].Name == "" {
		return "what came off", false
	}
	return c.Makes[i].Name, false
}

// otherSize asks what the piece measures that came off last, or of the chosen
// cut.
func (b *builder) otherSize() node {
	c, ok := b.Steps.Cut(b.Selected)
	if !ok || !b.done(c.ID) || c.Tier != nest.ShopTier {
		c, ok = b.lastMade()
	}
	if !ok || b.ReadOnly {
		return nodes{}
	}
	if _, _, lies := b.so.now.Came(b.Steps, c); !lies {
		return nodes{}
	}
	name, _ := b.setPiece(c)
	return button("plain other", do(doAsk, "cut", c.ID), attr{"id", "other-size"},
		span("", text(capital(name)+" came out at another size")))
}

// came is the one field for that, with large steps, in place of the buttons.
func (b *builder) came() node {
	c, ok := b.Steps.Cut(b.Came.Cut)
	name, wanted := b.Came.Name, b.Came.Wanted
	if !ok && name == "" || b.ReadOnly {
		return nil
	}
	if ok {
		name, _ = b.setPiece(c)
		_, wanted, _ = b.so.now.Came(b.Steps, c)
	}
	value, least := b.t.Exact(b.Came.Size), b.t.Show(b.t.Least())
	shown := b.t.Show(b.Came.Size)
	wrong, bad := b.Wrong[CamePath]
	class := "box"
	if bad {
		class = "box bad"
	}
	field := el("input", attr{"id", "i-came"}, attr{"type", "text"}, attr{"autocomplete", "off"}, attr{"enterkeyhint", "done"},
		attr{"inputmode", keyboard(b.t, field{length: true})}, do(doSet, "path", CamePath), attr{"aria-describedby", "e-came"},
		when(bad, attr{"aria-invalid", "true"}), attr{"value", or(wrong.Text, value)})
	step := func(sign, by string) node {
		return button("plain", do(doNudge, "path", CamePath, "by", by, "value", value), attr{"id", "came-" + by}, rich(sign+least))
	}
	says := el("p", attr{"id", "e-came"}, rich("Wanted "+b.t.Show(wanted)+" "+b.t.Unit()+"."))
	if bad {
		says = el("p", attr{"class", "says bad"}, attr{"id", "e-came"}, icon(triangle), span("", rich(wrong.Why)))
	}
	spoilt := nodes{}
	for i, m := range c.Makes {
		if k := c.Kinds[i]; (k == work.ToPart || k == work.ToCut) && b.so.now.Lies(b.Steps, m) {
			spoilt = append(spoilt, button("plain", do(doSpoil, "cut", c.ID, "at", strconv.Itoa(i)), attr{"id", "spoil-" + strconv.Itoa(i)},
				text(capital(or(m.Name, "this piece"))+" is spoiled")))
		}
	}
	return nodes{
		div("came",
			el("label", attr{"for", "i-came"}, text(capital(name)+" came out at")),
			step("\u2212", "-step"),
			span(class, field, when(!bad, span("shown", attr{"aria-hidden", "true"}, bare(shown)))),
			step("+", "step"), says, div("answers", spoilt)),
		button("back", do(doAsk, "cut", ""), attr{"id", "unmark"}, text("Close")),
		button("done", do(doMeasured), attr{"id", "done"}, icon(tick), span("", rich("It is "+shown))),
	}
}

// cameOut says what came out at another size, and what that means.
func (b *builder) cameOut() string {
	if !b.Held {
		return ""
	}
	var out []string
	again, fits := "", false
	earlier, _ := b.earlierParts()
	for _, m := range earlier {
		l, w := b.so.now.Size(m)
		again = or(again, m.Name)
		switch {
		case b.so.now.Spoilt(m):
			out = append(out, m.Name+" is spoiled")
		case l != m.L:
			out = append(out, m.Name+" is "+b.t.Show(l)+" long, not "+b.t.Show(m.L))
		default:
			out = append(out, m.Name+" is "+b.t.Show(w)+" wide, not "+b.t.Show(m.W))
		}
	}
	for _, c := range append(slices.Clip(b.Steps.Store), b.Steps.Shop...) {
		if !b.done(c.ID) {
			continue
		}
		for i, m := range c.Makes {
			if b.so.now.Spoilt(m) {
				out = append(out, or(m.Name, "a piece")+" is spoiled")
				if c.Kinds[i] == work.ToPart {
					again = or(again, m.Name)
				}
			}
		}
		is, wanted, _ := b.so.now.Came(b.Steps, c)
		if is == wanted {
			continue
		}
		name, isPart := b.setPiece(c)
		if out = append(out, name+" came out "+b.t.Show(is)+", not "+b.t.Show(wanted)); isPart {
			again = or(again, name)
		} else {
			fits = true
		}
	}
	if len(out) == 0 {
		return ""
	}
	if n := len(out); n > 3 {
		out = append(out[:2], strconv.Itoa(n-2)+" more are not as planned")
	}
	s := capital(strings.Join(out, "; ")) + ": plan the uncut again?"
	switch {
	case again != "":
		s += " Then a new " + again + " is cut."
	case fits:
		s += " What is cut from it would not fit."
	}
	return s
}

// before counts for each line the parts that were cut under earlier plans and
// are as they were to be.
func (b *builder) before() []int {
	_, good := b.earlierParts()
	return good
}

// earlierParts lists the parts cut under earlier plans that are spoiled or of
// another size, and counts for each line the good ones.
func (b *builder) earlierParts() (bad []mark.Piece, good []int) {
	good = make([]int, len(b.Cart.Lines))
	for i, l := range b.Cart.Lines {
		if !b.Held || i >= len(b.Job.Parts) {
			break
		}
		q := b.Job.Parts[i]
		n := l.Count - q.Count
		good[i] = max(0, n-work.MostEarlier)
		for k := range min(n, work.MostEarlier) {
			m := work.Earlier(i, k, q.L, q.W)
			if m.Name = or(l.Tag, part.Tag(i)); b.so.now.AsCut(m) {
				good[i]++
			} else {
				bad = append(bad, m)
			}
		}
	}
	return bad, good
}

// earlier says how many cuts were made under earlier plans.
func (b *builder) earlier() string {
	if n := b.Past.ShopCuts; n > 0 {
		return ", " + strconv.Itoa(n) + " before this plan"
	}
	return ""
}

// earlierRows lists them before the cuts of this plan.
func (b *builder) earlierRows() nodes {
	rows := nodes{}
	for i, n := range b.before() {
		if n == 0 {
			continue
		}
		l := b.Cart.Lines[i]
		name := or(l.Tag, part.Tag(i))
		if n > 1 {
			name = strconv.Itoa(n) + " × " + name
		}
		ref, at, class := "part/"+part.Tag(i), strconv.Itoa(i), "cut done"
		chosen := b.Selected == ref && !b.ReadOnly
		if chosen {
			class = "cut done chosen near"
		}
		rows = append(rows, el("li", attr{"class", class}, button("", do(doSelect, "ref", ref), attr{"id", "row-was-" + at},
			span("badge", attr{"aria-hidden", "true"}, icon(tick)), span("do", text(name+" "+l.Name)), span("yield", text("cut")))))
		if tag := or(l.Tag, part.Tag(i)); chosen {
			act := func(id, says string, a attrs) node { return button("plain", a, attr{"id", "was-" + id}, text(says)) }
			rows = append(rows, el("li", div("answers",
				act("spoil", capital(tag)+" is spoiled", do(doSpoil, "cut", "was/"+at+"/x")),
				act("x", "Other length", do(doAsk, "cut", "was/"+at+"/x")),
				act("y", "Other width", do(doAsk, "cut", "was/"+at+"/y")))))
		}
	}
	return rows
}
