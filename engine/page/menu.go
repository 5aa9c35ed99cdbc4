package page

import (
	"cartwright/engine/measure"
)

// menu is what is not needed between two cuts: the tape, other projects,
// files, looks, help.
func (b *builder) menu() node {
	out := nodes{}
	if p := b.Project; p != nil {
		out = append(out, el("section",
			el("h2", text("This project")),
			b.name("name", "Name", p.Name, "Cart"),
			b.name("note", "Note", p.Note, ""),
			el("h3", attr{"id", "menu-tape"}, text("Your measuring tape")),
			b.tapes(),
			b.name("currency", "Sign before prices", p.Currency, "$")))
	}
	files := nodes{el("h2", text("Files"))}
	act := func(a action, id, label string) node { return button("plain", do(a), attr{"id", id}, text(label)) }
	files = append(files, act(doExport, "export", "Save as a file"))
	if !b.Embedded {
		files = append(files, act(doImport, "import", "Open a file"))
		if !b.ReadOnly && b.Project != nil {
			files = append(files, act(doMerge, "merge", "Add the marks of another device"))
		}
	}
	files = append(files,
		act(doShare, "share", "Copy a link to this project"),
		act(doEmbed, "embed", "Copy the tag for another page"),
		act(doCSV, "menu-csv", "Save the cut list as CSV"),
		button("plain", do(doPrint, "to", "parts"), attr{"id", "menu-print-parts"}, text("Print the cut list")),
		button("plain", do(doPrint, "to", "labels"), attr{"id", "menu-print-labels"}, text("Print labels for the parts")),
		button("plain", do(doPrint, "to", "cards"), attr{"id", "menu-print-cards"}, text("Print the store cards")))
	out = append(out, el("section", files))
	if !b.Embedded {
		out = append(out, el("section", b.stored()), el("section", b.bookMenu()))
	}
	theme := func(to, label string) node {
		return button("plain", do(doTheme, "to", to), attr{"id", "theme-" + to}, text(label))
	}
	return append(out,
		el("section", el("h2", text("Looks")), div("choice", theme("auto", "As the device says"), theme("light", "Light"), theme("dark", "Dark"))),
		el("section", attr{"id", "menu-help"}, el("h2", text("Good to know")),
			el("p", attr{"class", "offline"}, icon(tick), text("Ready offline")),
			el("p", attr{"class", "online"}, text("This browser keeps no programs: without a network, this page will not open.")),
			el("p", text("Everything stays on this device: nothing is sent anywhere. Space marks the next cut at Saw, and so does a page-turner pedal. Ctrl Z takes any step back.")),
			el("p", text("Cartwright plans; it does not watch your hands. Your tools' manuals and your own judgement come first. Measure before you cut."))))
}

// tapes are the tapes a user can choose.
func (b *builder) tapes() node {
	in, mm := measure.Inch, measure.MM
	choices := [...]struct {
		to, label string
		t         measure.Tape
	}{
		{"inch/16", "inch, to 1" + slash + "16", measure.Tape{Step: in / 16}},
		{"inch/32", "inch, to 1" + slash + "32", measure.Tape{Step: in / 32}},
		{"inch/64", "inch, to 1" + slash + "64", measure.Tape{Step: in / 64}},
		{"mm/1", "mm, to 1", measure.Tape{Metric: true, Step: mm}},
		{"mm/0.5", "mm, to 0.5", measure.Tape{Metric: true, Step: mm / 2}},
	}
	out := nodes{}
	for _, c := range choices {
		now := c.t.Metric == b.t.Metric && c.t.Step == b.t.Least()
		out = append(out, button("plain", do(doTape, "to", c.to), attr{"id", "tape-" + c.to},
			attr{"aria-pressed", map[bool]string{true: "true", false: "false"}[now]}, when(b.ReadOnly, attr{"disabled", ""}), span("", rich(c.label))))
	}
	return div("choice", attr{"role", "group"}, attr{"aria-labelledby", "menu-tape"}, out)
}

// stored lists the projects on this device, and the starting points.
func (b *builder) stored() node {
	rows := nodes{}
	for _, s := range b.Projects {
		rows = append(rows, el("li",
			button("name", do(doOpen, "id", s.ID), attr{"id", "open-" + s.ID}, span("", text(or(s.Name, "without a name"))), el("small", text(s.When))),
			button("drop", do(doDelete, "id", s.ID), attr{"id", "delete-" + s.ID}, attr{"aria-label", "Delete " + or(s.Name, "project")}, text("Delete"))))
	}
	out := nodes{el("h2", text("Projects on this device"))}
	if len(rows) > 0 {
		out = append(out, el("ul", attr{"class", "projects"}, rows))
	}
	out = append(out, button("plain", do(doCopy), attr{"id", "menu-copy"}, text("Go on with a copy")), el("h2", text("Begin from")))
	for _, s := range Starts {
		out = append(out, button("plain", do(doNew, "to", s.File), attr{"id", "new-" + s.File}, text(s.Name)))
	}
	return out
}

// A Start is a starting point: the name of its file, and what it is.
type Start struct{ File, Name string }

// Starts lists the starting points. Each is a file of testdata/projects that
// comes with the site.
var Starts = []Start{
	{"jointer-stand", "Stand for a benchtop machine, inches"},
	{"outfeed-cabinet", "Outfeed cabinet, inches"},
	{"low-assembly-cart", "Low assembly cart, inches"},
	{"open-bench", "Open bench on wheels, inches"},
	{"plain-box", "Plain box with drawers, inches"},
	{"sharpening-cart", "Sharpening cart, millimetres"},
	{"tall-tool-cabinet", "Tall tool cabinet, millimetres"},
}
