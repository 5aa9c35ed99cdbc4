package page

import (
	"fmt"
	"strconv"
	"strings"

	"cartwright/engine/measure"
)

// Templates are 1:1 prints as a PDF file: for each spacing of pulls the two
// holes on their line with the middle of the front, on a page that says how to
// check its scale. PDF because browsers shrink pages of HTML silently; written
// here by hand, since all it takes is lines and a standard font. It has no
// dates: the same project gives the same bytes. "" without a pull.
//
// It stands in package page, the last of the engine's tiers, since it puts
// results into a form that is read; it needs nothing that page does not import.
func Templates(v View) string {
	var spacings []measure.Length
	for _, d := range v.Cart.Drawers {
		known := d.Pull <= 0
		for _, s := range spacings {
			known = known || s == d.Pull
		}
		if !known {
			spacings = append(spacings, d.Pull)
		}
	}
	if len(spacings) == 0 {
		return ""
	}
	t := v.measure()
	w, h := 279.4, 215.9 // Letter, lying
	if t.Metric {
		w, h = 297, 210 // A4
	}
	var p pdf
	for _, s := range spacings {
		p.begin(w, h)
		p.pull(t, s.Metres()*1000, w, h, Plain(t.ShowExact(s)))
	}
	return p.end()
}

// A pdf is a file being written: version 1.6, no compression, one font.
type pdf struct {
	pages []string
	sizes [][2]float64
	now   strings.Builder
}

// pt is millimetres as points of 1/72 in, to four decimals.
func pt(mm float64) string { return strconv.FormatFloat(mm*72/25.4, 'f', 4, 64) }

func (p *pdf) begin(w, h float64) {
	if len(p.sizes) > 0 {
		p.pages = append(p.pages, p.now.String())
		p.now.Reset()
	}
	p.sizes = append(p.sizes, [2]float64{w, h})
}

func (p *pdf) line(wide, x0, y0, x1, y1 float64) {
	fmt.Fprintf(&p.now, "%s w %s %s m %s %s l S\n", pt(wide), pt(x0), pt(y0), pt(x1), pt(y1))
}

func (p *pdf) text(size, x, y float64, s string) {
	s = strings.NewReplacer("\\", "\\\\", "(", "\\(", ")", "\\)").Replace(s)
	fmt.Fprintf(&p.now, "BT /F1 %s Tf %s %s Td (%s) Tj ET\n", pt(size), pt(x), pt(y), s)
}

// cross marks the middle of a hole.
func (p *pdf) cross(x, y float64) {
	p.line(.2, x-8, y, x+8, y)
	p.line(.2, x, y-8, x, y+8)
}

// mostSpan is how wide a pull's spacing fits the smaller page.
const mostSpan = 240

// pull draws one page: the holes, the middle of the front, the check bars.
func (p *pdf) pull(t measure.Tape, span, w, h float64, name string) {
	mid, y := w/2, h*.6
	half := span > mostSpan
	left := mid - span/2
	if half { // from the middle to one side; turned over for the other
		mid = 20
		left = mid
	}
	p.line(.35, 10, y, w-10, y)
	p.line(.35, mid, y-45, mid, y+35)
	if !half {
		p.cross(left, y)
	}
	p.cross(mid+span/2, y)
	p.text(5, 12, h-16, "Pull, "+name+" "+t.Unit()+" between its holes. Print at 100 %, actual size.")
	p.text(3.5, 12, h-23, "Upright line: middle of the front. Long line: the pull's height. Prick both crosses through.")
	if half {
		p.text(3.5, 12, h-29, "Half of it: mark one hole, then turn the sheet over at the upright line for the other.")
	}
	// Check bars, both ways.
	p.line(.35, 20, 20, 120, 20)
	p.line(.35, 20, 17, 20, 23)
	p.line(.35, 120, 17, 120, 23)
	p.text(3.5, 22, 22, "This line is 100 mm. If it is not, do not use this sheet.")
	x := w - 20.0
	p.line(.35, x, 20, x, 20+4*25.4)
	p.line(.35, x-3, 20, x+3, 20)
	p.line(.35, x-3, 20+4*25.4, x+3, 20+4*25.4)
	p.text(3.5, x-24, 24, "This is 4 in.")
}

// end returns the file: objects, then the table of where each begins.
func (p *pdf) end() string {
	p.pages = append(p.pages, p.now.String())
	var b strings.Builder
	b.WriteString("%PDF-1.6\n")
	var at []int
	object := func(s string) {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", len(at), s)
	}
	kids := ""
	for i := range p.pages {
		kids += fmt.Sprintf("%d 0 R ", 4+2*i)
	}
	object("<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None>>>>")
	object(fmt.Sprintf("<</Type/Pages/Kids[%s]/Count %d>>", strings.TrimSpace(kids), len(p.pages)))
	object("<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>")
	for i, s := range p.pages {
		object(fmt.Sprintf("<</Type/Page/Parent 2 0 R/MediaBox[0 0 %s %s]/Resources<</Font<</F1 3 0 R>>>>/Contents %d 0 R>>", pt(p.sizes[i][0]), pt(p.sizes[i][1]), 5+2*i))
		object(fmt.Sprintf("<</Length %d>>\nstream\n%s\nendstream", len(s)+1, s))
	}
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, start)
	return b.String()
}
