//go:build !js

package nest_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"cartwright/cmd/chromium"
	"cartwright/engine/nest"

	"github.com/chromedp/chromedp"
)

// BenchmarkChromium makes the same tries in the program as the site has it, in
// a worker of Chromium, and natively on one core, job by job in turn, and
// reports tries a second of both. The first job is left out of account: V8
// compiles the program anew while it runs.
func BenchmarkChromium(b *testing.B) {
	var carts, equals []nest.Job
	for seed := range uint64(20) {
		carts = append(carts, nest.CartJob(seed))
	}
	for seed := range uint64(3) {
		equals = append(equals, nest.EqualsJob(seed, 1020, 60))
	}
	w := newBrowserWorker(b)
	w.search(carts[0], 0, 40_000)
	for _, set := range []struct {
		name  string
		jobs  []nest.Job
		tries int
	}{{"carts", carts, 20_000}, {"equals", equals, 40_000}} {
		b.Run(set.name, func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
			var native, browser rate
			for range b.N {
				for seed, job := range set.jobs {
					in := w.search(job, uint64(seed), set.tries)
					browser.add(in)
					native.add(searchFor(job, uint64(seed), int(in.tries)))
				}
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(native.each(), "native-tries/s")
			b.ReportMetric(browser.each(), "chromium-tries/s")
			b.ReportMetric(browser.each()/native.each(), "of-native")
		})
	}
}

// A rate is tries and the seconds they took.
type rate struct{ tries, seconds float64 }

func (r *rate) add(o rate)    { r.tries, r.seconds = r.tries+o.tries, r.seconds+o.seconds }
func (r *rate) each() float64 { return r.tries / r.seconds }

// searchFor searches a job natively, as the search worker does: for at least so
// many tries after the first plan.
func searchFor(job nest.Job, seed uint64, tries int) rate {
	var start time.Time
	for at := range nest.Search(job, nest.Options{Seed: seed}) {
		if at.Plan != nil {
			nest.Rounded(job, *at.Plan)
		}
		if start.IsZero() {
			start = time.Now()
		}
		if at.Tries >= tries {
			return rate{float64(at.Tries), time.Since(start).Seconds()}
		}
	}
	return rate{}
}

// A browserWorker runs the site's program in workers of a page in Chromium.
type browserWorker struct {
	b   *testing.B
	ctx context.Context
}

func newBrowserWorker(b *testing.B) *browserWorker {
	b.Helper()
	dir := b.TempDir()
	c := exec.Command("go", "run", "../../cmd/site", "-dev", "-out", dir)
	if out, err := c.CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	script, err := filepath.Glob(filepath.Join(dir, "worker.*.js"))
	if err != nil || len(script) != 1 {
		b.Fatalf("the site has the workers %v, %v", script, err)
	}
	program, err := filepath.Glob(filepath.Join(dir, "worker.*.wasm"))
	if err != nil || len(program) != 1 {
		b.Fatalf("the site has the programs %v, %v", program, err)
	}
	mux := http.NewServeMux()
	mux.Handle("/", http.FileServer(http.Dir(dir)))
	mux.HandleFunc("/bench/{$}", func(w http.ResponseWriter, _ *http.Request) {
		_, _ = w.Write([]byte("<!doctype html><title>bench</title>"))
	})
	mux.HandleFunc("/bench.js", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/javascript")
		_, _ = fmt.Fprintf(w, benchScript, filepath.Base(script[0]))
	})
	server := httptest.NewServer(mux)
	b.Cleanup(server.Close)
	ctx, _ := chromium.Start(b, b.TempDir())
	w := &browserWorker{b, ctx}
	if err := chromedp.Do(ctx, chromedp.Navigate(server.URL+"/bench/")); err != nil {
		b.Fatal(err)
	}
	w.eval(fmt.Sprintf(`WebAssembly.compileStreaming(fetch(%q)).then(got => { globalThis.program = got; return {} })`, "../"+filepath.Base(program[0])))
	return w
}

// benchScript is the site's worker, which counts from its first report and ends
// itself: one that is ended from outside runs on for two seconds.
const benchScript = `
	let order, first;
	addEventListener('message', event => order = event.data, {once: true});
	const post = postMessage.bind(self);
	self.postMessage = said => {
		if (said.kind !== 'find') return post({why: said.why});
		const tries = JSON.parse(said.find).tries, ms = performance.now();
		first ??= {tries, ms};
		if (tries < order.tries) return;
		post({tries: tries - first.tries, ms: ms - first.ms});
		throw new Error('enough');
	};
	importScripts(%q);`

// search searches a job in a worker of its own until at least so many tries
// are reported.
func (w *browserWorker) search(job nest.Job, seed uint64, tries int) rate {
	w.b.Helper()
	task, err := json.Marshal(map[string]any{"Job": job})
	if err != nil {
		w.b.Fatal(err)
	}
	script := fmt.Sprintf(`new Promise((done, failed) => {
		const worker = new Worker('../bench.js');
		worker.onmessage = event => {
			worker.terminate();
			if (event.data.why) failed(event.data.why); else done(event.data);
		};
		worker.postMessage({role: 'search', module: program, job: %q, seq: 1, seed: %d, tries: %d});
	})`, task, seed, tries)
	got := w.eval(script)
	return rate{got["tries"], got["ms"] / 1000}
}

// eval returns what a promise of the page gives.
func (w *browserWorker) eval(script string) map[string]float64 {
	w.b.Helper()
	got, err := chromedp.Run(w.ctx, chromedp.Evaluate[map[string]float64](script, chromedp.EvalAwaitPromise))
	if err != nil {
		w.b.Fatal(err)
	}
	return got
}
