package nest

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// twoPanels is a sheet of 96 × 48 in that the store cuts at 31 15/16: left a
// panel of 31 in, right one of right, each with waste beside it.
//
// By hand, trims 1/4, kerfs 1/8: left 31 15/16 − 1/4 − 31 − 1/8 = 9/16 waste,
// right 96 − 31 15/16 − 1/8 = 63 15/16, less 1/4, 63 and 1/8 9/16 too.
func twoPanels(right measure.Length) (Job, Plan) {
	const in, eighth = measure.Inch, measure.Inch / 8
	job := Job{Kerf: eighth, Store: Store{Cuts: -1, Kerf: eighth, Trim: 2 * eighth},
		Stock: []Stock{{ID: "ply", Material: "ply", L: 96 * in, W: 48 * in, Price: 8400, Count: -1}},
		Parts: []Part{{ID: "A", Material: "ply", L: 31 * in, W: 48 * in, Count: 1}, {ID: "B", Material: "ply", L: right, W: 48 * in, Count: 1}}}
	at := 32*in - eighth/2
	half := func(part int, l measure.Length) *Node {
		w := 48 * in
		core := &Node{Kind: Cut, Dir: X, L: l - 2*eighth, W: w, Kids: []*Node{{Kind: Piece, L: job.Parts[part].L, W: w, Part: part}}}
		if spare := core.L - job.Parts[part].L - eighth; spare > 0 {
			core.Kids = append(core.Kids, &Node{L: spare, W: w})
		}
		return &Node{Kind: Trim, L: l, W: w, Core: core}
	}
	root := &Node{Kind: Cut, Tier: StoreTier, Dir: X, L: 96 * in, W: 48 * in, Kids: []*Node{half(0, at), half(1, 96*in-at-eighth)}}
	return job, Plan{Sheets: []Layout{{0, root}}, Cost: 8400, Bought: 1, StoreCuts: 1, ShopCuts: 2, Trims: 2, Settings: 2}
}

func TestRounded(t *testing.T) {
	const in, sixteenth = measure.Inch, measure.Inch / 16
	for _, tt := range []struct {
		name        string
		right, want measure.Length // of B; where the store cuts
		car         []Size
	}{
		{"up to 32: 5/8 and 1/2 are left", 63 * in, 32 * in, nil},
		{"B takes all there is: down to 31 1/2, where 1/8 is left of A's waste, and 7/16 more comes off with B's rough edge", 63*in + 9*sixteenth, 31*in + 8*sixteenth, nil},
		{"the same, but 64 3/8 is too long for the car: it stays", 63*in + 9*sixteenth, 32*in - sixteenth, []Size{{64 * in, 48 * in}}},
		{"B leaves 1/16, which 32 would take whole: down to 31 1/2", 63*in + 8*sixteenth, 31*in + 8*sixteenth, nil},
		{"the same, but 64 3/8 is too long for the car: it stays", 63*in + 8*sixteenth, 32*in - sixteenth, []Size{{64 * in, 48 * in}}},
	} {
		job, p := twoPanels(tt.right)
		job.Car = tt.car
		if found := Verify(job, p); len(found) > 0 {
			t.Fatalf("%s: by hand: %v", tt.name, found)
		}
		q := Rounded(job, p)
		if got := q.Sheets[0].Root.Kids[0].L; got != tt.want {
			t.Errorf("%s: the cut is at %d/16, want %d/16", tt.name, got/sixteenth, tt.want/sixteenth)
		}
		if found := Verify(job, q); len(found) > 0 {
			t.Errorf("%s: %v", tt.name, found)
		}
		if p.Sheets[0].Root.Kids[0].L != 32*in-sixteenth {
			t.Errorf("%s: the plan it was given is changed", tt.name)
		}
	}

	// Up to 32 the waste is what was worked out; in metric 811.2125 mm is 81 cm.
	job, p := twoPanels(63 * in)
	kids := Rounded(job, p).Sheets[0].Root.Kids
	if l, r := kids[0].Core.Kids[1].L, kids[1].Core.Kids[1].L; l != 10*sixteenth || r != 8*sixteenth {
		t.Errorf("%v and %v are left, want 10/16 and 8/16 in", l, r)
	}
	job.Store.Step = measure.MM
	if got := Rounded(job, p).Sheets[0].Root.Kids[0].L; got != 81*measure.CM {
		t.Errorf("in metric it is at %v, want 81 cm", got)
	}
}

// Rounding costs nothing: figures, parts and offcuts stay, and it is done once.
func TestRoundedRandom(t *testing.T) {
	moved, plans := 0, 0
	for seed := range uint64(1000) {
		r := rand.New(rand.NewPCG(seed, 5))
		job := randomJob(r)
		for at := range Search(job, Options{Seed: seed, Tries: 300}) {
			if at.Plan == nil {
				continue
			}
			p := *at.Plan
			was, _ := Exchange(job, p)
			q := Rounded(job, p)
			if now, _ := Exchange(job, p); !bytes.Equal(was, now) {
				t.Fatalf("seed %d: the plan it was given is changed", seed)
			}
			if found := Verify(job, q); len(found) > 0 {
				t.Fatalf("seed %d: %v", seed, found)
			}
			// A trim that becomes a cut at the part's own size is counted as one.
			if q.Cost != p.Cost || q.Bought != p.Bought || q.StoreCuts != p.StoreCuts || q.ShopCuts > p.ShopCuts+p.Trims ||
				q.Trims != p.Trims || q.Settings > p.Settings+p.Trims || len(q.Left) != len(p.Left) || kept(q) != kept(p) {
				t.Fatalf("seed %d: it costs: %+v, before %+v", seed, q, p)
			}
			once, _ := Exchange(job, q)
			if twice, _ := Exchange(job, Rounded(job, q)); !bytes.Equal(once, twice) {
				t.Fatalf("seed %d: rounded twice it is another plan", seed)
			}
			plans++
			if !bytes.Equal(was, once) {
				moved++
			}
		}
	}
	if moved < plans/50 {
		t.Errorf("of %d plans %d have a rounder cut", plans, moved)
	}
	t.Logf("of %d plans %d have a rounder cut", plans, moved)
}

// kept counts the offcuts of a plan.
func kept(p Plan) (n int) {
	var walk func(*Node)
	walk = func(k *Node) {
		if k.Kind == Offcut {
			n++
		}
		for _, kid := range k.Kids {
			walk(kid)
		}
		if k.Core != nil {
			walk(k.Core)
		}
	}
	for _, s := range p.Sheets {
		walk(s.Root)
	}
	return n
}
