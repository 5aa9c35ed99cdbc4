package page

import (
	"strconv"
	"strings"

	"cartwright/engine/measure"
)

// A field is one row of a form: a label, what was understood, and the control.
type field struct {
	path, label string
	// value is what the project holds, as project.Set reads it; "" if it
	// holds the default.
	value string
	// shown is the value as it is seen while nobody types; inUse the text of
	// the value in use where value is empty: the default, or what is computed.
	shown, inUse string
	unit         string
	note         string // what was understood, or what the number means
	length       bool   // takes fractions
	wide         bool   // a name: the box takes the whole row
}

// A hint says what stands in for an empty field, and explains it.
type hint struct {
	// inUse is the length that is used while the field is empty.
	inUse measure.Length
	note  string
	zero  bool // 0 says something
}

// usual is a default by tape; the values stand in package project's comments.
func (b *builder) usual(inch, metric measure.Length) hint {
	if b.t.Metric {
		return hint{inUse: metric}
	}
	return hint{inUse: inch}
}

// length is the field of a length.
func (b *builder) length(path, label string, l measure.Length, h hint) node {
	f := field{path: path, label: label, unit: b.t.Unit(), note: h.note, length: true}
	switch {
	case l == 0 && h.inUse != 0:
		f.inUse, f.shown = b.t.Exact(h.inUse), b.t.Show(h.inUse)
		if h.note == "" {
			f.note = "the usual"
		}
	case l == 0 && !h.zero:
	case b.t.On(l):
		f.value, f.shown = b.t.Plain(l), b.t.Show(l)
	default:
		f.value = b.t.Exact(l)
		f.shown, f.unit = f.value, ""
		if f.note == "" && !strings.HasSuffix(f.value, b.t.Unit()) {
			f.note = "that is " + b.t.ShowExact(l) + " " + b.t.Unit()
		}
	}
	return b.row(f)
}

// mass is the field of a weight; its text has its unit.
func (b *builder) mass(path, label string, m measure.Mass, note string) node {
	f := field{path: path, label: label, unit: b.t.MassUnit(), note: note}
	if m != 0 {
		f.value = m.String()
		f.shown, f.unit = f.value, ""
	}
	return b.row(f)
}

// price is the field of an amount of money.
func (b *builder) price(path, label string, m measure.Money, note string) node {
	f := field{path: path, label: label, note: note}
	if m != 0 {
		f.value, f.shown = m.String(), b.money(m)
	}
	return b.row(f)
}

// whole is the field of a count; usual is what an empty one means.
func (b *builder) whole(path, label string, n int, usual, note string) node {
	f := field{path: path, label: label, note: note, inUse: usual, shown: usual}
	if n != 0 {
		f.value = strconv.Itoa(n)
		f.shown = f.value
	}
	return b.row(f)
}

// number is the field of a number with a unit; usual is used while it is empty.
func (b *builder) number(path, label string, v, usual float64, unit string) node {
	f := field{path: path, label: label, unit: unit}
	if usual != 0 {
		f.inUse, f.note = strconv.FormatFloat(usual, 'g', 4, 64), "the usual"
		f.shown = f.inUse
	}
	if v != 0 {
		f.value, f.note = strconv.FormatFloat(v, 'g', -1, 64), ""
		f.shown = f.value
	}
	return b.row(f)
}

// name is the field of a text.
func (b *builder) name(path, label, s, placeholder string) node {
	return b.row(field{path: path, label: label, value: s, shown: s, inUse: placeholder, wide: true})
}

func (b *builder) row(f field) node {
	id := "i-" + f.path
	class := "field"
	if f.wide {
		class += " wide"
	}
	value, shown := f.value, f.shown
	wrong, bad := b.Wrong[f.path]
	if bad {
		value, shown = wrong.Text, ""
		class += " wrong"
	}
	was, moved := b.Was[f.path]
	moved = moved && was != f.value
	if moved {
		class += " lit"
	}
	note := f.note
	if moved && was != "" {
		note = "was " + withSlash(was)
	}
	control := &element{tag: "input", attrs: append(make([]attr, 0, 16), attr{"id", id}, attr{"type", "text"},
		attr{"autocomplete", "off"}, attr{"spellcheck", "false"}, attr{"enterkeyhint", "done"},
		attr{"data-do", doSet}, attr{"data-path", f.path}, attr{"value", value})}
	also := func(ok bool, name, value string) {
		if ok {
			control.attrs = append(control.attrs, attr{name, value})
		}
	}
	says := b.about(f.path)
	also(f.length, "data-len", "")
	also(f.length || f.unit != "", "inputmode", keyboard(b.t, f))
	also(f.inUse != "", "placeholder", strings.TrimSuffix(f.inUse, " "+f.unit))
	also(f.inUse != "", "data-value", f.inUse)
	also(bad, "aria-invalid", "true")
	also(b.ReadOnly, "readonly", "")
	also(note != "" || bad || says != nil, "aria-describedby", "e-"+f.path)
	seen := "shown"
	if f.value == "" {
		seen = "shown auto"
	}
	return div(class,
		el("label", attr{"for", id}, span("name", rich(f.label)),
			when(f.unit != "", span("sr", text(", "+f.unit)))),
		span("box",
			control,
			when(shown != "", span(seen, attr{"aria-hidden", "true"}, bare(shown))),
			when(f.unit != "", span("unit", attr{"aria-hidden", "true"}, text(f.unit)))),
		when(note != "" || bad || says != nil, div("echo", attr{"id", "e-" + f.path},
			when(note != "" && !bad, el("small", rich(note))),
			when(bad, el("p", attr{"class", "says bad"}, icon(triangle),
				span("", rich(b.misread(wrong, f))))),
			when(says != nil && !bad, says))))
}

// misread is the message under a field that could not be read.
func (b *builder) misread(w Wrong, f field) string {
	s := "Could not read \u201c" + w.Text + "\u201d: " + strings.TrimSuffix(w.Why, ".") + "."
	keep := f.shown
	if keep != "" {
		s += " " + keep + " stays in use."
	}
	return s
}

// withSlash is a plain text of the document for the eye.
func withSlash(s string) string { return strings.ReplaceAll(s, "-", "\u2212") }

// keyboard names the on-screen keyboard: a decimal pad has no slash.
func keyboard(t measure.Tape, f field) string {
	if f.length && !t.Metric {
		return "text"
	}
	return "decimal"
}

// about is the first finding that names the path, to stand under its field.
func (b *builder) about(path string) item {
	i, ok := b.at[path]
	if !ok {
		return nil
	}
	f := b.Findings[i]
	return el("p", attr{"class", "says bad"}, icon(sign(f.Level)), span("", rich(b.say(f))))
}

// An option is one choice of a select.
type option struct{ value, label string }

// choice is a field with a few answers. The first option is the default, its
// value is "" and the names that mean it follow in the text of the project.
func (b *builder) choice(path, label, value string, options ...option) node {
	id := "i-" + path
	sel := el("select", attr{"id", id}, do(doSet, "path", path), when(b.ReadOnly, attr{"disabled", ""}))
	known := false
	for _, o := range options {
		known = known || o.value == value
	}
	if !known {
		options = append(options, option{value, value})
	}
	for _, o := range options {
		el("option", attr{"value", o.value}, when(o.value == value, attr{"selected", ""}), text(Plain(o.label))).join(sel)
	}
	class := "field wide"
	if was, moved := b.Was[path]; moved && was != value {
		class += " lit"
	}
	says := b.about(path)
	return div(class,
		el("label", attr{"for", id}, span("name", text(label))),
		span("box", sel),
		b.pics(path, label, value, options),
		when(says != nil, div("echo", says)))
}

// tickbox is a field that is true or not.
func (b *builder) tickbox(path, label string, on bool) node {
	id := "i-" + path
	return div("field check",
		el("input", attr{"id", id}, attr{"type", "checkbox"}, do(doSet, "path", path), when(on, attr{"checked", ""}),
			when(b.ReadOnly, attr{"disabled", ""})),
		el("label", attr{"for", id}, text(label)))
}

// material is a choice among the materials of the project.
func (b *builder) material(path, label, value string) node {
	options := []option{}
	if value == "" {
		options = append(options, option{"", "choose one"})
	}
	for _, m := range b.Project.Stock.Materials {
		n := m.Name
		if n == "" {
			n = m.ID
		}
		options = append(options, option{m.ID, n})
	}
	return b.choice(path, label, value, options...)
}

// spare is a material that may be left out.
func (b *builder) spare(path, label, value string) node {
	options := []option{{"", "none"}}
	for _, m := range b.Project.Stock.Materials {
		options = append(options, option{m.ID, or(m.Name, m.ID)})
	}
	return b.choice(path, label, value, options...)
}

// more is what a beginner need not open. It stays open across patches.
func more(key, summary string, items ...item) node {
	d := el("details", attr{"data-keep", key}, el("summary", attr{"id", "s-" + key}, text(summary)))
	for _, it := range items {
		if it != nil {
			it.join(d)
		}
	}
	return d
}

// add is the button that puts a new entry at the end of a list.
func (b *builder) add(path, what string) node {
	if b.ReadOnly {
		return nodes{}
	}
	return button("plain", do(doAdd, "path", path), attr{"id", "add-" + path}, text("Add "+what))
}

// drop is the button that takes an entry out of a list.
func (b *builder) drop(path string, at int, name string) node {
	if b.ReadOnly {
		return nodes{}
	}
	return button("drop", do(doRemove, "path", path, "at", strconv.Itoa(at)), attr{"id", "drop-" + path + "." + strconv.Itoa(at)},
		attr{"aria-label", "Remove " + name}, text("Remove"))
}

// swap is the button that lets an entry and the next of its list change places.
func (b *builder) swap(path string, at, of int, label string) node {
	if b.ReadOnly || at+1 >= of {
		return nodes{}
	}
	return button("plain", do(doSwap, "path", path, "at", strconv.Itoa(at)), attr{"id", "swap-" + path + "." + strconv.Itoa(at)}, text(label))
}

// entry is one item of a list of the project: its heading and its fields.
func (b *builder) entry(path string, at int, name string, items ...item) node {
	e := el("section", attr{"class", "entry"},
		el("header", el("h3", rich(name)), b.drop(path, at, name)))
	for _, it := range items {
		if it != nil {
			it.join(e)
		}
	}
	return e
}

// or is the first text that is not empty.
func or(texts ...string) string {
	for _, s := range texts {
		if s != "" {
			return s
		}
	}
	return ""
}
