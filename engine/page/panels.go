package page

import (
	"strconv"
	"strings"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// Panels returns every panel of the page for the view, the strip first. A
// panel that the place does not use is empty. The script puts only those into
// the page whose HTML has changed. While something is dragged, the panels that
// no drag moves are left out.
func Panels(v View) []Panel {
	b := newBuilder(v)
	var out []Panel
	var buf buffer
	add := func(id string, n node) {
		if n == nil {
			out = append(out, Panel{ID: id})
			return
		}
		buf = buf[:0]
		n.write(&buf)
		out = append(out, Panel{id, string(buf)})
	}
	add("strip", b.strip())
	add("live", text(b.live()))
	if !v.Dragging {
		add("rod", b.rod())
		add("head", b.head())
		add("banner", b.banner())
		add("menu-body", b.menu())
	}
	for _, f := range sections {
		if !v.Dragging || f.moves {
			add(f.id, b.section(f))
		}
	}
	var s screen
	if v.Project != nil {
		switch v.Place {
		case Parts:
			s = b.parts()
		case Store:
			s = b.store()
		case Saw:
			s = b.saw()
		case Bench:
			s = b.bench()
		case Check:
			s = b.check()
		default:
			s = b.size()
		}
	}
	add("keys", s.keys)
	add("title", s.title)
	add("block", s.block)
	add("buttons", s.buttons)
	add("list", s.list)
	add("side", s.side)
	add("findings", s.findings)
	return out
}

// A screen is what a place puts into the panels that places share. Nil leaves
// a panel empty.
type screen struct {
	title    node // heading over the list, with its buttons
	list     node // rows
	block    node // the one thing at hand: the cut block, the store card
	buttons  node // under the thumb
	side     node // data, sums
	findings node
	keys     node // fraction keys
}

// A Flag is a data attribute of <body>, without the "data-".
type Flag struct{ Name, Value string }

// Flags returns what the style sheet must know of the view. A flag with an
// empty value is to be absent.
func Flags(v View) []Flag {
	on := func(b bool) string {
		if b {
			return "on"
		}
		return ""
	}
	return []Flag{
		{"place", string(v.place())},
		{"readonly", on(v.ReadOnly)},
		{"embedded", on(v.Embedded)},
		{"held", on(v.Held)},
		{"chosen", on(v.Selected != "")},
	}
}

func (v View) place() Place {
	switch v.Place {
	case Parts, Store, Saw, Bench, Check:
		return v.Place
	}
	return Size
}

func (v View) measure() measure.Tape {
	if v.Project == nil {
		return v.Cart.Tape
	}
	return v.Project.Measure()
}

// A builder makes the panels of one view.
type builder struct {
	View
	t measure.Tape
	// at maps the place that a finding names first to the index of the first
	// such finding that blocks or warns.
	at map[string]int
	so progress
}

func newBuilder(v View) *builder {
	b := &builder{View: v, t: v.measure(), at: map[string]int{}, so: v.progress()}
	for i, f := range b.Findings {
		if len(f.Where) == 0 || f.Level == issue.Note {
			continue
		}
		if _, taken := b.at[f.Where[0]]; !taken {
			b.at[f.Where[0]] = i
		}
	}
	return b
}

// money is an amount with the project's sign.
func (v View) money(m measure.Money) string {
	sign := "$"
	if v.Project != nil && v.Project.Currency != "" {
		sign = v.Project.Currency
	}
	s := m.String()
	if rest, neg := strings.CutPrefix(s, "-"); neg {
		return "\u2212" + sign + rest
	}
	return sign + s
}

// count is "1 sheet", "3 sheets".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// numbers in words up to ten, for sentences to people at a saw.
func inWords(n int) string {
	if n >= 0 && n <= 10 {
		return [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}[n]
	}
	return strconv.Itoa(n)
}

// join3 is "5", "5 and 6", "5, 6 and 7".
func listed(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}
