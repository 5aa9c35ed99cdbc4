package page

import (
	"strconv"

	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// An Insurance is how many of the parts still to be cut could be spoiled once.
type Insurance struct {
	Parts, Insured int
	// Early are the letters of parts that are insured only because they are
	// cut early, Not those of parts that are not.
	Early, Not []string
}

// insured says what a mistake would cost.
func (b *builder) insured() node {
	in := b.Insured
	if in == nil || in.Parts == 0 || b.Offer != nil {
		return nodes{}
	}
	head := "All " + strconv.Itoa(in.Parts) + " parts could be spoiled once"
	switch {
	case in.Insured == 0:
		head = "No part could be spoiled"
	case in.Insured < in.Parts:
		head = strconv.Itoa(in.Insured) + " of " + strconv.Itoa(in.Parts) + " parts could be spoiled once"
	case in.Parts == 1:
		head = "The last part could be spoiled once"
	}
	out := nodes{el("p", el("b", text(head)), text(" and still be cut from what is left. Each was tried with a plan of its own. Throw nothing away till the last cut."))}
	say := func(s string) { out = append(out, el("p", rich(s))) }
	if len(in.Not) > 0 {
		say("Not " + listed(few(in.Not, 8)) + ": " + b.tooSmall(in.Not) + " Where the fence allows, they are cut first, while most is uncut.")
	}
	if len(in.Early) > 0 {
		say(listed(few(in.Early, 8)) + " only in this order: while other wood is uncut, the rest can be planned anew.")
	}
	if s := b.chained(); s != "" {
		say(s)
	}
	return div("insured", out)
}

// tooSmall says why parts are not insured: what the largest piece kept is.
func (b *builder) tooSmall(tags []string) string {
	kept := map[string]string{}
	area := map[string]measure.Area{}
	for _, e := range b.Steps.Ends {
		m := b.Job.Stock[b.Plan.Sheets[e.Piece.Sheet].Stock].Material
		if a := e.Piece.L.Times(e.Piece.W); e.Is != work.ToPart && e.Rough >= 0 && a > area[m] {
			area[m], kept[m] = a, b.t.Show(e.Piece.L)+" × "+b.t.Show(e.Piece.W)
		}
	}
	var found []string
	for _, tag := range tags {
		for _, q := range b.Job.Parts {
			if q.ID == tag && kept[q.Material] != "" {
				found = append(found, kept[q.Material])
			}
		}
	}
	if len(found) == 0 {
		return "nothing of their material is left over."
	}
	same := found[0]
	for _, f := range found {
		if f != same {
			return "what is left of their materials is too small, or lies across the grain."
		}
	}
	return "the largest piece left, " + same + ", is too small, or lies across the grain."
}
