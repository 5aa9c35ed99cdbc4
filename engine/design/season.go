package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/stock"
)

// Swells: solid fronts grow by more than the usual gap, so that wider ones are
// planned. Args: growth (Length), gap (Length), usual gap (Length).
// Example: swells.json
const Swells issue.Code = "design.swells"

// growth is how much of a gap the solid fronts take when the air is dampest, if
// they are made when it is driest. Fronts are held in the middle: the gap
// between two loses the growth of one, the gap beside what stands still half.
func (b *builder) growth() measure.Length {
	dry, damp := b.p.Loads.Dry, b.p.Loads.Damp
	if dry <= 0 {
		dry = 30
	}
	if damp <= 0 {
		damp = 65
	}
	var need measure.Length
	for _, p := range b.cart.Parts {
		m, _ := b.p.Material(p.Material)
		if m.Kind != "solid" || p.Front != "face" || p.Drawer == 0 && p.Door == 0 {
			continue
		}
		grows := stock.Growth(p.Width, m.Species, dry, damp)
		if p.Grain == part.AlongWidth {
			grows = stock.Growth(p.Length, m.Species, dry, damp)
		}
		if p.WidthAxis == geom.X && !b.pair(p.Door) {
			grows /= 2
		}
		need = max(need, grows)
	}
	return need
}

// pair reports whether a door is one of two on its opening.
func (b *builder) pair(n int) bool {
	if n == 0 {
		return false
	}
	d := b.cart.Doors[n-1]
	for k, e := range b.cart.Doors {
		if k != n-1 && e.Bay == d.Bay && e.Opening == d.Opening {
			return true
		}
	}
	return false
}
