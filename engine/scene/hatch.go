package scene

import "slices"

// look is how a hatch is drawn.
type look struct {
	pitch   Unit // from line to line, square to them
	width   Unit
	tone    Tone
	on, off Unit // dashes, measured across the drawing; 0: solid
	rising  bool // 45°, towards the top right
	falling bool // −45°
}

var looks = [hatches]look{
	WasteHatch:  {pitch: 8 * PX, width: 24, tone: Ink2, rising: true},
	KeepHatch:   {pitch: 18 * PX, width: 16, tone: Rule, on: 6 * PX, off: 8 * PX, falling: true},
	PlyHatch:    {pitch: 4 * PX, width: 12, tone: Ink2, rising: true},
	GroundHatch: {pitch: 9 * PX, width: 16, tone: Rule, rising: true},
	TrimHatch:   {pitch: 8 * PX, width: 16, tone: Ink2, rising: true, falling: true},
}

// Width returns the width of h's lines.
func (h Hatch) Width() Unit { return looks[h].width }

// Tone returns the tone of h's lines.
func (h Hatch) Tone() Tone { return looks[h].tone }

// Strokes returns the lines of h inside the closed shape pts, by the even-odd
// rule. The lines lie on one lattice through the origin of the drawing, so
// that the hatches of neighbours meet, and do not crawl when a shape changes.
func (h Hatch) Strokes(pts []Pt) []Seg {
	l := looks[h]
	if l.pitch == 0 || len(pts) < 3 {
		return nil
	}
	var out []Seg
	if l.rising {
		out = l.strokes(out, pts, 1)
	}
	if l.falling {
		out = l.strokes(out, pts, -1)
	}
	return out
}

// strokes adds the lines x + sign·y = c for every c on the lattice.
func (l look) strokes(out []Seg, pts []Pt, sign int64) []Seg {
	side := func(p Pt) int64 { return int64(p.X) + sign*int64(p.Y) }
	lo, hi := side(pts[0]), side(pts[0])
	for _, p := range pts {
		lo, hi = min(lo, side(p)), max(hi, side(p))
	}
	step := int64(l.pitch) * 181 / 128 // √2: the way along x from line to line
	for (hi-lo)/step > most/8 {
		step *= 2
	}
	var xs []int64
	for c := floor(lo, step) + step; c < hi; c += step {
		xs = xs[:0]
		for i, b := range pts {
			a := pts[(i+len(pts)-1)%len(pts)]
			fa, fb := side(a)-c, side(b)-c
			if (fa < 0) != (fb < 0) {
				x := float64(a.X) + float64(float64(b.X)-float64(a.X))*(float64(fa)/float64(fa-fb))
				xs = append(xs, nearest(x))
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			out = l.dashes(out, xs[i], xs[i+1], c, sign)
			if len(out) > most {
				return out
			}
		}
	}
	return out
}

// dashes adds the line with x from x0 to x1, in pieces if the hatch is broken.
func (l look) dashes(out []Seg, x0, x1, c, sign int64) []Seg {
	add := func(a, b int64) {
		if a < b {
			out = append(out, Seg{Pt{Unit(a), Unit(sign * (c - a))}, Pt{Unit(b), Unit(sign * (c - b))}})
		}
	}
	period := int64(l.on + l.off)
	if period == 0 || (x1-x0)/period > most/8 {
		add(x0, x1)
		return out
	}
	// Every second line starts half a period on, as bricks are laid.
	shift := c / (int64(l.pitch) * 181 / 128) % 2 * period / 2
	for x := floor(x0-shift, period) + shift; x < x1; x += period {
		add(max(x, x0), min(x+int64(l.on), x1))
	}
	return out
}

// floor returns the largest multiple of step that is at most v.
func floor(v, step int64) int64 {
	r := v % step
	if r < 0 {
		r += step
	}
	return v - r
}

func nearest(f float64) int64 {
	if f < 0 {
		return -int64(0.5 - f)
	}
	return int64(f + 0.5)
}
