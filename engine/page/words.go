package page

import (
	"strconv"
	"strings"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// Sentence puts a finding into words: what is wrong, by how much, what to do.
// Fractions are written with the fraction slash; see [Plain].
func Sentence(f issue.Finding, t measure.Tape) string {
	return speaker{t: t}.say(f)
}

// Plain is a text of this package in plain characters, for a terminal, a file
// or a screen reader: "23 5/8", "-1 1/4".
func Plain(s string) string {
	return plainly.Replace(s)
}

var plainly = strings.NewReplacer(slash, "/", "\u2212", "-", "\u201c", `"`, "\u201d", `"`)

// say is a finding in words, with the names and the money of the project.
func (b *builder) say(f issue.Finding) string {
	return speaker{t: b.t, money: b.money, name: b.nameOf}.say(f)
}

// nameOf is what a place in a finding is called: "A, side, left" for a line of
// the cut list, the name of a part; else the text itself.
func (b *builder) nameOf(where string) string {
	for _, l := range b.Cart.Lines {
		if l.Tag == where {
			return l.Tag + ", " + l.Name
		}
	}
	for _, p := range b.Cart.Parts {
		if string(p.ID) == where {
			return p.Name
		}
	}
	return where
}

// A speaker knows how quantities and names are said.
type speaker struct {
	t     measure.Tape
	money func(measure.Money) string // nil: the amount alone
	name  func(string) string        // nil: the place as it is
}

// say fills the text of the finding's code. In a text, {0} is the first
// argument, {0|piece|pieces} a count with its noun, {-0} an argument without
// its sign, {w} the first place. A code without a text still tells what is
// known.
func (s speaker) say(f issue.Finding) string {
	if tell, ok := told[f.Code]; ok {
		if out := tell(s, f); out != "" {
			return out
		}
	}
	tmpl, ok := texts[f.Code]
	if !ok {
		return s.unknown(f)
	}
	return s.with(f, tmpl)
}

// with puts the arguments of f into a text.
func (s speaker) with(f issue.Finding, tmpl string) string {
	var out strings.Builder
	for tmpl != "" {
		before, rest, found := strings.Cut(tmpl, "{")
		out.WriteString(before)
		if !found {
			break
		}
		key, after, _ := strings.Cut(rest, "}")
		out.WriteString(s.fill(f, key))
		tmpl = after
	}
	return capital(out.String())
}

func (s speaker) fill(f issue.Finding, key string) string {
	if key == "w" {
		if len(f.Where) == 0 {
			return "this"
		}
		return s.where(f.Where[0])
	}
	key, nouns, counted := strings.Cut(key, "|")
	key, bare := strings.CutPrefix(key, "-")
	i, err := strconv.Atoi(key)
	if err != nil || i < 0 || i >= len(f.Args) {
		return "?"
	}
	a := f.Args[i]
	if l, ok := a.(measure.Length); ok && bare {
		a = l.Abs()
	}
	v := s.quantity(a)
	if counted {
		one, many, _ := strings.Cut(nouns, "|")
		if v == "1" {
			return v + " " + one
		}
		return v + " " + many
	}
	return v
}

// quantity is one argument: lengths in the tape, on its marks where they are,
// else exactly; money with its sign; weights with their unit.
func (s speaker) quantity(a any) string {
	switch v := a.(type) {
	case measure.Length:
		return strings.Replace(s.t.ShowExact(v), "-", "\u2212", 1)
	case measure.Money:
		if s.money != nil {
			return s.money(v)
		}
		return v.String()
	case measure.Mass:
		return s.t.ShowMass(v) + " " + s.t.MassUnit()
	case int:
		return strconv.Itoa(v)
	case int64:
		return strconv.FormatInt(v, 10)
	case float64:
		return strconv.FormatFloat(v, 'f', 1, 64)
	case string:
		return v
	case issue.Code:
		return string(v)
	}
	return "?"
}

func (s speaker) where(w string) string {
	if s.name != nil {
		return s.name(w)
	}
	return w
}

// unknown tells a finding that this build has no text for: its code, what it
// is about, its numbers.
func (s speaker) unknown(f issue.Finding) string {
	_, what, ok := strings.Cut(string(f.Code), ".")
	if !ok {
		what = string(f.Code)
	}
	out := capital(strings.ReplaceAll(what, "-", " "))
	if len(f.Where) > 0 {
		out += ": " + s.where(f.Where[0])
	}
	if len(f.Args) > 0 {
		var args []string
		for _, a := range f.Args {
			args = append(args, s.quantity(a))
		}
		out += " (" + strings.Join(args, ", ") + ")"
	}
	return out + "."
}
