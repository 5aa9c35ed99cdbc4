package nest

import "testing"

// Pairs by hand: 300 and 200 mm fill a strip 500 mm wide that neither kind
// fills alone, so that the sheet of 1000 by 1000 mm is full.
func TestPairsByHand(t *testing.T) {
	job := Job{Stock: []Stock{{ID: "s", L: 1000 * mm, W: 1000 * mm, Count: -1, Price: 700, AtShop: true, Grain: Along}},
		Parts: []Part{
			{ID: "a", L: 300 * mm, W: 500 * mm, Count: 2, Grain: Along},
			{ID: "b", L: 200 * mm, W: 500 * mm, Count: 2, Grain: Along},
			{ID: "c", L: 500 * mm, W: 1000 * mm, Count: 1, Grain: Along},
		}}
	h := newSearch(&job, Options{}).hunts[0]
	b := h.newBuilding()
	h.building = b
	s := &b.ways[0]
	w := &s.wide[len(s.wide)-1]
	if v := b.strip(s, w, []int32{2, 2, 0}, false); v != 0 {
		t.Errorf("without pairs the strip is worth %d", v)
	}
	h.pairUp(0, 0, int32(1000*mm), int32(1000*mm))
	full := int32(sheetWorth / 2)
	for range 50 {
		b.rows, b.ends = b.rows[:0], b.ends[:0]
		left := []int32{2, 2, 0}
		if b.strip(s, w, left, true) < full-8 {
			continue
		}
		if left[0] != 0 || left[1] != 0 {
			t.Fatalf("%v pieces are left", left)
		}
		b.ends = append(b.ends, int32(len(b.rows)))
		if b.strip(s, w, []int32{0, 0, 1}, true) < full-8 {
			t.Fatal("one piece does not fill the strip")
		}
		b.ends = append(b.ends, int32(len(b.rows)))
		b.top.rows, b.top.ends, b.top.way, b.top.value = b.rows, b.ends, 0, 2*full
		h.layStrips()
		sheet := &h.pool[b.cur.sheets[0]]
		if sheet.items != 5 || b.cur.area != 0 {
			t.Errorf("%d pieces on the sheet, want 5", sheet.items)
		}
		alternates(t, sheet)
		for _, w := range sheet.twigs {
			if w.what == empty {
				t.Errorf("%d by %d mm are empty", w.w/int32(mm), w.h/int32(mm))
			}
		}
		return
	}
	t.Error("the pairs do not fill the strip")
}

// alternates fails t unless the trees of s are cut along one axis and the
// other by turns and the kids of each cut add up to it.
func alternates(t *testing.T, s *sheet) {
	t.Helper()
	for i, c := range s.twigs {
		if c.what != cutX && c.what != cutY {
			continue
		}
		var w, h int32
		for k := c.kid; k >= 0; k = s.twigs[k].next {
			q := s.twigs[k]
			if q.what == c.what || c.what == cutX && q.h != c.h || c.what == cutY && q.w != c.w {
				t.Fatalf("twig %d does not suit twig %d above it", k, i)
			}
			w, h = w+q.w, h+q.h
		}
		if c.what == cutX && w != c.w || c.what == cutY && h != c.h {
			t.Fatalf("the kids of twig %d do not add up", i)
		}
	}
}
