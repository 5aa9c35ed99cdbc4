package work

import (
	"cmp"
	"slices"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A unit is what is moved as one: a part, or a sub-assembly.
type unit struct {
	key   string
	parts []int
	rank  int // the higher, the later
}

// Ranks of the units of a cart, in the order a person builds.
const (
	rankBottom = iota
	rankUprights
	rankShelves
	rankUppers
	rankRails // runners and packing that could not ride on an upright
	rankBack
	rankSkin
	rankFace
	rankTop
	rankDrawers
	rankFronts
	rankDoors
	rankLoose
)

var rankTitles = [...]string{"Lay down the bottom", "Stand the uprights on the bottom", "Slide in the shelves", "Lay on what carries the worktop",
	"Screw in the runners", "Set on the back", "Close the back", "Cover the front edges", "Fix the worktop",
	"Hang the drawer boxes, the lowest first", "Fix the show fronts, from the bottom up", "Hang the doors", "Lay in the loose shelves"}

var rankKeys = [...]string{"bottom", "uprights", "shelves", "uppers", "rails", "back", "skin", "face", "top", "drawers", "fronts", "doors", "loose"}

// Build orders the building of a cart: sub-assemblies flat, then the case from
// the bottom up, so that each part can be brought in past what already stands.
// The order comes of taking the cart apart: of the parts that can be drawn out
// along an axis, the one that a builder would add last goes first.
func Build(p *project.Project, c design.Cart) Building {
	b := assembler{p: p, c: c, solids: make([][]geom.Box, len(c.Parts)), glues: make([]bool, len(c.Joints)), ends: make([][2]int, len(c.Joints))}
	index := make(map[part.ID]int, len(c.Parts))
	for i, q := range c.Parts {
		b.solids[i], index[q.ID] = solid(q), i
	}
	for n, j := range c.Joints {
		b.glues[n] = Glues(c, n)
		for e, id := range [...]part.ID{j.A, j.B} {
			i, ok := index[id]
			if !ok {
				i = -1
			}
			b.ends[n][e] = i
		}
	}
	if b.early = Early(p, c); len(b.early) > 0 {
		b.out.Steps = append(b.out.Steps, Step{ID: "build/finish-first", Title: "Finish before assembly what no hand reaches later", Have: b.early, Attitude: LiesFlat, Cautions: []string{"finish"}})
	}
	units := b.units()
	for _, u := range units {
		if len(u.parts) > 1 {
			b.sub(u)
		}
	}
	b.slides()
	b.whole(units)
	b.attitudes()
	return b.out
}

type assembler struct {
	p      *project.Project
	c      design.Cart
	solids [][]geom.Box // of each part, grooves taken off
	glues  []bool       // of each joint
	ends   [][2]int     // the two parts of each joint
	early  []int        // parts that are finished before they are built in
	out    Building
}

// solid returns the boxes that are left of a part when its grooves are cut.
func solid(p part.Part) []geom.Box {
	left := []geom.Box{p.Box}
	for _, f := range p.Features {
		if f.Kind == part.Hole {
			continue
		}
		var next []geom.Box
		for _, b := range left {
			cut := b.Intersect(f.Box)
			if cut.Empty() {
				next = append(next, b)
				continue
			}
			for a := geom.X; a <= geom.Z; a++ {
				lo, hi := b, b
				lo.Max[a], hi.Min[a] = cut.Min[a], cut.Max[a]
				for _, x := range []geom.Box{lo, hi} {
					if !x.Empty() {
						next = append(next, x)
					}
				}
				b.Min[a], b.Max[a] = cut.Min[a], cut.Max[a]
			}
		}
		left = next
	}
	return left
}

// free reports whether the parts can be drawn out of the others towards s.
func (b *assembler) free(parts, others []int, s design.Side) bool {
	u, v := (s.Axis+1)%3, (s.Axis+2)%3
	for _, i := range parts {
		for _, k := range others {
			for _, x := range b.solids[i] {
				for _, y := range b.solids[k] {
					ahead := y.Max[s.Axis] > x.Min[s.Axis]
					if !s.High {
						ahead = y.Min[s.Axis] < x.Max[s.Axis]
					}
					if ahead && x.Min[u] < y.Max[u] && y.Min[u] < x.Max[u] && x.Min[v] < y.Max[v] && y.Min[v] < x.Max[v] {
						return false
					}
				}
			}
		}
	}
	return true
}

// ways are the sides a unit of each rank comes from, the usual first.
var allWays = []design.Side{{Axis: geom.Z, High: true}, {Axis: geom.Y}, {Axis: geom.Y, High: true}, {Axis: geom.X}, {Axis: geom.X, High: true}, {Axis: geom.Z}}

func ways(rank int) []design.Side {
	first := design.Side{Axis: geom.Z, High: true}
	switch rank {
	case rankShelves, rankFace, rankDrawers, rankFronts, rankDoors, rankLoose:
		first = design.Side{Axis: geom.Y}
	case rankBack, rankSkin:
		first = design.Side{Axis: geom.Y, High: true}
	}
	return append([]design.Side{first}, allWays...)
}

// subWays is the same within a sub-assembly: its right end comes from the right,
// what lies in grooves is slid in before it.
func subWays(rank int) []design.Side {
	if rank == 2 || rank == 3 {
		return append([]design.Side{{Axis: geom.X, High: true}}, allWays...)
	}
	return allWays
}

// order takes the units apart and returns them in the order of building, with
// the side each comes from.
func (b *assembler) order(units []unit, how func(int) []design.Side) ([]unit, []design.Side) {
	left := slices.Clone(units)
	var seq []unit
	var from []design.Side
	for len(left) > 0 {
		at, way := -1, design.Side{}
		for i := len(left) - 1; i >= 0 && at < 0; i-- {
			var others []int
			for k, o := range left {
				if k != i {
					others = append(others, o.parts...)
				}
			}
			for _, s := range how(left[i].rank) {
				if b.free(left[i].parts, others, s) {
					at, way = i, s
					break
				}
			}
		}
		if at < 0 {
			at = len(left) - 1
			b.out.Findings.Add(issue.Block, NoWay, []string{string(b.c.Parts[left[at].parts[0]].ID)}, b.c.Parts[left[at].parts[0]].Name)
		}
		seq, from = append(seq, left[at]), append(from, way)
		left = slices.Delete(left, at, at+1)
	}
	slices.Reverse(seq)
	slices.Reverse(from)
	return seq, from
}

// units groups the parts into what is moved as one, in the order a person
// would want to build.
func (b *assembler) units() []unit {
	var all []unit
	add := func(key string, rank, i int) {
		for k := range all {
			if all[k].key == key {
				all[k].parts = append(all[k].parts, i)
				return
			}
		}
		all = append(all, unit{key, []int{i}, rank})
	}
	for i, q := range b.c.Parts {
		id := string(q.ID)
		has := func(s string) bool { return strings.HasPrefix(id, s) }
		switch {
		case q.Drawer > 0 && strings.HasSuffix(id, "/front"):
			add(id, rankFronts, i)
		case q.Drawer > 0:
			add("drawer-"+itoa(q.Drawer), rankDrawers, i)
		case q.Door > 0:
			add(id, rankDoors, i)
		case q.Loose:
			add(id, rankLoose, i)
		case id == "bottom" || has("pad-"):
			add("bottom", rankBottom, i)
		case has("side-") || has("partition-"):
			add(id, rankUprights, i)
		case has("stretcher-") || id == "sub-top":
			add(id, rankUppers, i)
		case has("back-stile") || has("back-rail"):
			add("back", rankBack, i)
		case id == "back-skin":
			rank := rankSkin
			if b.c.Joints != nil && !b.behind(i) {
				rank = rankBack
			}
			add(id, rank, i)
		case has("stile-") || has("rail-"):
			add("face", rankFace, i)
		case id == "top" || id == "top-2" || has("strip-top"):
			add("top", rankTop, i)
		case has("strip-"):
			add(id, rankFace, i)
		case strings.Contains(id, "/shelf"):
			add(id, rankShelves, i)
		default: // runners and packing ride on their upright, if no pocket of it lies behind them
			up, rank := b.carrier(i), rankRails
			if up >= 0 && !b.covers(i, up) {
				add(string(b.c.Parts[up].ID), rankUprights, i)
				continue
			}
			add(id, rank, i)
		}
	}
	// Bays from left to right; in a bay the lowest first.
	arrange(all, func(x, y unit) int {
		return cmp.Or(cmp.Compare(x.rank, y.rank), cmp.Compare(b.key(x), b.key(y)))
	})
	return all
}

// arrange sorts a short list by insertion, equal ones as they were: package
// slices would bring some kilobytes more for each kind of list.
func arrange[T any](list []T, compare func(x, y T) int) {
	for i := range list {
		for k := i; k > 0 && compare(list[k-1], list[k]) > 0; k-- {
			list[k-1], list[k] = list[k], list[k-1]
		}
	}
}

// key orders units of one rank: by bay, then from the bottom up.
func (b *assembler) key(u unit) int64 {
	if u.rank < rankDrawers {
		return 0
	}
	q := b.c.Parts[u.parts[0]]
	bay := int64(0)
	for i, y := range b.c.Bays {
		if q.Box.Min[geom.X] >= y.Inside.Min[geom.X]-inch {
			bay = int64(i)
		}
	}
	return bay<<40 + int64(q.Box.Min[geom.Z])
}

// behind reports whether part i stands behind both sides.
func (b *assembler) behind(i int) bool {
	for _, q := range b.c.Parts {
		if q.ID == "side-left" {
			return b.c.Parts[i].Box.Min[geom.Y] >= q.Box.Max[geom.Y]
		}
	}
	return false
}

// carrier is the part that part i is screwed to, -1 for none.
func (b *assembler) carrier(i int) int {
	for _, s := range b.c.Screws {
		if s.In == i {
			return s.Into
		}
	}
	return -1
}

// covers reports whether part i lies over a pocket in part k.
func (b *assembler) covers(i, k int) bool {
	for _, s := range b.c.Screws {
		if s.Kind != design.Pocket || s.In != k {
			continue
		}
		for _, r := range s.Rooms(b.c.Parts[k]) {
			if r.Overlaps(b.c.Parts[i].Box) {
				return true
			}
		}
	}
	return false
}

// sub builds a sub-assembly flat, part by part.
func (b *assembler) sub(u unit) {
	parts := make([]unit, len(u.parts))
	for k, i := range u.parts {
		id := string(b.c.Parts[i].ID)
		rank := 1
		switch {
		case u.key == "face": // from left to right
		case strings.HasSuffix(id, "left") && !strings.Contains(id, "runner") && !strings.Contains(id, "packing"), id == "bottom", id == "top", strings.HasPrefix(id, "side-"), strings.HasPrefix(id, "partition-"):
			rank = 0
		case strings.HasSuffix(id, "/bottom"):
			rank = 2
			if !b.letIn(i) {
				rank = 4
			}
		case strings.HasSuffix(id, "right") && !strings.HasPrefix(id, "strip"), id == "strip-top-front":
			rank = 3
		}
		parts[k] = unit{id, []int{i}, rank}
	}
	arrange(parts, func(x, y unit) int {
		if u.key == "face" {
			return cmp.Compare(b.c.Parts[x.parts[0]].Box.Min[geom.X], b.c.Parts[y.parts[0]].Box.Min[geom.X])
		}
		return cmp.Compare(x.rank, y.rank)
	})
	seq, from := b.order(parts, subWays)
	s := Step{ID: "build/sub/" + u.key, Attitude: LiesFlat}
	name := b.c.Parts[u.parts[0]].Name
	switch {
	case u.rank == rankDrawers:
		s.Title = "Build the box of drawer " + strings.TrimPrefix(u.key, "drawer-")
	case u.key == "back":
		s.Title = "Build the back frame"
	case u.key == "face":
		s.Title = "Build the face frame"
	case u.key == "top":
		s.Title = "Build up the worktop"
	case u.key == "bottom":
		s.Title = "Glue the casters' pads under the bottom"
	default:
		s.Title = "Screw to it, flat: " + name
	}
	// What does not close within the open time of the glue is parted in stages.
	stage, id, title := 1, s.ID, s.Title
	for k, x := range seq {
		if j := b.glued(append(partsOf(s.Adds), x.parts...), s.Have, b.made()); len(s.Adds) > 1 && j*perJoint > openTime {
			b.fasten(&s, s.Have)
			b.out.Steps = append(b.out.Steps, s)
			stage++
			s = Step{ID: id + "-" + itoa(stage), Title: title + ", continued", Attitude: LiesFlat, Have: append(slices.Clone(s.Have), partsOf(s.Adds)...)}
		}
		s.Adds = append(s.Adds, Add{x.parts[0], from[k], x.key})
	}
	b.fasten(&s, s.Have)
	if u.rank == rankDrawers || u.key == "back" || u.key == "face" {
		box := geom.Box{}
		for _, i := range u.parts {
			box = box.Union(b.c.Parts[i].Box)
		}
		other, what := geom.Z, "the frame"
		if u.rank == rankDrawers {
			other, what = geom.Y, "the box"
		}
		s.Squares = []Square{b.square(what, box.Size(geom.X), box.Size(other))}
	}
	b.out.Steps = append(b.out.Steps, s)
	if u.key == "top" {
		b.flush("build/flush/top", "Flush the strips of the worktop", LiesFlat, u.parts)
	}
}

// letIn reports whether part i lies in grooves.
func (b *assembler) letIn(i int) bool {
	for _, j := range b.c.Joints {
		if j.Kind == part.LetIn && (j.A == b.c.Parts[i].ID || j.B == b.c.Parts[i].ID) {
			return true
		}
	}
	return false
}

// whole puts the units together.
func (b *assembler) whole(units []unit) {
	seq, from := b.order(units, ways)
	var have []int
	started := map[int]int{}
	finished := false
	for k := 0; k < len(seq); {
		rank, made := seq[k].rank, b.made()
		s := Step{Title: rankTitles[rank]}
		joints := 0
		n := k
		for ; n < len(seq) && seq[n].rank == rank; n++ {
			j := b.glued(seq[n].parts, append(slices.Clone(have), partsOf(s.Adds)...), made)
			if n > k && (joints+j)*perJoint > openTime {
				break
			}
			joints += j
			for _, i := range seq[n].parts {
				s.Adds = append(s.Adds, Add{i, from[n], seq[n].key})
			}
		}
		started[rank]++
		s.ID = "build/" + rankKeys[rank]
		if m := started[rank]; m > 1 {
			s.ID += "-" + itoa(m)
			s.Title += ", continued"
		}
		if rank >= rankDrawers && !finished {
			finished = true
			b.out.Steps = append(b.out.Steps, Step{ID: "build/finish", Title: "Finish the case; fronts, doors and shelves beside it", Have: slices.Clone(have), Cautions: []string{"finish"}})
		}
		k = n
		s.Have = slices.Clone(have)
		s.Held = rank == rankUprights || rank == rankBack
		b.fasten(&s, have)
		have = append(have, partsOf(s.Adds)...)
		if rank == rankBack || rank == rankSkin && started[rankBack] == 0 {
			cs := b.c.Case
			s.Squares = []Square{b.square("the case in front", cs.Size(geom.X), cs.Size(geom.Z)), b.square("the case behind", cs.Size(geom.X), cs.Size(geom.Z))}
		}
		b.out.Steps = append(b.out.Steps, s)
		if rank == rankFace && (n == len(seq) || seq[n].rank != rankFace) {
			b.flush("build/flush/case", "Flush the strips of the case", "", have)
		}
		if rank == rankTop {
			b.casters(have)
		}
	}
	for _, t := range b.c.Things {
		if t.Kind == design.MachineThing {
			b.out.Steps = append(b.out.Steps, Step{ID: "build/machine", Title: "Bolt on the machine: " + t.Name, Have: slices.Clone(have), Attitude: Upright, Cautions: []string{"machine"}})
		}
	}
}

func partsOf(adds []Add) []int {
	out := make([]int, len(adds))
	for i, a := range adds {
		out[i] = a.Part
	}
	return out
}

// slides screws the cabinet members of the slides to the uprights, slots first.
func (b *assembler) slides() {
	s := Step{ID: "build/slides", Title: "Screw the slides to the uprights, slotted holes only", Attitude: LiesFlat}
	d := driller{c: b.c}
	n := 0
	for _, l := range design.Slides(b.c) {
		n += l.Slots
		side := design.Side{Axis: geom.X, High: !l.Right}
		i := d.at(side, l.Holes[0][geom.X], l.Holes[0])
		if up := b.carrier(i); i >= 0 && up >= 0 && b.c.Parts[i].Thick < b.c.Parts[up].Width { // packing
			i = up
		}
		if i >= 0 && !slices.Contains(s.Have, i) {
			s.Have = append(s.Have, i)
		}
	}
	if n > 0 {
		s.Screws = []ScrewCount{{design.Through, design.SlideScrew, n}}
		b.out.Steps = append(b.out.Steps, s)
	}
}

// casters screws the casters on while the case is upside down.
func (b *assembler) casters(have []int) {
	n := 0
	var long measure.Length
	for _, t := range b.c.Things {
		if t.Kind == design.CasterThing {
			n += len(t.Screws())
		}
	}
	if n == 0 {
		return
	}
	for _, q := range b.c.Parts {
		if q.ID == "bottom" || strings.HasPrefix(string(q.ID), "pad-") {
			long = max(long, inch*5/8)
		}
	}
	b.out.Steps = append(b.out.Steps, Step{ID: "build/casters", Title: "Screw on the casters", Have: slices.Clone(have), Attitude: UpsideDown,
		Screws: []ScrewCount{{design.Through, long, n}}})
}

// between calls f for each joint of a new part with another that is there.
func (b *assembler) between(adds, have []int, f func(n int, j part.Joint, x, y int)) {
	for n, j := range b.c.Joints {
		x, y := b.ends[n][0], b.ends[n][1]
		ax, ay := slices.Contains(adds, x), slices.Contains(adds, y)
		if ax && (ay || slices.Contains(have, y)) || ay && slices.Contains(have, x) {
			f(n, j, x, y)
		}
	}
}
