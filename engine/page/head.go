package page

import (
	"strconv"
	"strings"

	"cartwright/engine/measure"
)

// places are the six places in the order of the work.
var places = [...]struct {
	place Place
	name  string
}{{Size, "Size"}, {Parts, "Parts"}, {Store, "Store"}, {Saw, "Saw"}, {Bench, "Bench"}, {Check, "Check"}}

// rod is the six places on their rod. The mark of a place is drawn by the
// style sheet.
func (b *builder) rod() node {
	var out nodes
	for _, p := range places {
		now := item(nil)
		if p.place == b.place() {
			now = attr{"aria-current", "page"}
		}
		out = append(out, button("", do(doPlace, "to", string(p.place)), attr{"id", "place-" + string(p.place)}, now, text(p.name)))
	}
	return out
}

// head is the project's name, whether it is saved, and undo, redo and menu.
func (b *builder) head() node {
	name := "Cartwright"
	if b.Project != nil && b.Project.Name != "" {
		name = b.Project.Name
	}
	out := nodes{el("h1", text(name))}
	switch {
	case b.Embedded:
		out = append(out,
			el("p", attr{"class", "saved"}, text("Read only")),
			button("plain", do(doCopy), attr{"id", "copy"}, text("Work on a copy")))
	case b.ReadOnly:
		out = append(out,
			el("p", attr{"class", "saved"}, text("Open elsewhere: read only here")),
			button("plain", do(doTakeOver), attr{"id", "takeover"}, text("Take over")))
	case b.Saved != "" && !b.SaveFailed:
		out = append(out, el("p", attr{"class", "saved"}, icon(tick), shortened(b.Saved)))
	}
	out = append(out, span("push"))
	switch {
	case b.place() == Saw && b.Awake == "on":
		out = append(out, el("p", attr{"class", "awake"}, icon(sun), text("Screen stays on")))
	case b.place() == Saw && b.Awake == "off":
		out = append(out, el("p", attr{"class", "awake"}, text("Screen may go dark")))
	case b.place() == Size && b.Project != nil:
		out = append(out, button("tape", do(doMenu, "to", "tape"), attr{"id", "head-tape"},
			span("sr", text("Measuring tape: ")), span("", rich(tapeName(b.t)))))
	}
	tool := func(id string, a action, name string, i drawn, ok bool) node {
		return button("tool", do(a), attr{"id", id}, attr{"aria-label", name}, attr{"title", name},
			when(!ok, attr{"aria-disabled", "true"}), icon(i))
	}
	return append(out,
		tool("undo", doUndo, "Undo", undo, b.CanUndo),
		tool("redo", doRedo, "Redo", redo, b.CanRedo),
		tool("menu-open", doMenu, "Menu", menu, true))
}

// shortened is a sentence of which a phone shows only what follows its last
// comma: "Saved on this device, 10:42" becomes "10:42".
func shortened(s string) node {
	i := strings.LastIndex(s, ", ")
	if i < 0 {
		return text(s)
	}
	return nodes{span("long", text(s[:i+2])), text(s[i+2:])}
}

func tapeName(t measure.Tape) string {
	if t.Metric {
		return "mm, to " + t.Show(t.Least())
	}
	return "inch, to " + t.Show(t.Least())
}

// A Cell is one of the five numbers that are always in sight.
type Cell struct {
	Key   string // "strip/sheets": the key in [View.Was]
	Label string
	Value string
	Unit  string
	To    Place
}

// Strip returns the five numbers: sheets, cost, store cuts, weight, problems.
// The worker keeps their values when a drag begins, for [View.Was].
func Strip(v View) []Cell {
	return []Cell{
		{"strip/sheets", "Sheets", strconv.Itoa(v.sheets()), "", Store},
		{"strip/cost", "Cost", v.money(v.Buy.Total), "", Store},
		{"strip/cuts", "Store cuts", strconv.Itoa(v.Plan.StoreCuts + v.Past.StoreCuts), "", Store},
		{"strip/weight", "Weight", v.measure().ShowMass(v.Report.Empty), v.measure().MassUnit(), Check},
		{"strip/problems", "Problems", strconv.Itoa(v.Findings.Problems()), "", Check},
	}
}

// sheets counts the sheets of the whole project; boards and offcuts are not
// sheets.
func (v View) sheets() int {
	if v.Project == nil {
		return 0
	}
	n := 0
	for _, s := range v.Project.Stock.Sheets {
		n += v.Past.Spent[s.ID]
	}
	for _, l := range v.Plan.Sheets {
		if l.Stock < 0 || l.Stock >= len(v.Job.Stock) {
			continue
		}
		if v.isSheet(v.Job.Stock[l.Stock].ID) {
			n++
		}
	}
	return n
}

// isSheet reports whether a stock of the job is a sheet that is for sale.
func (v View) isSheet(id string) bool {
	for _, s := range v.Project.Stock.Sheets {
		if s.ID == id {
			return true
		}
	}
	return false
}

func (b *builder) strip() node {
	var out nodes
	for _, c := range Strip(b.View) {
		class := "cell"
		was, moved := b.Was[c.Key]
		moved = moved && was != c.Value
		if moved {
			class += " lit"
		}
		sign := item(nil)
		if c.Key == "strip/problems" {
			if c.Value == "0" {
				sign = icon(tick)
			} else {
				class += " bad"
				sign = icon(triangle)
			}
		}
		at := ""
		if c.Key == "strip/cost" && b.Buy.Unpriced > 0 {
			at = "at least "
		}
		out = append(out, button(class, do(doPlace, "to", string(c.To)), attr{"id", "cell-" + c.Key[len("strip/"):]},
			span("label", text(c.Label)),
			span("value", when(at != "", span("sr", text(at))), el("b", text(c.Value)),
				when(c.Unit != "", span("unit", text(c.Unit))), sign,
				when(moved, el("s", span("sr", text("was ")), text(was))))))
	}
	return out
}

// live is what a screen reader is told without being asked: the last cut at
// the saw, a change in the number of problems elsewhere.
func (b *builder) live() string {
	if b.place() == Saw {
		return b.sawLive()
	}
	n := b.Findings.Problems()
	was, moved := b.Was["strip/problems"]
	if !moved || was == strconv.Itoa(n) {
		return ""
	}
	s := "Problems " + strconv.Itoa(n) + "."
	if n > 0 {
		s += " " + Plain(b.say(b.Findings[0]))
	}
	return s
}

// banner tells what concerns every place: the held plan no longer fits the
// project, the file held more than this build understands.
func (b *builder) banner() nodes {
	var out nodes
	say := func(class string, mark drawn, s string, more ...item) {
		out = append(out, el("div", append([]item{attr{"class", "says " + class}, icon(mark), el("p", rich(s))}, more...)...))
	}
	if b.Offer != nil {
		out = append(out, b.offer())
	}
	replan := when(!b.ReadOnly && b.Offer == nil, button("plain", do(doReplan), attr{"id", "replan"}, text("Plan the uncut again")))
	for _, s := range []string{b.cameOut(), b.newFlaws()} {
		if s != "" && b.Offer == nil {
			say("warn", triangle, s, replan)
			replan = nil
		}
	}
	if b.Project != nil && b.Project.Rival != nil && !b.ReadOnly {
		say("warn", triangle, "Two plans were taken into use on two devices. Nothing is mixed: say which one goes on; what was marked under the other stays in the journal.",
			button("plain", do(doRival, "to", "this"), attr{"id", "rival-this"}, text("Go on with this plan")),
			button("plain", do(doRival, "to", "other"), attr{"id", "rival-other"}, text("Take the other device's")))
	}
	if b.Held && b.Stale {
		s := "The project has changed since this plan was taken into use."
		if b.Differ > 0 {
			s = count(b.Differ, "part differs", "parts differ") + " from the plan in use. Nothing that is cut will move." + b.strayed()
		}
		say("warn", triangle, s, replan)
	}
	if b.SaveFailed {
		say("warn", triangle, b.Saved, button("plain", do(doExport), attr{"id", "banner-export"}, text("Download the file")))
	}
	if b.Project != nil {
		for i, w := range b.Project.Warnings {
			if i == 3 {
				say("note", square, "and "+count(len(b.Project.Warnings)-3, "more", "more"))
				break
			}
			say("note", square, w)
		}
	}
	return out
}
