package main

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// pdf prints the page on paper of the given size in inches.
func (b *visit) pdf(w, h float64) []byte {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, e2ePatience)
	defer cancel()
	yes := true
	r, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: w, PaperHeight: h, PreferCSSPageSize: &yes})
	if err != nil {
		b.t.Fatal(err)
	}
	return r.Data
}

var (
	pdfPage = regexp.MustCompile(`/Type\s*/Page[^s]`)
	pdfBox  = regexp.MustCompile(`/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]`)
)

// Every print has the pages it should have on A4 and on Letter: a store card
// one each, twelve labels on one; and nothing runs over its page or its label.
func TestPrintPages(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.searched()
	ask[any](b, "window.print = () => { window.printed = document.body.dataset.print; }; 0")
	papers := []struct {
		name string
		w, h float64 // inches
	}{{"A4", 210 / 25.4, 297 / 25.4}, {"Letter", 8.5, 11}}
	for _, tt := range []struct {
		kind, place string
		pages       string // a script
	}{
		{"cards", "store", "document.querySelectorAll('#print .storecard').length"},
		{"labels", "parts", "Math.ceil(document.querySelectorAll('#print .label').length / 12)"},
		{"parts", "parts", "-3"}, // at most
		{"saw", "saw", "-20"},
	} {
		ask[any](b, fmt.Sprintf("document.getElementById('place-%s').click(), 0", tt.place))
		b.wait("the button", fmt.Sprintf("document.querySelector('[data-do=print][data-to=%s]')", tt.kind))
		for _, paper := range papers {
			ask[any](b, fmt.Sprintf("window.printed = '', document.querySelector('[data-do=print][data-to=%s]').click(), 0", tt.kind))
			b.wait("the print", fmt.Sprintf("window.printed === %q && document.body.dataset.print", tt.kind))
			want := ask[int](b, tt.pages)
			// As wide as the paper less the margins, nothing is wider than the
			// page, and no label holds more than it shows.
			inside := int64((paper.w*25.4 - 24) / 25.4 * 96)
			b.do(chromedp.EmulateViewport(inside, 1000))
			b.media("print")
			if over := ask[string](b, `(() => {
				const r = document.getElementById('print').getBoundingClientRect();
				for (const el of document.querySelectorAll('#print *')) {
					if (el.closest('svg') && el.nodeName !== 'svg') continue;
					const e = el.getBoundingClientRect();
					if (e.width && e.right > innerWidth + 1) return el.outerHTML.slice(0, 200) + ' ends at ' + e.right + ' of ' + innerWidth;
				}
				for (const el of document.querySelectorAll('#print .label, #print .storecard'))
					if (el.scrollHeight > el.clientHeight + 2) return el.textContent + ' is ' + el.scrollHeight + ' high, ' + el.clientHeight + ' show';
				return '';
			})()`); over != "" {
				t.Errorf("%s on %s: %s", tt.kind, paper.name, over)
			}
			b.media("")
			b.do(chromedp.EmulateViewport(1180, 820))
			file := b.pdf(paper.w, paper.h)
			got := len(pdfPage.FindAll(file, -1))
			if want > 0 && got != want || want < 0 && (got < 1 || got > -want) {
				t.Errorf("%s on %s: %d pages, want %d", tt.kind, paper.name, got, want)
			}
			for _, m := range pdfBox.FindAllSubmatch(file, -1) {
				w, _ := strconv.ParseFloat(string(m[1]), 64)
				high, _ := strconv.ParseFloat(string(m[2]), 64)
				if math.Abs(w-paper.w*72) > 1.5 || math.Abs(high-paper.h*72) > 1.5 {
					t.Errorf("%s on %s: a page of %s × %s pt", tt.kind, paper.name, m[1], m[2])
				}
			}
			if !bytes.HasPrefix(file, []byte("%PDF")) {
				t.Errorf("%s: no PDF", tt.kind)
			}
		}
	}
}

// media has the page shown as on a medium, "" as it is.
func (b *visit) media(name string) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: name}); err != nil {
		b.t.Fatal(err)
	}
}
