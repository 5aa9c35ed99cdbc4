package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// What is wanted at the bench on paper, as the browser renders it on A4 and
// Letter: steps and drilling sheets four a page, no quarter holds more than it
// shows, every article is one page (spacers and finish may take two), and the
// order of things is steps, holes, spacers, drawers, finish.
func TestPrintBench(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	ask[any](b, "window.print = () => { window.printed = document.body.dataset.print; }; 0")
	for _, name := range []string{"", "tall-tool-cabinet", "sharpening-cart"} {
		if name != "" {
			was := b.text("#head h1, #head [id=title], title")
			ask[any](b, fmt.Sprintf("document.querySelector('[data-do=new][data-to=%q]').click(), 0", name))
			b.wait("the starting point "+name, fmt.Sprintf("document.title !== %q", was))
			b.planned()
		}
		ask[any](b, "document.getElementById('place-bench').click(), 0")
		b.wait("the button", "document.querySelector('[data-do=print][data-to=bench]')")
		for _, paper := range []struct {
			name string
			w, h float64
		}{{"A4", 210 / 25.4, 297 / 25.4}, {"Letter", 8.5, 11}} {
			ask[any](b, "window.printed = '', document.querySelector('[data-do=print][data-to=bench]').click(), 0")
			b.wait("the print", "window.printed === 'bench'")
			b.do(chromedp.EmulateViewport(int64((paper.w*25.4-24)/25.4*96), int64((paper.h*25.4-24)/25.4*96)))
			b.media("print")
			if bad := ask[string](b, `(() => {
				const out = [];
				for (const q of document.querySelectorAll('#print .quarter')) {
					if (q.scrollHeight > q.clientHeight + 1 || q.scrollWidth > q.clientWidth + 1)
						out.push(q.innerText.slice(0, 60) + ': ' + q.scrollWidth + ' × ' + q.scrollHeight + ' in ' + q.clientWidth + ' × ' + q.clientHeight);
				}
				for (const a of document.querySelectorAll('#print .four'))
					if (a.getBoundingClientRect().height > innerHeight + 1) out.push('a page is ' + a.getBoundingClientRect().height + ' high of ' + innerHeight);
				for (const p of document.querySelectorAll('#print .quarter .picture'))
					if (p.getBoundingClientRect().height < 70) out.push('a drawing is only ' + p.getBoundingClientRect().height + ' high: ' + p.parentElement.innerText.slice(0, 40));
				return out.join('\n');
			})()`); bad != "" {
				t.Errorf("%s on %s:\n%s", name, paper.name, bad)
			}
			b.media("")
			b.do(chromedp.EmulateViewport(1180, 820))
			// Four to a page, in order; only the last page of a kind has fewer.
			if bad := ask[string](b, `(() => {
				const pages = [...document.querySelectorAll('#print .page')].map(a => [a.querySelector('h1').innerText.split(',')[0].split('.')[0], a.querySelectorAll('.quarter').length]);
				const kinds = [];
				for (let i = 0; i < pages.length; i++) {
					const [k, n] = pages[i];
					if (kinds.at(-1) !== k) kinds.push(k);
					if (n > 4 || n < 4 && n > 0 && pages[i + 1] && pages[i + 1][0] === k) return k + ' has a page of ' + n;
				}
				const want = 'Steps|Holes|Spacers|Hanging the drawers|Finish';
				return kinds.join('|') === want ? '' : kinds.join('|');
			})()`); bad != "" {
				t.Errorf("%s: %s", name, bad)
			}
			articles := ask[int](b, "document.querySelectorAll('#print .page').length")
			if got := len(pdfPage.FindAll(b.pdf(paper.w, paper.h), -1)); got < articles || got > articles+2 {
				t.Errorf("%s on %s: %d pages for %d articles", name, paper.name, got, articles)
			}
		}
	}
}

// Grooves, rabbets and mitres print two a page under the cuts, each with its
// drawing beside its words, all of it shown, on A4 and Letter; with a table saw
// and without.
func TestPrintGrooves(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	ask[any](b, "window.print = () => { window.printed = document.body.dataset.print; }; 0")
	data, err := os.ReadFile("../../testdata/projects/options/strips.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, kinds := range []string{"table mitre track", "track"} {
		var p map[string]any
		if err := json.Unmarshal(data, &p); err != nil {
			t.Fatal(err)
		}
		p["name"] = "Saws: " + kinds
		p["drawers"].(map[string]any)["joint"] = "groove"
		shop := p["shop"].(map[string]any)
		shop["saws"] = slices.DeleteFunc(shop["saws"].([]any), func(s any) bool {
			return !strings.Contains(kinds, s.(map[string]any)["kind"].(string))
		})
		path := filepath.Join(t.TempDir(), "grooves.json")
		text, _ := json.Marshal(p)
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		b.click("#menu-open")
		ask[any](b, "HTMLInputElement.prototype.click = () => {}; 0") // the dialog is the browser's
		b.click("#import")
		b.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path}))
		b.wait("the project", fmt.Sprintf("document.title.startsWith('Saws: %s')", kinds))
		ask[any](b, "document.querySelector('dialog[open]')?.close(); 0")
		ask[any](b, "document.getElementById('place-saw').click(), 0")
		b.wait("the button", "document.querySelector('[data-do=print][data-to=saw]')")
		for _, paper := range [][2]float64{{210, 297}, {215.9, 279.4}} {
			ask[any](b, "window.printed = '', document.querySelector('[data-do=print][data-to=saw]').click(), 0")
			b.wait("the print", "window.printed === 'saw'")
			b.do(chromedp.EmulateViewport(int64((paper[0]-24)/25.4*96), int64((paper[1]-24)/25.4*96)))
			b.media("print")
			if bad := ask[string](b, `(() => {
				const out = [], all = [...document.querySelectorAll('#print .mill')];
				if (all.length !== 3) out.push(all.length + ' of 3');
				for (const m of all) {
					const p = m.querySelector('.picture svg').getBoundingClientRect(), says = m.querySelector('.sides').lastElementChild;
					const low = says.lastElementChild.getBoundingClientRect().bottom, room = m.getBoundingClientRect();
					if (p.height < 150 || p.width < 250 || p.bottom > room.bottom + 1) out.push('a drawing of ' + p.width + ' × ' + p.height);
					if (low > room.bottom + 1) out.push(m.innerText + ' ends ' + (low - room.bottom) + ' too low');
					if (parseFloat(getComputedStyle(says).fontSize) < 14) out.push('small letters');
				}
				for (const m of all) {
					const page = m.closest('.page').getBoundingClientRect().height;
					if (page > innerHeight + 1) out.push('a page is ' + page + ' high of ' + innerHeight);
				}
				return out.join('\n');
			})()`); bad != "" {
				t.Errorf("%s on %v mm: %s", kinds, paper, bad)
			}
			b.media("")
			b.do(chromedp.EmulateViewport(1180, 820))
		}
	}
}
