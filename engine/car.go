package engine

import (
	"cartwright/engine/check"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// thinThing is the width up to which a piece counts as a long thin thing that
// may lie over the seats (common practice, no source).
const thinThing = 8 * measure.Inch

// Car lists the rectangles that fit the car: flat on the floor through the
// opening; tilted through the opening, as far as its diagonal allows; long
// thin things over the seats. It is empty if nothing is known of the car, or
// the sheets are delivered.
func Car(p *project.Project) []nest.Size {
	c := p.Car
	if c.Delivered || c.FloorLength <= 0 {
		return nil
	}
	flat := c.FloorWidth
	if c.OpeningWidth > 0 && (flat <= 0 || c.OpeningWidth < flat) {
		flat = c.OpeningWidth
	}
	if flat <= 0 {
		flat = c.FloorLength
	}
	fits := []nest.Size{{L: c.FloorLength, W: flat}}
	if tilted := Tilted(c.OpeningWidth, c.OpeningHeight, thickest(p)); tilted > flat {
		step := measure.MM
		if !p.Measure().Metric {
			step = measure.Inch / 16
		}
		tilted -= tilted % step
		fits = append(fits, nest.Size{L: c.FloorLength, W: tilted})
	}
	if c.Longest > c.FloorLength {
		fits = append(fits, nest.Size{L: c.Longest, W: min(thinThing, flat)})
	}
	return fits
}

func thickest(p *project.Project) (t measure.Length) {
	for _, m := range p.Stock.Materials {
		t = max(t, m.Thick())
	}
	return t
}

// Tilted returns the widest panel that passes an opening tilted.
func Tilted(w, h, thick measure.Length) measure.Length { return check.Tilted(w, h, thick) }
