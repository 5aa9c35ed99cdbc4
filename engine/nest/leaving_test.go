package nest

import (
	"math"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// By hand: of a 96 by 48 in sheet, kerf 1/8 in, trim 1/4 in, for a car of 60 by
// 30 in. One cut frees 30 by 48 in, its far edge rough: with a kerf added 29 7/8
// by 48 1/8 in, or 1437.734 in². Two free that at either end. It takes three to
// bring all home. Of 4500 in² two cuts fewer lose 3062.266 in², half of it
// each; of 4300 in² one cut fewer loses the least, 1424.531 in².
func TestRoomPerCutByHand(t *testing.T) {
	job := halvesJob(1, 11*inch)
	job.Car = []Size{{60 * inch, 30 * inch}}
	trade := trades(&job)[0]
	trade.countPieces()
	const square = float64(inch) * float64(inch)
	for _, tt := range []struct{ all, want float64 }{{4500, 1531.133}, {4300, 1424.531}} {
		got := trade.shelf[0].perCut(&job, tt.all*square) / square
		if math.Abs(got-tt.want) > 0.001 {
			t.Errorf("of %v in²: %v, want %v", tt.all, got, tt.want)
		}
	}
}

// The room that cuts free against all cuts at whole measures, tried out.
func TestRoomAgainstTrial(t *testing.T) {
	var try func(y *yard, b block, n int) float64
	try = func(y *yard, b block, n int) (room float64) {
		if y.carries(b.l, b.w) {
			l, w := y.content(&b)
			room = float64(max(0, l+y.job.Kerf)) * float64(max(0, w+y.job.Kerf))
		}
		k := y.job.Store.Kerf
		for c := range n {
			for _, dir := range []Dir{X, Y} {
				for a := 1 - k; a < b.along(dir); a++ {
					one, two := b, b
					one.stretch(dir, a)
					two.stretch(dir, b.along(dir)-k-a)
					if dir == X {
						one.e.right, two.e.left = true, true
					} else {
						one.e.top, two.e.bottom = true, true
					}
					sum := 0.0
					if a > 0 {
						sum = try(y, one, c)
					}
					if two.along(dir) > 0 {
						sum += try(y, two, n-1-c)
					}
					room = max(room, sum)
				}
			}
		}
		return room
	}
	r := rand.New(rand.NewPCG(9, 0))
	side := func(lo, hi int) measure.Length { return measure.Length(lo + r.IntN(hi-lo+1)) }
	for i := range 60 {
		job := Job{Kerf: side(0, 2), Store: Store{Cuts: -1, Kerf: side(0, 2), Trim: side(0, 1)}, FactoryTrim: side(0, 1)}
		for range 1 + r.IntN(2) {
			job.Car = append(job.Car, Size{side(5, 14), side(3, 9)})
		}
		y := newYard(&job, Stock{L: side(12, 20), W: side(8, 14)})
		f := leaving{y: y, steps: math.MaxInt}
		for _, c := range job.Car {
			f.loads = append(f.loads, c, Size{c.W, c.L})
		}
		for n := range 4 {
			b := block{l: y.stock.L, w: y.stock.W}
			if got, want := f.most(b, n), try(&y, b, n); got != want {
				t.Errorf("case %d, %d cuts: %v, tried out %v", i, n, got, want)
			}
		}
	}
}

// By hand: two panels of 29 3/4 by 48 in come off either end of a sheet with two
// cuts, and 35 3/4 in between them, too large for the car, stay at the store.
// Home it comes with three. Three panels of 29 1/2 by 40 in need more room than
// two cuts free.
func TestLeastLeaving(t *testing.T) {
	job := halvesJob(2, 48*inch)
	job.Parts[0].L = 29*inch + 3*inch/4
	job.Car = []Size{{60 * inch, 30 * inch}}
	end := func() *Node {
		return &Node{Kind: Trim, L: 30 * inch, W: 48 * inch, Core: &Node{Kind: Piece, L: 29*inch + 3*inch/4, W: 48 * inch}}
	}
	left := Plan{Sheets: []Layout{{0, &Node{Kind: Cut, Tier: StoreTier, L: 96 * inch, W: 48 * inch,
		Kids: []*Node{end(), {L: 35*inch + 3*inch/4, W: 48 * inch}, end()}}}}, Cost: 1, Bought: 1, StoreCuts: 2, Trims: 2}
	if list := Verify(job, left); len(list) > 0 {
		t.Fatal(list)
	}
	if p := last(job, Options{Seed: 1, Tries: 1000}); p.LeastCuts != 3 || p.LeastLeaving != 2 {
		t.Errorf("two panels: at least %d cuts home, %d with a piece left; want 3, 2", p.LeastCuts, p.LeastLeaving)
	}
	job.Parts[0].Count, job.Parts[0].L, job.Parts[0].W = 3, 29*inch+inch/2, 40*inch
	if p := last(job, Options{Seed: 1, Tries: 1000}); len(p.Left) > 0 || p.Bought != 1 || p.LeastCuts != 3 || p.LeastLeaving != 3 {
		t.Errorf("three panels: at least %d cuts home, %d with a piece left; want 3, 3 on 1 sheet of %d", p.LeastCuts, p.LeastLeaving, p.Bought)
	}
}
