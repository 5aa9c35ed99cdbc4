package work

import (
	"fmt"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// say is a cut in a few words.
func say(c Cut) string {
	t := measure.Tape{}
	s := fmt.Sprintf("%d %s %s at %s from %s, %s", c.N, c.Verb, c.Piece.Name, t.Plain(c.Set), c.Ride, c.RideIs)
	if c.Saw != "" {
		s += ", " + c.Saw
	}
	for _, m := range c.Makes {
		s += ", " + m.Name
	}
	if c.Same {
		s += fmt.Sprint(", as ", c.SameAs)
	}
	return s
}

func TestPlaner(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	outcome(t, job, plan, s)
	want := []string{
		"1 Cut  at 48 from left, factory edge, left half, right half",
		"2 Cut left half at 24 from top, factory edge, R1, R2",
		"3 Cut right half at 24 from top, factory edge, R3, R4, as [2]",
	}
	for i, c := range s.Store {
		if i >= len(want) || say(c) != want[i] {
			t.Errorf("store cut %q", say(c))
		}
	}
	shop := []string{
		"1 Rip R1 at 21 from top, factory edge, Table saw, R1, keep",
		"2 Rip R2 at 21 from bottom, factory edge, Table saw, keep, R2, as [1]",
		"3 Rip R3 at 21 7/32 from top, factory edge, Table saw, R3, keep",
		"4 Rip R4 at 22 1/2 from bottom, factory edge, Table saw, waste, R4",
		"5 Crosscut R4 at 36 from right, factory edge, Track saw, keep, E",
		"6 Crosscut R3 at 34 from right, factory edge, Track saw, keep, D",
		"7 Crosscut R1 at 23 1/4 from left, factory edge, Track saw, A, R1",
		"8 Crosscut R1 at 23 1/4 from left, sawn edge, Track saw, B, waste, as [7]",
		"9 Crosscut R2 at 23 1/4 from left, factory edge, Track saw, C, R2, as [7 8]",
		"10 Rip R2 at 15 21/32 from bottom, factory edge, Table saw, keep, R2",
		"11 Crosscut R2 at 8 1/2 from left, sawn edge, Table saw, F, R2",
		"12 Crosscut R2 at 14 15/32 from left, sawn edge, Table saw, G, waste",
	}
	if len(s.Store) != len(want) || len(s.Shop) != len(shop) {
		t.Fatalf("%d store cuts and %d shop cuts, want %d and %d", len(s.Store), len(s.Shop), len(want), len(shop))
	}
	for i, c := range s.Shop {
		if say(c) != shop[i] {
			t.Errorf("got  %s\nwant %s", say(c), shop[i])
		}
	}
	// 48 long, 23 1/4 and a kerf of 1/8 off: 24 5/8 is left.
	if c := s.Shop[6]; c.Off() != in("24 5/8") || c.Face != "good face up" {
		t.Errorf("%s leaves %v, %s", say(c), c.Off(), c.Face)
	}
	// The fence stands at 21, 21 7/32, 22 1/2, 15 21/32, 8 1/2 and 14 15/32; the
	// track at 36, 34 and 23 1/4 is laid to marks. Sheet by sheet it is the same:
	// R2's rip at 21 follows R1's.
	if s.Moves != 6 || s.Naive != 6 || s.Settings != 6 || len(s.Findings) != 0 {
		t.Errorf("moves %d, naive %d, settings %d, findings %v", s.Moves, s.Naive, s.Settings, s.Findings)
	}
}

// TestMovesSaved changes one width of the planer: a fourth piece ripped at 21
// on the last sheet is one more pass on a setting that is there already. Tree
// by tree the fence would come back to 21 for it.
func TestMovesSaved(t *testing.T) {
	job, plan, lines := planer()
	r4 := plan.Sheets[0].Root.Kids[1].Kids[1].Core
	job.Parts[4].W = in("21")
	r4.Kids[0].W = in("2 1/2") // the waste over it takes the difference
	for n := r4.Kids[1]; ; n = n.Kids[1] {
		n.W = in("21")
		if len(n.Kids) == 0 {
			break
		}
		n.Kids[0].W = in("21")
	}
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	outcome(t, job, plan, s)
	if s.Settings != 5 || s.Moves != 5 || s.Naive != 6 {
		t.Errorf("settings %d, moves %d, sheet by sheet %d; want 5, 5, 6", s.Settings, s.Moves, s.Naive)
	}
	if c := s.Shop[2]; !c.Same || c.Set != in("21") || len(c.SameAs) != 2 {
		t.Errorf("cut 3 is %s", say(c))
	}
}

// TestMovesByHand rips boards 48 long to two widths, one after the other. The
// second cut of a board waits for the first, so whoever cuts one board at 5 and
// then at 3 and the next at 3 and then at 5 must come back to one of them.
func TestMovesByHand(t *testing.T) {
	rip := func(board string, widths ...string) (l []string) { return append([]string{board}, widths...) }
	saws := []project.Saw{{Name: "T", Kind: "table", Rip: in("24")}}
	tests := []struct {
		name         string
		boards       [][]string // width of the board, then what it is ripped to, in order
		saws         []project.Saw
		moves, naive int
	}{
		{"one board", [][]string{rip("12", "5", "3")}, saws, 2, 2},
		{"two alike: 5, 5, 3, 3; board by board 5, 3, 5, 3", [][]string{rip("12", "5", "3"), rip("12", "5", "3")}, saws, 2, 4},
		{"crossed: 5, 3, 3, 5", [][]string{rip("12", "5", "3"), rip("12", "3", "5")}, saws, 3, 3},
		{"crossed twice: 5, 5, 3, 3, 3, 5", [][]string{rip("12", "5", "3"), rip("12", "3", "5"), rip("12", "5", "3")}, saws, 3, 4},
		{"3 waits for 4, which waits for 5, and 4 for 3: 5, 4, 3, 4; not 5, 3, 4, 3", [][]string{rip("14", "5", "4", "3"), rip("14", "3", "4")}, saws, 4, 4},
		{"a track is laid to marks each time", [][]string{rip("12", "5", "3"), rip("12", "5", "3")}, []project.Saw{{Name: "R", Kind: "track"}}, 0, 0},
	}
	for _, tt := range tests {
		job := nest.Job{Kerf: in("1/8"), Stock: []nest.Stock{
			{ID: "12", L: in("48"), W: in("12"), Grain: nest.Along, AtShop: true, Count: -1},
			{ID: "14", L: in("48"), W: in("14"), Grain: nest.Along, AtShop: true, Count: -1},
		}}
		var plan nest.Plan
		for _, b := range tt.boards {
			at, left := map[string]int{"12": 0, "14": 1}[b[0]], in(b[0])
			root := &nest.Node{Kind: nest.Cut, Tier: nest.ShopTier, Dir: nest.Y, L: in("48"), W: left}
			for _, w := range b[1:] {
				root.Kids = append(root.Kids, &nest.Node{Kind: nest.Piece, L: in("48"), W: in(w), Part: len(job.Parts)})
				job.Parts = append(job.Parts, nest.Part{ID: w, L: in("48"), W: in(w), Count: 1, Grain: nest.Along})
				left -= in(w) + job.Kerf
			}
			root.Kids = append(root.Kids, &nest.Node{Kind: nest.Waste, L: in("48"), W: left})
			plan.Sheets = append(plan.Sheets, nest.Layout{Stock: at, Root: root})
		}
		s := Saw(job, plan, nil, tt.saws, measure.Tape{})
		outcome(t, job, plan, s)
		if s.Moves != tt.moves || s.Naive != tt.naive {
			t.Errorf("%s: %d moves, board by board %d; want %d, %d", tt.name, s.Moves, s.Naive, tt.moves, tt.naive)
		}
	}
}

// TestFenceAside rips at 5, then crosscuts another board at 24 and rips that at
// 5. On the sled of the same saw the fence stands aside meanwhile and is set to 5
// twice, unless the crosscut comes first; a mitre saw leaves it alone.
func TestFenceAside(t *testing.T) {
	for _, tt := range []struct {
		saws         []project.Saw
		moves, naive int
	}{
		{[]project.Saw{{Name: "T", Kind: "table", Rip: in("24"), Crosscut: in("20")}}, 2, 3},
		{[]project.Saw{{Name: "T", Kind: "table", Rip: in("24")}, mitre}, 2, 2},
	} {
		job := nest.Job{Kerf: in("1/8"), Stock: []nest.Stock{{ID: "s", L: in("48"), W: in("12"), Grain: nest.Along, AtShop: true, Count: -1}}}
		rip := func(l measure.Length) *nest.Node {
			job.Parts = append(job.Parts, nest.Part{ID: "p", L: l, W: in("5"), Count: 1, Grain: nest.Along})
			return &nest.Node{Kind: nest.Cut, Dir: nest.Y, L: l, W: in("12"), Kids: []*nest.Node{
				{Kind: nest.Piece, L: l, W: in("5"), Part: len(job.Parts) - 1}, {L: l, W: in("7") - job.Kerf}}}
		}
		plan := nest.Plan{Sheets: []nest.Layout{{Root: rip(in("48"))}, {Root: &nest.Node{Kind: nest.Cut, Dir: nest.X, L: in("48"), W: in("12"),
			Kids: []*nest.Node{rip(in("24")), {L: in("24") - job.Kerf, W: in("12")}}}}}}
		s := Saw(job, plan, nil, tt.saws, measure.Tape{})
		if s.Moves != tt.moves || s.Naive != tt.naive {
			t.Errorf("%v: %d moves, board by board %d; want %d, %d", tt.saws, s.Moves, s.Naive, tt.moves, tt.naive)
		}
		same := 0
		for _, c := range s.Shop {
			if c.Same {
				same++
			}
		}
		if same != len(s.Shop)-tt.moves {
			t.Errorf("%v: %d cuts on a setting that stays, want %d", tt.saws, same, len(s.Shop)-tt.moves)
		}
	}
}

// TestTrimOnce: a piece with both ends rough from the store holds two strips that
// do not reach to its ends. One pass trims it for both; for one strip it is its
// own.
func TestTrimOnce(t *testing.T) {
	for n, want := range map[int]int{1: 2 + 1, 2: 1 + 2 + 2} { // trim, rips, crosscuts
		job := strips("5", nil, []string{"20"})
		job.Parts[0].Count = n
		job.Stock = []nest.Stock{{ID: "ply", Material: "ply", L: in("90"), W: in("12"), Count: 1, Grain: nest.Along, Price: 100}}
		job.Store, job.Car = nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")}, []nest.Size{{L: in("30"), W: in("20")}}
		core, left := in("30")-2*in("1/4"), in("12")
		rips := &nest.Node{Kind: nest.Cut, Dir: nest.Y, L: core, W: in("12")}
		for range n {
			rips.Kids = append(rips.Kids, &nest.Node{Kind: nest.Cut, Dir: nest.X, L: core, W: in("5"), Kids: []*nest.Node{
				{Kind: nest.Piece, L: in("20"), W: in("5")}, {L: core - in("20") - job.Kerf, W: in("5")}}})
			left -= in("5") + job.Kerf
		}
		rips.Kids = append(rips.Kids, &nest.Node{L: core, W: left})
		plan := nest.Plan{Sheets: []nest.Layout{{Root: &nest.Node{Kind: nest.Cut, Tier: nest.StoreTier, Dir: nest.X, L: in("90"), W: in("12"), Kids: []*nest.Node{
			{L: in("29 7/8"), W: in("12")}, {Kind: nest.Trim, L: in("30"), W: in("12"), Core: rips}, {L: in("29 7/8"), W: in("12")}}}}},
			Cost: 100, Bought: 1, StoreCuts: 2, ShopCuts: 2 * n, Settings: 2, Trims: 2}
		s := Saw(job, plan, nil, shop(), measure.Tape{})
		outcome(t, job, plan, s)
		trims := 0
		for _, c := range s.Shop {
			if c.Verb == TrimOff {
				trims++
			}
		}
		if len(s.Shop) != want || trims != 1 {
			t.Errorf("%d strips: %d passes, %d of them trims; want %d, 1", n, len(s.Shop), trims, want)
		}
	}
}

// TestSawRules changes one thing about a piece at a time and looks at the saw
// its cut goes to.
func TestSawRules(t *testing.T) {
	saws := []project.Saw{
		{Name: "T", Kind: "table", Rip: in("24"), Crosscut: in("20")},
		{Name: "R", Kind: "track"},
		{Name: "M", Kind: "mitre", Crosscut: in("10")},
	}
	tests := []struct {
		name string
		l, w string
		dir  string // x: crosscut, y: rip
		set  string
		want string // saw and guide
	}{
		{"a rip within the fence's reach", "48", "24", "y", "21", "T fence"},
		{"a rip beyond it", "48", "30", "y", "24 1/8", "R track"},
		{"34 1/2 rides for a crosscut at 24", "48", "34 1/2", "x", "24", "T fence"},
		{"a crosscut at its own width still rides", "40", "21", "x", "21", "T fence"},
		{"a hair more does not", "40", "21", "x", "21 1/8", "R track"},
		{"as wide as the sled takes", "40", "20", "x", "21 1/8", "T stop"},
		{"as wide as the mitre saw takes", "40", "10", "x", "21 1/8", "M stop"},
		{"little edge for the fence, but the mitre saw holds it", "6", "4", "x", "3 3/4", "M stop"},
		{"a little rip has no other saw", "4", "6", "y", "3 3/4", "T fence"},
		{"a whole sheet is not for the bench", "96", "48", "y", "12", "R track"},
		{"a long strip is", "96", "12", "y", "6", "T fence"},
	}
	for _, tt := range tests {
		job := nest.Job{Kerf: in("1/8"), Stock: []nest.Stock{{ID: "s", L: in(tt.l), W: in(tt.w), Grain: nest.Along, Price: 1}}}
		t1 := planter{job}
		p := nest.Part{ID: "p", Count: 1, L: in(tt.l), W: in(tt.w), Grain: nest.Along}
		rest := &nest.Node{Kind: nest.Waste, L: in(tt.l), W: in(tt.w)}
		if tt.dir == "x" {
			p.L, rest.L = in(tt.set), in(tt.l)-in(tt.set)-job.Kerf
		} else {
			p.W, rest.W = in(tt.set), in(tt.w)-in(tt.set)-job.Kerf
		}
		job.Parts = []nest.Part{p}
		t1.job = job
		dir := nest.X
		if tt.dir == "y" {
			dir = nest.Y
		}
		plan := nest.Plan{Sheets: []nest.Layout{{Root: t1.cut(nest.ShopTier, dir, t1.part(0), rest)}}}
		s := Saw(job, plan, nil, saws, measure.Tape{})
		outcome(t, job, plan, s)
		if len(s.Shop) != 1 || s.Shop[0].Saw+" "+string(s.Shop[0].Guide) != tt.want {
			t.Errorf("%s: %+v", tt.name, s.Shop)
		}
	}
}

// TestRoughEdges: what comes off a rough edge, and when nothing needs to.
func TestRoughEdges(t *testing.T) {
	job := nest.Job{
		Kerf:  in("1/8"),
		Store: nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")},
		Stock: []nest.Stock{{ID: "s", L: in("60"), W: in("20"), Grain: nest.Along, Price: 1}},
		Parts: []nest.Part{{ID: "p", L: in("20"), W: in("20"), Count: 1}, {ID: "q", L: in("29 3/4"), W: in("9 15/16"), Count: 2}, {ID: "r", L: in("9 5/8"), W: in("20"), Count: 1}},
	}
	t1 := planter{job}
	half := func(core *nest.Node) *nest.Node { return trim("30", "20", core) }
	other := trim("29 7/8", "20", waste("29 5/8", "20"))
	plan := func(core *nest.Node) nest.Plan {
		return nest.Plan{Sheets: []nest.Layout{{Root: t1.sx(half(core), other)}}}
	}
	tests := []struct {
		name string
		core *nest.Node // of a piece with a factory edge left and a rough one right
		want []string
	}{
		{"waste at the rough end needs no pass of its own",
			t1.x(t1.part(0), waste("9 5/8", "20")),
			[]string{"1 Crosscut R1 at 20 from left, factory edge, p0, waste"}},
		{"a part there gets its own, at its own size",
			t1.x(t1.part(2), t1.part(0)),
			[]string{"1 Crosscut R1 at 9 5/8 from left, factory edge, p2, R1",
				"2 Crosscut R1 at 20 from left, sawn edge, p0, waste"}},
		{"with waste at the factory end the rough end is trimmed first",
			t1.x(waste("9 5/8", "20"), t1.part(0)),
			[]string{"1 Trim R1 at 29 3/4 from left, factory edge, R1, waste",
				"2 Crosscut R1 at 20 from right, sawn edge, waste, p0"}},
		{"two strips that both reach the rough end are trimmed together",
			t1.y(t1.part(1), t1.part(1)),
			[]string{"1 Trim R1 at 29 3/4 from left, factory edge, R1, waste",
				"2 Rip R1 at 9 15/16 from top, factory edge, p1, p1"}},
	}
	for _, tt := range tests {
		lines := []part.Line{{Tag: "p0"}, {Tag: "p1"}, {Tag: "p2"}}
		s := Saw(job, plan(tt.core), lines, nil, measure.Tape{})
		outcome(t, job, plan(tt.core), s)
		if len(s.Shop) != len(tt.want) {
			t.Errorf("%s: %d cuts", tt.name, len(s.Shop))
			continue
		}
		for i, c := range s.Shop {
			if say(c) != tt.want[i] {
				t.Errorf("%s: got %s, want %s", tt.name, say(c), tt.want[i])
			}
		}
	}
	// The last strip gets no pass of its own: it must measure 9 15/16.
	s := Saw(job, plan(tests[3].core), []part.Line{{}, {}, {}}, nil, measure.Tape{})
	if c := s.Shop[1]; c.Rest != in("9 15/16") || c.Kinds[1] != ToPart {
		t.Errorf("rest of %s is %v", say(c), c.Rest)
	}
}
