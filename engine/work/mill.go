package work

import (
	"slices"
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A Mill is one setting for grooves, dadoes, rabbets or mitres, with all parts
// that are run on it: equal settings are run together, as at the cuts.
type Mill struct {
	Verb  string // "Groove", "Dado", "Rabbet", "Mitre"
	Parts []int  // indices in Cart.Parts
	IDs   []string
	// Tags are the letters of their lines, each once, N the parts of each.
	Tags []string
	N    []int
	// Deep and Wide are the groove's, Set its distance from Edge ("bottom
	// edge"). For a mitre Wide is what it takes off along Edge ("front end").
	// Thick is the part's.
	Deep, Wide, Set, Thick measure.Length
	Edge                   string
	// Long is the length of the shortest run, and Across: it runs across the
	// grain.
	Long   measure.Length
	Across bool
	// Saw and its kind make it; "" if none of the shop's takes it: then a
	// groove is routed, a mitre sawn in a mitre box.
	Saw, SawIs string
	// Fences are the settings of the passes of a table saw whose blade is Kerf
	// wide, from the fence to the blade, each a fence move. A rabbet is measured
	// from a board on the fence, its shoulder first. Over is how much wider the
	// blade is than the cut: at a rabbet so much of it is buried in the board
	// (the setting is below 0), a groove becomes so much wider.
	Fences     []measure.Length
	Kerf, Over measure.Length
	// Depths are those of a router's passes.
	Depths []measure.Length
	// Fits is the letter of the part that goes in, Measured whether its
	// thickness was measured.
	Fits     string
	Measured bool
	// Left and Right count left- and right-handed parts: mirror images, run
	// with the same edge on the fence and the marked face down; of mitres the
	// ends at left and right corners.
	Left, Right int
	// After lists the cuts that free the parts.
	After []string
	// Cautions as at a cut.
	Cautions []Hazard
}

// edges by axis and end.
var edgeNames = [3][2]string{{"left", "right"}, {"front", "back"}, {"bottom", "top"}}

// MillPrefix begins the names that grooves and mitres have in the journal: then
// the part, and which of its features.
const MillPrefix = "mill/"

// Mills lists grooves, dadoes, rabbets and mitres, by setting, in the order of
// the cut list.
func Mills(p *project.Project, c design.Cart, steps Steps) []Mill {
	line := map[part.ID]int{}
	for i, l := range c.Lines {
		for _, id := range l.Parts {
			line[id] = i
		}
	}
	frees := map[int][]string{}
	for _, s := range steps.Shop {
		for _, l := range s.Lines {
			if l >= 0 {
				frees[l] = append(frees[l], s.ID)
			}
		}
	}
	var out []Mill
	for i, q := range c.Parts {
		at, ok := line[q.ID]
		if !ok {
			continue
		}
		for k, f := range q.Features {
			m, ok := mill(c, q, f)
			if !ok {
				continue
			}
			m.saw(p.Shop.Saws)
			j := 0
			for j < len(out) && !out[j].same(m) {
				j++
			}
			if j == len(out) {
				m.fit(p, c, f, line)
				m.passes(p.Measure())
				out = append(out, m)
				out[j].Left, out[j].Right = 0, 0
			}
			o := &out[j]
			o.Parts, o.IDs = append(o.Parts, i), append(o.IDs, MillPrefix+string(q.ID)+"/"+strconv.Itoa(k))
			o.Long = min(o.Long, m.Long)
			o.Left, o.Right = o.Left+m.Left, o.Right+m.Right
			o.count(c.Lines[at].Tag, frees[at])
		}
	}
	for j := range out {
		out[j].Cautions = out[j].dangers()
	}
	return out
}

// same reports whether two are run on one setting. Mitres of one size are.
func (m Mill) same(n Mill) bool {
	return m.Verb == n.Verb && m.Saw == n.Saw && m.Kerf == n.Kerf && m.Deep == n.Deep && m.Wide == n.Wide && m.Set == n.Set && m.Edge == n.Edge
}

// count adds a part of a line, and the cuts it waits for.
func (m *Mill) count(tag string, after []string) {
	for i, t := range m.Tags {
		if t == tag {
			m.N[i]++
			return
		}
	}
	m.Tags, m.N, m.After = append(m.Tags, tag), append(m.N, 1), append(m.After, after...)
}

// mill reads a feature of a part as a saw would run it.
func mill(c design.Cart, q part.Part, f part.Feature) (m Mill, ok bool) {
	g := q.Box.Intersect(f.Box)
	if g.Empty() {
		return m, false
	}
	thick := q.ThickAxis()
	switch f.Kind {
	case part.Mitre:
		m = Mill{Verb: "Mitre", Wide: g.Size(q.LengthAxis), Deep: g.Size(thick), Long: q.Length, Edge: "end"}
		if g.Min[geom.X]+g.Max[geom.X] < c.Case.Min[geom.X]+c.Case.Max[geom.X] {
			m.Left = 1
		} else {
			m.Right = 1
		}
		return m, true
	case part.Groove:
	default:
		return m, false
	}
	run, across := q.LengthAxis, q.WidthAxis // the groove's way, and its width's
	if g.Size(q.WidthAxis) == q.Box.Size(q.WidthAxis) && g.Size(q.LengthAxis) < q.Box.Size(q.LengthAxis) {
		run, across = across, run
	}
	lo, hi := g.Min[across]-q.Box.Min[across], q.Box.Max[across]-g.Max[across]
	end := 0
	if hi < lo {
		lo, end = hi, 1
	}
	grain := q.LengthAxis
	if q.Grain == part.AlongWidth {
		grain = q.WidthAxis
	}
	m = Mill{Verb: "Groove", Thick: q.Box.Size(thick), Deep: g.Size(thick), Wide: g.Size(across), Set: lo, Edge: edgeNames[across][end] + " edge",
		Long: g.Size(run), Across: run != grain}
	switch {
	case lo == 0:
		m.Verb = "Rabbet"
	case m.Across && q.Grain != part.AnyWay:
		m.Verb = "Dado"
	}
	// The open face decides the hand: parts that face right are left ones.
	if a := thick; a == geom.X {
		if g.Max[a] == q.Box.Max[a] {
			m.Left = 1
		} else {
			m.Right = 1
		}
	}
	return m, true
}

// fit names what goes into the groove.
func (m *Mill) fit(p *project.Project, c design.Cart, f part.Feature, line map[part.ID]int) {
	if m.Verb == "Mitre" {
		return
	}
	for _, q := range c.Parts {
		at, ok := line[q.ID]
		if in := q.Box.Intersect(f.Box); !ok || in.Empty() {
			continue
		}
		for _, g := range q.Features {
			ok = ok && g.Box != f.Box // the grooved part itself
		}
		if ok {
			mat, _ := p.Material(q.Material)
			m.Fits, m.Measured = c.Lines[at].Tag, mat.Measured > 0
			return
		}
	}
}

// saw finds who makes it: of table saws the first that is long enough and whose
// blade is not too wide, else the first that is long enough.
func (m *Mill) saw(saws []project.Saw) {
	kinds := []string{"table"}
	if m.Verb == "Mitre" {
		kinds = []string{"mitre", "table"}
	}
	for _, kind := range kinds {
		for _, s := range saws {
			if s.Kind != kind || m.Verb != "Mitre" && s.Length > 0 && m.Long > s.Length {
				continue
			}
			kerf := s.Kerf
			if kerf <= 0 {
				kerf = measure.Inch / 8
			}
			if m.SawIs == "" || m.SawIs == kind && m.Kerf > m.Wide && kerf <= m.Wide {
				m.Saw, m.SawIs, m.Kerf = s.Name, kind, kerf
			}
		}
	}
	if m.Saw == "" && m.SawIs != "" {
		m.Saw = m.SawIs + " saw"
	}
}

// dip is what a router takes at a time: half the width of a 1/4 in bit, common
// practice, no source.
const dip = measure.Inch / 8

// passes sets m up: a blade's width each, the outer ones at the edges of the
// groove, those between on the tape where nothing is left standing so.
func (m *Mill) passes(t measure.Tape) {
	if m.Verb == "Mitre" {
		return
	}
	if m.SawIs == "" {
		n := (m.Deep + dip - 1) / dip
		for i := range n - 1 {
			m.Depths = append(m.Depths, t.Round(m.Deep*(i+1)/n))
		}
		m.Depths = append(m.Depths, m.Deep)
		return
	}
	span := m.Wide - m.Kerf // from the first pass to the last
	if span <= 0 {
		m.Over = -span
		m.Fences = []measure.Length{m.Set}
		if m.Set == 0 {
			m.Fences[0] = span
		}
		return
	}
	// By whole steps of the tape at most: so nothing is left standing where the
	// settings are rounded to it.
	step := t.Floor(m.Kerf)
	if step == 0 {
		step = m.Kerf
	}
	n := (span + step - 1) / step
	at := measure.Length(0)
	for i := range n {
		m.Fences = append(m.Fences, m.Set+at)
		even := t.Round(m.Set+span*(i+1)/n) - m.Set
		at = min(max(even, span-(n-i-1)*step), at+step, span)
	}
	m.Fences = append(m.Fences, m.Set+span)
	if m.Set == 0 {
		slices.Reverse(m.Fences)
	}
}

// dangers at it: what is short is run with a push block, a mitre is held.
func (m Mill) dangers() (out []Hazard) {
	switch {
	case m.Verb == "Mitre" && m.Long < mitreShort:
		out = append(out, ShortAtMitre)
	case m.Saw != "" && m.Verb != "Mitre":
		out = append(out, Blind)
		if m.Long < shortPiece {
			out = append(out, ShortAtFence)
		}
	}
	return out
}
