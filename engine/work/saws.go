package work

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// Limits of handling. Common practice, no source but where named.
const (
	// A panel with more than bigLong on its longer side and more than
	// bigShort on the other, or of more than bigArea, is cut with a track saw
	// or a hand-held one: cut big sheets to rough size before the bench saw
	// (a tutor's rule, trade facts 9).
	bigLong  = 60 * measure.Inch
	bigShort = 24 * measure.Inch
	bigArea  = measure.Area(48*measure.Inch) * measure.Area(40*measure.Inch)
	// mitreWide is what a mitre saw takes if the project does not say.
	mitreWide = 8 * measure.Inch
	// What runs between fence and blade: shorter than shortPiece or narrower
	// than slimPiece is not pushed by hand; narrower than pushWide takes a
	// push stick from the start.
	shortPiece = 12 * measure.Inch
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
	set measure.Length
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
	longest, shortest := max(p.Piece.L, p.Piece.W), min(p.Piece.L, p.Piece.W)
	p.big = longest > bigLong && shortest > bigShort ||
		measure.Area(longest)*measure.Area(shortest) > bigArea
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
	if straight {
		add("table", Fence, func(s project.Saw) bool {
			if s.Rip > 0 && p.Set > s.Rip {
				return false
			}
			fenced = fenced || line < p.Set
			return line >= p.Set
		})
	}
	if p.Verb != Rip {
		add("table", Stop, func(s project.Saw) bool {
			return held && s.Crosscut > 0 && line <= s.Crosscut && !p.big
		})
	}
	if !p.big && straight {
		tracks()
	}
	return out, fenced
}

// choose gives every pass its saw. Passes that bring parts of one match group
// to one size take a saw that can make them all, if there is one.
func (b *builder) choose(saws []project.Saw) {
	type match struct {
		name string
		set  measure.Length
	}
	common := map[match][]option{}
	for i := range b.shop {
		p := &b.shop[i]
		var fenced bool
		p.opts, fenced = options(p, saws)
		if len(p.opts) == 0 {
			p.use = option{-1, Fence}
			if p.Verb == Crosscut {
				p.use.guide = Stop
			}
			if len(saws) > 0 {
				if fenced {
					b.steps.Findings.Add(issue.Warn, ShortOnFence, []string{p.ID}, p.Piece.Name, p.line(), p.Set)
				} else {
					b.steps.Findings.Add(issue.Warn, NoSaw, []string{p.ID}, p.Piece.Name, p.Set, p.line())
				}
			}
		} else {
			p.use = p.opts[0]
		}
		seen := map[string]bool{}
		for _, line := range p.parts {
			if line < 0 || line >= len(b.job.Parts) {
				continue
			}
			m := b.job.Parts[line].Match
			if m == "" || seen[m] {
				continue
			}
			seen[m] = true
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
			if opts := common[match{m, p.Set}]; len(opts) > 0 {
				p.use = opts[0]
				break
			}
		}
	}
	for i := range b.shop {
		p := &b.shop[i]
		p.Guide = p.use.guide
		if p.use.saw >= 0 {
			p.Saw, p.SawIs = saws[p.use.saw].Name, saws[p.use.saw].Kind
		}
		p.Cautions = hazards(p)
	}
}

// both returns the options of a that are in b too, in the order of a.
func both(a, b []option) []option {
	var out []option
	for _, o := range a {
		for _, q := range b {
			if o == q {
				out = append(out, o)
				break
			}
		}
	}
	return out
}
