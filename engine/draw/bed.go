package draw

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/scene"
	"cartwright/engine/work"
)

// A bed is one sheet on the drawing, or one rough piece of it: where its pieces
// lie. Pieces that the store has parted lie apart.
type bed struct {
	i      int        // index in Plan.Sheets
	of     mark.Piece // what is shown
	chunks []chunk
	// brief: a small overview, with names of rough pieces but no plates.
	brief bool
	// hidden is what is shown elsewhere: no spots here.
	hidden *mark.Piece
	x0, y0 scene.Unit
	// A length of xd is drawn as xn, across as yn for yd.
	xn, yn scene.Unit
	xd, yd measure.Length
}

// A chunk is a piece that lies by itself, moved by so many gaps.
type chunk struct {
	at     mark.Piece
	gx, gy scene.Unit
}

// bed lays out sheet i.
func (v *sheetView) bed(i int) *bed {
	st := v.job.Stock[v.plan.Sheets[i].Stock]
	whole := mark.Piece{Sheet: i, L: st.L, W: st.W}
	b := &bed{i: i, of: whole, chunks: []chunk{{at: whole}}}
	for _, c := range v.steps.Store {
		if c.Sheet != i || !v.done(c.ID) {
			continue
		}
		var next []chunk
		for _, k := range b.chunks {
			if !same(k.at, c.Piece) {
				next = append(next, k)
				continue
			}
			for _, m := range c.Makes {
				next = append(next, chunk{at: m})
			}
		}
		b.chunks = next
	}
	// The gaps to the left of a piece are those to the left of the pieces it
	// touches, and one more.
	for range b.chunks {
		for k := range b.chunks {
			c := &b.chunks[k]
			for _, o := range b.chunks {
				if o.at.X+o.at.L <= c.at.X && o.at.Y < c.at.Y+c.at.W && c.at.Y < o.at.Y+o.at.W {
					c.gx = max(c.gx, o.gx+apart)
				}
				if o.at.Y+o.at.W <= c.at.Y && o.at.X < c.at.X+c.at.L && c.at.X < o.at.X+o.at.L {
					c.gy = max(c.gy, o.gy+apart)
				}
			}
		}
	}
	return b
}

// closeUp lays out one rough piece.
func (v *sheetView) closeUp(r work.Rough) *bed {
	return &bed{i: r.Sheet, of: r.Piece, chunks: []chunk{{at: r.Piece}}}
}

// shows reports whether p lies in what b shows.
func (b *bed) shows(p mark.Piece) bool { return inside(p, b.of) }

// live reports whether what happens on p can be tapped here.
func (b *bed) live(p mark.Piece) bool { return b.hidden == nil || !inside(p, *b.hidden) }

// inside reports whether p is part of q.
func inside(p, q mark.Piece) bool {
	return p.Sheet == q.Sheet && q.X <= p.X && q.Y <= p.Y && p.X+p.L <= q.X+q.L && p.Y+p.W <= q.Y+q.W
}

// same reports whether p and q are one piece.
func same(p, q mark.Piece) bool {
	return p.Sheet == q.Sheet && p.X == q.X && p.Y == q.Y && p.L == q.L && p.W == q.W
}

// gaps returns the room taken by gaps both ways.
func (b *bed) gaps() (x, y scene.Unit) {
	for _, c := range b.chunks {
		x, y = max(x, c.gx), max(y, c.gy)
	}
	return x, y
}

// fit scales the sheet into w by h. A long narrow one is drawn wider than it
// is, or nothing on it could be read.
func (b *bed) fit(w, h scene.Unit) {
	gx, gy := b.gaps()
	w, h = max(w-gx, px), max(h-gy, px)
	b.xn, b.xd = w, b.of.L
	if int64(h)*int64(b.of.L) < int64(w)*int64(b.of.W) {
		b.xn, b.xd = h, b.of.W
	}
	b.yn, b.yd = b.xn, b.xd
	if b.across(b.of.W) < slim && b.of.L > 6*b.of.W {
		b.yn, b.yd = min(slim, h), b.of.W
	}
}

// size returns how much room the sheet takes, gaps included.
func (b *bed) size() (w, h scene.Unit) {
	gx, gy := b.gaps()
	return b.along(b.of.L) + gx, b.across(b.of.W) + gy
}

func (b *bed) along(l measure.Length) scene.Unit {
	return scene.Unit((int64(l)*int64(b.xn) + int64(b.xd)/2) / int64(b.xd))
}

func (b *bed) across(l measure.Length) scene.Unit {
	return scene.Unit((int64(l)*int64(b.yn) + int64(b.yd)/2) / int64(b.yd))
}

// chunk returns the piece that p is part of; the first if p is more than one.
func (b *bed) chunk(p mark.Piece) chunk {
	for _, c := range b.chunks {
		if inside(p, c.at) {
			return c
		}
	}
	return b.chunks[0]
}

// rect returns where a piece lies on the drawing.
func (b *bed) rect(p mark.Piece) scene.Rect {
	c := b.chunk(p)
	return b.place(p, c)
}

// place returns where p lies if it moves with c.
func (b *bed) place(p mark.Piece, c chunk) scene.Rect {
	x, y := b.x0+c.gx, b.y0+c.gy
	return scene.Rect{
		Min: scene.Pt{X: x + b.along(p.X-b.of.X), Y: y + b.across(p.Y-b.of.Y)},
		Max: scene.Pt{X: x + b.along(p.X+p.L-b.of.X), Y: y + b.across(p.Y+p.W-b.of.Y)},
	}
}

// line returns the ends of the middle of a cut, and its kerf, drawn wide
// enough to be seen.
func (b *bed) line(c work.Cut) (lo, hi scene.Pt, kerf scene.Rect) {
	p := c.Piece
	if c.Dir == nest.X {
		p.X, p.L = p.X+c.At, c.Kerf
	} else {
		p.Y, p.W = p.Y+c.At, c.Kerf
	}
	all := b.rect(c.Piece)
	r := b.place(p, b.chunk(c.Piece))
	const see = 4 * px
	mid := r.Mid()
	if c.Dir == nest.X {
		if r.W() < see {
			r.Min.X, r.Max.X = mid.X-see/2, mid.X+see/2
		}
		return scene.Pt{X: mid.X, Y: all.Min.Y}, scene.Pt{X: mid.X, Y: all.Max.Y}, r
	}
	if r.H() < see {
		r.Min.Y, r.Max.Y = mid.Y-see/2, mid.Y+see/2
	}
	return scene.Pt{X: all.Min.X, Y: mid.Y}, scene.Pt{X: all.Max.X, Y: mid.Y}, r
}
