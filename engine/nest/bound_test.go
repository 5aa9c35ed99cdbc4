package nest

import (
	"math"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// Worked by hand from the definitions in Fekete and Schepers 2001.
func TestDualsByHand(t *testing.T) {
	for _, tt := range []struct {
		d    dual
		x    int64
		want float64
	}{
		{dual{share, 0}, 4, 0.4},
		{dual{tails, 3}, 8, 1},
		{dual{tails, 3}, 7, 0.7},
		{dual{tails, 3}, 3, 0.3},
		{dual{tails, 3}, 2, 0},
		{dual{counts, 1}, 6, 1},
		{dual{counts, 1}, 5, 0.5},
		{dual{counts, 1}, 4, 0},
		{dual{counts, 2}, 7, 1},
		{dual{counts, 2}, 6, 0.5},
		{dual{counts, 2}, 3, 0},
		{dual{halves, 3}, 7, 2.0 / 3},
		{dual{halves, 3}, 8, 1},
		{dual{halves, 3}, 5, 0.5},
		{dual{halves, 3}, 4, 1.0 / 3},
		{dual{halves, 3}, 2, 0},
	} {
		if got := tt.d.of(tt.x, 10); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("function %d with %d maps %d of 10 to %v, want %v", tt.d.what, tt.d.p, tt.x, got, tt.want)
		}
	}
}

// The promise of a dual feasible function: what sums to at most the whole
// maps to what sums to at most 1.
func TestDualsKeepTheirPromise(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 0))
	for range 3000 {
		whole := int64(2 + r.IntN(200))
		var xs []int64
		for rest := whole; rest > 0; {
			x := 1 + r.Int64N(rest)
			xs = append(xs, x)
			rest -= x
		}
		for _, d := range duals(xs, whole, 60) {
			sum := 0.0
			for _, x := range xs {
				sum += d.of(x, whole)
			}
			if sum > 1+1e-9 {
				t.Fatalf("function %d with %d maps %v of %d to %v in all", d.what, d.p, xs, whole, sum)
			}
		}
	}
}

func TestBoundsByHand(t *testing.T) {
	for _, tt := range []struct {
		name   string
		l, w   int // mm, on sheets of 1000 by 1000 without kerf
		n      int
		sheets int
	}{
		{"the continuous bound: ten quarters are two sheets and a half", 500, 500, 10, 3},
		{"pieces just over half: one a sheet", 501, 501, 3, 3},
		{"strips just over a third high: two a sheet", 1000, 334, 4, 2},
		{"four of these are less than a sheet, and one sheet may do", 500, 499, 4, 1},
	} {
		job := Job{Stock: []Stock{{ID: "s", L: 1000 * mm, W: 1000 * mm, Count: -1, Price: 700, AtShop: true}},
			Parts: []Part{{ID: "p", L: measure.Length(tt.l) * mm, W: measure.Length(tt.w) * mm, Count: tt.n}}}
		p := last(job, Options{Tries: 500})
		if p.AtLeast != tt.sheets || p.Bound != measure.Money(700*tt.sheets) || p.Bought == tt.sheets && !p.Proven {
			t.Errorf("%s: at least %d sheets for %v, want %d; %d used, proven %t", tt.name, p.AtLeast, p.Bound, tt.sheets, p.Bought, p.Proven)
		}
	}
}

// A sheet of 96 by 48 in that goes home in pieces of 48 by 24 in takes at
// least 144 in of store cuts: the equal split has just that (one of 48 and
// one of 96). With a trim of 1/4 in on both sides of each, and pieces no
// narrower than 24 in, it loses 144 x 1/2 x 23.5/24 of its 4608 square inches.
func TestStoreBoundByHand(t *testing.T) {
	job := plainJob()
	job.Kerf, job.Store.Kerf = 0, 0
	job.Car = []Size{{48 * inch, 24 * inch}}
	job.Parts[0].L, job.Parts[0].W = 40*inch, 23*inch
	tr := trades(&job)[0]
	tr.short = int(24 * inch)
	got := tr.sheetArea(&tr.shelf[0]) / float64(inch) / float64(inch)
	if want := 4608 - 144*0.5*23.5/24; math.Abs(got-want) > 1e-6 {
		t.Errorf("usable area %v in², want %v", got, want)
	}
}

// Four pieces of 24 in do not come from a board of 96 in: three kerfs are
// missing. Less a kerf each they do, and the last cut may run off the end.
func TestFourPiecesFromEightFeet(t *testing.T) {
	for _, tt := range []struct {
		piece  measure.Length
		boards int
	}{
		{24 * inch, 2},
		{24*inch - inch/8, 1},
		{24*inch - 3*inch/32, 1},
		{24*inch - inch/16, 2},
	} {
		job := Job{Kerf: inch / 8, Stock: []Stock{{ID: "board", L: 96 * inch, W: 5 * inch, Price: 900, Count: -1, Grain: Along, AtShop: true}},
			Parts: []Part{{ID: "cleat", L: tt.piece, W: 5 * inch, Count: 4, Grain: Along}}}
		if p := last(job, Options{Tries: 200}); p.Bought != tt.boards || len(Verify(job, *p)) > 0 {
			t.Errorf("four pieces of %v: %d boards, want %d", tt.piece, p.Bought, tt.boards)
		}
	}
}

// Chains come out in one strip, in order, and keep their grain.
func TestChainStaysTogether(t *testing.T) {
	job := plainJob()
	for i, h := range []int{4, 6, 8} {
		job.Parts = append(job.Parts, Part{ID: string(rune('a' + i)), Material: "ply", L: 20 * inch, W: measure.Length(h) * inch,
			Count: 1, Grain: Along, Chain: "fronts", Link: 3 - i})
	}
	p := last(job, Options{Tries: 1000})
	if len(p.Left) > 0 {
		t.Fatalf("left %v", p.Left)
	}
	for _, f := range Verify(job, *p) {
		t.Errorf("%s %v %v", f.Code, f.Where, f.Args)
	}
}
