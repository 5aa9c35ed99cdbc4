package nest

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
)

// cartJob makes the parts of a shop cart with bays, drawers and a top, as a
// seeded sample: 3/4 in ply for the carcass, 1/2 in for the boxes, 1/4 in for
// bottoms and skin; an estate car. Prices are invented.
func cartJob(seed uint64) Job {
	r := rand.New(rand.NewPCG(seed, 77))
	in := func(lo, hi int) measure.Length { return measure.Length(lo*16+r.IntN((hi-lo)*16+1)) * inch / 16 }
	job := Job{Kerf: inch / 8, Store: Store{Cuts: -1, Kerf: inch / 8, Trim: inch / 4, Least: 3 * inch},
		Car: []Size{{60 * inch, 30 * inch}, {44 * inch, 36 * inch}}}
	for _, s := range []struct {
		id    string
		l, w  measure.Length
		price measure.Money
	}{{"3/4 ply", 96 * inch, 48 * inch, 8400}, {"1/2 ply", 60 * inch, 60 * inch, 5200}, {"1/4 ply", 96 * inch, 48 * inch, 3600}} {
		job.Stock = append(job.Stock, Stock{ID: s.id, Material: s.id, L: s.l, W: s.w, Price: s.price, Count: -1, Grain: Along})
	}
	add := func(id, material string, l, w measure.Length, n int, g Grain) {
		job.Parts = append(job.Parts, Part{ID: id, Material: material, L: l, W: w, Count: n, Grain: g})
	}
	bays := 1 + r.IntN(3)
	width, depth, height := in(16, 22)*measure.Length(bays), in(18, 24), in(24, 30)
	const ply = "3/4 ply"
	add("side", ply, height, depth, 2, Along)
	if bays > 1 {
		add("partition", ply, height-3*inch/4, depth-inch/4, bays-1, Along)
	}
	add("bottom", ply, width-3*inch/2, depth, 1, Free)
	add("top", ply, width+2*inch, depth+2*inch, 1+r.IntN(2), Free)
	add("stretcher", ply, width-3*inch/2, in(3, 5), 3, Free)
	add("plate", ply, in(5, 7), in(4, 6), 4, Free)
	add("skin", "1/4 ply", width, height, 1, Free)
	bay := (width - measure.Length(bays+1)*3*inch/4) / measure.Length(bays)
	box := bay - inch
	for b := range bays {
		n := 1 + r.IntN(5)
		for d := range n {
			h := in(3, 9)
			name := fmt.Sprintf("box %d.%d", b+1, d+1)
			add(name+" side", "1/2 ply", depth-2*inch, h, 2, Along)
			add(name+" end", "1/2 ply", box-inch, h, 2, Along)
			add(name+" bottom", "1/4 ply", depth-2*inch-inch/2, box-inch/2, 1, Free)
			add(name+" front", ply, bay-inch/8, h+2*inch, 1, Along)
		}
	}
	return job
}

func pieces(job Job) (n int) {
	for _, q := range job.Parts {
		n += q.Count
	}
	return n
}

// BenchmarkFirstPlan measures the time to the first plan.
func BenchmarkFirstPlan(b *testing.B) {
	for _, seed := range []uint64{1, 2, 6} {
		job := cartJob(seed)
		b.Run(fmt.Sprintf("pieces=%d", pieces(job)), func(b *testing.B) {
			b.ReportAllocs()
			var p *Plan
			for range b.N {
				for s := range Search(job, Options{}) {
					p = s.Plan
					break
				}
			}
			b.ReportMetric(float64(p.Bought), "sheets")
		})
	}
	job := cartJob(1)
	for i := range job.Parts {
		job.Parts[i].Count *= 4
	}
	b.Run(fmt.Sprintf("pieces=%d", pieces(job)), func(b *testing.B) {
		for range b.N {
			for range Search(job, Options{}) {
				break
			}
		}
	})
}

// BenchmarkCarts searches twenty carts for 20,000 tries each and reports what
// came of it: sheets with their bound, store cuts, settings for each distinct
// part dimension, what of the sheets is no part, tries a second.
func BenchmarkCarts(b *testing.B) {
	const carts, tries = 20, 20_000
	var sheets, least, cuts, sets, dims int
	var used, all float64
	for range b.N {
		sheets, least, cuts, sets, dims, used, all = 0, 0, 0, 0, 0, 0, 0
		for seed := range uint64(carts) {
			job := cartJob(seed)
			p := last(job, Options{Seed: seed, Tries: tries})
			sheets, least, cuts, sets = sheets+p.Bought, least+p.AtLeast, cuts+p.StoreCuts, sets+p.Settings
			seen := map[measure.Length]bool{}
			for _, q := range job.Parts {
				used += float64(q.Count) * q.L.Times(q.W).SquareMetres()
				seen[q.L], seen[q.W] = true, true
			}
			dims += len(seen)
			for _, s := range p.Sheets {
				all += job.Stock[s.Stock].L.Times(job.Stock[s.Stock].W).SquareMetres()
			}
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(sheets), "sheets")
	b.ReportMetric(float64(least), "bound")
	b.ReportMetric(float64(cuts), "storecuts")
	b.ReportMetric(float64(sets)/float64(dims), "settings/dimension")
	b.ReportMetric(100*(1-used/all), "%waste")
	b.ReportMetric(carts*tries*float64(b.N)/b.Elapsed().Seconds(), "tries/s")
}

// BenchmarkEquals searches six jobs of a thousand pieces of sixty kinds, three
// of them in inches, for 500,000 tries each or until the plan is proven.
func BenchmarkEquals(b *testing.B) {
	const jobs, most = 6, 500_000
	var sheets, least, tries int
	var area float64
	for range b.N {
		sheets, least, tries, area = 0, 0, 0, 0
		for seed := range uint64(jobs) {
			job := equalsJob(seed, 1020, 60)
			if seed >= 3 {
				job = inchesJob(seed)
			}
			var plan *Plan
			n := 0
			for p := range Search(job, Options{Tries: most}) {
				n = p.Tries
				if p.Plan != nil {
					plan = p.Plan
				}
				if plan.Proven {
					break
				}
			}
			sheets, least, area, tries = sheets+plan.Bought, least+plan.AtLeast, area+areaBound(job), tries+n
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(float64(sheets), "sheets")
	b.ReportMetric(float64(least), "bound")
	b.ReportMetric(100*(float64(sheets)/area-1), "%over-area")
	b.ReportMetric(float64(tries*b.N)/b.Elapsed().Seconds(), "tries/s")
}

// BenchmarkTry measures one try after the search has warmed up; it does not
// allocate.
func BenchmarkTry(b *testing.B) {
	for _, n := range []int{1, 2, 4, 8, 16} {
		h := warmHunt(n)
		b.Run(fmt.Sprintf("pieces=%d", h.pieces), func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				h.try(&h.climbs[neater])
			}
		})
	}
}

// warmHunt is a hunt for the carcass parts of n carts after some tries.
func warmHunt(n int) *hunt {
	job := cartJob(3)
	for i := range job.Parts {
		job.Parts[i].Count *= n
	}
	s := newSearch(&job, Options{})
	h := s.hunts[0]
	h.first()
	h.inspect(&h.champ)
	h.reset(cheaper)
	for turn := range 60 {
		h.work(turn, 64)
	}
	for range 3000 {
		h.try(&h.climbs[neater])
	}
	return h
}

func TestTryDoesNotAllocate(t *testing.T) {
	h := warmHunt(2)
	for g := range h.climbs {
		c := &h.climbs[g]
		if !c.on {
			continue
		}
		for range 2000 {
			h.try(c)
		}
		if n := testing.AllocsPerRun(500, func() { h.try(c) }); n > 0 {
			t.Errorf("goal %d: %v allocations a try", g, n)
		}
	}
}
