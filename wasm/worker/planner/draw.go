package planner

import (
	"cartwright/engine/draw"
	"cartwright/engine/page"
	"cartwright/engine/scene"
)

// draw is the drawing that belongs to a view.
func (p *Planner) draw(v page.View) scene.Scene {
	switch p.place {
	default:
		o := draw.CartOptions{Selected: p.selected}
		if p.moving != nil {
			o.Drag, o.Before = p.moving.ref, &p.moving.cart
		}
		return draw.Cart(p.out.made, p.w, p.h, o)
	}
}

// sheetPicture is a sheet of the plan as SVG in black, for print.
func (p *Planner) sheetPicture(sheet int) string { return "" }
