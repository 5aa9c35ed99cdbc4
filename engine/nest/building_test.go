package nest

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"cartwright/engine/measure"
)

// equalsJob has n pieces of so many kinds, no side over a third of a sheet,
// that are cut at home.
func equalsJob(seed uint64, n, kinds int) Job {
	r := rand.New(rand.NewPCG(seed, 60))
	job := Job{Kerf: 3 * mm, Store: Store{Cuts: -1},
		Stock: []Stock{{ID: "sheet", L: 2440 * mm, W: 1220 * mm, Price: 6000, Count: -1, Grain: Along, AtShop: true}}}
	for i := range kinds {
		job.Parts = append(job.Parts, Part{ID: fmt.Sprint("p", i), L: measure.Length(200+r.IntN(600)) * mm,
			W: measure.Length(100+r.IntN(300)) * mm, Count: n / kinds, Grain: Grain(r.IntN(2))})
	}
	return job
}

// areaBound is the area of the pieces, kerf included, in sheets.
func areaBound(job Job) (n float64) {
	k, s := job.Kerf, job.Stock[0]
	for _, q := range job.Parts {
		n += float64(q.Count) * (q.L + k).Times(q.W+k).SquareMetres() / (s.L + k).Times(s.W+k).SquareMetres()
	}
	return n
}

// A thousand pieces of sixty kinds take at most a sheet more than their area
// does, rounded up, and over some jobs fewer than 3 % more.
func TestThousandPieces(t *testing.T) {
	took, least := 0, 0.0
	for seed := range uint64(3) {
		job := equalsJob(seed, 1020, 60)
		p := last(job, Options{Tries: 40_000})
		if f := Verify(job, *p); len(f) > 0 {
			t.Fatalf("%s %v", f[0].Code, f[0].Where)
		}
		if p.Bought > p.AtLeast+1 {
			t.Errorf("seed %d: %d sheets; the area alone takes %.2f", seed, p.Bought, areaBound(job))
		}
		took, least = took+p.Bought, least+areaBound(job)
	}
	if float64(took) > 1.03*least {
		t.Errorf("%d sheets in all; the area alone takes %.2f", took, least)
	}
}

// A try of a job ten times as large takes no more than about ten times as
// long: here tries move a window of the sheets, so it is hardly longer.
func TestTryOfManyPieces(t *testing.T) {
	took := func(n int) time.Duration {
		job := equalsJob(1, n, 60)
		s := newSearch(&job, Options{})
		h := s.hunts[0]
		h.first()
		h.reset(cheaper)
		if !h.climbs[cheaper].on {
			t.Fatalf("%d pieces: the first plan is proven", n)
		}
		best := time.Hour
		for range 5 {
			begin := time.Now()
			for range 500 {
				h.try(&h.climbs[cheaper])
			}
			best = min(best, time.Since(begin))
		}
		return best
	}
	few, many := took(960), took(9600)
	t.Logf("500 tries: %v with 960 pieces, %v with 9600", few, many)
	if many > 10*few {
		t.Errorf("500 tries take %v with 960 pieces and %v with 9600", few, many)
	}
}

// Strips by hand: on a sheet of 1000 by 1000 mm without kerf, pieces of 250 by
// 200 mm fill strips 250 wide, five to each, and four of those fill the sheet.
func TestBuildingByHand(t *testing.T) {
	job := Job{Stock: []Stock{{ID: "s", L: 1000 * mm, W: 1000 * mm, Count: -1, Price: 700, AtShop: true}},
		Parts: []Part{{ID: "p", L: 250 * mm, W: 200 * mm, Count: 160, Grain: Along}}}
	job.Stock[0].Grain = Along
	h := newSearch(&job, Options{}).hunts[0]
	h.building = h.newBuilding()
	b := h.building
	share := [2]int32{sheetWorth / 20 * 5, sheetWorth / 20 * 4} // of twenty pieces a sheet
	for i, s := range b.ways {
		if len(s.wide) != 1 || b.strip(&s, &s.wide[0], b.cur.out, false) != share[i] {
			t.Errorf("a strip is worth %d", b.strip(&s, &s.wide[0], b.cur.out, false))
		}
	}
	h.first()
	h.climbs[cheaper].lim = unlimited
	for range 2000 {
		if h.build(1) {
			break
		}
	}
	if n := len(h.champ.sheets); n != 8 {
		t.Errorf("%d sheets, want 8", n)
	}
}
