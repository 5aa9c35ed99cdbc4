package nest

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// oneStrip is a board of l by w from which a side and two fronts are cut across:
// 20 in the side, 10 in each front, all 12 in wide; a front may have to be 1/8
// in longer and wider.
func oneStrip(l, w measure.Length) Job {
	const in = measure.Inch
	r := Size{in / 8, in / 8}
	return Job{Kerf: in / 8, Stock: []Stock{{ID: "board", Material: "ply", L: l, W: w, Count: 1, Grain: Along, AtShop: true}},
		Parts: []Part{{ID: "front", Material: "ply", L: 10 * in, W: 12 * in, Count: 2, Grain: Along, Reserve: r},
			{ID: "side", Material: "ply", L: 20 * in, W: 12 * in, Count: 1, Grain: Along}}}
}

// TestReserve: by hand, the side takes 20 1/8; for two larger fronts there must
// be 10 1/8 + 1/8 + 10 1/8 behind it: 40 1/2 long; and 12 1/8 wide. With less
// the plan is made all the same, without reserve.
func TestReserve(t *testing.T) {
	const in, eighth, least = measure.Inch, measure.Inch / 8, measure.Inch / 32
	for _, tt := range []struct {
		name string
		l, w measure.Length
		want int
	}{
		{"just long and wide enough", 40*in + 4*eighth, 12*in + eighth, 2},
		{"1/32 too short", 40*in + 4*eighth - least, 12*in + eighth, 0},
		{"1/32 too narrow", 40*in + 4*eighth, 12*in + eighth - least, 0},
		{"as large as the parts", 40*in + 2*eighth, 12 * in, 0},
	} {
		job := oneStrip(tt.l, tt.w)
		p := settledOf(t, job, 1, 400)
		if p.Reserved != tt.want || len(p.Left) > 0 {
			t.Errorf("%s: %d held, %d left, want %d held", tt.name, p.Reserved, len(p.Left), tt.want)
		}
		if got := Reserved(job, p); got[0] != tt.want || got[1] != 0 {
			t.Errorf("%s: by part %v", tt.name, got)
		}
		// A plan that claims another number is found out.
		p.Reserved++
		if found := Verify(job, p); len(found) != 1 || found[0].Code != Claim {
			t.Errorf("%s: one more is claimed: %v", tt.name, found)
		}
	}
}

// settledOf searches a job as the planner does: as it is, then with reserves.
func settledOf(t *testing.T, job Job, seed uint64, tries int) Plan {
	t.Helper()
	var best *Plan
	for at := range Search(job, Options{Seed: seed, Tries: tries}) {
		if at.Plan != nil {
			best = at.Plan
		}
	}
	p, ok := Settled(job, *best)
	if !ok {
		t.Fatalf("seed %d: what was found cannot be used", seed)
	}
	larger, _ := Reserving(job)
	var q *Plan
	for at := range Search(larger, Options{Seed: seed, Tries: tries, Previous: &p, PreviousJob: &job, Sketch: true}) {
		if at.Plan != nil {
			q = at.Plan
		}
	}
	if s, ok := Settled(job, q.Bounded(p)); ok && s.Better(&p) {
		p = s
	}
	if found := Verify(job, p); len(found) > 0 {
		t.Fatalf("seed %d: %v", seed, found)
	}
	return p
}

// Reserves cost no stock and no store cut; the plan verifies; settled twice it is
// the same. What is planned for larger parts holds most reserves: not that of a
// part beside one without in a strip, which is as wide as the other.
func TestReserveRandom(t *testing.T) {
	held, wanted, more, most := 0, 0, 0, 0
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 9))
		job := randomJob(r)
		for i := range job.Parts {
			if q := &job.Parts[i]; r.IntN(2) == 0 {
				q.Reserve = Size{L: 3 * mm, W: 3 * mm}
			}
		}
		var plain *Plan
		for at := range Search(job, Options{Seed: seed, Tries: 200}) {
			if at.Plan != nil {
				plain = at.Plan
			}
		}
		was, _ := Exchange(job, *plain)
		p, ok := Settled(job, *plain)
		if !ok || len(Verify(job, p)) > 0 {
			t.Fatalf("seed %d: %v %v", seed, ok, Verify(job, p))
		}
		if now, _ := Exchange(job, *plain); !bytes.Equal(was, now) {
			t.Fatalf("seed %d: the plan it was given is changed", seed)
		}
		if p.Cost != plain.Cost || p.Bought != plain.Bought || p.StoreCuts != plain.StoreCuts || len(p.Left) != len(plain.Left) {
			t.Fatalf("seed %d: it costs: %+v, before %+v", seed, p, plain)
		}
		again, _ := Settled(job, p)
		one, _ := Exchange(job, p)
		if two, _ := Exchange(job, again); !bytes.Equal(one, two) || again.Reserved != p.Reserved {
			t.Fatalf("seed %d: settled twice it is another plan", seed)
		}
		all := 0
		for i, q := range job.Parts {
			if q.Reserve != (Size{}) {
				for _, l := range p.Left {
					if l == i {
						all--
					}
				}
				all += q.Count
			}
		}
		wanted += all
		held += p.Reserved
		larger, any := Reserving(job)
		if !any {
			continue
		}
		for at := range Search(larger, Options{Seed: seed, Tries: 50}) {
			if at.Plan == nil || len(at.Plan.Left) > 0 {
				continue
			}
			if s, ok := Settled(job, *at.Plan); ok {
				more, most = more+s.Reserved, most+all
			}
		}
	}
	if held*10 < wanted*6 || more*10 < most*8 {
		t.Errorf("as found %d of %d are held, planned larger %d of %d", held, wanted, more, most)
	}
	t.Logf("as found %d of %d are held, planned larger %d of %d", held, wanted, more, most)
}
