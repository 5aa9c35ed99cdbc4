package design

import (
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// Verify checks the laws of the model, from the boxes alone: no two parts in
// one place once grooves are taken off; each declared joint closes to within
// one step of the tape; nothing touches without a rule that says so; all parts
// hang together; every drawer can be pulled out. An empty list means they hold.
func Verify(c Cart) issue.List {
	var l issue.List
	tol := c.Tape.Least()
	declared := map[[2]part.ID]bool{}
	for _, j := range c.Joints {
		declared[[2]part.ID{j.A, j.B}], declared[[2]part.ID{j.B, j.A}] = true, true
	}
	at := map[part.ID]int{}
	for i, p := range c.Parts {
		at[p.ID] = i
	}
	for i, p := range c.Parts {
		for _, q := range c.Parts[:i] {
			where := []string{string(p.ID), string(q.ID)}
			if common := p.Box.Intersect(q.Box); !common.Empty() {
				if !cleared(common, p, q) {
					l.Add(issue.Block, Overlap, where, p.Name, q.Name)
				} else if !declared[[2]part.ID{p.ID, q.ID}] {
					l.Add(issue.Block, Undeclared, where, p.Name, q.Name)
				}
				continue
			}
			if area, _ := p.Box.Contact(q.Box); area > 0 && !declared[[2]part.ID{p.ID, q.ID}] {
				l.Add(issue.Block, Undeclared, where, p.Name, q.Name)
			}
		}
	}
	group := make([]int, len(c.Parts))
	for i := range group {
		group[i] = i
	}
	root := func(i int) int {
		for group[i] != i {
			i = group[i]
		}
		return i
	}
	for _, j := range c.Joints {
		ia, oka := at[j.A]
		ib, okb := at[j.B]
		if !oka || !okb || !meets(c.Parts[ia], c.Parts[ib], tol) {
			l.Add(issue.Block, OpenJoint, []string{string(j.A), string(j.B)}, string(j.A), string(j.B))
			continue
		}
		if j.Kind.Holds() {
			group[root(ia)] = root(ib)
		}
	}
	// A drawer hangs on its slides, a door on its hinges, a loose shelf lies
	// on pins; everything else hangs on the first part.
	first := map[[2]int]int{}
	for i, p := range c.Parts {
		if p.Loose {
			continue
		}
		moves := [2]int{p.Drawer, p.Door}
		if k, ok := first[moves]; !ok {
			first[moves] = i
		} else if root(k) != root(i) {
			l.Add(issue.Block, Loose, []string{string(p.ID)}, p.Name)
		}
	}
	for n, d := range c.Drawers {
		for _, p := range c.Parts {
			if p.Drawer != n+1 {
				continue
			}
			path := p.Box
			path.Min[geom.Y] -= d.Travel
			for _, q := range c.Parts {
				if q.Drawer != n+1 && path.Overlaps(q.Box) {
					l.Add(issue.Block, Stuck, []string{string(p.ID), string(q.ID)}, n+1, q.Name)
				}
			}
		}
	}
	return l
}

// cleared reports whether features of p or q take off all of their common box.
func cleared(common geom.Box, p, q part.Part) bool {
	for _, f := range p.Features {
		if f.Box.Contains(common) {
			return true
		}
	}
	for _, f := range q.Features {
		if f.Box.Contains(common) {
			return true
		}
	}
	return false
}

// meets reports whether two parts touch face to face, lie in one another, or
// stand less than tol apart: such a joint closes on assembly.
func meets(p, q part.Part, tol measure.Length) bool {
	if p.Box.Overlaps(q.Box) {
		return true
	}
	for a := geom.X; a <= geom.Z; a++ {
		g := p.Box
		g.Min[a] -= tol
		g.Max[a] += tol
		if g.Overlaps(q.Box) {
			return true
		}
	}
	return false
}
