package page

import (
	"strconv"
	"strings"
)

// A pdf is a file being written: version 1.6, no compression, one font, lengths
// in millimetres from the lower left corner of the page.
type pdf struct {
	pages []string
	w, h  float64 // of every page
	now   strings.Builder
}

// pt is millimetres as points of 1/72 in, to four decimals.
func pt(mm float64) string { return strconv.FormatFloat(mm*72/25.4, 'f', 4, 64) }

// begin starts the next page.
func (p *pdf) begin() {
	if p.now.Len() > 0 {
		p.pages = append(p.pages, p.now.String())
		p.now.Reset()
	}
}

func (p *pdf) put(words ...string) {
	for i, w := range words {
		if i > 0 {
			p.now.WriteByte(' ')
		}
		p.now.WriteString(w)
	}
	p.now.WriteByte('\n')
}

func (p *pdf) line(wide, x0, y0, x1, y1 float64) {
	p.put(pt(wide), "w", pt(x0), pt(y0), "m", pt(x1), pt(y1), "l", "S")
}

func (p *pdf) text(size, x, y float64, s string) {
	p.put("BT /F1", pt(size), "Tf", pt(x), pt(y), "Td ("+latin(s)+") Tj ET")
}

// latin is a text as the font has it, in ASCII: other characters of Latin-1 as
// octal codes, what the font lacks as a question mark.
func latin(s string) string {
	var b strings.Builder
	for _, r := range plainly.Replace(s) {
		switch {
		case r == '(' || r == ')' || r == '\\':
			b.WriteByte('\\')
			b.WriteByte(byte(r))
		case r >= ' ' && r < 0x7F:
			b.WriteByte(byte(r))
		case r >= 0xA0 && r < 0x100:
			b.WriteString("\\" + strconv.FormatInt(int64(r), 8))
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

// end returns the file: objects, then the table of where each begins.
func (p *pdf) end() string {
	p.begin()
	var b strings.Builder
	b.WriteString("%PDF-1.6\n")
	var at []int
	object := func(parts ...string) {
		at = append(at, b.Len())
		b.WriteString(strconv.Itoa(len(at)) + " 0 obj\n")
		for _, s := range parts {
			b.WriteString(s)
		}
		b.WriteString("\nendobj\n")
	}
	kids := ""
	for i := range p.pages {
		kids += " " + strconv.Itoa(4+2*i) + " 0 R"
	}
	object("<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None>>>>")
	object("<</Type/Pages/Kids[", strings.TrimSpace(kids), "]/Count ", strconv.Itoa(len(p.pages)), "/MediaBox[0 0 ", pt(p.w), " ", pt(p.h), "]>>")
	object("<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>")
	for i, s := range p.pages {
		object("<</Type/Page/Parent 2 0 R/Resources<</Font<</F1 3 0 R>>>>/Contents ", strconv.Itoa(5+2*i), " 0 R>>")
		object("<</Length ", strconv.Itoa(len(s)), ">>\nstream\n", s, "endstream")
	}
	start := b.Len()
	b.WriteString("xref\n0 " + strconv.Itoa(len(at)+1) + "\n0000000000 65535 f \n")
	for _, n := range at {
		s := strconv.Itoa(n)
		b.WriteString("0000000000"[len(s):] + s + " 00000 n \n")
	}
	b.WriteString("trailer\n<</Size " + strconv.Itoa(len(at)+1) + "/Root 1 0 R>>\nstartxref\n" + strconv.Itoa(start) + "\n%%EOF\n")
	return b.String()
}
