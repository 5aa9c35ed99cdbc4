package planner

import (
	"errors"
	"strconv"
	"strings"

	"cartwright/engine/measure"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// Do carries out an action and returns what follows from it. What cannot be
// done is said in the reply's Alert or in the live region; nothing is changed
// then.
//
// Besides the document and view actions that engine/page lists there are:
//
//	tap      Ref       a spot of the drawing
//	drag     Ref, Phase, By   a divider of the drawing
//	open     ID, Text, Marks, ReadOnly, Value   a project out of storage, Value
//	                   when it was stored
//	demo     ID, Text  a starting point; stored with its first change
//	file     ID, Text, Value   a file the user chose, Value its name
//	merge    Text, Value   the same project from another device: its marks
//	link     ID, Text  a project that came with a link
//	copy     ID        go on with a copy, under this ID
//	kept     Marks     the entries of the offcuts book that are stored
//	projects List      what is stored on this device
//	stored   Value, At storage has answered: At 1 and the time, or At 0 and why not
//	awake    To        "on" or "off": whether the screen stays on
//	view     To        "both": the canvas wants scenes; "canvas": it shows them;
//	                   "svg": it is gone
//	room     W, H      of the drawing
//	settle             what has moved is no longer lit
func (p *Planner) Do(a Action) Reply {
	return p.answer(func() error {
		if a.Do != "settle" && a.Do != "stored" && a.Do != "projects" && a.Do != "kept" {
			p.say = ""
		}
		return p.act(a)
	})
}

// answer runs f and gathers the reply.
func (p *Planner) answer(f func() error) Reply {
	p.reply = &Reply{}
	if err := f(); err != nil {
		var no refusal
		if errors.As(err, &no) {
			p.say = string(no)
		}
		p.reply.Alert = sentence(err)
	}
	if p.doc != nil {
		p.insure()
		p.reply.Search, p.reply.Searching, p.reply.Price = p.order(), p.hunt.on, p.price()
	}
	p.show()
	r := *p.reply
	p.reply = nil
	return r
}

// changes lists the actions that change the document or the journal.
var changes = map[string]bool{"set": true, "nudge": true, "add": true, "remove": true, "swap": true, "tape": true, "undo": true,
	"redo": true, "mark": true, "unmark": true, "accept": true, "replan": true, "try": true, "drag": true, "rename": true, "measured": true, "spacer": true,
	"take": true, "leave": true, "counter": true, "spoil": true, "flaw": true, "book": true, "cheaper": true, "merge": true, "rival": true, "guide": true}

func (p *Planner) act(a Action) error {
	if p.readOnly && changes[a.Do] {
		if p.cfg.Embedded {
			return refuse("This is read only. Work on a copy to change it.")
		}
		return refuse("This project is open elsewhere and read only here. Take over to change it.")
	}
	if p.moving != nil && (changes[a.Do] && a.Do != "drag" || a.Do == "view" || a.Do == "place") {
		// Something else happens before the finger has let go: the drag is off.
		if err := p.edit(p.drag(p.moving.ref, "cancel", 0)); err != nil {
			return err
		}
	}
	if changes[a.Do] && !answers[a.Do] && a.Path != page.CamePath && !strings.HasPrefix(a.Path, page.CounterPath) {
		p.drop() // it was for how things stood
	}
	switch a.Do { // what needs no project
	case "open", "demo", "file", "link":
		return p.open(a)
	case "projects":
		p.projects = a.List
		return nil
	case "kept": // what storage has of the book
		p.readBook(a.Marks)
		return nil
	case "room":
		return p.room(a.W, a.H)
	case "view":
		p.canvas, p.scenes = a.To == "canvas", a.To != "svg"
		p.drawn = ""
		delete(p.shown, "drawing")
		return nil
	case "awake":
		p.awake = a.To
		return nil
	}
	if p.doc == nil {
		return nil
	}
	switch a.Do {
	case "set", "try":
		return p.edit(p.set(a.Path, a.Value))
	case "nudge":
		return p.edit(p.nudge(a.Path, a.Value, a.Step))
	case "add":
		return p.edit(p.list(project.Insert, a.Path, a.At))
	case "remove":
		return p.edit(p.list(project.Remove, a.Path, a.At))
	case "swap":
		return p.edit(p.list(project.Swap, a.Path, a.At))
	case "cheaper":
		return p.edit(p.cheaper(a.Ref, a.Value))
	case "spacer":
		return p.edit(p.spacer(a.At))
	case "guide":
		return p.edit(p.guide(a.Ref))
	case "tape":
		return p.edit(p.tape(a.To))
	case "drag":
		return p.edit(p.drag(a.Ref, a.Phase, measure.Length(a.By)))
	case "undo":
		return p.edit(p.undo())
	case "redo":
		return p.edit(p.redo())
	case "mark":
		return p.edit(p.mark(a.Cut))
	case "unmark":
		return p.edit(p.takeBack(a.Cut))
	case "measured":
		return p.edit(p.measured())
	case "book":
		return p.edit(p.bookish(a.To, a.ID))
	case "take":
		return p.edit(p.take())
	case "leave":
		p.drop()
	case "counter":
		return p.counter(a.To, a.Value)
	case "spoil":
		return p.proposed(p.spoil(a.Cut, a.At))
	case "flaw":
		return p.proposed(p.flawed(a.To, a.Value))
	case "size":
		p.ask(a.Cut)
	case "accept":
		return p.edit(p.accept())
	case "merge":
		return p.edit(p.merge(a.Value, a.Text))
	case "rival":
		return p.edit(p.rival(a.To))
	case "replan":
		return p.proposed(p.replan())
	case "tap":
		return p.tap(a.Ref)
	case "place":
		p.visit(page.Place(a.To))
	case "select":
		p.choose(a.Ref)
	case "look":
		p.look = ""
		if a.To == "side" || a.To == "plan" {
			p.look = a.To
		}
	case "sheet":
		if a.At >= 0 && a.At < len(p.out.Plan.Sheets) {
			p.sheet = a.At
		}
	case "stop":
		p.stop()
	case "more":
		p.more()
	case "settle":
		p.settle()
	case "stored":
		p.stored(a.Value, a.At == 1)
	case "copy":
		return p.copy(a.ID)
	case "export", "csv", "ics", "template", "share", "embed", "print":
		return p.give(a)
	}
	return nil
}

// edit runs the stations again after a change that went well.
func (p *Planner) edit(err error) error {
	if err == nil {
		p.run()
	}
	return err
}

// visit goes to a place.
func (p *Planner) visit(to page.Place) {
	if to == p.place {
		return
	}
	p.place = to
	p.selected = ""
	p.ask("")
	p.was = nil
	if to == page.Saw {
		p.turnToNext()
	}
}

// room sets the size of the drawing.
func (p *Planner) room(w, h int) error {
	if w > 0 && h > 0 && w < 1<<14 && h < 1<<14 {
		p.w, p.h = max(w, 280), max(h, 200)
	}
	return nil
}

// stored takes the answer of the storage.
func (p *Planner) stored(what string, ok bool) {
	p.saveFailed = !ok
	if ok {
		p.saved = "Saved on this device, " + what
		return
	}
	p.saved = "Not saved: " + what + ". Download the file before you close the page."
}

// tape sets the unit and the step of the tape: "inch/16", "mm/0.5".
func (p *Planner) tape(to string) error {
	unit, step, ok := strings.Cut(to, "/")
	next := p.doc.Clone()
	switch n, err := strconv.Atoi(step); {
	case ok && unit == "inch" && err == nil && n > 0 && 64%n == 0:
		next.Tape.Unit, next.Tape.Step = "inch", measure.Inch/measure.Length(n)
	case ok && unit == "mm" && step == "1":
		next.Tape.Unit, next.Tape.Step = "metric", measure.MM
	case ok && unit == "mm" && step == "0.5":
		next.Tape.Unit, next.Tape.Step = "metric", measure.MM/2
	default:
		return refuse("There is no tape %q.", to)
	}
	if p.same(next) {
		return nil
	}
	clear(p.wrong)
	p.change(next)
	p.keepDoc()
	return nil
}

// nudge makes a length one step of the tape more or less. text is what the
// field shows, or the value in use where the field is empty.
func (p *Planner) nudge(path, text, by string) error {
	tape := p.doc.Measure()
	if text == "" {
		text = project.Text(p.doc, path)
	}
	l, err := tape.Parse(text)
	if err != nil {
		return p.set(path, text)
	}
	step := tape.Least()
	if by == "-step" {
		step = -step
	}
	// On to the next whole step, whatever l is.
	to := tape.Floor(l)
	if step > 0 || to == l {
		to += step
	}
	if to < 0 {
		return nil
	}
	return p.set(path, tape.Exact(to))
}

// spacer puts the block of a set-out on the cut list: 8 in or 200 mm long, of
// the case's material, ripped to what it sets.
func (p *Planner) spacer(at int) error {
	all := work.Spacers(p.doc, p.out.made)
	if at < 0 || at >= len(all) || all[at].Block <= 0 {
		return refuse("There is no such spacer any more.")
	}
	long := 8 * measure.Inch
	if p.doc.Measure().Metric {
		long = 200 * measure.MM
	}
	next := p.doc.Clone()
	next.Extra = append(next.Extra, project.Extra{Name: "Spacer: " + all[at].Names[0], Length: long, Width: all[at].Block, Count: 1, Grain: "free", Material: p.doc.Cabinet.Material})
	p.before()
	p.change(next)
	p.keepDoc()
	return nil
}

func itoa(n int) string { return strconv.Itoa(n) }
