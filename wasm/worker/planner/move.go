package planner

import (
	"cartwright/engine"
	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// A move is a drag of a divider in progress. The document is changed live;
// the whole drag is one step.
type move struct {
	ref  string
	from *project.Project // before the drag
	cart design.Cart      // as it stood then
	out  engine.Result    // and all that followed
	was  *plan            // nil if it is in use
}

// drag handles a movement of the divider ref by so many ticks since it was
// taken hold of.
func (p *Planner) drag(ref, phase string, by measure.Length) error {
	if phase == "start" || p.moving == nil || p.moving.ref != ref {
		if phase == "end" || phase == "cancel" {
			return nil
		}
		p.moving = &move{ref: ref, from: p.doc, cart: p.out.made, out: p.out.Result, was: p.drafted()}
		p.before()
	}
	m := p.moving
	if phase == "cancel" {
		p.doc, p.moving, p.known = m.from, nil, m.was
		p.was = nil
		return nil
	}
	p.hand = engine.SizeOf(ref)
	next := m.from.Clone()
	if !engine.Divide(next, m.cart, ref, by) {
		p.doc, p.moving, p.known = m.from, nil, m.was
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
			p.past[len(p.past)-1].was = m.was
			p.keepDoc()
		}
	}
	return nil
}
