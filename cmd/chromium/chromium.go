// Package chromium starts the browser of the tests.
package chromium

import (
	"context"
	"os"
	"os/exec"
	"testing"

	"github.com/chromedp/chromedp"
)

// Start starts Chromium with its profile in a folder, and returns its first
// tab. end ends it, and so does the end of the test. The browser is Debian's;
// another one can be named by CHROMIUM. Without one the test fails.
func Start(t testing.TB, profile string, flags ...string) (tab context.Context, end func()) {
	t.Helper()
	path := os.Getenv("CHROMIUM")
	for _, name := range []string{"chromium", "chromium-browser"} {
		if found, err := exec.LookPath(name); err == nil && path == "" {
			path = found
		}
	}
	if path == "" {
		t.Fatal("The tests need Chromium: install it with apt-get install chromium (make tools does), or set CHROMIUM to its path.")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.UserDataDir(profile),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	for _, f := range flags {
		opts = append(opts, chromedp.Flag(f, true))
	}
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	tab, leave := chromedp.NewContext(alloc)
	end = func() { leave(); stop() }
	t.Cleanup(end)
	return tab, end
}
