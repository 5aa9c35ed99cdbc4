package main

import (
	"context"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The end-to-end tests drive Chromium. It is Debian's; another one can be
// named by CHROMIUM.
const chromium = "/usr/bin/chromium"

// patience is how long a test waits for something to appear: long, since the
// machine may be busy. No test asserts a time.
const patience = 90 * time.Second

// built builds the site once.
var built = sync.OnceValues(func() (string, error) {
	root := filepath.Join("..", "..")
	out := filepath.Join(".cache", "e2e")
	c := exec.Command("go", "run", "./cmd/site", "-dev", "-out", out)
	c.Dir = root
	if text, err := c.CombinedOutput(); err != nil {
		return "", fmt.Errorf("building the site: %v\n%s", err, text)
	}
	return filepath.Join(root, out), nil
})

// A host serves the built site on an address of its own, and can be switched
// off and on.
type host struct {
	addr string
	mux  *http.ServeMux
	srv  *http.Server
}

func newHost(t *testing.T) *host {
	t.Helper()
	dir, err := built()
	if err != nil {
		t.Fatal(err)
	}
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

// A tab is a page in a browser.
type tab struct {
	t   *testing.T
	ctx context.Context
}

// newBrowser starts a browser with a profile of its own and one tab.
func newBrowser(t *testing.T, flags ...string) *tab {
	t.Helper()
	path := os.Getenv("CHROMIUM")
	if path == "" {
		path = chromium
	}
	if _, err := os.Stat(path); err != nil {
		t.Fatalf("the end-to-end tests need Chromium: %v.\nInstall it with: apt-get install chromium (make test does), or set CHROMIUM to its path.", err)
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.Flag("disable-gpu", true), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true), chromedp.UserDataDir(t.TempDir()))
	for _, f := range flags {
		opts = append(opts, chromedp.Flag(f, true))
	}
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, end := chromedp.NewContext(alloc)
	t.Cleanup(func() { end(); stop() })
	return (&tab{t, ctx}).begin()
}

// another opens one more tab in the same browser.
func (b *tab) another() *tab {
	ctx, end := chromedp.NewContext(b.ctx)
	b.t.Cleanup(end)
	return (&tab{b.t, ctx}).begin()
}

// begin fails the test on any script error.
func (b *tab) begin() *tab {
	b.do(chromedp.EmulateViewport(1180, 820))
	err := chromedp.Listen(b.ctx, func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			b.t.Errorf("script error: %s", ev.ExceptionDetails.Text)
			if x := ev.ExceptionDetails.Exception; x != nil {
				b.t.Log(x.Description)
			}
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

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

func (b *tab) open(url string) {
	b.t.Helper()
	b.do(chromedp.Navigate(url))
}

// eval returns the value of a script in the page.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		b.t.Fatalf("%v\nin %s", err, script)
	}
	return v
}

// wait waits until a script's value is true.
func (b *tab) wait(what, script string) {
	b.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if eval[bool](b, "!!("+script+")") {
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
func (b *tab) text(css string) string {
	b.t.Helper()
	return eval[string](b, fmt.Sprintf("document.querySelector(%q)?.innerText ?? ''", css))
}

// shot keeps a picture of the page in the ignored folder .shots.
func (b *tab) shot(name string) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
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

func (b *tab) click(css string) {
	b.t.Helper()
	x, y := b.middle(fmt.Sprintf("document.querySelector(%q)", css))
	b.do(chromedp.MouseClickXY(x, y))
}

// middle scrolls an element into sight and returns its middle.
func (b *tab) middle(script string) (x, y float64) {
	b.t.Helper()
	b.wait("an element", script)
	at := eval[[]float64](b, fmt.Sprintf(`(() => {
		const el = %s;
		el.scrollIntoView({block: 'center', behavior: 'instant'});
		const r = el.getBoundingClientRect();
		return [r.left + r.width / 2, r.top + r.height / 2];
	})()`, script))
	return at[0], at[1]
}

// fill types a text into a field in place of what it holds, and Enter.
func (b *tab) fill(path, text string) {
	b.t.Helper()
	b.do(chromedp.Focus(chromedp.JSPath(field(path))))
	b.do(chromedp.KeyEvent(text), chromedp.KeyEvent("\r"))
}

func field(path string) string { return fmt.Sprintf("document.getElementById('i-%s')", path) }

// A spot is a place of the drawing that can be tapped, in the view's pixels.
type spot struct {
	Ref, Name, Drag string
	X, Y, W, H      float64
}

// spots lists what can be tapped on the canvas, in pixels of the page.
func (b *tab) spots() []spot {
	b.t.Helper()
	b.wait("the canvas", "document.body.dataset.canvas === 'on'")
	text := eval[string](b, `(() => {
		const f = document.querySelector('iframe');
		const r = f.getBoundingClientRect();
		return JSON.stringify(f.contentWindow.viewStats().spots.map(s => ({...s, x: s.x + r.left, y: s.y + r.top})));
	})()`)
	var out []spot
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		b.t.Fatal(err)
	}
	return out
}

// spot returns the spot with the given ref.
func (b *tab) spot(ref string) spot {
	b.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		for _, s := range b.spots() {
			if s.Ref == ref {
				return s
			}
		}
	}
	b.t.Fatalf("the canvas has no spot %q: %v", ref, b.spots())
	return spot{}
}

// tap taps the spot with the given ref on the canvas.
func (b *tab) tap(ref string) {
	b.t.Helper()
	s := b.spot(ref)
	b.do(chromedp.MouseClickXY(s.X+s.W/2, s.Y+s.H/2))
}

// mouse moves, presses or lets go of the left button.
func (b *tab) mouse(what input.DispatchMouseEventType, x, y float64) {
	b.t.Helper()
	b.do(chromedp.MouseEvent(what, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

// saved waits until the storage has answered.
func (b *tab) saved() {
	b.t.Helper()
	b.wait("the word that it is saved", "/Saved/.test(document.getElementById('head').innerText)")
}
