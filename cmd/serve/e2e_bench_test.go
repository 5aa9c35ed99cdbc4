package main

import (
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// TestAtTheBench marks a step and a row of holes at Bench; both are there after
// a reload, and the drawing follows what is chosen.
func TestAtTheBench(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.click("#place-bench")
	b.wait("the first step", `document.querySelector('#title h2')?.textContent.startsWith('Step 1 of')`)
	b.shot("bench")
	b.click(".done")
	b.wait("the second step", `document.querySelector('#title h2')?.textContent.startsWith('Step 2 of')`)
	b.click("#s-bench-drill")
	b.click("[id='row-drill/side-left']")
	b.wait("the holes of a side", `document.querySelector('#title h2')?.textContent.includes('holes')`)
	b.shot("bench-part")
	b.click("[id='mark-drill/side-left/pocket/bottom']")
	b.wait("the row is marked", `document.getElementById('mark-drill/side-left/pocket/bottom')?.textContent==='Not done'`)
	b.saved()
	b.open(h.url(""))
	b.planned()
	b.click("#place-bench")
	b.wait("the mark after a reload", `document.querySelector('#title h2')?.textContent.startsWith('Step 2 of')`)
}

// TestBenchTools: the step at hand reads from a metre on a tablet, its button is
// in sight both ways round, and the next step is brought into sight; a drilling
// guide is shown and its pieces go on the cut list; a box that came out wide
// binds on its card; a calendar from 1900 is refused in words.
func TestBenchTools(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.click("#place-bench")
	for _, size := range [][2]int64{{1180, 820}, {820, 1180}} {
		b.do(chromedp.EmulateViewport(size[0], size[1]))
		b.wait("the step", `document.querySelector('.far li')`)
		if px := ask[float64](b, `Math.min(...[...document.querySelectorAll('.far, .far li')].map(e => parseFloat(getComputedStyle(e).fontSize)).filter(x => x > 0).concat([...document.querySelectorAll('.far li')].map(e => parseFloat(getComputedStyle(e).fontSize))))`); px < 26 {
			t.Errorf("%v: words of %v px", size, px)
		}
		in := `(() => { const r = document.querySelector('.stick .done').getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + r.height / 2;
			return document.elementFromPoint(x, y)?.closest('.done') !== null && r.bottom <= innerHeight; })()`
		if !ask[bool](b, in) {
			t.Errorf("%v: the button is out of sight", size)
		}
		// From far down, done brings the head of the next step into sight. A tap
		// right after another marks nothing.
		time.Sleep(450 * time.Millisecond)
		b.wait("its button", `document.querySelector('.stick .done').textContent.trim() === document.querySelector('#title h2').textContent.split(' of')[0] + ' is done'`)
		n := ask[string](b, `document.querySelector('#title h2').textContent`)
		ask[any](b, `(document.querySelector('#s-bench-drill').scrollIntoView(), document.querySelector('.stick .done').click(), 0)`)
		b.wait("the next step", `document.querySelector('#title h2').textContent !== '`+n+`'`)
		b.wait("its head in sight", `(() => { const r = document.querySelector('#title h2').getBoundingClientRect(); return r.top >= 0 && r.bottom < innerHeight; })()`)
		b.shot("bench-far")
	}
	b.do(chromedp.EmulateViewport(390, 844))
	b.click("#s-bench-guides")
	b.click("[id='row-guide/pull-1']")
	b.wait("the guide", `document.querySelector('#title h2')?.textContent === 'Drilling guide'`)
	if w := ask[bool](b, `document.documentElement.scrollWidth > innerWidth`); w {
		t.Error("the guide is wider than a phone")
	}
	b.shot("bench-guide")
	b.do(chromedp.EmulateViewport(820, 1180)) // a phone has no room for the word "saved"
	b.click("[id='add-guide/pull-1']")
	b.saved()
	b.click("#to-steps")
	b.click("#s-bench-cards")
	b.click("#s-card-2")
	b.fill("built/bay1/drawer2/back", "15 1/2")
	b.wait("it binds", `document.querySelector('[data-keep=card-2]').textContent.includes('Binds at the back')`)
	b.shot("bench-card")
	ask[any](b, `(() => { document.querySelector('#s-bench-finish').click(); const i = document.getElementById('i-finish.start'); i.value = '1900-01-01T09:00'; i.dispatchEvent(new Event('change', {bubbles: true})); return 0; })()`)
	b.wait("a word about the date", `document.getElementById('notices')?.textContent.includes('1970')`)
	b.click("#place-parts")
	b.wait("the pieces of the guide", `document.getElementById('main').textContent.includes('Guide plate, pull of drawer 1')`)
	b.saved()
	b.open(h.url(""))
	b.planned()
	b.click("#place-bench")
	b.wait("the box after a reload", `document.querySelector('[data-keep=card-2]')?.textContent.includes('Binds at the back')`)
}
