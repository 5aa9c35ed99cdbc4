// Package scene is the drawing list: what a drawing shows, in ink and paper,
// with meanings instead of colours. Package draw makes scenes; package svg and
// the canvas program show them. Nothing here knows wood.
package scene

// A Unit is 1/16 of a CSS pixel at zoom 1. Scenes are laid out for a given
// viewport; a renderer scales the whole drawing evenly, like paper.
type Unit int32

// PX is one CSS pixel.
const PX Unit = 16

// A Pt is a point of the drawing; x grows to the right, y downwards.
type Pt struct{ X, Y Unit }

// A Rect holds the points with Min <= p < Max. The zero Rect is empty.
type Rect struct{ Min, Max Pt }

// R returns the rectangle with corner (x, y) and size w by h.
func R(x, y, w, h Unit) Rect { return Rect{Pt{x, y}, Pt{x + w, y + h}} }

// W returns the width of r.
func (r Rect) W() Unit { return r.Max.X - r.Min.X }

// H returns the height of r.
func (r Rect) H() Unit { return r.Max.Y - r.Min.Y }

// Mid returns the middle of r.
func (r Rect) Mid() Pt { return Pt{r.Min.X + r.W()/2, r.Min.Y + r.H()/2} }

// Empty reports whether r holds no point.
func (r Rect) Empty() bool { return r.Min.X >= r.Max.X || r.Min.Y >= r.Max.Y }

// Holds reports whether p is in r.
func (r Rect) Holds(p Pt) bool {
	return r.Min.X <= p.X && p.X < r.Max.X && r.Min.Y <= p.Y && p.Y < r.Max.Y
}

// Grow returns r with d more on every side.
func (r Rect) Grow(d Unit) Rect {
	return Rect{Pt{r.Min.X - d, r.Min.Y - d}, Pt{r.Max.X + d, r.Max.Y + d}}
}

// Meets reports whether r and s share a point.
func (r Rect) Meets(s Rect) bool {
	return r.Min.X < s.Max.X && s.Min.X < r.Max.X && r.Min.Y < s.Max.Y && s.Min.Y < r.Max.Y
}

// A Tone is a meaning that a theme turns into a colour.
type Tone uint8

const (
	Clear  Tone = iota // nothing is painted
	Ink                // text, outlines, cuts
	Ink2               // labels, dimension lines
	Rule               // ghosts, extension lines
	Hair               // separators without meaning
	Paper              // the desk
	Sheet              // what is drawn on
	Tint               // already cut
	Now                // the one thing at hand
	NowInk             // ink on Now
	Lit                // what just moved
	Store              // store pieces, the height to match
	Bad                // findings
	Good               // the words "cut", "fits"
	tones
)

// A Pen is a kind of line.
type Pen uint8

const (
	NoPen   Pen = iota
	Fine        // 0.75 px: extension lines
	Thin        // 1 px: dimension lines, edges of a done cut
	Medium      // 2 px: visible edges
	Heavy       // 2.5 px: floor, factory edges
	Select      // 3.5 px: what is selected
	Ghost       // 1.25 px, dashes 5-4: machine, case
	Hidden      // 1.25 px, dashes 3-2.5: hidden edges and holes
	ToDo        // 1.75 px, dashes 9-5: a shop cut to be made
	DashDot     // 3 px, dash dot: a store cut to be made
	Level       // 1.75 px, long dash dot dot: the height to match
	Rough       // 1.25 px zigzag, 3.5 px to both sides: a rough store edge
	Next        // 6 px solid in a band of 18 px of Now: the next cut
	pens
)

// A Hatch is a pattern that fills an area.
type Hatch uint8

const (
	NoHatch     Hatch = iota
	WasteHatch        // solid at 45°, every 8 px, 1.5 px, Ink2
	KeepHatch         // broken at −45°, every 18 px, 1 px, Rule
	PlyHatch          // fine at 45°, every 4 px: ply cut through
	GroundHatch       // at 45°, every 9 px, Rule: floor, anything not ours
	TrimHatch         // crossed, every 8 px: a rough edge that comes off
	hatches
)

// An Align says which point of a text stands at its place.
type Align uint8

const (
	Middle Align = iota // centre of the line, both ways
	Left                // left end, centred in height
	Right               // right end, centred in height
	aligns
)

// A Badge's Shape: square = store, circle = shop, pennant = next, cut corner =
// part, frame = rough piece.
type Shape uint8

const (
	Square     Shape = iota // solid square, number in Sheet: a store cut
	Circle                  // open circle, number in Ink: a shop cut to do
	Ticked                  // filled circle with a tick: a cut that is done
	Unequal                 // filled circle with ≠: came out at another size
	PennantR                // pennant of Now pointing right, along a horizontal cut
	PennantD                // pennant of Now pointing down, along an upright cut
	PartTag                 // square with a cut corner, open: a part to make
	PartSolid               // the same, solid: a part that is cut
	RoughFrame              // framed name of a rough piece, in Store
	shapes
)

// An Item is a [Line], [Area], [Round], [Label] or [Badge].
type Item interface{ item() }

// A Line is an open run of straight strokes.
type Line struct {
	Pts  []Pt
	Pen  Pen
	Tone Tone
}

// An Area is a closed shape: a fill, then a hatch, then an outline.
type Area struct {
	Pts   []Pt
	Fill  Tone
	Hatch Hatch
	Pen   Pen // of the outline
	Tone  Tone
}

// A Round is a circle.
type Round struct {
	At   Pt
	R    Unit
	Fill Tone
	Pen  Pen
	Tone Tone
}

// A Label is one line of text. In it, digits on both sides of U+2044 are a
// fraction: a renderer builds it (numerator raised, no slash glyph trusted)
// and sets the space before it to .18 em.
type Label struct {
	At    Pt
	Text  string
	Size  Unit // of the letters, 14*PX at least
	Bold  bool
	Align Align
	Tone  Tone
	// Back is painted behind the text, with 4 px of margin: Lit for a number
	// that just moved, Sheet to keep a line off it.
	Back Tone
	// Turn sets the text upright, reading from below.
	Turn bool
	// Strike draws a line through it: an old value.
	Strike bool
}

// A Badge is a small sign with a number, letter or name, centred at At.
// Size is its height.
type Badge struct {
	At    Pt
	Shape Shape
	Text  string
	Size  Unit
}

func (Line) item()  {}
func (Area) item()  {}
func (Round) item() {}
func (Label) item() {}
func (Badge) item() {}

// A Spot is a place that can be tapped or dragged. Spots may overlap: the last
// in the list that holds the point wins. Renderers widen a spot to 44 px.
type Spot struct {
	At   Rect
	Ref  string // what is chosen, e.g. "cut/3", "part/side-left", "bay/0"
	Name string // accessible name, e.g. "Cut 7: crosscut R2 at 23 1/4"
	// Drag is 0 for a spot that is only tapped, 'x' or 'y' for one that
	// moves along that axis of the drawing.
	Drag byte
	// PerPX is how many ticks of measure.Length one CSS pixel of movement
	// stands for, negative if the axis runs the other way. Step is the tick
	// count that movement snaps to.
	PerPX, Step int64
}

// A Scene is a drawing. Items are painted in order.
type Scene struct {
	W, H  Unit // size of the paper
	Title string
	Items []Item
	Spots []Spot
}

// Add appends items.
func (s *Scene) Add(items ...Item) { s.Items = append(s.Items, items...) }
