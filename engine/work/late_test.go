package work

import (
	"math/rand/v2"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
)

// TestLateLast: a board of 12 in is cut into a side of 20 and two fronts of 10
// that may have to be 1/8 longer and wider. At 40 1/2 by 12 1/8 there is room for
// that, by hand: 20 + 1/8 + 10 1/8 + 1/8 + 10 1/8. The side comes off first and
// to its width, whatever else; then the fronts wait, all 2 of them in one piece.
func TestLateLast(t *testing.T) {
	for _, tt := range []struct {
		l, w string
		want int
	}{{"40 1/2", "12 1/8", 2}, {"40 15/32", "12 1/8", 0}, {"40 1/2", "12 3/32", 0}} {
		job := strips("12", []string{tt.l}, []string{"10", "20"})
		job.Stock[0].W = in(tt.w)
		job.Parts[0].Count, job.Parts[0].Reserve = 2, nest.Size{L: in("1/8"), W: in("1/8")}
		plan, _ := planned(t, job, nil)
		plan, ok := nest.Settled(job, plan)
		steps := Saw(job, plan, nil, shop(), measure.Tape{})
		left, held := HeldBack(job, plan, steps, Standing{})
		if !ok || left[0] != 2 || held[0] != tt.want || left[1]+held[1] != 0 || plan.Reserved != tt.want {
			t.Errorf("%s × %s: %v waiting, %v held, the plan says %d, want %d", tt.l, tt.w, left, held, plan.Reserved, tt.want)
		}
		if first := steps.Shop[0]; first.Late || first.Set != in("20") {
			t.Errorf("%s × %s: first a cut at %v", tt.l, tt.w, first.Set)
		}
		late := false
		for _, c := range steps.Shop {
			if late = late || c.Late; late && !c.Late {
				t.Errorf("%s × %s: cut %d does not wait, but comes after one that does", tt.l, tt.w, c.N)
			}
		}
		// Cut as they are, they wait no more.
		done := Standing{Shop: make([]Stand, len(steps.Shop))}
		for i := range done.Shop {
			done.Shop[i].Done = true
		}
		if left, _ := HeldBack(job, plan, steps, done); left[0] != 0 {
			t.Errorf("%s × %s: all is cut, and %d wait", tt.l, tt.w, left[0])
		}
	}
}

// Over random carts: what is measured late is cut last, and the wood that lies
// there then has the reserve that the plan says.
func TestLateRandom(t *testing.T) {
	held, late := 0, 0
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 8))
		job := strips("20", nil, nil)
		job.Stock = []nest.Stock{{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Along, Price: 100}}
		job.Store, job.Car = nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")}, []nest.Size{{L: in("60"), W: in("40")}}
		for i := range 5 + r.IntN(8) {
			q := nest.Part{ID: part.Tag(i), Material: "ply", L: measure.Inch * measure.Length(8+r.IntN(32)), W: measure.Inch * measure.Length(5+r.IntN(20)), Count: 1 + r.IntN(3), Grain: nest.Along}
			if r.IntN(3) == 0 {
				q.Reserve = []nest.Size{{L: in("1/8"), W: in("1/8")}, {L: in("1/8")}, {W: in("1/8")}}[r.IntN(3)]
				late += q.Count
			}
			job.Parts = append(job.Parts, q)
		}
		plan, _ := planned(t, job, nil)
		plan, ok := nest.Settled(job, plan)
		if !ok {
			t.Fatalf("seed %d: not settled", seed)
		}
		steps := Saw(job, plan, nil, shop(), measure.Tape{})
		if len(steps.Findings) > 0 && steps.Findings[0].Code == BadPlan {
			t.Fatalf("seed %d: %v", seed, steps.Findings)
		}
		waits := false
		for _, c := range steps.Shop {
			if waits = waits || c.Late; waits && !c.Late {
				t.Errorf("seed %d: cut %d comes too late", seed, c.N)
			}
		}
		_, has := HeldBack(job, plan, steps, Standing{})
		n := 0
		for _, h := range has {
			n += h
		}
		if n < plan.Reserved {
			t.Errorf("seed %d: the plan says %d, on the bench lie %d", seed, plan.Reserved, n)
		}
		held += n
	}
	t.Logf("%d of %d held", held, late)
	if held*2 < late {
		t.Errorf("%d of %d held", held, late)
	}
}

// TestLateAlong: a side of 20 × 5 and a front of 10 × 5 are ripped from a board
// and crosscut. If the front may have to be longer, only its crosscut waits, and
// one setting of the fence rips both; if it may have to be wider, its rip waits
// and all that comes after.
func TestLateAlong(t *testing.T) {
	for _, tt := range []struct {
		reserve   nest.Size
		late      string // of rip, rip, crosscut at 20, at 10, as they are made
		settings  int
		different bool // the rips are on two settings
	}{
		{nest.Size{}, "----", 3, false},
		{nest.Size{L: in("1/8")}, "---L", 3, false},
		{nest.Size{W: in("1/8")}, "--LL", 4, true},
	} {
		job := strips("5", []string{"40"}, []string{"20", "10"})
		job.Stock[0].W, job.Parts[1].Reserve = in("12"), tt.reserve
		job.Saws = nest.Saws{Fence: in("24"), Long: in("96"), Mitre: in("12"), Track: true}
		strip := func(i int) *nest.Node {
			l := job.Parts[i].L
			return &nest.Node{Kind: nest.Cut, Dir: nest.X, L: in("40"), W: in("5"), Kids: []*nest.Node{
				{Kind: nest.Piece, L: l, W: in("5"), Part: i}, {L: in("40") - l - job.Kerf, W: in("5")}}}
		}
		plan := nest.Plan{ShopCuts: 4, Settings: tt.settings, Reserved: 1, Sheets: []nest.Layout{{Root: &nest.Node{Kind: nest.Cut, Dir: nest.Y, L: in("40"), W: in("12"),
			Kids: []*nest.Node{strip(0), strip(1), {L: in("40"), W: in("2") - 2*job.Kerf}}}}}}
		if tt.reserve == (nest.Size{}) {
			plan.Reserved = 0
		}
		if found := nest.Verify(job, plan); len(found) > 0 {
			t.Errorf("%v: %v", tt.reserve, found)
		}
		steps := Saw(job, plan, nil, append(shop(), mitre), measure.Tape{})
		late := ""
		for _, c := range steps.Shop {
			late += map[bool]string{false: "-", true: "L"}[c.Late]
		}
		if late != tt.late || steps.Moves != tt.settings || steps.Settings != tt.settings {
			t.Errorf("%v: late %s, %d moves, %d settings; want %s, %d", tt.reserve, late, steps.Moves, steps.Settings, tt.late, tt.settings)
		}
		if _, held := HeldBack(job, plan, steps, Standing{}); held[1] != plan.Reserved {
			t.Errorf("%v: %d held, want %d", tt.reserve, held[1], plan.Reserved)
		}
	}
}

// TestLateAtRoughEdge: of a sheet the store cuts at 30 the right piece has a
// rough left edge. Its front of 20, which may have to be 1/8 longer, lies at the
// factory edge with what is left over at the rough one: settled it still does,
// and one pass frees it.
func TestLateAtRoughEdge(t *testing.T) {
	job := strips("20", nil, []string{"20"})
	job.Stock = []nest.Stock{{ID: "ply", Material: "ply", L: in("60"), W: in("20"), Count: 1, Grain: nest.Along, Price: 100}}
	job.Store, job.Car = nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")}, []nest.Size{{L: in("30"), W: in("20")}}
	job.Parts[0].Reserve = nest.Size{L: in("1/8")}
	left := in("29 5/8") - in("20") - job.Kerf
	plan := nest.Plan{Sheets: []nest.Layout{{Root: &nest.Node{Kind: nest.Cut, Tier: nest.StoreTier, Dir: nest.X, L: in("60"), W: in("20"), Kids: []*nest.Node{
		{L: in("30"), W: in("20")},
		{Kind: nest.Trim, L: in("29 7/8"), W: in("20"), Core: &nest.Node{Kind: nest.Cut, Dir: nest.X, L: in("29 5/8"), W: in("20"), Kids: []*nest.Node{
			{L: left, W: in("20")}, {Kind: nest.Piece, L: in("20"), W: in("20")}}}}}}}},
		Cost: 100, Bought: 1, StoreCuts: 1, ShopCuts: 1, Settings: 1, Trims: 1}
	settled, ok := nest.Settled(job, plan)
	if found := nest.Verify(job, settled); !ok || settled.Reserved != 1 || len(found) > 0 {
		t.Errorf("settled: %v, %d reserved, %v", ok, settled.Reserved, found)
	}
	steps := Saw(job, settled, nil, shop(), measure.Tape{})
	if len(steps.Shop) != 1 || steps.Shop[0].Ride != RightEdge || !steps.Shop[0].Late || steps.Shop[0].Set != in("20") {
		t.Errorf("the cuts are %+v", steps.Shop)
	}
}

// An offcut that is cut in two after a part that waits: that cut has no part,
// and waits as well.
func TestLateThenOffcut(t *testing.T) {
	job := strips("12", []string{"40"}, []string{"10", "20"})
	job.Parts[0].Count, job.Parts[0].Reserve = 1, nest.Size{L: in("1/8")}
	k := job.Kerf
	rest, half := in("40")-in("30")-2*k, (in("12")-k)/2
	offcut := func(w measure.Length) *nest.Node { return &nest.Node{Kind: nest.Offcut, L: rest, W: w} }
	plan := nest.Plan{Sheets: []nest.Layout{{Root: &nest.Node{Kind: nest.Cut, Dir: nest.X, L: in("40"), W: in("12"), Kids: []*nest.Node{
		{Kind: nest.Piece, L: in("20"), W: in("12"), Part: 1}, {Kind: nest.Piece, L: in("10"), W: in("12")},
		{Kind: nest.Cut, Dir: nest.Y, L: rest, W: in("12"), Kids: []*nest.Node{offcut(half), offcut(in("12") - k - half)}}}}}}}
	var late []bool
	for _, c := range Saw(job, plan, nil, shop(), measure.Tape{}).Shop {
		late = append(late, c.Late)
	}
	if len(late) != 3 || late[0] || !late[1] || !late[2] {
		t.Errorf("which of the cuts wait: %v, want the last two of three", late)
	}
}
