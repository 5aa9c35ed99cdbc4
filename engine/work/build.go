package work

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

const (
	// Clamps: a step wants more clamps than there are, or longer ones; the
	// step says how else. Args: the step (string), how many (int), their
	// least opening (Length), how many there are (int). Example: clamps.json
	Clamps issue.Code = "work.clamps"
	// Reach: no driver gets at a screw when it is due. Args: the part it is
	// driven from (string), the one it holds (string). Example: reach.json
	Reach issue.Code = "work.reach"
	// NoWay: a part cannot be put where it belongs after the others. It
	// should never be seen: a mistake of the program. Args: its name (string).
	NoWay issue.Code = "work.no-way"
)

// An Attitude is how the thing at hand lies on the bench.
type Attitude string

const (
	LiesFlat   Attitude = "flat on the bench"
	Upright    Attitude = "upright"
	OnItsBack  Attitude = "on its back"
	UpsideDown Attitude = "upside down, on its worktop"
)

// An Add is a part that a step adds, and the side it comes from.
type Add struct {
	Part int
	From design.Side
	// Unit is the sub-assembly or part that it is moved with.
	Unit string
}

// A Step is one step of building.
type Step struct {
	ID    string // "build/uprights"
	Title string
	// Adds come in this order; Have are the parts they are added to.
	Adds []Add
	Have []int
	// Held: what is added does not stand alone until it is fastened.
	Held     bool
	Attitude Attitude
	Turn     bool // it has to be turned for this step
	Screws   []ScrewCount
	Glue     bool
	Clamps   []ClampNeed
	Squares  []Square
	// Clamped and Next are minutes: in clamps, and from the start until the
	// next step may load the joint.
	Clamped, Next int
	// Cautions are kinds of steps in the table of cautions: "glue", "turn", …
	Cautions []string
}

// A ScrewCount is so many screws of a length.
type ScrewCount struct {
	Kind design.ScrewKind
	Long measure.Length
	N    int
}

// A ClampNeed is so many clamps of a kind that open at least that far.
type ClampNeed struct {
	Kind  string
	Open  measure.Length
	Count int
	Have  int // at home that open so far
	// Way is what else holds it if there are too few.
	Way string
}

// A Square is a rectangle whose diagonals are to be read.
type Square struct {
	Name     string
	W, H     measure.Length
	Diagonal measure.Length // to the nearest mark of the tape
}

// Glue and clamps, common practice without a source: yellow glue stays open for
// 5 to 10 minutes, two of which go into a joint; clamps 30 to 60 minutes, the
// next step after one to two hours.
const (
	perJoint   = 2
	openTime   = 10
	clampTime  = 45
	nextTime   = 60
	caul       = inch * 3 / 4 // of wood between clamp and joint
	driverRoom = 3 * inch     // beside the axis of a slanting driver
	driverLong = 8 * inch     // behind the head of a screw
)

// ClampSpacing is how far apart clamps may stand when their force goes through
// so much wood to the joint: it spreads at 45° to both sides (a woodworking
// magazine, 2010: a board 6 in wide, a cone of 12 in).
func ClampSpacing(through measure.Length) measure.Length { return 2 * through }

// ClampsFor is how many clamps of the given force press an area at a pressure,
// in any units that agree: area × pressure ÷ force, rounded up.
func ClampsFor(area, pressure, force float64) int { return int(math.Ceil(area * pressure / force)) }

// A Bench is all that is planned for the bench.
type Bench struct {
	Drilling
	Building
}

// AtBench plans the bench.
func AtBench(p *project.Project, c design.Cart) Bench {
	return Bench{Drills(p, c), Build(p, c)}
}

// Told lists what both have found.
func (b Bench) Told() issue.List {
	return append(slices.Clip(b.Drilling.Findings), b.Building.Findings...)
}

// A Building is the order of building.
type Building struct {
	Steps    []Step
	Flips    int // how often the case is turned
	Findings issue.List
}

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
	b := assembler{p: p, c: c, solids: make([][]geom.Box, len(c.Parts))}
	for i, q := range c.Parts {
		b.solids[i] = solid(q)
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
	var have []int
	for k, x := range seq {
		s.Adds = append(s.Adds, Add{x.parts[0], from[k], x.key})
	}
	b.fasten(&s, have)
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
		rank := seq[k].rank
		s := Step{Title: rankTitles[rank]}
		joints := 0
		n := k
		for ; n < len(seq) && seq[n].rank == rank; n++ {
			j := b.glued(seq[n].parts, append(slices.Clone(have), partsOf(s.Adds)...))
			if n > k && (joints+j)*perJoint > openTime && rank < rankDrawers {
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
		x, y := -1, -1
		for i, q := range b.c.Parts {
			if q.ID == j.A {
				x = i
			}
			if q.ID == j.B {
				y = i
			}
		}
		ax, ay := slices.Contains(adds, x), slices.Contains(adds, y)
		if ax && (ay || slices.Contains(have, y)) || ay && slices.Contains(have, x) {
			f(n, j, x, y)
		}
	}
}

// glued counts the glued joints of adds with what is there, but for those that
// were made within a sub-assembly.
func (b *assembler) glued(adds, have []int) int {
	n := 0
	b.between(adds, have, func(_ int, j part.Joint, x, y int) {
		if j.Kind.Holds() && !(slices.Contains(adds, x) && slices.Contains(adds, y)) {
			n++
		}
	})
	return n
}

// fasten fills in screws, glue, clamps and waiting times of a step.
func (b *assembler) fasten(s *Step, have []int) {
	adds := partsOf(s.Adds)
	var clamps []ClampNeed
	screwed := false
	within := b.made()
	b.between(adds, have, func(n int, j part.Joint, x, y int) {
		if !j.Kind.Holds() || within[n] {
			return
		}
		has := false
		for _, sc := range b.c.Screws {
			if sc.Joint != n {
				continue
			}
			has = true
			b.count(s, sc)
			b.reach(sc, append(slices.Clone(have), adds...))
		}
		screwed = screwed || has
		if has && (j.Kind == part.Faced) {
			return // screws alone
		}
		s.Glue = true
		if !has && j.Kind != part.LetIn {
			clamps = append(clamps, b.clamp(x, y))
		}
	})
	if screwed { // they press what is glued beside them
		clamps = nil
	}
	if s.Glue {
		s.Cautions = append(s.Cautions, "glue")
		if len(clamps) > 0 {
			s.Clamped, s.Next = clampTime, nextTime
		}
	}
	arrange(s.Screws, func(x, y ScrewCount) int {
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Long, y.Long))
	})
	if slices.ContainsFunc(s.Screws, func(c ScrewCount) bool { return c.Kind == design.Pocket }) {
		clamps = append(clamps, ClampNeed{Kind: "face", Open: 2 * inch, Count: 1, Way: "A scrap clamped along the line keeps the part from creeping while the slanting screw pulls."})
	}
	for _, n := range clamps { // one joint after the other: the largest need of a kind counts
		k := slices.IndexFunc(s.Clamps, func(o ClampNeed) bool { return o.Kind == n.Kind })
		if k < 0 {
			s.Clamps = append(s.Clamps, n)
			continue
		}
		s.Clamps[k].Open, s.Clamps[k].Count = max(s.Clamps[k].Open, n.Open), max(s.Clamps[k].Count, n.Count)
	}
	for i := range s.Clamps {
		n := &s.Clamps[i]
		for _, c := range b.p.Shop.Clamps {
			if c.Kind == n.Kind && (c.Length == 0 || c.Length >= n.Open) || n.Kind == "face" && c.Kind != "strap" {
				n.Have += max(c.Count, 1)
			}
		}
		if n.Have < n.Count {
			b.out.Findings.Add(issue.Note, Clamps, []string{s.ID}, s.Title, n.Count, n.Open, n.Have)
		} else {
			n.Way = ""
		}
	}
}

// made marks the joints that were closed in an earlier step.
func (b *assembler) made() map[int]bool {
	out := map[int]bool{}
	for _, s := range b.out.Steps {
		b.between(partsOf(s.Adds), s.Have, func(n int, _ part.Joint, _, _ int) { out[n] = true })
	}
	return out
}

func (b *assembler) count(s *Step, sc design.Screw) {
	for i := range s.Screws {
		if s.Screws[i].Kind == sc.Kind && s.Screws[i].Long == sc.Long {
			s.Screws[i].N++
			return
		}
	}
	s.Screws = append(s.Screws, ScrewCount{sc.Kind, sc.Long, 1})
}

// clamp says what presses a joint that no screw holds: clamps across both
// parts, as far apart as the thinner one and a caul let the force spread.
func (b *assembler) clamp(x, y int) ClampNeed {
	p, q := b.c.Parts[x].Box, b.c.Parts[y].Box
	area, a := p.Contact(q)
	if area == 0 {
		a = geom.Y
	}
	long := measure.Length(0)
	for k := geom.X; k <= geom.Z; k++ {
		if k != a {
			long = max(long, min(p.Max[k], q.Max[k])-max(p.Min[k], q.Min[k]))
		}
	}
	step := ClampSpacing(min(p.Size(a), q.Size(a)) + caul)
	n := ClampNeed{Kind: "bar", Open: p.Size(a) + q.Size(a) + 2*caul, Count: max(2, int((long+step-1)/step)),
		Way: "Do it in stages, the next when the glue of the last has set; or hold it with strong tape every 2 in and a stiff board."}
	if min(p.Size(geom.X), q.Size(geom.X)) > 8*inch && min(p.Size(geom.Y), q.Size(geom.Y)) > 8*inch { // two broad panels
		n.Count *= 2
		n.Way = "Screw the panels together from below, one screw every 6 in, and take the screws out when the glue has set."
	}
	return n
}

// reach checks that a driver gets at a screw among the parts that are there.
func (b *assembler) reach(s design.Screw, there []int) {
	p := b.c.Parts[s.In]
	back := s.Toward.Back()
	room := geom.Box{Min: s.At, Max: s.At}
	set := func(at design.Side, from, a, d measure.Length) {
		a, d = at.Out(from, a), at.Out(from, d)
		room.Min[at.Axis], room.Max[at.Axis] = min(a, d), max(a, d)
	}
	for a := geom.X; a <= geom.Z; a++ {
		room.Min[a]--
		room.Max[a]++
	}
	if s.Kind == design.Pocket {
		set(back, s.At[back.Axis], 4*inch, driverLong)
		set(s.Face, s.Face.Of(p.Box), inch, driverRoom)
	} else {
		set(s.Face, s.Face.Of(p.Box), 0, driverLong)
	}
	for _, i := range there {
		if i == s.In || !room.Overlaps(b.c.Parts[i].Box) {
			continue
		}
		for _, f := range b.out.Findings { // one row, one word
			if f.Code == Reach && f.Where[0] == string(p.ID) && f.Where[1] == string(b.c.Parts[s.Into].ID) {
				return
			}
		}
		b.out.Findings.Add(issue.Warn, Reach, []string{string(p.ID), string(b.c.Parts[s.Into].ID)}, p.Name, b.c.Parts[s.Into].Name)
		return
	}
}

// square is a rectangle with its diagonal.
func (b *assembler) square(name string, w, h measure.Length) Square {
	d := math.Sqrt(float64(float64(w)*float64(w)) + float64(float64(h)*float64(h)))
	return Square{name, w, h, b.c.Tape.Round(measure.Length(d + 0.5))}
}

// attitudes says how the case lies in each step, and counts its turns.
func (b *assembler) attitudes() {
	now := Upright
	for i := range b.out.Steps {
		s := &b.out.Steps[i]
		if s.Attitude == LiesFlat {
			continue
		}
		want := Upright
		switch {
		case strings.HasPrefix(s.ID, "build/face"):
			want = OnItsBack
		case strings.HasPrefix(s.ID, "build/top"), s.ID == "build/casters":
			want = UpsideDown
		}
		s.Attitude = want
		if s.Turn = want != now; s.Turn {
			b.out.Flips++
			s.Cautions = append(s.Cautions, "turn")
		}
		now = want
	}
}
