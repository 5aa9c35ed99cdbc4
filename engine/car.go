package engine

import (
	"math"

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

// Tilted returns the widest panel of the given thickness that passes a w by h
// opening tilted: at the angle of the diagonal d it may be
// d − thick × max(w/h, h/w) wide. That is a little less than the best angle
// allows, so it errs to the safe side. 0 if the opening is not known.
func Tilted(w, h, thick measure.Length) measure.Length {
	if w <= 0 || h <= 0 {
		return 0
	}
	a, b := float64(w), float64(h)
	d := math.Sqrt(float64(a*a) + float64(b*b))
	d -= float64(float64(thick) * (max(a, b) / min(a, b)))
	return max(0, measure.Length(d))
}
