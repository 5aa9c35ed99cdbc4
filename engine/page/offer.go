package page

import (
	"strconv"
	"strings"

	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// An Offer is another plan that waits for a yes.
type Offer struct {
	Title string
	// Next is what the screen would show with it.
	Next View
	// Left are the letters of parts that would have no place; Again those of
	// parts that are there at another size and are made anew.
	Left, Again []string
	// Searching: a better one may still come.
	Searching bool
}

// A Stray is a part of the plan in use that the project wants at another size:
// length and width, was and now.
type Stray struct {
	Tag      string
	Was, Now [2]int64
}

// offer is the other plan: what it costs, what would change, yes or no.
func (b *builder) offer() node {
	o := b.Offer
	if o == nil {
		return nodes{}
	}
	n := o.Next
	head := "It costs the same."
	switch more := n.Buy.Total - b.Buy.Total; {
	case len(o.Left) > 0:
		head = "No room for " + listed(few(o.Left, 6)) + "."
	case more > 0:
		head = "+ " + b.money(more) + ": " + b.money(n.Buy.Total) + " in all."
	case more < 0:
		head = "\u2212 " + b.money(-more) + ": " + b.money(n.Buy.Total) + " in all."
	}
	rows := nodes{}
	row := func(name, was, now string, always bool) {
		if was != now || always {
			rows = append(rows, el("tr", el("th", attr{"scope", "row"}, text(name)), el("td", text(was)), el("td", el("b", text(now)))))
		}
	}
	c, d := Strip(b.View), Strip(n)
	for i := range c {
		if c[i].Key != "strip/weight" && c[i].Key != "strip/problems" {
			row(c[i].Label, c[i].Value, d[i].Value, i < 2)
		}
	}
	row("Cuts left at home", strconv.Itoa(b.cutsLeft()), strconv.Itoa(len(n.Steps.Shop)), true)
	says := nodes{}
	say := func(s string) { says = append(says, el("p", rich(s))) }
	if len(o.Left) > 0 {
		say("Another size, delivery, or fewer or smaller parts would help. Nothing has changed yet.")
	} else if b.Held {
		say("Nothing that is cut moves.")
	}
	if len(o.Again) > 0 {
		s := "is"
		if len(o.Again) > 1 {
			s = "are"
		}
		say(listed(few(o.Again, 6)) + " " + s + " cut again; what is there becomes stock.")
	}
	if o.Searching {
		say("Still looking for a better one.")
	}
	return el("section", attr{"class", "offer"}, attr{"aria-label", "Another plan"},
		div("", el("h2", text(o.Title)), el("p", attr{"class", "diff"}, rich(head)), says),
		when(len(o.Left) == 0, el("table", el("thead", el("tr", el("td"), heads("now", "then"))), el("tbody", rows))),
		div("answers",
			button("plain", do(doLeave), attr{"id", "offer-leave"}, text("Leave it as it is")),
			when(len(o.Left) == 0, button("done", do(doTake), attr{"id", "offer-take"}, icon(tick), text("Use this plan")))))
}

// cutsLeft counts the shop cuts that are not made.
func (b *builder) cutsLeft() (n int) {
	for _, c := range b.Steps.Shop {
		if !b.done(c.ID) {
			n++
		}
	}
	return n
}

// few is at most n words, and how many more there are.
func few(words []string, n int) []string {
	if len(words) <= n {
		return words
	}
	return append(append([]string(nil), words[:n-1]...), strconv.Itoa(len(words)-n+1)+" more")
}

// strayed names the parts that the project wants otherwise.
func (b *builder) strayed() string {
	name := func(list []Stray) (out []string) {
		for _, s := range list {
			t := s.Tag + " ("
			for i, what := range [...]string{"long", "wide"} {
				if s.Was[i] != s.Now[i] {
					if t[len(t)-1] != '(' {
						t += ", "
					}
					t += b.t.Show(measure.Length(s.Now[i])) + " " + what + ", was " + b.t.Show(measure.Length(s.Was[i]))
				}
			}
			out = append(out, strings.TrimSuffix(t, " (")+map[bool]string{true: ")"}[!strings.HasSuffix(t, " (")])
		}
		return few(out, 4)
	}
	s := ""
	if len(b.Strays) > 0 {
		s += " Now: " + listed(name(b.Strays)) + "."
	}
	if len(b.Misfits) > 0 {
		s += " Cut already at the old size: " + listed(name(b.Misfits)) + "."
	}
	return s
}

// A Counter is what is being said at the store's counter.
type Counter struct {
	// Open is the answer whose form is open: "few", "size", "delivered"; ""
	// for none.
	Open string
	// Doc is the project as the form changes it.
	Doc *project.Project
	// Sheet is the index of a kind of sheet, Left how many there are.
	Sheet, Left int
}

// CounterPath is what the paths of the counter's fields begin with; the rest is
// a path of the project.
const CounterPath = "counter/"

// counter is what one hears at a store's counter, each answered by a plan.
func (b *builder) counter() node {
	if b.ReadOnly || b.Offer != nil {
		return nodes{}
	}
	c := b.Counter
	tell := func(to, label string) node {
		pressed := "false"
		act := do(doCounter, "to", to)
		if c.Open == to {
			pressed, act = "true", do(doCounter)
		}
		return button("plain", act, attr{"id", "counter-" + to}, attr{"aria-pressed", pressed}, text(label))
	}
	out := nodes{el("h2", text("At the counter")),
		div("counter", tell("few", "Only so many left"), tell("none", "No cuts today"), tell("size", "Other size"), tell("delivered", "Have it delivered"))}
	if c.Doc == nil {
		return out
	}
	form := nodes{}
	kinds := c.Doc.Stock.Sheets
	if c.Open != "delivered" && len(kinds) > 1 {
		for i, s := range kinds {
			pressed := map[bool]string{true: "true", false: "false"}[i == c.Sheet]
			form = append(form, button("plain", do(doCounter, "to", "kind", "value", strconv.Itoa(i)), attr{"id", "counter-kind-" + strconv.Itoa(i)},
				attr{"aria-pressed", pressed}, span("", rich(b.sheetName(s)))))
		}
		form = nodes{div("choice", attr{"role", "group"}, attr{"aria-label", "Which sheet"}, form)}
	}
	plan := "Plan it"
	switch at := CounterPath + "stock.sheets." + strconv.Itoa(c.Sheet) + "."; {
	case c.Open == "delivered":
		form = append(form, b.price(CounterPath+"car.delivery", "Delivery costs", c.Doc.Car.Delivery, ""))
	case c.Sheet >= len(kinds):
		return append(out, el("p", text("No sheets are listed at Size.")))
	case c.Open == "size":
		form = append(form, b.length(at+"length", "Length", kinds[c.Sheet].Length, hint{}),
			b.length(at+"width", "Width", kinds[c.Sheet].Width, hint{}), b.price(at+"price", "Price", kinds[c.Sheet].Price, "of one"))
	default:
		form = append(form, div("stepper",
			button("plain", do(doCounter, "to", "less"), attr{"id", "counter-less"}, attr{"aria-label", "One less"}, text("\u2212")),
			el("b", text(strconv.Itoa(c.Left)), span("small", text(" left"))),
			button("plain", do(doCounter, "to", "more"), attr{"id", "counter-more"}, attr{"aria-label", "One more"}, text("+"))))
		plan = "Plan with " + strconv.Itoa(c.Left)
	}
	return append(out, div("said", form, button("done", do(doCounter, "to", "plan"), attr{"id", "counter-plan"}, text(plan))))
}

func (b *builder) sheetName(s project.Sheet) string {
	name := s.ID
	if m, ok := b.Project.Material(s.Material); ok && m.Name != "" {
		name = m.Name
	}
	return name + ", " + b.t.Show(s.Length) + " × " + b.t.Show(s.Width)
}
