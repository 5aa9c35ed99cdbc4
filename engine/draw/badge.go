package draw

import (
	"strconv"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

const (
	circle  = 28 * px // badge of a shop cut
	square  = 28 * px // of a store cut
	pennant = 44 * px // of the next cut: its number is 28 px high
	nameTag = 23 * px // frame of a rough piece's name
)

// A posted is a plate with the room it may stand in and the place it has.
type posted struct {
	room  scene.Rect
	forms []plate
	tag   string // of a part
	// grain is drawn under it if there is room: 'x', 'y', or 0 for none.
	grain byte
}

// signsAndWords places everything that is read: the pennant, names of rough
// pieces, then plates tentatively, badges beside them, plates for good.
func (v *sheetView) signsAndWords(b *bed, cuts []work.Cut) {
	parted := map[string]bool{} // rough pieces that lie by themselves
	for _, r := range v.steps.Rough {
		for _, c := range b.chunks {
			if same(r.Piece, c.at) {
				parted[r.Name] = true
			}
		}
	}
	for _, c := range cuts {
		lo, hi, _ := b.line(c)
		r := scene.Rect{Min: lo, Max: hi}.Grow(5 * px)
		switch {
		case c.ID == v.next:
			v.pennant(b, c, lo, hi)
		case c.Tier == nest.StoreTier && v.done(c.ID):
			continue
		case c.Tier == nest.StoreTier:
			r = r.Grow(14 * px)
			v.square(b, c, lo, hi)
		}
		if b.live(c.Piece) {
			v.cuts = append(v.cuts, scene.Spot{At: r, Ref: c.ID, Name: v.name(c)})
		}
	}
	for _, r := range v.steps.Rough {
		if b.shows(r.Piece) {
			v.roughName(b, r)
		}
	}
	posts := v.posts(b)
	if b.brief {
		return
	}
	held := len(v.taken)
	for _, p := range posts {
		if f, at, ok := v.settle(p); ok {
			v.take(f.extent(at).Grow(2 * px))
		}
	}
	var badges []scene.Badge
	for _, c := range cuts {
		if c.Tier == nest.ShopTier && c.ID != v.next && parted[v.roughOf(c)] {
			lo, hi, _ := b.line(c)
			if bd, ok := v.circle(c, lo, hi); ok {
				badges = append(badges, bd)
				v.take(bd.Extent().Grow(px))
			}
		}
	}
	v.taken = v.taken[:held]
	for _, bd := range badges {
		v.badge(bd)
	}
	var tiny []posted
	for _, p := range posts {
		f, at, ok := v.settle(p)
		if !ok {
			if p.tag != "" {
				tiny = append(tiny, p)
			}
			continue
		}
		v.plate(f, at)
		if p.grain != 0 {
			v.grainUnder(p, f.extent(at))
		}
	}
	for _, p := range tiny {
		v.pointAt(b, p)
	}
}

// roughOf names the rough piece that a shop cut is made on.
func (v *sheetView) roughOf(c work.Cut) string {
	for _, r := range v.steps.Rough {
		if inside(c.Piece, r.Piece) {
			return r.Name
		}
	}
	return ""
}

// clear reports whether the straight line from a to b crosses nothing taken.
func (k *sketch) clear(a, b scene.Pt) bool {
	const steps = 16
	for i := scene.Unit(0); i <= steps; i++ {
		p := scene.Pt{X: a.X + (b.X-a.X)*i/steps, Y: a.Y + (b.Y-a.Y)*i/steps}
		if !k.free(scene.Rect{Min: p, Max: p}.Grow(4 * px)) {
			return false
		}
	}
	return true
}

// pointAt names a part that is too small for its letter beside the sheet, with
// a line to it if the line crosses nothing; else the list of parts has it.
func (v *sheetView) pointAt(b *bed, p posted) {
	_, h := b.size()
	mid := p.room.Mid()
	l := scene.Label{Text: p.tag, Size: least, Bold: true, Tone: scene.Ink}
	for _, y := range []scene.Unit{b.y0 + h + 12*px, b.y0 - 12*px} {
		if max(y-mid.Y, mid.Y-y) > 80*px {
			continue // a line through half the sheet helps nobody
		}
		for n := range scene.Unit(24) {
			dx := (n + 1) / 2 * 9 * px
			if n%2 == 0 {
				dx = -dx
			}
			l.At = scene.Pt{X: mid.X + dx, Y: y}
			e := l.Extent().Grow(px)
			end := scene.Pt{X: l.At.X, Y: y - 8*px}
			if y < mid.Y {
				end.Y = y + 8*px
			}
			if !v.holds(e) || !v.free(e) || !v.clear(mid, end) {
				continue
			}
			v.line(scene.Fine, scene.Ink2, mid, end)
			v.Add(scene.Round{At: mid, R: 2 * px, Fill: scene.Ink})
			v.label(l)
			return
		}
	}
}

// name is the accessible name of a cut.
func (v *sheetView) name(c work.Cut) string {
	s := c.Say(v.tape)
	switch st := v.stands[c.ID]; {
	case st.Done:
		return s + ", done"
	case c.ID == v.next:
		return s + ", next"
	case len(st.Waits) > 0:
		return s + ", waiting"
	}
	return s
}

// pennant puts the sign of the next cut where it starts, pointing along it:
// outside its piece if there is room, else on the line.
func (v *sheetView) pennant(b *bed, c work.Cut, lo, hi scene.Pt) {
	bd := scene.Badge{Shape: scene.PennantD, Text: strconv.Itoa(c.N), Size: pennant}
	if b.brief {
		bd.Size = 30 * px
	}
	dx, dy := scene.Unit(0), scene.Unit(1)
	if c.Dir == nest.Y {
		bd.Shape, dx, dy = scene.PennantR, 1, 0
	}
	tip := bd.Extent().Max // about the origin: how far it points
	reach := tip.X*dx + tip.Y*dy
	for _, back := range []scene.Unit{reach, reach / 2, 0} {
		bd.At = scene.Pt{X: lo.X - dx*back, Y: lo.Y - dy*back}
		if e := bd.Extent().Grow(px); v.holds(e) && v.free(e) {
			break
		}
		bd.At = scene.Pt{X: lo.X + dx*bd.Size/2, Y: lo.Y + dy*bd.Size/2}
	}
	e := bd.Extent().Grow(px) // a short line at the edge: the sign stays on the paper
	bd.At.X -= max(0, e.Max.X-v.W)
	bd.At.Y -= max(0, e.Max.Y-v.H)
	v.badge(bd)
	v.take(scene.Rect{Min: lo, Max: hi}.Grow(10 * px)) // its band
}

// square puts the number of a store cut at the end of its line that lies at
// the edge of the sheet.
func (v *sheetView) square(b *bed, c work.Cut, lo, hi scene.Pt) {
	bd := scene.Badge{Shape: scene.Square, Text: strconv.Itoa(c.N), Size: square}
	const out = 22 * px
	low := c.Dir == nest.X && c.Piece.Y == 0 || c.Dir == nest.Y && c.Piece.X == 0
	high := c.Dir == nest.X && c.Piece.Y+c.Piece.W == b.of.W || c.Dir == nest.Y && c.Piece.X+c.Piece.L == b.of.L
	at := func(p scene.Pt, by scene.Unit) scene.Pt {
		if c.Dir == nest.X {
			return scene.Pt{X: p.X, Y: p.Y + by}
		}
		return scene.Pt{X: p.X + by, Y: p.Y}
	}
	places := []scene.Pt{at(lo, 22*px)}
	if high {
		places = append([]scene.Pt{at(hi, out)}, places...)
	}
	if low {
		places = append([]scene.Pt{at(lo, -out)}, places...)
	}
	for _, p := range places {
		if bd.At = p; v.free(bd.Extent()) {
			break
		}
	}
	v.badge(bd)
}

// circle returns the badge of a shop cut, on its line near the start where it
// covers nothing, or just beyond an end. It is left out if there is no such
// place: the list of cuts has it.
func (v *sheetView) circle(c work.Cut, lo, hi scene.Pt) (scene.Badge, bool) {
	bd := scene.Badge{Shape: scene.Circle, Text: strconv.Itoa(c.N), Size: circle}
	if v.W < phone {
		bd.Size = 25 * px
	}
	if v.done(c.ID) {
		bd.Shape = scene.Ticked
		if v.stands[c.ID].Unequal {
			bd.Shape = scene.Unequal
		}
		bd.Size = bd.Size * 4 / 5
	}
	long := hi.X - lo.X + hi.Y - lo.Y
	try := func(d scene.Unit) bool {
		bd.At = scene.Pt{X: lo.X + d, Y: lo.Y}
		if c.Dir == nest.X {
			bd.At = scene.Pt{X: lo.X, Y: lo.Y + d}
		}
		e := bd.Extent()
		return v.holds(e) && v.free(e)
	}
	first := min(26*px, long/2)
	for d := first; d <= max(long-18*px, first); d += 6 * px {
		if try(d) {
			return bd, true
		}
	}
	for _, d := range []scene.Unit{long / 2, 12 * px, long - 12*px, 0, long, -8 * px, long + 8*px} {
		if try(d) {
			return bd, true
		}
	}
	return bd, false
}

// roughName frames the name of a rough piece in one of its corners, where
// nothing else stands; on a piece too small for it, nowhere.
func (v *sheetView) roughName(b *bed, r work.Rough) {
	room := b.rect(r.Piece).Grow(-px)
	bd := scene.Badge{Shape: scene.RoughFrame, Text: r.Name, Size: nameTag}
	e := bd.Extent()
	if 2*e.W() > room.W() || 2*e.H() > room.H() {
		return
	}
	w, h := e.W()/2, e.H()/2
	corners := []scene.Pt{
		{X: room.Min.X + w, Y: room.Min.Y + h}, {X: room.Min.X + w, Y: room.Max.Y - h},
		{X: room.Max.X - w, Y: room.Min.Y + h}, {X: room.Max.X - w, Y: room.Max.Y - h},
	}
	// Names stand at outer corners of the sheet, where no saw begins.
	for _, outer := range []bool{true, false} {
		for _, at := range corners {
			bd.At = at
			if v.atCorner(b, r.Piece, at) == outer && v.free(bd.Extent()) {
				v.badge(bd)
				return
			}
		}
	}
	for _, at := range spread(room, 2*w, 2*h, 9*px) {
		if bd.At = at; v.free(bd.Extent()) {
			v.badge(bd)
			return
		}
	}
}

// atCorner reports whether at is beside the corner of p that is nearest to a
// corner of the sheet.
func (v *sheetView) atCorner(b *bed, p mark.Piece, at scene.Pt) bool {
	r := b.rect(p)
	left, top := at.X < r.Mid().X, at.Y < r.Mid().Y
	wantLeft := p.X-b.of.X <= b.of.X+b.of.L-p.X-p.L
	wantTop := p.Y-b.of.Y <= b.of.Y+b.of.W-p.Y-p.W
	return left == wantLeft && top == wantTop
}

// posts lists the plates of a sheet.
func (v *sheetView) posts(b *bed) []posted {
	size := 15 * px
	if v.W < 500*px {
		size = least
	}
	var out []posted
	grain := v.job.Stock[v.plan.Sheets[b.i].Stock].Grain
	for _, e := range v.steps.Ends {
		if !b.shows(e.Piece) {
			continue
		}
		p := posted{room: b.rect(e.Piece).Grow(-3 * px)}
		switch e.Is {
		case work.ToPart:
			tag := v.tag(e.Line)
			l, w := v.grainFirst(e.Piece, e.Rot, grain)
			done := e.By != "" && v.done(e.By)
			ref := "part/" + tag
			p.tag = tag
			p.forms = partPlates(tag, v.tape.Show(l), v.tape.Show(w), done, size)
			if z := e.Piece; done {
				z.L, z.W = v.standing.Size(z)
				if rl, rw := v.grainFirst(z, e.Rot, grain); rl != l || rw != w {
					p.forms = unequalPlates(tag, v.size(l, w), v.size(rl, rw), size)
					l, w = rl, rw
				}
			}
			if v.o.Selected == ref {
				for i := range p.forms {
					p.forms[i].solid = true
				}
			}
			switch {
			case done || grain == nest.Free:
			case grain == nest.Along:
				p.grain = 'x'
			default:
				p.grain = 'y'
			}
			name := "Part " + tag
			if e.Line >= 0 && e.Line < len(v.lines) && v.lines[e.Line].Name != "" {
				name += ", " + v.lines[e.Line].Name
			}
			name += ", " + v.tape.Plain(l) + " × " + v.tape.Plain(w)
			if done {
				name += ", cut"
			}
			if b.live(e.Piece) {
				v.spot(b.rect(e.Piece), ref, name)
			}
		case work.ToKeep:
			l, w := v.grainFirst(e.Piece, e.Rot, grain)
			p.forms = keepPlates(v.tape.Show(l), v.tape.Show(w))
		default:
			continue
		}
		out = append(out, p)
	}
	return out
}

// grainFirst returns the size of a piece along the grain, then across it;
// without grain the part's length comes first.
func (v *sheetView) grainFirst(p mark.Piece, rot bool, grain nest.Grain) (l, w measure.Length) {
	l, w = p.L, p.W
	if grain == nest.Across || grain == nest.Free && rot {
		l, w = w, l
	}
	return l, w
}

// settle finds the best form of a plate that stands free in its room.
func (v *sheetView) settle(p posted) (plate, scene.Pt, bool) {
	for _, f := range p.forms {
		w, h := f.size()
		for _, at := range spread(p.room, w, h, 7*px) {
			if v.free(f.extent(at)) {
				return f, at, true
			}
		}
	}
	return plate{}, scene.Pt{}, false
}

// grainUnder draws the sign of the grain below a plate, or above it, if it
// touches nothing.
func (v *sheetView) grainUnder(p posted, r scene.Rect) {
	long := min(76*px, (p.room.W()-16*px)*2/3)
	up := p.grain == 'y'
	if up {
		long = min(60*px, (p.room.H()-16*px)*2/3)
	}
	if long < 26*px {
		return
	}
	mid := r.Mid()
	places := []scene.Pt{
		{X: mid.X, Y: min(r.Max.Y+16*px, p.room.Max.Y-8*px)},
		{X: mid.X, Y: r.Max.Y + 8*px}, {X: mid.X, Y: r.Min.Y - 9*px},
	}
	if up {
		places = []scene.Pt{{X: r.Max.X + 14*px, Y: mid.Y}, {X: r.Min.X - 14*px, Y: mid.Y}}
	}
	for _, at := range places {
		e := grainExtent(at, long, up).Grow(px)
		if e.Min.X >= p.room.Min.X && e.Max.X <= p.room.Max.X && e.Min.Y >= p.room.Min.Y && e.Max.Y <= p.room.Max.Y && v.free(e) {
			v.grain(at, long, up)
			return
		}
	}
}

// legend explains the signs that are on the drawing, from x to the right at y,
// and returns how much height it took.
func (v *sheetView) legend(x, y scene.Unit) scene.Unit {
	type entry struct {
		show bool
		text string
		draw func(r scene.Rect)
	}
	mid := func(r scene.Rect) (scene.Pt, scene.Pt) {
		return scene.Pt{X: r.Min.X, Y: r.Mid().Y}, scene.Pt{X: r.Max.X, Y: r.Mid().Y}
	}
	hatched := func(h scene.Hatch, tone scene.Tone) func(r scene.Rect) {
		return func(r scene.Rect) {
			v.Add(scene.Area{Pts: r.Corners(), Fill: scene.Sheet, Hatch: h, Pen: scene.Thin, Tone: tone})
		}
	}
	stroke := func(pen scene.Pen) func(r scene.Rect) {
		return func(r scene.Rect) {
			a, z := mid(r)
			v.line(pen, scene.Ink, a, z)
		}
	}
	entries := []entry{
		{v.signs.waste, "waste", hatched(scene.WasteHatch, scene.Ink)},
		{v.signs.keep, "keep", hatched(scene.KeepHatch, scene.Rule)},
		{v.signs.rough, "rough store edge", stroke(scene.Rough)},
		{v.signs.done, "done", func(r scene.Rect) {
			a, z := mid(r)
			v.line(scene.Thin, scene.Ink, scene.Pt{X: a.X, Y: a.Y - 2*px}, scene.Pt{X: z.X, Y: z.Y - 2*px})
			v.line(scene.Thin, scene.Ink, scene.Pt{X: a.X, Y: a.Y + 2*px}, scene.Pt{X: z.X, Y: z.Y + 2*px})
		}},
		{v.signs.store, "at the store", stroke(scene.DashDot)},
		{v.signs.toDo, "to do", stroke(scene.ToDo)},
	}
	left, top := x, y
	for _, e := range entries {
		if !e.show {
			continue
		}
		w := scene.TextWidth(e.text, least, false)
		if x+40*px+w > v.W && x > left {
			x, y = left, y+22*px
		}
		if y+20*px > v.H {
			break
		}
		e.draw(scene.R(x, y+2*px, 31*px, 16*px))
		v.Add(scene.Label{At: scene.Pt{X: x + 40*px, Y: y + 10*px}, Text: e.text, Size: least, Align: scene.Left, Tone: scene.Ink2})
		x += 40*px + w + 20*px
	}
	return y + 24*px - top
}
