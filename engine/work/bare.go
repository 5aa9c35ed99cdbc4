package work

import (
	"slices"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// finished reports whether a part's faces come with a finish.
func finished(p *project.Project, q part.Part) bool {
	m, _ := p.Material(q.Material)
	return m.Finish != "" && m.Finish != "none"
}

// onFace reports whether p meets q with a face, not with an edge.
func onFace(p, q part.Part, tol measure.Length) bool {
	a := p.ThickAxis()
	return (p.Box.Max[a]-q.Box.Min[a]).Abs() <= tol || (q.Box.Max[a]-p.Box.Min[a]).Abs() <= tol
}

// brush is the least gap that a hand with a brush or a rag gets into (common
// practice, no source).
const brush = 4 * inch

// Early lists the parts with faces that cannot be reached once the case stands:
// another part stands before them, nearer than a hand needs, over more than a
// hand's width. They are finished before they are built in.
func Early(p *project.Project, c design.Cart) []int {
	var out []int
	for i, q := range c.Parts {
		hidden := false
		for k, o := range c.Parts {
			if i == k || q.Drawer > 0 || o.Drawer > 0 || q.Door > 0 || o.Door > 0 || q.Loose || o.Loose {
				continue
			}
			for a := geom.X; a <= geom.Z; a++ {
				air := q.Box.Intersect(o.Box)
				air.Min[a], air.Max[a] = air.Max[a], air.Min[a]
				if g := air.Size(a); g > c.Tape.Least() && g < brush && air.Size((a+1)%3) > brush && air.Size((a+2)%3) > brush {
					hidden = hidden || !slices.ContainsFunc(c.Parts, func(x part.Part) bool { return x.Drawer == 0 && x.Box.Overlaps(air) })
				}
			}
		}
		if hidden && !finished(p, q) {
			out = append(out, i)
		}
	}
	return out
}

// bare notes in a step which parts take glue on a finished face. Where no screw
// holds the joint besides, glue alone would have to: that is told.
func (b *assembler) bare(s *Step, j part.Joint, x, y int, screwed bool) {
	if j.Kind == part.LetIn { // a groove is cut through the finish
		return
	}
	for _, k := range [2][2]int{{x, y}, {y, x}} {
		p, q := b.c.Parts[k[0]], b.c.Parts[k[1]]
		if !finished(b.p, p) && !slices.Contains(b.early, k[0]) || !onFace(p, q, b.c.Tape.Least()) {
			continue
		}
		if !slices.Contains(s.Bare, k[0]) {
			s.Bare = append(s.Bare, k[0])
		}
		if !screwed && finished(b.p, p) && !slices.ContainsFunc(b.out.Findings, func(f issue.Finding) bool { return f.Code == FaceGlue && f.Where[0] == string(p.ID) }) {
			b.out.Findings.Add(issue.Note, FaceGlue, []string{string(p.ID), string(q.ID)}, p.Name, q.Name)
		}
	}
}

// Masked returns the area of part i that other parts are glued to, in m²: it is
// left bare when the part is finished before it is built in.
func Masked(c design.Cart, i int) float64 {
	var sum measure.Area
	for n, j := range c.Joints {
		if j.A != c.Parts[i].ID && j.B != c.Parts[i].ID || !Glues(c, n) {
			continue
		}
		for k, q := range c.Parts {
			if k != i && (q.ID == j.A || q.ID == j.B) {
				sum += cover(c.Parts[i].Box, q.Box)
			}
		}
	}
	return sum.SquareMetres()
}
