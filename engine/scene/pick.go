package scene

// Touch is the least width and height of a target under a finger.
const Touch = 44 * PX

// Widen returns r grown evenly to at least d in width and height.
func (r Rect) Widen(d Unit) Rect {
	if g := d - r.W(); g > 0 {
		r.Min.X -= g / 2
		r.Max.X += g - g/2
	}
	if g := d - r.H(); g > 0 {
		r.Min.Y -= g / 2
		r.Max.Y += g - g/2
	}
	return r
}

// off returns how far p is outside r, along the longer of both axes; 0 inside.
func (r Rect) off(p Pt) Unit {
	return max(0, r.Min.X-p.X, p.X-r.Max.X, r.Min.Y-p.Y, p.Y-r.Max.Y)
}

// Pick returns the spot at p, every spot widened to [Touch].
func Pick(s Scene, p Pt) (Spot, bool) { return PickWithin(s, p, Touch) }

// PickWithin is [Pick] with spots widened to least: a renderer that has zoomed
// the drawing in divides Touch by its zoom. The last spot that holds p wins;
// but among spots that had to be widened, so that they may cover each other,
// the one wins that is nearest before widening.
func PickWithin(s Scene, p Pt, least Unit) (Spot, bool) {
	wide, narrow := -1, -1
	for i, sp := range s.Spots {
		switch w := sp.At.Widen(least); {
		case !w.Holds(p):
		case w == sp.At:
			wide = i
		case narrow < 0 || sp.At.off(p) <= s.Spots[narrow].At.off(p):
			narrow = i
		}
	}
	i := max(wide, narrow)
	if i < 0 {
		return Spot{}, false
	}
	return s.Spots[i], true
}
