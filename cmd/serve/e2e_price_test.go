package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// deep is a box on feet, 20 in deep. Its sides, at most 27 in high, and its
// bottom of 20 in come from sheets of 47 by 40 in at $61: in two strips, if
// twice the depth and a kerf of 1/8 in are at most 40 in, that is up to
// 19 15/16 in; else from two sheets. All else comes from an offcut.
const deep = `{"format":"cartwright-project","version":1,"name":"Deep box","seed":1,
	"lineUp":{"mode":"height","height":"29 in"},
	"cabinet":{"width":"20 in","depth":"20 in","material":"box","back":{"kind":"none"},"top":{"material":"board"},"bays":[{"openings":[{}]}]},
	"base":{"kind":"feet","foot":"2 in"},
	"stock":{"materials":[{"id":"box","name":"Birch 3/4 in","kind":"plywood","nominal":"3/4 in"},{"id":"board","name":"Board 3/4 in","kind":"plywood","nominal":"3/4 in"}],
		"sheets":[{"id":"oblong","material":"box","length":"47 in","width":"40 in","grain":"length","price":"61.00"}],
		"offcuts":[{"id":"left over","material":"board","length":"60 in","width":"40 in","grain":"length"}]},
	"shop":{"saws":[{"name":"table saw","kind":"table","kerf":"1/8 in","rip":"50 in","crosscut":"50 in","length":"100 in"}]}}`

// Once the plan is found, other sizes are looked at; what is cheaper nearby is
// listed at Size, and using it moves the strip by what was promised. One step
// back undoes it. Stop ends the search for both.
func TestCheaperNearby(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	path := filepath.Join(t.TempDir(), "deep.json")
	if err := os.WriteFile(path, []byte(deep), 0o600); err != nil {
		t.Fatal(err)
	}
	b.click("#menu-open")
	ask[any](b, "HTMLInputElement.prototype.click = () => {}; 0") // the dialog is the browser's
	b.click("#import")
	b.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path}))
	b.wait("the box", "document.title.startsWith('Deep box')")
	ask[any](b, "document.querySelector('dialog[open]')?.close(); 0")
	const depth = "document.getElementById('i-cabinet.depth').value"
	cost := func() float64 {
		return ask[float64](b, "parseFloat(document.querySelector('#cell-cost b').textContent.replace('$', ''))")
	}
	before := cost()
	b.searched()
	b.wait("the offer", "document.querySelector('#f-nearby li')")
	b.wait("the end", "document.querySelector('#f-nearby').innerText.includes('sizes were tried')")
	b.shot("cheaper-nearby")
	if row := b.text("#f-nearby li"); !strings.Contains(row, "−$61.00") || !strings.Contains(row, "1 sheet fewer (Birch") || !strings.Contains(row, "Proven") {
		t.Errorf("the offer says %s", row)
	}
	ask[bool](b, "(document.querySelector('#f-nearby li button').focus(), true)")
	b.do(chromedp.KeyEvent(kb.Enter)) // by keyboard alone
	b.wait("the other depth", depth+" === '19 15/16'")
	if after := cost(); after != before-61 {
		t.Errorf("it costs %.2f after %.2f", after, before)
	}
	if s := b.text("#f-nearby"); strings.Contains(s, "Use ") {
		t.Errorf("after the edit the old offer stands: %s", s)
	}
	b.saved()
	b.click("#undo")
	b.wait("the old depth", depth+" === '20'")
	if again := cost(); again != before {
		t.Errorf("after undo it costs %.2f, before %.2f", again, before)
	}
	b.click("#stop-nearby")
	b.wait("the end", "document.querySelector('#f-nearby').innerText.includes('Stopped.') && !('searching' in document.body.dataset)")
}
