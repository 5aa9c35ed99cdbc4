// Package hand turns what fingers and the mouse do into what is meant: tap,
// drag, pan, zoom.
package hand

import (
	"math"
	"slices"
)

// A Phase is what a pointer did.
type Phase int

const (
	Down Phase = iota
	Move
	Up
	Cancel // the system took the pointer away
)

// An Event is one report of one pointer.
type Event struct {
	Phase Phase
	ID    int
	X, Y  float64 // CSS pixels of the frame
	MS    float64 // time in milliseconds
	Touch bool    // a finger, not a mouse or pen
}

// An Intent is what is meant.
type Intent int

const (
	Tap      Intent = iota // at X, Y
	TapAgain               // a second tap on the same place within 400 ms
	Pan                    // by DX, DY
	Zoom                   // by F at X, Y, and by DX, DY
	Grab                   // a drag begins, with what lies at X, Y
	Drag                   // what was grabbed is now DX, DY from there
	Drop                   // and stays there
	Abandon                // the drag does not count
	Rest                   // no finger is left after a pan or a zoom
)

// An Act is one thing that is meant.
type Act struct {
	Intent       Intent
	X, Y, DX, DY float64
	F            float64
}

// How far a pointer may stray and still mean a tap, and what makes two taps
// one: a double tap marks one cut, not two.
const (
	slopMouse = 4
	slopTouch = 9
	againMS   = 400
	againPX   = 30
)

type state int

const (
	idle     state = iota
	pressed        // one pointer, not moved yet
	dragging       // something that was grabbed
	panning
	pinching
)

type finger struct {
	id             int
	x, y, x0, y0   float64
	grips, touches bool
}

// A Hand follows the pointers. The zero Hand touches nothing.
type Hand struct {
	// Grips reports whether something that can be dragged lies at a point.
	// nil means nothing can.
	Grips func(x, y float64) bool

	state   state
	fingers []finger
	tapped  bool // whether the tap below counts for the next one
	tapX    float64
	tapY    float64
	tapMS   float64
}

// Feel takes in an event and returns what it means.
func (h *Hand) Feel(e Event) []Act {
	switch e.Phase {
	case Down:
		return h.down(e)
	case Move:
		return h.move(e)
	case Up:
		return h.up(e, false)
	default:
		return h.up(e, true)
	}
}

func (h *Hand) down(e Event) []Act {
	h.forget(e.ID)
	f := finger{id: e.ID, x: e.X, y: e.Y, x0: e.X, y0: e.Y, touches: e.Touch}
	if len(h.fingers) == 0 {
		f.grips = h.Grips != nil && h.Grips(e.X, e.Y)
		h.state = pressed
	}
	h.fingers = append(h.fingers, f)
	if len(h.fingers) >= 2 && h.state != dragging { // a drag wins over a second finger
		h.state = pinching
	}
	return nil
}

func (h *Hand) move(e Event) []Act {
	i := h.find(e.ID)
	if i < 0 {
		return nil
	}
	old := slices.Clone(h.fingers)
	f := &h.fingers[i]
	f.x, f.y = e.X, e.Y
	switch {
	case h.state == dragging && i == 0:
		return []Act{{Intent: Drag, X: f.x0, Y: f.y0, DX: f.x - f.x0, DY: f.y - f.y0}}
	case h.state == panning:
		return []Act{{Intent: Pan, DX: f.x - old[i].x, DY: f.y - old[i].y}}
	case h.state == pinching && i < 2:
		return pinch(old[0], old[1], h.fingers[0], h.fingers[1])
	case h.state == pressed && !f.still():
		h.tapped = false
		if f.grips {
			h.state = dragging
			return []Act{
				{Intent: Grab, X: f.x0, Y: f.y0},
				{Intent: Drag, X: f.x0, Y: f.y0, DX: f.x - f.x0, DY: f.y - f.y0},
			}
		}
		h.state = panning
		return []Act{{Intent: Pan, DX: f.x - f.x0, DY: f.y - f.y0}}
	}
	return nil
}

// pinch returns what two fingers mean that moved from a0, b0 to a, b.
func pinch(a0, b0, a, b finger) []Act {
	d0, d := distance(a0, b0), distance(a, b)
	f := 1.0
	if d0 > 1 && d > 1 {
		f = d / d0
	}
	mx, my := (a0.x+b0.x)/2, (a0.y+b0.y)/2
	return []Act{{Intent: Zoom, F: f, X: mx, Y: my, DX: (a.x+b.x)/2 - mx, DY: (a.y+b.y)/2 - my}}
}

func (h *Hand) up(e Event, cancel bool) []Act {
	i := h.find(e.ID)
	if i < 0 {
		return nil
	}
	f := h.fingers[i]
	h.forget(e.ID)
	var acts []Act
	switch {
	case h.state == dragging && i == 0:
		end := Act{Intent: Drop, X: f.x0, Y: f.y0, DX: e.X - f.x0, DY: e.Y - f.y0}
		if cancel {
			end.Intent = Abandon
		}
		acts = []Act{end}
		h.fingers = nil // fingers that joined later mean nothing any more
	case h.state == pressed && !cancel:
		acts = []Act{h.tap(e)}
	case len(h.fingers) == 0 && (h.state == panning || h.state == pinching):
		acts = []Act{{Intent: Rest}}
	}
	switch {
	case len(h.fingers) == 0:
		h.state = idle
	case len(h.fingers) == 1 && h.state == pinching:
		h.state = panning
	}
	return acts
}

func (h *Hand) tap(e Event) Act {
	a := Act{Intent: Tap, X: e.X, Y: e.Y}
	if h.tapped && e.MS-h.tapMS < againMS && math.Abs(e.X-h.tapX) < againPX && math.Abs(e.Y-h.tapY) < againPX {
		a.Intent = TapAgain
		h.tapped = false
		return a
	}
	h.tapped, h.tapX, h.tapY, h.tapMS = true, e.X, e.Y, e.MS
	return a
}

func (h *Hand) find(id int) int {
	for i, f := range h.fingers {
		if f.id == id {
			return i
		}
	}
	return -1
}

func (h *Hand) forget(id int) {
	if i := h.find(id); i >= 0 {
		h.fingers = append(h.fingers[:i:i], h.fingers[i+1:]...)
	}
}

// still reports whether f has not left the place where it came down.
func (f finger) still() bool {
	slop := float64(slopMouse)
	if f.touches {
		slop = slopTouch
	}
	return math.Abs(f.x-f.x0) <= slop && math.Abs(f.y-f.y0) <= slop
}

func distance(a, b finger) float64 { return math.Hypot(a.x-b.x, a.y-b.y) }
