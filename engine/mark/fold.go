package mark

import (
	"cmp"
	"slices"
	"sort"
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
func Compare(a, b Mark) int {
	return cmp.Or(
		cmp.Compare(a.Lamport, b.Lamport), strings.Compare(a.Device, b.Device), cmp.Compare(a.Seq, b.Seq),
		strings.Compare(a.Time, b.Time), cmp.Compare(a.Kind, b.Kind), strings.Compare(a.On, b.On),
		strings.Compare(a.Plan, b.Plan), strings.Compare(a.Prior, b.Prior), comparePiece(a.Piece, b.Piece),
		strings.Compare(a.Axis, b.Axis), cmp.Compare(a.At, b.At),
		slices.CompareFunc(a.Pieces, b.Pieces, func(p, q Piece) int { return comparePiece(&p, &q) }),
		cmp.Compare(a.Value, b.Value), strings.Compare(a.Saw, b.Saw), compareRef(a.Undoes, b.Undoes),
	)
}

func comparePiece(a, b *Piece) int {
	switch {
	case a == nil && b == nil:
		return 0
	case a == nil:
		return -1
	case b == nil:
		return 1
	}
	return cmp.Or(cmp.Compare(a.Sheet, b.Sheet), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y),
		cmp.Compare(a.L, b.L), cmp.Compare(a.W, b.W), strings.Compare(a.Name, b.Name))
}

func compareRef(a, b *Ref) int {
	switch {
	case a == nil && b == nil:
		return 0
	case a == nil:
		return -1
	case b == nil:
		return 1
	}
	return cmp.Or(strings.Compare(a.Device, b.Device), cmp.Compare(a.Seq, b.Seq))
}

// Merge returns the entries of both journals in order, equal ones once. It is
// commutative, associative and idempotent, and loses nothing.
func Merge(a, b []Mark) []Mark {
	all := make([]Mark, 0, len(a)+len(b))
	all = append(append(all, a...), b...)
	sort.Sort(byOrder(all))
	return slices.CompactFunc(all, func(x, y Mark) bool { return Compare(x, y) == 0 })
}

// byOrder sorts entries by [Compare]. Package slices would make a sort of its
// own for entries, 20 kB of the planner for nothing.
type byOrder []Mark

func (b byOrder) Len() int           { return len(b) }
func (b byOrder) Less(i, j int) bool { return Compare(b[i], b[j]) < 0 }
func (b byOrder) Swap(i, j int)      { b[i], b[j] = b[j], b[i] }

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
	plan, on, axis string
	piece          spot
	at             measure.Length
}

// A spot is a piece on the plan's sheet, whatever it is called.
type spot struct {
	plan       string
	sheet      int
	x, y, l, w measure.Length
}

func spotOf(plan string, p Piece) spot { return spot{plan, p.Sheet, p.X, p.Y, p.L, p.W} }

// factsOf says what m is about. A mark on a cut is about a piece and a place
// on it; its name does not matter.
func factsOf(m Mark) facts {
	if m.Piece == nil {
		return facts{on: m.On}
	}
	return facts{plan: m.Plan, axis: m.Axis, at: m.At, piece: spotOf(m.Plan, *m.Piece)}
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
	cuts     map[facts]int  // index in Done
	users    map[spot][]int // marks on cuts of a piece, by piece
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
	all := Merge(journal, nil)
	s := State{measured: map[string]Mark{}, spoiled: map[spot]Mark{}, cuts: map[facts]int{}, users: map[spot][]int{}}

	void := make([]bool, len(all))
	byRef := map[Ref][]int{}
	byFacts := map[facts][]int{}
	for i, m := range all {
		byRef[m.Ref()] = append(byRef[m.Ref()], i)
		if m.Kind == Done || m.Kind == Bought {
			byFacts[factsOf(m)] = append(byFacts[factsOf(m)], i)
		}
	}
	for i := len(all) - 1; i >= 0; i-- { // the latest first: it may be undone itself
		m := all[i]
		if m.Kind != Undone || void[i] || m.Undoes == nil {
			continue
		}
		for _, t := range byRef[*m.Undoes] {
			if t >= i {
				continue
			}
			void[t] = true
			if all[t].Kind != Done && all[t].Kind != Bought {
				continue
			}
			for _, twin := range byFacts[factsOf(all[t])] {
				void[twin] = void[twin] || twin < i
			}
		}
	}

	// Restore what later cuts prove.
	makers := map[spot][]int{}
	var todo []int
	for i, m := range all {
		if m.Kind != Done || m.Piece == nil {
			continue
		}
		for _, p := range m.Pieces {
			makers[spotOf(m.Plan, p)] = append(makers[spotOf(m.Plan, p)], i)
		}
		if !void[i] {
			todo = append(todo, i)
		}
	}
	restored := map[int]bool{}
	for len(todo) > 0 {
		m := all[todo[0]]
		todo = todo[1:]
		made := makers[spotOf(m.Plan, *m.Piece)]
		if len(made) > 0 && !slices.ContainsFunc(made, func(i int) bool { return !void[i] }) {
			last := made[len(made)-1]
			void[last], restored[last] = false, true
			todo = append(todo, last)
		}
	}

	var accepted []Mark
	sized := map[spot]int{} // index in Sizes
	for i, m := range all {
		if void[i] {
			continue
		}
		switch m.Kind {
		case Done, Bought:
			if _, ok := s.cuts[factsOf(m)]; ok {
				break
			}
			s.cuts[factsOf(m)] = len(s.Done)
			if m.Piece != nil {
				at := spotOf(m.Plan, *m.Piece)
				s.users[at] = append(s.users[at], len(s.Done))
			}
			s.Done = append(s.Done, m)
			if restored[i] {
				s.Restored = append(s.Restored, m)
			}
		case Accepted:
			accepted = append(accepted, m)
		case Measured:
			if m.Piece == nil {
				s.measured[m.On] = m
				break
			}
			i, ok := sized[spotOf(m.Plan, *m.Piece)]
			if !ok {
				i = len(s.Sizes)
				sized[spotOf(m.Plan, *m.Piece)] = i
				s.Sizes = append(s.Sizes, Size{m.Plan, *m.Piece, m.Piece.L, m.Piece.W})
			}
			if m.Axis == "y" {
				s.Sizes[i].W = m.Value
			} else {
				s.Sizes[i].L = m.Value
			}
		case Spoiled:
			if m.Piece != nil {
				s.spoiled[spotOf(m.Plan, *m.Piece)] = m
			}
		case Flawed:
			if m.Piece != nil {
				s.Flaws = append(s.Flaws, m)
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
	i, ok := s.cuts[facts{plan: plan, axis: axis, at: at, piece: spotOf(plan, piece)}]
	if !ok {
		return Mark{}, false
	}
	return s.Done[i], true
}

// Step returns the mark that says that a step with a name of its own
// ("drill/B1/3") was done.
func (s State) Step(on string) (Mark, bool) {
	i, ok := s.cuts[facts{on: on}]
	if !ok {
		return Mark{}, false
	}
	return s.Done[i], true
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
	m, ok := s.spoiled[spotOf(plan, piece)]
	return m, ok
}

// Uses returns the marks that stand in the way of undoing m: cuts made on
// pieces that came of it. m may be undone if there are none.
func (s State) Uses(m Mark) []Mark {
	var out []Mark
	for _, p := range m.Pieces {
		for _, i := range s.users[spotOf(m.Plan, p)] {
			if s.Done[i].Ref() != m.Ref() {
				out = append(out, s.Done[i])
			}
		}
	}
	sort.Sort(byOrder(out))
	return out
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
