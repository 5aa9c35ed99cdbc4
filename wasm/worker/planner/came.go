package planner

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

// A sizing is what a step says of the piece that a cut was set for: what it
// measures with the step, and without.
type sizing struct {
	cut         work.Cut
	without, at measure.Length
}

// ask opens the field for what the piece of a cut really measures, at the size
// it is thought to have; "", or the cut that is asked about, closes it.
func (p *Planner) ask(id string) {
	delete(p.wrong, page.CamePath)
	if c, ok := p.out.Steps.Cut(id); ok && id != p.came.Cut {
		if is, _, lies := p.out.stands.Came(p.out.Steps, c); lies {
			p.came = page.Came{Cut: id, Size: is}
			return
		}
		p.say = "Only a piece that lies there can be measured."
	}
	p.came = page.Came{}
}

// setCame reads what was typed there. What cannot be read, or cannot be, stays
// in the field with its reason.
func (p *Planner) setCame(text string) {
	c, ok := p.out.Steps.Cut(p.came.Cut)
	if !ok {
		return
	}
	tape := p.doc.Measure()
	from := c.Along(p.out.stands.Size(c.Piece))
	l, err := tape.Parse(text)
	why := ""
	switch {
	case err != nil:
		why = "Could not read “" + text + "”: " + sentence(err)
	case l <= 0:
		why = "A piece is larger than nothing."
	case l > from:
		why = "It was cut from " + tape.Show(from) + ": it cannot be larger."
	default:
		delete(p.wrong, page.CamePath)
		p.came.Size = l
		return
	}
	why += " " + tape.Show(p.came.Size) + " stays."
	p.wrong[page.CamePath] = page.Wrong{Text: text, Why: why}
	p.say = page.Plain(why)
}

// measured notes the size in the field.
func (p *Planner) measured() error {
	c, ok := p.out.Steps.Cut(p.came.Cut)
	if !ok {
		return refuse("Choose a cut that is made first.")
	}
	is, wanted, _ := p.out.stands.Came(p.out.Steps, c)
	at := p.came.Size
	p.ask("")
	if at == is && at != wanted { // that it is right is worth a note: it tells of the saw
		p.say = "It has that size already."
		return nil
	}
	s := step{sizes: []sizing{{c, is, at}}}
	p.noteSizes(s.sizes, false)
	p.record(s)
	p.selected = ""
	p.say = "Noted: it is " + p.doc.Measure().Say(at) + "."
	return nil
}

// noteSizes writes the entries of a step, or those that take them back.
func (p *Planner) noteSizes(sizes []sizing, off bool) {
	for _, z := range sizes {
		v := z.at
		if off {
			v = z.without
		}
		p.write(func(s mark.Stamp) mark.Mark {
			m := z.cut.Measured(p.doc.Plan.Digest, s, v)
			if off {
				m.Saw = "" // nobody measured that
			}
			return m
		})
	}
}
