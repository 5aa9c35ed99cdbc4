package nest

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// One sheet of 10 by 10 holds A, 7 by 6, at the end of a strip of its own: 3 by
// 10 and 7 by 4 are empty. B, 9 by 4, fits neither, but 10 by 4 if the first
// cut runs the other way.
func TestAround(t *testing.T) {
	job := Job{Stock: []Stock{{ID: "s", L: 10, W: 10, Count: 1, AtShop: true}},
		Parts: []Part{{ID: "A", L: 7, W: 6, Count: 1}, {ID: "B", L: 9, W: 4, Count: 1}}}
	h := newHunt(trades(&job)[0], 1)
	none := h.blank()
	h.start(&none)
	s := &h.pool[h.cand.sheets[h.open(0, h.shelf[0].pats[0])]]
	s.insert(0, 0, 7, 6, cutX)
	h.cand.out[0]--
	s.list(h.trade)
	s.explore(h.trade)
	if want := []nook{{10, 4, 0}}; !slices.Equal(s.nooks, want) {
		t.Errorf("nooks %v, want %v", s.nooks, want)
	}
	h.collect()
	if w := h.todo[0]; len(h.todo) != 1 || w.kind != 1 || w.ways != 0 {
		t.Fatalf("%v waits, want B without a place", h.todo)
	}
	full := h.cand.limits
	h.recreate(&full)
	h.settle()
	if h.cand.area != 0 || len(h.cand.sheets) != 1 {
		t.Errorf("%v left out on %d sheets", h.cand.out, len(h.cand.sheets))
	}
	soundSheet(t, s)
}

// Whatever is gathered, the tree stays one, and the gap is as large as told.
func TestGather(t *testing.T) {
	all := 0
	for seed := range uint64(60) {
		job := randomJob(rand.New(rand.NewPCG(seed, 8)))
		for _, tr := range trades(&job) {
			h := newHunt(tr, seed)
			h.first()
			for range 300 {
				h.start(&h.champ)
				h.ruin()
				for i, id := range h.cand.sheets {
					h.pool[id].explore(h.trade)
					if len(h.pool[id].nooks) == 0 {
						continue
					}
					s := h.touch(int32(i))
					s.explore(h.trade)
					k := s.nooks[h.dice.below(len(s.nooks))]
					s.gather(k)
					all++
					soundSheet(t, s)
					if !slices.ContainsFunc(s.twigs, func(g twig) bool { return g.what == empty && g.w >= k.w && g.h >= k.h }) {
						t.Fatalf("seed %d: no gap of %d by %d", seed, k.w, k.h)
					}
				}
			}
		}
	}
	if all < 1000 {
		t.Errorf("gathered only %d times", all)
	}
}

// soundSheet checks that the trees of s are what twig says.
func soundSheet(t *testing.T, s *sheet) {
	t.Helper()
	items := int32(0)
	var walk func(i int32)
	walk = func(i int32) {
		n := s.twigs[i]
		if n.what >= 0 {
			items++
		}
		if n.what != cutX && n.what != cutY {
			return
		}
		w, h, kids := int32(0), int32(0), 0
		for k := n.kid; k >= 0; k = s.twigs[k].next {
			c := s.twigs[k]
			if c.up != i || c.what == n.what || c.what == unused || c.w <= 0 || c.h <= 0 || c.what == empty && k != n.kid ||
				n.what == cutX && c.h != n.h || n.what == cutY && c.w != n.w {
				t.Fatalf("%+v under %+v", c, n)
			}
			w, h, kids = w+c.w, h+c.h, kids+1
			walk(k)
		}
		if n.what == cutX && w != n.w || n.what == cutY && h != n.h || kids < 2 {
			t.Fatalf("%d kids, %d by %d together, in %+v", kids, w, h, n)
		}
	}
	for i := range s.pat.leaves {
		walk(int32(i))
	}
	if items != s.items {
		t.Fatalf("%d pieces, counted as %d", items, s.items)
	}
}
