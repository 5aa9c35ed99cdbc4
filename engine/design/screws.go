package design

import (
	"slices"
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// The findings about screws.
// A driver places the screws of a cart.
type driver struct {
	c *Cart
	f *issue.List
	// taken holds the rooms of the screws in each part, and last of those
	// whose places are given.
	taken [][]room
}

// A room is what a screw takes, and the box round it.
type room struct {
	all   geom.Box
	parts []geom.Box
}

func roomOf(parts ...geom.Box) room {
	r := room{parts[0], parts}
	for _, p := range parts[1:] {
		r.all = r.all.Union(p)
	}
	return r
}

// meets reports whether two rooms share a point.
func (r room) meets(o room) bool {
	if !r.all.Overlaps(o.all) {
		return false
	}
	for _, p := range r.parts {
		if !p.Overlaps(o.all) {
			continue
		}
		for _, q := range o.parts {
			if p.Overlaps(q) {
				return true
			}
		}
	}
	return false
}

// screws places the screws and pins of every joint, each clear of the others,
// of holes and of grooves. What must lie where it does comes first.
func (b *builder) screws() {
	n := len(b.cart.Parts)
	d := driver{c: &b.cart, f: &b.f, taken: make([][]room, n+1)}
	for _, h := range FixedHoles(b.cart) {
		d.taken[n] = append(d.taken[n], roomOf(h))
	}
	for i, j := range b.cart.Joints {
		if j.Kind == part.Butt {
			d.joint(i, j)
		}
	}
	for i, j := range b.cart.Joints {
		if j.Kind == part.Faced || j.Kind == part.Nailed {
			d.joint(i, j)
		}
	}
}

// joint fastens one joint.
func (d *driver) joint(n int, j part.Joint) {
	ia, ib := d.index(j.A), d.index(j.B)
	if ia < 0 || ib < 0 {
		return
	}
	p, q := d.c.Parts[ia], d.c.Parts[ib]
	r, ok := meeting(p.Box, q.Box, d.c.Tape.Least())
	if !ok {
		return
	}
	byEdge := func(p part.Part) bool { return p.ThickAxis() != r.a }
	if j.Kind == part.Butt {
		if !byEdge(p) || byEdge(q) && q.LengthAxis == r.a && p.LengthAxis != r.a {
			p, q, ia, ib = q, p, ib, ia
		}
		if byEdge(p) && p.Thick >= thinnest {
			d.pocket(n, ia, ib, r)
			return
		}
		if byEdge(p) && !slices.ContainsFunc(*d.f, func(f issue.Finding) bool { return f.Code == ThinJoint && f.Args[0] == p.Name }) {
			d.f.Add(issue.Note, ThinJoint, []string{string(p.ID), string(q.ID)}, p.Name, p.Thick, thinnest)
		}
		if q.ThickAxis() == r.a { // pins through the other one, into the edge
			d.straight(n, ib, ia, r, Pinned)
		}
		return
	}
	kind := Through
	if j.Kind == part.Nailed {
		kind = Pinned
	}
	// Through a face that does not show: the worktop, the face frame and the
	// strips take no screw from outside. Such a joint is glued and clamped.
	hides := func(p part.Part) bool {
		return p.Front != "face" && (!byEdge(p) || kind == Through && rides(p.ID))
	}
	switch {
	case hides(p) && (rides(p.ID) || !hides(q) || p.Thick <= q.Thick):
		d.straight(n, ia, ib, r, kind)
	case hides(q):
		d.straight(n, ib, ia, r, kind)
	}
}

// rides reports whether a part is screwed flat to an upright before that stands:
// a runner, or the packing behind a slide.
func rides(id part.ID) bool {
	_, last, _ := strings.Cut(string(id), "/drawer")
	return strings.Contains(last, "/runner-") || strings.Contains(last, "/packing-")
}

// Packs reports whether a part is the packing behind a slide.
func Packs(id part.ID) bool { return strings.Contains(string(id), "/packing-") }

func (d *driver) index(id part.ID) int {
	for i, p := range d.c.Parts {
		if p.ID == id {
			return i
		}
	}
	return -1
}

// toward is the face of p that lies against q in r.
func (r region) toward(p, q geom.Box) Side {
	return Side{r.a, p.Min[r.a]+p.Max[r.a] < q.Min[r.a]+q.Max[r.a]}
}

// clear narrows lo to hi along axis a so that grooves of both parts in the box
// at are left alone; the longer end stays.
func (d *driver) clear(at geom.Box, a geom.Axis, in, into int) (lo, hi measure.Length) {
	lo, hi = at.Min[a], at.Max[a]
	for _, i := range [2]int{in, into} {
		for _, f := range d.c.Parts[i].Features {
			g := f.Box.Intersect(at)
			if f.Kind != part.Groove || g.Empty() || g.Size(a)*2 > hi-lo {
				continue
			}
			if g.Min[a]-lo > hi-g.Max[a] {
				hi = min(hi, g.Min[a]-leave)
			} else {
				lo = max(lo, g.Max[a]+leave)
			}
		}
	}
	return lo, hi
}

// pocket bores pockets in part i toward part k.
func (d *driver) pocket(n, i, k int, r region) {
	p, q := d.c.Parts[i], d.c.Parts[k]
	to, ta := r.toward(p.Box, q.Box), p.ThickAxis()
	run := 3 - r.a - ta
	mark, long, seat := Collar(p.Thick)
	room := q.Box.Size(r.a)
	reach := func(l measure.Length) measure.Length { return along15(l) - seat }
	for _, l := range screwLengths {
		if l <= long && reach(l) <= room-leave {
			mark = l
		}
	}
	s := Screw{Kind: Pocket, Joint: n, In: i, Into: k, Toward: to, Long: mark, Reach: reach(mark)}
	near := r.face // the wood about the joint
	near.Min[r.a], near.Max[r.a] = to.Of(p.Box)-in/2, to.Of(p.Box)+in/2
	lo, hi := d.clear(near, run, i, k)
	count := Screws(hi - lo)
	if count == 0 {
		d.f.Add(issue.Warn, ShortJoint, []string{string(p.ID), string(q.ID)}, p.Name, q.Name, hi-lo, shortest)
		return
	}
	if p.Box.Size(r.a) < Mouth(p.Thick)+Bore*193/100 { // shorter than its pockets
		d.f.Add(issue.Warn, NoPlace, []string{string(p.ID), string(q.ID)}, p.Name, q.Name, count)
		return
	}
	s.At[r.a], s.At[ta] = to.Of(p.Box), (p.Box.Min[ta]+p.Box.Max[ta])/2
	s.At[run] = (lo + hi) / 2
	s.Face = d.face(p, q, to, ta, lo, hi)
	if !d.in(s, q.Box) { // it leans out of the edge: from the other face it leans in
		s.Face = s.Face.Back()
	}
	d.row(s, run, lo, hi, spread(hi-lo, count))
}

// face chooses the face of p to bore from: the one that does not show.
func (d *driver) face(p, q part.Part, to Side, ta geom.Axis, lo, hi measure.Length) Side {
	best, least := Side{}, 100
	for _, s := range []Side{{ta, false}, {ta, true}} {
		at := p.Box
		at.Min[3-to.Axis-ta], at.Max[3-to.Axis-ta] = lo, hi
		end := to.Of(p.Box)
		at.Min[to.Axis], at.Max[to.Axis] = min(end, to.Out(end, -2*in)), max(end, to.Out(end, -2*in))
		out := s.Of(p.Box)
		at.Min[ta], at.Max[ta] = min(out, s.Out(out, in/8)), max(out, s.Out(out, in/8))
		if v := d.shows(p, q, s, at); v < least {
			best, least = s, v
		}
	}
	return best
}

// shows rates how much the holes in face s of p would be seen, where at is the
// room just before them: 0 covered by another part, 9 on the outside.
func (d *driver) shows(p, q part.Part, s Side, at geom.Box) int {
	for _, o := range d.c.Parts {
		if o.ID != p.ID && o.ID != q.ID && o.Box.Contains(at) {
			return 0
		}
	}
	if p.Front == "face" && s == (Side{geom.Y, false}) {
		return 10
	}
	if p.Drawer > 0 { // the outside of a box, behind its front and its slides
		b := d.c.Drawers[p.Drawer-1].Box
		if s.Of(p.Box) == s.Of(b) {
			return 1
		}
		return 4
	}
	switch s {
	case Side{geom.Z, false}:
		return 1
	case Side{geom.Y, true}:
		return 2
	}
	for _, b := range d.c.Bays {
		if !b.Inside.Overlaps(at) {
			continue
		}
		for _, o := range b.Openings {
			if at.Max[geom.Z] > o.Cell.Min[geom.Z] && at.Min[geom.Z] < o.Cell.Max[geom.Z] && (o.Kind == "drawer" || o.Kind == "door") {
				return 3
			}
		}
		return 5
	}
	return 9
}

// straight drives screws or pins straight through part i into part k.
func (d *driver) straight(n, i, k int, r region, kind ScrewKind) {
	p, q := d.c.Parts[i], d.c.Parts[k]
	to := r.toward(p.Box, q.Box)
	thick, room := p.Box.Size(r.a), q.Box.Size(r.a)
	s := Screw{Kind: kind, Joint: n, In: i, Into: k, Toward: to, Face: to.Back()}
	u, v := (r.a+1)%3, (r.a+2)%3
	if r.face.Size(u) < r.face.Size(v) {
		u, v = v, u
	}
	near := r.face
	near.Min[r.a], near.Max[r.a] = to.Of(p.Box)-in/2, to.Of(p.Box)+in/2
	lo, hi := d.clear(near, u, i, k)
	most := thick + room - leave*2
	if room > 2*in { // into an edge
		most = thick + in*5/4
	}
	for _, l := range screwLengths {
		if l <= most {
			s.Long = l
		}
	}
	s.Reach = s.Long - thick
	if s.Reach < LeastReach {
		d.f.Add(issue.Warn, NoPlace, []string{string(p.ID), string(q.ID)}, p.Name, q.Name, 1)
		return
	}
	s.At[r.a] = to.Of(p.Box)
	wide := r.face.Size(v)
	if kind == Pinned {
		s.At[v] = (r.face.Min[v] + r.face.Max[v]) / 2
		d.row(s, u, lo, hi, spread(hi-lo, 2+int(max(0, hi-lo-2*in)/pinSpacing)))
		return
	}
	n2 := 2 + every(hi-lo, 10*in)
	if hi-lo < shortTwo {
		n2 = 1
	}
	rows := []measure.Length{wide / 2}
	if wide > 3*in {
		rows = spread(wide, 2)
		if p.Drawer > 0 {
			n2 = 2 // a drawer's front: one near each corner
		}
	}
	for _, w := range rows {
		s.At[v] = r.face.Min[v] + w
		if wide > 3*in {
			s.At[v] = p.Box.Min[v] + d.c.Tape.Round(s.At[v]-p.Box.Min[v])
		}
		d.row(s, u, lo, hi, spread(hi-lo, n2))
	}
}

// row drives copies of s along axis u at the places at from lo, each moved as
// little as it must be to be clear of all else, in whole steps of the tape
// from the low edge of the part (halves go up).
func (d *driver) row(s Screw, u geom.Axis, lo, hi measure.Length, at []measure.Length) {
	p := d.c.Parts[s.In].Box
	edge := in / 2
	if hi-lo < shortTwo {
		edge = (hi - lo) / 3
	}
	missing, have := 0, len(d.c.Screws)
	close := func(x measure.Length) bool { // to one of this row
		return slices.ContainsFunc(d.c.Screws[have:], func(o Screw) bool { return (o.At[u] - x).Abs() < in/2 })
	}
	for _, a := range at {
		placed := false
		for k := range 64 { // 0, +1/8, −1/8, +1/4 … in
			off := measure.Length((k+1)/2) * (in / 8)
			if k%2 == 0 {
				off = -off
			}
			x := p.Min[u] + d.c.Tape.Round(lo+a+off-p.Min[u])
			if x < lo+edge-d.c.Tape.Least() || x > hi-edge+d.c.Tape.Least() || close(x) {
				continue
			}
			s.At[u] = x
			if r, ok := d.free(s); ok {
				d.taken[s.In], d.taken[s.Into] = append(d.taken[s.In], r), append(d.taken[s.Into], r)
				placed = true
				break
			}
		}
		if !placed {
			missing++
			continue
		}
		d.c.Screws = append(d.c.Screws, s)
	}
	if missing > 0 {
		q, level := d.c.Parts[s.Into], issue.Warn
		if len(d.c.Screws) > have { // the others hold it
			level = issue.Note
		}
		d.f.Add(level, NoPlace, []string{string(d.c.Parts[s.In].ID), string(q.ID)}, d.c.Parts[s.In].Name, q.Name, missing)
	}
}

// Rooms returns boxes that hold the hole in p, which is bored, and the thread
// in the other part, each with a little wood round it.
func (s Screw) Rooms(p part.Part) []geom.Box {
	// box is the stretch from a to b along to, where the axis leans from la to
	// lb out of the face.
	box := func(around measure.Length, to Side, a, b, la, lb measure.Length) geom.Box {
		r := geom.Box{Min: s.At, Max: s.At}
		span := func(at Side, a, b measure.Length) {
			a, b = at.Out(s.At[at.Axis], a), at.Out(s.At[at.Axis], b)
			r.Min[at.Axis], r.Max[at.Axis] = min(a, b), max(a, b)
		}
		if s.Kind == Pocket {
			span(s.Face, la, lb)
		}
		for k := geom.X; k <= geom.Z; k++ {
			r.Min[k] -= around
			r.Max[k] += around
		}
		span(to, a, b)
		return r
	}
	lean := func(v measure.Length) measure.Length { return v * 268 / 1000 } // tan 15°
	back := s.Toward.Back()
	rooms := []geom.Box{box(about, s.Toward, 0, s.Reach+about, 0, -lean(s.Reach))}
	if s.Kind != Pocket {
		return append(rooms, box(about, back, 0, p.Box.Size(back.Axis), 0, 0))
	}
	const slices = 4
	for i := measure.Length(0); i < slices; i++ {
		d := (Mouth(p.Thick) + Bore*193/100) / slices
		rooms = append(rooms, box(Bore/2+in/32, back, i*d, (i+1)*d, min(lean(i*d), p.Thick/2), min(lean((i+1)*d), p.Thick/2)))
	}
	return rooms
}

// free returns the room of s, and whether it meets no screw and no feature of
// the parts.
func (d *driver) free(s Screw) (room, bool) {
	p := d.c.Parts[s.In]
	mine := roomOf(s.Rooms(p)...)
	if !d.in(s, d.c.Parts[s.Into].Box) {
		return mine, false
	}
	for _, i := range [3]int{s.In, s.Into, len(d.taken) - 1} {
		for _, t := range d.taken[i] {
			if t.meets(mine) {
				return mine, false
			}
		}
	}
	for _, i := range [2]int{s.In, s.Into} {
		for _, f := range d.c.Parts[i].Features {
			if mine.meets(roomOf(f.Box.Intersect(d.c.Parts[i].Box))) {
				return mine, false
			}
		}
	}
	return mine, s.Kind != Through || !d.covered(s)
}

// in reports whether the thread lies in q, but for its ends.
func (d *driver) in(s Screw, q geom.Box) bool {
	const r = in * 3 / 32
	for a := geom.X; a <= geom.Z; a++ {
		if a == s.Toward.Axis {
			continue
		}
		lo, hi := s.At[a], s.At[a]
		if s.Kind == Pocket && a == s.Face.Axis {
			tip := s.Face.Back().Out(s.At[a], s.Reach*268/1000)
			lo, hi = min(lo, tip), max(hi, tip)
		}
		if lo-r < q.Min[a] || hi+r > q.Max[a] {
			return false
		}
	}
	return true
}

// covered reports whether another part lies where a screw goes in straight; the
// skin of the back comes later.
func (d *driver) covered(s Screw) bool {
	p := d.c.Parts[s.In].Box
	m := geom.Box{Min: s.At, Max: s.At}
	for a := geom.X; a <= geom.Z; a++ {
		m.Min[a] -= in / 4
		m.Max[a] += in / 4
	}
	out := s.Face.Of(p)
	m.Min[s.Face.Axis], m.Max[s.Face.Axis] = min(out, s.Face.Out(out, in/8)), max(out, s.Face.Out(out, in/8))
	for i, q := range d.c.Parts {
		if i != s.In && i != s.Into && q.ID != "back-skin" && q.Box.Overlaps(m) {
			return true
		}
	}
	return false
}

// byKind counts the screws of the joints that are of the kind and satisfy ok.
func (c *Cart) byKind(kind ScrewKind, ok func(Screw) bool) (screws, joints int) {
	last := -1
	for _, s := range c.Screws {
		if s.Kind != kind || !ok(s) {
			continue
		}
		screws++
		if s.Joint != last {
			last = s.Joint
			joints++
		}
	}
	return screws, joints
}

// Fixes reports whether s fixes a show front to its box.
func (c *Cart) Fixes(s Screw) bool {
	p, q := c.Parts[s.In], c.Parts[s.Into]
	return s.Kind == Through && p.Drawer > 0 && q.Front == "face"
}
