package work

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// Saw turns a plan into the cuts to be made, each with its saw, its measure
// and the edge that rides, in an order that can be done: every cut comes after
// the one that frees its piece, and equal settings run together. The i-th line
// of lines is the cut-list line of the job's i-th part. Without saws every cut
// has a measure but no saw. A tree that does not add up is left out with the
// finding [BadPlan].
func Saw(job nest.Job, plan nest.Plan, lines []part.Line, saws []project.Saw, tape measure.Tape) Steps {
	return SawAfter(job, plan, lines, saws, tape, Past{})
}

// SawAfter is Saw for a plan that goes on from earlier ones: no name is given
// twice.
func SawAfter(job nest.Job, plan nest.Plan, lines []part.Line, saws []project.Saw, tape measure.Tape, past Past) Steps {
	b := &builder{job: job, lines: lines, tape: tape, past: past, sheets: plan.Sheets}
	passes := 0
	for _, sh := range plan.Sheets {
		passes += leaves(sh.Root)
		b.sheetStock = append(b.sheetStock, sh.Stock)
	}
	b.shop = make([]pass, 0, passes)
	b.steps.Ends = make([]End, 0, passes)
	for i, sh := range plan.Sheets {
		b.sheetCuts(i, sh)
	}
	b.choose(saws)
	b.lates()
	o := newOrderer(b.shop)
	r := o.best()
	if b.stakes() { // what a mistake would cost counts, if the fence does not mind
		o.stakes = true
		if first := o.best(); o.cost(first) <= o.cost(r) {
			r = first
		}
	}
	b.steps.Moves, b.steps.Naive = r.moves, plainMoves(b.shop)
	b.steps.Settings = o.least(o.start())
	b.number(o, r.order)
	b.trueEdges(saws)
	smallParts(&b.steps.Findings, job, lines)
	return b.steps
}

// leaves counts the pieces of n: there are about as many passes.
func leaves(n *nest.Node) int {
	if n == nil {
		return 0
	}
	c := 1 + leaves(n.Core)
	for _, k := range n.Kids {
		c += leaves(k)
	}
	return c
}

// number lists the passes in order, with what stays set from cut to cut, and
// reports matched parts that were parted by a move.
func (b *builder) number(o *orderer, order []int) {
	type match struct {
		name string
		set  measure.Length
	}
	runs := make([][]int, o.devices) // numbers of the cuts on the setting
	set := make([]int, o.devices)
	for d := range set {
		set[d] = -1
	}
	groups := map[match]int{}
	split := map[match]bool{}
	b.steps.Shop = make([]Cut, 0, len(order))
	for n, i := range order {
		p := &b.shop[i]
		c := o.class[i]
		d := o.device[c]
		if set[d] == c {
			p.Same = true
			p.SameAs = append([]int(nil), runs[d]...)
		} else {
			runs[d] = nil
		}
		o.turn(set, c)
		p.N = n + 1
		runs[d] = append(runs[d], p.N)
		for _, g := range p.group {
			key := match{g, p.Set}
			at := runs[d][0] // the first cut on this setting
			first, ok := groups[key]
			switch {
			case !ok:
				groups[key] = at
			case first != at:
				p.SetBy = first
				if !split[key] {
					split[key] = true
					b.steps.Findings.Add(issue.Note, Split, []string{p.ID}, g, p.Set)
				}
			}
		}
		b.steps.Shop = append(b.steps.Shop, p.Cut)
	}
}

// trueEdges reports pieces from the store without a factory edge if no saw of
// the shop can make their first straight edge.
func (b *builder) trueEdges(saws []project.Saw) {
	for _, s := range saws {
		if s.Kind == "track" || s.Kind == "hand-held" {
			return
		}
	}
	if len(saws) == 0 {
		return
	}
	for _, r := range b.steps.Rough {
		if len(r.RoughEdges) == 4 && !r.Keep {
			b.steps.Findings.Add(issue.Warn, NoTrueEdge, []string{r.Name}, r.Name)
		}
	}
}
