package draw

import (
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// CardOptions are the words on a store card. Empty ones are left out.
type CardOptions struct {
	Material string         // "Birch plywood 3/4 in"
	Within   measure.Length // how exact the cuts must be
	Car      string         // "4 pieces flat, about 20 lb each; floor 50 × 38"
	Weight   string         // of the full sheet: "about 81 lb: two people"
	Project  string         // its name, for the foot
	Printed  string         // when: "24 Nov, 10:42"
}

// Card draws the card for the operator of the store's saw: one sheet, its long
// side across, its cuts in order, each with one measure from a named factory
// edge. It is w CSS pixels wide and at least h high; for print use 718 (190
// mm) by 1000, which fits Letter and A4. The spots are the IDs of the cuts.
func Card(job nest.Job, plan nest.Plan, steps work.Steps, tape measure.Tape, sheet, w, h int, o CardOptions) scene.Scene {
	v, b, ok := newCard(job, plan, steps, tape, sheet, w)
	if !ok {
		return v.Scene
	}
	v.words = o
	y := v.heading(8 * px)
	y = v.picture(b, y+v.pt(16))
	y = v.rows(y + v.pt(14))
	y = v.notes(y)
	v.H = max(y+v.pt(8), scene.Unit(h)*px)
	v.foot()
	return v.Scene
}

// CardSheet draws the sheet of a store card alone, for a page that sets the
// words itself. It is w CSS pixels wide and as high as it needs to be, at most
// h if h is not 0.
func CardSheet(job nest.Job, plan nest.Plan, steps work.Steps, tape measure.Tape, sheet, w, h int) scene.Scene {
	v, b, ok := newCard(job, plan, steps, tape, sheet, w)
	if !ok {
		return v.Scene
	}
	v.most = scene.Unit(h) * px
	v.H = v.picture(b, v.pt(4)) + v.pt(4)
	return v.Scene
}

// A cardView draws one card.
type cardView struct {
	sheetView
	sheet int
	words CardOptions
	cuts  []work.Cut
	rough []work.Rough
	most  scene.Unit // height of the picture, 0 for as high as it comes
}

func newCard(job nest.Job, plan nest.Plan, steps work.Steps, tape measure.Tape, sheet, w int) (*cardView, *bed, bool) {
	v := &cardView{sheet: sheet, sheetView: sheetView{
		sketch: newSketch(scene.Unit(w)*px, 1<<26, "Store card"),
		job:    job, plan: plan, steps: steps, tape: tape, stands: map[string]work.Stand{},
	}}
	if sheet < 0 || sheet >= len(plan.Sheets) || !drawable(job, plan) {
		v.H = v.W / 2
		return v, nil, false
	}
	for _, c := range steps.Store {
		if c.Sheet == sheet {
			v.cuts = append(v.cuts, c)
		}
	}
	for _, r := range steps.Rough {
		if r.Sheet == sheet {
			v.rough = append(v.rough, r)
		}
	}
	v.Title = "Store card, sheet " + strconv.Itoa(sheet+1) + " of " + strconv.Itoa(len(plan.Sheets))
	return v, v.bed(sheet), true
}

// pt scales a size of the print card, 718 px wide, to the width at hand.
func (v *cardView) pt(n scene.Unit) scene.Unit {
	return max(n*px*min(v.W, 760*px)/(718*px), n*px*55/100)
}

// letters scales the size of text; it stays at least 14 px.
func (v *cardView) letters(n scene.Unit) scene.Unit { return max(v.pt(n), least) }

// text sets one line from the left and returns the y below it.
func (v *cardView) text(x, y scene.Unit, s string, size scene.Unit, bold bool) scene.Unit {
	v.Add(scene.Label{At: scene.Pt{X: x, Y: y + size/2}, Text: s, Size: size, Bold: bold, Align: scene.Left, Tone: scene.Ink})
	return y + size*135/100
}

// lines breaks s at spaces so that no line is wider than w. A number stays with
// its fraction, and a length with its width.
func lines(s string, size, w scene.Unit, bold bool) []string {
	var out []string
	line := ""
	for _, word := range unbroken(s) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		if line != "" && scene.TextWidth(next, size, bold)*107/100 > w {
			out = append(out, line)
			next = word
		}
		line = next
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// para sets s in as many lines as it takes and returns the y below.
func (v *cardView) para(x, y, w scene.Unit, s string, size scene.Unit, bold bool) scene.Unit {
	for _, l := range lines(s, size, w, bold) {
		y = v.text(x, y, l, size, bold)
	}
	return y
}

// unbroken splits s into what must stay on one line: words, mixed numbers,
// sizes with their unit.
func unbroken(s string) []string {
	var out []string
	for _, word := range strings.Fields(s) {
		last := len(out) - 1
		unit := strings.HasPrefix(word, "in") && len(strings.TrimRight(word, ".,")) == 2 || strings.HasPrefix(word, "mm")
		if last >= 0 && (word == "×" || strings.HasSuffix(out[last], "×") ||
			(unit || strings.Contains(word, "\u2044")) && digitAtEnd(out[last])) {
			out[last] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

func digitAtEnd(s string) bool { return s != "" && '0' <= s[len(s)-1] && s[len(s)-1] <= '9' }

// inWords writes a small number.
func inWords(n int) string {
	small := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(small) {
		return small[n]
	}
	return strconv.Itoa(n)
}

// heading says what the card is and what is asked.
func (v *cardView) heading(y scene.Unit) scene.Unit {
	what := "Sheet "
	st := v.job.Stock[v.plan.Sheets[v.sheet].Stock]
	if st.L > 6*st.W {
		what = "Board "
	}
	head := what + strconv.Itoa(v.sheet+1) + " of " + strconv.Itoa(len(v.plan.Sheets)) + ": "
	switch n := len(v.cuts); {
	case st.AtShop:
		head += "at home already"
	case n == 0:
		head += "whole, please"
	case n == 1:
		head += "one cut, please"
	default:
		head += inWords(n) + " cuts, please"
	}
	y = v.para(0, y, v.W, head, v.letters(38), true) + v.pt(4)
	from := v.words.Material
	if from != "" {
		from += ", "
	}
	from += v.size(st.L, st.W) + " " + v.tape.Unit()
	switch st.Grain {
	case nest.Along:
		from += ", grain along the " + v.tape.Show(st.L)
	case nest.Across:
		from += ", grain along the " + v.tape.Show(st.W)
	}
	from += "."
	if v.words.Within > 0 && len(v.cuts) > 0 {
		from += " Within " + v.tape.Show(v.words.Within) + " " + v.tape.Unit() + " is fine."
	}
	y = v.para(0, y, v.W, from, v.letters(19), false) + v.pt(6)
	v.rule(y, 3)
	return y + v.pt(6)
}

// rule draws a line over the whole width; n is its weight in pixels.
func (v *cardView) rule(y, n scene.Unit) {
	v.Add(scene.Area{Pts: scene.R(0, y, v.W, n*px).Corners(), Fill: scene.Ink})
}

// rows lists the cuts in order, each with its figure.
func (v *cardView) rows(y scene.Unit) scene.Unit {
	least, figure, sign := v.pt(90), v.letters(64), v.pt(48)
	if len(v.cuts) > 4 {
		least, figure, sign = v.pt(68), v.letters(46), v.pt(40)
	}
	unit, size := v.letters(22), v.letters(20)
	end := v.W - scene.TextWidth(v.tape.Unit(), unit, false)
	left, step := sign+v.pt(16), size*128/100
	for _, c := range v.cuts {
		set := v.tape.Show(c.Set)
		room := end - v.pt(24) - scene.TextWidth(set, figure, true)*107/100 - left
		a, z := lines(CutWords(c, v.tape.Show), size, room, true), lines(Gives(c, v.tape.Show), size, room, false)
		need := step * scene.Unit(len(a)+len(z))
		high := max(least, figure+v.pt(14), need+v.pt(14))
		mid := y + high/2
		v.rule(y, 2)
		v.Add(scene.Badge{At: scene.Pt{X: sign / 2, Y: mid}, Shape: scene.Square, Text: strconv.Itoa(c.N), Size: sign})
		v.Add(scene.Label{At: scene.Pt{X: v.W, Y: mid + figure*24/100}, Text: v.tape.Unit(), Size: unit, Align: scene.Right, Tone: scene.Ink},
			scene.Label{At: scene.Pt{X: end - v.pt(8), Y: mid}, Text: set, Size: figure, Bold: true, Align: scene.Right, Tone: scene.Ink})
		ty := mid - need/2
		for i, l := range append(a, z...) {
			v.text(left, ty, l, size, i < len(a))
			ty += step
		}
		v.spot(scene.R(0, y, v.W, high), c.ID, c.Say(v.tape))
		y += high
	}
	v.rule(y, 3)
	return y + v.pt(16)
}

// CutWords says where a store cut goes: "Across, 48 from the left end", "Left
// half, along, 24 from the top".
func CutWords(c work.Cut, show func(measure.Length) string) string {
	way, end := "across, ", " end"
	if c.Dir == nest.Y {
		way, end = "along, ", ""
	}
	s := way + show(c.Set) + " from the " + string(c.Ride) + end
	if c.Piece.Name != "" {
		s = c.Piece.Name + ", " + s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Gives says what comes of a store cut: "Gives R1 (top) and R2 (bottom)", or
// for pieces that are cut on "Two halves: left 48, right 47 7/8".
func Gives(c work.Cut, show func(measure.Length) string) string {
	sides := [2]string{"left", "right"}
	if c.Dir == nest.Y {
		sides = [2]string{"top", "bottom"}
	}
	along := func(p mark.Piece) measure.Length {
		if c.Dir == nest.Y {
			return p.W
		}
		return p.L
	}
	s := ""
	if c.Same {
		s = "Leave the stop. "
	}
	var out []string
	for i, m := range c.Makes {
		side := sides[min(i, 1)]
		switch {
		case m.Name == "" || m.Name == c.Piece.Name:
			out = append(out, "the rest, "+show(along(m)))
		case strings.HasPrefix(m.Name, side):
			out = append(out, "the "+m.Name+", "+show(along(m)))
		default:
			out = append(out, m.Name+" ("+side+")")
		}
	}
	sep := " and "
	if len(out) == 2 && strings.Contains(out[0], ", ") {
		sep = ", and "
	}
	return s + "Gives " + strings.Join(out, sep) + "."
}

// notes are what else the operator and the driver want to know.
func (v *cardView) notes(y scene.Unit) scene.Unit {
	type note struct{ head, text string }
	var all []note
	var names []string
	for _, r := range v.rough {
		names = append(names, r.Name)
	}
	if len(v.cuts) > 0 && len(names) > 0 {
		text := strings.Join(names, ", ")
		if v.job.Stock[v.plan.Sheets[v.sheet].Stock].Grain != nest.Free {
			text += ", and an arrow along the grain"
		}
		all = append(all, note{"Please write on each piece", text})
	}
	if v.words.Car != "" {
		all = append(all, note{"Into the car", v.words.Car})
	}
	if v.words.Weight != "" {
		all = append(all, note{"Weight of the full sheet", v.words.Weight})
	}
	if len(all) == 0 {
		return y
	}
	cols := scene.Unit(len(all))
	if v.W < phone {
		cols = 1
	}
	wide := v.W / cols
	size := v.letters(16)
	low := y
	for i, n := range all {
		x, top := wide*scene.Unit(i), y
		if cols == 1 {
			x, top = 0, low
		}
		t := v.para(x, top, wide-v.pt(16), n.head, size, true)
		t = v.para(x, t, wide-v.pt(16), n.text, size, false)
		low = max(low, t+v.pt(8))
	}
	return low
}

// foot names project, card and kerf at the lower edge.
func (v *cardView) foot() {
	var s []string
	if v.words.Project != "" {
		s = append(s, v.words.Project+".")
	}
	s = append(s, "Card "+strconv.Itoa(v.sheet+1)+" of "+strconv.Itoa(len(v.plan.Sheets))+".")
	if len(v.cuts) > 0 {
		s = append(s, "Saw kerf counted: "+v.tape.Show(v.job.Store.Kerf)+" "+v.tape.Unit()+".")
	}
	left := lines(strings.Join(s, " "), least, v.W, false)
	right := ""
	if v.words.Printed != "" {
		right = "Printed " + v.words.Printed
	}
	all := append([]string(nil), left...)
	over := len(left) > 1 || right != "" && scene.TextWidth(left[0]+"   "+right, least, false) > v.W
	if over && right != "" {
		all = append(all, right)
	}
	high := 19 * px * scene.Unit(len(all))
	v.H = v.H + high + v.pt(14)
	y := v.H - high
	v.Add(scene.Area{Pts: scene.R(0, y-8*px, v.W, px).Corners(), Fill: scene.Ink})
	for i, l := range all {
		v.text(0, y+19*px*scene.Unit(i), l, least, false)
	}
	if !over && right != "" {
		v.Add(scene.Label{At: scene.Pt{X: v.W, Y: y + 7*px}, Text: right, Size: least, Align: scene.Right, Tone: scene.Ink})
	}
}
