package work

import (
	"strconv"

	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// store lists the store's cuts of s, each measured from a factory edge as long
// as the piece has one, and returns the name of s. A stop is never set on an
// edge that the store's saw made: errors would add up.
func (b *builder) store(n *nest.Node, s stuff, path, freed string, out *[]Cut) string {
	if n.Kind != nest.Cut || n.Tier != nest.StoreTier {
		before := len(b.steps.Rough)
		b.rough(n, s, path, freed)
		if len(b.steps.Rough) == before {
			return "waste"
		}
		return b.steps.Rough[before].Name
	}
	if s.at.L != n.L || s.at.W != n.W || len(n.Kids) == 0 {
		b.broken(path)
		return s.at.Name
	}
	d, kerf := n.Dir, b.job.Store.Kerf
	from, to, ok := b.places(n, s, path)
	if !ok {
		return s.at.Name
	}
	var own []Cut
	freedBy := make([]string, len(n.Kids))
	lo, hi := s.rims[low(d)].is == FactoryEdge, s.rims[high(d)].is == FactoryEdge
	i, j := 0, len(n.Kids)-1 // the kids that are still together
	short := to[j] < s.size(d)
	rest, edge := s, freed
	for i < j || short {
		// The boundary to cut: it frees kid i or kid j, or trims kid j.
		trimEnd := short && (lo || i == j)
		lowFirst := !trimEnd && (!lo || hi && !short && len(own) == 0)
		var at measure.Length // the near side of the kerf, from the low edge of s
		switch {
		case trimEnd:
			at = to[j]
		case lowFirst:
			at = to[i]
		default:
			at = to[j-1]
		}
		base := low(d)
		if !lo && hi && !trimEnd {
			base = high(d)
		}
		if rest.rims[base].is != FactoryEdge {
			b.steps.Findings.Add(issue.Warn, StoreEdge, []string{b.id(path)}, b.sheet+1)
		}
		a := at - offset(rest, s, d)
		k := min(kerf, rest.size(d)-a)
		id := b.id(path + "-" + strconv.Itoa(len(own)))
		c := Cut{
			ID: id, Tier: nest.StoreTier, Sheet: b.sheet, Verb: Breakup, Dir: d, Piece: rest.at,
			At: a, Kerf: k, Set: a, Ride: base.edge(), RideIs: rest.rims[base].is, Line: -1,
		}
		if base == high(d) {
			c.Set = rest.size(d) - a - k
		}
		if edge != "" {
			c.After = []string{edge}
		}
		lowPart := rest.span(d, 0, a, RoughEdge, -1)
		highPart := rest.span(d, a+k, rest.size(d), RoughEdge, -1)
		switch {
		case trimEnd:
			short, rest = false, lowPart
		case lowFirst:
			freedBy[i] = id
			i++
			lo, rest = false, highPart
		default:
			freedBy[j] = id
			j--
			rest = lowPart
		}
		if i == j {
			freedBy[j] = id
		}
		c.Makes = []mark.Piece{lowPart.at}
		if highPart.size(d) > 0 {
			c.Makes = append(c.Makes, highPart.at)
		}
		edge = id
		own = append(own, c)
	}

	var below []Cut
	for k, kid := range n.Kids {
		t := s.span(d, from[k], to[k], RoughEdge, -1)
		t.at.Name = placeName(n, k, s.at.Name)
		free := freedBy[k]
		if free == "" {
			free = freed
		}
		t.at.Name = b.store(kid, t, path+"."+strconv.Itoa(k), free, &below)
		is, line := b.becomes(kid, t)
		if line >= 0 {
			t.at.Name = b.tag(line)
		}
		name(own, t.at, is, line)
	}
	for k := range own {
		c := &own[k]
		for m := range c.Makes {
			if len(c.Kinds) <= m { // what is parted by a later cut of this run
				c.Kinds, c.Lines = append(c.Kinds, ToCut), append(c.Lines, -1)
			}
		}
	}
	*out = append(append(*out, own...), below...)
	return s.at.Name
}

// name gives the piece that the cuts made its name and outcome.
func name(cuts []Cut, p mark.Piece, is Outcome, line int) {
	for i := range cuts {
		c := &cuts[i]
		for m := range c.Makes {
			if q := c.Makes[m]; q.X == p.X && q.Y == p.Y && q.L == p.L && q.W == p.W {
				for len(c.Kinds) < len(c.Makes) {
					c.Kinds, c.Lines = append(c.Kinds, ToCut), append(c.Lines, -1)
				}
				c.Makes[m].Name, c.Kinds[m], c.Lines[m] = p.Name, is, line
				if line >= 0 {
					c.Line = line
				}
			}
		}
	}
}

// places returns where each kid of n begins and ends along the cut's axis,
// from the low edge of s.
func (b *builder) places(n *nest.Node, s stuff, path string) (from, to []measure.Length, ok bool) {
	var at measure.Length
	for i, k := range n.Kids {
		if i > 0 {
			at += b.job.Store.Kerf
		}
		from = append(from, at)
		at += along(k, n.Dir)
		to = append(to, at)
		if along(k, other(n.Dir)) != along(n, other(n.Dir)) || at > s.size(n.Dir) {
			b.broken(path)
			return nil, nil, false
		}
	}
	return from, to, true
}

// offset is how far the low edge of t lies from that of s along d.
func offset(t, s stuff, d nest.Dir) measure.Length {
	if d == nest.X {
		return t.at.X - s.at.X
	}
	return t.at.Y - s.at.Y
}

// placeName says where kid i of n lies: "left half", "middle piece 2".
func placeName(n *nest.Node, i int, of string) string {
	at := "middle"
	switch last := len(n.Kids) - 1; {
	case i == 0 && n.Dir == nest.X:
		at = "left"
	case i == 0:
		at = "top"
	case i == last && n.Dir == nest.X:
		at = "right"
	case i == last:
		at = "bottom"
	}
	what := " piece"
	if len(n.Kids) == 2 && (along(n.Kids[0], n.Dir)-along(n.Kids[1], n.Dir)).Abs() <= measure.Inch {
		what = " half"
	}
	if at == "middle" && len(n.Kids) > 3 {
		what += " " + strconv.Itoa(i)
	}
	if of != "" {
		return at + what + " of the " + of
	}
	return at + what
}
