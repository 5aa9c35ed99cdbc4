// Package part holds the parts of a cart: boxes placed in cabinet space with
// features cut into them, the joints where they meet, and the sum behind
// every size.
package part

import (
	"cartwright/engine/geom"
	"cartwright/engine/measure"
)

// An ID names a part for good: "side-left", "bay1/drawer2/front". It does not
// change when sizes do.
type ID string

// A Grain says whether a part may turn on its sheet.
type Grain int

const (
	AlongLength Grain = iota // the grain runs along Length
	AlongWidth               // the grain runs along Width
	AnyWay                   // the part may turn
)

// A Part is a box somewhere in the cart.
type Part struct {
	ID       ID
	Name     string // "Side, left"
	Material string // ID of a material of the project
	// Length, Width and Thick are what is cut: whole steps of the user's
	// tape, but for Thick, which is the stock's own.
	Length, Width, Thick measure.Length
	Grain                Grain
	// Box is where the part stands when the cart is finished.
	Box geom.Box
	// LengthAxis and WidthAxis are the cabinet axes of Length and Width.
	LengthAxis, WidthAxis geom.Axis
	// Proud is how much of Thick is planed away, before or after glue-up: the
	// box is that much thinner than the part. Flush is what of it stands past
	// the ply once the part is glued on, and is flushed after.
	Proud, Flush measure.Length
	// Features are taken off the box, in cabinet space.
	Features []Feature
	// Reasons explain Length, Width and Thick, in that order.
	Reasons [3]Reason
	// Match names the group of parts that must be cut on one setting.
	Match string
	// Chain and Link keep fronts whose grain runs on together.
	Chain string
	Link  int
	// Drawer is the 1-based number of the drawer the part moves with, 0 for
	// what stands still.
	Drawer int
	// Door is the 1-based number of the door that the part is, 0 for none.
	Door int
	// Loose parts lie on pins and are held by nothing.
	Loose bool
	// Front names the edge or face that shows: "front edge", "face", "".
	Front string
	// GoodHigh: the good face is the high one along ThickAxis, else the low one.
	GoodHigh bool
}

// ThickAxis returns the cabinet axis of Thick.
func (p Part) ThickAxis() geom.Axis { return 3 - p.LengthAxis - p.WidthAxis }

// A FeatureKind is a way of taking wood off a part.
type FeatureKind int

const (
	Groove FeatureKind = iota // along the grain or across it, from edge to edge
	Hole                      // through, or to a depth
	CutOut                    // a corner or an edge
	Mitre                     // an end at 45°: half of the box
)

// A Feature is wood taken off a part: the part of Box that lies in it.
type Feature struct {
	Kind FeatureKind
	Box  geom.Box
}

// A JointKind says how two parts are held together.
type JointKind int

const (
	Butt    JointKind = iota // pocket screws and glue
	Faced                    // screwed or glued face to face
	LetIn                    // one in a groove of the other
	Nailed                   // thin panel nailed and glued on
	Glued                    // glue alone: strips
	Resting                  // touches, not fastened
)

// String names the kind in the words of the trade.
func (k JointKind) String() string {
	return [...]string{"pocket screws and glue", "screws", "let into a groove", "glue and pins", "glue", "touching only"}[k]
}

// Holds reports whether a joint of this kind holds its parts together.
func (k JointKind) Holds() bool { return k != Resting }

// A Joint is where two parts meet, as the rule that placed them says.
type Joint struct {
	A, B ID
	Kind JointKind
}

// A Reason is the sum behind a size, made by the code that computed it.
type Reason struct {
	Terms []Term
	// Off is what rounding to the tape took from (negative) or added to
	// (positive) the sum: Result = ΣTerms + Off.
	Off    measure.Length
	Result measure.Length
}

// A Term is one line of a [Reason]: Times × Value under a name. A negative
// Times is taken off.
type Term struct {
	Name  string
	Times int
	Value measure.Length
}

// Sum returns a reason whose result is the sum of the terms as it is.
func Sum(terms ...Term) Reason {
	r := Reason{Terms: terms}
	for _, t := range terms {
		r.Result += measure.Length(t.Times) * t.Value
	}
	return r
}

// RoundedBy returns r with its result rounded by f, the difference kept.
func (r Reason) RoundedBy(f func(measure.Length) measure.Length) Reason {
	v := f(r.Result)
	r.Off += v - r.Result
	r.Result = v
	return r
}

// A Line is a row of the cut list: parts that are equal in everything but
// their place.
type Line struct {
	Tag                  string // the letter on drawings: "A"
	Name                 string
	Material             string
	Length, Width, Thick measure.Length
	Grain                Grain
	Count                int
	Parts                []ID // which parts of the cart these are; empty for extra parts
	Reasons              [3]Reason
	Match                string
	Chain                string
	Link                 int
	// Late: length and width follow what is measured when the case stands.
	Late [2]bool `json:",omitzero"`
}

// Tags returns the tag of the i-th line, from 0: A B C … without I, L, O and Q,
// which read like digits, and R, which names rough pieces; after Z comes A2.
func Tag(i int) string {
	const letters = "ABCDEFGHJKMNPSTUVWXYZ"
	t := string(letters[i%len(letters)])
	if round := i / len(letters); round > 0 {
		n := round + 1
		d := ""
		for ; n > 0; n /= 10 {
			d = string(rune('0'+n%10)) + d
		}
		t += d
	}
	return t
}
