package draw

import (
	"slices"
	"strconv"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// Which sheets [Sheet] draws, besides the index of one.
const (
	NextSheet = -1 // the one with the next cut; the last when all are done
	AllSheets = -2 // all, one under the other
)

// SheetOptions say how sheets are drawn. The zero SheetOptions is a drawing
// for the screen.
type SheetOptions struct {
	// Selected is the Ref of the chosen thing: "part/A" or the ID of a cut.
	Selected string
	// Print draws the pieces as they come from the store, with no shop cut
	// marked or next. What the store has to do stands on its card.
	Print bool
	// Bare leaves the legend out.
	Bare bool
}

// Sheet draws sheets of a plan as they stand, for a viewport of w by h CSS
// pixels. which is the index of a sheet, [NextSheet] or [AllSheets]; the
// drawing of all sheets is as high as it needs to be. Spots are "part/<tag>"
// and the IDs of cuts. The next cut is the last spot.
func Sheet(job nest.Job, plan nest.Plan, steps work.Steps, standing work.Standing, lines []part.Line,
	tape measure.Tape, which, w, h int, o SheetOptions) scene.Scene {
	v := sheetView{
		sketch: newSketch(scene.Unit(w)*px, scene.Unit(h)*px, ""),
		job:    job, plan: plan, steps: steps, lines: lines, tape: tape, o: o,
		stands: map[string]work.Stand{},
	}
	if o.Print {
		for _, c := range steps.Store {
			v.stands[c.ID] = work.Stand{ID: c.ID, Done: true}
		}
	} else {
		v.next, v.standing = standing.Next, standing
		for _, s := range standing.Store {
			v.stands[s.ID] = s
		}
		for _, s := range standing.Shop {
			v.stands[s.ID] = s
		}
	}
	n := len(plan.Sheets)
	switch {
	case n == 0 || !drawable(job, plan):
		v.Title = "No sheets"
		v.label(scene.Label{At: scene.Pt{X: v.W / 2, Y: v.H / 2}, Text: "Nothing to cut yet.", Size: 16 * px, Tone: scene.Ink2})
	case which == AllSheets && n > 1:
		v.Title = "All " + strconv.Itoa(n) + " sheets as cut"
		v.all()
	default:
		if which < 0 || which >= n {
			which = v.nextSheet()
		}
		v.Title = "Sheet " + strconv.Itoa(which+1) + " of " + strconv.Itoa(n) + " as cut"
		v.one(which)
	}
	v.finish()
	return v.Scene
}

// drawable reports whether every sheet has a size.
func drawable(job nest.Job, plan nest.Plan) bool {
	for _, sh := range plan.Sheets {
		if sh.Stock < 0 || sh.Stock >= len(job.Stock) || job.Stock[sh.Stock].L <= 0 || job.Stock[sh.Stock].W <= 0 {
			return false
		}
	}
	return true
}

// A sheetView draws sheets.
type sheetView struct {
	*sketch
	job   nest.Job
	plan  nest.Plan
	steps work.Steps
	lines []part.Line
	tape  measure.Tape
	o     SheetOptions
	next  string // ID of the next cut
	// standing tells what came out at another size.
	standing work.Standing
	stands   map[string]work.Stand
	cuts     []scene.Spot // of cuts: they come after the parts
	signs    signs        // what the legend must explain
}

// signs are what is on the drawing.
type signs struct{ waste, keep, rough, done, toDo, store bool }

// done reports whether a cut is marked.
func (v *sheetView) done(id string) bool { return v.stands[id].Done }

// nextSheet is the index of the sheet with the next cut.
func (v *sheetView) nextSheet() int {
	if c, ok := v.steps.Cut(v.next); ok {
		return c.Sheet
	}
	return len(v.plan.Sheets) - 1
}

// margin is the room round a sheet: for square badges if the store still has
// to cut, else for what sticks out a little.
func (v *sheetView) margin(i int) scene.Unit {
	for _, c := range v.steps.Store {
		if c.Sheet == i && !v.done(c.ID) {
			return 38 * px
		}
	}
	return 22 * px
}

const (
	apart   = 19 * px // between pieces that the store has parted
	legendH = 28 * px
	phone   = 520 * px // narrower viewports show the piece at hand larger
	slim    = 58 * px  // a board is drawn at least this wide
)

// one draws sheet i in the whole viewport.
func (v *sheetView) one(i int) {
	m, foot := v.margin(i), legendH
	if v.o.Bare {
		foot = 0
	}
	b := v.bed(i)
	b.fit(v.W-2*m, v.H-2*m-foot)
	w, h := b.size()
	b.x0, b.y0 = (v.W-w)/2, m
	below := b.y0 + h + m
	if r, ok := v.atHand(i); ok && v.W < phone && v.H-below-foot > 130*px {
		b.brief, b.hidden = true, &r.Piece
		v.draw(b)
		c := v.closeUp(r)
		c.fit(v.W-2*22*px, v.H-below-foot-22*px)
		w, h := c.size()
		c.x0, c.y0 = (v.W-w)/2, below
		v.draw(c)
		below += h + 22*px
	} else {
		if free := v.H - foot - below; free > 0 && !v.o.Print {
			b.y0 += min(free/2, 40*px)
			below += min(free/2, 40*px)
		}
		v.draw(b)
	}
	if !v.o.Bare {
		v.legend(b.x0, below)
	}
}

// atHand is the rough piece of sheet i that the next cut is made on, or the
// first one if there is no next cut here. There is none while the store has
// not finished, or if the sheet is all one piece.
func (v *sheetView) atHand(i int) (work.Rough, bool) {
	for _, c := range v.steps.Store {
		if c.Sheet == i && !v.done(c.ID) {
			return work.Rough{}, false
		}
	}
	next, ok := v.steps.Cut(v.next)
	ok = ok && next.Sheet == i
	var first work.Rough
	n := 0
	for _, r := range v.steps.Rough {
		if r.Sheet != i {
			continue
		}
		if n == 0 || first.Keep && !ok || ok && inside(next.Piece, r.Piece) {
			first = r
		}
		n++
	}
	return first, n > 1
}

// all draws every sheet, each under its name, to one scale; the longest is as
// wide as the viewport, a short one a third of it at least.
func (v *sheetView) all() {
	y := 8 * px
	var longest measure.Length
	for _, sh := range v.plan.Sheets {
		longest = max(longest, v.job.Stock[sh.Stock].L)
	}
	v.H = 1 << 28 // for as long as nobody knows
	for i := range v.plan.Sheets {
		m := v.margin(i)
		b := v.bed(i)
		st := v.job.Stock[v.plan.Sheets[i].Stock]
		wide := max(int64(v.W-2*m)*int64(st.L)/int64(longest), int64(v.W)/3)
		b.fit(scene.Unit(wide), v.H)
		_, h := b.size()
		b.x0, b.y0 = m, y+18*px+m
		text := "Sheet " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(v.plan.Sheets)) + ": " + v.size(st.L, st.W)
		v.label(scene.Label{At: scene.Pt{X: b.x0, Y: y + 12*px}, Text: text, Size: 16 * px, Bold: true, Align: scene.Left, Tone: scene.Ink})
		v.draw(b)
		y = b.y0 + h + m
		// What lies well above is in nobody's way any more.
		v.taken = slices.DeleteFunc(v.taken, func(r scene.Rect) bool { return r.Max.Y < y-80*px })
	}
	if !v.o.Bare {
		y += v.legend(16*px, y+4*px)
	}
	v.H = y + 8*px
}

// size writes a length by a width.
func (v *sheetView) size(l, w measure.Length) string {
	return v.tape.Show(l) + " × " + v.tape.Show(w)
}

// draw draws one sheet: wood, cuts, edges, then signs and words.
func (v *sheetView) draw(b *bed) {
	for _, c := range b.chunks {
		v.box(b.rect(c.at), scene.Sheet, scene.NoPen, scene.Clear)
	}
	for _, e := range v.steps.Ends {
		if b.shows(e.Piece) {
			v.wood(b, e)
		}
	}
	var cuts []work.Cut
	for _, list := range [][]work.Cut{v.steps.Shop, v.steps.Store} {
		for _, c := range list {
			if b.shows(c.Piece) {
				cuts = append(cuts, c)
			}
		}
	}
	for _, c := range cuts {
		if c.ID != v.next {
			v.stroke(b, c)
		}
	}
	for _, c := range b.chunks {
		v.edges(b, c)
	}
	v.bad(b, v.steps.Bad)
	for _, c := range cuts {
		if c.ID == v.next {
			v.stroke(b, c)
		}
	}
	v.signsAndWords(b, cuts)
}

// wood paints what becomes of a piece.
func (v *sheetView) wood(b *bed, e work.End) {
	r := b.rect(e.Piece)
	switch e.Is {
	case work.ToWaste:
		h := scene.WasteHatch
		if c, ok := v.steps.Cut(e.By); ok && c.Verb == work.TrimOff {
			h = scene.TrimHatch
		}
		v.signs.waste = true
		v.hatch(r, h)
	case work.ToKeep:
		v.signs.keep = true
		v.hatch(r, scene.KeepHatch)
	case work.ToPart:
		ref := "part/" + v.tag(e.Line)
		done := e.By != "" && v.done(e.By)
		fill, pen := scene.Clear, scene.NoPen
		if done || v.o.Selected == ref {
			fill = scene.Tint
		}
		if v.o.Selected == ref {
			pen = scene.Select
			r = r.Grow(-2 * px)
		}
		if fill != scene.Clear {
			v.box(r, fill, pen, scene.Ink)
		}
	}
}

// stroke draws the line of a cut.
func (v *sheetView) stroke(b *bed, c work.Cut) {
	lo, hi, kerf := b.line(c)
	store := c.Tier == nest.StoreTier
	switch {
	case c.ID == v.next:
		v.line(scene.Next, scene.Ink, lo, hi)
	case v.done(c.ID) && store: // the gap says it
	case v.done(c.ID):
		v.signs.done = true
		v.box(kerf, scene.Sheet, scene.NoPen, scene.Clear)
		a, z := kerf.Min, kerf.Max
		if c.Dir == nest.X {
			v.line(scene.Thin, scene.Ink, a, scene.Pt{X: a.X, Y: z.Y})
			v.line(scene.Thin, scene.Ink, scene.Pt{X: z.X, Y: a.Y}, z)
		} else {
			v.line(scene.Thin, scene.Ink, a, scene.Pt{X: z.X, Y: a.Y})
			v.line(scene.Thin, scene.Ink, scene.Pt{X: a.X, Y: z.Y}, z)
		}
	case store:
		v.signs.store = true
		out := 16 * px
		if c.Dir == nest.X {
			lo.Y, hi.Y = lo.Y-out, hi.Y+out
		} else {
			lo.X, hi.X = lo.X-out, hi.X+out
		}
		v.line(scene.DashDot, scene.Ink, lo, hi)
	default:
		v.signs.toDo = true
		v.line(scene.ToDo, scene.Ink, lo, hi)
	}
	if v.o.Selected == c.ID {
		v.box(scene.Rect{Min: lo, Max: hi}.Grow(9*px), scene.Clear, scene.Select, scene.Ink)
	}
}

// edges draws the outline of a piece that lies by itself: heavy where the
// sheet ends, a zigzag where the store has cut.
func (v *sheetView) edges(b *bed, c chunk) {
	r := b.rect(c.at)
	st := v.job.Stock[v.plan.Sheets[b.i].Stock]
	a, z := r.Min, r.Max
	edge := func(rough bool, p, q scene.Pt) {
		if rough {
			v.signs.rough = true
			v.line(scene.Rough, scene.Ink, p, q)
			return
		}
		v.line(scene.Heavy, scene.Ink, p, q)
	}
	edge(c.at.Y > 0, a, scene.Pt{X: z.X, Y: a.Y})
	edge(c.at.X+c.at.L < st.L, scene.Pt{X: z.X, Y: a.Y}, z)
	edge(c.at.Y+c.at.W < st.W, scene.Pt{X: a.X, Y: z.Y}, z)
	edge(c.at.X > 0, a, scene.Pt{X: a.X, Y: z.Y})
}

// tag returns the letter of a cut-list line.
func (v *sheetView) tag(line int) string {
	if line >= 0 && line < len(v.lines) && v.lines[line].Tag != "" {
		return v.lines[line].Tag
	}
	return part.Tag(max(line, 0))
}

// finish puts the spots in order: parts, cuts, the next cut last.
func (v *sheetView) finish() {
	for _, pass := range []bool{false, true} {
		for _, s := range v.cuts {
			if (s.Ref == v.next) == pass {
				v.Spots = append(v.Spots, s)
			}
		}
	}
}
