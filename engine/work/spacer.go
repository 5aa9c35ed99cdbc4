package work

import (
	"slices"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A Stack is a pile of scraps that makes a height.
type Stack struct {
	Pieces []int // indices of scraps, the thickest first; one may come again
	Sum    measure.Length
}

// mostPieces bounds a stack: each joint adds its own error (a gauge-block
// maker's guide: four or five at most).
const mostPieces = 5

// mostTries bounds the search for one stack.
const mostTries = 4_000_000

// Stacks returns the fewest scraps whose sum lies within under below want and
// over above it; of several the nearest, of equally near ones the one that
// does not go over. If there is none, ok is false and the stack is the highest
// that stays below: a shim, or a block, makes up the rest. Every set of up to
// five pieces is looked at, within some millions.
func Stacks(want measure.Length, scraps []project.Scrap, under, over measure.Length) (best Stack, ok bool) {
	order := make([]int, 0, len(scraps))
	for i, s := range scraps {
		if s.Thick > 0 && s.Thick <= want+over {
			order = append(order, i)
		}
	}
	arrange(order, func(x, y int) int { return int(scraps[y].Thick - scraps[x].Thick) })
	count := func(i int) int { return max(scraps[i].Count, 1) }
	thick := func(k int) measure.Length { return scraps[order[k]].Thick }
	tries := 0
	var pieces []int
	found := false
	better := func(sum measure.Length) bool {
		if !found {
			return true
		}
		a, b := (sum - want).Abs(), (best.Sum - want).Abs()
		return a < b || a == b && sum < best.Sum
	}
	// fill takes left more pieces from the k-th on, used of it taken already.
	var fill func(k, used, left int, sum measure.Length)
	fill = func(k, used, left int, sum measure.Length) {
		if tries++; tries > mostTries {
			return
		}
		if left == 0 {
			if sum >= want-under && sum <= want+over && better(sum) {
				best, found = Stack{slices.Clone(pieces), sum}, true
			}
			return
		}
		for ; k < len(order); k, used = k+1, 0 {
			t := thick(k)
			if sum+measure.Length(left)*t < want-under { // nor can any thinner one
				return
			}
			if used >= count(order[k]) || sum+t > want+over {
				continue
			}
			pieces = append(pieces, order[k])
			fill(k, used+1, left-1, sum+t)
			pieces = pieces[:len(pieces)-1]
		}
	}
	for n := 1; n <= mostPieces && !found; n++ {
		fill(0, 0, n, 0)
	}
	if found {
		return best, true
	}
	// The highest below: within what is left of the tries.
	var rise func(k, used, left int, sum measure.Length)
	rise = func(k, used, left int, sum measure.Length) {
		if tries++; tries > mostTries*2 {
			return
		}
		if sum > best.Sum || sum == best.Sum && len(pieces) < len(best.Pieces) {
			best = Stack{slices.Clone(pieces), sum}
		}
		if left == 0 {
			return
		}
		for ; k < len(order); k, used = k+1, 0 {
			t := thick(k)
			if sum+measure.Length(left)*t <= best.Sum {
				return
			}
			if used >= count(order[k]) || sum+t > want {
				continue
			}
			pieces = append(pieces, order[k])
			rise(k, used+1, left-1, sum+t)
			pieces = pieces[:len(pieces)-1]
		}
	}
	rise(0, 0, mostPieces, 0)
	return best, false
}

// A SetOut is a distance that a spacer sets.
type SetOut struct {
	Names []string // what it sets; several if one spacer does for all
	Want  measure.Length
	Stack Stack
	Fits  bool // the stack is near enough
	// Block is the size to rip instead, a step of the tape or less under Want.
	Block measure.Length
	// Near is the index of an earlier set-out that differs by little, Want
	// less its Want: a shim more or less, and one stack does for both. -1 for
	// none.
	Near int
	By   measure.Length
	// slide: it sets the height of a slide; most is the largest height asked
	// for.
	slide bool
	most  measure.Length
}

// Spacers lists the set-outs of a cart, in the order of the work, each with
// scraps that make it: never over, since over binds; up to 1/64 in or 0.4 mm
// under. Heights of slides that differ by no more than a step of the tape share the
// smaller spacer: neither binds.
func Spacers(p *project.Project, c design.Cart) []SetOut {
	s := setter{least: c.Tape.Least()}
	under, near := inch/64, inch/8
	if c.Tape.Metric {
		under, near = mm*2/5, 3*mm
	}
	for i, b := range c.Bays {
		if i+1 < len(c.Bays) { // the last one is what is left
			s.add("width of "+b.Name+", between its uprights", b.Inside.Size(geom.X), false)
		}
	}
	for _, q := range c.Parts {
		if strings.Contains(string(q.ID), "/shelf") {
			for _, b := range c.Bays {
				if b.Inside.Min[geom.X] <= q.Box.Min[geom.X] && q.Box.Max[geom.X] <= b.Inside.Max[geom.X] {
					s.add("shelf in "+b.Name, q.Box.Min[geom.Z]-b.Inside.Min[geom.Z], false)
				}
			}
		}
	}
	slides := design.Slides(c)
	for n := len(c.Drawers) - 1; n >= 0; n-- { // the lowest first
		d := c.Drawers[n]
		name := "drawer " + itoa(n+1)
		for _, l := range slides {
			if l.Drawer == n && !l.Right {
				low := l.Holes[0][geom.Z] - min(measure.Length(45*mm), boxHeight(c, n))/2
				s.add("slide of "+name+", on the upright", low-c.Bays[d.Bay].Inside.Min[geom.Z], true)
				s.add("slide of "+name+", on its box", low-boxFoot(c, n), true)
			}
		}
		s.add("gap below the front of "+name, d.GapBelow, false)
		s.add("gap beside the front of "+name, d.GapLeft, false)
	}
	out := s.out
	for i := range out {
		s := &out[i]
		s.Block = c.Tape.Floor(s.Want)
		s.Stack, s.Fits = Stacks(s.Want, p.Stock.Scraps, under, 0)
		for k := range out[:i] {
			if by := s.Want - out[k].Want; out[k].Want > near && by.Abs() <= near && (s.Near < 0 || by.Abs() < s.By.Abs()) {
				s.Near, s.By = k, by
			}
		}
	}
	return out
}

// A setter gathers set-outs.
type setter struct {
	least measure.Length // step of the tape
	out   []SetOut
}

// add takes in a distance, or names it with one that does for both.
func (s *setter) add(name string, want measure.Length, slide bool) {
	if want <= 0 {
		return
	}
	for i := range s.out {
		o := &s.out[i]
		if o.Want == want || slide && o.slide && max(o.most, want)-min(o.Want, want) <= s.least {
			if !slices.Contains(o.Names, name) {
				o.Names = append(o.Names, name)
			}
			o.Want, o.most, o.slide = min(o.Want, want), max(o.most, want), o.slide && slide
			return
		}
	}
	s.out = append(s.out, SetOut{Names: []string{name}, Want: want, most: want, slide: slide, Near: -1})
}

// boxSide is the left side of a drawer's box.
func boxSide(c design.Cart, n int) (part.Part, bool) {
	d := driller{c: c}
	if i := d.box(n, "side-left"); i >= 0 {
		return c.Parts[i], true
	}
	return part.Part{}, false
}

func boxFoot(c design.Cart, n int) measure.Length {
	q, _ := boxSide(c, n)
	return q.Box.Min[geom.Z]
}

func boxHeight(c design.Cart, n int) measure.Length {
	q, _ := boxSide(c, n)
	return q.Box.Size(geom.Z)
}
