package work

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// TestSearchedPlans cuts the plans that the search makes of random jobs: two
// materials, store cuts or none, a car, offcuts at home, matched parts.
func TestSearchedPlans(t *testing.T) {
	var moves, naive, least, cuts int
	var rounded, tidy [2]int // cuts, moves
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		job := nest.Job{
			Kerf:  in("1/8"),
			Store: nest.Store{Cuts: r.IntN(6) - 1, Kerf: in("1/8"), Trim: in("1/4"), Price: 150},
			Stock: []nest.Stock{
				{ID: "rest", Material: "ply", L: in("40"), W: in("30"), Count: 1, Grain: nest.Along, AtShop: true, Trim: in("1/4")},
				{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Grain(r.IntN(3)), Price: 7200},
				{ID: "board", Material: "oak", L: in("96"), W: in("5 1/2"), Count: -1, Grain: nest.Along, Price: 1800},
			},
		}
		if job.Store.Cuts < 0 || job.Store.Cuts > 3 {
			job.Car = []nest.Size{{L: in("60"), W: in("40")}, {L: in("96"), W: in("12")}}
		}
		for i := range 4 + r.IntN(12) {
			size := func(lo, hi int) measure.Length {
				return measure.Length(lo*32+r.IntN((hi-lo)*32)) * measure.Inch / 32
			}
			p := nest.Part{ID: "p" + strconv.Itoa(i), Material: "ply", L: size(4, 36), W: size(4, 24), Count: 1 + r.IntN(4), Grain: nest.Grain(r.IntN(3))}
			if r.IntN(4) == 0 {
				p.Material, p.L, p.W, p.Grain = "oak", size(8, 40), size(1, 5), nest.Along
			}
			if r.IntN(3) == 0 {
				p.Match = "m" + strconv.Itoa(r.IntN(2))
			}
			job.Parts = append(job.Parts, p)
		}
		var plan *nest.Plan
		for p := range nest.Search(job, nest.Options{Seed: seed, Tries: 20}) {
			if p.Plan != nil {
				plan = p.Plan
			}
		}
		if plan == nil {
			t.Fatalf("seed %d: no plan", seed)
		}
		s := Saw(job, *plan, nil, append(shop(), mitre), measure.Tape{})
		if s.Findings.Has(BadPlan) {
			t.Fatalf("seed %d: %v", seed, s.Findings)
		}
		outcome(t, job, *plan, s)
		if s.Moves > s.Naive {
			t.Errorf("seed %d: %d moves, %d sheet by sheet", seed, s.Moves, s.Naive)
		}
		if n := len(s.Store); n != plan.StoreCuts {
			t.Errorf("seed %d: %d store cuts, the plan says %d", seed, n, plan.StoreCuts)
		}
		moves, naive, least, cuts = moves+s.Moves, naive+s.Naive, least+s.Settings, cuts+len(s.Shop)

		settled, ok := nest.Settled(job, *plan)
		if !ok {
			t.Fatalf("seed %d: not settled", seed)
		}
		s = Saw(job, nest.Rounded(job, *plan), nil, append(shop(), mitre), measure.Tape{})
		rounded[0], rounded[1] = rounded[0]+len(s.Shop), rounded[1]+s.Moves
		s = Saw(job, settled, nil, append(shop(), mitre), measure.Tape{})
		outcome(t, job, settled, s)
		tidy[0], tidy[1] = tidy[0]+len(s.Shop), tidy[1]+s.Moves
	}
	t.Logf("%d cuts: %d moves, %d sheet by sheet, %d at least", cuts, moves, naive, least)
	t.Logf("store cuts rounded: %d cuts, %d moves; settled: %d, %d", rounded[0], rounded[1], tidy[0], tidy[1])
	if rounded[0] > cuts*1005/1000 || rounded[1] > moves*101/100 {
		t.Errorf("rounding the store's cuts costs: %d cuts, %d moves; before %d, %d", rounded[0], rounded[1], cuts, moves)
	}
	if tidy[0] > rounded[0]*98/100 || tidy[1] > rounded[1]*101/100 {
		t.Errorf("settled: %d cuts, %d moves; before %d, %d", tidy[0], tidy[1], rounded[0], rounded[1])
	}
}

// BenchmarkSaw orders the cuts of a plan of some eighty cuts.
func BenchmarkSaw(b *testing.B) {
	job, plan, lines, saws := randomPlan(largest(80))
	s := Saw(job, plan, lines, saws, measure.Tape{})
	b.ReportMetric(float64(len(s.Shop)), "cuts")
	b.ReportMetric(float64(s.Moves), "moves")
	for b.Loop() {
		Saw(job, plan, lines, saws, measure.Tape{})
	}
}

// largest is the first seed whose plan has at least n cuts.
func largest(n int) uint64 {
	for seed := uint64(0); ; seed++ {
		job, plan, lines, saws := randomPlan(seed)
		if s := Saw(job, plan, lines, saws, measure.Tape{}); len(s.Shop) >= n && len(saws) > 2 {
			return seed
		}
	}
}
