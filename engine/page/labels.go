package page

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/geom"
	"cartwright/engine/part"
)

// perPage labels stand on a page, two beside each other; 92 × 40 mm each, so
// that A4 and Letter both hold them.
const perPage = 12

// printLabels are the labels of all parts, in the order of the cut list: letter,
// name, size, where it goes, and how it lies.
func (b *builder) printLabels(when string) node {
	var all []node
	for i, l := range b.Cart.Lines {
		for n := range l.Count {
			var q *part.Part
			for k := range b.Cart.Parts {
				if n < len(l.Parts) && b.Cart.Parts[k].ID == l.Parts[n] {
					q = &b.Cart.Parts[k]
				}
			}
			all = append(all, b.label(l, or(l.Tag, part.Tag(i)), n, q))
		}
	}
	out := nodes{}
	for i := 0; i < len(all); i += perPage {
		out = append(out, el("article", attr{"class", "page"}, div("labels", nodes(all[i:min(i+perPage, len(all))])),
			el("footer", span("", rich(or(b.Project.Name, "Cart")+". Labels, to cut apart. Along the grain first, "+tapeName(b.t)+".")), span("", text(when)))))
	}
	return out
}

func (b *builder) label(l part.Line, tagged string, n int, q *part.Part) node {
	name, where := l.Name, "rides along"
	if q != nil {
		name, where = q.Name, b.whereTo(*q)
	}
	if l.Count > 1 {
		where += ", " + strconv.Itoa(n+1) + " of " + strconv.Itoa(l.Count)
	}
	side := ""
	if q != nil {
		side = "inside"
		if q.Drawer > 0 && q.Front == "" { // of a box the inside shows
			side = "outside"
		}
		side = "For the " + side + ": " + draw.FaceName(design.Side{Axis: q.ThickAxis(), High: !q.GoodHigh}) + ". Good face: the other."
	}
	words := div("words", el("p", el("b", text(name))),
		el("p", attr{"class", "sizes"}, bySize(b.t, l.Length, l.Width), text(" × "), size(b.exactTape(l.Thick), l.Thick)),
		el("p", text(where)), when(side != "", el("p", text(side))))
	return div("label", tag(tagged, false), words, raw(lying(l, q)))
}

// whereTo says where a part goes: the bay and opening of a drawer, the case.
func (b *builder) whereTo(q part.Part) string {
	if n := q.Drawer; n > 0 && n <= len(b.Cart.Drawers) {
		d := b.Cart.Drawers[n-1]
		if d.Bay < len(b.Cart.Bays) && d.Opening < len(b.Cart.Bays[d.Bay].Openings) {
			return b.Cart.Bays[d.Bay].Name + ", " + b.Cart.Bays[d.Bay].Openings[d.Opening].Name
		}
	}
	if q.Door > 0 {
		return "door " + strconv.Itoa(q.Door)
	}
	if q.Box.Min[geom.Z] >= b.Cart.Case.Max[geom.Z] {
		return "worktop"
	}
	return "case"
}

var labelEdges = [3][2]string{{"left", "right"}, {"front", "back"}, {"bottom", "top"}}

// lying draws a part with its length across, as one sees it who looks at the
// face that is not the good one: grain, the names of its edges, the front edge
// heavy.
func lying(l part.Line, q *part.Part) string {
	const wide, high = 64.0, 34.0 // room of the rectangle
	w, h := wide, wide*float64(l.Width)/float64(max(l.Length, 1))
	if h > high {
		w, h = w*high/h, high
	}
	w, h = max(w, 6), max(h, 6)
	x, y := int(60-w/2), int(34-h/2)
	r, d := x+int(w), y+int(h)
	num := strconv.Itoa
	line := func(x1, y1, x2, y2 int, width string) string {
		return `<path d="M` + num(x1) + " " + num(y1) + "L" + num(x2) + " " + num(y2) + `" fill="none" stroke="#000" stroke-width="` + width + `"/>`
	}
	s := `<svg viewBox="-14 0 148 68" aria-hidden="true">` + `<rect x="` + num(x) + `" y="` + num(y) + `" width="` + num(r-x) + `" height="` + num(d-y) + `" fill="none" stroke="#000"/>`
	mx, my := (x+r)/2, (y+d)/2
	switch {
	case l.Grain == part.AlongLength && r-x > 20:
		s += line(mx-10, my, mx+10, my, "1") + line(mx-10, my, mx-6, my-3, "1") + line(mx+10, my, mx+6, my+3, "1")
	case l.Grain == part.AlongWidth && d-y > 14:
		s += line(mx, my-6, mx, my+6, "1") + line(mx, my-6, mx-3, my-3, "1") + line(mx, my+6, mx+3, my+3, "1")
	}
	if q != nil {
		a, c := q.LengthAxis, q.WidthAxis
		// On the paper left, right, up, down. From the high face of a third axis
		// that stands on both as a right-hand screw they lie so, else mirrored.
		names := [4]string{labelEdges[a][0], labelEdges[a][1], labelEdges[c][1], labelEdges[c][0]}
		if ((c-a+3)%3 == 1) == q.GoodHigh {
			names[0], names[1] = names[1], names[0]
		}
		at := [4][3]int{{x - 3, my + 3, 0}, {r + 3, my + 3, 2}, {mx, y - 3, 1}, {mx, d + 10, 1}}
		ends := [4][4]int{{x, y, x, d}, {r, y, r, d}, {x, y, r, y}, {x, d, r, d}}
		for i, name := range names {
			weight := ""
			if name == "front" {
				s += line(ends[i][0], ends[i][1], ends[i][2], ends[i][3], "3.5")
				weight = ` font-weight="700"`
			}
			s += `<text x="` + num(at[i][0]) + `" y="` + num(at[i][1]) + `" font-size="9"` + weight + ` text-anchor="` + [...]string{"end", "middle", "start"}[at[i][2]] + `">` + name + `</text>`
		}
	}
	return s + "</svg>"
}
