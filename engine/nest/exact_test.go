package nest

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/measure"
)

// The exact model, independent of the search: the least rectangles in which a
// set of pieces can be cut apart edge to edge are found by joining those of
// its parts side by side and one above the other; the sets that fit a sheet
// are the columns of a covering problem, which a general-purpose integer
// programming solver (GLPK) answers.

// rectangle is a size with the kerf left out.
type rectangle struct{ w, h measure.Length }

// least lists, for every set of the pieces, the smallest rectangles that hold
// it: none is at least as large as another in both ways.
func least(pieces []rectangle, turn []bool, kerf measure.Length) [][]rectangle {
	all := make([][]rectangle, 1<<len(pieces))
	for i, p := range pieces {
		all[1<<i] = []rectangle{p}
		if turn[i] && p.w != p.h {
			all[1<<i] = append(all[1<<i], rectangle{p.h, p.w})
		}
	}
	for set := 1; set < len(all); set++ {
		if bits.OnesCount(uint(set)) < 2 {
			continue
		}
		var found []rectangle
		for a := (set - 1) & set; a > 0; a = (a - 1) & set {
			b := set &^ a
			if a < b {
				continue
			}
			for _, p := range all[a] {
				for _, q := range all[b] {
					found = append(found, rectangle{p.w + kerf + q.w, max(p.h, q.h)}, rectangle{max(p.w, q.w), p.h + kerf + q.h})
				}
			}
		}
		for i, p := range found {
			keep := true
			for j, q := range found {
				if q.w <= p.w && q.h <= p.h && (q != p || j < i) {
					keep = false
					break
				}
			}
			if keep {
				all[set] = append(all[set], p)
			}
		}
	}
	return all
}

// leastCost asks the solver for the least cost of stock that yields the job,
// which has one material, no store and no more than a dozen pieces.
func leastCost(t *testing.T, job Job) measure.Money {
	t.Helper()
	var pieces []rectangle
	var turn []bool
	for _, q := range job.Parts {
		for range q.Count {
			pieces = append(pieces, rectangle{q.L, q.W})
			turn = append(turn, q.Grain == Free)
		}
	}
	sets := least(pieces, turn, job.Kerf)
	var obj, counts, ints strings.Builder
	cover := make([]strings.Builder, len(pieces))
	for j, s := range job.Stock {
		var many strings.Builder
		for set := 1; set < len(sets); set++ {
			fits := false
			for _, r := range sets[set] {
				fits = fits || r.w <= s.L && r.h <= s.W
			}
			if !fits {
				continue
			}
			x := fmt.Sprintf(" x%d_%d", j, set)
			fmt.Fprintf(&obj, " + %d%s\n", s.Price, x)
			fmt.Fprintf(&many, " +%s\n", x)
			fmt.Fprintf(&ints, "%s\n", x)
			for i := range pieces {
				if set>>i&1 == 1 {
					fmt.Fprintf(&cover[i], " +%s\n", x)
				}
			}
		}
		if s.Count >= 0 && many.Len() > 0 {
			fmt.Fprintf(&counts, " there%d:%s <= %d\n", j, many.String(), s.Count)
		}
	}
	lp := "Minimize\n cost:" + obj.String() + "Subject To\n"
	for i := range cover {
		lp += fmt.Sprintf(" piece%d:%s >= 1\n", i, cover[i].String())
	}
	lp += counts.String() + "General\n" + ints.String() + "End\n"
	return measure.Money(solve(t, lp) + 0.5)
}

// solve asks the solver for the optimum of a model.
func solve(t *testing.T, lp string) float64 {
	t.Helper()
	d := t.TempDir()
	in, out := filepath.Join(d, "model.lp"), filepath.Join(d, "solution")
	if err := os.WriteFile(in, []byte(lp), 0o644); err != nil {
		t.Fatal(err)
	}
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		t.Fatal("the exact solver is missing; install it with: apt-get install glpk-utils")
	}
	if b, err := exec.Command(solver, "--lp", in, "-w", out).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, b)
	}
	b, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(b), "\n") {
		var rows, cols int
		var status string
		var v float64
		if n, _ := fmt.Sscanf(line, "s mip %d %d %s %g", &rows, &cols, &status, &v); n == 4 && status == "o" {
			return v
		}
	}
	t.Fatalf("the solver found no optimum:\n%s", b)
	return 0
}

// exactJob makes a small tight job of one material that is cut at home.
func exactJob(r *rand.Rand) Job {
	job := Job{Kerf: measure.Length(r.IntN(3)) * 2 * mm, Store: Store{Cuts: -1}}
	job.Stock = []Stock{{ID: "sheet", L: 1000 * mm, W: 600 * mm, Price: 100, Count: -1, Grain: Along, AtShop: true}}
	switch r.IntN(3) {
	case 0:
		job.Stock = append(job.Stock, Stock{ID: "half", L: 600 * mm, W: 500 * mm, Price: 60, Count: -1, Grain: Along, AtShop: true})
	case 1:
		job.Stock = append(job.Stock, Stock{ID: "offcut", L: 500 * mm, W: 400 * mm, Count: 1, Grain: Along, AtShop: true})
	}
	for n, i := 0, 0; n < 8; i++ {
		c := 1 + r.IntN(2)
		n += c
		job.Parts = append(job.Parts, Part{ID: fmt.Sprint("p", i), L: measure.Length(150+5*r.IntN(90)) * mm,
			W: measure.Length(100+5*r.IntN(80)) * mm, Count: c, Grain: Grain(r.IntN(2))})
	}
	return job
}

func TestSearchAgainstExactSolver(t *testing.T) {
	for seed := range uint64(24) {
		job := exactJob(rand.New(rand.NewPCG(seed, 9)))
		want := leastCost(t, job)
		p := last(job, Options{Seed: seed, Tries: 20_000})
		if p.Cost != want || len(p.Left) > 0 {
			t.Errorf("seed %d: cost %v with %d pieces left, the optimum is %v", seed, p.Cost, len(p.Left), want)
		}
		if p.Bound > want {
			t.Errorf("seed %d: the bound %v is above the optimum %v", seed, p.Bound, want)
		}
	}
}

// The same against sheets alone, so that the number of sheets and the claim
// that it is proven are judged too.
func TestProvenAgainstExactSolver(t *testing.T) {
	proven := 0
	for seed := range uint64(16) {
		job := exactJob(rand.New(rand.NewPCG(seed, 10)))
		job.Stock = job.Stock[:1]
		job.Stock[0].Price = 1
		want := int(leastCost(t, job))
		p := last(job, Options{Seed: seed, Tries: 20_000})
		if p.Bought != want || p.AtLeast > want || p.Proven && p.Bought != want {
			t.Errorf("seed %d: %d sheets, at least %d, proven %t; the optimum is %d", seed, p.Bought, p.AtLeast, p.Proven, want)
		}
		if p.Proven {
			proven++
		}
	}
	if proven < 4 {
		t.Errorf("only %d of 16 plans are proven", proven)
	}
}
