package nest

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// beasley1 is a classic of guillotine cutting: ten sizes out of one sheet of
// 250 by 250, as often as one likes, so that their area is greatest. It is
// the first problem of Table 1 in Beasley, "Algorithms for unconstrained
// two-dimensional guillotine cutting", Journal of the Operational Research
// Society 36, 1985, which the OR-Library calls gcut1.
var beasley1 = [][2]int{{167, 184}, {114, 118}, {167, 152}, {83, 140}, {70, 86}, {143, 166}, {120, 160}, {66, 148}, {87, 141}, {69, 165}}

const beasleySide = 250

// Its optimum, as it lies and if pieces may be turned, is published by Cintra
// and Wakabayashi, "Unconstrained two-dimensional guillotine cutting",
// Institute of Mathematics and Statistics, University of São Paulo, tables
// gcut1 and gcut1r.
const beasleyBest, beasleyBestTurned = 56460, 58136

// greatest finds the optimum by the recursion of Gilmore and Gomory over all
// whole sizes, and how often it takes each piece.
func greatest(pieces [][2]int, side int) (area int, times []int) {
	type best struct{ area, piece, cut, dir int }
	all := make([][]best, side+1)
	for w := range all {
		all[w] = make([]best, side+1)
		for h := range all[w] {
			b := best{piece: -1}
			for i, p := range pieces {
				if p[0] <= w && p[1] <= h && p[0]*p[1] > b.area {
					b = best{area: p[0] * p[1], piece: i}
				}
			}
			for x := 1; 2*x <= w; x++ {
				if a := all[x][h].area + all[w-x][h].area; a > b.area {
					b = best{a, -1, x, 0}
				}
			}
			for y := 1; 2*y <= h; y++ {
				if a := all[w][y].area + all[w][h-y].area; a > b.area {
					b = best{a, -1, y, 1}
				}
			}
			all[w][h] = b
		}
	}
	times = make([]int, len(pieces))
	var count func(w, h int)
	count = func(w, h int) {
		switch b := all[w][h]; {
		case b.area == 0:
		case b.piece >= 0:
			times[b.piece]++
		case b.dir == 0:
			count(b.cut, h)
			count(w-b.cut, h)
		default:
			count(w, b.cut)
			count(w, h-b.cut)
		}
	}
	count(side, side)
	return all[side][side].area, times
}

func beasleyJob(turn bool) Job {
	job := Job{Store: Store{Cuts: -1}, Stock: []Stock{{ID: "sheet", L: beasleySide * mm, W: beasleySide * mm, Price: 1, Count: -1, Grain: Along, AtShop: true}}}
	for i, p := range beasley1 {
		q := Part{ID: fmt.Sprint(i), L: measure.Length(p[0]) * mm, W: measure.Length(p[1]) * mm, Grain: Along}
		if turn {
			q.Grain = Free
		}
		job.Parts = append(job.Parts, q)
	}
	return job
}

// The pieces of a published optimum go on one sheet, and no sheet of any plan
// holds more than the optimum.
func TestPublishedGuillotineOptimum(t *testing.T) {
	for _, turn := range []bool{false, true} {
		pieces, want := beasley1, beasleyBest
		if turn {
			want = beasleyBestTurned
			for _, p := range beasley1 {
				pieces = append(pieces, [2]int{p[1], p[0]})
			}
		}
		area, times := greatest(pieces, beasleySide)
		if area != want {
			t.Fatalf("turned %t: the recursion finds %d, published is %d", turn, area, want)
		}
		job := beasleyJob(turn)
		for i, n := range times {
			job.Parts[i%len(beasley1)].Count += n
		}
		if p := last(job, Options{Seed: 1, Tries: 2000}); p.Bought != 1 || len(p.Left) > 0 {
			t.Errorf("turned %t: the pieces of the optimum take %d sheets", turn, p.Bought)
		}
		r := rand.New(rand.NewPCG(1, 8))
		full := 0
		for range 40 {
			job := beasleyJob(turn)
			for i := range job.Parts {
				job.Parts[i].Count = r.IntN(4)
			}
			p := last(job, Options{Seed: 1, Tries: 2000})
			for _, s := range p.Sheets {
				got := pieceArea(s.Root)
				full = max(full, got)
				if got > want {
					t.Fatalf("turned %t: a sheet holds %d, more than the optimum %d", turn, got, want)
				}
			}
		}
		if full < want*9/10 {
			t.Errorf("turned %t: the fullest of all sheets holds %d of %d", turn, full, want)
		}
	}
}

// pieceArea is the area of the pieces under n in square millimetres.
func pieceArea(n *Node) (a int) {
	if n.Kind == Piece {
		return int(n.L/mm) * int(n.W/mm)
	}
	if n.Core != nil {
		a = pieceArea(n.Core)
	}
	for _, k := range n.Kids {
		a += pieceArea(k)
	}
	return a
}
