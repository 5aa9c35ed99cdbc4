package nest

import (
	"testing"

	"cartwright/engine/measure"
)

// Two sizes by hand, without kerf: 160 pieces of 250 by 200 mm fill 8 sheets of
// 1000 by 1000 mm, or 16 of half the size. The halves are the cheaper ones at
// 3.40 against 7.00, not at 3.60.
func TestOffersByHand(t *testing.T) {
	for _, tt := range []struct{ half, cost measure.Money }{{340, 16 * 340}, {360, 8 * 700}} {
		job := Job{Parts: []Part{{ID: "p", L: 250 * mm, W: 200 * mm, Count: 160, Grain: Along}},
			Stock: []Stock{{ID: "whole", L: 1000 * mm, W: 1000 * mm, Count: -1, Price: 700, Grain: Along, AtShop: true},
				{ID: "half", L: 500 * mm, W: 1000 * mm, Count: -1, Price: tt.half, Grain: Along, AtShop: true}}}
		h := newSearch(&job, Options{}).hunts[0]
		h.first()
		h.climbs[cheaper].lim = unlimited
		for range 3000 {
			h.build(1)
		}
		if h.champ.area > 0 || h.champ.cost != tt.cost {
			t.Errorf("half a sheet at %d: it costs %d, want %d", tt.half, h.champ.cost, tt.cost)
		}
	}
}

// An offcut at home does not make a plan dearer, though the pieces are many, and
// another size to choose from by 3 % at most: then more is to be tried.
func TestMoreStock(t *testing.T) {
	for seed := range uint64(2) {
		job := equalsJob(seed, 480, 60)
		alone := untilProven(job, 60_000)
		for i, st := range []Stock{
			{ID: "offcut", L: 900 * mm, W: 600 * mm, Count: 1, Grain: Along, AtShop: true},
			{ID: "other", L: 1525 * mm, W: 1525 * mm, Price: 5000, Count: -1, Grain: Along, AtShop: true},
			{ID: "only two", L: 1525 * mm, W: 1525 * mm, Price: 4500, Count: 2, Grain: Across, AtShop: true},
		} {
			more := job
			more.Stock = append([]Stock{st}, job.Stock...)
			p := untilProven(more, 60_000)
			if f := Verify(more, *p); len(f) > 0 {
				t.Fatalf("%s: %s %v", st.ID, f[0].Code, f[0].Where)
			}
			most := alone.Cost
			if i > 0 {
				most += most * 3 / 100
			}
			if len(p.Left) > 0 || p.Cost > most {
				t.Errorf("seed %d, %s: costs %d, %d without", seed, st.ID, p.Cost, alone.Cost)
			}
		}
	}
}

// Store pieces are built one after the other: the offer holds no more pieces
// than there are, and what is not laid is out.
func TestBuildStorePieces(t *testing.T) {
	job := cartJob(2)
	for i := range job.Parts {
		job.Parts[i].Count *= 8
	}
	for _, h := range newSearch(&job, Options{}).hunts {
		if h.pieces < manyPieces {
			continue
		}
		h.first()
		h.reset(cheaper)
		most := 0
		for range 4000 {
			h.build(4)
			there := append([]int32(nil), h.building.cur.out...)
			for _, id := range h.building.cur.sheets {
				most = max(most, len(h.pool[id].pat.leaves))
				for _, w := range h.pool[id].twigs {
					if w.what >= 0 {
						there[w.what]++
					}
				}
			}
			for i, k := range h.kinds {
				if int(there[i]) != k.n {
					t.Fatalf("%d pieces of kind %d, want %d", there[i], i, k.n)
				}
			}
		}
		if most < 2 {
			t.Error("no sheet has two store pieces")
		}
	}
}
