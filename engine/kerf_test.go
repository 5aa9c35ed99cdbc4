package engine_test

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// TestKerf: four 2-ft pieces do not come from an 8-ft board with a 1/8 in kerf,
// the last would be 3/8 in short (a how-to page's example); four of 23 29/32 in
// do, for 4 × 23 29/32 + 3 × 1/8 = 96 (by hand). A 48-in sheet ripped in two
// gives two of 23 15/16.
func TestKerf(t *testing.T) {
	boards := func(stock, part measure.Length, count int) int {
		job := nest.Job{Kerf: in / 8,
			Parts: []nest.Part{{ID: "A", Material: "pine", L: part, W: in * 7 / 2, Count: count, Grain: nest.Along}},
			Stock: []nest.Stock{{ID: "board", Material: "pine", L: stock, W: in * 7 / 2, Count: -1, Grain: nest.Along, AtShop: true}},
			Store: nest.Store{Cuts: -1}}
		p := plan(t, job, 500)
		if v := nest.Verify(job, p); len(v) != 0 || len(p.Left) != 0 {
			t.Fatalf("%v, left %v", v, p.Left)
		}
		return len(p.Sheets)
	}
	for _, tt := range []struct {
		stock, part measure.Length
		count, want int
	}{
		{96 * in, 24 * in, 4, 2},
		{96*in + in*3/8, 24 * in, 4, 1}, // what it is short by
		{96*in + in*3/8 - 1, 24 * in, 4, 2},
		{96 * in, 23*in + in*29/32, 4, 1},
		{96 * in, 23*in + in*15/16, 4, 2},
		{48 * in, 23*in + in*15/16, 2, 1},
		{48 * in, 23*in + in*31/32, 2, 2},
	} {
		if got := boards(tt.stock, tt.part, tt.count); got != tt.want {
			t.Errorf("%d of %v from %v: %d boards, want %d", tt.count, tt.part, tt.stock, got, tt.want)
		}
	}
}
