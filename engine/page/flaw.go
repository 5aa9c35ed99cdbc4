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
	choose := func(to, id, label string, i, now int) node {
		return button("plain", do(doFlaw, "to", to, "value", strconv.Itoa(i)), attr{"id", id + strconv.Itoa(i)},
			attr{"aria-pressed", map[bool]string{true: "true", false: "false"}[i == now]}, span("", rich(label)))
	}
	pieces, corners := nodes{}, nodes{}
	for i, l := range b.Flaws.Lying {
		name := l.Piece.Name
		if name == "" {
			name = "Sheet " + strconv.Itoa(l.Sheet+1)
		}
		pieces = append(pieces, choose("piece", "flaw-piece-", name+", "+b.t.Show(l.L)+" × "+b.t.Show(l.W), i, at))
	}
	for i, name := range [...]string{"top left", "top right", "bottom left", "bottom right"} {
		corners = append(corners, choose("corner", "flaw-corner-", name, i, f.Corner))
	}
	return div("said flaw", el("h2", text("A bad corner")),
		div("choice", attr{"role", "group"}, attr{"aria-label", "Of which piece"}, pieces),
		div("corners", attr{"role", "group"}, attr{"aria-label", "Which corner, as on the drawing"}, corners),
		b.length(FlawPath+"l", "Bad along the length, up to", f.L, hint{}), b.length(FlawPath+"w", "Bad across, up to", f.W, hint{}),
		div("answers", button("plain", do(doFlaw), attr{"id", "flaw-close"}, text("Close")),
			button("done", do(doFlaw, "to", "note"), attr{"id", "flaw-note"}, text("Plan around it"))))
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
