package planner

import (
	"strconv"
	"strings"

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
	if m, ok := p.earlier(id); ok && id != p.came.Cut {
		l, w := p.out.stands.Size(m)
		p.came = page.Came{Cut: id, Size: l, Wanted: m.L, Name: m.Name + ", length,"}
		if strings.HasSuffix(id, "/y") {
			p.came = page.Came{Cut: id, Size: w, Wanted: m.W, Name: m.Name + ", width,"}
		}
		return
	}
	if c, ok := p.out.Steps.Cut(id); ok && id != p.came.Cut {
		if is, _, lies := p.out.stands.Came(p.out.Steps, c); lies {
			p.came = page.Came{Cut: id, Size: is}
			return
		}
		p.say = "Only a piece that lies there can be measured."
	}
	p.came = page.Came{}
}

// earlier is the part that "was/<line>/<axis>" names, of those that were cut
// before the plan in use: the next one of the line that nothing is noted of,
// else the last one that is not spoiled.
func (p *Planner) earlier(id string) (m mark.Piece, ok bool) {
	f := strings.Split(id, "/")
	if p.held == nil || len(f) != 3 || f[0] != "was" || f[2] != "x" && f[2] != "y" {
		return m, false
	}
	line, err := strconv.Atoi(f[1])
	made := p.held.before()
	if err != nil || line < 0 || line >= len(made) {
		return m, false
	}
	for k := range min(made[line], work.MostEarlier) {
		q := p.held.earlier(line, k)
		if p.out.stands.AsCut(q) {
			return q, true
		}
		if !p.out.stands.Spoilt(q) {
			m, ok = q, true
		}
	}
	return m, ok
}

// setCame reads what was typed there. What cannot be read, or cannot be, stays
// in the field with its reason.
func (p *Planner) setCame(text string) {
	if p.came.Cut == "" {
		return
	}
	tape := p.doc.Measure()
	from := 2 * p.came.Wanted // of an earlier part nobody knows it
	if c, ok := p.out.Steps.Cut(p.came.Cut); ok {
		from = c.Along(p.out.stands.Size(c.Piece))
	}
	l, err := tape.Parse(text)
	why := ""
	switch {
	case err != nil:
		why = "Could not read “" + text + "”: " + sentence(err)
	case l <= 0:
		why = "A piece is larger than nothing."
	case l > from && p.came.Wanted > 0:
		why = "It was to be " + tape.Show(p.came.Wanted) + ": it cannot be so large."
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
	if m, ok := p.earlier(p.came.Cut); ok {
		axis, at := p.came.Cut[len(p.came.Cut)-1:], p.came.Size
		if at == p.came.Wanted && p.out.stands.AsCut(m) {
			p.ask("")
			p.say = "It has that size already."
			return nil
		}
		p.ask("")
		p.tell(func(s mark.Stamp) mark.Mark { return s.Measure(p.held.digest, m, axis, at) })
		p.selected = ""
		p.say = "Noted: it is " + p.doc.Measure().Say(at) + "."
		return nil
	}
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
