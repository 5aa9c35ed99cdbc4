package work

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// SetPiece is the index in Makes of the piece that Set is the size of: the one
// between Ride and the blade.
func (c Cut) SetPiece() int {
	if c.Ride == RightEdge || c.Ride == BottomEdge {
		return len(c.Makes) - 1
	}
	return 0
}

// On is the saw that a cut is made on: its name, else its kind; "" at the store.
func (c Cut) On() string {
	if c.Saw == "" && c.Tier == nest.ShopTier {
		return c.SawIs
	}
	return c.Saw
}

// Along is the size l × w along Dir.
func (c Cut) Along(l, w measure.Length) measure.Length {
	if c.Dir == nest.Y {
		return w
	}
	return l
}

// Measured returns the entry that says that the piece Set is the size of came
// out at v, in the plan with the given digest.
func (c Cut) Measured(plan string, s mark.Stamp, v measure.Length) mark.Mark {
	m := s.Measure(plan, c.Makes[c.SetPiece()], axis(c.Dir), v)
	m.Saw = c.On()
	return m
}

// Came returns what the piece that c's Set is the size of measures along Dir,
// and what it was to be. It lies there if c is made and nothing was cut of it
// yet: only then can it be measured.
func (p Standing) Came(s Steps, c Cut) (is, wanted measure.Length, lies bool) {
	m := c.Makes[c.SetPiece()]
	return c.Along(p.Size(m)), c.Along(m.L, m.W), p.Stand(c.ID).Done && p.Lies(s, m)
}

// Lies reports whether nothing was cut of a piece that a cut made, and it is
// good for something.
func (p Standing) Lies(s Steps, m mark.Piece) bool {
	for n, list := range [][]Cut{s.Store, s.Shop} {
		for i, d := range list {
			if same(d.Piece, m) && [][]Stand{p.Store, p.Shop}[n][i].Done {
				return false
			}
		}
	}
	return !p.Spoilt(m)
}

// follow adds the sizes that follow for what came of a cut that is made: the
// piece that was set keeps its measure, the other one has what is left, and
// both have the other dimension of the piece they are from.
func (p *Standing) follow(c Cut, digest string) {
	// What is measured along Dir, and what across.
	split := func(l, w measure.Length) (along, across measure.Length) {
		if c.Dir == nest.Y {
			return w, l
		}
		return l, w
	}
	whole, broad := split(p.Size(c.Piece))
	was, wide := split(c.Piece.L, c.Piece.W)
	set := c.SetPiece()
	kept, _ := split(p.Size(c.Makes[set]))
	wanted, _ := split(c.Makes[set].L, c.Makes[set].W)
	more := whole - was - (kept - wanted) // what the other piece has more
	for i, m := range c.Makes {
		along, across := split(p.Size(m))
		planned, full := split(m.L, m.W)
		switch {
		case i == set:
			along = min(along, whole)
		case along == planned && (c.Rest == 0 || more < 0):
			along = max(0, along+more)
		}
		if across == full {
			across = max(0, across+broad-wide)
		}
		if along != planned || across != full {
			l, w := split(along, across)
			p.resize(mark.Size{Plan: digest, Piece: m, L: l, W: w})
		}
	}
}

// credible reports whether something can have measured l: a journal out of a
// damaged file may hold anything.
func credible(l measure.Length) bool { return l > 0 && l < 100*measure.Metre }

func (p *Standing) resize(z mark.Size) {
	for i := range p.Sizes {
		if same(p.Sizes[i].Piece, z.Piece) {
			p.Sizes[i] = z
			return
		}
	}
	p.Sizes = append(p.Sizes, z)
}
