package engine

import (
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// A size that can be turned is named by the path of its field
// ("cabinet.depth"), or by the handle between two cells that share their room:
// "bay/0", "opening/0/1"; see [Divide].

// fields are the sizes that a user chooses freely, those that matter most
// first. What must hold a thing, or is sold in one size, is not among them.
var fields = [...]string{"cabinet.depth", "cabinet.width", "lineUp.height", slideLength,
	"cabinet.top.overhang.front", "cabinet.top.overhang.left", "cabinet.top.overhang.right", "cabinet.top.overhang.back",
	"cabinet.back.rail", "cabinet.stretcher", "cabinet.face.stile", "cabinet.face.rail", "base.foot"}

const (
	slideLength = "drawers.slideLength"
	// mostExtra is how many lines of extra parts are turned.
	mostExtra = 12
)

// Sizes lists the sizes of p that can be turned: fields that are filled in,
// and all handles of its cart c.
func Sizes(p *project.Project, c design.Cart) []string {
	var out []string
	add := func(size string) {
		if l, ok := Size(p, c, size); ok && l > 0 {
			out = append(out, size)
		}
	}
	for _, f := range fields[:4] {
		add(f)
	}
	for i, b := range c.Bays {
		if i+1 < len(c.Bays) {
			add("bay/" + strconv.Itoa(i))
		}
		for j := range max(len(b.Openings)-1, 0) {
			add("opening/" + strconv.Itoa(i) + "/" + strconv.Itoa(j))
		}
	}
	for _, f := range fields[4:] {
		add(f)
	}
	for i := range min(len(p.Extra), mostExtra) {
		add("extra." + strconv.Itoa(i) + ".length")
		add("extra." + strconv.Itoa(i) + ".width")
	}
	return out
}

// Size is what a size measures now.
func Size(p *project.Project, c design.Cart, size string) (measure.Length, bool) {
	if at, ok := Indices(size); ok {
		switch {
		case len(at) == 1 && at[0] < len(c.Bays):
			return c.Bays[at[0]].Inside.Size(geom.X), true
		case len(at) == 2 && at[0] < len(c.Bays) && at[1] < len(c.Bays[at[0]].Openings):
			return c.Bays[at[0]].Openings[at[1]].Cell.Size(geom.Z), true
		}
		return 0, false
	}
	switch {
	case size == "lineUp.height" && p.LineUp.Mode != "height",
		size == "base.foot" && p.Base.Kind != "feet",
		size == slideLength && (len(c.Drawers) == 0 || p.Drawers.Slide == "wood"):
		return 0, false
	case size == slideLength:
		return c.Drawers[0].Slide, true
	}
	l, err := p.Measure().Parse(project.Text(p, size))
	return l, err == nil
}

// Turn makes a size so much larger, by below zero smaller, and reports whether
// that can be done. What a handle divides keeps its sum.
func Turn(p *project.Project, c design.Cart, size string, by measure.Length) bool {
	l, ok := Size(p, c, size)
	if !ok || l+by < 0 || l+by == 0 && !strings.Contains(size, "overhang") || l+by > measure.MaxLength {
		return false
	}
	if strings.Contains(size, "/") {
		return Divide(p, c, size, by)
	}
	return project.Set(p, size, p.Measure().Exact(l+by)) == nil
}

// around lists the values to be tried in one direction, as distances from l,
// the nearest first: every mark of the tape within 3 in or 60 mm, for handles
// every step, for slides the lengths that are sold. Every stride-th of them is tried first.
func around(size string, l measure.Length, t measure.Tape, up bool) (at []measure.Length, stride int) {
	if size == slideLength {
		for _, s := range stock.SlideLengths(t.Metric) {
			switch {
			case up && s > l:
				at = append(at, s-l)
			case !up && s < l:
				at = append([]measure.Length{s - l}, at...)
			}
		}
		return at[:min(len(at), 3)], 1
	}
	far, near, step := 3*measure.Inch, measure.Inch/4, t.Least()
	if t.Metric {
		far, near = 60*measure.MM, 5*measure.MM
	}
	mark := t.Ceil(l + 1)
	if !up {
		mark, step = t.Floor(l-1), -step
	}
	if strings.Contains(size, "/") { // handles move by whole steps from where they are
		mark = l + step
	}
	for ; (mark - l).Abs() <= far; mark += step {
		at = append(at, mark-l)
	}
	return at, max(1, int(near/step.Abs()))
}

// least is the narrowest bay or opening that a handle leaves.
const least = 50 * measure.MM

// Divide moves a divider of the cart: "bay/1" is the upright to the right of
// the bay with index 1; "opening/1/0" the line under the opening with index 0
// in that bay. Only the cells on both sides change their size: what had a
// share of the rest and lies elsewhere is fixed at the size it has. "top/left"
// and its kin are the edges of the worktop; see [Overhang].
func Divide(p *project.Project, c design.Cart, ref string, by measure.Length) bool {
	if v, sign := Overhang(p, ref); v != nil {
		*v = min(max(p.Measure().Round(*v+sign*by), 0), widest)
		return true
	}
	at, ok := Indices(ref)
	switch {
	case ok && len(at) == 1 && strings.HasPrefix(ref, "bay/"):
		if at[0]+1 >= len(p.Cabinet.Bays) || len(c.Bays) != len(p.Cabinet.Bays) {
			return false
		}
		cells := make([]cell, len(c.Bays))
		for i := range c.Bays {
			cells[i] = cell{c.Bays[i].Inside.Size(geom.X), &p.Cabinet.Bays[i].Width}
		}
		return shift(cells, at[0], by, p.Measure())
	case ok && len(at) == 2 && strings.HasPrefix(ref, "opening/"):
		if at[0] >= len(p.Cabinet.Bays) || at[0] >= len(c.Bays) {
			return false
		}
		bay, was := &p.Cabinet.Bays[at[0]], c.Bays[at[0]]
		if at[1]+1 >= len(bay.Openings) || len(was.Openings) != len(bay.Openings) {
			return false
		}
		cells := make([]cell, len(bay.Openings))
		for i := range bay.Openings {
			cells[i] = cell{was.Openings[i].Cell.Size(geom.Z), &bay.Openings[i].Height}
		}
		return shift(cells, at[1], by, p.Measure())
	}
	return false
}

// widest is the largest overhang that a handle makes.
const widest = 600 * measure.MM

// Overhang returns the overhang of the worktop that a handle moves, nil if it
// is no such handle, and 1 if it grows to the right or downwards: "top/left",
// "top/right" from the front and from above, "top/front", "top/back" from above,
// "side/front", "side/back" from the side.
func Overhang(p *project.Project, ref string) (v *measure.Length, sign measure.Length) {
	o := &p.Cabinet.Top.Overhang
	switch ref {
	case "top/left":
		return &o.Left, -1
	case "top/right":
		return &o.Right, 1
	case "top/front":
		return &o.Front, 1
	case "top/back":
		return &o.Back, -1
	case "side/front":
		return &o.Front, -1
	case "side/back":
		return &o.Back, 1
	}
	return nil, 0
}

// SizeOf is the size that a handle changes, as [Sizes] lists it.
func SizeOf(ref string) string {
	if v, _ := Overhang(&project.Project{}, ref); v != nil {
		return "cabinet.top.overhang." + ref[strings.IndexByte(ref, '/')+1:]
	}
	return ref
}

// A cell is a bay or an opening: its size, and the field that fixes it, 0 for
// a share of the rest.
type cell struct {
	size  measure.Length
	fixed *measure.Length
}

// shift moves the line between cells i and i+1. One cell that has a share
// keeps it, so that the sum stays right whatever else changes later.
func shift(cells []cell, i int, by measure.Length, tape measure.Tape) bool {
	a, b := cells[i], cells[i+1]
	by = tape.Round(by)
	lo, hi := min(0, least-a.size), max(0, b.size-least)
	by = min(max(by, tape.Ceil(lo)), tape.Floor(hi))
	switch shareA, shareB := *a.fixed == 0, *b.fixed == 0; {
	case !shareA && !shareB:
		*a.fixed, *b.fixed = a.size+by, b.size-by
		return true
	case shareB:
		*a.fixed = a.size + by
	default:
		*b.fixed = b.size - by
	}
	for j, c := range cells { // or they would take part in the rest
		if j != i && j != i+1 && *c.fixed == 0 {
			*c.fixed = c.size
		}
	}
	return true
}

// Indices returns the numbers of a ref such as "opening/0/1".
func Indices(ref string) ([]int, bool) {
	_, rest, _ := strings.Cut(ref, "/")
	var at []int
	for s := range strings.SplitSeq(rest, "/") {
		n, err := strconv.Atoi(s)
		if err != nil || n < 0 {
			return nil, false
		}
		at = append(at, n)
	}
	return at, true
}
