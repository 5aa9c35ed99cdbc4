package nest

import (
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// last returns the last plan of a search.
func last(job Job, o Options) (p *Plan) {
	for s := range Search(job, o) {
		if s.Plan != nil {
			p = s.Plan
		}
	}
	return p
}

func TestPreviousIsFirstCandidate(t *testing.T) {
	kept := 0
	for seed := range uint64(60) {
		job := randomJob(rand.New(rand.NewPCG(seed, 5)))
		old := last(job, Options{Seed: seed, Tries: 1000})
		for p := range Search(job, Options{Seed: 99, Previous: old}) {
			n := *p.Plan
			if len(n.Left) > len(old.Left) {
				t.Errorf("seed %d: %d pieces left, %d before", seed, len(n.Left), len(old.Left))
			}
			if len(n.Left) == 0 && (n.Cost > old.Cost || n.Cost == old.Cost && n.Bought > old.Bought ||
				n.Cost == old.Cost && n.Bought == old.Bought && n.StoreCuts > old.StoreCuts) {
				t.Errorf("seed %d: the first plan costs %v in %d sheets, %d store cuts; the previous one %v, %d, %d",
					seed, n.Cost, n.Bought, n.StoreCuts, old.Cost, old.Bought, old.StoreCuts)
			}
			if n.Settings <= old.Settings {
				kept++
			}
			break
		}
	}
	if kept < 50 {
		t.Errorf("only %d of 60 plans kept their settings", kept)
	}
}

// After an edit the old plan is mended: what was not edited stays on its
// sheet, and every plan verifies.
func TestPreviousIsMended(t *testing.T) {
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 6))
		job := randomJob(r)
		old := last(job, Options{Seed: seed, Tries: 500})
		now := job
		now.Parts = append([]Part(nil), job.Parts...)
		now.Stock = append([]Stock(nil), job.Stock...)
		for range 1 + r.IntN(3) {
			i := r.IntN(len(now.Parts))
			switch r.IntN(5) {
			case 0:
				now.Parts[i].L += measure.Inch / 4 * measure.Length(r.IntN(9)-4)
			case 1:
				now.Parts[i].W += measure.Inch / 4 * measure.Length(r.IntN(9)-4)
			case 2:
				now.Parts[i].Count = r.IntN(5)
			case 3:
				now.Parts[i].Grain = Grain(r.IntN(3))
			case 4:
				now.Parts = append(now.Parts[:i], now.Parts[i+1:]...)
				if len(now.Parts) == 0 {
					now.Parts = job.Parts
				}
			}
		}
		switch r.IntN(4) {
		case 0:
			now.Kerf += measure.Inch / 16
		case 1:
			now.Stock[r.IntN(len(now.Stock))].Count = r.IntN(3)
		}
		checkRun(t, now, Options{Seed: seed, Tries: 200, Previous: old, PreviousJob: &job})
	}
}

func TestSmallEditSmallChange(t *testing.T) {
	job := Job{Kerf: 3 * mm, Stock: []Stock{{ID: "ply", L: 1200 * mm, W: 600 * mm, Price: 5000, Count: -1, AtShop: true}}}
	for i, w := range []int{100, 120, 140, 160, 180, 200, 220} {
		job.Parts = append(job.Parts, Part{ID: string(rune('a' + i)), L: 500 * mm, W: measure.Length(w) * mm, Count: 1})
	}
	old := last(job, Options{Tries: 2000})
	now := job
	now.Parts = append([]Part(nil), job.Parts...)
	now.Parts[2].L -= 10 * mm
	for p := range Search(now, Options{Previous: old, PreviousJob: &job}) {
		before, after := homes(job, old), homes(now, p.Plan)
		for id, sheet := range before {
			if after[id] != sheet && id != "c" {
				t.Errorf("%s has moved from the sheet of %s to that of %s", id, sheet, after[id])
			}
		}
		break
	}
}

// homes says for each part which part of its sheet has the first ID.
func homes(job Job, p *Plan) map[string]string {
	all := map[string]string{}
	for _, s := range p.Sheets {
		var ids []string
		var walk func(n *Node)
		walk = func(n *Node) {
			if n.Kind == Piece {
				ids = append(ids, job.Parts[n.Part].ID)
			}
			if n.Core != nil {
				walk(n.Core)
			}
			for _, k := range n.Kids {
				walk(k)
			}
		}
		walk(s.Root)
		first := "~"
		for _, id := range ids {
			first = min(first, id)
		}
		for _, id := range ids {
			all[id] = first
		}
	}
	return all
}
