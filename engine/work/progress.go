package work

import (
	"slices"
	"strconv"

	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// axis names d as the journal does.
func axis(d nest.Dir) string {
	if d == nest.X {
		return "x"
	}
	return "y"
}

// Mark returns the entry that says that c, of the plan with the given digest,
// was made.
func (c Cut) Mark(plan string, s mark.Stamp) mark.Mark {
	m := s.Entry(mark.Done, c.ID)
	p := c.Piece
	m.Plan, m.Piece, m.Axis, m.At = plan, &p, axis(c.Dir), c.At
	m.Pieces, m.Saw = append([]mark.Piece(nil), c.Makes...), c.On()
	return m
}

// A Stand is how one cut stands.
type Stand struct {
	ID string
	// Done: it is marked, or must have been made since a cut on what came of
	// it is marked (then Mark is nil).
	Done bool
	Mark *mark.Mark
	// Waits lists the cuts that must be made before it and are not, the
	// first to be made first. A cut that is not done and does not wait is
	// ready.
	Waits []string
	// Fixed: the mark cannot be taken back, since cuts that use its pieces
	// are done. The IDs are those to take back first.
	Fixed []string
	// Unequal: something that came of it was measured at another size.
	Unequal bool
}

// Standing is how the work stands.
type Standing struct {
	Store []Stand // as Steps.Store
	Shop  []Stand // as Steps.Shop
	// Next is the first cut in order that is ready, "" when all are done.
	Next string
	// Last is the cut that was marked last, "" for none: the one to undo.
	Last string
	// Done of Total cuts are done, store and shop together.
	Done, Total int
	// Sizes are the pieces of this plan that came out at another size: as
	// measured, or as follows from what was.
	Sizes    []mark.Size
	Findings issue.List

	state  mark.State
	digest string
}

// Spoilt reports whether a piece was marked as good for nothing.
func (p Standing) Spoilt(of mark.Piece) bool {
	_, ok := p.state.Spoiled(p.digest, of)
	return ok
}

// Size returns the real size of a piece: as measured, else as planned.
func (p Standing) Size(of mark.Piece) (l, w measure.Length) {
	for _, z := range p.Sizes {
		if same(z.Piece, of) {
			return z.L, z.W
		}
	}
	return of.L, of.W
}

// same reports whether a and b are one piece, whatever it is called.
func same(a, b mark.Piece) bool {
	a.Name, b.Name = "", ""
	return a == b
}

// Stand returns how the cut with the ID stands.
func (p Standing) Stand(id string) Stand {
	for _, list := range [][]Stand{p.Store, p.Shop} {
		for _, s := range list {
			if s.ID == id {
				return s
			}
		}
	}
	return Stand{}
}

// Progress compares the steps with the journal. digest is that of the plan the
// steps were made from. A mark on a cut that neither this plan has nor one that
// was accepted before is kept and reported as [mark.Orphan].
func Progress(steps Steps, state mark.State, digest string) Standing {
	p := Standing{state: state, digest: digest}
	n := len(steps.Store)
	all := make([]Cut, 0, n+len(steps.Shop))
	all = append(append(all, steps.Store...), steps.Shop...)
	index := make(map[string]int, len(all))
	for i, c := range all {
		index[c.ID] = i
	}
	stands := make([]Stand, len(all))
	matched := map[mark.Ref]bool{}
	var last *mark.Mark
	for i, c := range all {
		stands[i].ID = c.ID
		if m, ok := state.Cut(digest, c.Piece, axis(c.Dir), c.At); ok {
			stands[i].Done, stands[i].Mark = true, &m
			matched[m.Ref()] = true
			if last == nil || mark.Compare(last, &m) < 0 {
				last, p.Last = &m, c.ID
			}
		}
	}
	// Cuts come after those they wait for, so one pass each way settles both.
	for i := len(all) - 1; i >= 0; i-- {
		if !stands[i].Done {
			continue
		}
		for _, id := range all[i].After {
			if j, ok := index[id]; ok {
				stands[j].Done = true
				stands[j].Fixed = append([]string{all[i].ID}, stands[j].Fixed...)
			}
		}
	}
	for i, c := range all {
		p.Total++
		if stands[i].Done {
			p.Done++
			continue
		}
		for _, id := range c.After {
			if j, ok := index[id]; ok && !stands[j].Done {
				stands[i].Waits = append(append(stands[i].Waits, stands[j].Waits...), id)
			}
		}
		if len(stands[i].Waits) == 0 && p.Next == "" {
			p.Next = c.ID
		}
	}
	for _, z := range state.Sizes {
		if z.Plan == digest && credible(z.L) && credible(z.W) && (z.L != z.Piece.L || z.W != z.Piece.W) {
			p.Sizes = append(p.Sizes, z)
		}
	}
	for i := 0; i < len(all) && len(p.Sizes) > 0; i++ {
		if stands[i].Done && len(all[i].Makes) > 0 {
			p.follow(all[i], digest)
		}
	}
	for i, c := range all {
		for _, m := range c.Makes {
			l, w := p.Size(m)
			stands[i].Unequal = stands[i].Unequal || stands[i].Done && (l != m.L || w != m.W || p.Spoilt(m))
		}
	}
	for _, m := range state.Done {
		// Cuts of an earlier plan are where the pieces of this one come from.
		old := m.Plan != digest && slices.Contains(state.Accepted, m.Plan)
		if m.Piece != nil && !matched[m.Ref()] && !old {
			p.Findings.Add(issue.Warn, mark.Orphan, []string{m.On}, m.Piece.Name, m.At)
		}
	}
	p.Store, p.Shop = stands[:n:n], stands[n:]
	return p
}

// Title is the cut in a few words: "Crosscut R2 at 23 1/4". Fractions are
// written as [measure.Tape.Show] does if show is set, else plainly.
func (c Cut) Title(tape measure.Tape, show bool) string {
	size := tape.Plain(c.Set)
	if show {
		size = tape.Show(c.Set)
	}
	verb := string(c.Verb)
	if c.Tier == nest.StoreTier {
		verb = "Store cut of the " + c.Piece.Name
		if c.Piece.Name == "" {
			verb = "Store cut of the sheet"
		}
		return verb + " at " + size
	}
	return verb + " " + c.Piece.Name + " at " + size
}

// Say is the accessible name of the cut: "Cut 7: crosscut R2 at 23 1/4".
func (c Cut) Say(tape measure.Tape) string {
	title := c.Title(tape, false)
	return "Cut " + strconv.Itoa(c.N) + ": " + string(title[0]|0x20) + title[1:]
}
