package page

import (
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// Nearby is what other sizes would cost, as far as they were looked at.
type Nearby struct {
	Offers []Nearer // the best first
	Dear   []Dear
	// Why no sizes are looked at: "held" (a plan is in use), "many" (parts),
	// "mend" (the project has no whole plan), or "".
	Why string
	// All sizes, if they are Listed, and those Left to be looked at.
	All, Left int
	Listed    bool
	Stopped   bool // before all were looked at
}

// A Nearer is another value of a size that saves something, with what follows
// from it. Size is the path of a field, or a handle of the drawing: "bay/0".
type Nearer struct {
	Size      string
	By, Value measure.Length
	Cart      design.Cart
	Job       nest.Job
	Plan      nest.Plan
	Buy       work.Shopping
	Trips     int // of the car that it takes more than now, by weight
	Findings  issue.List
}

// A Dear is a value of a size at which every plan takes more sheets or boards,
// or stock of a higher price, by at least so much.
type Dear struct {
	Size   string
	By     measure.Length
	Sheets int
	Cost   measure.Money
}

// sizeNames are what the fields are called whose sizes are offered.
var sizeNames = map[string]string{
	"cabinet.depth": "Case, depth", "cabinet.width": "Case, width", "lineUp.height": "Top of the worktop",
	"drawers.slideLength": "Slides, length", "cabinet.top.overhang.front": "Worktop over the front",
	"cabinet.top.overhang.left": "Worktop over the left", "cabinet.top.overhang.right": "Worktop over the right",
	"cabinet.top.overhang.back": "Worktop over the back", "cabinet.back.rail": "Back frame, rails",
	"cabinet.stretcher": "Stretchers, width", "cabinet.face.stile": "Face frame, stiles", "cabinet.face.rail": "Face frame, rails",
	"base.foot": "Feet, height",
}

// sizeName is what a size is called.
func (b *builder) sizeName(size string) string {
	if n, ok := sizeNames[size]; ok {
		return n
	}
	w := strings.FieldsFunc(size, func(r rune) bool { return r == '/' || r == '.' })
	at := [3]int{}
	for i := range min(len(w), 3) {
		at[i], _ = strconv.Atoi(w[i])
	}
	c := &b.Cart
	switch {
	case len(w) == 2 && w[0] == "bay" && at[1] < len(c.Bays):
		return c.Bays[at[1]].Name + ", width"
	case len(w) == 3 && w[0] == "opening" && at[1] < len(c.Bays) && at[2] < len(c.Bays[at[1]].Openings):
		return c.Bays[at[1]].Openings[at[2]].Name + ", height"
	case len(w) == 3 && w[0] == "extra" && at[1] < len(b.Project.Extra):
		return or(b.Project.Extra[at[1]].Name, "Extra part") + ", " + w[2]
	}
	return size
}

// nearby lists other sizes that would be cheaper, each with what it costs the
// cart, and says how far they have been looked at.
func (b *builder) nearby() node {
	n := b.Nearby
	if b.ReadOnly || b.Embedded {
		return nil
	}
	stop := button("plain", do(doStop), attr{"id", "stop-nearby"}, text("Stop"))
	again := item(nil)
	says := ""
	switch {
	case n.Why == "held":
		says, stop = "A plan is in use. Other sizes are looked at for a new plan.", nil
	case n.Why == "many":
		says, stop = "There are too many parts to try other sizes in the background.", nil
	case n.Why != "":
		says, stop = "Other sizes are looked at as soon as everything has found its place.", nil
	case b.Searching:
		says = b.bestSoFar() + " Other sizes come after that."
	case n.Stopped:
		says, stop = "Stopped.", nil
		again = button("plain", do(doMore), attr{"id", "more-nearby"}, text("Look further"))
	case n.Left > 0:
		says = "Trying other sizes: " + strconv.Itoa(n.All-n.Left) + " of " + strconv.Itoa(n.All) + "."
	case !n.Listed:
		stop = nil
	case len(n.Offers) == 0:
		far := "3 in"
		if b.t.Metric {
			far = "60 mm"
		}
		says, stop = "None found: no single size within "+far+" saves a sheet, a store cut or a trip.", nil
	default:
		says, stop = strconv.Itoa(n.All)+" sizes were tried, each alone.", nil
	}
	rows, rest := nodes{}, nodes{}
	if n.Why == "" {
		for i := range n.Offers {
			if row := b.nearRow(&n.Offers[i]); i < 5 {
				rows = append(rows, row)
			} else {
				rest = append(rest, row)
			}
		}
	}
	out := nodes{el("h2", text("Cheaper nearby")),
		div("quality", el("p", attr{"class", "small"}, rich(says)), when(b.Searching && n.Why == "", b.rule()), when(stop != nil, stop), again)}
	if len(rows) > 0 {
		out = append(out, el("ul", attr{"class", "mends"}, rows))
	}
	if len(rest) > 0 {
		out = append(out, more("nearby", strconv.Itoa(len(rest))+" more", el("ul", attr{"class", "mends"}, rest)))
	}
	return out
}

// nearRow is one row: the size, what it saves, what it costs the cart.
func (b *builder) nearRow(o *Nearer) node {
	to := b.exact(o.Value)
	way := "less"
	if o.By > 0 {
		way = "more"
	}
	how := "No plan that good was found at the present size."
	if b.Plan.AtLeast > o.Plan.Bought || b.Plan.Bound > o.Plan.Cost {
		how = "Proven: no plan of the present size is that good."
	}
	name := b.sizeName(o.Size)
	gains, money := b.gains(o, true), item(nil)
	if o.Buy.Total != b.Buy.Total {
		money = el("b", attr{"class", "n"}, text(b.money(o.Buy.Total-b.Buy.Total)))
	}
	return el("li",
		el("p", attr{"class", "to"}, el("b", text(name)), el("b", rich(to)), el("small", rich(b.exact(o.By.Abs())+" "+way)), span("push"), money),
		when(len(gains) > 0, el("p", rich(capital(strings.Join(gains, ", "))+"."))),
		el("p", el("small", rich(b.givesUp(o)+how))),
		b.newTrouble(o.Findings),
		button("plain", do(doCheaper, "ref", o.Size, "value", o.By.String()), attr{"id", "cheaper-" + o.Size + "/" + strconv.FormatInt(int64(o.By), 10)},
			span("", span("sr", text(name+": ")), rich("Use "+to))))
}

// exact is a length on the tape, or exactly.
func (b *builder) exact(l measure.Length) string {
	return strings.Replace(b.t.ShowExact(l), "-", "\u2212", 1)
}

// gains are what an offer takes less of, or more: stock by kind, cuts, trips.
func (b *builder) gains(o *Nearer, named bool) (out []string) {
	say := func(d int, one, many string) {
		switch {
		case d < 0:
			out = append(out, count(-d, one, many)+" fewer")
		case d > 0:
			out = append(out, count(d, one, many)+" more")
		}
	}
	less := map[string]int{}
	add := func(p nest.Plan, job nest.Job, n int) {
		for _, s := range p.Sheets {
			if s.Stock >= 0 && s.Stock < len(job.Stock) {
				less[job.Stock[s.Stock].ID] += n
			}
		}
	}
	add(b.Plan, b.Job, -1)
	add(o.Plan, o.Job, 1)
	for _, s := range b.Job.Stock {
		if s.AtShop && s.Price == 0 {
			continue
		}
		one, many := "board", "boards"
		if b.isSheet(s.ID) {
			one, many = "sheet", "sheets"
		}
		say(less[s.ID], one, many)
		if m, ok := b.Project.Material(s.Material); ok && named && less[s.ID] != 0 {
			out[len(out)-1] += " (" + or(m.Name, m.ID) + ")"
		}
	}
	say(o.Plan.StoreCuts-b.Plan.StoreCuts, "store cut", "store cuts")
	say(o.Trips, "car trip", "car trips")
	return out
}

// givesUp is what an offer costs the cart in room.
func (b *builder) givesUp(o *Nearer) string {
	var out []string
	was, is := &b.Cart, &o.Cart
	add := func(what string, was, is measure.Length, word string) {
		if is < was && len(out) < 4 {
			out = append(out, b.exact(was-is)+" of "+word+" in "+what)
		}
	}
	var room, left int64
	for i, d := range was.Drawers {
		if i >= len(is.Drawers) {
			break
		}
		e := is.Drawers[i]
		if i == 0 && e.Slide != d.Slide {
			what := "slides"
			if b.Project.Drawers.Slide == "wood" {
				what = "boxes"
			}
			out = append(out, what+" "+b.exact(e.Slide)+" long instead of "+b.exact(d.Slide))
		}
		room += volume(d.Inside)
		left += volume(e.Inside)
	}
	if room > 0 && left < room {
		out = append(out, "drawers hold "+strconv.FormatInt(max(1, (room-left)*100/room), 10)+" % less")
	}
	deep := measure.Length(0)
	for i, bay := range was.Bays {
		if i >= len(is.Bays) || len(is.Bays[i].Openings) != len(bay.Openings) {
			break
		}
		now, open := is.Bays[i], false
		deep = max(deep, bay.Inside.Size(geom.Y)-now.Inside.Size(geom.Y))
		for j, op := range bay.Openings {
			if op.Drawer == 0 {
				open = true
				add(op.Name, op.Cell.Size(geom.Z), now.Openings[j].Cell.Size(geom.Z), "height")
			}
		}
		if open {
			add(or(bay.Name, "a bay"), bay.Inside.Size(geom.X), now.Inside.Size(geom.X), "width")
		}
	}
	add("the case, inside", deep, 0, "depth")
	for _, p := range was.Parts {
		if p.ID != "top" {
			continue
		}
		for _, q := range is.Parts {
			if q.ID == p.ID {
				add("the worktop", p.Box.Size(geom.X), q.Box.Size(geom.X), "width")
				add("the worktop", p.Box.Size(geom.Y), q.Box.Size(geom.Y), "depth")
			}
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "Gives up: " + strings.Join(out, ", ") + ". "
}

// volume is the room of a box in whole cubic millimetres, 0 if it has none.
func volume(x geom.Box) int64 {
	v := int64(1)
	for _, a := range [...]geom.Axis{geom.X, geom.Y, geom.Z} {
		l := x.Size(a)
		if l <= 0 || l > 100*measure.Metre {
			return 0
		}
		v *= int64(l / measure.MM)
	}
	return v
}

// newTrouble is the first finding of an offer that the project does not have.
func (b *builder) newTrouble(l issue.List) item {
	have := map[issue.Code]bool{}
	for _, f := range b.Findings {
		have[f.Code] = true
	}
	for _, f := range l {
		if f.Level != issue.Note && !have[f.Code] {
			head, _, _ := strings.Cut(b.say(f), ". ")
			return el("p", attr{"class", "says bad"}, icon(triangle), span("", rich(strings.TrimSuffix(head, ".")+".")))
		}
	}
	return nil
}

// DragNote is what is known of the size that is being dragged, for the drawing:
// the values that save something, and from where on it takes more. The view is
// the one before the drag.
func DragNote(v View, size string) (out []string) {
	b := &builder{View: v, t: v.measure()}
	at, ok := b.drawn(size)
	if !ok {
		return nil
	}
	for i := range v.Nearby.Offers {
		if o := &v.Nearby.Offers[i]; o.Size == size && len(out) < 2 {
			gains := b.gains(o, false)
			gains = gains[:min(len(gains), 2)]
			if d := o.Buy.Total - b.Buy.Total; d != 0 {
				gains = append(gains, b.money(d))
			}
			out = append(out, "at "+b.exact(at+o.By)+": "+strings.Join(gains, ", "))
		}
	}
	for _, d := range v.Nearby.Dear {
		if d.Size != size {
			continue
		}
		way := "down"
		if d.By > 0 {
			way = "on"
		}
		more := "at least " + b.money(d.Cost) + " more"
		if d.Sheets > 0 {
			more = "needs " + count(d.Sheets, "sheet or board", "sheets or boards") + " more"
		}
		out = append(out, "from "+b.exact(at+d.By)+" "+way+" "+more)
	}
	return out
}

// drawn is what the drawing says of the size at a handle, or of an overhang.
func (b *builder) drawn(size string) (measure.Length, bool) {
	if strings.HasPrefix(size, "cabinet.top.overhang.") {
		l, err := b.t.Parse(or(project.Text(b.Project, size), "0"))
		return l, err == nil
	}
	w := strings.Split(size, "/")
	i, j := 0, 0
	if len(w) > 1 {
		i, _ = strconv.Atoi(w[1])
	}
	if len(w) > 2 {
		j, _ = strconv.Atoi(w[2])
	}
	switch c := &b.Cart; {
	case i < 0 || j < 0 || i >= len(c.Bays):
	case len(w) == 2:
		return c.Bays[i].Clear.Size(geom.X), true
	case len(w) == 3 && j < len(c.Bays[i].Openings):
		return c.Bays[i].Openings[j].Cell.Size(geom.Z), true
	}
	return 0, false
}

// bestSoFar is how good the plan is while it is still looked for.
func (b *builder) bestSoFar() string {
	s := "Best so far: " + b.bought() + "."
	switch p := b.Plan; {
	case p.Proven && len(p.Left) == 0:
		s += " Proven: no plan uses fewer."
	case p.AtLeast > 0:
		s += " " + capital(inWords(p.AtLeast)) + " would be the least possible."
	}
	s += " Still looking"
	if b.Tries > 0 {
		s += ", " + grouped(b.Tries) + " tries"
	}
	return s + "."
}

// rule is the thin rule that fills while nothing better is found.
func (b *builder) rule() node {
	return el("progress", attr{"max", "100"}, attr{"value", strconv.Itoa(min(b.Spent, 100))}, attr{"aria-label", "Looked, of what it is worth"})
}

// grouped is a count with a thin space between thousands.
func grouped(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "\u202f" + s[i:]
	}
	return s
}
