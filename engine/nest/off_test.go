package nest

import (
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// Whatever edges are bad, no part lies on them: the judge is Verify, and here
// the places of the pieces besides.
func TestBadEdges(t *testing.T) {
	laid := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		job := randomJob(r)
		for i := range job.Stock {
			for e := range job.Stock[i].Off {
				if r.IntN(3) == 0 {
					job.Stock[i].Off[e] = measure.Inch / 4 * measure.Length(r.IntN(12))
				}
			}
		}
		checkRun(t, job, Options{Seed: seed, Tries: 400})
		var plan *Plan
		for at := range Search(job, Options{Seed: seed, Tries: 100}) {
			if at.Plan != nil {
				plan = at.Plan
			}
		}
		if plan == nil {
			continue
		}
		for _, s := range plan.Sheets {
			laid += offEdges(t, job.Stock[s.Stock], s.Root)
		}
	}
	if laid < 100 {
		t.Errorf("only %d pieces were laid", laid)
	}
}

// offEdges walks a tree by itself and complains of pieces in the bad strips.
func offEdges(t *testing.T, st Stock, root *Node) (n int) {
	var walk func(k *Node, x, y measure.Length)
	walk = func(k *Node, x, y measure.Length) {
		switch k.Kind {
		case Piece:
			n++
			if k.L+st.Off[0]+st.Off[1] > st.L || k.W+st.Off[2]+st.Off[3] > st.W {
				t.Errorf("a piece of %v × %v on %v × %v less %v", k.L, k.W, st.L, st.W, st.Off)
			}
		case Trim:
			walk(k.Core, x, y)
		case Cut:
			for _, c := range k.Kids {
				walk(c, x, y)
			}
		}
	}
	walk(root, 0, 0)
	return n
}

// A sheet of 96 × 48 in gives two parts of 48 × 47 7/8 in less a kerf; with
// 2 in bad at one end the second finds no room, and takes a sheet of its own:
// 48 + 1/8 + 47 7/8 = 96, and 96 − 2 < 96 (by hand).
func TestBadEnd(t *testing.T) {
	const in = measure.Inch
	job := Job{Kerf: in / 8, Store: Store{Cuts: -1, Kerf: in / 8},
		Parts: []Part{{ID: "A", Material: "ply", L: 48 * in, W: 47*in + in*7/8, Count: 1, Grain: Along},
			{ID: "B", Material: "ply", L: 47*in + in*7/8, W: 47 * in, Count: 1, Grain: Along}},
		Stock: []Stock{{ID: "s", Material: "ply", L: 96 * in, W: 48 * in, Count: -1, Grain: Along, AtShop: true, Price: 100}}}
	for _, tt := range []struct {
		off    [4]measure.Length
		sheets int
	}{{[4]measure.Length{}, 1}, {[4]measure.Length{2 * in}, 2}, {[4]measure.Length{0, 1}, 2}, {[4]measure.Length{0, 0, in / 8}, 1}, {[4]measure.Length{0, 0, in/8 + 1}, 0}} {
		job.Stock[0].Off = tt.off
		var plan Plan
		for at := range Search(job, Options{Tries: 200}) {
			if at.Plan != nil {
				plan = *at.Plan
			}
		}
		if n := len(plan.Sheets); tt.sheets > 0 && (n != tt.sheets || len(plan.Left) > 0) || tt.sheets == 0 && len(plan.Left) == 0 {
			t.Errorf("bad edges %v: %d sheets, %v left, want %d sheets", tt.off, n, plan.Left, tt.sheets)
		}
	}
}
