package main

import (
	"cartwright/engine/scene"
	"cartwright/wasm/bridge"
	"cartwright/wasm/view/camera"
	"cartwright/wasm/view/hand"
	"cartwright/wasm/view/ink"

	"github.com/hajimehoshi/ebiten/v2"
)

// A game is the drawing and what is being done to it.
type game struct {
	scene  scene.Scene
	has    bool // a scene has come
	told   bool // the page knows that it is drawn
	items  []item
	cam    camera.Camera
	sharp  float64 // the scale that letters are drawn for
	dpr    float64
	theme  theme
	hand   hand.Hand
	drag   drag
	brush  brush
	frames int // drawn so far
}

func newGame() *game {
	g := &game{sharp: 1, dpr: 1, theme: lightTheme()}
	g.hand.Grips = func(x, y float64) bool {
		s, ok := g.pick(x, y)
		return ok && s.Drag != 0
	}
	g.brush.init()
	return g
}

// wake asks for one frame.
func (g *game) wake() {
	//lint:ignore SA1019 it goes with FPSModeVsyncOffMinimum
	ebiten.ScheduleFrame()
	bridge.Call("viewWake")
}

// show replaces the drawing. A drag goes on: its ghost belongs to the finger.
func (g *game) show(s scene.Scene) {
	if s.Title != g.scene.Title || !g.has {
		bridge.Call("viewTitle", s.Title)
	}
	g.scene, g.has = s, true
	g.items = prepare(s.Items)
	g.cam.PaperW, g.cam.PaperH = px(s.W), px(s.H)
	if !g.drag.on {
		g.sharp = g.cam.Scale()
	}
	g.look("")
	g.wake()
}

// settle is called when the camera has come to rest: letters are drawn anew
// for its scale, and the page is told where it is.
func (g *game) settle(tell bool) {
	g.sharp = g.cam.Scale()
	g.look("")
	g.wake()
	if tell {
		s := g.cam.State
		state := bridge.Object("zoom", s.Zoom, "x", s.X, "y", s.Y)
		bridge.Call("viewTell", bridge.Object("kind", "view", "state", state, "view", state))
	}
}

// look sets the pointer's shape, and who scrolls: as long as all is seen and
// nothing can be dragged, one finger scrolls the page.
func (g *game) look(cursor string) {
	touch := "none"
	if g.cam.Fitted() && !g.hasDrag() {
		touch = "pan-y"
	}
	if cursor == "" {
		cursor = "default"
		if !g.cam.Fitted() {
			cursor = "grab"
		}
	}
	bridge.Call("viewLook", cursor, touch)
}

func (g *game) hasDrag() bool {
	for _, s := range g.scene.Spots {
		if s.Drag != 0 {
			return true
		}
	}
	return false
}

// Update is called before each frame; everything has been done by events.
func (g *game) Update() error { return nil }

// LayoutF makes the screen as large as the frame in device pixels.
func (g *game) LayoutF(w, h float64) (float64, float64) {
	g.dpr = ebiten.Monitor().DeviceScaleFactor()
	if w != g.cam.ViewW || h != g.cam.ViewH {
		g.cam.ViewW, g.cam.ViewH = w, h
		g.sharp = g.cam.Scale()
	}
	return w * g.dpr, h * g.dpr
}

// Layout is never called, LayoutF being there.
func (g *game) Layout(w, h int) (int, int) { return w, h }

// Draw paints the scene, and over it the ghost of what is dragged.
func (g *game) Draw(screen *ebiten.Image) {
	g.frames++
	g.brush.begin(screen, &g.theme)
	if g.has {
		ox, oy := g.cam.Origin()
		s := g.cam.Scale()
		p := paper{ox: ox * g.dpr, oy: oy * g.dpr, scale: s * g.dpr / float64(scene.PX), sharp: g.sharp * g.dpr / float64(scene.PX)}
		for i := range g.items {
			g.brush.item(&g.items[i], p)
		}
		g.ghost(p)
	}
	g.brush.end()
	if g.has && !g.told {
		g.told = true
		bridge.Call("viewTell", bridge.Object("kind", "ready"))
	}
}

// A paper says where points of the drawing are on the screen.
type paper struct {
	ox, oy float64 // of its corner, in device pixels
	scale  float64 // device pixels for each scene.Unit
	sharp  float64 // the same, for which letters are drawn
}

func (p paper) at(q scene.Pt) ink.Pt {
	return ink.Pt{X: p.ox + float64(q.X)*p.scale, Y: p.oy + float64(q.Y)*p.scale}
}

func px(u scene.Unit) float64 { return float64(u) / float64(scene.PX) }

// stats is what tests ask for.
func (g *game) stats() bridge.Value {
	var spots []bridge.Value
	for _, s := range g.scene.Spots {
		x, y := g.cam.ToView(px(s.At.Min.X), px(s.At.Min.Y))
		k := g.cam.Scale()
		spots = append(spots, bridge.Object("ref", s.Ref, "name", s.Name, "x", x, "y", y,
			"w", px(s.At.W())*k, "h", px(s.At.H())*k, "drag", string(rune(s.Drag))))
	}
	return bridge.Object("frames", g.frames, "zoom", g.cam.Scale(), "fitted", g.cam.Fitted(), "title", g.scene.Title,
		"w", px(g.scene.W), "h", px(g.scene.H), "items", len(g.scene.Items), "dpr", g.dpr, "shown", g.told,
		"dragging", g.drag.on, "letters", len(g.brush.letters.cache), "letterBytes", g.brush.letters.bytes,
		"spots", bridge.List(spots...))
}
