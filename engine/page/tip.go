package page

import (
	"strconv"

	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
)

// tipping draws the cart from its left side as the sum about tipping has it:
// the drawers that are open, what each weighs, the wheel about which it would
// fall. Nothing is drawn of a cart without drawers.
func (b *builder) tipping(tip check.Tip) node {
	c := b.Cart
	if len(tip.Out) == 0 || len(c.Drawers) == 0 {
		return nodes{}
	}
	mm := func(l measure.Length) int { return int(l / measure.MM) }
	left, high := 0, mm(c.Case.Max[geom.Z])
	for _, i := range tip.Out {
		left = min(left, mm(c.Drawers[i].Front.Min[geom.Y]-c.Drawers[i].Travel))
	}
	right := mm(c.Case.Max[geom.Y])
	for _, p := range c.Parts {
		if p.Drawer == 0 {
			right, high = max(right, mm(p.Box.Max[geom.Y])), max(high, mm(p.Box.Max[geom.Z]))
		}
	}
	edge := max(right-left, 200) / 20
	wide := right - left + 2*edge
	letters := wide / 24
	n := strconv.Itoa
	y := func(z int) int { return high + edge - z } // down from the top
	svg := el("svg", attr{"class", "tip"}, attr{"viewBox", n(left-edge) + " 0 " + n(wide) + " " + n(high+3*edge)},
		attr{"role", "img"}, attr{"aria-label", "From the left: " + count(len(tip.Out), "drawer", "drawers") + " open"},
		attr{"fill", "none"}, attr{"stroke", "currentColor"}, attr{"stroke-width", n(max(wide/180, 1))})
	box := func(g geom.Box, by measure.Length) {
		el("rect", attr{"x", n(mm(g.Min[geom.Y] - by))}, attr{"y", n(y(mm(g.Max[geom.Z])))},
			attr{"width", n(mm(g.Size(geom.Y)))}, attr{"height", n(mm(g.Size(geom.Z)))}).join(svg)
	}
	word := func(s string, x, z int) {
		el("text", attr{"x", n(x)}, attr{"y", n(y(z) + letters/3)}, attr{"font-size", n(letters)}, attr{"text-anchor", "middle"},
			attr{"fill", "currentColor"}, attr{"stroke", "none"}, text(s)).join(svg)
	}
	middle := func(g geom.Box, a geom.Axis) int { return mm(g.Min[a]+g.Max[a]) / 2 }
	box(c.Case, 0)
	for _, p := range c.Parts {
		if p.ID == "top" || p.ID == "top-2" {
			box(p.Box, 0)
		}
	}
	for _, t := range c.Things {
		if t.Kind == design.CasterThing {
			r := mm(b.Project.Base.Caster.Wheel) / 2
			el("circle", attr{"cx", n(middle(t.Box, geom.Y))}, attr{"cy", n(y(r))}, attr{"r", n(r)}).join(svg)
		}
	}
	word(b.t.ShowMass(tip.Rest)+" "+b.t.MassUnit(), middle(c.Case, geom.Y), middle(c.Case, geom.Z))
	for _, i := range tip.Out {
		d := c.Drawers[i]
		box(d.Box, d.Travel)
		box(d.Front, d.Travel)
		word(b.t.ShowMass(tip.Drawers[i])+" "+b.t.MassUnit(), middle(d.Box, geom.Y)-mm(d.Travel), middle(d.Box, geom.Z))
	}
	floor, at := y(0), int(tip.Pivot*1000)
	el("path", attr{"d", "M" + n(left-edge) + " " + n(floor) + "H" + n(right+edge)}).join(svg)
	el("path", attr{"d", "M" + n(at) + " " + n(floor) + "l" + n(edge) + " " + n(edge*3/2) + "h" + n(-2*edge) + "z"}, attr{"fill", "currentColor"}).join(svg)
	return svg
}
