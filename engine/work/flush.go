package work

import "slices"

// flush adds a step in which the strips among parts that stand proud are
// brought down to the ply: once their glue is hard, and before boxes are
// measured, since a proud strip stands into the opening. A face frame that
// stands past the sides is meant to, and is left alone.
func (b *assembler) flush(id, title string, lies Attitude, parts []int) {
	s := Step{ID: id, Title: title, Have: slices.Clone(parts), Attitude: lies, Cautions: []string{"sand"}}
	for _, i := range parts {
		if b.c.Parts[i].Flush > 0 {
			s.Flush = append(s.Flush, i)
		}
	}
	if len(s.Flush) > 0 {
		b.out.Steps = append(b.out.Steps, s)
	}
}
