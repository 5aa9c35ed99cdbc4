package nest

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"cartwright/engine/measure"
)

// halvesJob is n parts of 30 in by width, the grain along, out of 96 by 48 in
// sheets for a car that takes 48 by 24 in.
func halvesJob(n int, width measure.Length) Job {
	return Job{Kerf: inch / 8, Store: Store{Cuts: -1, Kerf: inch / 8, Trim: inch / 4}, Car: []Size{{48 * inch, 24 * inch}},
		Stock: []Stock{{ID: "sheet", L: 96 * inch, W: 48 * inch, Price: 1, Count: -1, Grain: Along}},
		Parts: []Part{{ID: "panel", L: 30 * inch, W: width, Count: n, Grain: Along}}}
}

// By hand: a piece for the car is at most 48 by 24 in with a rough edge each
// way, so 47 3/4 by 23 3/4 in can be used. Two panels of 11 3/4 in and the kerf
// between them are 23 5/8 in, two of 11 7/8 in are too much; side by side two
// never lie. So 16 panels need 8 pieces, which 2 sheets give with 6 cuts; or
// 16 pieces, which 3 sheets give with 13.
func TestPiecesByHand(t *testing.T) {
	for _, tt := range []struct {
		width        measure.Length
		pieces, cuts int
	}{{11*inch + 3*inch/4, 8, 6}, {11*inch + 7*inch/8, 16, 13}} {
		job := halvesJob(16, tt.width)
		trade := trades(&job)[0]
		trade.countPieces()
		if trade.loose != tt.pieces {
			t.Errorf("%v wide: %d pieces, want %d", tt.width, trade.loose, tt.pieces)
		}
		p := last(job, Options{Seed: 1, Tries: 5000})
		if p.StoreCuts != tt.cuts || p.LeastCuts != tt.cuts {
			t.Errorf("%v wide: %d store cuts, at least %d, want %d", tt.width, p.StoreCuts, p.LeastCuts, tt.cuts)
		}
	}
}

// By hand, of a 96 by 48 in sheet with kerfs of 1/8 in.
func TestWholeCutsByHand(t *testing.T) {
	for _, tt := range []struct {
		car  []Size
		want int
	}{
		{[]Size{{48 * inch, 24 * inch}}, 3},            // four quarters
		{[]Size{{47*inch + 3*inch/4, 24 * inch}}, 4},   // two of that length leave 1/4 in, which is a sliver; each is cut once more
		{[]Size{{96 * inch, 23*inch + 15*inch/16}}, 1}, // twice the width and the kerf are 48 in
		{[]Size{{96 * inch, 23*inch + 7*inch/8}}, 2},   // and now 47 7/8 in
		{[]Size{{60 * inch, 30 * inch}}, 3},
		{[]Size{{60 * inch, 30 * inch}, {66 * inch, 24 * inch}}, 2}, // 30 in off the end; the rest is 65 7/8 in, cut in two
		{[]Size{{24 * inch, 24 * inch}}, 7},
	} {
		job := halvesJob(1, 11*inch)
		job.Parts[0].L = 11 * inch
		job.Car = tt.car
		trade := trades(&job)[0]
		trade.countPieces()
		if trade.shelf[0].apart != tt.want {
			t.Errorf("car %v: %d cuts, want %d", tt.car, trade.shelf[0].apart, tt.want)
		}
	}
}

// The packing along a line against a model written for an integer programming
// solver (GLPK): how many bins of either kind are needed.
func TestWaistAgainstExactSolver(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 0))
	for i := range 30 {
		w := waist{size: []int64{100, int64(100 + r.IntN(60))}, steps: 1 << 40, dead: map[uint64]int{}}
		const bins = 5
		lp, obj, ints := "", "", ""
		var room [2][bins]strings.Builder
		for g := range 5 {
			s := stout{n: 1 + r.IntN(2), share: 1}
			s.all = s.n
			for j, size := range w.size {
				need := 5 + r.Int64N(70)
				if j == 1 && r.IntN(3) == 0 {
					need = -1
				}
				s.need = append(s.need, need)
				if need >= 0 {
					s.share = min(s.share, float64(need)/float64(size))
				}
			}
			w.group = append(w.group, s)
			for c := range s.n {
				lp += fmt.Sprintf(" once%d_%d:", g, c)
				for j := range w.size {
					for b := range bins {
						if s.need[j] >= 0 {
							x := fmt.Sprintf("x%d_%d_%d_%d", g, c, j, b)
							lp += " + " + x
							ints += " " + x
							fmt.Fprintf(&room[j][b], " + %d %s", s.need[j], x)
						}
					}
				}
				lp += " = 1\n"
			}
		}
		for j, size := range w.size {
			for b := range bins {
				y := fmt.Sprintf("y%d_%d", j, b)
				obj += " + " + y
				ints += " " + y
				if room[j][b].Len() > 0 {
					lp += fmt.Sprintf(" room%d_%d:%s - %d %s <= 0\n", j, b, room[j][b].String(), size, y)
				}
			}
		}
		want := solve(t, "Minimize\n all:"+obj+"\nSubject To\n"+lp+"Binary\n"+ints+"\nEnd\n")
		n := 0
		for !w.pack(n) {
			n++
		}
		if n != int(want+0.5) {
			t.Errorf("case %d: %d bins, the optimum is %v", i, n, want)
		}
	}
}

// A plan with a reserve takes over what is proven of the same sheets, not what
// its own, larger parts would need.
func TestLeastCutsOfReserve(t *testing.T) {
	larger, q := Plan{Bought: 1, LeastCuts: 9, Sheets: []Layout{{}}}, Plan{Bought: 1, LeastCuts: 6, Sheets: []Layout{{}}}
	if got := larger.Bounded(q).LeastCuts; got != 6 {
		t.Errorf("on the same sheet at least %d cuts, want 6", got)
	}
	larger.Sheets = append(larger.Sheets, Layout{})
	if got := larger.Bounded(q).LeastCuts; got != 0 {
		t.Errorf("on other sheets at least %d cuts, want 0: unknown", got)
	}
}

// No plan has fewer store cuts than its bound says.
func TestLeastCutsHold(t *testing.T) {
	proven := 0
	for seed := range uint64(40) {
		job := cartJob(seed)
		p := last(job, Options{Seed: seed, Tries: 3000})
		if len(p.Left) == 0 && p.StoreCuts < p.LeastCuts {
			t.Errorf("seed %d: %d store cuts, at least %d", seed, p.StoreCuts, p.LeastCuts)
		}
		if p.StoreCuts == p.LeastCuts {
			proven++
		}
	}
	t.Logf("%d of 40 proven", proven)
	if proven < 10 {
		t.Errorf("only %d of 40 are proven", proven)
	}
}

// By hand: of two sheets that must be bought, one is cut in four for the car;
// the offcut at home takes no cut, and the small sheet fits as it is.
func TestLeastCutsOfSeveralStocks(t *testing.T) {
	job := halvesJob(7, 11*inch)
	job.Stock[0].Count = 1
	job.Stock = append(job.Stock, Stock{ID: "offcut", L: 40 * inch, W: 30 * inch, Count: 1, Grain: Along, AtShop: true},
		Stock{ID: "small", L: 48 * inch, W: 24 * inch, Price: 1, Count: 1, Grain: Along})
	job.Parts[0].Count = 12 // eight, two and two
	p := last(job, Options{Seed: 1, Tries: 3000})
	if len(p.Left) > 0 || len(p.Sheets) != 3 || p.StoreCuts != 3 || p.LeastCuts != 3 {
		t.Errorf("%d sheets, %d pieces left, %d store cuts, at least %d; want 3, 0, 3, 3", len(p.Sheets), len(p.Left), p.StoreCuts, p.LeastCuts)
	}
}

func BenchmarkCountPieces(b *testing.B) {
	for _, car := range [][]Size{{{48 * inch, 24 * inch}}, {{24 * inch, 22 * inch}}, {{25 * inch, 24 * inch}, {40 * inch, 18 * inch}}} {
		b.Run(fmt.Sprint(car), func(b *testing.B) {
			job := halvesJob(16, 11*inch)
			for i := range 12 {
				job.Parts = append(job.Parts, Part{ID: fmt.Sprint(i), L: measure.Length(14+i) * inch / 2 * 3, W: measure.Length(3+i) * inch, Count: 2})
			}
			job.Car = car
			t := trades(&job)[0]
			for b.Loop() {
				t.countPieces()
			}
		})
	}
}
