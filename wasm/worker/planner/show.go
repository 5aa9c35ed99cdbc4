package planner

import (
	"slices"
	"strings"

	"cartwright/engine"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/scene"
	"cartwright/engine/svg"
	"cartwright/engine/work"
)

// view is what the screen shows.
func (p *Planner) view() page.View {
	v := page.View{
		Place:      p.place,
		Project:    p.doc,
		Cart:       p.out.Cart,
		Job:        p.out.Job,
		Plan:       p.out.Plan,
		Steps:      p.out.Steps,
		Buy:        p.out.Buy,
		State:      p.out.state,
		Report:     p.out.Report,
		Bench:      p.out.Bench,
		Findings:   p.out.Findings,
		Held:       p.held != nil,
		Searching:  p.hunt.on && p.offer == nil,
		Tries:      p.triesMade(),
		Spent:      p.hunt.spent,
		Wrong:      p.wrong,
		Came:       p.came,
		Past:       p.out.Past,
		Insured:    p.insurance(),
		Book:       p.pages(),
		Offer:      p.offered(),
		Counter:    p.atCounter,
		Flaw:       p.flaw,
		Flaws:      p.flaws(),
		Was:        p.was,
		Dragging:   p.moving != nil,
		Selected:   p.selected,
		Look:       p.look,
		Sheet:      p.sheet,
		Saved:      p.saved,
		SaveFailed: p.saveFailed,
		ReadOnly:   p.readOnly || p.cfg.Embedded,
		Embedded:   p.cfg.Embedded,
		CanUndo:    len(p.past) > 0,
		CanRedo:    len(p.future) > 0,
		Projects:   p.projects,
		Awake:      p.awake,
	}
	if p.place == page.Store {
		v.Saving = p.saving()
	}
	if s := &p.prices; p.place == page.Size {
		v.Nearby = page.Nearby{Offers: p.nears(), Dear: s.dear, Why: p.noPrices(), All: s.all, Left: len(s.todo), Stopped: s.stopped, Listed: s.listed}
	}
	if p.held != nil {
		v.Digest = p.held.digest
		v.Differ = p.out.differ
		v.Stale = v.Differ > 0
		if v.Stale {
			v.Strays, v.Misfits = p.strays()
		}
	}
	return v
}

// saving is what whole sheets would cost for the job on the screen, worked out
// once for each. Nothing is compared once pieces of an earlier plan are used.
func (p *Planner) saving() work.Saving {
	job := p.out.Job
	if p.held != nil && len(p.held.Spent) > 0 { // the whole project, not what is left of it
		job = engine.Job(p.doc, p.out.made)
	}
	if p.whole == nil || !sameJob(p.wholeJob, job) {
		s := work.Saved(p.doc, job)
		p.whole, p.wholeJob = &s, job
	}
	return *p.whole
}

// before notes how things stand, so that what moves can be lit: the strip, and
// all fields on the screen.
func (p *Planner) before() {
	if p.doc == nil || p.moving != nil && p.was != nil {
		return
	}
	p.was = map[string]string{}
	for _, c := range page.Strip(p.view()) {
		p.was[c.Key] = c.Value
	}
	for _, path := range sizes(p.doc) {
		p.was[path] = project.Text(p.doc, path)
	}
	p.reply.Settle = true
}

// sizes lists the fields that a drag can move.
func sizes(doc *project.Project) []string {
	out := []string{"cabinet.top.overhang.left", "cabinet.top.overhang.right", "cabinet.top.overhang.front", "cabinet.top.overhang.back"}
	for i, b := range doc.Cabinet.Bays {
		bay := "cabinet.bays." + itoa(i)
		out = append(out, bay+".width")
		for j := range b.Openings {
			out = append(out, bay+".openings."+itoa(j)+".height")
		}
	}
	return out
}

// settle ends the light on what has moved.
func (p *Planner) settle() {
	if p.moving == nil {
		p.was = nil
	}
}

// show puts into the reply what changed on the screen, the drawing first. While
// a divider is dragged on the canvas the panels come when there is time.
func (p *Planner) show() {
	r := p.reply
	r.Place, r.Title, r.ID, r.Planned = p.place, p.title(), p.id, p.doc != nil
	if p.doc == nil {
		return
	}
	v := p.view()
	s := p.draw()
	p.send(s)
	if !p.canvas {
		r.Panels = append(r.Panels, p.changed(page.Panel{ID: "drawing", HTML: svg.Render(s, svg.Options{Live: !p.cfg.Embedded})})...)
	}
	if r.Late = p.moving != nil && p.canvas; !r.Late {
		p.panels(v)
	}
}

// send hands a drawing to the canvas if it is another than the last.
func (p *Planner) send(s scene.Scene) {
	if !p.scenes {
		return
	}
	if b := scene.Encode(s); string(b) != p.drawn {
		p.reply.Drawn, p.drawn = true, string(b)
		if p.cfg.Draw != nil {
			p.cfg.Draw(b)
		}
	}
}

// Panels makes the panels that a reply left for later.
func (p *Planner) Panels() Reply {
	r := Reply{Place: p.place, Title: p.title(), ID: p.id, Planned: p.doc != nil, Search: p.order(), Price: p.price(), Searching: p.hunt.on}
	p.reply = &r
	p.panels(p.view())
	p.reply = nil
	return r
}

func (p *Planner) panels(v page.View) {
	r := p.reply
	panels := page.Panels(v)
	if p.say != "" {
		for i := range panels {
			if panels[i].ID == "live" {
				panels[i].HTML = plain(p.say)
			}
		}
	}
	r.Panels = append(r.Panels, p.changed(panels...)...)
	if f := page.Flags(v); !slices.Equal(f, p.flags) {
		r.Flags, p.flags = f, f
	}
}

// changed returns those panels that are not on the screen like this.
func (p *Planner) changed(panels ...page.Panel) (out []page.Panel) {
	for _, n := range panels {
		if old, ok := p.shown[n.ID]; !ok || old != n.HTML {
			p.shown[n.ID] = n.HTML
			out = append(out, n)
		}
	}
	return out
}

func (p *Planner) title() string {
	if p.doc == nil || p.doc.Name == "" {
		return "Cartwright"
	}
	return p.doc.Name + " – Cartwright"
}

var plainText = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// plain is text as HTML.
func plain(s string) string { return plainText.Replace(s) }
