package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// At the saw every digit of the next cut is at least 62 CSS pixels high, 12 mm
// on a tablet, and stays within its room; the pedal marks forwards and takes
// back backwards.
func TestReadFromTwoMetres(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.searched()
	ask[any](b, "document.getElementById('place-saw').click(), 0")
	b.wait("the saw", "document.body.dataset.place === 'saw' && document.querySelector('.figure')")
	made := 0
	for _, size := range [][2]int64{{1180, 820}, {820, 1180}} {
		b.do(chromedp.EmulateViewport(size[0], size[1]))
		for range 6 {
			least := ask[float64](b, `(() => {
				const room = document.querySelector('#block .measure');
				if (room.scrollWidth > room.clientWidth + 1) return -1;
				const high = el => {
					const s = getComputedStyle(el), c = document.createElement('canvas').getContext('2d');
					c.font = s.fontWeight + ' ' + s.fontSize + ' ' + s.fontFamily;
					const m = c.measureText(el.textContent);
					return m.actualBoundingBoxAscent + m.actualBoundingBoxDescent;
				};
				return Math.min(...[...document.querySelectorAll('.figure .whole, .figure .num, .figure .den')].map(high));
			})()`)
			if least < 62 {
				t.Errorf("%d × %d, %s: digits of %.0f pixels", size[0], size[1], ask[string](b, "document.querySelector('.figure').getAttribute('aria-label')"), least)
			}
			time.Sleep(450 * time.Millisecond)
			b.do(chromedp.KeyEvent(kb.PageDown))
			made++
			b.wait("the mark", fmt.Sprintf("document.getElementById('title').textContent.startsWith('%d of')", made))
		}
	}
	time.Sleep(450 * time.Millisecond)
	b.do(chromedp.KeyEvent(kb.PageUp))
	b.wait("the mark taken back", fmt.Sprintf("document.getElementById('title').textContent.startsWith('%d of')", made-1))
	if !strings.Contains(b.text("#unmark"), "Undo") {
		t.Error("no undo in sight")
	}
}
