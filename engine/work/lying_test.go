package work

import (
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// TestLyingNow: R1 of the planer after its rip: the strip still has its rough
// right end, its sawn lower edge needs nothing; R2's strip the same; the two
// offcuts are rough where the store cut them.
func TestLyingNow(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	quarter := in("1/4")
	for _, tt := range []struct {
		marks string
		want  map[string][4]measure.Length // name: left, right, top, bottom
	}{
		{"", map[string][4]measure.Length{"": {}}},
		{"s1", map[string][4]measure.Length{"left half": {0, quarter, 0, 0}, "right half": {quarter, 0, 0, 0}}},
		{"s1 s2 1", map[string][4]measure.Length{
			"R1": {0, quarter, 0, 0}, "keep": {0, quarter, 0, quarter}, "R2": {0, quarter, quarter, 0}, "right half": {quarter, 0, 0, 0}}},
		{"s1 s2 1 7", map[string][4]measure.Length{
			"A": {}, "R1": {0, quarter, 0, 0}, "keep": {0, quarter, 0, quarter}, "R2": {0, quarter, quarter, 0}, "right half": {quarter, 0, 0, 0}}},
	} {
		_, now := board(t, s, tt.marks)
		got := LyingNow(job, plan, s, now)
		if len(got) != len(tt.want) {
			t.Errorf("%q: %d pieces, want %d", tt.marks, len(got), len(tt.want))
		}
		for _, l := range got {
			want, ok := tt.want[l.Piece.Name]
			if !ok || l.Off != want {
				t.Errorf("%q: %q loses %v, want %v", tt.marks, l.Piece.Name, l.Off, want)
			}
		}
	}
}

// TestLyingAdds: at any moment the pieces and the kerfs made so far are the
// sheets, and in the end the pieces are the ends of the plan.
func TestLyingAdds(t *testing.T) {
	for seed := range uint64(20) {
		job, plan, lines, saws := randomPlan(seed)
		s := Saw(job, plan, lines, saws, measure.Tape{})
		all := append(append([]Cut(nil), s.Store...), s.Shop...)
		var journal []mark.Mark
		var lost measure.Area
		for n := 0; ; n++ {
			got := LyingNow(job, plan, s, Progress(s, mark.Fold(journal), "p"))
			var have, want measure.Area
			for _, l := range got {
				have += l.Piece.L.Times(l.Piece.W)
			}
			for _, sh := range plan.Sheets {
				want += job.Stock[sh.Stock].L.Times(job.Stock[sh.Stock].W)
			}
			if have+lost != want {
				t.Fatalf("seed %d, %d cuts: %v of wood and %v of dust, want %v", seed, n, have, lost, want)
			}
			if n == len(all) {
				if len(got) != len(s.Ends) {
					t.Errorf("seed %d: %d pieces in the end, want %d", seed, len(got), len(s.Ends))
				}
				break
			}
			c := all[n]
			line := c.Piece.W
			if c.Dir != 0 {
				line = c.Piece.L
			}
			lost += line.Times(c.Kerf)
			journal = append(journal, c.Mark("p", mark.Next(journal, "a", "")))
		}
	}
}
