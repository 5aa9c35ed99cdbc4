package planner

import (
	"fmt"

	"cartwright/engine/mark"
	"cartwright/engine/project"
)

// merge adds the journal of the same project on another device. Entries are
// joined by device and number: none is lost, none counted twice. Two plans that
// were taken into use without knowing of each other are never mixed: the other
// one is kept beside ours until the user chooses.
func (p *Planner) merge(name, text string) error {
	other, err := project.Open([]byte(text))
	if err != nil {
		return fmt.Errorf("“%s”: %s Your project is as it was.", name, sentence(err))
	}
	all := mark.Merge(p.doc.Journal, other.Journal)
	ours, theirs := p.doc.Plan, other.Plan
	if !p.kin(other, len(all)) {
		return refuse("“%s” is another project, or one begun anew: it has no plan and no mark in common with this one. Open it as a file to see it.", name)
	}
	fresh := all[:0:0]
	have := map[mark.Ref]mark.Mark{}
	for _, m := range p.doc.Journal {
		have[m.Ref()] = m
	}
	for _, m := range other.Journal {
		switch known, ok := have[m.Ref()]; {
		case !ok:
			fresh = append(fresh, m)
		case mark.Compare(&known, &m) != 0: // storage would keep one of the two
			return refuse("“%s” has another mark under the same number of the same device: one of them was copied. Nothing was added.", name)
		}
		have[m.Ref()] = m
	}
	next := p.doc.Clone()
	say := count(len(fresh), "mark was", "marks were") + " added from “" + name + "”; sizes and settings stay as they are here."
	switch {
	case theirs == nil, ours != nil && (ours.Digest == theirs.Digest || leads(all, theirs.Digest, ours.Digest)):
	case ours == nil, leads(all, ours.Digest, theirs.Digest):
		next.Plan = theirs
		say += " The plan is the one in use there."
	default:
		next.Rival = theirs
		say += " Two plans are in use: say above which one goes on."
	}
	if len(fresh) == 0 && p.same(next) {
		p.reply.Alert = "“" + name + "” has no mark that is not here already."
		return nil
	}
	p.ask("")
	if !p.same(next) {
		p.change(next)
	}
	p.doc.Journal = all
	p.held = nil
	p.keepDoc()
	for _, m := range fresh {
		p.keepMark(m)
	}
	p.reply.Alert = say
	return nil
}

// kin reports whether a file is of this project: they share an entry, a plan,
// or the file has what ours was before it had either.
func (p *Planner) kin(other *project.Project, joined int) bool {
	if joined < len(p.doc.Journal)+len(other.Journal) {
		return true
	}
	a, b := p.doc.Plan, other.Plan
	if a != nil && b != nil && (a.Digest == b.Digest || leads(append(other.Journal, p.doc.Journal...), a.Digest, b.Digest) || leads(append(other.Journal, p.doc.Journal...), b.Digest, a.Digest)) {
		return true
	}
	return p.doc.Name != "" && p.doc.Name == other.Name
}

// leads reports whether plans were taken into use one after the other from one
// digest to another.
func leads(journal []mark.Mark, from, to string) bool {
	reached := map[string]bool{from: true}
	for more := true; more; {
		more = false
		for _, m := range journal {
			if m.Kind == mark.Accepted && m.Prior != "" && reached[m.Prior] && !reached[m.Plan] {
				reached[m.Plan], more = true, true
			}
		}
	}
	return reached[to]
}

// rival settles which of two plans goes on: "this", or the "other".
func (p *Planner) rival(which string) error {
	if p.doc.Rival == nil || p.doc.Plan == nil {
		return refuse("There is only one plan.")
	}
	next := p.doc.Clone()
	next.Rival = nil
	prior := p.doc.Rival.Digest
	if which == "other" {
		prior, next.Plan = p.doc.Plan.Digest, p.doc.Rival
	}
	p.before()
	p.change(next)
	p.write(func(s mark.Stamp) mark.Mark {
		m := s.Entry(mark.Accepted, "plan")
		m.Plan, m.Prior = next.Plan.Digest, prior
		return m
	})
	p.held = nil
	p.keepDoc()
	return nil
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return itoa(n) + " " + many
}
