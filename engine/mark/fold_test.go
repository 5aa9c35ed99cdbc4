package mark

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"cartwright/engine/measure"
)

// A sheet of 96 × 48 in is cut at 48, its left half at 24.
var (
	whole = Piece{L: 96 * measure.Inch, W: 48 * measure.Inch}
	left  = Piece{L: 48 * measure.Inch, W: 48 * measure.Inch}
	right = Piece{X: 48*measure.Inch + measure.Inch/8, L: 48*measure.Inch - measure.Inch/8, W: 48 * measure.Inch}
	upper = Piece{L: 48 * measure.Inch, W: 24 * measure.Inch}
)

// entry reads one entry: device, number, Lamport number, then what it says:
// "done across", "done along" (the left half), "undo a1", "accept p2 p1",
// "measured ply 18 mm", "bought ply".
func entry(t *testing.T, s string) Mark {
	t.Helper()
	f := strings.Fields(s)
	m := Mark{Device: f[0][:1]}
	if _, err := fmt.Sscanf(f[0][1:]+" "+f[1], "%d %d", &m.Seq, &m.Lamport); err != nil {
		t.Fatal(err)
	}
	switch f[2] {
	case "done":
		m.Kind, m.Plan = Done, "p"
		if f[3] == "across" {
			p := whole
			m.Piece, m.Axis, m.At, m.Pieces = &p, "x", 48*measure.Inch, []Piece{left, right}
		} else {
			p := left
			m.Piece, m.Axis, m.At, m.Pieces = &p, "y", 24*measure.Inch, []Piece{upper}
		}
	case "undo":
		m.Kind = Undone
		r := Ref{Device: f[3][:1]}
		fmt.Sscan(f[3][1:], &r.Seq)
		m.Undoes = &r
	case "accept":
		m.Kind, m.Plan = Accepted, f[3]
		if len(f) > 4 {
			m.Prior = f[4]
		}
	case "measured":
		m.Kind, m.On = Measured, f[3]
		v, err := measure.Parse(strings.Join(f[4:], " "))
		if err != nil {
			t.Fatal(err)
		}
		m.Value = v
	case "bought":
		m.Kind, m.On = Bought, f[3]
	}
	return m
}

func journal(t *testing.T, lines ...string) []Mark {
	t.Helper()
	var out []Mark
	for _, l := range lines {
		out = append(out, entry(t, l))
	}
	return out
}

// stands tells a state in a few words.
func stands(s State) string {
	var w []string
	if _, ok := s.Cut("p", whole, "x", 48*measure.Inch); ok {
		w = append(w, "across")
	}
	if _, ok := s.Cut("p", left, "y", 24*measure.Inch); ok {
		w = append(w, "along")
	}
	for _, m := range s.Restored {
		w = append(w, "restored "+m.Axis)
	}
	if s.Plan != "" {
		w = append(w, "plan "+s.Plan)
	}
	for _, o := range s.Others {
		w = append(w, "but "+o)
	}
	if v, ok := s.Value("ply"); ok {
		w = append(w, measure.Tape{Metric: true}.Text(v))
	}
	if s.Bought("ply") {
		w = append(w, "bought")
	}
	return strings.Join(w, ", ")
}

var foldTests = []struct {
	name    string
	journal []string
	want    string
}{
	{"nothing", nil, ""},
	{"a cut", []string{"a1 1 done across"}, "across"},
	{"undone", []string{"a1 1 done across", "a2 2 undo a1"}, ""},
	{"done again", []string{"a1 1 done across", "a2 2 undo a1", "a3 3 done across"}, "across"},
	{"the undo undone", []string{"a1 1 done across", "a2 2 undo a1", "a3 3 undo a2"}, "across"},
	{"an undo of what comes later is none", []string{"a1 1 undo a2", "a2 2 done across"}, "across"},
	{"an undo of nothing", []string{"a1 1 done across", "a2 2 undo b7"}, "across"},
	{"two cuts, both taken back", []string{"a1 1 done across", "a2 2 done along", "a3 3 undo a2", "a4 4 undo a1"}, ""},
	{"two devices mark one cut, one takes it back",
		[]string{"a1 1 done across", "b1 1 done across", "a2 2 undo a1"}, ""},
	{"taken back here while there the piece was cut on",
		[]string{"a1 1 done across", "a2 2 undo a1", "b1 2 done along"}, "across, along, restored x"},
	{"the same, and the second cut taken back too",
		[]string{"a1 1 done across", "a2 2 undo a1", "b1 2 done along", "b2 3 undo b1"}, ""},
	{"a plan", []string{"a1 1 accept p1"}, "plan p1"},
	{"the next plan on the same device", []string{"a1 1 accept p1", "a2 2 accept p2 p1"}, "plan p2"},
	{"on another device that knew", []string{"a1 1 accept p1", "b1 2 accept p2 p1"}, "plan p2"},
	{"on another device that did not", []string{"a1 1 accept p1", "b1 1 accept p2"}, "plan p2, but p1"},
	{"settled by a third entry", []string{"a1 1 accept p1", "b1 1 accept p2", "b2 2 accept p3 p1"}, "plan p3"},
	{"the same plan twice is no conflict", []string{"a1 1 accept p1", "b1 1 accept p1"}, "plan p1"},
	{"the later measure counts", []string{"a1 1 measured ply 18 mm", "a2 2 measured ply 17.5 mm"}, "17.5 mm"},
	{"and the earlier if it is taken back",
		[]string{"a1 1 measured ply 18 mm", "a2 2 measured ply 17.5 mm", "a3 3 undo a2"}, "18 mm"},
	{"bought", []string{"a1 1 bought ply"}, "bought"},
	{"bought and brought back", []string{"a1 1 bought ply", "a2 2 undo a1"}, ""},
}

func TestFold(t *testing.T) {
	for _, tt := range foldTests {
		j := journal(t, tt.journal...)
		if got := stands(Fold(j)); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
		slices.Reverse(j)
		if got := stands(Fold(append(j, j...))); got != tt.want {
			t.Errorf("%s, backwards and twice: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestNext(t *testing.T) {
	j := journal(t, "a1 1 done across", "b1 7 bought ply", "a2 3 bought ply")
	if s := Next(j, "a", "now"); s != (Stamp{"a", 3, 8, "now"}) {
		t.Errorf("next of a is %v", s)
	}
	if s := Next(j, "c", ""); s != (Stamp{"c", 1, 8, ""}) {
		t.Errorf("next of c is %v", s)
	}
}

// randomJournal is a journal with few devices and numbers, so that much of it
// clashes.
func randomJournal(r *rand.Rand, n int) []Mark {
	out := []Mark{}
	for range n {
		m := Mark{Device: string(rune('a' + r.IntN(3))), Seq: 1 + r.IntN(6), Lamport: 1 + r.IntN(6)}
		switch r.IntN(5) {
		case 0:
			p := whole
			m.Kind, m.Plan, m.Piece, m.Axis, m.At, m.Pieces = Done, "p", &p, "x", 48*measure.Inch, []Piece{left, right}
		case 1:
			p := left
			m.Kind, m.Plan, m.Piece, m.Axis, m.At, m.Pieces = Done, "p", &p, "y", 24*measure.Inch, []Piece{upper}
		case 2:
			m.Kind, m.Undoes = Undone, &Ref{string(rune('a' + r.IntN(3))), 1 + r.IntN(6)}
		case 3:
			m.Kind, m.Plan = Accepted, string(rune('p'+r.IntN(3)))
		default:
			m.Kind, m.On, m.Value = Measured, "ply", measure.Length(r.IntN(3))
		}
		out = append(out, m)
	}
	return out
}

// TestMergeLaws: the order in which devices meet does not matter, meeting
// twice changes nothing, and nothing is lost.
func TestMergeLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 0))
	for range 500 {
		a, b, c := randomJournal(r, r.IntN(9)), randomJournal(r, r.IntN(9)), randomJournal(r, r.IntN(9))
		ab := Merge(a, b)
		if !reflect.DeepEqual(ab, Merge(b, a)) {
			t.Fatalf("not commutative: %v %v", a, b)
		}
		if !reflect.DeepEqual(Merge(ab, c), Merge(a, Merge(b, c))) {
			t.Fatalf("not associative: %v %v %v", a, b, c)
		}
		if !reflect.DeepEqual(Merge(ab, ab), ab) || !reflect.DeepEqual(Merge(ab, a), ab) {
			t.Fatalf("not idempotent: %v %v", a, b)
		}
		for _, m := range append(append([]Mark(nil), a...), b...) {
			if !slices.ContainsFunc(ab, func(n Mark) bool { return reflect.DeepEqual(m, n) }) {
				t.Fatalf("lost %v", m)
			}
		}
		if got, want := stands(Fold(ab)), stands(Fold(append(b, a...))); got != want {
			t.Fatalf("fold depends on the order: %q, %q", got, want)
		}
	}
}

// BenchmarkFold opens a journal of 10,000 entries.
func BenchmarkFold(b *testing.B) {
	var j []Mark
	for i := range 10000 {
		s := Next(j[max(0, len(j)-1):], "a", "")
		s.Seq = i + 1
		m := s.Entry(Done, "cut")
		p := Piece{Sheet: i, L: whole.L, W: whole.W}
		m.Plan, m.Piece, m.Axis, m.At, m.Pieces = "p", &p, "x", 48*measure.Inch, []Piece{left, right}
		if i%7 == 6 {
			m = s.Undo(j[i-1])
		}
		j = append(j, m)
	}
	for b.Loop() {
		Fold(j)
	}
}

// TestFindings: what cannot be settled without asking is said.
func TestFindings(t *testing.T) {
	l := Fold(journal(t, "a1 1 accept p1", "b1 1 accept p2")).Findings()
	if len(l) != 1 || l[0].Code != Conflict || !reflect.DeepEqual(l[0].Args, []any{"p2", "p1"}) {
		t.Errorf("two plans: %v", l)
	}
	l = Fold(journal(t, "a1 1 done across", "a2 2 undo a1", "b1 2 done along")).Findings()
	if len(l) != 1 || l[0].Code != Restored {
		t.Errorf("an undo that does not hold: %v", l)
	}
	if l := Fold(journal(t, "a1 1 done across", "a2 2 undo a1")).Findings(); len(l) != 0 {
		t.Errorf("an undo that holds: %v", l)
	}
}

// TestSizes: a piece came out narrower, then was measured along, then the
// first was taken back; sizes of one axis do not touch the other's.
func TestSizes(t *testing.T) {
	var j []Mark
	add := func(m Mark) Mark { j = append(j, m); return m }
	stamp := func() Stamp { return Next(j, "a", "") }
	narrow := add(stamp().Measure("p", upper, "y", 23*measure.Inch))
	add(stamp().Measure("p", upper, "x", 47*measure.Inch))
	want := Size{"p", upper, 47 * measure.Inch, 23 * measure.Inch}
	if s := Fold(j).Sizes; len(s) != 1 || s[0] != want {
		t.Errorf("%v, want %v", s, want)
	}
	add(stamp().Measure("p", upper, "y", 22*measure.Inch))
	want.W = 22 * measure.Inch
	if s := Fold(j).Sizes; len(s) != 1 || s[0] != want {
		t.Errorf("the later measure: %v, want %v", s, want)
	}
	add(stamp().Undo(j[2]))
	add(stamp().Undo(narrow))
	want.W = upper.W
	if s := Fold(j).Sizes; len(s) != 1 || s[0] != want {
		t.Errorf("taken back: %v, want %v", s, want)
	}
	if _, ok := Fold(j).Value(upper.Name); ok {
		t.Error("the size of a piece counts as a value of its own")
	}
}

// FuzzFold: whatever entries a file holds, folding does not panic and does not
// depend on their order; each mark that holds is found by its cut.
func FuzzFold(f *testing.F) {
	f.Add(uint64(1), 12)
	f.Fuzz(func(t *testing.T, seed uint64, n int) {
		r := rand.New(rand.NewPCG(seed, 9))
		j := randomJournal(r, max(n, -n)%40)
		s := Fold(j)
		for _, m := range s.Done {
			if got, ok := s.Cut(m.Plan, *m.Piece, m.Axis, m.At); !ok || !reflect.DeepEqual(got, m) {
				t.Errorf("%v holds, but for its cut stands %v", m, got)
			}
		}
		r.Shuffle(len(j), func(a, b int) { j[a], j[b] = j[b], j[a] })
		if a, b := stands(s), stands(Fold(j)); a != b {
			t.Errorf("%q, in another order %q", a, b)
		}
	})
}
