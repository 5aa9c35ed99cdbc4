package page

import (
	"strconv"
	"strings"

	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// CutListColumns are the columns of a cut list as the program writes it and
// reads it again.
var CutListColumns = [...]string{"name", "length", "width", "thickness", "count", "grain", "material"}

// CutList is a cut list as CSV (RFC 4180), lengths with their unit. A text
// that a spreadsheet would take for a formula gets an apostrophe before it.
func CutList(tape measure.Tape, lines []part.Line) string {
	var b strings.Builder
	row := func(cells ...string) {
		for i, c := range cells {
			if i > 0 {
				b.WriteByte(',')
			}
			if strings.ContainsAny(c, ",\"\r\n") || c != strings.TrimSpace(c) {
				c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
			}
			b.WriteString(c)
		}
		b.WriteString("\r\n")
	}
	row(CutListColumns[:]...)
	for _, l := range lines {
		row(harmless(l.Name), tape.Exact(l.Length), tape.Exact(l.Width), tape.Exact(l.Thick),
			strconv.Itoa(l.Count), [...]string{part.AlongLength: "length", part.AlongWidth: "width", part.AnyWay: "free"}[l.Grain], harmless(l.Material))
	}
	return b.String()
}

func harmless(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}
