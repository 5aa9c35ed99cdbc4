package page

import (
	"strconv"

	"cartwright/engine/measure"
)

// footFields are the holes in the machine's foot.
func (b *builder) footFields() node {
	m := b.Project.Machine
	out := nodes{el("h3", text("Holes in its foot")),
		el("p", attr{"class", "small"}, text("Measured on the machine, from the left and the front edge of its body; none: marked through the foot at Bench."))}
	for i, h := range m.Foot {
		path := "machine.foot." + strconv.Itoa(i)
		out = append(out, b.entry("machine.foot", i, "Hole "+strconv.Itoa(i+1),
			b.length(path+".right", "From the left edge", h.Right, hint{}), b.length(path+".back", "From the front edge", h.Back, hint{}), b.about(path)))
	}
	if len(m.Foot) > 0 {
		out = append(out, b.length("machine.bolt", "Bolts, thickness", m.Bolt, b.usual(measure.Inch*5/16, 8*measure.MM)))
	}
	return append(out, b.add("machine.foot", "a hole"))
}
