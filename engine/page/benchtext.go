package page

import (
	"strconv"
	"strings"

	"cartwright/engine/check"
	"cartwright/engine/work"
)

// A Chapter is a heading with its lines, in plain characters.
type Chapter struct {
	Title string
	Lines []string
}

// BenchText is the work at the bench for a terminal: steps, holes, guides,
// spacers, drawers, finish, in the words of the screen.
func BenchText(v View) []Chapter {
	b := newBuilder(v)
	tags := b.partTags()
	var out []Chapter
	chapter := func(title string) *Chapter {
		out = append(out, Chapter{Title: Plain(title)})
		return &out[len(out)-1]
	}
	say := func(c *Chapter, s string) { c.Lines = append(c.Lines, Plain(s)) }

	c := chapter("Building, step by step")
	for i, s := range b.Bench.Steps {
		say(c, strconv.Itoa(i+1)+". "+s.Title)
		lines, lacks := b.stepLines(i, tags)
		for _, l := range append(lines, lacks...) {
			say(c, "    "+l)
		}
		for _, k := range s.Cautions {
			if k := check.CautionFor(check.Step(k)); k.Say != "" {
				say(c, "    "+k.Text())
			}
		}
	}
	c = chapter("Holes, part by part (" + b.t.Unit() + ")")
	last := -1
	for _, d := range b.Bench.Drills {
		if q := b.Cart.Parts[d.Part]; d.Part != last {
			last = d.Part
			say(c, tags[q.ID]+"  "+b.partName(q))
		}
		say(c, "    "+b.drillLine(d))
	}
	if guides := work.Guides(b.Project, b.Cart); len(guides) > 0 {
		c = chapter("Drilling guides from offcuts")
		for _, g := range guides {
			say(c, capital(whom(g.For)))
			for _, l := range b.guideLines(g)[1:] {
				say(c, "    "+l)
			}
			for _, r := range g.Rows {
				say(c, "    "+b.drillLine(r))
			}
		}
	}
	if all := work.Spacers(b.Project, b.Cart); len(all) > 0 {
		c = chapter("Spacers")
		for i, s := range all {
			say(c, b.t.ShowExact(s.Want)+"  "+b.spacerText(all, i))
		}
	}
	if all := work.Hang(b.Project, b.Cart, b.State); len(all) > 0 {
		c = chapter("Hanging the drawers, the lowest first")
		for _, h := range all {
			say(c, "Drawer "+strconv.Itoa(h.Drawer+1))
			for _, r := range b.hangLines(h) {
				say(c, "    "+r[0]+": "+r[1])
			}
		}
	}
	f := work.Finish(b.Project, b.Cart)
	if f.Area == 0 {
		say(chapter("Finish"), noFinish)
		return out
	}
	c = chapter(b.finishTitle(f))
	for _, r := range f.Rows {
		bare := ""
		if r.Bare {
			bare = ", no coat"
		}
		say(c, r.Name+": "+b.area(r.Area)+bare+"; "+b.area(r.Masked)+" masked for glue")
	}
	say(c, finishText(f))
	say(c, check.CautionFor(check.Finishing).Text())
	for _, s := range finishPlan(f) {
		say(c, s)
	}
	return out
}

// drillLine is a row of holes in one line.
func (b *builder) drillLine(d work.Drill) string {
	what, more := b.drillText(d)
	places, pairs := b.places(d)
	if pairs {
		var at []string
		for i := range places[0].at {
			at = append(at, places[0].at[i]+" × "+places[1].at[i])
		}
		return what + ": " + strings.Join(at, "; ") + " " + places[0].from + " and " + places[1].from + ". " + more
	}
	for i, p := range places {
		sep := ": "
		if i > 0 {
			sep = ", "
		}
		what += sep + listed(p.at) + " " + p.from
	}
	return what + ". " + more
}
