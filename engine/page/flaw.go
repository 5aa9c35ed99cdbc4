package page

import (
	"strconv"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// A Flaw is the open form for a rectangle that is not to be used.
type Flaw struct {
	Open bool
	// Piece is an index in Flaws.Lying, -1 for the one on the screen.
	Piece int
	// Corner: bit 0 for the right end, bit 1 for the bottom edge of the
	// drawing.
	Corner int
	L, W   measure.Length
}

// Flaws is what lies there while the form is open, First the piece on the
// screen, and how many flaws the plan does not know yet.
type Flaws struct {
	Lying []work.Lying
	First int
	New   int
}

// FlawPath is what the paths of the form's two sizes begin with.
const FlawPath = "flaw/"

// flaw is the form, or the button that opens it.
func (b *builder) flaw() node {
	f := b.Flaw
	switch {
	case b.ReadOnly || b.Offer != nil || len(b.Plan.Sheets) == 0 || len(b.Plan.Left) > 0:
		return nodes{}
	case !f.Open:
		return button("plain", do(doFlaw, "to", "open"), attr{"id", "flaw-open"}, text("A corner is bad"))
	}
	at := f.Piece
	if at < 0 {
		at = b.Flaws.First
	}
	corners := nodes{}
	pieces := []option{}
	for i, l := range b.Flaws.Lying {
		pieces = append(pieces, option{strconv.Itoa(i), b.lyingName(l) + ", " + b.t.Show(l.L) + " × " + b.t.Show(l.W)})
	}
	for i, name := range [...]string{"top left", "top right", "bottom left", "bottom right"} {
		corners = append(corners, button("plain", do(doFlaw, "to", "corner", "value", strconv.Itoa(i)), attr{"id", "flaw-corner-" + strconv.Itoa(i)},
			attr{"aria-pressed", map[bool]string{true: "true", false: "false"}[i == f.Corner]}, text(name)))
	}
	return div("said flaw", el("h2", text("A bad corner")),
		b.choice(FlawPath+"piece", "Of", strconv.Itoa(at), pieces...),
		div("corners", attr{"role", "group"}, attr{"aria-label", "Which corner, as on the drawing"}, corners),
		b.length(FlawPath+"l", "Bad along the length, up to", f.L, hint{}), b.length(FlawPath+"w", "Bad across, up to", f.W, hint{}),
		div("answers", button("plain", do(doFlaw), attr{"id", "flaw-close"}, text("Close")),
			button("done", do(doFlaw, "to", "note"), attr{"id", "flaw-note"}, text("Plan around it"))))
}

// lyingName is the name of a piece as it lies there, or of a sheet.
func (b *builder) lyingName(l work.Lying) string {
	if l.Piece.Name != "" {
		return l.Piece.Name
	}
	for _, r := range b.Steps.Rough {
		if r.Sheet == l.Sheet && r.AtShop {
			return r.Name
		}
	}
	for k, i := range b.storeSheets() {
		if i == l.Sheet {
			return "Sheet " + strconv.Itoa(k+1)
		}
	}
	return b.Job.Stock[b.Plan.Sheets[l.Sheet].Stock].ID
}

// bad says what of a sheet must not be used.
func (b *builder) bad(sheet int) node {
	out := nodes{}
	for _, f := range b.Steps.Bad {
		if f.Sheet == sheet {
			out = append(out, el("p", attr{"class", "says warn"}, icon(triangle),
				span("", rich("Not to be used: "+b.t.Show(f.L)+" × "+b.t.Show(f.W)+", "+b.corner(f)+"."))))
		}
	}
	return out
}

// corner names the corner of the sheet that a flaw lies nearest.
func (b *builder) corner(f mark.Piece) string {
	st := b.Job.Stock[b.Plan.Sheets[f.Sheet].Stock]
	s := "at the top"
	if 2*f.Y+f.W > st.W {
		s = "at the bottom"
	}
	if 2*f.X+f.L > st.L {
		return s + " right"
	}
	return s + " left"
}

// newFlaws says what was found since the plan was made.
func (b *builder) newFlaws() string {
	if n := b.Flaws.New; n == 1 {
		return "A bad corner was found: plan the uncut again?"
	} else if n > 1 {
		return strconv.Itoa(n) + " bad corners were found: plan the uncut again?"
	}
	return ""
}
