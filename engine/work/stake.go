package work

import (
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
)

// Late reports whether a part is sized by what the case measures when it
// stands: drawer boxes, fronts, doors.
func Late(l part.Line) bool { return l.Late != [2]bool{} }

// The stakes of a pass: what it is good to begin with, and what can wait.
const (
	stakeFirst = iota // a part that could not be cut again from what is left
	stakePlain
	stakeLast // only parts that are measured late
)

// stakes says of each pass how much hangs on it. A pass frees what its piece is
// cut into, so it has the stake of the first of those.
func (b *builder) stakes() (any bool) {
	spare := make([]bool, len(b.job.Parts))
	for i := range spare {
		spare[i] = b.spare(i)
	}
	for i := range b.shop {
		b.shop[i].stake = stakeLast
	}
	index := map[string]int{}
	for i := range b.shop {
		index[b.shop[i].ID] = i
	}
	for _, e := range b.steps.Ends {
		i, ok := index[e.By]
		if !ok || e.Is != ToPart {
			continue
		}
		s := stakePlain
		switch {
		case e.Line < len(spare) && !spare[e.Line]:
			s = stakeFirst
		case e.Line < len(b.lines) && Late(b.lines[e.Line]):
			s = stakeLast
		}
		for ; i >= 0 && b.shop[i].stake > s; i = b.shop[i].prev {
			b.shop[i].stake = s
		}
		any = any || s != stakePlain
	}
	return any
}

// spare reports whether something that is left at home has room for another part like
// that of the line.
func (b *builder) spare(line int) bool {
	q := b.job.Parts[line]
	for _, e := range b.steps.Ends {
		if e.Is == ToPart || e.Rough < 0 {
			continue
		}
		st := b.job.Stock[b.sheetStock[e.Piece.Sheet]]
		if st.Material != q.Material {
			continue
		}
		off := b.endOff(e)
		if fits(q, e.Piece.L-off[0]-off[1], e.Piece.W-off[2]-off[3], st.Grain) {
			return true
		}
	}
	return false
}

// endOff is what must come off the edges of what is kept.
func (b *builder) endOff(e End) [4]measure.Length {
	return edgesOff(b.job, nest.Plan{Sheets: b.sheets}, b.steps, e.Piece)
}

// fits reports whether a part fits l by w as its grain must lie.
func fits(q nest.Part, l, w measure.Length, grain nest.Grain) bool {
	free := q.Grain == nest.Free || grain == nest.Free
	return (free || q.Grain == grain) && q.L <= l && q.W <= w || (free || q.Grain != grain) && q.W <= l && q.L <= w
}
