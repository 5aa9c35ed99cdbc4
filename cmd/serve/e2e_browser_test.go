package main

import (
	"context"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"cartwright/cmd/chromium"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// e2ePatience is how long a test waits for something to appear: long, since the
// machine may be busy. No test asserts a time.
const e2ePatience = 90 * time.Second

// A host serves the built site on an address of its own, and can be switched
// off and on.
type host struct {
	addr string
	mux  *http.ServeMux
	srv  *http.Server
}

func newHost(t *testing.T) *host {
	t.Helper()
	dir := site(t)
	h := &host{addr: "127.0.0.1:0", mux: http.NewServeMux()}
	h.mux.Handle("/", handler(os.DirFS(dir)))
	h.on(t)
	t.Cleanup(func() { h.srv.Close() })
	return h
}

func (h *host) on(t *testing.T) {
	t.Helper()
	l, err := net.Listen("tcp", h.addr)
	if err != nil {
		t.Fatal(err)
	}
	h.addr = l.Addr().String()
	h.srv = &http.Server{Handler: h.mux}
	go h.srv.Serve(l)
}

func (h *host) off() { h.srv.Close() }

func (h *host) url(path string) string { return "http://" + h.addr + "/" + path }

// page adds a page of its own to the host, without our headers.
func (h *host) page(path, html string) {
	h.mux.HandleFunc(path, func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = w.Write([]byte(html))
	})
}

// A visit is a page in a browser, as a user has it before them.
type visit struct {
	t      *testing.T
	ctx    context.Context
	frames *frames
}

// frames are the script contexts of the page's frames, by origin.
type frames struct {
	sync.Mutex
	of map[string]runtime.ExecutionContextID
}

// newVisit starts a browser with a profile of its own and one visit.
func newVisit(t *testing.T, flags ...string) *visit {
	t.Helper()
	ctx, _ := chromium.Start(t, t.TempDir(), append(flags, "disable-gpu")...)
	return (&visit{t: t, ctx: ctx}).begin()
}

// another opens one more tab in the same browser.
func (b *visit) another() *visit {
	ctx, end := chromedp.NewContext(b.ctx)
	b.t.Cleanup(end)
	return (&visit{t: b.t, ctx: ctx}).begin()
}

// in returns the value of a script in the page's frame of another origin.
func in[T any](b *visit, origin, script string) (v T) {
	b.t.Helper()
	b.frames.Lock()
	id := b.frames.of[origin]
	b.frames.Unlock()
	if id == 0 {
		return v
	}
	ctx, cancel := context.WithTimeout(b.ctx, e2ePatience)
	defer cancel()
	r, err := chromedp.Call(ctx, runtime.Evaluate, runtime.EvaluateParams{Expression: script, ContextID: id, ReturnByValue: new(true)})
	if err != nil {
		b.t.Fatalf("%v\nin %s", err, script)
	}
	if r.ExceptionDetails != nil {
		b.t.Fatalf("%s\nin %s", r.ExceptionDetails.Text, script)
	}
	if err := json.Unmarshal(r.Result.Value, &v); err != nil {
		b.t.Fatalf("%v\nin %s", err, script)
	}
	return v
}

// waitIn waits until a script's value in a frame is true.
func (b *visit) waitIn(origin, what, script string) {
	b.t.Helper()
	for end := time.Now().Add(e2ePatience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if in[bool](b, origin, "!!("+script+")") {
			return
		}
	}
	b.shot("failed-" + strings.Map(nameRune, b.t.Name()))
	b.t.Fatalf("waited in vain for %s: %s", what, script)
}

// begin fails the test on any script error.
func (b *visit) begin() *visit {
	// The first call starts the browser, which lives as long as its context.
	if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(1180, 820)); err != nil {
		b.t.Fatal(err)
	}
	b.frames = &frames{of: map[string]runtime.ExecutionContextID{}}
	err := chromedp.Listen(b.ctx, func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			b.t.Errorf("script error: %s", ev.ExceptionDetails.Text)
			if x := ev.ExceptionDetails.Exception; x != nil {
				b.t.Log(x.Description)
			}
		case *runtime.EventExecutionContextCreated:
			b.frames.Lock()
			b.frames.of[ev.Context.Origin] = ev.Context.ID
			b.frames.Unlock()
		case *runtime.EventConsoleAPICalled:
			var words []string
			for _, a := range ev.Args {
				words = append(words, strings.Trim(string(a.Value), `"`))
			}
			if text := strings.Join(words, " "); text != "" {
				b.t.Logf("console %s: %s", ev.Type, text)
			}
		}
	})
	if err != nil {
		b.t.Fatal(err)
	}
	return b
}

func (b *visit) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, e2ePatience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

// before has a script run in every page before its own.
func (b *visit) before(script string) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script}); err != nil {
		b.t.Fatal(err)
	}
}

func (b *visit) open(url string) {
	b.t.Helper()
	b.do(chromedp.Navigate(url))
}

// ask returns the value of a script in the page.
func ask[T any](b *visit, script string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, e2ePatience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		b.t.Fatalf("%v\nin %s", err, script)
	}
	return v
}

// wait waits until a script's value is true.
func (b *visit) wait(what, script string) {
	b.t.Helper()
	for end := time.Now().Add(e2ePatience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if ask[bool](b, "!!("+script+")") {
			return
		}
	}
	b.shot("failed-" + strings.Map(nameRune, b.t.Name()))
	b.t.Fatalf("waited in vain for %s: %s\nnotices: %s", what, script, b.text("#notices"))
}

func nameRune(r rune) rune {
	if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
		return r
	}
	return '-'
}

// text is the visible text of the first element, "" if there is none.
func (b *visit) text(css string) string {
	b.t.Helper()
	return ask[string](b, fmt.Sprintf("document.querySelector(%q)?.innerText ?? ''", css))
}

// shot keeps a picture of the page in the ignored folder .shots.
func (b *visit) shot(name string) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, e2ePatience)
	defer cancel()
	png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		b.t.Logf("no picture %s: %v", name, err)
		return
	}
	dir := filepath.Join("..", "..", ".shots")
	if err = os.MkdirAll(dir, 0o777); err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".png"), png, 0o666)
	}
	if err != nil {
		b.t.Log(err)
	}
}

func (b *visit) click(css string) {
	b.t.Helper()
	x, y := b.middle(fmt.Sprintf("document.querySelector(%q)", css))
	b.do(chromedp.MouseClickXY(x, y))
}

// middle scrolls an element into sight and returns its middle, once it has
// stayed there for a moment: panels that are still being filled move it.
func (b *visit) middle(script string) (x, y float64) {
	b.t.Helper()
	b.wait("an element", script)
	measure := func() []float64 {
		return ask[[]float64](b, fmt.Sprintf(`(() => {
			const el = %s;
			if (!el) return [-1, -1];
			el.scrollIntoView({block: 'center', behavior: 'instant'});
			const r = el.getBoundingClientRect();
			return [r.left + r.width / 2, r.top + r.height / 2];
		})()`, script))
	}
	at, still := measure(), 0
	for range 50 {
		time.Sleep(60 * time.Millisecond)
		now := measure()
		if still++; !slices.Equal(now, at) || now[0] < 0 {
			still = 0
		}
		if at = now; still == 3 {
			break
		}
	}
	return at[0], at[1]
}

// fill types a text into a field in place of what it holds, and Enter.
func (b *visit) fill(path, text string) {
	b.t.Helper()
	b.wait("the field "+path, field(path))
	ask[any](b, fmt.Sprintf("%[1]s.focus(), %[1]s.select()", field(path)))
	b.do(chromedp.KeyEvent(text), chromedp.KeyEvent("\r"))
}

func field(path string) string { return fmt.Sprintf("document.getElementById('i-%s')", path) }

// A place is a spot of the drawing that can be tapped, in the view's pixels.
type place struct {
	Ref, Name, Drag string
	X, Y, W, H      float64
}

// spots lists what can be tapped on the canvas, in pixels of the page.
func (b *visit) spots() []place {
	b.t.Helper()
	b.wait("the canvas", "document.body.dataset.canvas === 'on'")
	text := ask[string](b, `(() => {
		const f = document.querySelector('iframe');
		const r = f.getBoundingClientRect();
		return JSON.stringify(f.contentWindow.viewStats().spots.map(s => ({...s, x: s.x + r.left, y: s.y + r.top})));
	})()`)
	var out []place
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		b.t.Fatal(err)
	}
	return out
}

// spot returns the spot with the given ref.
func (b *visit) spot(ref string) place {
	b.t.Helper()
	for end := time.Now().Add(e2ePatience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		for _, s := range b.spots() {
			if s.Ref == ref {
				return s
			}
		}
	}
	b.t.Fatalf("the canvas has no spot %q: %v", ref, b.spots())
	return place{}
}

// tap taps the spot with the given ref on the canvas.
func (b *visit) tap(ref string) {
	b.t.Helper()
	s := b.spot(ref)
	b.do(chromedp.MouseClickXY(s.X+s.W/2, s.Y+s.H/2))
}

// mouse moves, presses or lets go of the left button.
func (b *visit) mouse(what input.DispatchMouseEventType, x, y float64) {
	b.t.Helper()
	b.do(chromedp.MouseEvent(what, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

// saved waits until the storage has answered.
func (b *visit) saved() {
	b.t.Helper()
	b.wait("the word that it is saved", "/Saved/.test(document.getElementById('head').innerText)")
}
