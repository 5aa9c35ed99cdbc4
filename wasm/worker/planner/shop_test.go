package planner

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

// wood is what lies there and is good for something, by size, and the parts
// that are made and right, by line.
func (d *desk) wood() (pieces map[string]int, made int) {
	pieces = map[string]int{}
	for _, l := range work.LyingNow(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands) {
		switch {
		case l.By == "" || l.Is == work.ToWaste:
		case l.Is == work.ToPart && l.L == l.Piece.L && l.W == l.Piece.W:
			made++
		default:
			pieces[l.L.String()+" × "+l.W.String()]++
		}
	}
	return pieces, made
}

// facts is what must come back out of storage.
func (d *desk) facts() string {
	held := ""
	if d.held != nil {
		held = d.held.digest
	}
	pieces, made := d.wood()
	return fmt.Sprint(held, d.out.stands.Done, d.out.stands.Sizes, d.out.Steps.Bad, d.anySpoilt(), len(d.Planner.doc.Journal), pieces, made, d.strip())
}

// TestRandomShop: whatever is marked, undone, spoiled, measured, flawed, planned
// again and opened again, no entry is lost, nothing cut is lost or moved, and
// every plan verifies.
func TestRandomShop(t *testing.T) {
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(seed, 5))
		d := demoDesk(t, []string{"jointer-stand", "sharpening-cart"}[seed%2])
		d.do(Action{Do: "place", To: "saw"})
		entries, taken := 0, 0
		for range 60 {
			cuts := d.out.Steps.Shop
			some := ""
			if len(cuts) > 0 {
				some = cuts[r.IntN(len(cuts))].ID
			}
			if s := d.out.Steps.Store; len(s) > 0 && r.IntN(4) == 0 {
				some = s[r.IntN(len(s))].ID
			}
			what := r.IntN(12)
			if d.offer != nil && r.IntN(4) > 0 {
				what = 4
			}
			switch what {
			case 0:
				d.do(Action{Do: "size", Cut: some})
				if d.came.Cut != "" {
					d.do(Action{Do: "set", Path: page.CamePath, Value: d.Planner.doc.Measure().Exact(d.came.Size - measure.Length(r.IntN(3))*d.Planner.doc.Measure().Least())})
					d.do(Action{Do: "measured"})
				}
			case 1:
				d.do(Action{Do: "spoil", Cut: some, At: r.IntN(2)})
			case 2:
				d.do(Action{Do: "flaw", To: "open"})
				d.do(Action{Do: "flaw", To: "corner", Value: fmt.Sprint(r.IntN(4))})
				d.do(Action{Do: "set", Path: page.FlawPath + "piece", Value: fmt.Sprint(r.IntN(9))})
				d.do(Action{Do: "set", Path: page.FlawPath + "l", Value: fmt.Sprint(1 + r.IntN(12))})
				d.do(Action{Do: "set", Path: page.FlawPath + "w", Value: fmt.Sprint(1 + r.IntN(6))})
				d.do(Action{Do: "flaw", To: "note"})
			case 3:
				d.do(Action{Do: "replan"})
			case 4:
				if d.offer == nil {
					break
				}
				there, made := d.wood()
				left := 0
				for _, q := range d.out.Job.Parts {
					left += q.Count
				}
				if d.do(Action{Do: "take"}); d.last.Alert != "" {
					break
				}
				taken++
				now := map[string]int{}
				for _, s := range d.out.Job.Stock {
					if s.AtShop {
						now[s.L.String()+" × "+s.W.String()] += s.Count
					}
				}
				for size, n := range there {
					if now[size] < n {
						t.Errorf("seed %d: %d pieces of %s lay there, %d are stock", seed, n, size, now[size])
					}
				}
				want := 0
				for _, q := range d.out.Job.Parts {
					want += q.Count
				}
				if d.out.differ == 0 && want != left-made {
					t.Errorf("seed %d: %d parts to cut, %d of %d were made", seed, want, made, left)
				}
			case 5:
				d.do(Action{Do: "undo"})
			case 6:
				d.do(Action{Do: "unmark"})
			case 7:
				d.do(Action{Do: "leave"})
			default:
				d.do(Action{Do: "mark"})
			}
			if n := len(d.Planner.doc.Journal); n < entries || len(d.marks) != n {
				t.Fatalf("seed %d: %d entries, %d stored, there were %d", seed, n, len(d.marks), entries)
			} else {
				entries = n
			}
			if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
				t.Fatalf("seed %d: %v", seed, found)
			}
			for _, e := range d.out.Steps.Ends { // what the plan knows of stays free of parts
				for i, f := range d.out.Steps.Bad {
					if i < len(d.out.Steps.Bad)-len(d.newFlaws()) && e.Is == work.ToPart && e.Piece.Sheet == f.Sheet && e.Piece.X < f.X+f.L && f.X < e.Piece.X+e.Piece.L && e.Piece.Y < f.Y+f.W && f.Y < e.Piece.Y+e.Piece.W {
						t.Errorf("seed %d: a part lies on a flaw", seed)
					}
				}
			}
			if r.IntN(6) == 0 && d.doc != "" { // the tab dies
				e := newDesk(t)
				e.do(Action{Do: "place", To: "saw"})
				e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
				if a, b := d.facts(), e.facts(); a != b {
					t.Fatalf("seed %d: opened again it is\n%s, it was\n%s", seed, b, a)
				}
			}
		}
		t.Logf("seed %d: %d entries, %d plans taken, %d flaws, %v", seed, entries, taken, len(d.out.Steps.Bad), d.strip())
	}
}
