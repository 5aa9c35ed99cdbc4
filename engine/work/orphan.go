package work

import (
	"strings"

	"cartwright/engine/issue"
	"cartwright/engine/mark"
)

// Orphans lists the marks on steps and holes that this bench no longer has, by
// name: the project has changed since.
func (b Bench) Orphans(state mark.State) []string {
	known := map[string]bool{}
	for _, s := range b.Steps {
		known[s.ID] = true
	}
	for _, d := range b.Drills {
		known[d.ID] = true
	}
	var out []string
	for _, m := range state.Done {
		if m.Piece == nil && !known[m.On] && (strings.HasPrefix(m.On, "build/") || strings.HasPrefix(m.On, "drill/")) {
			out = append(out, m.On)
		}
	}
	return out
}

// Lost tells of marks whose step is gone. Nothing is told of a cart that has
// no steps at all: it is in the making.
func (b Bench) Lost(state mark.State) (l issue.List) {
	if len(b.Steps) == 0 {
		return nil
	}
	for _, on := range b.Orphans(state) {
		l.Add(issue.Warn, mark.Orphan, []string{on}, StepName(on))
	}
	return l
}

// StepName is a step or a row of holes in words, from its name alone.
func StepName(id string) string {
	f := strings.Split(id, "/")
	if len(f) > 2 && f[0] == "drill" {
		// "drill/bay1/drawer2/side-left/slot/2": the part may have slashes.
		for i, w := range f {
			if holeWords[HoleKind(w)] {
				return "Drilling of " + strings.Join(f[1:i], " ") + ": " + w + ", " + strings.Join(f[i+1:], " ")
			}
		}
	}
	key, _, _ := strings.Cut(f[len(f)-1], "-")
	for i, k := range rankKeys {
		if len(f) == 2 && k == key {
			return "“" + rankTitles[i] + "”"
		}
	}
	if len(f) == 3 && f[1] == "sub" {
		return "Sub-assembly “" + f[2] + "”"
	}
	return "Step " + strings.Join(f[1:], " ")
}

var holeWords = map[HoleKind]bool{PocketHole: true, Clearance: true, FrontHole: true, PinHole: true, SlotHole: true, RoundHole: true,
	PullHole: true, ShelfHole: true, CasterHole: true, HingeHole: true, FootHole: true, PanelHole: true}
