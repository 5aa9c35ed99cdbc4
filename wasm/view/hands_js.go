package main

import (
	"math"

	"cartwright/engine/scene"
	"cartwright/wasm/bridge"
	"cartwright/wasm/view/hand"
	"cartwright/wasm/view/ink"
)

// A drag is a spot that follows the finger along its axis.
type drag struct {
	on   bool
	spot scene.Spot
	by   int64      // ticks, in whole steps
	move scene.Unit // the same, on the drawing
	sent int64      // what the planner knows
}

// pick returns the spot at a point of the frame.
func (g *game) pick(x, y float64) (scene.Spot, bool) {
	if !g.has {
		return scene.Spot{}, false
	}
	px, py := g.cam.ToPaper(x, y)
	at := scene.Pt{X: unit(px), Y: unit(py)}
	return scene.PickWithin(g.scene, at, scene.Unit(float64(scene.Touch)/g.cam.Scale()))
}

// unit returns v pixels as units.
func unit(v float64) scene.Unit {
	return scene.Unit(math.Max(-scene.Limit, math.Min(scene.Limit, math.Round(v*float64(scene.PX)))))
}

func (g *game) pointer(phase string, id int, x, y, ms float64, touch bool) {
	e := hand.Event{ID: id, X: x, Y: y, MS: ms, Touch: touch}
	switch phase {
	case "down":
		e.Phase = hand.Down
	case "move":
		e.Phase = hand.Move
		if !touch && !g.drag.on {
			g.hover(x, y)
		}
	case "up":
		e.Phase = hand.Up
	default:
		e.Phase = hand.Cancel
	}
	for _, a := range g.hand.Feel(e) {
		g.act(a)
	}
}

func (g *game) hover(x, y float64) {
	cursor := ""
	if s, ok := g.pick(x, y); ok {
		cursor = map[byte]string{0: "pointer", 'x': "ew-resize", 'y': "ns-resize"}[s.Drag]
	}
	g.look(cursor)
}

func (g *game) act(a hand.Act) {
	switch a.Intent {
	case hand.Tap:
		if s, ok := g.pick(a.X, a.Y); ok {
			bridge.Call("viewSend", bridge.Object("kind", "tap", "ref", s.Ref))
		}
	case hand.TapAgain: // on a spot the first tap has said it all
		if _, ok := g.pick(a.X, a.Y); ok {
			return
		}
		if g.cam.Fitted() {
			g.cam = g.cam.ZoomAt(2.5, a.X, a.Y, 0, 0)
		} else {
			g.cam = g.cam.Fit()
		}
		g.settle(true)
	case hand.Pan:
		g.cam = g.cam.Pan(a.DX, a.DY)
		g.wake()
	case hand.Zoom:
		g.cam = g.cam.ZoomAt(a.F, a.X, a.Y, a.DX, a.DY)
		g.wake()
	case hand.Rest:
		g.settle(true)
	case hand.Grab:
		if s, ok := g.pick(a.X, a.Y); ok && s.Drag != 0 {
			g.drag = drag{on: true, spot: s}
			g.sendDrag("start")
		}
	case hand.Drag:
		g.pull(a.DX, a.DY)
	case hand.Drop:
		g.pull(a.DX, a.DY)
		g.endDrag("end")
	case hand.Abandon:
		g.endDrag("cancel")
	}
}

// pull moves what is dragged by the whole steps nearest to the finger.
func (g *game) pull(dx, dy float64) {
	d := &g.drag
	if !d.on {
		return
	}
	if d.spot.Drag == 'y' {
		dx = dy
	}
	dx /= g.cam.Scale()
	step := max(1, d.spot.Step)
	by := int64(math.Round(dx*float64(d.spot.PerPX)/float64(step))) * step
	if by == d.by {
		return
	}
	d.by, d.move = by, unit(dx)
	if d.spot.PerPX != 0 {
		d.move = unit(float64(by) / float64(d.spot.PerPX))
	}
	g.wake()
}

// flush sends the newest place of what is dragged, once for each frame.
func (g *game) flush() {
	if g.drag.on && g.drag.by != g.drag.sent {
		g.sendDrag("move")
	}
}

func (g *game) endDrag(phase string) {
	if !g.drag.on {
		return
	}
	g.sendDrag(phase)
	g.drag = drag{}
	g.settle(false)
}

func (g *game) sendDrag(phase string) {
	d := &g.drag
	d.sent = d.by
	bridge.Call("viewSend", bridge.Object("kind", "drag", "ref", d.spot.Ref, "by", float64(d.by), "phase", phase))
}

// ghost draws what is dragged where the finger has it.
func (g *game) ghost(p paper) {
	d := g.drag
	if !d.on {
		return
	}
	r := d.spot.At
	if d.spot.Drag == 'x' {
		r.Min.X, r.Max.X = r.Min.X+d.move, r.Max.X+d.move
	} else {
		r.Min.Y, r.Max.Y = r.Min.Y+d.move, r.Max.Y+d.move
	}
	a, b := p.at(r.Min), p.at(r.Max)
	least := 4 * g.dpr
	if gap := least - (b.X - a.X); gap > 0 {
		a.X, b.X = a.X-gap/2, b.X+gap/2
	}
	if gap := least - (b.Y - a.Y); gap > 0 {
		a.Y, b.Y = a.Y-gap/2, b.Y+gap/2
	}
	now, line := g.theme[scene.Now], g.theme[scene.NowInk]
	box := []ink.Pt{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}}
	m := &g.brush.mesh
	m.Rect(a.X, a.Y, b.X, b.Y, now)
	m.Stroke(box, true, 2*g.dpr, line)
	// The handle: wide enough for a thumb to be seen around, with two lines.
	c, w, h := ink.Pt{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, 13*g.dpr, 24*g.dpr
	if d.spot.Drag == 'y' {
		w, h = h, w
	}
	grip := []ink.Pt{{X: c.X - w, Y: c.Y - h}, {X: c.X + w, Y: c.Y - h}, {X: c.X + w, Y: c.Y + h}, {X: c.X - w, Y: c.Y + h}}
	m.Rect(grip[0].X, grip[0].Y, grip[2].X, grip[2].Y, now)
	m.Stroke(grip, true, 2*g.dpr, line)
	for _, o := range []float64{-4, 4} {
		o *= g.dpr
		l := 10 * g.dpr
		if d.spot.Drag == 'y' {
			m.Stroke([]ink.Pt{{X: c.X - l, Y: c.Y + o}, {X: c.X + l, Y: c.Y + o}}, false, 2*g.dpr, line)
		} else {
			m.Stroke([]ink.Pt{{X: c.X + o, Y: c.Y - l}, {X: c.X + o, Y: c.Y + l}}, false, 2*g.dpr, line)
		}
	}
}

func (g *game) wheel(x, y, dy float64) {
	g.cam = g.cam.ZoomAt(math.Exp(-max(-200, min(200, dy))/300), x, y, 0, 0)
	g.settle(true)
}

// command does what a button or a key asks for and reports whether it means
// anything here.
func (g *game) command(name string) bool {
	const step = 80
	x, y := g.cam.ViewW/2, g.cam.ViewH/2
	switch name {
	case "fit":
		g.cam = g.cam.Fit()
	case "in":
		g.cam = g.cam.ZoomAt(1.5, x, y, 0, 0)
	case "out":
		g.cam = g.cam.ZoomAt(1/1.5, x, y, 0, 0)
	case "left", "right", "up", "down":
		if g.cam.Fitted() {
			return false // the page may want the arrows
		}
		d := map[string][2]float64{"left": {step, 0}, "right": {-step, 0}, "up": {0, step}, "down": {0, -step}}[name]
		g.cam = g.cam.Pan(d[0], d[1])
	default:
		return false
	}
	g.settle(true)
	return true
}
