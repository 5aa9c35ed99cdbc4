package draw

import (
	"strconv"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// A cardCut is where the signs of a store cut stand.
type cardCut struct {
	work.Cut
	badge side // where its square stands
	dim   side // where its dimension stands
	row   scene.Unit
}

// A side of the drawing.
type side int

const (
	onTop side = iota
	onBottom
	onLeft
	onRight
)

// picture draws the sheet with the store's cuts from y on and returns the y
// below it.
func (v *cardView) picture(b *bed, y scene.Unit) scene.Unit {
	cuts := v.placed(b)
	gap := v.gap() // from the sheet to the first row of signs, and between rows
	var rows [4]scene.Unit
	for _, c := range cuts {
		rows[c.badge] = max(rows[c.badge], 1)
		rows[c.dim] = max(rows[c.dim], c.row+1)
	}
	var room [4]scene.Unit
	for s, n := range rows {
		if n > 0 {
			room[s] = n*gap + v.pt(12)
		} else {
			room[s] = v.pt(6)
		}
	}
	// Numbers of upright dimensions stand beside them.
	wide := scene.Unit(0)
	for _, c := range cuts {
		wide = max(wide, scene.TextWidth(v.tape.Show(c.Set), v.letters(22), true)*107/100)
	}
	for _, s := range []side{onLeft, onRight} {
		if rows[s] > 0 {
			room[s] += wide
		}
	}
	high := v.W * 62 / 100
	if v.most > 0 {
		high = min(high, max(v.most-room[onTop]-room[onBottom]-v.pt(8), 60*px))
	}
	b.fit(v.W-room[onLeft]-room[onRight], high)
	w, h := b.size()
	b.x0 = room[onLeft] + (v.W-room[onLeft]-room[onRight]-w)/2
	b.y0 = y + room[onTop]
	all := scene.R(b.x0, b.y0, w, h)
	v.box(all, scene.Sheet, scene.Heavy, scene.Ink)
	for _, r := range v.steps.Ends {
		if r.Rough < 0 && b.shows(r.Piece) { // stays at the store
			v.hatch(b.rect(r.Piece), scene.WasteHatch)
		}
	}
	v.bad(b, v.steps.Bad)
	for _, c := range cuts {
		v.cardDim(b, c, all)
	}
	for _, c := range cuts {
		v.cardCut(b, c, all)
	}
	for _, r := range v.rough {
		v.cardPiece(b, r)
	}
	return b.y0 + h + room[onBottom]
}

// gap is the room of one row of dimensions.
func (v *cardView) gap() scene.Unit { return max(v.pt(42), v.letters(22)+18*px) }

// placed chooses a side for the square and the dimension of each cut: the
// square where the line leaves the sheet, the dimension on the other side if
// the line leaves there too, dimensions that would
// lie over each other in rows of their own.
func (v *cardView) placed(b *bed) []cardCut {
	var out []cardCut
	for _, c := range v.cuts {
		k := cardCut{Cut: c}
		var lo, hi bool
		first, second := onTop, onBottom
		if c.Dir == nest.X {
			lo, hi = c.Piece.Y == 0, c.Piece.Y+c.Piece.W == b.of.W
		} else {
			lo, hi = c.Piece.X == 0, c.Piece.X+c.Piece.L == b.of.L
			first, second = onLeft, onRight
		}
		switch {
		case lo && hi:
			k.badge, k.dim = first, second
		case lo:
			k.badge, k.dim = first, first
		case hi:
			k.badge, k.dim = second, second
		default:
			k.badge, k.dim = first, first
		}
		k.row = v.row(out, k)
		out = append(out, k)
	}
	return out
}

// reach is the stretch of the sheet that the dimension of a cut spans.
func (c cardCut) reach() (lo, hi measure.Length) {
	from, size := c.Piece.X, c.Piece.L
	if c.Dir == nest.Y {
		from, size = c.Piece.Y, c.Piece.W
	}
	if c.Ride == work.RightEdge || c.Ride == work.BottomEdge {
		return from + size - c.Set, from + size
	}
	return from, from + c.Set
}

// row is the first row on k's side where its dimension crosses no other.
func (v *cardView) row(placed []cardCut, k cardCut) scene.Unit {
	lo, hi := k.reach()
	for row := scene.Unit(0); ; row++ {
		free := true
		for _, p := range placed {
			a, z := p.reach()
			free = free && (p.dim != k.dim || p.row != row || hi <= a || z <= lo)
		}
		if free {
			return row
		}
	}
}

// cardCut draws the line of a cut and its square.
func (v *cardView) cardCut(b *bed, c cardCut, all scene.Rect) {
	lo, hi, _ := b.line(c.Cut)
	out := v.pt(18)
	a, z := lo, hi
	if c.Dir == nest.X {
		if lo.Y == all.Min.Y {
			a.Y -= out
		}
		if hi.Y == all.Max.Y {
			z.Y += out
		}
	} else {
		if lo.X == all.Min.X {
			a.X -= out
		}
		if hi.X == all.Max.X {
			z.X += out
		}
	}
	v.line(scene.DashDot, scene.Ink, a, z)
	size := v.pt(36)
	at := lo
	switch c.badge {
	case onTop:
		at.Y = all.Min.Y - v.pt(30)
	case onBottom:
		at = scene.Pt{X: hi.X, Y: all.Max.Y + v.pt(30)}
	case onLeft:
		at.X = all.Min.X - v.pt(30)
	case onRight:
		at = scene.Pt{X: all.Max.X + v.pt(30), Y: hi.Y}
	}
	v.badge(scene.Badge{At: at, Shape: scene.Square, Text: strconv.Itoa(c.N), Size: size})
}

// cardDim draws the measure of a cut from the edge that it is taken from.
func (v *cardView) cardDim(b *bed, c cardCut, all scene.Rect) {
	lo, _, _ := b.line(c.Cut)
	d := dim{size: v.letters(22), ext: true}
	r := b.rect(c.Piece)
	far := max(v.pt(30), v.letters(22)+12*px) + c.row*v.gap() // of the dimension line from the sheet
	switch c.dim {
	case onTop, onBottom:
		from := r.Min.X
		if c.Ride == work.RightEdge {
			from = r.Max.X
		}
		y := all.Min.Y - far
		d.edge = all.Min.Y
		if c.dim == onBottom {
			y, d.edge = all.Max.Y+far, all.Max.Y
		}
		v.across(from, lo.X, y, v.tape.Show(c.Set), d)
	default:
		from := r.Min.Y
		if c.Ride == work.BottomEdge {
			from = r.Max.Y
		}
		x := all.Min.X - far
		d.edge = all.Min.X
		if c.dim == onRight {
			x, d.edge, d.below = all.Max.X+far, all.Max.X, true
		}
		v.upright(from, lo.Y, x, v.tape.Show(c.Set), d)
	}
}

// cardPiece names a piece, as large as its size allows, with its size and the
// grain.
func (v *cardView) cardPiece(b *bed, r work.Rough) {
	room := b.rect(r.Piece).Grow(-v.pt(6))
	size := v.tape.Show(r.Piece.L) + " × " + v.tape.Show(r.Piece.W)
	forms := []plate{
		{words: block{gap: v.pt(6), lines: []scene.Label{
			{Text: r.Name, Size: v.letters(50), Bold: true, Tone: scene.Ink}, {Text: size, Size: v.letters(22), Bold: true, Tone: scene.Ink}}}},
		{words: block{gap: v.pt(5), lines: []scene.Label{
			{Text: r.Name, Size: v.letters(34), Bold: true, Tone: scene.Ink}, {Text: size, Size: v.letters(18), Bold: true, Tone: scene.Ink}}}},
		{words: block{gap: v.pt(4), lines: []scene.Label{
			{Text: r.Name, Size: v.letters(24), Bold: true, Tone: scene.Ink},
			{Text: v.tape.Show(r.Piece.L) + " ×", Size: least, Bold: true, Tone: scene.Ink},
			{Text: v.tape.Show(r.Piece.W), Size: least, Bold: true, Tone: scene.Ink}}}},
		{words: words(least, true, scene.Ink, r.Name+", "+size)},
		{words: words(v.letters(24), true, scene.Ink, r.Name)},
		{words: words(least, true, scene.Ink, r.Name)},
	}
	// The arrow is what keeps a piece from being turned: leave room for it.
	short := room
	short.Max.Y -= v.pt(22)
	grained := v.job.Stock[v.plan.Sheets[b.i].Stock].Grain != nest.Free
	f, at, ok := v.settle(posted{room: short, forms: forms})
	if !grained || !ok {
		f, at, ok = v.settle(posted{room: room, forms: forms})
	}
	if !ok {
		return
	}
	v.plate(f, at)
	p := posted{room: room}
	switch v.job.Stock[v.plan.Sheets[b.i].Stock].Grain {
	case nest.Along:
		p.grain = 'x'
	case nest.Across:
		p.grain = 'y'
	default:
		return
	}
	v.grainUnder(p, f.extent(at))
}
