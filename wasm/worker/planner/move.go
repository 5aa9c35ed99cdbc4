package planner

import (
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// A move is a drag of a divider in progress. The document is changed live;
// the whole drag is one step.
type move struct {
	ref  string
	from *project.Project // before the drag
	cart design.Cart      // as it stood then
}

// least is the narrowest bay or opening that a drag leaves.
const least = 50 * measure.MM

// drag handles a movement of the divider ref by so many ticks since it was
// taken hold of.
func (p *Planner) drag(ref, phase string, by measure.Length) error {
	if phase == "start" || p.moving == nil || p.moving.ref != ref {
		if phase == "end" || phase == "cancel" {
			return nil
		}
		p.moving = &move{ref: ref, from: p.doc, cart: p.out.made}
		p.before()
	}
	m := p.moving
	if phase == "cancel" {
		p.doc, p.moving = m.from, nil
		p.was = nil
		return nil
	}
	next := m.from.Clone()
	if !divide(next, m.cart, ref, by) {
		p.doc, p.moving = m.from, nil
		return refuse("That cannot be dragged.")
	}
	next.Journal = p.doc.Journal
	p.doc = next
	if phase == "end" {
		p.moving = nil
		p.doc = m.from
		p.reply.Settle = true
		if !p.same(next) {
			p.change(next)
			p.keepDoc()
		}
	}
	return nil
}

// divide moves a divider of the cart: "bay/1" is the upright to the right of
// the bay with index 1; "opening/1/0" the line under the opening with index 0
// in that bay. Only the cells on both sides change their size: what had a
// share of the rest and lies elsewhere is fixed at the size it has.
func divide(p *project.Project, c design.Cart, ref string, by measure.Length) bool {
	at, ok := indices(ref)
	switch {
	case ok && len(at) == 1 && strings.HasPrefix(ref, "bay/"):
		if at[0]+1 >= len(p.Cabinet.Bays) || len(c.Bays) != len(p.Cabinet.Bays) {
			return false
		}
		cells := make([]cell, len(c.Bays))
		for i := range c.Bays {
			cells[i] = cell{c.Bays[i].Clear.Size(geom.X), &p.Cabinet.Bays[i].Width}
		}
		return shift(cells, at[0], by, p.Measure())
	case ok && len(at) == 2 && strings.HasPrefix(ref, "opening/"):
		if at[0] >= len(p.Cabinet.Bays) || at[0] >= len(c.Bays) {
			return false
		}
		bay, was := &p.Cabinet.Bays[at[0]], c.Bays[at[0]]
		if at[1]+1 >= len(bay.Openings) || len(was.Openings) != len(bay.Openings) {
			return false
		}
		cells := make([]cell, len(bay.Openings))
		for i := range bay.Openings {
			cells[i] = cell{was.Openings[i].Cell.Size(geom.Z), &bay.Openings[i].Height}
		}
		return shift(cells, at[1], by, p.Measure())
	}
	return false
}

// A cell is a bay or an opening: its size, and the field that fixes it, 0 for
// a share of the rest.
type cell struct {
	size  measure.Length
	fixed *measure.Length
}

// shift moves the line between cells i and i+1. One cell that has a share
// keeps it, so that the sum stays right whatever else changes later.
func shift(cells []cell, i int, by measure.Length, tape measure.Tape) bool {
	a, b := cells[i], cells[i+1]
	by = tape.Round(by)
	lo, hi := min(0, least-a.size), max(0, b.size-least)
	by = min(max(by, tape.Ceil(lo)), tape.Floor(hi))
	switch shareA, shareB := *a.fixed == 0, *b.fixed == 0; {
	case !shareA && !shareB:
		*a.fixed, *b.fixed = a.size+by, b.size-by
		return true
	case shareB:
		*a.fixed = a.size + by
	default:
		*b.fixed = b.size - by
	}
	for j, c := range cells { // or they would take part in the rest
		if j != i && j != i+1 && *c.fixed == 0 {
			*c.fixed = c.size
		}
	}
	return true
}

// indices returns the numbers of a ref such as "opening/0/1".
func indices(ref string) ([]int, bool) {
	_, rest, _ := strings.Cut(ref, "/")
	var at []int
	for s := range strings.SplitSeq(rest, "/") {
		n, err := strconv.Atoi(s)
		if err != nil || n < 0 {
			return nil, false
		}
		at = append(at, n)
	}
	return at, true
}
