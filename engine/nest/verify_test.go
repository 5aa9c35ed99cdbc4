package nest

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

const mm = measure.MM

// shelfJob is a small job with a plan made by hand: one 1000 x 600 sheet that
// the store cuts in two, and an offcut at home.
//
//	sheet: | 498 x 600, trimmed on the right | 498 x 600, trimmed on the left |
func shelfJob() (Job, Plan) {
	job := Job{
		Kerf:  4 * mm,
		Store: Store{Cuts: 2, Kerf: 4 * mm, Trim: 8 * mm, Least: 50 * mm, FreeCuts: 0, Price: 150},
		Car:   []Size{{700 * mm, 500 * mm}},
		Stock: []Stock{
			{ID: "ply", Material: "ply", L: 1000 * mm, W: 600 * mm, Price: 6000, Count: 3, Grain: Along},
			{ID: "offcut", Material: "ply", L: 320 * mm, W: 220 * mm, Count: 1, Grain: Along, Trim: 10 * mm, AtShop: true},
			{ID: "pine", Material: "pine", L: 1000 * mm, W: 600 * mm, Price: 9000, Count: -1, Grain: Along},
		},
		Parts: []Part{
			{ID: "side", Material: "ply", L: 490 * mm, W: 200 * mm, Count: 2, Grain: Along},
			{ID: "front", Material: "ply", L: 490 * mm, W: 100 * mm, Count: 1, Grain: Along, Chain: "fronts", Link: 1},
			{ID: "top front", Material: "ply", L: 490 * mm, W: 80 * mm, Count: 1, Grain: Along, Chain: "fronts", Link: 0},
			{ID: "cleat", Material: "ply", L: 150 * mm, W: 100 * mm, Count: 2, Grain: Free, Match: "cleats"},
		},
	}
	piece := func(part int, rot bool) *Node {
		q := job.Parts[part]
		n := &Node{Kind: Piece, L: q.L, W: q.W, Part: part, Rot: rot}
		if rot {
			n.L, n.W = n.W, n.L
		}
		return n
	}
	left := &Node{Kind: Trim, L: 498 * mm, W: 600 * mm, Core: &Node{Kind: Cut, Dir: Y, L: 490 * mm, W: 600 * mm, Kids: []*Node{
		piece(0, false), piece(0, false), piece(2, false), piece(1, false), {Kind: Waste, L: 490 * mm, W: 4 * mm}}}}
	right := &Node{Kind: Offcut, L: 498 * mm, W: 600 * mm}
	sheet := &Node{Kind: Cut, Tier: StoreTier, Dir: X, L: 1000 * mm, W: 600 * mm, Kids: []*Node{left, right}}
	strip := &Node{Kind: Cut, Dir: X, L: 300 * mm, W: 150 * mm, Kids: []*Node{
		piece(3, true), piece(3, true), {Kind: Waste, L: 92 * mm, W: 150 * mm}}}
	home := &Node{Kind: Cut, Dir: Y, L: 300 * mm, W: 200 * mm, Kids: []*Node{strip, {Kind: Waste, L: 300 * mm, W: 46 * mm}}}
	p := Plan{Sheets: []Layout{{0, sheet}, {1, home}}, Cost: 6150, Bought: 1, StoreCuts: 1, ShopCuts: 7, Trims: 1,
		Settings: 4, Rest: worth(498*mm, 600*mm)}
	return job, p
}

func TestVerifyAcceptsHandMadePlan(t *testing.T) {
	job, p := shelfJob()
	for _, f := range Verify(job, p) {
		t.Errorf("%s %v %v", f.Code, f.Where, f.Args)
	}
}

// Each row breaks one rule of the plan of shelfJob, and Verify must name that
// rule.
var verifyTests = []struct {
	name  string
	code  issue.Code
	spoil func(job *Job, p *Plan)
}{
	{"a sheet of unknown stock", Malformed, func(j *Job, p *Plan) { p.Sheets[0].Stock = 7 }},
	{"no tree", Malformed, func(j *Job, p *Plan) { p.Sheets[0].Root = nil }},
	{"an empty piece", Malformed, func(j *Job, p *Plan) { core(p).Kids[4].W = 0 }},
	{"kids without a cut", Malformed, func(j *Job, p *Plan) { core(p).Kind = Waste }},
	{"a part that is not in the job", Malformed, func(j *Job, p *Plan) { core(p).Kids[0].Part = 9 }},
	{"a root that is larger than its stock", Root, func(j *Job, p *Plan) { j.Stock[0].L -= mm }},
	{"an offcut whose trim was forgotten", Root, func(j *Job, p *Plan) { j.Stock[1].Trim = 0 }},
	{"an offcut's bad edge forgotten", Root, func(j *Job, p *Plan) { j.Stock[1].Off[3] = 11 * mm }},
	{"a bad edge of a sheet used", Untrimmed, func(j *Job, p *Plan) { j.Stock[0].Off[0] = mm }},
	{"a bad edge below zero", Malformed, func(j *Job, p *Plan) { j.Stock[0].Off[2] = -1 }},
	{"a cut that stops half way", Edge, func(j *Job, p *Plan) { core(p).Kids[4].L -= mm }},
	{"a kerf forgotten", Sum, func(j *Job, p *Plan) { core(p).Kids[4].W += mm }},
	{"room that nobody accounts for", Sum, func(j *Job, p *Plan) { core(p).Kids = core(p).Kids[:4]; core(p).W += 5 * mm }},
	{"a cut that cuts nothing", Uncut, func(j *Job, p *Plan) {
		core(p).Kids[4] = &Node{Kind: Cut, L: 490 * mm, W: 4 * mm, Kids: []*Node{core(p).Kids[4]}}
	}},
	{"a store cut at home", Tiers, func(j *Job, p *Plan) { core(p).Tier = StoreTier }},
	{"a store cut in stock at the shop", Tiers, func(j *Job, p *Plan) { p.Sheets[1].Root.Tier = StoreTier }},
	{"a store cut too many", StoreLimit, func(j *Job, p *Plan) { j.Store.Cuts = 0 }},
	{"a strip too narrow for the store", Strip, func(j *Job, p *Plan) { j.Store.Least = 499 * mm }},
	{"a piece too long for the car", Car, func(j *Job, p *Plan) { j.Car[0].L = 599 * mm }},
	{"a piece too wide for the car", Car, func(j *Job, p *Plan) { j.Car[0].W = 497 * mm }},
	{"a rough edge used", Untrimmed, func(j *Job, p *Plan) { core(p).L++ }},
	{"a factory edge used that is to be trimmed", Untrimmed, func(j *Job, p *Plan) { j.FactoryTrim = mm }},
	{"an edge that the last pass makes as it runs off", Untrimmed, func(j *Job, p *Plan) {
		root := p.Sheets[0].Root // the trimmed piece last, 1 mm before the sheet's end
		root.Kids[0], root.Kids[1] = root.Kids[1], root.Kids[0]
		root.Kids[0].L -= mm
	}},
	{"a rough piece cut untrimmed", Untrimmed, func(j *Job, p *Plan) {
		p.Sheets[0].Root.Kids[0] = core(p)
	}},
	{"a trim in the middle of the shop", Untrimmed, func(j *Job, p *Plan) {
		n := core(p).Kids[4]
		core(p).Kids[4] = &Node{Kind: Trim, L: n.L, W: n.W, Core: n}
	}},
	{"a piece too small", WrongSize, func(j *Job, p *Plan) { j.Parts[0].W += mm }},
	{"a piece too large", WrongSize, func(j *Job, p *Plan) { j.Parts[0].W -= mm }},
	{"a part against the grain", AgainstGrain, func(j *Job, p *Plan) { j.Parts[3].Grain = Along }},
	{"a part across that lies along", AgainstGrain, func(j *Job, p *Plan) { j.Parts[0].Grain = Across }},
	{"grain the other way on the sheet", AgainstGrain, func(j *Job, p *Plan) { j.Stock[0].Grain = Across }},
	{"a part of another material", WrongMaterial, func(j *Job, p *Plan) { j.Parts[0].Material = "pine" }},
	{"a part missing", WrongCount, func(j *Job, p *Plan) { j.Parts[3].Count = 3 }},
	{"a part too many", WrongCount, func(j *Job, p *Plan) { j.Parts[3].Count = 1 }},
	{"a part both made and left", WrongCount, func(j *Job, p *Plan) { p.Left = []int{3} }},
	{"a part left that is not in the job", Malformed, func(j *Job, p *Plan) { p.Left = []int{-1} }},
	{"parts on both sides of a thin store cut", Overlap, func(j *Job, p *Plan) {
		j.Store.Kerf, j.Store.Trim = 2*mm, 0
		n := p.Sheets[0].Root
		n.Kids[0] = core(p)
		n.Kids[1] = &Node{Kind: Cut, Dir: Y, L: 498 * mm, W: 600 * mm, Kids: []*Node{
			{Kind: Piece, L: 490 * mm, W: 200 * mm, Part: 0}, {Kind: Waste, L: 490 * mm, W: 396 * mm}}}
	}},
	{"a piece beside its stock", Outside, func(j *Job, p *Plan) { j.Stock[1].L = 200 * mm }},
	{"more sheets than there are", TooMany, func(j *Job, p *Plan) { j.Stock[1].Count = 0 }},
	{"a chain out of order", BrokenChain, func(j *Job, p *Plan) {
		k := core(p).Kids
		k[1], k[2] = k[2], k[1]
	}},
	{"a chain of which a part is left", BrokenChain, func(j *Job, p *Plan) {
		core(p).Kids[3] = &Node{Kind: Waste, L: 490 * mm, W: 100 * mm}
		p.Left = []int{1}
	}},
	{"matched parts cut by two saws", Unmatched, func(j *Job, p *Plan) {
		// The store cuts one side piece to its length; the other is trimmed.
		j.Store.Trim = 0
		j.Parts[0].Match = "sides"
		n := p.Sheets[0].Root
		n.Kids[0] = core(p)
		n.Kids[0].L = 498 * mm
		for _, k := range n.Kids[0].Kids {
			k.L = 498 * mm
		}
		j.Parts[0].L, j.Parts[1].L, j.Parts[2].L = 498*mm, 498*mm, 498*mm
		n.Kids[0].Kids = n.Kids[0].Kids[1:]
		n.Kids[1] = &Node{Kind: Cut, Dir: X, L: 498 * mm, W: 600 * mm, Kids: []*Node{
			{Kind: Cut, Dir: Y, L: 200 * mm, W: 600 * mm, Kids: []*Node{
				{Kind: Piece, L: 200 * mm, W: 498 * mm, Part: 0, Rot: true}, {Kind: Waste, L: 200 * mm, W: 98 * mm}}},
			{Kind: Waste, L: 294 * mm, W: 600 * mm}}}
		j.Parts[0].Grain = Free
	}},
	{"a false cost", Claim, func(j *Job, p *Plan) { p.Cost-- }},
	{"a false cost of store cuts", Claim, func(j *Job, p *Plan) { j.Store.FreeCuts = 1 }},
	{"a false number of sheets", Claim, func(j *Job, p *Plan) { p.Bought++ }},
	{"a false number of store cuts", Claim, func(j *Job, p *Plan) { p.StoreCuts++ }},
	{"a false number of shop cuts", Claim, func(j *Job, p *Plan) { p.ShopCuts-- }},
	{"a false number of trims", Claim, func(j *Job, p *Plan) { p.Trims-- }},
	{"a false number of settings", Claim, func(j *Job, p *Plan) { p.Settings-- }},
	{"a false rest", Claim, func(j *Job, p *Plan) { p.Rest++ }},
}

// core is the trimmed piece of the first sheet.
func core(p *Plan) *Node { return p.Sheets[0].Root.Kids[0].Core }

func TestVerifyRejects(t *testing.T) {
	for _, tt := range verifyTests {
		job, p := shelfJob()
		tt.spoil(&job, &p)
		found := Verify(job, p)
		if !found.Has(tt.code) {
			t.Errorf("%s: found %v, want %s", tt.name, codes(found), tt.code)
		}
	}
}

func codes(l issue.List) string {
	var s []string
	for _, f := range l {
		s = append(s, string(f.Code))
	}
	return strings.Join(s, " ")
}

// Two pieces whose nodes add up may still be too close if a node lies about
// its size; the positions are checked apart from the sums.
func TestVerifySeesOverlapApartFromSums(t *testing.T) {
	job, p := shelfJob()
	core(&p).Kids[0].Kind = Cut
	core(&p).Kids[0].Dir = Y
	core(&p).Kids[0].Kids = []*Node{{Kind: Piece, L: 490 * mm, W: 200 * mm}, {Kind: Piece, L: 490 * mm, W: 200 * mm}}
	if found := Verify(job, p); !found.Has(Overlap) || !found.Has(Sum) {
		t.Errorf("found %v, want %s and %s", codes(found), Overlap, Sum)
	}
}

// A damaged plan may be anything; Verify looks at it and comes back.
func TestVerifySurvivesDamage(t *testing.T) {
	seen := 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 8))
		job, p := shelfJob()
		job.Parts[1].Count = []int{1, -1, math.MaxInt64}[r.IntN(3)]
		var all []*Node
		var walk func(n *Node)
		walk = func(n *Node) {
			all = append(all, n)
			if n.Core != nil {
				walk(n.Core)
			}
			for _, k := range n.Kids {
				walk(k)
			}
		}
		walk(p.Sheets[0].Root)
		odd := []measure.Length{0, -1, 1, math.MaxInt64, math.MinInt64, 1 << 40, 490 * mm}
		for range 1 + r.IntN(3) {
			n := all[r.IntN(len(all))]
			switch r.IntN(8) {
			case 0:
				n.L = odd[r.IntN(len(odd))]
			case 1:
				n.W = odd[r.IntN(len(odd))]
			case 2:
				n.Kind = Kind(r.IntN(8) - 1)
			case 3:
				n.Kids = nil
			case 4:
				n.Core = nil
			case 5:
				n.Part = r.IntN(9) - 2
			case 6:
				n.Kids = append(n.Kids, nil)
			case 7:
				n.Dir, n.Tier = Dir(r.IntN(4)-1), Tier(r.IntN(4)-1)
			}
		}
		if len(Verify(job, p)) > 0 {
			seen++
		}
	}
	if seen < 300 {
		t.Errorf("only %d of 400 damaged plans were seen to be damaged", seen)
	}
}
