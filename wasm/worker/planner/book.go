package planner

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// The offcuts book is not a part of any project: it is kept on the device, an
// entry a record, so that two tabs do not write over each other.

// A leaf is a change of one entry of the book.
type leaf struct{ was, is project.Rest } // without a key: there is no such entry

// readBook takes what storage holds.
func (p *Planner) readBook(texts []string) {
	p.book = nil
	for _, t := range texts {
		var r project.Rest
		if json.Unmarshal([]byte(t), &r) == nil && r.Sound() {
			p.book = append(p.book, r)
		}
	}
	p.sortBook()
}

func (p *Planner) sortBook() {
	b := p.book
	for i := range b {
		for ; i > 0 && (number(b[i].Name) < number(b[i-1].Name) || number(b[i].Name) == number(b[i-1].Name) && b[i].Key < b[i-1].Key); i-- {
			b[i], b[i-1] = b[i-1], b[i]
		}
	}
}

// number is the figure in a name such as Q7: no part has that letter, 0 for none.
func number(name string) int {
	n, _ := strconv.Atoi(strings.TrimPrefix(name, "Q"))
	return n
}

// turn makes changes in the book, or takes them back, and asks for them to be
// stored.
func (p *Planner) turn(leaves []leaf, back bool) {
	for _, l := range leaves {
		if back {
			l.was, l.is = l.is, l.was
		}
		key := or(l.is.Key, l.was.Key)
		p.book = slices.DeleteFunc(slices.Clone(p.book), func(r project.Rest) bool { return r.Key == key })
		text := ""
		if l.is.Key != "" {
			p.book = append(p.book, l.is)
			b, err := json.Marshal(l.is)
			if err != nil {
				panic("planner: " + err.Error())
			}
			text = string(b)
		}
		p.reply.Records = append(p.reply.Records, Record{Kind: "book", Name: key, Text: text})
	}
	p.sortBook()
}

// inBook is the entry with a key.
func (p *Planner) inBook(key string) (project.Rest, bool) {
	for _, r := range p.book {
		if r.Key == key {
			return r, true
		}
	}
	return project.Rest{}, false
}

// leftovers is what the project leaves: sizes, and the place that sets each
// apart; used are the entries of the book that it has cut into.
func (p *Planner) leftovers() (left []project.Rest, used []project.Rest) {
	if p.held == nil {
		return nil, nil
	}
	add := func(s nest.Stock, key string) {
		r := project.Rest{Key: or(p.id, "here") + "/" + key, From: p.doc.Name, Length: s.L, Width: s.W, Trim: max(s.Trim, slices.Max(s.Off[:])),
			Grain: [...]string{"none", "length", "width"}[s.Grain], Material: s.Material}
		if m, ok := p.doc.Material(s.Material); ok {
			r.Called, r.Kind, r.Nominal = m.Name, m.Kind, m.Nominal
		}
		if r.Name = "Q"; r.Sound() {
			left = append(left, r)
		}
	}
	spent := map[string]bool{}
	for id, n := range p.held.Spent {
		spent[id] = n > 0
	}
	of := make([]int, len(p.held.Job.Stock))
	for _, sh := range p.held.plan.Sheets {
		of[sh.Stock]++
	}
	for _, l := range work.LyingNow(p.held.Job, p.held.plan, p.out.Steps, p.out.stands) {
		s := p.held.Job.Stock[p.held.plan.Sheets[l.Sheet].Stock]
		spent[base(s.ID)] = spent[base(s.ID)] || l.By != ""
		if l.Is == work.ToKeep {
			s.L, s.W, s.Trim, s.Off = l.L, l.W, 0, l.Off
			add(s, p.held.digest+"/"+strconv.Itoa(l.Sheet)+"/"+l.Piece.X.String()+"/"+l.Piece.Y.String())
		}
	}
	for i, s := range p.held.Job.Stock {
		if p.held.isPiece(i) {
			for n := of[i]; n < s.Count; n++ {
				add(s, p.held.digest+"/"+s.ID+"/"+strconv.Itoa(n))
			}
		}
	}
	for _, r := range p.book {
		if spent[r.Name] && r.Taken == p.id {
			used = append(used, r)
		}
	}
	return left, used
}

// bookish answers what is done with the book: "put" writes what the project
// leaves into it, "take" makes an entry, or all that fit, stock of the project,
// "strike" strikes one out, "file" hands it out.
func (p *Planner) bookish(to, id string) error {
	s := step{}
	switch to {
	case "put":
		left, used := p.leftovers()
		if len(left) == 0 && len(used) == 0 {
			return refuse("Nothing worth keeping is left over.")
		}
		for _, r := range used {
			s.book = append(s.book, leaf{was: r})
		}
		next := 1
		for _, r := range p.book {
			next = max(next, number(r.Name)+1)
		}
		for _, r := range left {
			was, ok := p.inBook(r.Key)
			if r.Name = was.Name; !ok {
				r.Name = "Q" + strconv.Itoa(next)
				next++
			}
			r.Taken = was.Taken
			if r != was {
				s.book = append(s.book, leaf{was, r})
			}
		}
		if len(s.book) == 0 {
			p.say = "They are in the book already."
			return nil
		}
	case "take":
		next := p.doc.Clone()
		for _, r := range p.book {
			if id != "" && r.Key != id || id == "" && !p.offers(r) || p.has(next, r.Name) {
				continue
			}
			m, ok := r.Same(next)
			if !ok {
				m = r.Material
				for n := 2; ; n++ {
					if _, taken := next.Material(m); !taken {
						break
					}
					m = r.Material + "-" + strconv.Itoa(n)
				}
				next.Stock.Materials = append(next.Stock.Materials, project.Material{ID: m, Name: r.Called, Kind: r.Kind, Nominal: r.Nominal})
			}
			next.Stock.Offcuts = append(next.Stock.Offcuts, project.Offcut{ID: r.Name, Material: m, Length: r.Length, Width: r.Width, Grain: r.Grain, Trim: r.Trim, Count: 1})
			taken := r
			taken.Taken = or(p.id, "here")
			s.book = append(s.book, leaf{r, taken})
		}
		if len(s.book) == 0 {
			return refuse("There is no such piece in the book, or it is here already.")
		}
		p.before()
		s.before, s.after = p.doc, next
		p.doc = next
		p.keepDoc()
	case "strike":
		r, ok := p.inBook(id)
		if !ok {
			return refuse("There is no such piece in the book.")
		}
		s.book = []leaf{{was: r}}
	case "file":
		text, err := json.MarshalIndent(project.Book{Format: project.BookFormat, Version: 1, Offcuts: p.book}, "", "  ")
		if err != nil {
			panic("planner: " + err.Error())
		}
		p.reply.File = &File{Name: "offcuts.json", Type: "application/json", Text: string(text)}
		return nil
	default:
		return refuse("The book has no such page.")
	}
	p.turn(s.book, false)
	p.record(s)
	return nil
}

// offers reports whether an entry is free and of a material that the parts of
// the project want.
func (p *Planner) offers(r project.Rest) bool {
	m, ok := r.Same(p.doc)
	if !ok || p.has(p.doc, r.Name) || r.Taken != "" && r.Taken != or(p.id, "here") {
		return false
	}
	return slices.ContainsFunc(p.out.made.Lines, func(l part.Line) bool { return l.Material == m })
}

func (p *Planner) has(doc *project.Project, name string) bool {
	return slices.ContainsFunc(doc.Stock.Offcuts, func(o project.Offcut) bool { return o.ID == name })
}

// openBook takes the entries of a file over that are not there yet.
func (p *Planner) openBook(text string) error {
	all, bad, err := project.OpenBook([]byte(text))
	if err != nil {
		return err
	}
	s := step{}
	for _, r := range all {
		if _, ok := p.inBook(r.Key); !ok {
			r.Taken = ""
			s.book = append(s.book, leaf{is: r})
		}
	}
	p.turn(s.book, false)
	if len(s.book) > 0 {
		p.record(s)
	}
	p.reply.Alert = strconv.Itoa(len(s.book)) + " offcuts were new to the book."
	if bad > 0 {
		p.reply.Alert += " " + strconv.Itoa(bad) + " could not be read and were left out."
	}
	return nil
}

// pages is the book as the page shows it.
func (p *Planner) pages() (b page.Book) {
	b.All, b.Refused = p.book, p.saveFailed
	for _, r := range p.book {
		if p.offers(r) {
			b.Offered = append(b.Offered, r.Key)
		}
	}
	if p.held != nil && p.place == page.Saw && p.out.stands.Done == p.out.stands.Total {
		b.Left, _ = p.leftovers()
		b.Kept = true
		for i := range b.Left {
			r, ok := p.inBook(b.Left[i].Key)
			b.Left[i].Name = r.Name
			b.Kept = b.Kept && ok
		}
	}
	return b
}
