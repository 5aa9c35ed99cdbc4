package page

import "cartwright/engine/measure"

// level is how far the base can be screwed, and how far it may have to be.
func (b *builder) level() nodes {
	p := b.Project.Base
	return nodes{
		b.length("base.level", "Can be screwed out, and in, by", p.Level, hint{note: "to take up the floor"}),
		b.length("base.floor", "Floor higher or lower by up to", p.Floor, hint{note: "than where the height was taken; empty: it was taken where the cart will stand"}),
	}
}

// levelling is the sum of what the base must be screwed, part by part: the
// floor, and what the tape leaves, against its range.
func (b *builder) levelling() nodes {
	l := b.Cart.Levelling
	if l.Floor == 0 && l.Range == 0 {
		return nil
	}
	out := nodes{}
	row := func(word string, d measure.Length) {
		out = append(out, el("tr", attr{"class", "step"}, el("th", attr{"scope", "row"}, text(word)), el("td", column(b.exactTape(d), d))))
	}
	if l.Floor > 0 {
		row("floor, up or down", l.Floor)
		row("to screw out where it is low", l.Out)
		row("to screw in where it is high", l.In)
	}
	row("base screws out, and in, by", l.Range)
	return out
}
