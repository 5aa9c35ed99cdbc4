package nest

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// TestAcross lays three strips 10 wide on a piece of 32 by 31, with parts of 20
// and 11 7/8 to spare behind each: six passes, and four if the spare comes off in
// one, 11 7/8 by 31. With a part of 21 in the middle the cut is there, and the
// others are crosscut as before: six passes, but the offcut is 10 7/8 by 31. If
// another board is crosscut at 20 on a sled that takes no more than 12, a cut
// across 31 would be a setting more, on the fence: then nothing changes.
func TestAcross(t *testing.T) {
	const in = measure.Inch
	for _, tt := range []struct {
		name   string
		middle measure.Length
		board  bool
		passes int
		over   Size // the largest offcut of the piece
	}{
		{"alike", 20 * in, false, 4, Size{12*in - in/8, 31 * in}},
		{"one is longer", 21 * in, false, 6, Size{11*in - in/8, 31 * in}},
		{"another board is crosscut on the sled", 20 * in, true, 7, Size{12*in - in/8, 10 * in}},
	} {
		job := Job{Kerf: in / 8, Saws: Saws{Fence: 30 * in, Long: 96 * in, Sled: 12 * in}, Keep: Size{10 * in, 10 * in},
			Stock: []Stock{{ID: "s", L: 32 * in, W: 31 * in, Grain: Along, Count: 1, AtShop: true}, {ID: "b", L: 32 * in, W: 10 * in, Grain: Along, Count: 1, AtShop: true}}}
		strip := func(l measure.Length) *Node {
			job.Parts = append(job.Parts, Part{ID: "p", L: l, W: 10 * in, Count: 1, Grain: Along})
			n := &Node{Kind: Cut, Dir: X, L: 32 * in, W: 10 * in, Kids: []*Node{
				{Kind: Piece, L: l, W: 10 * in, Part: len(job.Parts) - 1}, {Kind: Offcut, L: 32*in - l - in/8, W: 10 * in}}}
			return n
		}
		p := Plan{Sheets: []Layout{{0, &Node{Kind: Cut, Dir: Y, L: 32 * in, W: 31 * in, Kids: []*Node{
			strip(20 * in), strip(tt.middle), strip(20 * in), {L: 32 * in, W: in - 3*in/8}}}}}}
		if tt.board {
			p.Sheets = append(p.Sheets, Layout{1, strip(20 * in)})
		}
		before, _ := Exchange(job, p)
		q := across(&job, p)
		if found := Verify(job, q); len(found) > 0 {
			t.Errorf("%s: %v", tt.name, found)
		}
		if after, _ := Exchange(job, p); !bytes.Equal(before, after) {
			t.Errorf("%s: the plan it was given is changed", tt.name)
		}
		var over Size
		var look func(n *Node)
		look = func(n *Node) {
			if n.Kind == Offcut && n.L.Times(n.W) > over.L.Times(over.W) {
				over = Size{n.L, n.W}
			}
			for _, k := range n.Kids {
				look(k)
			}
		}
		look(q.Sheets[0].Root)
		if q.ShopCuts != tt.passes || over != tt.over {
			t.Errorf("%s: %d passes, offcut %v; want %d, %v", tt.name, q.ShopCuts, over, tt.passes, tt.over)
		}
	}
}

// Over random jobs, some with reserves, cutting across verifies and is never
// worse: in no reserve, no setting, no pass; done again it changes nothing.
func TestAcrossRandom(t *testing.T) {
	less := 0
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 21))
		job := randomJob(r)
		job.Saws = bench
		for i := range job.Parts {
			if q := &job.Parts[i]; r.IntN(3) == 0 {
				q.Reserve = Size{L: measure.Length(r.IntN(2)) * 3 * mm, W: measure.Length(r.IntN(2)) * 3 * mm}
			}
		}
		p := last(job, Options{Seed: seed, Tries: 200})
		if p == nil {
			continue
		}
		s := settler{build: build{job: &job, dists: map[measure.Length]uint32{}, keep: keepOf(&job)}}
		was := s.plan(*p)
		if len(was.Sheets) > acrossMost || len(Verify(job, was)) > 0 {
			continue
		}
		now := across(&job, was)
		if found := Verify(job, now); len(found) > 0 && !chained(job) {
			t.Errorf("seed %d: %v", seed, found)
			continue
		}
		if now.Reserved < was.Reserved || now.Settings > was.Settings || now.Reserved == was.Reserved && now.Settings == was.Settings && now.ShopCuts > was.ShopCuts {
			t.Errorf("seed %d: %d reserves, %d settings, %d passes; before %d, %d, %d", seed, now.Reserved, now.Settings, now.ShopCuts, was.Reserved, was.Settings, was.ShopCuts)
		}
		less += was.ShopCuts - now.ShopCuts
		one, _ := Exchange(job, now)
		if two, _ := Exchange(job, across(&job, now)); !bytes.Equal(one, two) {
			t.Errorf("seed %d: a second time it is another plan", seed)
		}
	}
	t.Logf("%d passes less", less)
	if less == 0 {
		t.Error("no pass was saved")
	}
}

func chained(job Job) bool {
	for _, q := range job.Parts {
		if q.Chain != "" {
			return true
		}
	}
	return false
}
