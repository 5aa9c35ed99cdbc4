package design

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

const (
	// Levels: the table stands a little off the target, and the feet or casters
	// can be screwed to it. Args: how much, positive if higher (Length), how
	// far they can be screwed (Length). Example: levels.json
	Levels issue.Code = "design.levels"
	// LevelShort: the feet or casters cannot be screwed as far as the floor and
	// the tape's rest want. Args: "out" or "in" (string), how far is needed
	// (Length), how far they can be screwed (Length), short by (Length), the
	// floor (Length), what the table stands off, positive if higher (Length).
	// Example: level-short.json
	LevelShort issue.Code = "design.level-short"
)

// A Levelling is what feet or casters must be screwed so that the table stands
// at its target wherever the floor lies.
type Levelling struct {
	// Floor is how much higher or lower the floor may lie than where the
	// target was measured; Range how far the base can be screwed out, and in.
	Floor, Range measure.Length
	// Out and In are the most that is needed: the floor, less or more what the
	// table stands too high.
	Out, In measure.Length
}

// levelling checks the range of the base against the floor and against what
// whole steps of the tape leave.
func (b *builder) levelling() {
	off := b.cart.Reached - b.cart.Target
	l := Levelling{Floor: max(b.p.Base.Floor, 0), Range: max(b.p.Base.Level, 0)}
	l.Out, l.In = max(l.Floor-off, 0), max(l.Floor+off, 0)
	b.cart.Levelling = l
	need, word := l.Out, "out"
	if l.In > l.Out {
		need, word = l.In, "in"
	}
	path := "lineUp.surface"
	if b.cart.Surface == 0 {
		path = "lineUp.height"
	}
	switch {
	case need > l.Range && (l.Floor > 0 || l.Range > 0):
		b.f.Add(issue.Warn, LevelShort, []string{"base.level", "base.floor"}, word, need, l.Range, need-l.Range, l.Floor, off)
	case off != 0 && off.Abs() <= l.Range:
		b.f.Add(issue.Note, Levels, []string{"base.level"}, off, l.Range)
	case off != 0:
		b.f.Add(issue.Note, OffTape, []string{path}, off)
	}
}
