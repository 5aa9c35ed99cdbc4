package page

import (
	"strconv"
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// pictures are the small drawings of the answers to a choice, by the field's
// path and the answer: cut open from the front, from the side or from above,
// as shows it best.
var pictures = map[string]drawn{
	"lineUp.mode=match":           "M3 21V12h18v9M8 12V5h8v7M2 5h20",
	"lineUp.mode=height":          "M3 21V9h18v12M2 9h20",
	"lineUp.role=receives":        "M2 15h8M14 11h8M18 6H9M12 3 9 6l3 3",
	"lineUp.role=feeds":           "M2 11h8M14 15h8M6 6h9M12 3l3 3-3 3",
	"lineUp.role=both":            "M2 14h8M14 14h8M6 6h12M9 3 6 6l3 3M15 3l3 3-3 3",
	"lineUp.role=beside":          "M2 14h8M14 14h8",
	"lineUp.side=left":            "M9 7h11v10H9zM3 5v14",
	"lineUp.side=right":           "M4 7h11v10H4zM21 5v14",
	"lineUp.side=front":           "M7 4h10v11H7zM5 21h14",
	"lineUp.side=back":            "M7 9h10v11H7zM5 3h14",
	"drawers.fit=inset":           "M3 3h18M3 21h18M3 5h4v14H3zM7 8h14M7 16h14",
	"drawers.fit=overlay":         "M8 4h13M8 20h13M3 2h4v20H3zM9 8h12M9 16h12",
	"drawers.grain=across":        "M3 3h18v8H3zM3 13h18v8H3zM6 6h12M6 8.5h12M6 16h12M6 18.5h12",
	"drawers.grain=up":            "M3 3h18v8H3zM3 13h18v8H3zM8 5v4M12 5v4M16 5v4M9.5 15v4M13.5 15v4M17.5 15v4",
	"drawers.grain=on":            "M3 3h18v8H3zM3 13h18v8H3zM8 5v14M12 5v14M16 5v14",
	"drawers.slide=ball":          "M3 3v18M3 9h4v5H3M7 5v13h10V5M21 3v18M21 9h-4v5h4",
	"drawers.slide=wood":          "M3 3v18M7 5v11h10V5M21 3v18M3 16h6v4H3M21 16h-6v4h6",
	"drawers.joint=groove":        "M4 3v18h4V3zM16 3v18h4V3zM6 14h12v3H6z",
	"drawers.joint=under":         "M4 3v14h4V3zM16 3v14h4V3zM4 17h16v3H4z",
	"drawers.joint=inside":        "M4 3v18h4V3zM16 3v18h4V3zM8 18h8v3H8z",
	"cabinet.bottom=under":        "M5 4v13M19 4v13M3 17h18v4H3z",
	"cabinet.bottom=between":      "M4 4v17M20 4v17M4 15h16v4H4z",
	"cabinet.back.kind=frame":     "M4 21V9M20 21V9M4 5h16v4H4zM4 2h16",
	"cabinet.back.kind=panel":     "M5 21V7M19 21V7M3 3h18v4H3z",
	"cabinet.back.kind=between":   "M4 21V3M20 21V3M4 4h16v4H4z",
	"cabinet.back.kind=let-in":    "M2 21V3M6 21V8H4V3M22 21V3M18 21V8h2V3M4 4h16v4",
	"cabinet.back.kind=none":      "M4 21V3M20 21V3",
	"cabinet.face.kind=bare":      "M8 3v18h5V3",
	"cabinet.face.kind=strips":    "M8 3v13M13 3v13M8 16h5v5H8z",
	"cabinet.face.kind=frame":     "M4 3v13M9 3v13M4 16h17v5H4z",
	"cabinet.face.edges=all":      "M4 4h16v16H4zM12 4v16M7 7h2M7 12h2",
	"cabinet.face.edges=uprights": "M4 4v16M12 4v16M20 4v16",
	"cabinet.face.edges=shelves":  "M4 4h16v16H4zM12 4v16M4 12h8",
	"cabinet.face.corner=butt":    "M3 3v12h5V3M3 15h18v5H3z",
	"cabinet.face.corner=mitre":   "M3 3v17h18v-5H8V3M3 20l5-5",
	"cabinet.upper=sides":         "M3 3h18v4H3zM5 7v14M19 7v14",
	"cabinet.upper=stretchers":    "M3 3h18v4H3zM4 7h5v3H4zM15 7h5v3h-5zM4 7v14M20 7v14",
	"cabinet.upper=sub-top":       "M3 3h18v4H3zM4 7h16v3H4zM4 7v14M20 7v14",
	// Of entries of lists, by the last word of their path.
	"*.kind=drawer":   "M3 5h18v14H3zM9 12h6",
	"*.kind=open":     "M3 4h18v16H3zM3 4l4 4M21 4l-4 4M7 8h10v8H7zM3 20l4-4M21 20l-4-4",
	"*.kind=shelf":    "M3 3v18M21 3v18M3 15h18v3H3z",
	"*.kind=door":     "M3 4h18v16H3zM18 11v3",
	"drawers.pulls=0": "M3 3h8v7H3zM3 13h18v8H3zM5 6h4M6 17h3M15 17h3",
	"drawers.pulls=1": "M3 6h18v12H3zM9 12h6",
	"drawers.pulls=2": "M3 6h18v12H3zM5 12h4M15 12h4",
	"*.doors=1":       "M3 4h18v16H3zM18 11v3",
	"*.doors=2":       "M3 4h18v16H3zM12 4v16M9 11v3M15 11v3",
	"*.hinge=left":    "M3 4h18v16H3zM21 4 3 12 21 20",
	"*.hinge=right":   "M3 4h18v16H3zM3 4 21 12 3 20",
	"*.side=left":     "M9 6h12v12H9zM3 10h6v4H3z",
	"*.side=right":    "M3 6h12v12H3zM15 10h6v4h-6z",
	"*.side=front":    "M6 3h12v12H6zM10 15h4v6h-4z",
	"*.side=back":     "M6 9h12v12H6zM10 3h4v6h-4z",

	"base.kind=casters": "M3 4h18M6 4v3M18 4v3M6 7l3 4v4l-3 4-3-4v-4zM18 7l3 4v4l-3 4-3-4v-4z",
	"base.kind=feet":    "M3 4h18M5 4v15h4V4M15 4v15h4V4",
}

// pics is the row of drawings under a choice: tapping one chooses it. A choice
// without drawings has none.
func (b *builder) pics(path, label, value string, options []option) item {
	row := nodes{}
	last := "*" + path[max(strings.LastIndexByte(path, '.'), 0):]
	for _, o := range options {
		d, ok := pictures[path+"="+o.value]
		if !ok {
			d, ok = pictures[last+"="+o.value]
		}
		if !ok {
			return nil
		}
		on := "false"
		if o.value == value {
			on = "true"
		}
		row = append(row, button("pic", do(doSet, "path", path, "value", o.value), attr{"id", "p-" + path + "-" + o.value},
			attr{"aria-label", label + ": " + Plain(o.label)}, attr{"title", Plain(o.label)}, attr{"aria-pressed", on},
			when(b.ReadOnly, attr{"disabled", ""}), icon(d)))
	}
	return div("pics", row)
}

// holePicture is the panel as it stands, seen from the front or the left, with
// the hole where it will be; nothing if it would lie outside.
func holePicture(p part.Part, h project.PanelHole) node {
	long := max(p.Length, p.Width)
	r := h.Diameter / 2
	if r <= 0 || h.Along < r || h.Along > p.Length-r || h.Across < r || h.Across > p.Width-r {
		return nil
	}
	w, tall, x, y := p.Length, p.Width, h.Along, h.Across
	if p.LengthAxis == geom.Z {
		w, tall, x, y = tall, w, y, x
	}
	at := func(l measure.Length) string {
		return strconv.FormatFloat(float64(l)*20/float64(long), 'f', 1, 64)
	}
	left, foot := (long-w)/2+long/10, (long+tall)/2+long/10
	ring := "a" + at(r) + " " + at(r) + " 0 1 0 "
	return div("pics", span("pic", icon(drawn("M"+at(left)+" "+at(foot)+"h"+at(w)+"v-"+at(tall)+"h-"+at(w)+"z"+
		"M"+at(left+x-r)+" "+at(foot-y)+ring+at(2*r)+" 0"+ring+"-"+at(2*r)+" 0"))))
}
