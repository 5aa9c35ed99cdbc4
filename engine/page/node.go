package page

import "unicode/utf8"

// A node is a piece of HTML that is written when everything is known. Tags and
// attribute names come from this package's own code; whatever a user can type
// arrives as [text] or as the value of an [attr], and both pass through escape,
// the only place where HTML is made safe.
type node interface {
	item
	write(b *buffer)
}

// An item is what [el] takes: an attribute, or a node that becomes a child.
type item interface{ join(e *element) }

// An attr is an attribute of an element. One with an empty value is written
// without a value, which HTML reads as true or as the empty text.
type attr struct{ name, value string }

// text is a run of characters.
type text string

// nodes is several nodes in a row, or none.
type nodes []node

// raw is HTML that needs no escaping: an icon of our own, or a drawing that
// package svg has made and escaped. Nothing a user typed becomes raw here.
type raw string

type element struct {
	tag   string
	attrs []attr
	kids  []node
	few   [3]attr // room for the first ones: most elements need no more
	some  [2]node
}

// el makes an element. Nil items are left out, so that a caller may write a
// condition in line; see [when].
func el(tag string, items ...item) *element { return classed(tag, "", items) }

// div and span are the elements used most; the class is theirs.
func div(class string, items ...item) *element { return classed("div", class, items) }

func span(class string, items ...item) *element { return classed("span", class, items) }

func classed(tag, class string, items []item) *element {
	e := &element{tag: tag}
	e.attrs, e.kids = e.few[:0], e.some[:0]
	if class != "" {
		e.attrs = append(e.attrs, attr{"class", class})
	}
	for _, it := range items {
		if it != nil {
			it.join(e)
		}
	}
	return e
}

// when returns it if ok, else nothing.
func when(ok bool, it item) item {
	if ok {
		return it
	}
	return nil
}

func (a attr) join(e *element)     { e.attrs = append(e.attrs, a) }
func (t text) join(e *element)     { e.kids = append(e.kids, t) }
func (r raw) join(e *element)      { e.kids = append(e.kids, r) }
func (n nodes) join(e *element)    { e.kids = append(e.kids, n...) }
func (k *element) join(e *element) { e.kids = append(e.kids, k) }

func (t text) write(b *buffer) { escape(b, string(t)) }
func (r raw) write(b *buffer)  { b.put(string(r)) }

func (n nodes) write(b *buffer) {
	for _, k := range n {
		k.write(b)
	}
}

func (k *element) write(b *buffer) {
	b.put("<")
	b.put(k.tag)
	for _, a := range k.attrs {
		b.put(" ")
		b.put(a.name)
		if a.value != "" {
			b.put(`="`)
			escape(b, a.value)
			b.put(`"`)
		}
	}
	b.put(">")
	switch k.tag {
	case "input", "br", "hr": // have no end
		return
	}
	nodes(k.kids).write(b)
	b.put("</")
	b.put(k.tag)
	b.put(">")
}

// html writes the nodes.
func html(n ...node) string {
	var b buffer
	nodes(n).write(&b)
	return string(b)
}

// A buffer is HTML being written.
type buffer []byte

func (b *buffer) put(s string) { *b = append(*b, s...) }

// escape writes s so that it is nothing but characters, in text as well as in
// a quoted attribute. What no HTML document may contain becomes U+FFFD.
func escape(b *buffer, s string) {
	done := 0
	for i, r := range s {
		var as string
		switch {
		case r == '&':
			as = "&amp;"
		case r == '<':
			as = "&lt;"
		case r == '>':
			as = "&gt;"
		case r == '"':
			as = "&#34;"
		case r == '\'':
			as = "&#39;"
		case r < ' ' && r != '\n' && r != '\t', r == 0x7F, r == utf8.RuneError:
			as = "\uFFFD"
		default:
			continue
		}
		b.put(s[done:i])
		b.put(as)
		_, n := utf8.DecodeRuneInString(s[i:])
		done = i + n
	}
	b.put(s[done:])
}
