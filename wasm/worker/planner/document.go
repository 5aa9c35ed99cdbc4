package planner

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A step is one thing the user did that can be undone: one field, one drag,
// one tap on a cut. The journal is no part of the documents: it only ever
// grows.
type step struct {
	before, after *project.Project // nil if the step left the document alone
	marks         []work.Cut       // the cuts it marked
	on            string           // the step at the bench it marked
	sizes         []sizing         // what it says of sizes
	told          []mark.Mark      // other entries it wrote
	book          []leaf           // what it changed in the offcuts book
	off           bool             // it took the marks back instead
	// was is the plan before it, is that which was there when it was undone:
	// nobody has to look for them again. Nil if a plan was in use.
	was, is *plan
}

// A plan is one with its job.
type plan struct {
	job  nest.Job
	plan nest.Plan
}

// drafted is the plan on the screen, nil if it is in use, or there is none.
func (p *Planner) drafted() *plan {
	if p.held != nil || len(p.out.Plan.Sheets) == 0 {
		return nil
	}
	return &plan{p.out.Job, p.out.Plan}
}

// change makes next the document, as one step.
func (p *Planner) change(next *project.Project) {
	p.record(step{before: p.doc, after: next, was: p.drafted()})
	p.doc = next
}

func (p *Planner) record(s step) {
	p.past = append(p.past, s)
	p.future = nil
}

// adopt makes doc, from the past or the future, the document; the journal
// stays as it is.
func (p *Planner) adopt(doc *project.Project) {
	if doc == nil {
		return
	}
	journal := p.doc.Journal
	p.doc = doc.Clone()
	p.doc.Journal = journal
	clear(p.wrong)
}

// undo takes back the last step.
func (p *Planner) undo() error {
	if len(p.past) == 0 {
		return refuse("Nothing to undo.")
	}
	s := p.past[len(p.past)-1]
	s.is = p.drafted()
	if err := p.replay(s, s.before, !s.off); err != nil {
		return err
	}
	p.known = s.was
	p.past = p.past[:len(p.past)-1]
	p.future = append(p.future, s)
	return nil
}

// redo does the last undone step again.
func (p *Planner) redo() error {
	if len(p.future) == 0 {
		return refuse("Nothing to redo.")
	}
	s := p.future[len(p.future)-1]
	s.was = p.drafted()
	if err := p.replay(s, s.after, s.off); err != nil {
		return err
	}
	p.known = s.is
	p.future = p.future[:len(p.future)-1]
	p.past = append(p.past, s)
	return nil
}

// replay makes doc the document and marks the cuts of a step, or takes their
// marks back. Marks that are taken back belong to the plan that is held now,
// marks that are made to the plan of doc.
func (p *Planner) replay(s step, doc *project.Project, off bool) error {
	p.ask("")
	if off {
		p.untell(s.told)
		p.noteSizes(s.sizes, true)
		if err := p.unmark(s.marks); err != nil {
			return err
		}
	}
	p.before()
	p.adopt(doc)
	p.turn(s.book, off)
	if s.on != "" {
		p.noteStep(s.on, off)
	}
	if !off {
		p.note(s.marks)
		p.noteSizes(s.sizes, false)
		p.retell(s.told)
	}
	if doc != nil {
		p.keepDoc()
	}
	return nil
}

// set reads a typed text into a field. A text that cannot be read stays in
// the field with its reason; the document keeps the last good value.
func (p *Planner) set(path, text string) error {
	switch {
	case path == page.CamePath:
		p.setCame(text)
		return nil
	case strings.HasPrefix(path, page.FlawPath):
		p.setFlaw(path, text)
		return nil
	case strings.HasPrefix(path, page.CounterPath):
		if p.atCounter.Doc == nil {
			return nil
		}
		delete(p.wrong, path)
		if err := project.Set(p.atCounter.Doc, path[len(page.CounterPath):], text); err != nil {
			p.wrong[path] = page.Wrong{Text: text, Why: err.Error()}
		}
		return nil
	}
	if strings.HasPrefix(path, "built/") {
		return p.setBuilt(path, text)
	}
	next := p.doc.Clone()
	if err := project.SetAll(next, path, text); err != nil {
		p.wrong[path] = page.Wrong{Text: text, Why: err.Error()}
		p.say = fmt.Sprintf("Could not read %q: %s.", text, strings.TrimSuffix(err.Error(), "."))
		return nil
	}
	delete(p.wrong, path)
	if p.same(next) {
		return nil
	}
	p.before()
	p.inHand(path)
	p.change(next)
	p.keepDoc()
	return nil
}

// list inserts an entry into a list, or removes one.
func (p *Planner) list(edit func(*project.Project, string, int) error, path string, at int) error {
	next := p.doc.Clone()
	if err := edit(next, path, at); err != nil {
		return refusal(sentence(err))
	}
	for field := range p.wrong { // their paths may have moved
		if strings.HasPrefix(field, path+".") {
			delete(p.wrong, field)
		}
	}
	p.before()
	p.change(next)
	p.keepDoc()
	return nil
}

// same reports whether next says what the document says.
func (p *Planner) same(next *project.Project) bool {
	return bytes.Equal(project.Save(next), project.Save(p.doc))
}

// keepDoc asks for the document to be stored.
func (p *Planner) keepDoc() {
	if p.readOnly || p.id == "" {
		return
	}
	p.saved, p.saveFailed = "Saving …", false
	for i, r := range p.reply.Records {
		if r.Kind == "doc" {
			p.reply.Records[i] = p.docRecord()
			return
		}
	}
	p.reply.Records = append(p.reply.Records, p.docRecord())
}

func (p *Planner) docRecord() Record {
	bare := *p.doc
	bare.Journal = nil
	return Record{Kind: "doc", Project: p.id, Name: p.doc.Name, Text: string(compact(project.Save(&bare)))}
}

func compact(file []byte) []byte {
	var b bytes.Buffer
	if json.Compact(&b, file) != nil {
		return file
	}
	return b.Bytes()
}

// sentence makes a sentence of an error's clause.
func sentence(err error) string {
	s := capital(err.Error())
	if s != "" && !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}
