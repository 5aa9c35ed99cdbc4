package work

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// board plays a user who marks cuts of the planer by number: "s1" for a store
// cut, "7" for a shop cut, "-7" to take it back.
func board(t *testing.T, s Steps, moves string) ([]mark.Mark, Standing) {
	t.Helper()
	var journal []mark.Mark
	find := func(word string) Cut {
		list := s.Shop
		if strings.HasPrefix(word, "s") {
			list, word = s.Store, word[1:]
		}
		n, err := strconv.Atoi(word)
		if err != nil {
			t.Fatal(err)
		}
		return list[n-1]
	}
	for _, word := range strings.Fields(moves) {
		stamp := mark.Next(journal, "a", "")
		if back, ok := strings.CutPrefix(word, "-"); ok {
			st := Progress(s, mark.Fold(journal), "p").Stand(find(back).ID)
			journal = append(journal, stamp.Undo(*st.Mark))
		} else {
			journal = append(journal, find(word).Mark("p", stamp))
		}
	}
	return journal, Progress(s, mark.Fold(journal), "p")
}

func TestProgress(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	num := func(id string) string {
		if id == "" {
			return "none"
		}
		c, ok := s.Cut(id)
		if !ok {
			t.Fatalf("no cut %s", id)
		}
		if c.Tier == 1 {
			return "s" + strconv.Itoa(c.N)
		}
		return strconv.Itoa(c.N)
	}
	nums := func(ids []string) string {
		var w []string
		for _, id := range ids {
			w = append(w, num(id))
		}
		return strings.Join(w, " ")
	}
	tests := []struct {
		marks, next string
		done        int
		cut         int // whose waits and fixed are looked at
		waits       string
		fixed       string
	}{
		{"", "s1", 0, 12, "s1 s2 2 9 10 11", ""},
		{"s1", "s2", 1, 12, "s2 2 9 10 11", ""},
		{"s1 s2 s3", "1", 3, 3, "", ""},
		{"s1 s2 s3 1 2", "3", 5, 2, "", ""},
		{"s1 s2 s3 1 2 9", "3", 6, 2, "", "9"},
		{"s1 s2 s3 1 2 9", "3", 6, 10, "", ""},
		{"s1 s2 s3 1 2 9 -9", "3", 5, 10, "9", ""},
		// Whoever cuts at home has had the store's cuts made.
		{"2", "s3", 3, 9, "", ""},
		{"s1 s2 s3 1 2 3 4 5 6 7 8 9 10 11 12", "none", 15, 10, "", "11"},
	}
	for _, tt := range tests {
		_, p := board(t, s, tt.marks)
		st := p.Shop[tt.cut-1]
		if num(p.Next) != tt.next || p.Done != tt.done || p.Total != 15 || nums(st.Waits) != tt.waits || nums(st.Fixed) != tt.fixed {
			t.Errorf("%q: next %s, done %d; cut %d waits for %q, fixed by %q; want %+v",
				tt.marks, num(p.Next), p.Done, tt.cut, nums(st.Waits), nums(st.Fixed), tt)
		}
		if len(p.Findings) != 0 {
			t.Errorf("%q: %v", tt.marks, p.Findings)
		}
	}
}

// TestOrphan: marks of another plan, or on a cut that is not in this one, are
// reported and count for nothing.
func TestOrphan(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	journal, _ := board(t, s, "s1 s2 1")
	if p := Progress(s, mark.Fold(journal), "another"); p.Done != 0 || len(p.Findings) != 3 || !p.Findings.Has(mark.Orphan) {
		t.Errorf("another plan: %d done, %v", p.Done, p.Findings)
	}
	// Once a plan has taken the place of this one, its marks are history.
	held := mark.Next(journal, "a", "").Entry(mark.Accepted, "plan")
	held.Plan, held.Prior = "another", "p"
	if p := Progress(s, mark.Fold(append(journal, held)), "another"); p.Done != 0 || len(p.Findings) != 0 {
		t.Errorf("the plan after this one: %d done, %v", p.Done, p.Findings)
	}
	journal[2].At++ // a tick beside the cut
	if p := Progress(s, mark.Fold(journal), "p"); p.Done != 2 || len(p.Findings) != 1 {
		t.Errorf("another place: %d done, %v", p.Done, p.Findings)
	}
}

// TestAnyOrder marks the cuts of random plans in random orders that can be
// done, taking back some on the way: what is ready is always exactly what is
// not done and waits for nothing, and in the end all is done.
func TestAnyOrder(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 2))
		job, plan, lines, saws := randomPlan(seed)
		s := Saw(job, plan, lines, saws, measure.Tape{})
		var journal []mark.Mark
		for turn := 0; ; turn++ {
			p := Progress(s, mark.Fold(journal), "p")
			if len(p.Findings) > 0 {
				t.Fatalf("seed %d: %v", seed, p.Findings)
			}
			if p.Done == p.Total {
				break
			}
			var ready, loose []int
			all := append(slices.Clone(p.Store), p.Shop...)
			for i, st := range all {
				if !st.Done && len(st.Waits) == 0 {
					ready = append(ready, i)
				}
				if st.Done && len(st.Fixed) == 0 {
					loose = append(loose, i)
				}
			}
			stamp := mark.Next(journal, string(rune('a'+r.IntN(2))), "")
			if len(loose) > 0 && r.IntN(4) == 0 {
				st := all[loose[r.IntN(len(loose))]]
				for _, m := range mark.Fold(journal).Done {
					if slices.Contains(st.Mark.Pieces, *m.Piece) {
						t.Fatalf("seed %d: %s may be undone, but is used by %v", seed, st.ID, m)
					}
				}
				journal = append(journal, stamp.Undo(*st.Mark))
				continue
			}
			c, _ := s.Cut(all[ready[r.IntN(len(ready))]].ID)
			journal = append(journal, c.Mark("p", stamp))
			if turn > 40*p.Total {
				t.Fatalf("seed %d: does not end", seed)
			}
		}
	}
}

// TestUnequal: C comes off 1/8 in short; its cut says so, and no other.
func TestUnequal(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	journal, _ := board(t, s, "s1 s2 s3 1 2 9")
	c := s.Shop[8].Makes[0]
	journal = append(journal, mark.Next(journal, "a", "").Measure("p", c, "x", in("23 1/8")))
	p := Progress(s, mark.Fold(journal), "p")
	for i, st := range p.Shop {
		if st.Unequal != (i == 8) {
			t.Errorf("cut %d unequal: %v", i+1, st.Unequal)
		}
	}
	if l, w := p.Size(c); l != in("23 1/8") || w != in("21") {
		t.Errorf("C is %v × %v", l, w)
	}
	if p := Progress(s, mark.Fold(journal), "another"); len(p.Sizes) != 0 {
		t.Errorf("in another plan: %v", p.Sizes)
	}
}

func TestSay(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	if got, want := s.Shop[8].Say(measure.Tape{}), "Cut 9: crosscut R2 at 23 1/4"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := s.Store[1].Say(measure.Tape{}), "Cut 2: store cut of the left half at 24"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
