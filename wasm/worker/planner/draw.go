package planner

import (
	"cartwright/engine/draw"
	"cartwright/engine/page"
	"cartwright/engine/scene"
	"cartwright/engine/svg"
)

// draw is the drawing that belongs to a view.
func (p *Planner) draw(v page.View) scene.Scene {
	switch p.place {
	case page.Store, page.Saw:
		return p.drawSheet(p.sheet, p.w, p.h, draw.SheetOptions{Selected: p.selected})
	}
	o := draw.CartOptions{Selected: p.selected}
	if p.moving != nil {
		o.Drag, o.Before = p.moving.ref, &p.moving.cart
	}
	return draw.Cart(p.out.made, p.w, p.h, o)
}

func (p *Planner) drawSheet(which, w, h int, o draw.SheetOptions) scene.Scene {
	return draw.Sheet(p.out.Job, p.out.Plan, p.out.Steps, p.out.stands, p.out.Cart.Lines, p.doc.Measure(), which, w, h, o)
}

// sheetPicture is a sheet of the plan as SVG in black, for print.
func (p *Planner) sheetPicture(sheet int) string {
	return svg.Render(p.drawSheet(sheet, 700, 420, draw.SheetOptions{Print: true}), svg.Options{Mono: true})
}
