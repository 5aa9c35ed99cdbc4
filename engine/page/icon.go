package page

// A drawn thing is the path of an icon on a grid of 24. Strokes are straight,
// corners mitred; the style sheet sets their weight.
type drawn string

const (
	tick     drawn = "M4 12.5 9.5 18 20 6.5"
	undo     drawn = "M9 4 4.5 8.5 9 13M5 8.5h14V19H9"
	redo     drawn = "M15 4l4.5 4.5L15 13M19 8.5H5V19h10"
	menu     drawn = "M3 6h18M3 12h18M3 18h12"
	printer  drawn = "M7 9V3h10v6M7 17H3V9h18v8h-4M7 14h10v7H7z"
	triangle drawn = "M12 3.5 22 20.5H2zM12 9.5v5M12 16.5v1.6"
	octagon  drawn = "M8 2.5h8L21.5 8v8L16 21.5H8L2.5 16V8zM7 12h10"
	square   drawn = "M7 7h10v10H7z"
	sun      drawn = "M8 8h8v8H8zM12 1.5v3.5M12 19v3.5M1.5 12H5M19 12h3.5"
	up       drawn = "M5 15.5 12 8.5l7 7"
	down     drawn = "M5 8.5l7 7 7-7"
)

// icon draws it beside a word, or alone in a button that has a name.
func icon(d drawn) node {
	class := "icon"
	if d == octagon {
		class = "icon octagon"
	}
	return raw(`<svg class="` + class + `" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><path d="` + string(d) + `"></path></svg>`)
}
