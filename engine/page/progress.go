package page

import (
	"cartwright/engine/nest"
	"cartwright/engine/work"
)

// A progress says which cuts of the steps are made, by the facts in the
// journal.
type progress struct {
	made map[string]bool // by cut ID
	last int             // index in Steps.Shop of the cut marked last, -1 for none
}

func axis(d nest.Dir) string {
	if d == nest.Y {
		return "y"
	}
	return "x"
}

// progress reads the journal against the steps of the held plan.
func (v View) progress() progress {
	p := progress{made: map[string]bool{}, last: -1}
	if v.Digest == "" {
		return p
	}
	latest := -1
	for tier, cuts := range [...][]work.Cut{v.Steps.Store, v.Steps.Shop} {
		for i, c := range cuts {
			m, ok := v.State.Cut(v.Digest, c.Piece, axis(c.Dir), c.At)
			if !ok {
				continue
			}
			p.made[c.ID] = true
			if tier == 1 && m.Lamport >= latest {
				latest, p.last = m.Lamport, i
			}
		}
	}
	return p
}

// done reports whether the cut with the ID is made.
func (b *builder) done(id string) bool { return b.so.made[id] }

// lastMade is the shop cut that was marked last.
func (b *builder) lastMade() (c work.Cut, ok bool) {
	if b.so.last < 0 {
		return c, false
	}
	return b.Steps.Shop[b.so.last], true
}
