package planner

import (
	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// madeOf counts for each line of the held cut list the parts that are cut, and
// collects the size of each: as measured, else as it was to be. Those of
// earlier plans come first.
func (p *Planner) madeOf() [][]mark.Piece {
	made := make([][]mark.Piece, len(p.held.Lines))
	for i, n := range p.held.before() {
		for k := range n {
			if m := p.held.earlier(i, k); !p.out.stands.Spoilt(m) {
				l, w := p.out.stands.Size(m)
				made[i] = append(made[i], mark.Piece{L: l, W: w})
			}
		}
	}
	for _, c := range p.out.Steps.Shop {
		for i, line := range c.Lines {
			if line >= 0 && line < len(made) && p.isDone(c.ID) && !p.out.stands.Spoilt(c.Makes[i]) {
				m := c.Makes[i]
				l, w := p.out.stands.Size(m)
				if asLaid := func(a, b measure.Length) bool { return a == p.held.Lines[line].Length && b == p.held.Lines[line].Width }; !asLaid(m.L, m.W) && asLaid(m.W, m.L) {
					l, w = w, l // it lies across its sheet
				}
				made[line] = append(made[line], mark.Piece{L: l, W: w})
			}
		}
	}
	return made
}

// asCut tells what follows from parts that are cut at a size that the project
// does not want now: since something was measured or changed, or since the saw
// made them so. Where some of a line are cut, they count as its first ones.
func (p *Planner) asCut() issue.List {
	var f issue.List
	if p.held == nil {
		return nil
	}
	told := map[string]bool{}
	for i, pieces := range p.madeOf() {
		ids := p.held.Lines[i].Parts
		for k := range min(len(pieces), len(ids)) {
			for _, x := range design.AsCut(p.out.made, part.ID(ids[k]), pieces[k].L, pieces[k].W) {
				// Equal parts of a line are told once.
				if key := string(x.Code) + p.held.Lines[i].Tag; !told[key] || x.Code == design.FrontCut {
					told[key] = true
					f = append(f, x)
				}
			}
		}
	}
	return f
}
