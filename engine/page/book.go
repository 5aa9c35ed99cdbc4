package page

import (
	"strconv"

	"cartwright/engine/project"
)

// A Book is the offcuts of all projects on this device.
type Book struct {
	All []project.Rest
	// Offered are keys of those that are free and of use to this project.
	Offered []string
	// Left is what this project leaves when all is cut; Kept: it is in the book.
	Left []project.Rest
	Kept bool
	// Refused: the device keeps nothing, so the book lasts as long as the page.
	Refused bool
}

// rest is an offcut in a few words.
func (b *builder) rest(r project.Rest) node {
	s := b.t.Show(r.Length) + " × " + b.t.Show(r.Width) + ", " + or(r.Called, r.Material)
	if len(r.Name) > 1 {
		return nodes{el("b", text(r.Name+" ")), span("", rich(s))}
	}
	return span("", rich(s))
}

// leftover is what the project leaves, for the book.
func (b *builder) leftover() node {
	k := b.Book
	if len(k.Left) == 0 || b.ReadOnly {
		return nodes{}
	}
	rows := nodes{}
	for _, r := range k.Left {
		rows = append(rows, el("li", b.rest(r)))
	}
	out := nodes{el("h3", text("What is left")), el("ul", attr{"class", "rests"}, rows)}
	if k.Kept {
		return append(out, el("p", icon(tick), text(" In the offcuts book. Write the letter on each.")), b.refused())
	}
	return append(out, button("plain", do(doBook, "to", "put"), attr{"id", "book-put"}, text("Put them into the offcuts book")))
}

func (b *builder) refused() node {
	if !b.Book.Refused {
		return nodes{}
	}
	return el("p", attr{"class", "says warn"}, icon(triangle), span("", text("This browser keeps nothing: save the book as a file (menu) before you close the page.")))
}

// bookOffer is what the book has for this project.
func (b *builder) bookOffer() node {
	k := b.Book
	if len(k.Offered) == 0 || b.ReadOnly || b.Offer != nil {
		return nodes{}
	}
	rows := nodes{}
	for _, r := range k.All {
		for _, key := range k.Offered {
			if r.Key == key {
				rows = append(rows, button("plain", do(doBook, "to", "take", "id", r.Key), attr{"id", "book-take-" + r.Key}, span("", b.rest(r))))
			}
		}
	}
	return div("book", el("h2", text("In your offcuts book")), el("p", text("Left by earlier projects. A tap makes it stock of this one.")), div("choice", rows),
		when(len(rows) > 1, button("plain", do(doBook, "to", "take"), attr{"id", "book-take"}, text("Take all "+strconv.Itoa(len(rows))))))
}

// bookMenu is the whole book.
func (b *builder) bookMenu() node {
	k := b.Book
	out := nodes{el("h2", text("Offcuts book"))}
	if len(k.All) == 0 {
		return append(out, el("p", attr{"class", "small"}, text("Empty. When all is cut, Saw offers to put what is left into it.")))
	}
	rows := nodes{}
	for _, r := range k.All {
		from := r.From
		if r.Taken != "" {
			from += ", taken"
		}
		rows = append(rows, el("li", span("name", b.rest(r), el("small", text(" "+from))),
			button("drop", do(doBook, "to", "strike", "id", r.Key), attr{"id", "book-strike-" + r.Key}, attr{"aria-label", "Strike out " + r.Name}, text("Used up"))))
	}
	return append(out, b.refused(), el("ul", attr{"class", "projects"}, rows),
		button("plain", do(doBook, "to", "file"), attr{"id", "book-file"}, text("Save the book as a file")))
}
