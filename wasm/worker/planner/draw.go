package planner

import (
	"slices"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/part"
	"cartwright/engine/scene"
	"cartwright/engine/svg"
	"cartwright/engine/work"
)

// draw is the drawing that belongs to the place.
func (p *Planner) draw() scene.Scene {
	switch p.place {
	case page.Store: // what the operator of the store's saw is shown
		return draw.CardSheet(p.out.Job, p.out.Plan, p.out.Steps, p.doc.Measure(), p.sheet, p.w, p.h)
	case page.Saw:
		_, cut := p.nextCut()
		if m, ok := page.NextMill(p.out.Steps, p.out.state, p.selected, cut); ok {
			return draw.Groove(p.doc.Measure(), m, p.w, p.h)
		}
		return p.drawSheet(p.sheet, p.w, p.h, draw.SheetOptions{Selected: p.selected})
	case page.Parts:
		if q, ok := p.chosenPart(); ok {
			return draw.PartFace(p.out.made, q, p.w, p.h)
		}
	case page.Bench:
		if s, ok := p.drawBench(); ok {
			return s
		}
	}
	return p.drawCart()
}

func (p *Planner) showsCart() bool { return p.place == page.Size }

// drawCart needs nothing but the cart: no plan, no checks.
func (p *Planner) drawCart() scene.Scene {
	o := draw.CartOptions{Selected: p.selected, Print: p.readOnly || p.cfg.Embedded}
	switch {
	case p.place != page.Size:
	case p.look == "plan":
		o.Look = draw.PlanLook
	case p.look == "side":
		o.Look = draw.SideLook
	}
	if p.moving != nil {
		o.Drag, o.Before, o.Note = p.moving.ref, &p.moving.cart, p.besides()
	}
	return draw.Cart(p.out.made, p.w, p.h, o)
}

// chosenPart is the first part of the chosen line, as it is planned now.
func (p *Planner) chosenPart() (part.Part, bool) {
	for i, l := range p.out.Cart.Lines {
		if p.selected != "part/"+part.Tag(i) || len(l.Parts) == 0 {
			continue
		}
		for _, q := range p.out.made.Parts {
			if q.ID == l.Parts[0] {
				return q, true
			}
		}
	}
	return part.Part{}, false
}

func (p *Planner) drawSheet(which, w, h int, o draw.SheetOptions) scene.Scene {
	stands := p.out.stands
	if p.place == page.Saw && !o.Print {
		stands = p.atHome()
	}
	return draw.Sheet(p.out.Job, p.out.Plan, p.out.Steps, stands, p.out.Cart.Lines, p.doc.Measure(), which, w, h, o)
}

// atHome is how the work stands at the saw: the store's cuts are made, whether
// they are marked or not, and the next cut is one of the shop's.
func (p *Planner) atHome() work.Standing {
	s := p.out.stands
	s.Store, s.Shop = slices.Clone(s.Store), slices.Clone(s.Shop)
	for i := range s.Store {
		s.Store[i].Done, s.Store[i].Waits = true, nil
	}
	for i := range s.Shop {
		s.Shop[i].Waits = slices.DeleteFunc(slices.Clone(s.Shop[i].Waits), func(id string) bool {
			c, ok := p.out.Steps.Cut(id)
			return ok && c.Tier == nest.StoreTier
		})
	}
	next, _ := p.nextCut()
	s.Next = next.ID
	return s
}

// printed returns what draws a sheet of the plan in black: as the store's
// operator needs it for a card, else with all cuts. At the saw -1-i is groove
// or mitre i.
func (p *Planner) printed(what string) func(sheet int) string {
	return func(sheet int) string {
		if what == "bench" {
			s, _ := p.benchScene(sheet, 420, 300)
			return svg.Render(s, svg.Options{Mono: true})
		}
		if sheet < 0 {
			return svg.Render(draw.Groove(p.doc.Measure(), p.out.Steps.Mills[-1-sheet], 420, 300), svg.Options{Mono: true})
		}
		if what == "cards" {
			return svg.Render(draw.CardSheet(p.out.Job, p.out.Plan, p.out.Steps, p.doc.Measure(), sheet, 700, 480), svg.Options{Mono: true})
		}
		return svg.Render(p.drawSheet(sheet, 700, 420, draw.SheetOptions{Print: true}), svg.Options{Mono: true})
	}
}

// drawBench is the part whose holes are chosen, else the step at hand.
func (p *Planner) drawBench() (scene.Scene, bool) {
	b := p.out.Bench
	if id, ok := strings.CutPrefix(p.selected, "drill/"); ok {
		for i, q := range p.out.made.Parts {
			if string(q.ID) == id {
				return p.benchScene(-1-i, p.w, p.h)
			}
		}
	}
	if strings.HasPrefix(p.selected, "guide/") {
		for _, g := range work.Guides(p.doc, p.out.made) {
			if g.ID == p.selected {
				return draw.Part(design.Cart{Tape: p.out.made.Tape, Parts: []part.Part{g.Plate}}, 0, g.Rows, p.w, p.h), true
			}
		}
	}
	at := -1
	for i, s := range b.Steps {
		if s.ID == p.selected {
			at = i
			break
		}
		if _, done := p.out.state.Step(s.ID); !done && at < 0 {
			at = i
		}
	}
	if at < 0 {
		return scene.Scene{}, false
	}
	return p.benchScene(at, p.w, p.h)
}

// benchScene draws step n, or part -1-n with its holes.
func (p *Planner) benchScene(n, w, h int) (scene.Scene, bool) {
	if n >= 0 {
		return draw.Exploded(p.out.made, p.out.Bench.Steps[n], w, h), true
	}
	var rows []work.Drill
	for _, d := range p.out.Bench.Drills {
		if d.Part == -1-n {
			rows = append(rows, d)
		}
	}
	return draw.Part(p.out.made, -1-n, rows, w, h), true
}
