package work

import (
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// A Lying is a piece of wood as it lies there now.
type Lying struct {
	Piece mark.Piece // where it lay on its sheet, and its size as planned
	// L and W are its real size: as measured, else as planned.
	L, W  measure.Length
	Sheet int     // index in Plan.Sheets
	Is    Outcome // ToCut: the plan goes on with it
	Line  int     // ToPart: its cut-list line; else -1
	By    string  // ID of the cut that freed it, "" for a whole sheet
	// Spoilt: it is good for nothing; Is is ToWaste.
	Spoilt bool
	// Off is what must come off its left, right, top and bottom edge before a
	// part may begin there: rough store edges, worn edges of an offcut.
	Off [4]measure.Length
}

// LyingNow lists the pieces that exist when the marked cuts are made, sheet by
// sheet, waste included. A sheet without a marked cut is one piece.
func LyingNow(job nest.Job, plan nest.Plan, steps Steps, now Standing) []Lying {
	var out []Lying
	for i, sh := range plan.Sheets {
		st := job.Stock[sh.Stock]
		out = append(out, Lying{Piece: mark.Piece{Sheet: i, L: st.L, W: st.W}, Sheet: i, Is: ToCut, Line: -1})
	}
	for n, list := range [][]Cut{steps.Store, steps.Shop} {
		stands := [][]Stand{now.Store, now.Shop}[n]
		for k, c := range list {
			if k >= len(stands) || !stands[k].Done {
				continue
			}
			for i := range out {
				if !same(out[i].Piece, c.Piece) {
					continue
				}
				made := make([]Lying, 0, 2)
				for m, p := range c.Makes {
					made = append(made, Lying{Piece: p, Sheet: c.Sheet, Is: c.Kinds[m], Line: c.Lines[m], By: c.ID})
				}
				out = append(out[:i], append(made, out[i+1:]...)...)
				break
			}
		}
	}
	for i := range out {
		l := &out[i]
		l.L, l.W = now.Size(l.Piece)
		if now.Spoilt(l.Piece) {
			l.Is, l.Line, l.Spoilt = ToWaste, -1, true
		}
		l.Off = edgesOff(job, plan, steps, l.Piece)
	}
	return out
}

// edgesOff says what must come off the edges of a piece: those that a store cut
// left, or that are edges of worn stock. Any store cut that ends at an edge of
// the piece made it: pieces do not share edges that were not parted.
func edgesOff(job nest.Job, plan nest.Plan, steps Steps, p mark.Piece) (off [4]measure.Length) {
	st := job.Stock[plan.Sheets[p.Sheet].Stock]
	for e, at := range [4]bool{p.X == 0, p.X+p.L == st.L, p.Y == 0, p.Y+p.W == st.W} {
		if at {
			off[e] = job.EdgeOff(st, e)
		}
	}
	for _, c := range steps.Store {
		if c.Sheet != p.Sheet {
			continue
		}
		q := c.Piece
		if c.Dir == nest.X && p.Y >= q.Y && p.Y+p.W <= q.Y+q.W {
			if p.X == q.X+c.At+c.Kerf {
				off[low(nest.X)] = job.Store.Trim
			}
			if p.X+p.L == q.X+c.At {
				off[high(nest.X)] = job.Store.Trim
			}
		}
		if c.Dir == nest.Y && p.X >= q.X && p.X+p.L <= q.X+q.L {
			if p.Y == q.Y+c.At+c.Kerf {
				off[low(nest.Y)] = job.Store.Trim
			}
			if p.Y+p.W == q.Y+c.At {
				off[high(nest.Y)] = job.Store.Trim
			}
		}
	}
	return off
}
