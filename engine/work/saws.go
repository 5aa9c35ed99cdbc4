package work

import (
	"slices"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// Limits of handling. Common practice, no source but where named.
const (
	// mitreWide is what a mitre saw takes if the project does not say.
	mitreWide = 8 * measure.Inch
	// What runs between fence and blade: shorter than shortPiece or narrower
	// than slimPiece is not pushed by hand; narrower than pushWide takes a
	// push stick from the start.
	shortPiece = nest.ShortEdge
	slimPiece  = 2 * measure.Inch
	pushWide   = 6 * measure.Inch
	// Held against the fence of a mitre saw.
	mitreShort = 8 * measure.Inch
)

// An option is a saw that can take a cut, and what its measure is set on.
type option struct {
	saw   int // index in the list of saws, -1 for none
	guide Guide
}

// setting is a fence, stop or track at a distance.
type setting struct {
	option
	set  measure.Length
	late bool // when the case is measured
}

// line is the length of the cut of p: the size of its piece across Dir.
func (p *pass) line() measure.Length {
	if p.Dir == nest.X {
		return p.Piece.W
	}
	return p.Piece.L
}

// options lists the saws that can take p, the best first. fenced reports that
// a table saw would do but for the rule that no edge rides the fence which is
// shorter than its distance to the blade.
func options(p *pass, saws []project.Saw) (out []option, fenced bool) {
	line := p.line()
	p.big = nest.Big(p.Piece.L, p.Piece.W)
	straight := p.RideIs != RoughEdge
	// A mitre saw or a sled holds the piece by an edge across the cut.
	held := p.cross[0].straight() || p.cross[1].straight()
	add := func(kind string, guide Guide, ok func(s project.Saw) bool) {
		for i, s := range saws {
			if s.Kind == kind && (s.Length == 0 || line <= s.Length || guide == Stop) && ok(s) {
				out = append(out, option{i, guide})
			}
		}
	}
	tracks := func() {
		add("track", Track, func(project.Saw) bool { return true })
		add("hand-held", Track, func(project.Saw) bool { return true })
	}
	if p.big || !straight {
		tracks()
	}
	if p.Verb == Crosscut || p.Verb != Rip && p.Set > line {
		add("mitre", Stop, func(s project.Saw) bool {
			wide := s.Crosscut
			if wide == 0 {
				wide = mitreWide
			}
			return held && line <= wide
		})
	}
	fence := func() {
		if straight {
			add("table", Fence, func(s project.Saw) bool {
				if s.Rip > 0 && p.Set > s.Rip {
					return false
				}
				fenced = fenced || line < p.Set
				return line >= p.Set
			})
		}
	}
	short := line < shortPiece // too little edge to push along a fence by hand
	if !short {
		fence()
	}
	if p.Verb != Rip {
		add("table", Stop, func(s project.Saw) bool {
			return held && s.Crosscut > 0 && line <= s.Crosscut && !p.big
		})
	}
	if short {
		fence()
	}
	if !p.big && straight {
		tracks()
	}
	return out, fenced
}

// choose gives every pass its saw. Passes of one measure share a setting as
// far as good saws for them allow; passes that bring parts of one match group
// to one size take a saw that can make them all, if there is any.
func (b *builder) choose(saws []project.Saw) {
	bySet := map[measure.Length][]int{}
	var sets []measure.Length
	for i := range b.shop {
		p := &b.shop[i]
		var fenced bool
		p.opts, fenced = options(p, saws)
		if len(p.opts) == 0 {
			p.use = option{-1, Fence}
			if p.Verb == Crosscut {
				p.use.guide = Stop
			}
			switch {
			case len(saws) == 0:
			case fenced:
				b.steps.Findings.Add(issue.Warn, ShortOnFence, []string{p.ID}, p.Piece.Name, p.line(), p.Set)
			default:
				b.steps.Findings.Add(issue.Warn, NoSaw, []string{p.ID}, p.Piece.Name, p.Set, p.line())
			}
			continue
		}
		if bySet[p.Set] == nil {
			sets = append(sets, p.Set)
		}
		bySet[p.Set] = append(bySet[p.Set], i)
	}
	for _, set := range sets {
		b.share(bySet[set])
	}
	b.match()
	for i := range b.shop {
		p := &b.shop[i]
		p.Guide = p.use.guide
		if p.use.saw >= 0 {
			p.Saw, p.SawIs = saws[p.use.saw].Name, saws[p.use.saw].Kind
			p.Face = faceUp(p.SawIs)
		}
		p.Cautions = hazards(p)
	}
}

// faceUp says which face lies up at a kind of saw: teeth tear out the face
// they leave. A track's edge holds the fibres down where a hand-held saw leaves
// the sheet.
func faceUp(kind string) string {
	if kind == "hand-held" {
		return "good face down"
	}
	return "good face up"
}

// good are the options of p that are worth sharing a setting: a track or a
// hand-held saw only where it is the first choice, a fence not for a piece with
// little edge if a stop can hold it.
func (p *pass) good() []option {
	first := p.opts[0].guide
	var out []option
	for _, o := range p.opts {
		if (o.guide == Track) == (first == Track) && (o.guide != Fence || first != Stop || p.line() >= shortPiece) {
			out = append(out, o)
		}
	}
	return out
}

// share gives passes of one measure as few settings as their good options
// allow: again and again the option that serves most of those that are left.
func (b *builder) share(passes []int) {
	for len(passes) > 0 {
		var opts []option
		var serves, ranks []int
		for _, i := range passes {
			for rank, o := range b.shop[i].good() {
				k := 0
				for k < len(opts) && opts[k] != o {
					k++
				}
				if k == len(opts) {
					opts, serves, ranks = append(opts, o), append(serves, 0), append(ranks, 0)
				}
				serves[k]++
				ranks[k] += rank
			}
		}
		best := 0
		for k := range opts {
			if serves[k] > serves[best] || serves[k] == serves[best] && ranks[k] < ranks[best] {
				best = k
			}
		}
		var left []int
		for _, i := range passes {
			if slices.Contains(b.shop[i].good(), opts[best]) {
				b.shop[i].use = opts[best]
			} else {
				left = append(left, i)
			}
		}
		passes = left
	}
}

// match brings the passes of one match group and measure to one saw.
func (b *builder) match() {
	type match struct {
		name string
		set  measure.Length
	}
	common := map[match][]option{}
	for i := range b.shop {
		p := &b.shop[i]
		for _, line := range p.parts {
			if line < 0 || line >= len(b.job.Parts) {
				continue
			}
			m := b.job.Parts[line].Match
			if m == "" || slices.Contains(p.group, m) {
				continue
			}
			p.group = append(p.group, m)
			key := match{m, p.Set}
			if have, ok := common[key]; ok {
				common[key] = both(have, p.opts)
			} else {
				common[key] = p.opts
			}
		}
	}
	for i := range b.shop {
		p := &b.shop[i]
		for _, m := range p.group {
			// The saw that most of them have already is kept if all can use it.
			if opts := common[match{m, p.Set}]; len(opts) > 0 && !slices.Contains(opts, p.use) {
				p.use = opts[0]
				break
			}
		}
	}
	// Those that could have stayed may now stand apart: the first one leads.
	lead := map[match]option{}
	for i := range b.shop {
		p := &b.shop[i]
		for _, m := range p.group {
			key := match{m, p.Set}
			opts := common[key]
			if len(opts) == 0 {
				continue
			}
			if o, ok := lead[key]; !ok {
				lead[key] = p.use
			} else if slices.Contains(p.opts, o) {
				p.use = o
			}
		}
	}
}

// both returns the options of a that are in b too, in the order of a.
func both(a, b []option) []option {
	var out []option
	for _, o := range a {
		if slices.Contains(b, o) {
			out = append(out, o)
		}
	}
	return out
}

// Takes sums up what saws take, for [nest.Job].
func Takes(saws []project.Saw) (r nest.Saws) {
	for _, s := range saws {
		or := func(l, d measure.Length) measure.Length {
			if l == 0 {
				return d
			}
			return l
		}
		switch s.Kind {
		case "table":
			if f := or(s.Rip, measure.MaxLength); f > r.Fence {
				r.Fence, r.Long = f, or(s.Length, measure.MaxLength)
			}
			r.Sled = max(r.Sled, s.Crosscut)
		case "mitre":
			r.Mitre = max(r.Mitre, or(s.Crosscut, mitreWide))
		default:
			r.Track = true
		}
	}
	return r
}
