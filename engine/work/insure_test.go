package work

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
)

// planned searches a job and saws the plan.
func planned(t *testing.T, job nest.Job, lines []part.Line) (nest.Plan, Steps) {
	t.Helper()
	var plan *nest.Plan
	for at := range nest.Search(job, nest.Options{Tries: 300}) {
		if at.Plan != nil {
			plan = at.Plan
		}
	}
	if plan == nil || len(plan.Left) > 0 {
		t.Fatalf("no whole plan: %+v", plan)
	}
	return *plan, Saw(job, *plan, lines, shop(), measure.Tape{})
}

func strips(w string, stock []string, parts []string) nest.Job {
	job := nest.Job{Kerf: in("1/8")}
	for i, l := range parts {
		job.Parts = append(job.Parts, nest.Part{ID: part.Tag(i), Material: "ply", L: in(l), W: in(w), Count: 1, Grain: nest.Along})
	}
	for i, l := range stock {
		job.Stock = append(job.Stock, nest.Stock{ID: string(rune('s' + i)), Material: "ply", L: in(l), W: in(w), Count: 1, Grain: nest.Along, AtShop: true})
	}
	return job
}

// TestInsured: how many parts could be spoiled once, by hand. One piece, 20 wide:
// A of 20 and B of 15 in leave L − 20 − 15 − 2/8. At 55 1/4 that is 20, enough
// for either; 1/32 less and only B is insured, for A cut first leaves
// 35 3/32 and wants 20 + 1/8 + 15 = 35 1/8. At 50 1/4 15 are left, 1/32 less
// and nothing is insured.
func TestInsured(t *testing.T) {
	for _, tt := range []struct {
		stock, parts          string
		parts0, insured, kept int
	}{
		{"55 1/4", "20,15", 2, 2, 2},
		{"55 7/32", "20,15", 2, 1, 1},
		{"50 1/4", "20,15", 2, 1, 1},
		{"50 7/32", "20,15", 2, 0, 0},
	} {
		job := strips("20", strings.Split(tt.stock, ","), strings.Split(tt.parts, ","))
		plan, steps := planned(t, job, nil)
		got := Insure(job, plan, steps, nil)
		n, kept := 0, 0
		for _, c := range got.Covers {
			if c.Insured() {
				n++
			}
			if c.Kept {
				kept++
			}
		}
		if len(got.Covers) != tt.parts0 || n != tt.insured || kept != tt.kept {
			t.Errorf("%s from %s: %d of %d insured, %d from what is kept; want %d of %d, %d", tt.parts, tt.stock,
				n, len(got.Covers), kept, tt.insured, tt.parts0, tt.kept)
		}
		if again := Insure(job, plan, steps, nil); !reflect.DeepEqual(got, again) {
			t.Error("asked twice, two answers")
		}
	}
}

// TestInsuredEarly: A of 20 and B of 15 are planned from 50, C of 15 from
// 30 1/8. What is kept, 14 3/4 and 15, is too short for A. But A spoiled at
// once leaves 29 7/8 for another A, and the 30 1/8 take B and C: 15 + 1/8 + 15.
// With 1/32 less they do not.
func TestInsuredEarly(t *testing.T) {
	for _, tt := range []struct {
		second string
		want   bool
	}{{"30 1/8", true}, {"30 3/32", false}} {
		job := strips("20", []string{"50", tt.second}, []string{"20", "15", "15"})
		lay := func(stock int, parts ...int) nest.Layout {
			n := &nest.Node{Kind: nest.Cut, Dir: nest.X, L: job.Stock[stock].L, W: in("20")}
			rest := n.L
			for _, i := range parts {
				n.Kids = append(n.Kids, &nest.Node{Kind: nest.Piece, L: job.Parts[i].L, W: in("20"), Part: i})
				rest -= job.Parts[i].L + job.Kerf
			}
			n.Kids = append(n.Kids, &nest.Node{Kind: nest.Offcut, L: rest, W: in("20")})
			return nest.Layout{Stock: stock, Root: n}
		}
		plan := nest.Plan{Sheets: []nest.Layout{lay(0, 0, 1), lay(1, 2)}}
		steps := Saw(job, plan, nil, shop(), measure.Tape{})
		got := Insure(job, plan, steps, nil).Covers
		if got[0].Line != 0 || got[0].Kept || got[0].Early != tt.want {
			t.Errorf("with %s: %+v, want A first, insured %v", tt.second, got, tt.want)
		}
	}
}

// TestStakesFirst: parts that nothing left could replace are cut no later than
// without regard to that, and the fence is moved no more often.
func TestStakesFirst(t *testing.T) {
	earlier, later := 0, 0
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 8))
		job := strips("20", nil, nil)
		job.Stock = []nest.Stock{{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Along, Price: 100, AtShop: true}}
		var lines []part.Line
		for i := range 5 + r.IntN(8) {
			job.Parts = append(job.Parts, nest.Part{ID: part.Tag(i), Material: "ply", L: measure.Inch * measure.Length(8+r.IntN(32)), W: measure.Inch * measure.Length(5+r.IntN(20)), Count: 1 + r.IntN(2), Grain: nest.Along})
			lines = append(lines, part.Line{Tag: part.Tag(i), Count: job.Parts[i].Count})
		}
		plan, steps := planned(t, job, lines)
		b := &builder{job: job, lines: lines, sheets: plan.Sheets}
		for _, sh := range plan.Sheets {
			b.sheetStock = append(b.sheetStock, sh.Stock)
		}
		for i, sh := range plan.Sheets {
			b.sheetCuts(i, sh)
		}
		b.choose(shop())
		b.stakes()
		plain := newOrderer(b.shop).best()
		if steps.Moves > plain.moves {
			t.Errorf("seed %d: %d moves, without regard to mistakes %d", seed, steps.Moves, plain.moves)
		}
		at := map[string]int{}
		for _, c := range steps.Shop {
			at[c.ID] = c.N
		}
		for n, i := range plain.order {
			if p := b.shop[i]; p.stake == stakeFirst {
				earlier += n + 1
				later += at[p.ID]
			}
		}
	}
	if later >= earlier {
		t.Errorf("places of what matters add up to %d, without regard to it %d", later, earlier)
	}
}

// BenchmarkInsure: 60 parts.
func BenchmarkInsure(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 8))
	job := strips("20", nil, nil)
	job.Stock = []nest.Stock{{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Along, Price: 100, AtShop: true}}
	for i := range 30 {
		job.Parts = append(job.Parts, nest.Part{ID: part.Tag(i), Material: "ply", L: measure.Inch * measure.Length(8+r.IntN(32)), W: measure.Inch * measure.Length(5+r.IntN(20)), Count: 2, Grain: nest.Along})
	}
	var plan nest.Plan
	for at := range nest.Search(job, nest.Options{Tries: 3000}) {
		if at.Plan != nil {
			plan = *at.Plan
		}
	}
	steps := Saw(job, plan, nil, shop(), measure.Tape{})
	for b.Loop() {
		n := 0
		for _, c := range Insure(job, plan, steps, nil).Covers {
			if c.Insured() {
				n++
			}
		}
		b.ReportMetric(float64(n), "insured")
	}
}
