package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

const drawerHeight = "cabinet.bays.0.openings.0.height"

// start opens the program and waits for the first plan.
func start(b *visit, url string) {
	b.t.Helper()
	b.open(url)
	b.planned()
}

func (b *visit) planned() {
	b.t.Helper()
	b.wait("the first plan", "document.querySelector('#cell-sheets b') && document.querySelector('#f-lineup input, #list > *, #block > *')")
}

func (b *visit) cell(name string) string {
	b.t.Helper()
	return ask[string](b, fmt.Sprintf("document.querySelector('#cell-%s b').textContent", name))
}

// done is the number of shop cuts that are marked, as the page says it.
func (b *visit) made() string {
	b.t.Helper()
	return ask[string](b, "document.getElementById('title').innerText.split('\\n')[0]")
}

// The main job: change a size, see it move, mark cuts on the drawing, come
// back to them, also without a network.
func TestFromSizeToSaw(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.shot("1-size")

	// A drawer that is too high: the strip and the findings say so at once.
	weight := b.cell("weight")
	b.fill(drawerHeight, "12")
	b.wait("the strip to follow", "document.querySelector('#cell-problems b').textContent !== '0'")
	if was := ask[string](b, "document.querySelector('#cell-weight s')?.innerText ?? ''"); !strings.Contains(was, weight) {
		t.Errorf("the strip says it was %q, want %q", was, weight)
	}
	b.shot("2-too-high")
	b.fill(drawerHeight, "5 1/4")
	b.wait("the strip to be right again", "document.querySelector('#cell-problems b').textContent === '0'")
	if got := b.cell("weight"); got != weight {
		t.Errorf("the weight is %s now, want %s: the drawers share one height", got, weight)
	}
	b.saved()
	b.spots() // the canvas is there
	b.shot("2-changed")

	b.click("#place-saw")
	b.wait("the saw", "document.body.dataset.place === 'saw'")
	b.searched()
	b.settled()
	b.shot("3-saw")
	var tapped []string
	for i := range 3 {
		ref := b.nextOnCanvas()
		b.tap(ref)
		b.wait("the mark", fmt.Sprintf("document.getElementById('title').innerText.startsWith('%d of')", i+1))
		b.saved()
		tapped = append(tapped, ref)
		time.Sleep(450 * time.Millisecond) // a double tap marks one cut
	}
	b.shot("4-marked")
	says := b.made()

	b.do(chromedp.Reload())
	b.planned()
	again := func(shot string) {
		b.t.Helper()
		if got := ask[string](b, "document.body.dataset.place"); got != "saw" {
			b.click("#place-saw")
			b.wait("the saw", "document.body.dataset.place === 'saw'")
		}
		b.wait("the marks", fmt.Sprintf("document.getElementById('title').innerText.startsWith(%q)", says))
		b.spots()
		for _, s := range b.spots() { // those on the sheet that is shown
			if slices.Contains(tapped, s.Ref) && !strings.HasSuffix(s.Name, ", done") {
				t.Errorf("the spot of a cut that is made is called %q", s.Name)
			}
		}
		b.shot(shot)
	}
	again("5-reloaded")

	// Without a network.
	b.wait("the service worker", "document.body.dataset.offline === 'ready'")
	b.wait("its control of the page", "navigator.serviceWorker.controller")
	h.off()
	b.do(chromedp.Reload())
	b.planned()
	again("6-offline")
	b.saved() // it says when
	b.do(chromedp.KeyEvent(" "))
	b.wait("one more mark", "document.getElementById('title').innerText.startsWith('4 of')")
	b.saved()
	b.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	b.wait("undo", fmt.Sprintf("document.getElementById('title').innerText.startsWith(%q)", says))
}

// nextOnCanvas is the cut that is next on the drawing.
func (b *visit) nextOnCanvas() string {
	b.t.Helper()
	for range 200 {
		for _, s := range b.spots() {
			if strings.HasPrefix(s.Ref, "cut/") && strings.HasSuffix(s.Name, ", next") {
				return s.Ref
			}
		}
		time.Sleep(50 * time.Millisecond)
	}
	b.t.Fatal("no cut on the canvas")
	return ""
}

// searched waits until no better plan can come any more.
func (b *visit) searched() {
	b.t.Helper()
	b.wait("the search to end", "!('searching' in document.body.dataset)")
}

// settled waits until the canvas draws nothing any more.
func (b *visit) settled() {
	b.t.Helper()
	b.spots()
	last, same := -1, 0
	for range 300 {
		n := ask[int](b, "document.querySelector('iframe').contentWindow.viewStats().frames")
		if n == last {
			if same++; same == 4 {
				return
			}
		} else {
			same = 0
		}
		last = n
		time.Sleep(100 * time.Millisecond)
	}
	b.t.Fatal("the canvas never comes to rest")
}

// A page at rest draws nothing.
func TestIdleDrawsNothing(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.searched()
	b.settled()
	frames := func() int { return ask[int](b, "document.querySelector('iframe').contentWindow.viewStats().frames") }
	before := frames()
	time.Sleep(5 * time.Second)
	if n := frames() - before; n != 0 {
		t.Errorf("%d frames drawn in 5 s although nothing moves", n)
	}
}

// Dragging a divider: everything follows. The time from the finger to the
// drawing is reported.
func TestDragADivider(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	b.before(`(() => {
		const Real = Worker;
		window.spent = [];
		window.Worker = function(...args) {
			const w = new Real(...args);
			w.addEventListener('message', e => e.data.spent && window.spent.push(e.data.spent));
			return w;
		};
	})()`)
	start(b, h.url(""))
	b.settled()
	s := b.spot("bay/0")
	before := b.text("#f-bays")
	x, y := s.X+s.W/2, s.Y+s.H/2
	ask[any](b, `(() => {
		const f = document.querySelector('iframe').contentWindow;
		window.lags = [];
		const send = f.viewSend, scene = f.viewScene;
		let at = 0;
		f.viewSend = m => { if (m.kind === 'drag' && m.phase === 'move') at ||= performance.now(); send(m); };
		f.viewScene = b => { scene(b); if (at) window.lags.push(performance.now() - at); at = 0; };
	})()`)
	ask[any](b, "window.spent = []; 0")
	b.mouse(input.DispatchMouseEventTypeMousePressed, x, y)
	for i := range 40 {
		b.mouse(input.DispatchMouseEventTypeMouseMoved, x-float64(i%20), y)
		time.Sleep(30 * time.Millisecond)
	}
	b.wait("numbers that are lit", "document.querySelector('#strip .lit, #f-bays .lit')")
	b.shot("drag")
	b.mouse(input.DispatchMouseEventTypeMouseReleased, x-19, y)
	b.saved()
	if b.text("#f-bays") == before {
		t.Error("the widths did not follow")
	}
	report(t, "from a movement on the canvas to the new drawing in its hands", ask[[]float64](b, "window.lags"))
	report(t, "of it, in the planner: movement to drawing", ask[[]float64](b, "window.spent.map(s => s[0])"))
	report(t, "movement to drawing, strip and panels", ask[[]float64](b, "window.spent.map(s => s[1])"))
	b.click("#undo")
	b.wait("undo of the whole drag", fmt.Sprintf("document.getElementById('f-bays').innerText === %q", before))
}

// report logs what was measured; it asserts no time.
func report(t *testing.T, what string, ms []float64) {
	t.Helper()
	slices.Sort(ms)
	if len(ms) == 0 {
		t.Fatalf("%s: nothing was measured", what)
	}
	sum := 0.0
	for _, l := range ms {
		sum += l
	}
	t.Logf("%s, %d samples: mean %.1f ms, median %.1f, 90 %% under %.1f, worst %.1f",
		what, len(ms), sum/float64(len(ms)), ms[len(ms)/2], ms[len(ms)*9/10], ms[len(ms)-1])
}

// The first plan: how long it takes is reported.
func TestFirstPlan(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	b.before(`(() => {
		const Real = Worker;
		window.Worker = function(...args) {
			const w = new Real(...args);
			w.addEventListener('message', e => {
				if (!window.first && e.data.reply && JSON.parse(e.data.reply).planned) window.first = [performance.now(), e.data.spent[1]];
			});
			return w;
		};
	})()`)
	for _, how := range []string{"first visit", "second visit"} {
		start(b, h.url(""))
		at := ask[[]float64](b, "window.first")
		t.Logf("%s: the first plan is on the screen after %.0f ms; opening the file, planning and making the page took the planner %.1f ms of it", how, at[0], at[1])
		b.wait("the service worker", "document.body.dataset.offline === 'ready'")
	}
}

// What is printed is a page of its own.
func TestPrint(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.searched()
	ask[any](b, "window.print = () => { window.printed = document.body.dataset.print; dispatchEvent(new Event('afterprint')); }; 0")
	for _, tt := range []struct{ button, kind, holds string }{
		{"#menu-print-parts", "parts", "Cut list"}, {"#menu-print-cards", "cards", "Sheet 1"},
	} {
		b.click("#menu-open")
		b.click(tt.button)
		b.wait("the print of "+tt.kind, fmt.Sprintf("window.printed === %q", tt.kind))
		if got := ask[string](b, "document.getElementById('print').textContent"); !strings.Contains(got, tt.holds) {
			t.Errorf("%s: printed %.200q", tt.kind, got)
		}
		b.wait("the page to be as before", "!document.body.dataset.print && !document.querySelector('dialog[open]')")
	}
}

// Without WebGL the drawing is SVG, and works the same.
func TestWithoutWebGL(t *testing.T) {
	h := newHost(t)
	b := newVisit(t, "disable-3d-apis")
	start(b, h.url(""))
	b.wait("the frame to be given up", "!document.querySelector('#stage iframe')")
	b.click("#place-saw")
	b.wait("the drawing", "document.querySelector('#drawing svg [data-ref^=\"cut/\"]')")
	b.searched()
	b.shot("no-webgl")
	const next = "document.querySelector('#drawing [data-ref^=\"cut/\"][aria-label$=\", next\"]')"
	x, y := b.middle(next)
	b.do(chromedp.MouseClickXY(x, y))
	b.wait("the mark", "document.getElementById('title').innerText.startsWith('1 of')")
	time.Sleep(450 * time.Millisecond)
	// And by keyboard on the spot itself.
	ask[any](b, next+".focus()")
	b.do(chromedp.KeyEvent("\r"))
	b.wait("the second mark", "document.getElementById('title').innerText.startsWith('2 of')")
	b.saved()

	b.click("#place-size")
	b.wait("the cart", "document.querySelector('#drawing [data-ref=\"bay/0\"]')")
	before := b.text("#f-bays")
	ask[any](b, "document.querySelector('#drawing [data-ref=\"bay/0\"]').focus()")
	b.do(chromedp.KeyEvent(kb.ArrowLeft))
	b.wait("the divider to move", fmt.Sprintf("document.getElementById('f-bays').innerText !== %q", before))
}

// One tag puts a plan on a page of another origin.
func TestEmbedded(t *testing.T) {
	h, club := newHost(t), newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.do(chromedp.Sleep(100 * time.Millisecond))
	ask[any](b, "navigator.clipboard.writeText = text => { window.copied = text; return Promise.resolve(); }; 0")
	b.click("#menu-open")
	b.click("#embed")
	b.wait("the tag", "window.copied")
	tag := ask[string](b, "window.copied")
	if !strings.HasPrefix(tag, "<script src=\""+h.url("embed.js")+"\" data-plan=\"1") || !strings.HasSuffix(tag, " async></script>") {
		t.Fatalf("the tag is %.120s", tag)
	}
	t.Logf("the tag has %d characters", len(tag))
	page := "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>club</title><link rel=\"icon\" href=\"data:,\"><h1>Our carts</h1>" + tag + "<p>after</p></html>"
	club.page("/club.html", page)
	sandboxed := strings.Replace(strings.Replace(tag, "<script src=\""+h.url("embed.js")+"\" data-plan=\"", "<iframe sandbox=\"allow-scripts allow-popups\" width=\"600\" height=\"500\" src=\""+h.url("index.html?embed#"), 1), " async></script>", "></iframe>", 1)
	club.page("/sandbox.html", "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>club</title><link rel=\"icon\" href=\"data:,\">"+sandboxed+
		"<script>addEventListener('message', e => { if (e.source === document.querySelector('iframe').contentWindow) window.height = e.data.height; })</script></html>")

	c := b.another()
	c.open(club.url("club.html"))
	c.wait("the frame", "document.querySelector('iframe')")
	c.wait("it to grow to its content", "Number(document.querySelector('iframe').height) !== 640")
	frame := "http://" + h.addr
	c.waitIn(frame, "the drawing", "document.querySelector('#drawing svg') && document.querySelector('#cell-cost b')")
	if s := in[string](c, frame, "document.getElementById('head').innerText"); !strings.Contains(s, "Read only") || !strings.Contains(s, "Work on a copy") {
		t.Errorf("the head of the frame says %q", s)
	}
	if n := in[int](c, frame, "document.querySelectorAll('#drawing [data-ref]').length"); n != 0 {
		t.Errorf("%d things of the drawing can be tapped", n)
	}
	if got, want := in[string](c, frame, "document.querySelector('#cell-cost b').textContent"), b.cell("cost"); got != want {
		t.Logf("embedded it costs %s, on the device %s: the search there has gone on", got, want)
	}
	c.shot("embedded")
	in[int](c, frame, "document.querySelector('#place-parts').click(), 0")
	c.waitIn(frame, "the cut list", "document.body.dataset.place === 'parts'")
	c.shot("embedded-parts")

	c.open(club.url("sandbox.html"))
	c.wait("the carried picture to tell its height", "window.height > 200")
	c.shot("embedded-sandbox")
}

// What is typed stays as it is whatever else changes on the page, and the
// fraction keys write into the field.
func TestTypingIsNotDisturbed(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	ask[any](b, "document.querySelector('#fields details').open = true")
	b.do(chromedp.ScrollIntoView(chromedp.JSPath(field(drawerHeight))))
	ask[any](b, fmt.Sprintf("%[1]s.focus(), %[1]s.select()", field(drawerHeight)))
	b.do(chromedp.KeyEvent("5"))
	b.do(chromedp.EmulateViewport(1100, 800))
	b.searched()
	b.settled()
	if got := ask[string](b, field(drawerHeight)+".value"); got != "5" {
		t.Errorf("the field holds %q in the middle of typing, want 5", got)
	}
	b.click("#key-1\\/2")
	if got := ask[string](b, field(drawerHeight)+".value"); got != "5 1/2" {
		t.Errorf("after the key 1/2 the field holds %q", got)
	}
	b.click("#key-1\\/4")
	if got := ask[string](b, field(drawerHeight)+".value"); got != "5 1/4" {
		t.Errorf("after the key 1/4 the field holds %q", got)
	}
	if !ask[bool](b, "document.activeElement === "+field(drawerHeight)) {
		t.Error("the keys took the focus out of the field")
	}
	b.click("#key-plus")
	b.wait("one step more", field(drawerHeight)+".value === '5 9/32'")
	b.saved()
	if !ask[bool](b, "document.querySelector('#fields details').open") {
		t.Error("an opened row was closed")
	}
	b.do(chromedp.KeyEvent("\r"))
	ask[any](b, "document.activeElement.blur()")
	b.do(chromedp.KeyEvent("?"))
	b.wait("help", "document.getElementById('menu').open")
}
