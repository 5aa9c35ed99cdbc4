package draw

import (
	"cartwright/engine/mark"
	"cartwright/engine/scene"
)

// bad crosses out what of a sheet must not be used.
func (s *sketch) bad(b *bed, places []mark.Piece) {
	for _, p := range places {
		if p.Sheet != b.i || !b.shows(p) {
			continue
		}
		r := b.rect(p)
		s.box(r, scene.Sheet, scene.Heavy, scene.Bad)
		s.hatch(r, scene.TrimHatch)
		s.line(scene.Heavy, scene.Bad, r.Min, r.Max)
		s.line(scene.Heavy, scene.Bad, scene.Pt{X: r.Min.X, Y: r.Max.Y}, scene.Pt{X: r.Max.X, Y: r.Min.Y})
	}
}
