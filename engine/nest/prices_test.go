package nest

import (
	"math"
	"testing"
)

// On a sheet of 10 by 10, A of 10 by 9 has a share of 0.81, B of 10 by 10 one
// of 1: A is rather left out. Left out for long it costs 1.2 times as much, so
// 0.972, then 1.4 times, 1.134: now B is rather left out.
func TestPrices(t *testing.T) {
	job := Job{Stock: []Stock{{ID: "s", L: 10, W: 10, Count: 1, AtShop: true}},
		Parts: []Part{{ID: "A", L: 10, W: 9, Count: 1}, {ID: "B", L: 10, W: 10, Count: 1}}}
	h := newHunt(trades(&job)[0], 1)
	h.champ.area = 0 // all of it is on sheets
	c := &h.climbs[cheaper]
	h.aim(c, &h.champ, unlimited)
	c.cur.out[0], c.cur.out[1] = 1, 0
	for step, a := range []float64{0.81, 0.972, 1.134} {
		if step > 0 {
			h.reprice(c)
		}
		for k, want := range []float64{a, 1} {
			h.cand.out[0], h.cand.out[1] = int32(1-k), int32(k)
			if got := h.rate(c).a; math.Abs(got-want) > 1e-12 {
				t.Errorf("after %d times kind %d costs %v, want %v", step, k, got, want)
			}
		}
		if step > 0 && (math.Abs(c.now.a-a) > 1e-12 || c.ring[0] != c.now || c.ring[len(c.ring)-1] != c.now) {
			t.Errorf("after %d times the climb goes on from %v and %v", step, c.now, c.ring[0])
		}
	}
	// Where the stock does not suffice, what is left out counts as it is.
	h.champ.area = 1
	h.cand.area = 0.5
	if got := h.rate(c).a; got != 0.5 {
		t.Errorf("short of stock: %v, want 0.5", got)
	}
}
