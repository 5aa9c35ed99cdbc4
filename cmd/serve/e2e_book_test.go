package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// Where storage is full or refused, the offcuts book says so and is kept as
// long as the page: it is read, struck out of, and there in the next project.
func TestBookRefused(t *testing.T) {
	h := newHost(t)
	book := project.Book{Format: project.BookFormat, Version: 1}
	for i := range 2 {
		n := fmt.Sprint(i + 1)
		book.Offcuts = append(book.Offcuts, project.Rest{Key: "k" + n, Name: "Q" + n, From: "An earlier job", Length: measure.Length(20+i) * measure.Inch, Width: 12 * measure.Inch, Grain: "length", Material: "board", Called: "Some board"})
	}
	text, err := json.Marshal(book)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "offcuts.json")
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
	const menu = "document.getElementById('menu-body').innerText"
	for name, script := range map[string]string{
		"full":    "IDBDatabase.prototype.transaction = () => { throw new DOMException('no', 'QuotaExceededError'); }",
		"refused": "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); }",
	} {
		b := newVisit(t)
		b.before(script)
		start(b, h.url(""))
		b.click("#menu-open")
		ask[any](b, "HTMLInputElement.prototype.click = () => {}; 0") // the dialog is the browser's
		b.click("#import")
		b.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path}))
		b.wait("the offcuts", "document.getElementById('notices')?.innerText.includes('2 offcuts were new')")
		ask[any](b, "document.querySelector('dialog[open]') || document.getElementById('menu-open').click(); 0")
		b.wait("the clear word", menu+".includes('This browser keeps nothing: save the book as a file')")
		b.wait("both", "document.getElementById('book-strike-k1') && document.getElementById('book-strike-k2')")
		b.shot("book-" + name)
		ask[any](b, "document.getElementById('book-strike-k1').click(); 0")
		b.wait("Q1 struck out", "!document.getElementById('book-strike-k1') && document.getElementById('book-strike-k2')")

		ask[any](b, "document.querySelector('dialog[open]')?.close(); 0")
		b.fill(drawerHeight, "5 1/4")
		b.wait("what was typed", field(drawerHeight)+".value.startsWith('5 1')")
		b.click("#menu-open")
		ask[any](b, "document.getElementById('new-sharpening-cart').click(); 0")
		b.wait("another project", "document.body.innerText.includes('Sharpening cart') && !document.querySelector('dialog[open]')")
		ask[any](b, "document.querySelector('dialog[open]') || document.getElementById('menu-open').click(); 0")
		b.wait("the book in the next project", menu+".includes('Q2') && !"+menu+".includes('Q1 ')")
	}
}
