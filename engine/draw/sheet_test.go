package draw_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/draw"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/scene"
	"cartwright/engine/svg"
	"cartwright/engine/work"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func in(s string) measure.Length {
	l, err := measure.Tape{}.Parse(s)
	if err != nil {
		panic(err)
	}
	return l
}

// A bench is a job with its plan and steps.
type bench struct {
	job   nest.Job
	plan  nest.Plan
	lines []part.Line
	steps work.Steps
	tape  measure.Tape
}

// planer is a cabinet of our own: ply with store cuts, boards, an offcut at
// home, parts from large to tiny.
func planer(t *testing.T) bench {
	t.Helper()
	b := bench{job: nest.Job{
		Kerf:  in("1/8"),
		Store: nest.Store{Cuts: 4, Kerf: in("1/8"), Trim: in("1/4")},
		Car:   []nest.Size{{L: in("50"), W: in("38")}, {L: in("97"), W: in("12")}},
		Stock: []nest.Stock{
			{ID: "shelf", Material: "ply", L: in("30"), W: in("22"), Count: 1, Grain: nest.Along, AtShop: true},
			{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Along, Price: 8400},
			{ID: "board", Material: "maple", L: in("72"), W: in("2 1/2"), Count: -1, Grain: nest.Along, Price: 1700},
		},
	}}
	for i, p := range []struct {
		name, material, l, w string
		count                int
		grain                nest.Grain
	}{
		{"Side", "ply", "23 1/4", "21", 3, nest.Along},
		{"Bottom", "ply", "34", "21 7/32", 1, nest.Along},
		{"Top", "ply", "36", "22 1/2", 1, nest.Along},
		{"Front", "ply", "8 1/2", "15 21/32", 2, nest.Across},
		{"Stretcher", "ply", "32", "4", 2, nest.Along},
		{"Cleat", "ply", "6", "1 1/2", 4, nest.Free},
		{"Strip", "maple", "23 1/4", "3/4", 4, nest.Along},
	} {
		b.job.Parts = append(b.job.Parts, nest.Part{ID: part.Tag(i), Material: p.material, L: in(p.l), W: in(p.w), Count: p.count, Grain: p.grain})
		b.lines = append(b.lines, part.Line{Tag: part.Tag(i), Name: p.name, Length: in(p.l), Width: in(p.w), Count: p.count})
	}
	for p := range nest.Search(b.job, nest.Options{Seed: 1, Tries: 60}) {
		if p.Plan != nil {
			b.plan = *p.Plan
		}
	}
	if len(b.plan.Sheets) < 3 || len(b.plan.Left) > 0 {
		t.Fatalf("plan: %+v", b.plan)
	}
	b.saw()
	return b
}

// pictured is the sheet of the pictures in the look's direction and two more,
// planned by hand, so that a better search does not redraw them.
func pictured() bench {
	b := bench{job: nest.Job{
		Kerf:  in("1/8"),
		Store: nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4")},
		Stock: []nest.Stock{
			{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Grain: nest.Along, Price: 7200},
			{ID: "board", Material: "maple", L: in("72"), W: in("2 1/2"), Count: -1, Grain: nest.Along, Price: 1700},
			{ID: "shelf", Material: "ply", L: in("30"), W: in("22"), Count: 1, Grain: nest.Along, AtShop: true},
		},
	}}
	for i, p := range []struct{ name, l, w string }{
		{"Side, left", "23 1/4", "21"}, {"Side, right", "23 1/4", "21"}, {"Partition", "23 1/4", "21"},
		{"Bottom", "34", "21 7/32"}, {"Top", "36", "22 1/2"},
		{"Upper front", "8 1/2", "15 21/32"}, {"Lower front", "14 15/32", "15 21/32"},
		{"Strip", "34", "3/4"}, {"Cleat", "6", "1 1/2"},
	} {
		b.job.Parts = append(b.job.Parts, nest.Part{ID: part.Tag(i), L: in(p.l), W: in(p.w), Count: 1})
		b.lines = append(b.lines, part.Line{Tag: part.Tag(i), Name: p.name, Length: in(p.l), Width: in(p.w), Count: 1})
	}
	leaf := func(k nest.Kind, l, w string) *nest.Node { return &nest.Node{Kind: k, L: in(l), W: in(w)} }
	keep := func(l, w string) *nest.Node { return leaf(nest.Offcut, l, w) }
	waste := func(l, w string) *nest.Node { return leaf(nest.Waste, l, w) }
	piece := func(i int) *nest.Node {
		return &nest.Node{Kind: nest.Piece, Part: i, L: b.job.Parts[i].L, W: b.job.Parts[i].W}
	}
	cut := func(t nest.Tier, d nest.Dir, kids ...*nest.Node) *nest.Node {
		n := &nest.Node{Kind: nest.Cut, Tier: t, Dir: d, Kids: kids, L: kids[0].L, W: kids[0].W}
		for _, k := range kids[1:] {
			if d == nest.X {
				n.L += in("1/8") + k.L
			} else {
				n.W += in("1/8") + k.W
			}
		}
		return n
	}
	x := func(kids ...*nest.Node) *nest.Node { return cut(nest.ShopTier, nest.X, kids...) }
	y := func(kids ...*nest.Node) *nest.Node { return cut(nest.ShopTier, nest.Y, kids...) }
	rough := func(l, w string, core *nest.Node) *nest.Node {
		return &nest.Node{Kind: nest.Trim, L: in(l), W: in(w), Core: core}
	}
	fronts := x(piece(5), piece(6), waste("1 5/32", "15 21/32"))
	ply := cut(nest.StoreTier, nest.X,
		cut(nest.StoreTier, nest.Y,
			rough("48", "24", y(x(piece(0), piece(1), waste("1", "21")), keep("47 3/4", "2 5/8"))),
			rough("48", "23 7/8", y(keep("47 3/4", "2 1/2"), x(piece(2), y(keep("24 3/8", "5 7/32"), fronts))))),
		cut(nest.StoreTier, nest.Y,
			rough("47 7/8", "24", y(x(keep("13 1/2", "21 7/32"), piece(3)), keep("47 5/8", "2 13/32"))),
			rough("47 7/8", "23 7/8", y(waste("47 5/8", "1"), x(keep("11 1/2", "22 1/2"), piece(4))))))
	board := y(x(piece(7), piece(7), waste("3 3/4", "3/4")), x(piece(7), keep("37 7/8", "3/4")), keep("72", "3/4"))
	shelf := x(y(piece(8), piece(8), piece(8), waste("6", "17 1/8")), keep("23 7/8", "22"))
	b.plan.Sheets = []nest.Layout{{Stock: 0, Root: ply}, {Stock: 1, Root: board}, {Stock: 2, Root: shelf}}
	b.saw()
	return b
}

// saw gives b its steps.
func (b *bench) saw() {
	b.steps = work.Saw(b.job, b.plan, b.lines, []project.Saw{
		{Name: "Table saw", Kind: "table", Rip: in("30")}, {Name: "Track saw", Kind: "track"},
		{Name: "Mitre saw", Kind: "mitre", Crosscut: in("12")},
	}, b.tape)
}

// after is how the work stands when the first n cuts are made.
func (b bench) after(n int) work.Standing {
	var j []mark.Mark
	for i, c := range append(append([]work.Cut(nil), b.steps.Store...), b.steps.Shop...) {
		if i < n {
			j = append(j, c.Mark("p", mark.Next(j, "a", "")))
		}
	}
	return work.Progress(b.steps, mark.Fold(j), "p")
}

func (b bench) sheet(done, which, w, h int, o draw.SheetOptions) scene.Scene {
	return draw.Sheet(b.job, b.plan, b.steps, b.after(done), b.lines, b.tape, which, w, h, o)
}

// words lists what is read on a drawing, with the room it takes.
func words(s scene.Scene) (names []string, at []scene.Rect) {
	for _, it := range s.Items {
		switch it := it.(type) {
		case scene.Label:
			names, at = append(names, it.Text), append(at, it.Extent())
		case scene.Badge:
			names, at = append(names, it.Text), append(at, it.Extent())
		}
	}
	return names, at
}

// TestNothingCovers: at every state of the work and every size of screen no
// word or badge covers another, nothing leaves the drawing, no text is under
// 14 px, and every cut that can be marked has one spot.
func TestNothingCovers(t *testing.T) {
	b := planer(t)
	for _, b := range []bench{b, pictured()} {
		covers(t, b)
	}
}

func covers(t *testing.T, b bench) {
	t.Helper()
	total := len(b.steps.Store) + len(b.steps.Shop)
	for _, size := range [][2]int{{780, 450}, {700, 600}, {390, 560}, {340, 300}, {1100, 700}} {
		for done := 0; done <= total; done++ {
			for which := range b.plan.Sheets {
				s := b.sheet(done, which, size[0], size[1], draw.SheetOptions{})
				names, at := words(s)
				for i := range at {
					for j := range i {
						if at[i].Meets(at[j]) && !legend(names[i]) && !legend(names[j]) {
							t.Errorf("%v, %d done, sheet %d: %q covers %q", size, done, which, names[i], names[j])
						}
					}
					if at[i].Min.X < 0 || at[i].Min.Y < 0 || at[i].Max.X > s.W || at[i].Max.Y > s.H {
						t.Errorf("%v, %d done, sheet %d: %q leaves the drawing: %v", size, done, which, names[i], at[i])
					}
				}
				for _, it := range s.Items {
					if l, ok := it.(scene.Label); ok && l.Size < 14*scene.PX {
						t.Errorf("%q is %d/16 px high", l.Text, l.Size)
					}
				}
				spots(t, b, s, done, which)
			}
			if t.Failed() {
				t.FailNow()
			}
		}
	}
}

func legend(s string) bool {
	return s == "waste" || s == "keep" || s == "done" || s == "to do" || s == "at the store" || s == "rough store edge"
}

// spots checks that each cut and each part of a sheet can be tapped.
func spots(t *testing.T, b bench, s scene.Scene, done, which int) {
	t.Helper()
	have := map[string]int{}
	for _, sp := range s.Spots {
		have[sp.Ref]++
	}
	for i, c := range append(append([]work.Cut(nil), b.steps.Store...), b.steps.Shop...) {
		want := 0
		if c.Sheet == which && (c.Tier == nest.ShopTier || i >= done) {
			want = 1
		}
		if have[c.ID] != want {
			t.Errorf("%d done, sheet %d: cut %s has %d spots, want %d", done, which, c.ID, have[c.ID], want)
		}
	}
	for _, e := range b.steps.Ends {
		if ref := "part/" + part.Tag(max(e.Line, 0)); e.Is == work.ToPart && e.Piece.Sheet == which && have[ref] == 0 {
			t.Errorf("sheet %d: %s cannot be tapped", which, ref)
		}
	}
}

// TestSigns: marking one cut changes that cut's signs and no other's.
func TestSigns(t *testing.T) {
	b := planer(t)
	n := len(b.steps.Store)
	count := func(done int) (pennants, ticks, solid, next int) {
		s := b.sheet(done, draw.AllSheets, 780, 450, draw.SheetOptions{})
		for _, it := range s.Items {
			switch it := it.(type) {
			case scene.Badge:
				switch it.Shape {
				case scene.PennantD, scene.PennantR:
					pennants++
				case scene.Ticked:
					ticks++
				case scene.PartSolid:
					solid++
				}
			case scene.Line:
				if it.Pen == scene.Next {
					next++
				}
			}
		}
		return
	}
	parts := 0
	for i, c := range b.steps.Shop {
		p, ticks, solid, next := count(n + i)
		if p != 1 || next != 1 {
			t.Errorf("%d cuts done: %d pennants, %d bands", i, p, next)
		}
		if ticks > i || solid > parts {
			t.Errorf("%d cuts done: %d ticks, %d of %d parts solid", i, ticks, solid, parts)
		}
		for _, k := range c.Kinds {
			if k == work.ToPart {
				parts++
			}
		}
	}
	if p, _, _, next := count(n + len(b.steps.Shop)); p != 0 || next != 0 {
		t.Errorf("all done: %d pennants, %d bands", p, next)
	}
}

// TestOtherSize: a part that came out 1/8 in short shows both sizes, and its
// cut the unequal sign.
func TestOtherSize(t *testing.T) {
	b := planer(t)
	n := len(b.steps.Store) + len(b.steps.Shop)
	st := b.after(n)
	var e work.End
	for _, e = range b.steps.Ends {
		if e.Is == work.ToPart && e.Line == 1 {
			break
		}
	}
	st.Sizes = []mark.Size{{Piece: e.Piece, L: e.Piece.L - in("1/8"), W: e.Piece.W}}
	for i := range st.Shop {
		st.Shop[i].Unequal = st.Shop[i].ID == e.By
	}
	s := draw.Sheet(b.job, b.plan, b.steps, st, b.lines, b.tape, e.Piece.Sheet, 780, 450, draw.SheetOptions{})
	struck, real, unequal := 0, 0, 0
	for _, it := range s.Items {
		switch it := it.(type) {
		case scene.Label:
			if it.Strike && it.Text == "34 × 21 7\u204432" {
				struck++
			}
			if it.Back == scene.Lit && it.Text == "33 7\u20448 × 21 7\u204432" {
				real++
			}
		case scene.Badge:
			if it.Shape == scene.Unequal {
				unequal++
			}
		}
	}
	if struck != 1 || real != 1 || unequal != 1 {
		t.Errorf("%d struck, %d real sizes, %d signs; want one each", struck, real, unequal)
	}
}

// TestTapTheNextCut: a finger on the band of the next cut finds that cut, at
// phone and tablet size.
func TestTapTheNextCut(t *testing.T) {
	b := planer(t)
	for _, w := range []int{780, 390} {
		for done := range len(b.steps.Store) + len(b.steps.Shop) {
			st := b.after(done)
			s := b.sheet(done, draw.NextSheet, w, 520, draw.SheetOptions{})
			for _, it := range s.Items {
				l, ok := it.(scene.Line)
				if !ok || l.Pen != scene.Next || s.Spots[len(s.Spots)-1].Ref != st.Next {
					continue
				}
				mid := scene.Pt{X: (l.Pts[0].X + l.Pts[1].X) / 2, Y: (l.Pts[0].Y + l.Pts[1].Y) / 2}
				sp := s.Spots[len(s.Spots)-1]
				if !sp.At.Holds(mid) {
					continue // the small overview above the piece at hand
				}
				if got, ok := scene.Pick(s, mid); !ok || got.Ref != st.Next {
					t.Errorf("%d px, %d done: tap finds %q, want %q", w, done, got.Ref, st.Next)
				}
			}
		}
	}
}

// TestGolden draws what people look at.
func TestGolden(t *testing.T) {
	b := pictured()
	if len(b.steps.Findings) > 0 && b.steps.Findings.Blocked() {
		t.Fatal(b.steps.Findings)
	}
	n := len(b.steps.Store)
	for name, s := range map[string]scene.Scene{
		"sheet-store":    b.sheet(0, draw.NextSheet, 780, 450, draw.SheetOptions{}),
		"sheet-saw":      b.sheet(n+14, draw.NextSheet, 780, 450, draw.SheetOptions{}),
		"sheet-selected": b.sheet(n+3, draw.NextSheet, 780, 450, draw.SheetOptions{Selected: "part/A"}),
		"sheet-phone":    b.sheet(n+14, draw.NextSheet, 390, 600, draw.SheetOptions{}),
		"sheet-print":    b.sheet(n+8, draw.AllSheets, 700, 420, draw.SheetOptions{Print: true}),
		"card-print":     draw.Card(b.job, b.plan, b.steps, b.tape, 0, 718, 1000, card),
		"card-phone":     draw.Card(b.job, b.plan, b.steps, b.tape, 0, 360, 0, card),
		"card-sheet":     draw.CardSheet(b.job, b.plan, b.steps, b.tape, 0, 700, 400),
		"groove":         printedGroove(t, "groove"),
		"groove-router":  printedGroove(t, "router"),
		"groove-board":   printedGroove(t, "buried blade"),
		"groove-mitre":   printedGroove(t, "mitre"),
	} {
		got := svg.Render(s, svg.Options{Standalone: true})
		file := filepath.Join("testdata", name+".svg")
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s is not drawn as it was; look at it, then run with -update", name)
		}
	}
}

var card = draw.CardOptions{Material: "Birch plywood 3⁄4 in", Within: in("1/8"), Car: "4 pieces flat; floor 50 × 38",
	Weight: "about 81 lb: two people", Project: "Planer cart", Printed: "24 Nov, 10:42"}

// TestCard: the card says each cut once, with its measure, and names every
// piece that leaves the store.
func TestCard(t *testing.T) {
	b := planer(t)
	for i := range b.plan.Sheets {
		s := draw.Card(b.job, b.plan, b.steps, b.tape, i, 718, 1000, card)
		var all []string
		for _, it := range s.Items {
			if l, ok := it.(scene.Label); ok {
				all = append(all, l.Text)
				if e := l.Extent(); e.Min.X < 0 || e.Max.X > s.W || e.Max.Y > s.H {
					t.Errorf("sheet %d: %q leaves the card: %v", i, l.Text, e)
				}
			}
		}
		text := strings.Join(all, "|")
		cuts := 0
		for _, c := range b.steps.Store {
			if c.Sheet != i {
				continue
			}
			cuts++
			// The figure, the dimension on the drawing, and the sentence.
			if n := strings.Count(text, b.tape.Show(c.Set)); n < 3 {
				t.Errorf("sheet %d: %s stands %d times", i, b.tape.Show(c.Set), n)
			}
		}
		if len(s.Spots) != cuts {
			t.Errorf("sheet %d: %d spots for %d cuts", i, len(s.Spots), cuts)
		}
		for _, r := range b.steps.Rough {
			if r.Sheet == i && !strings.Contains(text, r.Name) {
				t.Errorf("sheet %d: %s is not named", i, r.Name)
			}
		}
	}
}

// TestEmpty: nothing to draw is no reason to panic.
func TestEmpty(t *testing.T) {
	for _, which := range []int{draw.NextSheet, draw.AllSheets, 0, 7} {
		for _, w := range []int{0, 1, 50} {
			draw.Sheet(nest.Job{}, nest.Plan{}, work.Steps{}, work.Standing{}, nil, measure.Tape{}, which, w, w, draw.SheetOptions{})
			b := planer(t)
			b.sheet(0, which, w, w, draw.SheetOptions{})
			draw.Card(b.job, b.plan, b.steps, b.tape, which, w, w, card)
			draw.CardSheet(b.job, b.plan, b.steps, b.tape, which, w, w)
			b.plan.Sheets = []nest.Layout{{Stock: 9}}
			b.sheet(0, which, w, w, draw.SheetOptions{})
			draw.Card(b.job, b.plan, b.steps, b.tape, which, w, w, card)
		}
	}
}

// BenchmarkSheet draws one sheet with the words in their places, as after
// every mark.
func BenchmarkSheet(b *testing.B) {
	p := planer(&testing.T{})
	st := p.after(len(p.steps.Store) + 8)
	for b.Loop() {
		draw.Sheet(p.job, p.plan, p.steps, st, p.lines, p.tape, draw.NextSheet, 780, 450, draw.SheetOptions{})
	}
}
