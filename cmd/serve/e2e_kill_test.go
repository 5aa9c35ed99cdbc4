package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"cartwright/cmd/chromium"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The browser is killed twenty times while cuts are being marked, at random
// moments. Whatever the screen had called saved is there afterwards.
func TestKilledWhileMarking(t *testing.T) {
	h := newHost(t)
	profile, err := os.MkdirTemp("", "cartwright-kill-")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(profile)
	moments := rand.New(rand.NewPCG(20, 26))
	kept, marked := 0, 0 // what the screen called saved; what was ever pressed
	for round := range 21 {
		// The drawing is SVG: quicker to start.
		ctx, end := chromium.Start(t, profile, "disable-gpu", "disable-3d-apis")
		b := &visit{t: t, ctx: ctx}
		// The first call starts the browser, which lives as long as its context.
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(1180, 820)); err != nil {
			t.Fatal(err)
		}
		var said sync.Mutex
		if err := chromedp.Listen(ctx, func(ev any) {
			if c, ok := ev.(*runtime.EventConsoleAPICalled); ok && len(c.Args) > 0 {
				if n, ok := strings.CutPrefix(strings.Trim(string(c.Args[0].Value), `"`), "kept "); ok {
					said.Lock()
					if k, err := strconv.Atoi(n); err == nil {
						kept = max(kept, k)
					}
					said.Unlock()
				}
			}
		}); err != nil {
			t.Fatal(err)
		}
		start(b, h.url(""))
		ask[any](b, "document.getElementById('place-saw').click(), 0")
		b.wait("the saw", "document.body.dataset.place === 'saw' && / of \\d+/.test(document.getElementById('title').innerText)")
		found, err := strconv.Atoi(strings.Fields(b.made())[0])
		if err != nil {
			t.Fatal(err)
		}
		if found < kept || found > marked {
			t.Fatalf("round %d: %d cuts are marked; %d were called saved, %d were marked in all", round, found, kept, marked)
		}
		if round == 20 {
			t.Logf("%d of %d marks there after twenty kills; %d were called saved", found, marked, kept)
			if kept < 10 {
				t.Errorf("only %d marks were ever called saved: the test proves little", kept)
			}
			end()
			return
		}
		marked = found
		ask[any](b, `(() => {
			const said = () => {
				const n = parseInt(document.getElementById('title').innerText);
				if (n > 0 && /Saved/.test(document.getElementById('head').innerText)) console.log('kept ' + n);
			};
			new MutationObserver(said).observe(document.getElementById('head'), {subtree: true, childList: true, characterData: true});
			const press = () => { document.dispatchEvent(new KeyboardEvent('keydown', {key: 'PageDown', bubbles: true})); };
			press(); setInterval(press, 405); return 0;
		})()`)
		marked += 8 // at most, in the time there is
		time.Sleep(time.Duration(200+moments.IntN(1000)) * time.Millisecond)
		if err := chromedp.FromContext(ctx).Browser.Process().Kill(); err != nil {
			t.Fatal(err)
		}
		end()
		time.Sleep(100 * time.Millisecond) // its children see it
		_ = os.Remove(fmt.Sprintf("%s/SingletonLock", profile))
	}
}
