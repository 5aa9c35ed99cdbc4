package page

import (
	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

const in, mm = measure.Inch, measure.MM

// small is a view of a cart with two bays, one drawer, three kinds of parts
// and five cuts: enough for every kind of row.
func small(place Place) View {
	p := &project.Project{
		Name: "Small cart", Note: "An example.", Currency: "$",
		LineUp:  project.LineUp{Name: "bench", Surface: 36 * in, Role: "receives"},
		Machine: project.Machine{Name: "planer", Table: 5*in + in/4, Weight: 85 * measure.Pound},
		Cabinet: project.Cabinet{
			Width: 34 * in, Depth: 21 * in, Material: "ply",
			Back: project.Back{Kind: "frame", Frame: "ply"}, Face: project.Face{Kind: "strips"},
			Bays: []project.Bay{
				{Name: "Drawer bay", Width: 16 * in, Openings: []project.Opening{{Kind: "drawer"}}},
				{Openings: []project.Opening{{Kind: "open", Holds: &project.Thing{Name: "hose reel", Width: 14 * in, Clear: in}}}},
			},
		},
		Base: project.Base{Caster: project.Caster{Mount: 6 * in, Rating: 220 * measure.Pound, Brakes: 2}},
		Stock: project.Stock{
			Materials: []project.Material{{ID: "ply", Name: "Birch plywood 3/4 in", Nominal: 3 * in / 4, Measured: 182 * mm / 10}},
			Sheets:    []project.Sheet{{ID: "full", Material: "ply", Length: 96 * in, Width: 48 * in, Grain: "length", Price: 7200}},
			Boards:    []project.Board{{ID: "strip", Material: "ply", Length: 96 * in, Width: 3 * in}},
			Offcuts:   []project.Offcut{{ID: "shelf", Material: "ply", Length: 30 * in, Width: 20 * in}},
			Hardware:  []project.Hardware{{ID: "pull", Name: "Pull", Price: 550}},
		},
		Store: project.Store{Cuts: "3", FreeCuts: 2, Price: 150},
		Car:   project.Car{FloorLength: 50 * in, FloorWidth: 38 * in},
		Shop:  project.Shop{Saws: []project.Saw{{Name: "table saw", Kind: "table", Kerf: in / 8, Rip: 24 * in}}},
		Extra: []project.Extra{{Name: "Push block", Length: 10 * in, Width: 4 * in, Count: 1, Material: "ply"}},
	}
	piece := func(x, y, l, w measure.Length, name string) mark.Piece {
		return mark.Piece{X: x, Y: y, L: l, W: w, Name: name}
	}
	k := in / 8
	r1, r2 := piece(0, 0, 48*in, 48*in, "R1"), piece(48*in+k, 0, 48*in-k, 48*in, "R2")
	strip, rest := piece(0, 0, 48*in, 21*in, "R1a"), piece(0, 21*in+k, 48*in, 27*in-k, "keep")
	a, left := piece(0, 0, 23*in+in/4, 21*in, "A"), piece(23*in+in/4+k, 0, 48*in-23*in-in/4-k, 21*in, "R1a")
	a2, waste := left, piece(47*in, 0, in, 21*in, "waste")
	a2.L, a2.Name = 23*in+in/4, "A"
	c := piece(r2.X, 0, 34*in, 48*in, "C")
	steps := work.Steps{
		Store: []work.Cut{{ID: "cut/0/s", N: 1, Tier: nest.StoreTier, Verb: work.Breakup, Dir: nest.X, Piece: piece(0, 0, 96*in, 48*in, ""),
			Makes: []mark.Piece{r1, r2}, Kinds: []work.Outcome{work.ToCut, work.ToCut}, Lines: []int{-1, -1}, At: 48 * in, Kerf: k, Set: 48 * in, Ride: work.LeftEdge, RideIs: work.FactoryEdge, Line: -1}},
		Shop: []work.Cut{
			{ID: "cut/0/a", N: 1, Verb: work.Rip, Dir: nest.Y, Piece: r1, Makes: []mark.Piece{strip, rest}, Kinds: []work.Outcome{work.ToCut, work.ToKeep}, Lines: []int{-1, -1},
				At: 21 * in, Kerf: k, Set: 21 * in, Ride: work.TopEdge, RideIs: work.FactoryEdge, Saw: "table saw", SawIs: "table", Guide: work.Fence, After: []string{"cut/0/s"}, Line: -1, Cautions: []work.Hazard{work.Kickback}},
			{ID: "cut/0/b", N: 2, Verb: work.Crosscut, Dir: nest.X, Piece: strip, Makes: []mark.Piece{a, left}, Kinds: []work.Outcome{work.ToPart, work.ToCut}, Lines: []int{0, -1},
				At: a.L, Kerf: k, Set: a.L, Ride: work.LeftEdge, RideIs: work.FactoryEdge, Saw: "table saw", SawIs: "table", Guide: work.Stop, After: []string{"cut/0/a"}, Line: 0, Cautions: []work.Hazard{work.SledStop, work.BigPiece}},
			{ID: "cut/0/c", N: 3, Verb: work.Crosscut, Dir: nest.X, Piece: left, Makes: []mark.Piece{a2, waste}, Kinds: []work.Outcome{work.ToPart, work.ToWaste}, Lines: []int{0, -1},
				At: a2.L, Kerf: k, Set: a2.L, Ride: work.LeftEdge, RideIs: work.SawnEdge, Saw: "table saw", SawIs: "table", Guide: work.Stop, Same: true, SameAs: []int{2}, After: []string{"cut/0/b"}, Line: 0},
			{ID: "cut/0/d", N: 4, Verb: work.Crosscut, Dir: nest.X, Piece: r2, Makes: []mark.Piece{c}, Kinds: []work.Outcome{work.ToPart}, Lines: []int{1},
				At: 34 * in, Kerf: k, Set: 34 * in, Ride: work.RightEdge, RideIs: work.FactoryEdge, Saw: "", SawIs: "track", Guide: work.Track, After: []string{"cut/0/s"}, Line: 1, Rest: 13 * in, Cautions: []work.Hazard{work.Bridge}},
		},
		Rough: []work.Rough{{Name: "R1", Piece: r1, RoughEdges: []work.Edge{work.RightEdge}}, {Name: "R2", Piece: r2, RoughEdges: []work.Edge{work.LeftEdge}}},
		Ends: []work.End{{Piece: a, Is: work.ToPart, Line: 0, By: "cut/0/b"}, {Piece: a2, Is: work.ToPart, Line: 0, By: "cut/0/c"},
			{Piece: c, Is: work.ToPart, Line: 1, By: "cut/0/d", Rough: 1}, {Piece: rest, Is: work.ToKeep, Line: -1, By: "cut/0/a"}},
	}
	sides := part.Sum(part.Term{Name: "target", Times: 1, Value: 36 * in}, part.Term{Name: "bottom and top, measured", Times: -2, Value: 182 * mm / 10}).RoundedBy(measure.Tape{}.Floor)
	cart := design.Cart{
		Lines: []part.Line{
			{Tag: "A", Name: "Side", Material: "ply", Length: 23*in + in/4, Width: 21 * in, Thick: 182 * mm / 10, Count: 2, Parts: []part.ID{"side-left", "side-right"}, Match: "uprights",
				Reasons: [3]part.Reason{sides, part.Sum(part.Term{Name: "depth of the case", Times: 1, Value: 21 * in})}},
			{Tag: "B", Name: "Bottom", Material: "ply", Length: 34 * in, Width: 21*in + 7*in/32, Thick: 182 * mm / 10, Count: 1, Parts: []part.ID{"bottom"}, Grain: part.AlongLength},
			{Tag: "C", Name: "Push block", Material: "oak", Length: 10 * in, Width: 4 * in, Thick: 3 * in / 4, Count: 1, Grain: part.AnyWay},
		},
		Parts:  []part.Part{{ID: "side-left", Name: "Side, left", LengthAxis: 2, WidthAxis: 1, Front: "front edge"}, {ID: "side-right", Name: "Side, right", LengthAxis: 2, WidthAxis: 1, GoodHigh: true}, {ID: "bottom", Name: "Bottom", WidthAxis: 1, GoodHigh: true}},
		Joints: []part.Joint{{A: "side-left", B: "bottom"}, {A: "side-right", B: "bottom"}, {A: "bottom", B: "gone", Kind: part.Resting}},
		Bays: []design.Bay{
			{Name: "Drawer bay", Inside: geom.At(0, 0, 0, 16*in, 20*in, 23*in), Clear: geom.At(0, 0, 0, 16*in, 20*in, 23*in), Openings: []design.Opening{{Kind: "drawer", Cell: geom.At(0, 0, 0, 16*in, 20*in, 22*in), Drawer: 1}}},
			{Inside: geom.At(17*in, 0, 0, 31*in/2, 20*in, 23*in), Clear: geom.At(17*in, 0, 0, 31*in/2, 20*in, 23*in), Openings: []design.Opening{{Name: "Bay 2", Kind: "open", Cell: geom.At(17*in, 0, 0, 31*in/2, 20*in, 23*in)}}},
		},
		Drawers: []design.Drawer{{Box: geom.At(0, 0, 0, 14*in+31*in/32, 20*in, 7*in), Slide: 20 * in}},
		Chain:   []design.Link{{Name: "casters", Height: 6 * in, Path: "base.caster.mount"}, {Name: "sides", Height: 23*in + in/4}, {Name: "planer table", Height: 5*in + in/4, Path: "machine.table"}},
		Target:  36*in + in/16, Reached: 36 * in, Surface: 36 * in,
	}
	v := View{
		Place: place, Project: p, Cart: cart, Steps: steps,
		Job: nest.Job{Parts: []nest.Part{{ID: "A", Count: 2}, {ID: "B", Count: 1}}, Stock: []nest.Stock{{ID: "full", Material: "ply", L: 96 * in, W: 48 * in, Grain: nest.Along}},
			Kerf: k, Store: nest.Store{Cuts: 3, Kerf: k, Trim: in / 4}, Car: []nest.Size{{L: 50 * in, W: 38 * in}, {L: 60 * in, W: 8 * in}}},
		Plan: nest.Plan{Sheets: []nest.Layout{{}}, Bought: 1, StoreCuts: 1, AtLeast: 1},
		Buy: work.Shopping{Rows: []work.Buy{
			{Name: "Birch plywood 3/4 in, 96 × 48 in", Count: 1, Price: 7200, Total: 7200, ID: "full"},
			{Name: "Pull", Count: 2, Home: 1, Total: 1100, Why: "3 drawers × 1"}, {Name: "Glue", Count: 1, NoPrice: true}},
			StoreCut: 150, Total: 8450, Unpriced: 1},
		Report: check.Report{Empty: 98 * measure.Pound, Loaded: 200 * measure.Pound,
			Weights: []check.Weight{{Name: "Birch plywood 3/4 in", How: "4 parts, 20.1 L × 680 kg/m³", Mass: 80 * measure.Pound}},
			Sums: []check.Sum{
				{Title: "Load on one caster", Rows: []check.SumRow{{Cause: "on each of 3", Factors: "÷ 3", Result: "66.7 lb"}}, Verdict: "fine", State: check.Fine, Source: "Common practice."},
				{Title: "Tipping", Verdict: "not checked"}}},
		Findings: issue.List{
			{Level: issue.Block, Code: "design.chain", Where: []string{"lineUp.surface"}, Args: []any{-5 * in / 4, 3 * in, 17 * in / 4}},
			{Level: issue.Warn, Code: "design.holds", Where: []string{"cabinet.bays.1.openings.0.holds", "cabinet.bays"}, Args: []any{"Bay 2", "hose reel", "wide", 16 * in, 31 * in / 2, in / 2}},
			{Level: issue.Note, Code: "work.small", Where: []string{"C"}, Args: []any{"C", "Push block", 10 * in, 4 * in}},
			{Level: issue.Note, Code: "work.small", Where: []string{"D"}, Args: []any{"D", "Strip", 10 * in, in}},
			{Level: issue.Note, Code: "work.small", Where: []string{"E"}, Args: []any{"E", "Strip", 12 * in, in}},
		},
		Wrong:    map[string]Wrong{"cabinet.depth": {"23 5/", "a number is missing after the slash"}},
		Was:      map[string]string{"strip/weight": "98.5", "strip/problems": "3", "cabinet.bays.0.width": "16 1/2"},
		Saved:    "Saved on this device, 10:42",
		CanUndo:  true,
		Projects: []Stored{{"p1", "Small cart", "24 Nov 10:42"}, {"p2", "", "23 Nov 09:00"}},
		Awake:    "on",
	}
	switch place {
	case Size:
		v.Nearby = Nearby{All: 9, Left: 4, Listed: true, Offers: []Nearer{nearer(v)}}
	case Parts:
		v.Selected = "part/A"
	case Saw:
		v.Held, v.Digest = true, "d1"
		v.State = mark.Fold(marked(steps.Store[0], steps.Shop[0], steps.Shop[1]))
	}
	return v
}

// marked is a journal in which these cuts are made, in this order, after the
// plan d1 was accepted.
func marked(cuts ...work.Cut) []mark.Mark {
	j := []mark.Mark{{Device: "x", Seq: 1, Lamport: 1, Kind: mark.Accepted, Plan: "d1"}}
	for _, c := range cuts {
		j = append(j, c.Mark("d1", mark.Next(j, "x", "")))
	}
	return j
}

// nearer is an offer: the case 3/8 in less deep takes a sheet and a store cut
// less, 84.00 in all; its drawer runs on slides of 18 in, not 20, and its open
// bay is 3/8 in shallower.
func nearer(v View) Nearer {
	c := v.Cart
	c.Drawers = []design.Drawer{v.Cart.Drawers[0]}
	c.Drawers[0].Slide = 18 * in
	c.Bays = append([]design.Bay(nil), c.Bays...)
	c.Bays[1].Inside = geom.At(17*in, 0, 0, 31*in/2, 20*in-3*in/8, 23*in)
	o := Nearer{Size: "cabinet.depth", By: -3 * in / 8, Value: 21*in - 3*in/8, Cart: c, Job: v.Job, Plan: v.Plan, Buy: v.Buy, Findings: v.Findings}
	o.Plan.Sheets, o.Plan.Bought, o.Plan.StoreCuts = nil, 0, v.Plan.StoreCuts-1
	o.Buy.Total -= 8400
	return o
}
