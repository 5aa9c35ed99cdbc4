package mark

import (
	"cmp"
	"slices"
	"strings"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// Codes of findings. Where names what it is about as the entry does. Journals
// that raise them stand in the tests.
const (
	// Orphan: a cut is marked done that neither the plan at hand has, nor a
	// plan that was in use before it. The mark is kept. Args: what was cut,
	// where (a Length). For a step at the bench that is gone: the step alone.
	Orphan issue.Code = "mark.orphan"

	// Conflict: plans were accepted on two devices, neither knowing of the
	// other. Args: digest of the one that is used, digest of the other.
	Conflict issue.Code = "mark.conflict"

	// Restored: a cut was marked undone on one device while another device
	// cut on with its pieces; it counts as done. Args: what was cut.
	Restored issue.Code = "mark.restored"
)

// Ref returns the name of m in the journal.
func (m Mark) Ref() Ref { return Ref{m.Device, m.Seq} }

// Compare orders entries: by Lamport number, then device, then Seq. Two
// entries that agree in all three, which only a copied device can make, are
// ordered by the rest of what they say; Compare is 0 only for equal entries.
func Compare(a, b *Mark) int {
	if a.Lamport != b.Lamport { // nearly always
		return cmp.Compare(a.Lamport, b.Lamport)
	}
	if c := cmp.Or(strings.Compare(a.Device, b.Device), cmp.Compare(a.Seq, b.Seq)); c != 0 {
		return c
	}
	return cmp.Or(
		strings.Compare(a.Time, b.Time), cmp.Compare(a.Kind, b.Kind), strings.Compare(a.On, b.On),
		strings.Compare(a.Plan, b.Plan), strings.Compare(a.Prior, b.Prior), orNone(a.Piece, b.Piece, comparePiece),
		strings.Compare(a.Axis, b.Axis), cmp.Compare(a.At, b.At),
		slices.CompareFunc(a.Pieces, b.Pieces, func(p, q Piece) int { return comparePiece(&p, &q) }),
		cmp.Compare(a.Value, b.Value), strings.Compare(a.Saw, b.Saw), orNone(a.Undoes, b.Undoes, compareRef),
	)
}

func comparePiece(a, b *Piece) int {
	return cmp.Or(cmp.Compare(a.Sheet, b.Sheet), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y),
		cmp.Compare(a.L, b.L), cmp.Compare(a.W, b.W), strings.Compare(a.Name, b.Name))
}

func compareRef(a, b *Ref) int {
	return cmp.Or(strings.Compare(a.Device, b.Device), cmp.Compare(a.Seq, b.Seq))
}

// orNone compares what entries may say or not: nothing comes first.
func orNone[T any](a, b *T, compare func(a, b *T) int) int {
	switch {
	case a == b:
		return 0
	case a == nil:
		return -1
	case b == nil:
		return 1
	}
	return compare(a, b)
}

// Merge returns the entries of both journals in order, equal ones once. It is
// commutative, associative and idempotent, and loses nothing.
func Merge(a, b []Mark) []Mark {
	a, b = Sorted(a), Sorted(b)
	all := make([]Mark, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		c := Compare(&a[0], &b[0])
		if c <= 0 {
			all, a = append(all, a[0]), a[1:]
		}
		if c == 0 {
			b = b[1:]
		} else if c > 0 {
			all, b = append(all, b[0]), b[1:]
		}
	}
	return append(append(all, a...), b...)
}

// Sorted returns the entries of a journal in order, equal ones once: the
// journal itself if it is so already, as nearly all are, else its halves
// merged. What storage has, device after device, takes few steps.
func Sorted(journal []Mark) []Mark {
	for i := 1; i < len(journal); i++ {
		if Compare(&journal[i-1], &journal[i]) >= 0 {
			half := len(journal) / 2
			return Merge(journal[:half], journal[half:])
		}
	}
	return journal
}

// A Stamp is what sets an entry apart: who made it, and when.
type Stamp struct {
	Device       string
	Seq, Lamport int
	Time         string
}

// Next returns the stamp of a new entry of device in the journal: the next
// number on the device, a Lamport number above every other.
func Next(journal []Mark, device, time string) Stamp {
	s := Stamp{Device: device, Time: time}
	for _, m := range journal {
		s.Lamport = max(s.Lamport, m.Lamport)
		if m.Device == device {
			s.Seq = max(s.Seq, m.Seq)
		}
	}
	s.Seq++
	s.Lamport++
	return s
}

// Entry returns an entry of the kind about on.
func (s Stamp) Entry(kind Kind, on string) Mark {
	return Mark{Device: s.Device, Seq: s.Seq, Lamport: s.Lamport, Time: s.Time, Kind: kind, On: on}
}

// Undo returns the entry that takes m back.
func (s Stamp) Undo(m Mark) Mark {
	u := s.Entry(Undone, m.On)
	ref := m.Ref()
	u.Undoes, u.Plan = &ref, m.Plan
	return u
}

// Measure returns the entry that says that a piece of the plan came out at v
// along axis ("x" or "y").
func (s Stamp) Measure(plan string, p Piece, axis string, v measure.Length) Mark {
	m := s.Entry(Measured, p.Name)
	m.Plan, m.Piece, m.Axis, m.Value = plan, &p, axis, v
	return m
}

// facts are what is the same in two marks on one cut or step.
type facts struct {
	on, axis string
	at       measure.Length
	piece    spot
}

// A spot is a piece on the plan's sheet, whatever it is called.
type spot struct {
	plan       string
	sheet      int
	x, y, l, w measure.Length
}

func spotOf(plan string, p *Piece) spot { return spot{plan, p.Sheet, p.X, p.Y, p.L, p.W} }

// factsOf says what m is about. A mark on a cut is about a piece and a place
// on it; its name does not matter.
func factsOf(m *Mark) facts {
	if m.Piece == nil {
		return facts{on: m.On}
	}
	return facts{axis: m.Axis, at: m.At, piece: spotOf(m.Plan, m.Piece)}
}

// A State is what stands after all entries of a journal.
type State struct {
	// Done are the marks that hold, in order, of cuts, steps and purchases; of
	// several on one thing the first.
	Done []Mark
	// Plan is the digest of the plan in use, "" if none was accepted. Others
	// are digests accepted without knowledge of it.
	Plan   string
	Others []string
	// Accepted are the digests of all plans that were ever in use, in order.
	Accepted []string
	// Restored are marks that were undone although their pieces had been cut
	// on; they are among Done.
	Restored []Mark

	// Sizes are the pieces that came out at another size, as they are now: X
	// and Y where the plan has them, L and W as measured.
	Sizes []Size

	// Flaws are the rectangles not to be used, in order.
	Flaws []Mark

	measured map[string]Mark
	spoiled  map[spot]Mark
	numbers  map[facts]int // of things that were marked at any time
	first    []int         // by number: the mark that holds, as its place in Done plus 1, or 0
}

// A Size is what a piece of a plan really measures.
type Size struct {
	Plan  string
	Piece Piece // as planned
	L, W  measure.Length
}

// Fold returns what stands after the journal. The order of the entries does
// not matter, nor do repeated ones.
//
// An undo takes back every mark on the same cut that its device had seen. It
// does not hold while a later mark uses a piece that came of the cut: such a
// mark proves that the cut was made.
func Fold(journal []Mark) State {
	all := Sorted(journal)
	s := State{measured: map[string]Mark{}, spoiled: map[spot]Mark{}, numbers: map[facts]int{}}

	// Which entries an undo names, and which marks are about the same thing:
	// each has a number, in order.
	named := map[Ref][]int{}
	for i := range all {
		if m := &all[i]; m.Kind == Undone && m.Undoes != nil {
			named[*m.Undoes] = nil
		}
	}
	about := make([]int, len(all))
	var marks [][]int // by number
	for i := range all {
		m := &all[i]
		if at, ok := named[m.Ref()]; ok {
			named[m.Ref()] = append(at, i)
		}
		if m.Kind == Done || m.Kind == Bought {
			f := factsOf(m)
			n, ok := s.numbers[f]
			if !ok {
				n = len(marks)
				s.numbers[f], marks = n, append(marks, nil)
			}
			about[i], marks[n] = n, append(marks[n], i)
		}
	}
	void := make([]bool, len(all))
	undone := make([]bool, len(marks))   // by an undo, which is later than those to come
	for i := len(all) - 1; i >= 0; i-- { // the latest first: it may be undone itself
		m := &all[i]
		if m.Kind != Undone || void[i] || m.Undoes == nil {
			continue
		}
		for _, t := range named[*m.Undoes] {
			if t >= i {
				continue
			}
			void[t] = true
			if all[t].Kind != Done && all[t].Kind != Bought || undone[about[t]] {
				continue
			}
			undone[about[t]] = true
			for _, twin := range marks[about[t]] {
				void[twin] = void[twin] || twin < i
			}
		}
	}

	restored := restore(all, void)

	var accepted []Mark
	s.first = make([]int, len(marks))
	sized := map[spot]int{} // index in Sizes
	for i := range all {
		if void[i] {
			continue
		}
		m := &all[i]
		switch m.Kind {
		case Done, Bought:
			if s.first[about[i]] > 0 {
				break
			}
			s.Done = append(s.Done, *m)
			s.first[about[i]] = len(s.Done)
			if restored[i] {
				s.Restored = append(s.Restored, *m)
			}
		case Accepted:
			accepted = append(accepted, *m)
		case Measured:
			if m.Piece == nil {
				s.measured[m.On] = *m
				break
			}
			at := spotOf(m.Plan, m.Piece)
			i, ok := sized[at]
			if !ok {
				i = len(s.Sizes)
				sized[at] = i
				s.Sizes = append(s.Sizes, Size{m.Plan, *m.Piece, m.Piece.L, m.Piece.W})
			}
			if m.Axis == "y" {
				s.Sizes[i].W = m.Value
			} else {
				s.Sizes[i].L = m.Value
			}
		case Spoiled:
			if m.Piece != nil {
				s.spoiled[spotOf(m.Plan, m.Piece)] = *m
			}
		case Flawed:
			if m.Piece != nil {
				s.Flaws = append(s.Flaws, *m)
			}
		}
	}
	s.Plan, s.Others = heads(accepted)
	for _, m := range accepted {
		for _, d := range []string{m.Prior, m.Plan} {
			if d != "" && !slices.Contains(s.Accepted, d) {
				s.Accepted = append(s.Accepted, d)
			}
		}
	}
	return s
}

// restore lets the marks hold that later cuts prove, the last of several on
// one piece, and returns which.
func restore(all []Mark, void []bool) map[int]bool {
	lost := map[spot][]int{} // who made a piece, while none of those marks holds
	var todo []int
	for i := range all {
		m := &all[i]
		switch {
		case m.Kind != Done || m.Piece == nil:
		case !void[i]:
			todo = append(todo, i)
		default:
			for k := range m.Pieces {
				at := spotOf(m.Plan, &m.Pieces[k])
				lost[at] = append(lost[at], i)
			}
		}
	}
	if len(lost) == 0 {
		return nil
	}
	holds := func(m *Mark) {
		for k := range m.Pieces {
			delete(lost, spotOf(m.Plan, &m.Pieces[k]))
		}
	}
	for _, i := range todo {
		holds(&all[i])
	}
	restored := map[int]bool{}
	for ; len(todo) > 0; todo = todo[1:] {
		m := &all[todo[0]]
		if made := lost[spotOf(m.Plan, m.Piece)]; len(made) > 0 {
			last := made[len(made)-1]
			void[last], restored[last] = false, true
			holds(&all[last])
			todo = append(todo, last)
		}
	}
	return restored
}

// heads returns the plan in use, and those accepted without knowledge of it.
// An entry replaces an earlier one if it names its plan as the one before, or
// comes from the same device.
func heads(accepted []Mark) (plan string, others []string) {
	for i := len(accepted) - 1; i >= 0; i-- {
		m := accepted[i]
		replaced := slices.ContainsFunc(accepted[i+1:], func(n Mark) bool {
			return n.Device == m.Device || n.Prior == m.Plan
		})
		switch {
		case i == len(accepted)-1:
			plan = m.Plan
		case !replaced && m.Plan != plan && !slices.Contains(others, m.Plan):
			others = append(others, m.Plan)
		}
	}
	return plan, others
}

// Cut returns the mark that says that a cut was made: at at along axis of a
// piece of the plan with the digest.
func (s State) Cut(plan string, piece Piece, axis string, at measure.Length) (Mark, bool) {
	return s.mark(facts{axis: axis, at: at, piece: spotOf(plan, &piece)})
}

// Step returns the mark that says that a step with a name of its own
// ("drill/B1/3") was done.
func (s State) Step(on string) (Mark, bool) { return s.mark(facts{on: on}) }

func (s State) mark(f facts) (Mark, bool) {
	n, ok := s.numbers[f]
	if !ok || s.first[n] == 0 {
		return Mark{}, false
	}
	return s.Done[s.first[n]-1], true
}

// Value returns the measured size of on, if there is one.
func (s State) Value(on string) (measure.Length, bool) {
	m, ok := s.measured[on]
	return m.Value, ok
}

// Bought reports whether on was ticked as bought.
func (s State) Bought(on string) bool {
	m, ok := s.Step(on)
	return ok && m.Kind == Bought
}

// Spoiled returns the mark that says that a piece of the plan with the digest
// is good for nothing.
func (s State) Spoiled(plan string, piece Piece) (Mark, bool) {
	m, ok := s.spoiled[spotOf(plan, &piece)]
	return m, ok
}

// Findings reports conflicts and undos that could not hold.
func (s State) Findings() issue.List {
	var l issue.List
	for _, o := range s.Others {
		l.Add(issue.Warn, Conflict, []string{"plan"}, s.Plan, o)
	}
	for _, m := range s.Restored {
		l.Add(issue.Note, Restored, []string{m.On}, m.Piece.Name)
	}
	return l
}
