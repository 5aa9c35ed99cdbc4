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
)

// Glues reports whether joint n of the cart takes glue: all that hold, but for
// panels that are screwed on face to face, and drawer bottoms in their grooves,
// which are slid in dry.
func Glues(c design.Cart, n int) bool {
	j := c.Joints[n]
	switch j.Kind {
	case part.Faced:
		return !slices.ContainsFunc(c.Screws, func(s design.Screw) bool { return s.Joint == n })
	case part.LetIn:
		return !slices.ContainsFunc(c.Parts, func(p part.Part) bool { return p.ID == j.A && p.Drawer > 0 })
	}
	return j.Kind.Holds()
}

// glued counts the glued joints of adds with each other and with what is there,
// but for those in within, which are made.
func (b *assembler) glued(adds, have []int, within map[int]bool) int {
	n := 0
	b.between(adds, have, func(k int, _ part.Joint, _, _ int) {
		if !within[k] && b.glues[k] {
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
		if !b.glues[n] {
			return
		}
		s.Glue = true
		s.Minutes += perJoint
		b.bare(s, j, x, y, has)
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
		case strings.HasPrefix(s.ID, "build/face"), s.ID == "build/flush/case":
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
