package design

import (
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/part"
)

// OneFace: parts show both faces, but their sheet is good on one side. Args: one
// such part (string), material (string), how many there are (int).
// Example: one-face.json
const OneFace issue.Code = "design.one-face"

// goodFaces says of every part which face shows, and tells where both do while
// the sheet is good on one side only.
func (b *builder) goodFaces() {
	var first *part.Part
	n := 0
	for i := range b.cart.Parts {
		p := &b.cart.Parts[i]
		both := b.goodFace(p)
		if m, ok := b.p.Material(p.Material); ok && both && m.Faces == 1 {
			n++
			if first == nil {
				first = p
			}
		}
	}
	if n > 0 {
		m, _ := b.p.Material(first.Material)
		name := m.Name
		if name == "" {
			name = m.ID
		}
		b.f.Add(issue.Note, OneFace, []string{string(first.ID)}, first.Name, name, n)
	}
}

// goodFace chooses the face of p that shows most: outside before inside, an
// open bay before one behind fronts, above before below. both reports whether
// the other shows too.
func (b *builder) goodFace(p *part.Part) (both bool) {
	id := string(p.ID)
	_, last, inBay := strings.Cut(id, "/")
	switch {
	case p.Drawer > 0 && p.Front == "":
		// The inside of a box shows when it is open.
		p.GoodHigh = strings.HasSuffix(id, "side-left") || strings.HasSuffix(id, "box-front") || strings.HasSuffix(id, "/bottom")
		return false
	case p.Door > 0:
		return true // seen from behind when it is open
	case p.ThickAxis() == geom.Y:
		if p.ID == "back-skin" {
			p.GoodHigh = !b.open(0, len(b.cart.Bays)) || b.backKind == "frame"
		}
		return false
	case id == "side-right":
		p.GoodHigh = true
		n := len(b.cart.Bays)
		return b.open(n-1, n)
	case id == "side-left":
		return b.open(0, 1)
	case strings.HasPrefix(id, "partition-"):
		for i, up := range b.ups {
			if up == p.ID && i > 0 && i < len(b.cart.Bays) {
				left, right := b.open(i-1, i), b.open(i, i+1)
				p.GoodHigh = right && !left
				return left && right
			}
		}
	case strings.HasPrefix(id, "stretcher-"), id == "sub-top":
		return false // seen from inside
	case p.ThickAxis() == geom.Z:
		p.GoodHigh = true
		return inBay && (strings.HasPrefix(last, "shelf") || p.Loose)
	}
	return false
}

// open reports whether bays from to below to have an opening without a front.
func (b *builder) open(from, to int) bool {
	for i := max(from, 0); i < min(to, len(b.cart.Bays)); i++ {
		for _, o := range b.cart.Bays[i].Openings {
			if o.Kind == "open" || o.Kind == "shelf" {
				return true
			}
		}
	}
	return false
}
