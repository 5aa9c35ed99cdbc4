package planner

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"cartwright/engine"
	"cartwright/engine/mark"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// write adds an entry to the journal and asks for it to be stored, as a record
// of its own.
func (p *Planner) write(make func(mark.Stamp) mark.Mark) {
	m := make(mark.Next(p.doc.Journal, p.cfg.Device, p.cfg.Now()))
	p.doc.Journal = append(slices.Clip(p.doc.Journal), m)
	p.keepMark(m)
	p.fold()
}

func (p *Planner) keepMark(m mark.Mark) {
	if p.readOnly || p.id == "" {
		return
	}
	text, err := json.Marshal(m)
	if err != nil {
		panic("planner: " + err.Error()) // a mark always marshals
	}
	p.saved, p.saveFailed = "Saving …", false
	p.reply.Records = append(p.reply.Records, Record{Kind: "mark", Project: p.id, Device: m.Device, Seq: m.Seq, Text: string(text)})
}

// fold finds how the work stands after the journal.
func (p *Planner) fold() {
	p.out.state = mark.Fold(p.doc.Journal)
	digest := ""
	if p.held != nil {
		digest = p.held.digest
	}
	p.out.stands = work.Progress(p.out.Steps, p.out.state, digest)
}

func (p *Planner) isDone(id string) bool { return p.out.stands.Stand(id).Done }

// mark notes that cuts are made: the given ones, or the next one. The first
// mark holds the plan. Store cuts that a shop cut needs are taken as made, for
// whoever saws has the pieces at home.
func (p *Planner) mark(ids string) error {
	if atBench(ids) {
		return p.markStep(ids)
	}
	if ids == "" && p.came.Cut != "" {
		return p.measured() // the keys do what the large button says
	}
	if ids == "" {
		c, ok := p.nextCut()
		if m, is := page.NextMill(p.out.Steps, p.out.state, p.selected, ok); is {
			return p.markStep(strings.Join(m.IDs, " "))
		}
		if !ok {
			return refuse("There is no cut to mark.")
		}
		ids = c.ID
	}
	var cuts []work.Cut
	for _, id := range strings.Fields(ids) {
		c, ok := p.out.Steps.Cut(id)
		switch {
		case !ok:
			return refuse("The plan has no such cut any more.")
		case p.isDone(id):
			continue
		case p.out.stands.Spoilt(c.Piece):
			return refuse("%s is spoiled: plan the uncut again first.", capital(or(c.Piece.Name, "that piece")))
		}
		if w := p.waitsFor(c, cuts); len(w) > 0 {
			p.say = fmt.Sprintf("%s waits for %s.", capital(cutName(c)), listed(w))
			p.selected = c.ID
			return nil
		}
		cuts = p.withStoreCuts(cuts, c)
	}
	if len(cuts) == 0 {
		p.say = "That cut is made already."
		return nil
	}
	p.ask("")
	s := step{before: p.doc}
	next := p.doc.Clone()
	if p.held == nil {
		if len(p.out.Plan.Left) > 0 {
			return refuse("Some parts found no place yet: the plan is not whole, so no cut of it should be made.")
		}
		p.hold(next)
	}
	s.after = next
	p.doc = next
	p.readHeld()
	p.note(cuts)
	s.marks = cuts
	p.record(s)
	p.keepDoc()
	p.reply.Marked = true
	p.was = nil
	if p.selected == cuts[len(cuts)-1].ID {
		p.selected = ""
	}
	if p.place == page.Saw {
		p.turnToNext()
	}
	return nil
}

// note writes an entry for each cut: what was cut, where, and what came of it.
func (p *Planner) note(cuts []work.Cut) {
	for _, c := range cuts {
		p.write(func(s mark.Stamp) mark.Mark { return c.Mark(p.doc.Plan.Digest, s) })
	}
}

// waitsFor lists the shop cuts that must be made before c, by name; those in
// with are being marked too.
func (p *Planner) waitsFor(c work.Cut, with []work.Cut) []string {
	var out []string
	for _, id := range p.out.stands.Stand(c.ID).Waits {
		before, ok := p.out.Steps.Cut(id)
		if ok && (before.Tier == nest.ShopTier || c.Tier == nest.StoreTier) && !holds(with, id) {
			out = append(out, cutName(before))
		}
	}
	return out
}

// withStoreCuts appends c to cuts, after the store cuts that it implies.
func (p *Planner) withStoreCuts(cuts []work.Cut, c work.Cut) []work.Cut {
	for _, id := range p.out.stands.Stand(c.ID).Waits {
		if before, ok := p.out.Steps.Cut(id); ok && !holds(cuts, id) {
			cuts = append(cuts, before)
		}
	}
	return append(cuts, c)
}

func holds(cuts []work.Cut, id string) bool {
	return slices.ContainsFunc(cuts, func(c work.Cut) bool { return c.ID == id })
}

// takeBack notes that a cut was not made after all: the given one, or the one
// that was marked last.
func (p *Planner) takeBack(id string) error {
	if atBench(id) {
		if !p.stepDone(id) {
			return refuse("That is not marked.")
		}
		p.noteStep(id, true)
		p.record(step{on: id, off: true})
		return nil
	}
	if id == "" {
		id = p.out.stands.Last
	}
	c, ok := p.out.Steps.Cut(id)
	if !ok || p.out.stands.Stand(id).Mark == nil {
		return refuse("That cut is not marked.")
	}
	s := step{marks: []work.Cut{c}, off: true}
	if is, wanted, _ := p.out.stands.Came(p.out.Steps, c); is != wanted && len(p.out.stands.Stand(id).Fixed) == 0 {
		s.sizes = []sizing{{c, wanted, is}} // made again, it is another piece
	}
	for _, m := range c.Makes {
		if told, ok := p.out.state.Spoiled(p.doc.Plan.Digest, m); ok {
			s.told = append(s.told, told)
		}
	}
	if err := p.unmark(s.marks); err != nil {
		return err
	}
	p.noteSizes(s.sizes, true)
	p.untell(s.told)
	p.ask("")
	p.record(s)
	p.selected = ""
	p.sheet = c.Sheet
	return nil
}

// unmark writes the entries that take marks back, the last cut first. That is
// possible while nothing was made of their pieces.
func (p *Planner) unmark(cuts []work.Cut) error {
	for _, c := range slices.Backward(cuts) {
		at := p.out.stands.Stand(c.ID)
		if at.Mark == nil {
			continue
		}
		if len(at.Fixed) > 0 {
			by, _ := p.out.Steps.Cut(at.Fixed[0])
			return refuse("%s was made from its pieces: take that back first.", capital(cutName(by)))
		}
		p.write(func(s mark.Stamp) mark.Mark { return s.Undo(*at.Mark) })
	}
	return nil
}

// holdWith makes next, in which the plan is held, the document.
func (p *Planner) holdWith(next *project.Project) {
	prior := ""
	if p.doc.Plan != nil {
		prior = p.doc.Plan.Digest
	}
	p.change(next)
	p.write(func(s mark.Stamp) mark.Mark {
		m := s.Entry(mark.Accepted, "plan")
		m.Plan, m.Prior = next.Plan.Digest, prior
		return m
	})
	p.keepDoc()
}

// nextCut is the first shop cut that can be made, or the chosen one if it can.
func (p *Planner) nextCut() (first work.Cut, ok bool) {
	for _, c := range p.out.Steps.Shop {
		if p.isDone(c.ID) || len(p.waitsFor(c, nil)) > 0 || p.out.stands.Spoilt(c.Piece) {
			continue
		}
		if c.ID == p.selected {
			return c, true
		}
		if !ok {
			first, ok = c, true
		}
	}
	return first, ok
}

// tap is a tap on a spot of the drawing. A cut that can be made is marked.
func (p *Planner) tap(ref string) error {
	if v, _ := engine.Overhang(p.doc, ref); v != nil || strings.HasPrefix(ref, "bay/") || strings.HasPrefix(ref, "opening/") {
		return nil // dividers are dragged
	}
	c, isCut := p.out.Steps.Cut(ref)
	if !isCut || p.place != page.Saw && p.place != page.Store || p.readOnly {
		p.choose(ref)
		return nil
	}
	if p.isDone(ref) {
		p.choose(ref)
		p.say = capital(cutName(c)) + " is made. Undo takes it back."
		return nil
	}
	return p.edit(p.mark(ref))
}

// choose selects a thing; what is chosen already is let go.
func (p *Planner) choose(ref string) {
	if ref == p.selected {
		ref = ""
	}
	p.selected = ref
	if c, ok := p.out.Steps.Cut(ref); ok {
		p.sheet = c.Sheet
	}
}

// cutName is "cut 7", or "store cut 2 of sheet 1".
func cutName(c work.Cut) string {
	if c.Tier == nest.StoreTier {
		return "store cut " + strconv.Itoa(c.N) + " of sheet " + strconv.Itoa(c.Sheet+1)
	}
	return "cut " + strconv.Itoa(c.N)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// atBench reports whether id names a step of building, a row of holes, or a row
// of the buying list.
func atBench(id string) bool {
	return strings.HasPrefix(id, work.BuyPrefix) || strings.HasPrefix(id, work.MillPrefix) || strings.HasPrefix(id, "build/") || strings.HasPrefix(id, "drill/")
}

// markStep notes that a step at the bench is done. Its name stays when the
// plan does not; a mark whose step is gone stays in the journal.
func (p *Planner) markStep(id string) error {
	if p.stepDone(id) {
		p.say = "That is done already."
		return nil
	}
	if w := p.millWaits(id); len(w) > 0 {
		p.say = fmt.Sprintf("This waits for %s.", listed(w))
		return nil
	}
	p.noteStep(id, false)
	p.record(step{on: id})
	p.reply.Marked = true
	if p.selected == id || strings.HasPrefix(id, work.MillPrefix) {
		p.selected = ""
	}
	return nil
}

// names lists the steps that id names: a groove is marked in each of its parts.
func names(id string) []string {
	if strings.HasPrefix(id, work.MillPrefix) {
		return strings.Fields(id)
	}
	return []string{id}
}

// stepDone reports whether all steps that id names are done.
func (p *Planner) stepDone(id string) bool {
	for _, one := range names(id) {
		if _, ok := p.out.state.Step(one); !ok {
			return false
		}
	}
	return true
}

// millWaits lists the cuts that must be made before a groove.
func (p *Planner) millWaits(id string) (out []string) {
	for _, m := range p.out.Steps.Mills {
		if strings.Join(m.IDs, " ") != id {
			continue
		}
		for _, cut := range m.After {
			if c, ok := p.out.Steps.Cut(cut); ok && !p.isDone(cut) {
				out = append(out, cutName(c))
			}
		}
	}
	return out
}

// noteStep writes the entries that mark a step, or take its marks back.
func (p *Planner) noteStep(id string, off bool) {
	for _, one := range names(id) {
		p.noteOne(one, off)
	}
}

func (p *Planner) noteOne(id string, off bool) {
	m, ok := p.out.state.Step(id)
	p.keepDoc() // an example that was never changed is not in storage yet
	switch {
	case off && ok:
		p.write(func(s mark.Stamp) mark.Mark { return s.Undo(m) })
	case !off && !ok:
		kind := mark.Done
		if strings.HasPrefix(id, work.BuyPrefix) {
			kind = mark.Bought
		}
		p.write(func(s mark.Stamp) mark.Mark { return s.Entry(kind, id) })
	}
}
