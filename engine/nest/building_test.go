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

// inchesJob has a thousand pieces of sixty kinds and uneven counts, no side
// over a third of a sheet of 96 by 48 in, in sixteenths of an inch.
func inchesJob(seed uint64) Job {
	const n, kinds = 1000, 60
	r := rand.New(rand.NewPCG(seed, 4711))
	job := Job{Kerf: inch / 8, Store: Store{Cuts: -1},
		Stock: []Stock{{ID: "sheet", L: 96 * inch, W: 48 * inch, Price: 6000, Count: -1, Grain: Along, AtShop: true}}}
	left := n
	for i := range kinds {
		c := 1 + r.IntN(2*n/kinds-1)
		if i == kinds-1 {
			c = max(1, left)
		}
		left -= c
		job.Parts = append(job.Parts, Part{ID: fmt.Sprint("p", i), L: inch*2 + measure.Length(r.IntN(30*16+1))*inch/16,
			W: inch*2 + measure.Length(r.IntN(14*16+1))*inch/16, Count: c, Grain: Grain(r.IntN(2))})
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

// untilProven searches for so many tries, or until no plan can use fewer
// sheets.
func untilProven(job Job, tries int) (plan *Plan) {
	for p := range Search(job, Options{Tries: tries}) {
		if p.Plan != nil {
			plan = p.Plan
		}
		if plan.Proven {
			break
		}
	}
	return plan
}

// A thousand pieces of sixty kinds take as many sheets as their area does,
// rounded up, if that leaves room for a waste of 1 % or so, and else at most
// one more.
func TestThousandPieces(t *testing.T) {
	for _, tt := range []struct {
		name string
		job  Job
		more int // sheets over the bound
	}{
		{"47.72 sheets", equalsJob(0, 1020, 60), 1},
		{"45.14 sheets", equalsJob(5, 1020, 60), 0},
		{"29.47 sheets in inches", inchesJob(0), 0},
		{"46.39 sheets in inches", inchesJob(1), 0},
		{"34.07 sheets in inches", inchesJob(3), 0},
	} {
		p := untilProven(tt.job, 200_000)
		if f := Verify(tt.job, *p); len(f) > 0 {
			t.Fatalf("%s: %s %v", tt.name, f[0].Code, f[0].Where)
		}
		if p.Bought > p.AtLeast+tt.more {
			t.Errorf("%s: %d sheets; the area alone takes %.2f", tt.name, p.Bought, areaBound(tt.job))
		}
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

// A front finds the same as a knapsack.
func TestFront(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 300 {
		room := int32(50 + r.IntN(1000))
		var k knapsack
		var f front
		k.clear(room)
		f.clear(room)
		var size, value [20]int32
		for i := range size {
			size[i], value[i] = int32(1+r.IntN(int(room))), int32(1+r.IntN(500))
			k.offer(i, size[i], value[i])
			f.offer(i, size[i], value[i])
		}
		want, _ := k.most()
		got, mask := f.most()
		var sum, worth int32
		for i := range size {
			if mask>>i&1 != 0 {
				sum, worth = sum+size[i], worth+value[i]
			}
		}
		if got != want || worth != got || sum > room {
			t.Fatalf("a value of %d with things of %d, size %d of %d; want %d", got, worth, sum, room, want)
		}
	}
}

// While room is made, pieces move but none is lost, and nothing is allocated
// between two stages.
func TestPolish(t *testing.T) {
	t.Run("sheets", func(t *testing.T) { polishes(t, equalsJob(2, 1020, 60)) })
	t.Run("and offcuts", func(t *testing.T) {
		job := equalsJob(2, 1020, 60)
		job.Stock = append([]Stock{{ID: "offcut", L: 900 * mm, W: 600 * mm, Count: 2, Grain: Across, AtShop: true}}, job.Stock...)
		polishes(t, job)
	})
}

func polishes(t *testing.T, job Job) {
	h := newSearch(&job, Options{}).hunts[0]
	h.first()
	h.reset(cheaper)
	for turn := 1; !h.polishes() || h.polish.worth == nil; turn++ {
		h.work(turn, 64)
	}
	begin := 0.0
	for stage := range 6 {
		h.polish.left, h.polish.ending = 0, 0
		for range 300 {
			h.makeRoom(polishCosts)
		}
		p := &h.polish
		if h.polish.left < 100 {
			t.Fatal("the stage is over")
		}
		if n := testing.AllocsPerRun(20, func() { h.makeRoom(polishCosts) }); n > 0 {
			t.Errorf("%v allocations a window", n)
		}
		there := append([]int32(nil), p.all.out...)
		for _, id := range p.all.sheets {
			for _, w := range h.pool[id].twigs {
				if w.what >= 0 {
					there[w.what]++
				}
			}
			alternates(t, &h.pool[id])
		}
		for i, k := range h.kinds {
			if int(there[i]) != k.n {
				t.Fatalf("stage %d: %d pieces of kind %d, want %d", stage, there[i], i, k.n)
			}
		}
		over := p.area - float64(p.goal-p.all.bought)
		if stage == 0 {
			begin = over
		} else if over > begin+1e-9 && stage > 3 {
			t.Errorf("stage %d: the hoard takes %.3f sheets more than there are, was %.3f", stage, over, begin)
		}
	}
}

// A strip that a single row fills lies among its neighbours by hand: three
// pieces of 100 by 1000 mm side by side in one of 320 mm leave their slack to
// the sheet.
func TestStripOfOneRow(t *testing.T) {
	job := Job{Stock: []Stock{{ID: "s", L: 1000 * mm, W: 1000 * mm, Count: -1, AtShop: true, Grain: Along}},
		Parts: []Part{{ID: "p", L: 100 * mm, W: 1000 * mm, Count: 3, Grain: Along}}}
	h := newSearch(&job, Options{}).hunts[0]
	s := sheet{}
	s.reset(0, h.shelf[0].pats[0])
	k := h.kinds[0]
	_, g := s.split(0, int32(320*mm), cutX)
	own := s.twigs[g].up
	s.lay(g, row{kind: 0, n: 3, w: k.w, h: k.h, times: 1}, cutY)
	s.merge(own)
	n, room := 0, int32(0)
	for i := s.twigs[0].kid; i >= 0; i = s.twigs[i].next {
		switch s.twigs[i].what {
		case 0:
			n++
		case empty:
			room += s.twigs[i].w
		}
	}
	if n != 3 || room != int32(700*mm) {
		t.Errorf("%d pieces beside a room of %d mm; want 3 beside 700", n, room/int32(mm))
	}
}
