package design

import (
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// late reports whether length and width of a part follow what its opening
// measures when the case stands, and nobody has said yet: the width of boxes,
// of fronts, doors and fillers, and the height of fronts and doors. The length
// of a box is that of its slides.
func (b *builder) late(p part.Part) (out [2]bool) {
	head, rest, ok := strings.Cut(string(p.ID), "/")
	n := 0
	for _, r := range strings.TrimPrefix(head, "bay") {
		n = n*10 + int(r-'0')
	}
	if !ok || n < 1 || n > len(b.p.Cabinet.Bays) || strings.Contains(rest, "/runner") ||
		!strings.HasPrefix(rest, "drawer") && !strings.HasPrefix(rest, "door") {
		return out
	}
	m := b.p.Cabinet.Bays[n-1].Measured
	for i, a := range [2]geom.Axis{p.LengthAxis, p.WidthAxis} {
		switch {
		case a == geom.X:
			out[i] = m == nil || m.Front <= 0 && m.Back <= 0
		case a == geom.Z && p.Front == "face":
			out[i] = m == nil || m.Height <= 0
		}
	}
	return out
}

// reserve is how much larger late parts may have to be.
func (b *builder) reserve() measure.Length {
	if r := b.p.Drawers.Reserve; r != nil {
		return *r
	}
	return b.def(0, in/8, 3*mm)
}
