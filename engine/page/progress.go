package page

import "cartwright/engine/work"

// done reports whether the cut with the ID is made.
func (b *builder) done(id string) bool { return false }

// lastMade is the shop cut that was marked last.
func (b *builder) lastMade() (c work.Cut, ok bool) { return c, false }
