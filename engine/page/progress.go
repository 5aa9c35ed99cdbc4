package page

import (
	"cartwright/engine/nest"
	"cartwright/engine/work"
)

// A progress says how each cut stands, by the facts in the journal.
type progress struct {
	stands map[string]work.Stand // by cut ID
	last   string                // the cut that was marked last
	now    work.Standing
}

func (v View) progress() progress {
	s := work.Progress(v.Steps, v.State, v.Digest)
	p := progress{stands: make(map[string]work.Stand, s.Total), last: s.Last, now: s}
	for _, list := range [...][]work.Stand{s.Store, s.Shop} {
		for _, st := range list {
			p.stands[st.ID] = st
		}
	}
	return p
}

// done reports whether the cut with the ID is made.
func (b *builder) done(id string) bool { return b.so.stands[id].Done }

// canUndo reports whether the mark on a cut can be taken back: nothing was
// made of its pieces yet.
func (b *builder) canUndo(id string) bool {
	s := b.so.stands[id]
	return s.Mark != nil && len(s.Fixed) == 0
}

// lastMade is the shop cut that was marked last.
func (b *builder) lastMade() (c work.Cut, ok bool) {
	c, ok = b.Steps.Cut(b.so.last)
	return c, ok && c.Tier == nest.ShopTier
}
