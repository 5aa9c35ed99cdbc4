package planner

import (
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

// tell writes an entry, as a step of its own.
func (p *Planner) tell(make func(mark.Stamp) mark.Mark) {
	p.write(make)
	p.record(step{told: []mark.Mark{p.doc.Journal[len(p.doc.Journal)-1]}})
	p.keepDoc()
}

// untell takes entries back, retell makes them anew.
func (p *Planner) untell(told []mark.Mark) {
	for _, m := range told {
		p.write(func(s mark.Stamp) mark.Mark { return s.Undo(m) })
	}
}

func (p *Planner) retell(told []mark.Mark) {
	for i := range told {
		p.write(func(s mark.Stamp) mark.Mark {
			m := told[i]
			m.Device, m.Seq, m.Lamport, m.Time = s.Device, s.Seq, s.Lamport, s.Time
			return m
		})
		told[i] = p.doc.Journal[len(p.doc.Journal)-1]
	}
}

// spoil notes that piece at of what a cut made is good for nothing, and offers
// a plan of the uncut without it.
func (p *Planner) spoil(id string, at int) error {
	if m, ok := p.earlier(id); ok {
		return p.spoiled(m)
	}
	c, ok := p.out.Steps.Cut(id)
	if !ok || at < 0 || at >= len(c.Makes) || !p.isDone(id) || !p.out.stands.Lies(p.out.Steps, c.Makes[at]) {
		return refuse("Only a piece that lies there can be spoiled.")
	}
	return p.spoiled(c.Makes[at])
}

func (p *Planner) spoiled(m mark.Piece) error {
	p.ask("")
	p.selected = ""
	p.tell(func(s mark.Stamp) mark.Mark {
		e := s.Entry(mark.Spoiled, m.Name)
		e.Plan, e.Piece = p.doc.Plan.Digest, &m
		return e
	})
	p.run()
	return p.propose("A new "+or(m.Name, "piece"), p.doc.Clone())
}

func or(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

// flawed asks for a rectangle that must not be used: "open" shows the form,
// "corner" answers it, "note" writes the entry and offers a plan.
func (p *Planner) flawed(to, value string) error {
	f := &p.flaw
	switch to {
	case "open":
		if len(p.out.Plan.Sheets) == 0 || len(p.out.Plan.Left) > 0 {
			return refuse("There is no whole plan yet whose sheets could have a bad corner.")
		}
		*f = page.Flaw{Open: true, Piece: -1}
		return nil
	case "corner":
		if n, err := strconv.Atoi(value); err == nil && n >= 0 && n < 4 {
			f.Corner = n
		}
		return nil
	case "note":
	default:
		p.closeFlaw()
		return nil
	}
	flaws := p.flaws()
	at := f.Piece
	if at < 0 {
		at = flaws.First
	}
	if !f.Open || at < 0 || at >= len(flaws.Lying) {
		return refuse("There is no such piece.")
	}
	if len(p.wrong) > 0 && (p.wrong[page.FlawPath+"l"].Text != "" || p.wrong[page.FlawPath+"w"].Text != "") {
		return refuse("One of the two sizes could not be read: mend it first.")
	}
	l := flaws.Lying[at]
	if f.L <= 0 || f.W <= 0 {
		return refuse("Say how far the bad corner reaches, along and across.")
	}
	// A corner of the real piece is one of the planned piece, too.
	bad := mark.Piece{Sheet: l.Sheet, X: l.Piece.X, Y: l.Piece.Y, L: min(f.L, l.Piece.L), W: min(f.W, l.Piece.W)}
	if f.Corner&1 != 0 {
		bad.X += l.Piece.L - bad.L
	}
	if f.Corner&2 != 0 {
		bad.Y += l.Piece.W - bad.W
	}
	if p.held == nil {
		if err := p.accept(); err != nil {
			return err
		}
		p.run()
	}
	p.closeFlaw()
	p.tell(func(s mark.Stamp) mark.Mark {
		bad.Name = l.Piece.Name
		e := s.Entry(mark.Flawed, p.held.Job.Stock[p.held.plan.Sheets[l.Sheet].Stock].ID)
		e.Plan, e.Piece = p.doc.Plan.Digest, &bad
		return e
	})
	p.run()
	return p.propose("Around the bad corner", p.doc.Clone())
}

func (p *Planner) closeFlaw() {
	p.flaw = page.Flaw{}
	delete(p.wrong, page.FlawPath+"l")
	delete(p.wrong, page.FlawPath+"w")
}

// setFlaw reads one of the two sizes, or which piece it is.
func (p *Planner) setFlaw(path, text string) {
	if path == page.FlawPath+"piece" {
		if n, err := strconv.Atoi(text); err == nil && n >= 0 {
			p.flaw.Piece = n
		}
		return
	}
	tape := p.doc.Measure()
	l, err := tape.Parse(text)
	if err == nil && (l <= 0 || l > 10*measure.Metre) {
		err = refuse("it is not a size of a piece")
	}
	if err != nil {
		p.wrong[path] = page.Wrong{Text: text, Why: err.Error()}
		p.say = "Could not read “" + text + "”: " + sentence(err)
		return
	}
	delete(p.wrong, path)
	if strings.HasSuffix(path, "l") {
		p.flaw.L = l
	} else {
		p.flaw.W = l
	}
}

// flaws lists what lies there while the form is open, and what was found.
func (p *Planner) flaws() (out page.Flaws) {
	out.First = -1
	if p.flaw.Open {
		for _, l := range work.LyingNow(p.out.Job, p.out.Plan, p.out.Steps, p.out.stands) {
			if l.Is != work.ToWaste && (l.Is != work.ToPart) {
				if l.Sheet == p.sheet && out.First < 0 {
					out.First = len(out.Lying)
				}
				out.Lying = append(out.Lying, l)
			}
		}
		if out.First < 0 && len(out.Lying) > 0 {
			out.First = 0
		}
	}
	out.New = len(p.newFlaws())
	return out
}

// bad lists the rectangles of the plan's sheets that are not to be used.
func (p *Planner) bad() (out []mark.Piece) {
	if p.held == nil {
		return nil
	}
	for i, s := range p.held.plan.Sheets {
		for _, f := range p.held.flawsOf(p.held.Job.Stock[s.Stock].ID) {
			f.Sheet = i
			out = append(out, f)
		}
	}
	for _, m := range p.newFlaws() {
		out = append(out, *m.Piece)
	}
	return out
}
