package planner

import (
	"fmt"
	"strings"

	"cartwright/engine/draw"
	"cartwright/engine/mark"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/svg"
	"cartwright/engine/work"
)

// open opens a project that comes with the action. If that fails, the one that
// is open stays as it is.
func (p *Planner) open(a Action) error {
	var doc *project.Project
	var err error
	switch a.Do {
	case "file":
		if strings.HasSuffix(strings.ToLower(a.Value), ".csv") {
			return p.edit(p.readCSV(a.Value, a.Text))
		}
		if head := a.Text[:min(len(a.Text), 200)]; p.doc != nil && strings.Contains(head, `"`+project.BookFormat+`"`) {
			return p.edit(p.openBook(a.Text))
		}
		doc, err = project.Open([]byte(a.Text))
	default:
		doc, err = project.Open([]byte(a.Text))
	}
	if err != nil {
		if a.Do == "file" && a.Value != "" {
			return fmt.Errorf("“%s”: %s Your project is as it was.", a.Value, sentence(err))
		}
		return refusal(sentence(err))
	}
	stored := make([]mark.Mark, 0, len(a.Marks))
	for _, text := range a.Marks {
		stored = append(stored, mark.Mark{})
		if m := &stored[len(stored)-1]; mark.Read(text, m) != nil || m.Seq <= 0 {
			stored = stored[:len(stored)-1]
			p.reply.Alert = "One stored mark could not be read and was left out. The others are there."
		}
	}
	doc.Journal = mark.Merge(doc.Journal, stored)
	p.become(doc, a.ID, a.ReadOnly)
	switch a.Do {
	case "open":
		if a.Value != "" && !p.readOnly {
			p.stored(a.Value, true)
		}
	case "file":
		p.keepAll()
	case "link":
		if !p.readOnly {
			p.reply.Alert = "This plan came with a link. It opened as a copy; your own projects stay as they are."
			p.keepAll()
		}
	case "demo":
		if a.To == "new" {
			p.keepAll()
		}
	}
	return nil
}

// become makes doc the project, with nothing to undo.
func (p *Planner) become(doc *project.Project, id string, readOnly bool) {
	seq := p.hunt.seq
	p.id, p.doc, p.readOnly = id, doc, readOnly
	p.past, p.future, p.moving, p.was, p.held = nil, nil, nil, nil, nil
	clear(p.wrong)
	p.came, p.offer, p.atCounter, p.flaw = page.Came{}, nil, page.Counter{}, page.Flaw{}
	p.selected, p.sheet = "", 0
	p.saved, p.saveFailed = "", false
	p.out = result{}
	p.hunt, p.policy = hunt{seq: seq}, policy{}
	p.run()
	if p.hunt.seq == seq { // whatever is searched for the old one
		p.restart()
	}
}

// keepAll asks for the document and its whole journal to be stored.
func (p *Planner) keepAll() {
	p.keepDoc()
	for _, m := range p.doc.Journal {
		p.keepMark(m)
	}
}

// copy goes on with a copy of the project, without the journal: wood is cut
// once.
func (p *Planner) copy(id string) error {
	doc := p.doc.Clone()
	doc.Journal = nil
	if doc.Name != "" && !strings.HasSuffix(doc.Name, ", copy") {
		doc.Name += ", copy"
	}
	p.become(doc, id, false)
	p.keepDoc()
	return nil
}

// give hands out the project in the form asked for.
func (p *Planner) give(a Action) error {
	switch a.Do {
	case "export":
		p.reply.File = &File{Name: fileName(p.doc.Name, "json"), Type: "application/json", Text: string(project.Save(p.doc))}
	case "csv":
		p.reply.File = &File{Name: fileName(p.doc.Name, "csv"), Type: "text/csv", Text: page.CutList(p.doc.Measure(), p.out.made.Lines)}
	case "ics":
		text, err := work.Calendar(p.doc.Name, a.Value, p.cfg.Now(), work.Finish(p.doc, p.out.made).Plan)
		if err != nil {
			return refusal(sentence(err))
		}
		p.reply.File = &File{Name: fileName(p.doc.Name, "ics"), Type: "text/calendar", Text: text}
	case "template":
		if text := page.Templates(p.view()); text != "" {
			p.reply.File = &File{Name: fileName(p.doc.Name+" templates", "pdf"), Type: "application/pdf", Text: text}
		} else {
			return refuse("Nothing here needs a template: no pulls, casters or slides yet.")
		}
	case "print":
		p.reply.Panels = append(p.reply.Panels, page.Panel{ID: "print", HTML: page.Print(p.view(), a.To, p.day(), p.printed(a.To))})
		p.reply.Print = a.To
	case "share", "embed":
		doc := p.doc.Clone()
		doc.Journal = nil // it belongs to the wood in one shop
		switch {
		case p.cfg.Embedded: // a copy to work on follows its changes
			doc.Plan = nil
		case a.Do == "embed" && doc.Plan == nil && len(p.out.Plan.Left) == 0 && len(p.out.Plan.Sheets) > 0:
			p.hold(doc) // others are to see the plan that is seen here
		}
		p.reply.Share = &Share{Text: string(compact(project.Save(doc)))}
		if a.Do == "embed" {
			p.reply.Share.Picture = p.picture()
		}
	}
	return nil
}

// day is the date of today.
func (p *Planner) day() string { return strings.SplitN(p.cfg.Now(), "T", 2)[0] }

// picture is the cart as SVG, for a frame that may run no programs.
func (p *Planner) picture() string {
	s := draw.Cart(p.out.made, 720, 560, draw.CartOptions{Print: true})
	return svg.Render(s, svg.Options{Standalone: true})
}

// fileName makes a file name of a project's name.
func fileName(name, ext string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	s := strings.Trim(b.String(), "-")
	if s == "" {
		s = "cart"
	}
	return s[:min(len(s), 60)] + "." + ext
}
