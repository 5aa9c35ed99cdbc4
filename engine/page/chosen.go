package page

import (
	"strings"

	"cartwright/engine/part"
)

// looks are the buttons that say how the cart is seen.
func (b *builder) looks() node {
	out := nodes{}
	for _, o := range [...]option{{"front", "Front"}, {"side", "Side"}, {"plan", "Plan"}} {
		on := "false"
		if or(b.Look, "front") == o.value {
			on = "true"
		}
		out = append(out, button("plain", do(doLook, "to", o.value), attr{"id", "look-" + o.value}, attr{"aria-pressed", on}, text(o.label)))
	}
	return out
}

// chosen is what is known of the part that was tapped in the drawing at Size:
// its sizes, the sums behind them, and what it meets.
func (b *builder) chosen() node {
	for i, l := range b.Cart.Lines {
		if b.Selected != "part/"+part.Tag(i) {
			continue
		}
		return el("section", attr{"class", "chosen"}, b.partSide(i, b.homes()), b.reasons(i, l),
			el("p", button("plain", do(doPlace, "to", string(Parts)), attr{"id", "chosen-parts"}, text("To the cut list")),
				button("plain", do(doSelect, "ref", ""), attr{"id", "chosen-close"}, text("Close"))))
	}
	return nil
}

// meets lists what the first part of a line is held to, and how.
func (b *builder) meets(l part.Line) string {
	if len(l.Parts) == 0 {
		return ""
	}
	var out []string
	for _, j := range b.Cart.Joints {
		other := j.B
		if j.B == l.Parts[0] {
			other = j.A
		} else if j.A != l.Parts[0] {
			continue
		}
		for _, p := range b.Cart.Parts {
			if p.ID == other {
				out = append(out, p.Name+": "+j.Kind.String())
			}
		}
	}
	return strings.Join(out, "; ")
}
