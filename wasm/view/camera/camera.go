// Package camera says where the paper of a drawing lies in the frame.
package camera

// MaxZoom is how far one can zoom in.
const MaxZoom = 16

// A State is what the page keeps, so that a frame that had to be started anew
// shows what it showed before. It does not depend on the size of the frame.
// The zero State is the whole drawing.
type State struct {
	Zoom float64 // 1, or 0: all of the paper is seen
	X, Y float64 // the point in the middle, in parts of the paper
}

// A Camera looks at paper of PaperW by PaperH from a frame of ViewW by ViewH,
// all in CSS pixels.
type Camera struct {
	ViewW, ViewH, PaperW, PaperH float64
	State
}

// fit returns the scale at which the whole paper is seen. Paper laid out for
// this frame is shown as it is; a small difference, from rounding, is no
// reason to scale every letter.
func (c Camera) fit() float64 {
	if c.PaperW <= 0 || c.PaperH <= 0 || c.ViewW <= 0 || c.ViewH <= 0 {
		return 1
	}
	s := min(c.ViewW/c.PaperW, c.ViewH/c.PaperH)
	if s > 0.995 && s < 1.05 {
		return 1
	}
	return s
}

// Scale returns how many pixels of the frame a pixel of the paper is.
func (c Camera) Scale() float64 { return c.fit() * c.zoom() }

func (c Camera) zoom() float64 {
	if c.Zoom < 1 {
		return 1
	}
	return min(c.Zoom, MaxZoom)
}

// Fitted reports whether the whole paper is seen.
func (c Camera) Fitted() bool { return c.zoom() == 1 }

// Origin returns where the paper's top left corner is in the frame.
func (c Camera) Origin() (x, y float64) {
	s := c.Scale()
	return origin(c.ViewW, c.PaperW*s, c.X), origin(c.ViewH, c.PaperH*s, c.Y)
}

// origin returns where paper begins that has its part at in the middle of the
// view. Paper that is smaller lies in the middle; larger paper leaves no gap.
func origin(view, paper, at float64) float64 {
	if paper <= view {
		return (view - paper) / 2
	}
	return min(0, max(view-paper, view/2-at*paper))
}

// ToPaper returns the point of the paper, in its pixels, under a point of the
// frame.
func (c Camera) ToPaper(x, y float64) (float64, float64) {
	ox, oy := c.Origin()
	s := c.Scale()
	return (x - ox) / s, (y - oy) / s
}

// ToView is the reverse of [Camera.ToPaper].
func (c Camera) ToView(x, y float64) (float64, float64) {
	ox, oy := c.Origin()
	s := c.Scale()
	return ox + x*s, oy + y*s
}

// Fit returns the camera that sees all of the paper.
func (c Camera) Fit() Camera {
	c.State = State{}
	return c
}

// ZoomAt returns the camera zoomed by f, the point (x, y) of the frame staying
// where it is, and then moved by (dx, dy).
func (c Camera) ZoomAt(f, x, y, dx, dy float64) Camera {
	px, py := c.ToPaper(x, y)
	c.Zoom = max(1, min(MaxZoom, c.zoom()*f))
	s := c.Scale()
	return c.put(x+dx-px*s, y+dy-py*s)
}

// Pan returns the camera with the paper moved by (dx, dy).
func (c Camera) Pan(dx, dy float64) Camera {
	ox, oy := c.Origin()
	return c.put(ox+dx, oy+dy)
}

// put moves the paper's corner to (ox, oy), as far as that leaves no gap.
func (c Camera) put(ox, oy float64) Camera {
	s := c.Scale()
	c.X, c.Y = part(c.ViewW, c.PaperW*s, ox), part(c.ViewH, c.PaperH*s, oy)
	c.Zoom = c.zoom()
	return c
}

// part is the reverse of origin.
func part(view, paper, o float64) float64 {
	if paper <= view {
		return 0.5
	}
	return (view/2 - min(0, max(view-paper, o))) / paper
}
