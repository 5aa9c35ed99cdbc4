package page

import (
	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// flushLines says which strips are planed before they are glued on, and which
// are flushed after, by how much.
func (b *builder) flushLines(s work.Step, letters func([]int) string, lines *talk) {
	var first, proud []int
	for _, a := range s.Adds {
		if p := b.Cart.Parts[a.Part]; p.Proud > p.Flush && p.Flush > 0 {
			first = append(first, a.Part)
		}
	}
	each := func(list []int, say func(which string, by, thick measure.Length)) {
		for len(list) > 0 {
			var same, rest []int
			p := b.Cart.Parts[list[0]]
			for _, i := range list {
				if q := b.Cart.Parts[i]; q.Flush == p.Flush && q.Thick == p.Thick && q.Proud == p.Proud {
					same = append(same, i)
				} else {
					rest = append(rest, i)
				}
			}
			say(letters(same), p.Flush, p.Thick-p.Proud+p.Flush)
			list = rest
		}
	}
	each(first, func(which string, by, thick measure.Length) {
		lines.say("Plane " + which + " to " + b.t.ShowExact(thick) + " before glue: " + b.t.ShowExact(by) + " more than the ply.")
	})
	proud = s.Flush
	each(proud, func(which string, by, thick measure.Length) {
		line := which + ": " + b.t.ShowExact(by) + " thicker than the ply, both sides together."
		if by > b.least(measure.Inch/16, 3*measure.MM/2) {
			line += " Rout or saw most of it off first, the base flat on the ply."
		}
		lines.say(line)
	})
	if len(proud) > 0 {
		lines.say("The glue must be hard, best the next day. Scribble on the ply with a pencil, plane or sand along the strip until the scribble beside it goes, then stop: the veneer is thin.")
		if s.ID == "build/flush/case" {
			lines.say("Only then measure the openings for the boxes: a proud strip makes them narrower.")
		}
	}
}
