package svg

import (
	"strings"

	"cartwright/engine/scene"
)

// label writes one line of text. Its baseline lies .36 em under its middle, so
// that capitals and digits stand centred.
func (w *writer) label(l scene.Label) {
	color := w.color(l.Tone)
	if l.Text == "" || l.Size <= 0 || color == "" {
		return
	}
	w.flush()
	turn := ""
	if l.Turn {
		turn = ` transform="rotate(-90 ` + num(l.At.X) + ` ` + num(l.At.Y) + `)"`
	}
	w.back(l, turn)
	w.raw(`<text x="`, num(l.At.X), `" y="`, num(l.At.Y+l.Size*36/100), `" font-size="`, num(l.Size), `" fill="`, color, `"`)
	if l.Bold {
		w.raw(` font-weight="650"`)
	}
	switch l.Align {
	case scene.Middle:
		w.raw(` text-anchor="middle"`)
	case scene.Right:
		w.raw(` text-anchor="end"`)
	}
	if l.Strike {
		w.raw(` text-decoration="line-through"`)
	}
	w.raw(turn, `>`)
	for _, r := range scene.Runs(l.Text) {
		w.run(r, l.Size)
	}
	w.raw("</text>\n")
}

// back paints what is behind a label: 4 px more than the text on every side.
// A number that just moved gets a foot.
func (w *writer) back(l scene.Label, turn string) {
	c := w.color(l.Back)
	if c == "" {
		return
	}
	flat := l
	flat.Turn = false
	r := flat.Extent().Grow(4 * scene.PX)
	w.rect(r, c, turn)
	if l.Back == scene.Lit {
		r.Min.Y = r.Max.Y
		r.Max.Y += 3 * scene.PX
		w.rect(r, w.color(scene.Now), turn)
	}
}

func (w *writer) rect(r scene.Rect, fill, turn string) {
	w.raw(`<rect x="`, num(r.Min.X), `" y="`, num(r.Min.Y), `" width="`, num(r.W()), `" height="`, num(r.H()),
		`" fill="`, fill, `"`, turn, "/>\n")
}

// run writes a stretch of text and its fraction. The space between a whole
// number and a fraction stays in the text, for whoever copies it, and is
// widened, so that it is never under .18 em in any font.
func (w *writer) run(r scene.Run, size scene.Unit) {
	w.raw(escape(r.Text))
	if r.Num == "" {
		return
	}
	small, rise := num(size*scene.FracSize/100), size*scene.FracRise/100
	dx := ""
	if r.Gap {
		w.raw(`<tspan font-size="`, small, `"> </tspan>`)
		dx = ` dx="` + num(size*6/100) + `"`
	}
	w.raw(`<tspan font-size="`, small, `"`, dx, ` dy="`, num(-rise), `">`, r.Num, `</tspan>`,
		`<tspan dy="`, num(rise), "\">\u2044</tspan>",
		`<tspan font-size="`, small, `">`, r.Den, `</tspan>`)
}

// escape makes s safe as text and as a quoted attribute. What XML cannot hold
// becomes U+FFFD.
func escape(s string) string {
	clean := true
	for i := 0; i < len(s) && clean; i++ {
		c := s[i]
		clean = c >= ' ' && c < 0x7f && c != '<' && c != '>' && c != '&' && c != '"' && c != '\''
	}
	if clean {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '&':
			b.WriteString("&amp;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\'':
			b.WriteString("&#39;")
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteByte(' ')
		case r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff:
			b.WriteRune('\ufffd')
		default:
			b.WriteRune(r) // invalid UTF-8 comes as U+FFFD
		}
	}
	return b.String()
}
