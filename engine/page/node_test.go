package page

import (
	"fmt"
	stdhtml "html"
	"strings"
	"testing"
	"unicode/utf8"
)

// scan reads HTML as this package writes it, strictly: known tags that are
// closed in order, attributes in double quotes, no stray < > or quote. It
// returns the elements in order of their start.
func scan(s string) (found []*element, err error) {
	var open []*element
	for s != "" {
		if s[0] != '<' {
			i := strings.IndexAny(s, "<>")
			if i < 0 {
				i = len(s)
			}
			if i < len(s) && s[i] == '>' {
				return nil, fmt.Errorf("stray > at %.40q", s)
			}
			if strings.ContainsAny(s[:i], `"'`) {
				return nil, fmt.Errorf("stray quote in %.40q", s)
			}
			if len(open) > 0 {
				e := open[len(open)-1]
				e.kids = append(e.kids, text(s[:i]))
			}
			s = s[i:]
			continue
		}
		end := false
		s, end = strings.CutPrefix(s[1:], "/")
		n := 0
		for n < len(s) && ('a' <= s[n] && s[n] <= 'z' || isDigit(s[n])) {
			n++
		}
		tag := s[:n]
		if !tags[tag] {
			return nil, fmt.Errorf("unknown tag %q", tag)
		}
		s = s[n:]
		if end {
			if len(open) == 0 || open[len(open)-1].tag != tag || s[0] != '>' {
				return nil, fmt.Errorf("</%s> closes nothing", tag)
			}
			open, s = open[:len(open)-1], s[1:]
			continue
		}
		e := &element{tag: tag}
		for s != "" && s[0] == ' ' {
			i := strings.IndexAny(s, "=>\"'<")
			if j := strings.IndexByte(s[1:], ' '); j >= 0 && j+1 < i {
				i = j + 1
			}
			if i < 2 {
				return nil, fmt.Errorf("no attribute at %.40q", s)
			}
			a := attr{name: s[1:i]}
			s = s[i:]
			if s[0] == '=' {
				i := strings.IndexByte(s[2:], '"')
				if s[1] != '"' || i < 0 {
					return nil, fmt.Errorf("unquoted value at %.40q", s)
				}
				if a.value = s[2 : 2+i]; strings.ContainsAny(a.value, "<>'") {
					return nil, fmt.Errorf("bare sign in %s=%q", a.name, a.value)
				}
				a.value = stdhtml.UnescapeString(a.value)
				s = s[i+3:]
			}
			e.attrs = append(e.attrs, a)
		}
		if s == "" || s[0] != '>' {
			return nil, fmt.Errorf("<%s> does not end: %.40q", tag, s)
		}
		s = s[1:]
		found = append(found, e)
		if tag != "input" && tag != "br" && tag != "hr" {
			open = append(open, e)
		}
	}
	if len(open) > 0 {
		return nil, fmt.Errorf("<%s> is not closed", open[len(open)-1].tag)
	}
	return found, nil
}

var tags = map[string]bool{}

func init() {
	for tag := range strings.FieldsSeq("article b button caption dd details div dl dt footer h1 h2 h3 header input label li ol option p " +
		"path s section select small span sub summary sup svg table tbody td tfoot th thead tr ul br hr em progress") {
		tags[tag] = true
	}
}

func (k *element) get(name string) string {
	for _, a := range k.attrs {
		if a.name == name {
			return a.value
		}
	}
	return ""
}

func TestElements(t *testing.T) {
	got := html(div("a", attr{"id", "x"}, when(false, text("no")), when(true, text("1 < 2")), nodes{el("br"), span("")}),
		button("plain", do(doSet, "path", "a.b", "at", "1"), text("Go")))
	want := `<div class="a" id="x">1 &lt; 2<br><span></span></div>` +
		`<button type="button" class="plain" data-do="set" data-path="a.b" data-at="1">Go</button>`
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onclick='x`, `&lt;b&gt;`, "a\x00b\x7f", "\xff\xfe<", "3⁄4<5", `23 5/8" & more`, "</textarea>", "<!--", "]]>", "1⁄<2",
}

func FuzzEscape(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		clean := strings.Map(func(r rune) rune {
			if r < ' ' && r != '\n' && r != '\t' || r == 0x7F {
				return utf8.RuneError
			}
			return r
		}, strings.ToValidUTF8(s, string(utf8.RuneError)))
		found, err := scan(html(el("p", attr{"title", s}, text(s))))
		if err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		if len(found) != 1 {
			t.Fatalf("%q became %d elements", s, len(found))
		}
		if got := found[0].get("title"); strings.ReplaceAll(got, "\uFFFD", "") != strings.ReplaceAll(clean, "\uFFFD", "") {
			t.Errorf("attribute %q came out as %q", clean, got)
		}
		in := ""
		for _, k := range found[0].kids {
			in += stdhtml.UnescapeString(string(k.(text)))
		}
		if strings.ReplaceAll(in, "\uFFFD", "") != strings.ReplaceAll(clean, "\uFFFD", "") {
			t.Errorf("text %q came out as %q", clean, in)
		}
		// Built fractions let nothing through either, and lose no character.
		if _, err := scan(html(el("p", rich(s), bare(s)))); err != nil {
			t.Errorf("rich(%q): %v", s, err)
		}
	})
}
