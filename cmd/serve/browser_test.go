package main

import (
	"context"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"cartwright/cmd/chromium"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// The tests in the browser use the site as command site builds it, served by
// our own handler, in a real Chromium. Pictures are left in .shots.

// builtSite builds the site once for all tests and returns its folder.
var builtSite = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "cartwright-site-")
	if err != nil {
		return "", err
	}
	c := exec.Command("go", "run", "../site", "-dev", "-out", dir)
	if out, err := c.CombinedOutput(); err != nil {
		return "", &buildError{string(out), err}
	}
	return dir, nil
})

type buildError struct {
	out string
	err error
}

func (e *buildError) Error() string { return e.err.Error() + "\n" + e.out }

func TestMain(m *testing.M) {
	code := m.Run()
	if builtWanted {
		if dir, err := builtSite(); err == nil {
			_ = os.RemoveAll(dir)
		}
	}
	os.Exit(code)
}

// builtWanted says that a test asked for the site, so that it must be removed.
var builtWanted bool

// site returns the folder of the built site.
func site(t *testing.T) string {
	t.Helper()
	builtWanted = true
	dir, err := builtSite()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// serveSite serves the built site, and extra, on a port of its own.
func serveSite(t *testing.T, extra map[string]http.HandlerFunc) (url string, stop func()) {
	t.Helper()
	root, err := open(site(t))
	if err != nil {
		t.Fatal(err)
	}
	mux := http.NewServeMux()
	mux.Handle("/", handler(root))
	for path, f := range extra {
		mux.HandleFunc(path, f)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	srv := &http.Server{Handler: mux}
	go func() { _ = srv.Serve(l) }()
	stop = func() { _ = srv.Close() }
	t.Cleanup(stop)
	return address(l.Addr()), stop
}

// A tab is a page in the browser.
type tab struct {
	*testing.T
	ctx context.Context
}

// newTab starts a browser of its own with one page of the given size.
func newTab(t *testing.T, width, height int64, density float64, touch bool, flags ...string) *tab {
	t.Helper()
	ctx, _ := chromium.Start(t, t.TempDir(), append(flags, "enable-unsafe-swiftshader")...)
	ctx, late := context.WithTimeout(ctx, 120*time.Second)
	t.Cleanup(late)
	size := []chromedp.EmulateViewportOption{chromedp.EmulateScale(density)}
	if touch {
		size = append(size, chromedp.EmulateTouch)
	}
	b := &tab{t, ctx}
	b.do(chromedp.EmulateViewport(width, height, size...))
	console := chromedp.Console(ctx)
	go func() {
		for m, err := range console {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == "error" || strings.Contains(m.Text, "Content Security Policy") {
				if !strings.Contains(m.Text, "ERR_CONNECTION_REFUSED") { // tests that stop the server
					t.Logf("console: %s", m)
				}
			}
		}
	}()
	return b
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.Fatal(err)
	}
}

// eval returns the value of an expression, promises awaited.
func eval[T any](b *tab, expression string) T {
	b.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.Fatalf("%s: %v", expression, err)
	}
	return v
}

// wait waits until an expression is true.
func (b *tab) wait(expression string) {
	b.Helper()
	for start := time.Now(); time.Since(start) < 40*time.Second; time.Sleep(50 * time.Millisecond) {
		if v, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](`!!(`+expression+`)`)); err == nil && v {
			return
		}
	}
	b.shot("failed-" + strings.ReplaceAll(b.Name(), "/", "-"))
	b.Fatalf("in vain: waited for %s", expression)
}

// shot leaves a picture of the page in .shots.
func (b *tab) shot(name string) []byte {
	b.Helper()
	data, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		b.Log(err)
		return nil
	}
	dir := filepath.Join("..", "..", ".shots")
	if err := os.MkdirAll(dir, 0o777); err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".png"), data, 0o666)
		if err != nil {
			b.Log(err)
		}
	}
	return data
}

// touch sends a touch event with the fingers that are down, as x, y pairs.
func (b *tab) touch(kind string, xy ...float64) {
	b.Helper()
	var points []*input.TouchPoint
	for i := 0; i+1 < len(xy); i += 2 {
		id := float64(i / 2)
		points = append(points, &input.TouchPoint{X: xy[i], Y: xy[i+1], ID: &id})
	}
	_, err := chromedp.Call(b.ctx, input.DispatchTouchEvent,
		input.DispatchTouchEventParams{Type: input.DispatchTouchEventType(kind), TouchPoints: points})
	if err != nil {
		b.Fatal(err)
	}
}
