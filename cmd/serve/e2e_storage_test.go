package main

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A new build waits until the user wants it.
func TestUpdateIsOffered(t *testing.T) {
	h := newHost(t)
	var later atomic.Bool
	h.mux.HandleFunc("/sw.js", func(w http.ResponseWriter, r *http.Request) {
		body, err := os.ReadFile(filepath.Join(site(t), "sw.js"))
		if err != nil {
			t.Error(err)
		}
		w.Header().Set("Content-Type", "text/javascript")
		if later.Load() {
			body = append(body, "\n// a later build\n"...)
		}
		_, _ = w.Write(body)
	})
	b := newVisit(t)
	start(b, h.url(""))
	b.wait("the service worker", "document.body.dataset.offline === 'ready' && navigator.serviceWorker.controller")
	later.Store(true)
	b.do(chromedp.Reload())
	b.planned()
	b.wait("the offer", "/An update is ready/.test(document.getElementById('notices')?.innerText)")
	b.shot("update")
	ask[any](b, "window.old = true")
	x, y := b.middle("[...document.querySelectorAll('.notice button')].find(b => b.textContent === 'Reload')")
	b.do(chromedp.MouseClickXY(x, y))
	b.wait("the new page", "!window.old")
	b.planned()
}

// A link opens as a copy, and leaves what is stored alone.
func TestShareLink(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.fill(drawerHeight, "5 1/4")
	b.saved()
	ask[any](b, "navigator.clipboard.writeText = text => { window.copied = text; return Promise.resolve(); }; 0")
	b.click("#menu-open")
	b.click("#share")
	b.wait("the link", "window.copied")
	link := ask[string](b, "window.copied")
	t.Logf("the link has %d characters", len(link))
	b.do(chromedp.Reload())
	b.planned()

	c := b.another()
	start(c, link)
	c.wait("a word about the copy", "/opened as a copy/.test(document.getElementById('notices')?.innerText)")
	if got := ask[string](c, field(drawerHeight)+".value"); got != "5 1/4" {
		t.Errorf("the field holds %q, want 5 1/4", got)
	}
	if at := ask[string](c, "location.hash"); at != "" {
		t.Errorf("the address still holds %.20s…", at)
	}
	c.fill(drawerHeight, "4 1/2")
	c.saved()
	b.do(chromedp.Reload())
	b.planned()
	c.click("#menu-open")
	c.wait("two projects", "document.querySelectorAll('#menu .projects li').length === 2")

	// A bad link says so, and the last project opens.
	good := link[strings.Index(link, "#")+1:]
	d := b.another()
	for _, tt := range []struct{ name, fragment, says string }{
		{"short", "1AAAA", "damaged"},
		{"words", "about", "damaged"},
		{"cut off", good[:len(good)/2], "damaged"},
		{"newer", "2" + good[1:], "newer version"},
		{"no project", "1" + packed(`{"format":"else"}`), "not a Cartwright project"},
		{"newer file", "1" + packed(`{"format":"cartwright-project","version":7}`), "version 7"},
		{"bomb", "1" + packed(strings.Repeat(" ", 64<<20)), "more than a project can be"},
		{"too long", "1" + strings.Repeat("A", 1<<20), "longer than a link can be"},
	} {
		d.open("about:blank")
		d.open(h.url("#" + tt.fragment))
		d.wait("a word about a link: "+tt.name, fmt.Sprintf("document.getElementById('notices')?.innerText.includes(%q)", tt.says))
		d.planned()
	}
}

// packed is a text as a link holds it.
func packed(text string) string {
	var b bytes.Buffer
	e := base64.NewEncoder(base64.RawURLEncoding, &b)
	z, _ := flate.NewWriter(e, flate.BestCompression)
	_, _ = z.Write([]byte(text))
	_ = z.Close()
	_ = e.Close()
	return b.String()
}

// A second tab reads until it takes over; then the first one reads.
func TestSecondTab(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.fill(drawerHeight, "5 1/4")
	b.saved()
	c := b.another()
	start(c, h.url(""))
	c.wait("the word that it is open elsewhere", "/Open elsewhere/.test(document.getElementById('head').innerText)")
	b.fill(drawerHeight, "5 1/2")
	b.saved()
	c.wait("what the other tab wrote", field(drawerHeight)+".value === '5 1/2'")
	c.click("#takeover")
	c.wait("the right to write", "!/Open elsewhere/.test(document.getElementById('head').innerText)")
	b.wait("the loss of it", "/Open elsewhere/.test(document.getElementById('head').innerText)")
	c.fill(drawerHeight, "5 3/4")
	c.saved()
	b.wait("what the other tab wrote", field(drawerHeight)+".value === '5 3/4'")
}

// The planner dies; nothing that was stored is lost.
func TestPlannerDies(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	b.before(`(() => {
		const Real = Worker;
		window.workers = [];
		window.Worker = function(...args) { const w = new Real(...args); window.workers.push(w); return w; };
	})()`)
	start(b, h.url(""))
	b.fill(drawerHeight, "5 1/4")
	b.saved()
	b.click("#place-saw")
	b.wait("the saw", "document.body.dataset.place === 'saw'")
	b.do(chromedp.KeyEvent(" "))
	b.wait("the mark", "document.getElementById('title').innerText.startsWith('1 of')")
	b.saved()
	ask[any](b, "workers.at(-1).postMessage({kind: 'do', action: '{'}), 0")
	b.wait("a new planner", "workers.length === 2")
	b.wait("the saw again", "document.body.dataset.place === 'saw' && document.getElementById('title').innerText.startsWith('1 of')")
	time.Sleep(450 * time.Millisecond)
	b.do(chromedp.KeyEvent(kb.PageDown))
	b.wait("the next mark", "document.getElementById('title').innerText.startsWith('2 of')")
	b.saved()
}

// Several projects: begun, opened, deleted, and brought back.
func TestProjects(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.fill(drawerHeight, "5 1/4")
	b.saved()
	name := func() string { return b.text("#head h1") }
	first := name()
	b.click("#menu-open")
	b.click("#new-sharpening-cart")
	b.wait("the other project", fmt.Sprintf("document.querySelector('#head h1').innerText !== %q", first))
	b.saved()
	b.click("#menu-open")
	const rows = "document.querySelectorAll('#menu .projects li').length"
	b.wait("two projects", rows+" === 2")
	b.shot("projects")
	x, y := b.middle(fmt.Sprintf("[...document.querySelectorAll('#menu .projects .name')].find(b => b.innerText.includes(%q))", first))
	b.do(chromedp.MouseClickXY(x, y))
	b.wait("the first project", fmt.Sprintf("document.querySelector('#head h1').innerText === %q", first))
	if got := ask[string](b, field(drawerHeight)+".value"); got != "5 1/4" {
		t.Errorf("the field holds %q, want 5 1/4", got)
	}
	b.click("#menu-open")
	x, y = b.middle(fmt.Sprintf("[...document.querySelectorAll('#menu .projects li')].find(b => !b.innerText.includes(%q)).querySelector('.drop')", first))
	b.do(chromedp.MouseClickXY(x, y))
	b.wait("one project", rows+" === 1")
	ask[any](b, "document.querySelector('dialog[open]').close()")
	x, y = b.middle("[...document.querySelectorAll('.notice button')].find(b => b.textContent === 'Undo')")
	b.do(chromedp.MouseClickXY(x, y))
	b.wait("two projects again", rows+" === 2")
}

// Storage that is refused is said, and the way out is offered.
func TestStorageRefused(t *testing.T) {
	h := newHost(t)
	for _, tt := range []struct{ name, script, says string }{
		{"full", "IDBDatabase.prototype.transaction = () => { throw new DOMException('no', 'QuotaExceededError'); }", "Not saved: this device has no room left"},
		{"refused", "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); }", "Not saved: this browser refused the storage"},
	} {
		b := newVisit(t)
		b.before(tt.script)
		start(b, h.url(""))
		b.fill(drawerHeight, "5 1/4")
		b.wait("the warning", fmt.Sprintf("document.body.innerText.includes(%q)", tt.says))
		b.wait("the way out", "document.querySelector('#banner-export')")
		b.shot("not-saved-" + tt.name)
	}
}

// Bad input: a clear word, and everything stays.
func TestBadInput(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	cost := b.cell("cost")
	b.fill(drawerHeight, "5 1/")
	b.wait("the reason", "/number is missing/.test(document.getElementById('fields').innerText)")
	b.shot("bad-length")
	if got := b.cell("cost"); got != cost {
		t.Errorf("the cost went from %s to %s", cost, got)
	}
	if got := ask[string](b, field(drawerHeight)+".value"); got != "5 1/" {
		t.Errorf("the field holds %q, want what was typed", got)
	}
	b.fill(drawerHeight, "5 1/4")
	b.wait("the reason to go", "!/number is missing/.test(document.getElementById('fields').innerText)")
	b.saved()

	dir := t.TempDir()
	for _, tt := range []struct{ name, text, says string }{
		{"junk.json", "\x7fELF\x00\x00\x01", "no text"},
		{"other.json", `{"a":1}`, "not a Cartwright project"},
		{"newer.json", `{"format":"cartwright-project","version":9}`, "version 9"},
		{"huge.json", strings.Repeat(" ", 50<<20), "50 MB"},
	} {
		path := filepath.Join(dir, tt.name)
		if err := os.WriteFile(path, []byte(tt.text), 0o666); err != nil {
			t.Fatal(err)
		}
		ask[any](b, "for (const n of document.querySelectorAll('.notice')) n.remove(); 0")
		b.click("#menu-open")
		ask[any](b, "HTMLInputElement.prototype.click = () => {}; 0") // the dialog is the browser's
		b.click("#import")
		b.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path}))
		b.wait("a word about "+tt.name, fmt.Sprintf("document.getElementById('notices')?.innerText.includes(%q)", tt.says))
		ask[any](b, "document.querySelector('dialog[open]')?.close(); 0")
		if got := ask[string](b, field(drawerHeight)+".value"); got != "5 1/4" {
			t.Errorf("%s: the field holds %q now", tt.name, got)
		}
	}
	b.shot("bad-file")
}
