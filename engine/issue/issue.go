// Package issue holds findings: what is wrong, or worth knowing, about a
// project, as data that a screen puts into words.
package issue

import (
	"slices"
	"sort"
	"strings"
)

// A Level says what a finding does to the work.
type Level int

const (
	Note  Level = iota // worth knowing; not counted as a problem
	Warn               // will go wrong
	Block              // cannot be built or cut
)

// String returns "note", "warn" or "block".
func (l Level) String() string { return [...]string{"note", "warn", "block"}[l] }

// A Code names a kind of finding: "package.what". Codes are never renamed or
// reused. Each is declared beside the code that raises it, with the file
// under testdata/projects/findings that raises it in a comment.
type Code string

// A Finding is one thing that is wrong or worth knowing.
type Finding struct {
	Level Level
	Code  Code
	// Where lists what it is about: field paths of the project
	// ("bays.1.width") or part IDs, the most telling first.
	Where []string
	// Args are the numbers and names of the sentence, in the order of the
	// code's text: measure.Length, measure.Money, measure.Mass, int, string.
	Args []any
}

// A List is the findings of a stage. The zero List is empty and ready.
type List []Finding

// Add appends a finding.
func (l *List) Add(level Level, code Code, where []string, args ...any) {
	*l = append(*l, Finding{level, code, where, args})
}

// Has reports whether the list holds a finding with the code.
func (l List) Has(code Code) bool {
	return slices.ContainsFunc(l, func(f Finding) bool { return f.Code == code })
}

// Blocked reports whether any finding blocks.
func (l List) Blocked() bool {
	return slices.ContainsFunc(l, func(f Finding) bool { return f.Level == Block })
}

// Problems counts the findings that block or warn.
func (l List) Problems() int {
	n := 0
	for _, f := range l {
		if f.Level != Note {
			n++
		}
	}
	return n
}

// Sort orders the list: the heaviest level first, then by what it costs, then
// by code and place. Equal findings keep their order.
func (l List) Sort() { sort.Stable(byWeight(l)) }

// byWeight is a list to be sorted. Package slices would make a sort of its own
// for findings, some kilobytes of the planner.
type byWeight List

func (b byWeight) Len() int      { return len(b) }
func (b byWeight) Swap(i, j int) { b[i], b[j] = b[j], b[i] }
func (b byWeight) Less(i, j int) bool {
	x, y := &b[i], &b[j]
	if x.Level != y.Level {
		return x.Level > y.Level
	}
	if x.Code != y.Code {
		if a, b := x.Code.Cost(), y.Code.Cost(); a != b {
			return a < b
		}
		return x.Code < y.Code
	}
	return strings.Join(x.Where, ",") < strings.Join(y.Where, ",")
}
