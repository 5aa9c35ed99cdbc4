package main

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// phone opens the program at phone size at a place, with the search ended.
func phone(t *testing.T, place string) *visit {
	h := newHost(t)
	b := newVisit(t)
	b.do(chromedp.EmulateViewport(390, 844))
	start(b, h.url(""))
	b.turnTo("store")
	ask[any](b, "document.getElementById('stop')?.click(), 0")
	b.searched()
	b.turnTo(place)
	return b
}

func (b *visit) turnTo(place string) {
	b.t.Helper()
	ask[any](b, fmt.Sprintf("document.getElementById('place-%s').click(), 0", place))
	b.wait(place, fmt.Sprintf("document.body.dataset.place === '%s'", place))
}

// price is the first sum of money in a text of the page, or of what follows after.
func (b *visit) price(script, after string) float64 {
	b.t.Helper()
	return ask[float64](b, fmt.Sprintf(`(() => {
		const s = (%s)?.textContent ?? '';
		const m = s.slice(Math.max(0, s.indexOf(%q))).match(/\$(\d[\d,]*\.\d\d)/);
		return m ? parseFloat(m[1].replace(',', '')) : -1;
	})()`, script, after))
}

const strip = "document.querySelector('#cell-cost b')"

// offered waits for an offer, checks that nothing has changed yet and that the
// difference it names is right, and returns what it would all cost.
func (b *visit) offered(title string) float64 {
	b.t.Helper()
	b.wait("the offer "+title, fmt.Sprintf("document.querySelector('.offer h2')?.innerText.includes(%q)", title))
	const diff = "document.querySelector('.offer .diff')"
	says, now := b.text(".offer .diff"), b.price(strip, "")
	var then float64
	switch {
	case strings.Contains(says, "the same"):
		return now
	case strings.Contains(says, "No room for"):
		return -1
	default:
		then = b.price(diff, ": ")
		if by := b.price(diff, ""); math.Abs(math.Abs(then-now)-by) > 0.001 || (then > now) != strings.HasPrefix(says, "+") {
			b.t.Errorf("%s: it says %q, now it costs %.2f", title, says, now)
		}
	}
	if ask[bool](b, "document.documentElement.scrollWidth > innerWidth") {
		b.t.Errorf("%s: the page is wider than the phone", title)
	}
	return then
}

func (b *visit) leave() {
	b.t.Helper()
	b.click("#offer-leave")
	b.wait("the offer to go", "!document.querySelector('.offer')")
}

// At the store's counter, on a phone: fewer sheets, no cuts, another size,
// delivery: each says what it costs before anything changes; what cannot be read
// is refused; what is accepted can be undone, and is there after a reload. Then
// a store cut comes out narrow.
func TestAtTheCounter(t *testing.T) {
	b := phone(t, "store")
	cost := b.price(strip, "")
	b.click("#counter-few")
	b.click("#counter-less")
	b.click("#counter-plan")
	b.offered("left")
	b.shot("counter-few")
	b.leave()
	b.click("#counter-none")
	b.offered("No cuts today")
	b.leave()

	b.click("#counter-size")
	b.wait("the form", "document.querySelector('[id^=\"i-counter/stock.sheets.\"][id$=price]')")
	at := ask[string](b, "document.querySelector('[id^=\"i-counter/stock.sheets.\"][id$=price]').id.slice(2)")
	for _, wrong := range []string{"-5", "cheap"} {
		b.fill(at, wrong)
		b.wait("the word that it cannot be read", "document.querySelector('#block .says.bad, #block [aria-invalid=true]')")
		b.click("#counter-plan")
		b.wait("the refusal", "document.getElementById('notices')?.innerText.includes('mend it first')")
	}
	b.fill(at, "10")
	b.click("#counter-plan")
	if then := b.offered("another size"); then < 0 || then >= cost {
		t.Errorf("with sheets for 10 it costs %.2f, before %.2f", then, cost)
	}
	b.leave()

	deliver := func() float64 {
		b.click("#counter-delivered")
		b.fill("counter/car.delivery", "30")
		b.click("#counter-plan")
		return b.offered("Have it delivered")
	}
	then := deliver()
	b.click("#offer-take")
	b.wait("its price", fmt.Sprintf("document.querySelector('#cell-cost b').textContent.includes('%.2f')", then))
	b.stored()
	b.click("#undo")
	b.wait("the old price", fmt.Sprintf("document.querySelector('#cell-cost b').textContent.includes('%.2f')", cost))
	b.stored()

	// The store has cut, and one piece is an eighth narrow: a plan for what is there.
	b.click("#mark-store")
	b.wait("the question", "document.querySelector('[id^=\"other-cut\"]')")
	id := ask[string](b, "document.querySelector('[id^=\"other-cut\"]').id")
	ask[any](b, fmt.Sprintf("document.getElementById(%q).click(), 0", id))
	b.wait("the field", "document.getElementById('i-came')")
	for range 4 {
		b.click("#came--step")
	}
	b.click("#done")
	b.wait("what came out", "document.getElementById('banner').innerText.includes('came out')")
	b.stored()
	b.do(chromedp.Reload())
	b.planned()
	b.wait("what came out, after a reload", "document.getElementById('banner').innerText.includes('came out')")
	b.click("#banner [data-do=replan]")
	b.offered("planned again")
	b.click("#offer-take")
	b.wait("the plan", "!document.querySelector('.offer') && !document.getElementById('banner').innerText.includes('came out')")
}

// stored waits for storage; a phone has no room for the word.
func (b *visit) stored() {
	b.t.Helper()
	time.Sleep(200 * time.Millisecond)
	b.do(chromedp.EmulateViewport(820, 844))
	b.saved()
	b.do(chromedp.EmulateViewport(390, 844))
}

// At the saw, on a phone: a part is spoiled, then a corner of a sheet is bad; both are
// planned round before they are accepted, and no mark is lost.
func TestMendedAtTheSaw(t *testing.T) {
	b := phone(t, "saw")
	made := 0
	for range 40 {
		time.Sleep(450 * time.Millisecond) // a second tap within 400 ms is the same one
		b.do(chromedp.KeyEvent(kb.Enter))
		made++
		b.wait("the mark", fmt.Sprintf("document.getElementById('title').textContent.startsWith('%d of')", made))
		if ask[bool](b, "/^[A-Z]\\d? came/.test(document.getElementById('other-size')?.textContent ?? '')") {
			break
		}
	}
	marked := fmt.Sprintf("document.getElementById('title').textContent.startsWith('%d of')", made)
	b.click("#other-size")
	b.click("[id^=spoil-]")
	b.offered("A new")
	b.shot("spoiled")
	reload := func() {
		b.t.Helper()
		b.stored()
		b.do(chromedp.Reload())
		b.planned()
		b.turnTo("saw")
		b.wait("the marks", marked)
	}
	reload()
	b.wait("the word that it is spoiled", "document.getElementById('banner').innerText.includes('is spoiled')")
	b.click("#banner [data-do=replan]")
	b.offered("planned again")
	b.click("#offer-take")
	b.wait("the new plan", "!document.querySelector('.offer') && !document.getElementById('banner').innerText.includes('is spoiled')")
	reload()

	list := func() { ask[any](b, "document.querySelector('#tabs [data-to=list]')?.click(), 0") }
	list()
	b.click("#flaw-open")
	b.wait("the pieces that lie there", `(() => { // of a sheet that has a card
		const of = document.querySelector('.flaw select');
		const sheet = [...of?.options ?? []].find(o => o.text.startsWith('Sheet'));
		if (!sheet) return false;
		of.value = sheet.value;
		of.dispatchEvent(new Event('change', {bubbles: true}));
		return true;
	})()`)
	b.click("#flaw-corner-3")
	b.fill("flaw/l", "six")
	b.wait("the word that it cannot be read", "document.querySelector('[id=\"i-flaw/l\"]').getAttribute('aria-invalid') === 'true'")
	b.click("#flaw-note")
	b.wait("the refusal", "document.getElementById('notices')?.innerText.includes('mend it first')")
	b.fill("flaw/l", "6")
	b.fill("flaw/w", "4")
	b.click("#flaw-note")
	b.offered("Around the bad corner")
	b.click("#offer-take")
	b.wait("the new plan", "!document.querySelector('.offer')")
	reload()
	b.turnTo("store")
	b.wait("the rectangle on its card", `(() => {
		if (document.getElementById('block').innerText.includes('Not to be used')) return true;
		const sheets = document.querySelectorAll('[id^=sheet-]'); // one after the other
		window.looked = (window.looked ?? -1) + 1;
		sheets[window.looked % sheets.length]?.click();
		return false;
	})()`)
}
