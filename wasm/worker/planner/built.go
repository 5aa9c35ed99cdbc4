package planner

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

// setBuilt reads what a box measures. What cannot be stays in the field with
// its reason.
func (p *Planner) setBuilt(on, text string) error {
	var planned measure.Length
	for _, h := range work.Hang(p.doc, p.out.made, mark.State{}) {
		for end := range h.Box {
			if work.BuiltOn(h.ID, end) == on {
				planned = h.Box[end]
			}
		}
	}
	if planned == 0 {
		return refuse("There is no such drawer any more.")
	}
	tape := p.doc.Measure()
	was, _ := p.out.state.Value(on)
	is := measure.Length(0)
	if text != "" {
		l, err := tape.Parse(text)
		why := ""
		switch {
		case err != nil:
			why = err.Error()
		case (l - planned).Abs() > 2*measure.Inch:
			why = "planned is " + tape.Show(planned) + ", so that is surely a slip"
		}
		if why != "" {
			p.wrong[on] = page.Wrong{Text: text, Why: why}
			p.say = page.Plain("Could not read “" + text + "”: " + why + ".")
			return nil
		}
		is = l
	}
	delete(p.wrong, on)
	if is == was {
		return nil
	}
	p.tell(func(s mark.Stamp) mark.Mark {
		m := s.Entry(mark.Measured, on)
		m.Value = is
		return m
	})
	return nil
}

// guide puts the pieces of a drilling guide on the cut list.
func (p *Planner) guide(id string) error {
	for _, g := range work.Guides(p.doc, p.out.made) {
		if g.ID == id {
			next := p.doc.Clone()
			next.Extra = append(next.Extra, g.Cuts...)
			p.before()
			p.change(next)
			p.keepDoc()
			return nil
		}
	}
	return refuse("There is no such guide any more.")
}
