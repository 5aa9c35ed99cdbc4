package nest

import "testing"

// A draft put together from an archive has every piece once, on a sheet or
// left out, keeps the limits, and its figures are those of its sheets.
func TestRecombine(t *testing.T) {
	joined := 0
	for seed := range uint64(20) {
		job := cartJob(seed)
		h := newHunt(trades(&job)[0], seed+1)
		h.bound()
		h.first()
		h.inspect(&h.champ)
		h.reset(cheaper)
		c := &h.climbs[cheaper]
		c.lim = unlimited
		c.lim.bought = h.champ.bought
		h.aim(c, &h.champ, c.lim)
		for range 30 {
			for range 50 {
				h.try(c)
			}
			h.note(&c.cur)
		}
		for range 20 {
			h.recombine(c)
			d := &c.cur
			got := make([]int32, len(h.kinds))
			copy(got, d.out)
			for _, id := range d.sheets {
				for _, w := range h.pool[id].twigs {
					if w.what >= 0 {
						got[w.what]++
					}
				}
				for _, kept := range h.archive.sheets {
					if kept == id {
						joined++
					}
				}
			}
			for k := range got {
				if int(got[k]) != h.kinds[k].n {
					t.Fatalf("seed %d: kind %d has %d pieces, want %d", seed, k, got[k], h.kinds[k].n)
				}
			}
			if d.bought > c.lim.bought || d.bought != len(d.sheets) {
				t.Fatalf("seed %d: %d sheets, counted as %d, at most %d", seed, len(d.sheets), d.bought, c.lim.bought)
			}
		}
		for _, n := range h.archive.need {
			if n != 0 {
				t.Fatal("counts are left over")
			}
		}
	}
	if joined == 0 {
		t.Error("no draft has a sheet of the archive")
	}
}
