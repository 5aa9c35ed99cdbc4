package scene

import "strings"

// slash is U+2044, the fraction slash.
const slash = "\u2044"

// Sizes of a built fraction, in hundredths of the size of the text.
const (
	FracSize = 75 // of its digits
	FracRise = 36 // of the numerator above the line
	FracGap  = 18 // least space between a whole number and its fraction
)

// A Run is a stretch of plain text with the fraction that follows it, if any.
type Run struct {
	Text     string
	Num, Den string // both empty: no fraction
	// Gap says that a whole number stands before the fraction: FracGap goes
	// between them. The space of the text is not part of Text.
	Gap bool
}

// Runs splits a label into what a renderer sets in one way each. Digits on
// both sides of U+2044 are a fraction: "23⁄32" is the fraction 23/32 with
// nothing before it, "2 3⁄32" the number 2 and the fraction 3/32.
func Runs(text string) []Run {
	var out []Run
	for {
		i := strings.Index(text, slash)
		for ; i >= 0; i = next(text, i) {
			if i > 0 && digit(text[i-1]) && i+len(slash) < len(text) && digit(text[i+len(slash)]) {
				break
			}
		}
		if i < 0 {
			if text != "" {
				out = append(out, Run{Text: text})
			}
			return out
		}
		num, den := i, i+len(slash)
		for num > 0 && digit(text[num-1]) {
			num--
		}
		for den < len(text) && digit(text[den]) {
			den++
		}
		r := Run{Text: text[:num], Num: text[num:i], Den: text[i+len(slash) : den]}
		if n := len(r.Text); n >= 2 && r.Text[n-1] == ' ' && digit(r.Text[n-2]) {
			r.Text, r.Gap = r.Text[:n-1], true
		}
		out = append(out, r)
		text = text[den:]
	}
}

// next returns the place of the slash after the one at i, or -1.
func next(text string, i int) int {
	i += len(slash)
	if j := strings.Index(text[i:], slash); j >= 0 {
		return i + j
	}
	return -1
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// TextWidth returns about how wide text comes out in the fonts that browsers
// use for system-ui, a little on the wide side. It is for leaving room; a
// renderer that can measure does.
func TextWidth(text string, size Unit, bold bool) Unit {
	var w int64 // thousandths of the size
	for _, r := range Runs(text) {
		w += plainWidth(r.Text)
		if r.Num != "" {
			w += (plainWidth(r.Num)+plainWidth(r.Den))*FracSize/100 + 200
		}
		if r.Gap {
			w += FracGap * 10
		}
	}
	if bold {
		w += w / 16
	}
	return Unit(w * int64(size) / 1000)
}

func plainWidth(s string) int64 {
	var w int64
	for _, c := range s {
		switch {
		case strings.ContainsRune("ijl.,:;'|!", c):
			w += 280
		case strings.ContainsRune("ft()[]r-/ ", c):
			w += 360
		case strings.ContainsRune("mwMW@%", c):
			w += 900
		case 'A' <= c && c <= 'Z', c > 0x2e80:
			w += 700
		default:
			w += 610
		}
	}
	return w
}

// Extent returns about where the letters of l are painted, without the margin
// of its background.
func (l Label) Extent() Rect {
	w, h := TextWidth(l.Text, l.Size, l.Bold), l.Size
	x := l.At.X - w/2
	switch l.Align {
	case Left:
		x = l.At.X
	case Right:
		x = l.At.X - w
	}
	r := R(x, l.At.Y-h/2, w, h)
	if l.Turn { // a quarter to the left about At
		dx, dy := r.Min.X-l.At.X, r.Min.Y-l.At.Y
		r = R(l.At.X+dy, l.At.Y-dx-w, h, w)
	}
	return r
}
