package browsertest_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// The framework's smallest page, and the smallest server for it.
const (
	helloPage = `// Command hello is the framework's smallest page.
package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type page struct{ app.Compo }

func (p *page) Render() app.UI { return app.H1().ID("hello").Text("Hello") }

func route() { app.Route("/", func() app.Composer { return &page{} }) }
`
	helloMain = `//go:build wasm

package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

func main() {
	route()
	app.RunWhenOnBrowser()
}
`
	helloServer = `//go:build !wasm

package main

import (
	"fmt"
	"net"
	"net/http"
	"os"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

func main() {
	route()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		panic(err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/web/app.wasm", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "application/wasm")
		w.Header().Set("Content-Encoding", "br")
		http.ServeFile(w, r, os.Args[1])
	})
	mux.HandleFunc("/icon.svg", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "image/svg+xml")
		fmt.Fprint(w, "<svg xmlns='http://www.w3.org/2000/svg'/>")
	})
	mux.Handle("/", &app.Handler{Name: "Hello", Version: "1", Icon: app.Icon{Default: "/icon.svg", Large: "/icon.svg", SVG: "/icon.svg", Maskable: "/icon.svg"}})
	fmt.Println("http://" + l.Addr().String())
	panic(http.Serve(l, mux))
}
`
)

// hello builds and starts the framework's smallest page, with brotli.
func hello(b *testing.B) (url string, wasmBytes int64) {
	b.Helper()
	dir, err := filepath.Abs("../../.build/helloperf")
	if err != nil {
		b.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		b.Fatal(err)
	}
	for name, text := range map[string]string{"page.go": helloPage, "main.go": helloMain, "server.go": helloServer} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			b.Fatal(err)
		}
	}
	build := func(env []string, name string, args ...string) {
		cmd := exec.Command(name, args...)
		cmd.Dir, cmd.Env = filepath.Join(dir, "../.."), append(os.Environ(), env...)
		if out, err := cmd.CombinedOutput(); err != nil {
			b.Fatalf("%s: %v\n%s", name, err, out)
		}
	}
	wasm, server := filepath.Join(dir, "app.wasm"), filepath.Join(dir, "server")
	build([]string{"GOOS=js", "GOARCH=wasm"}, "go", "build", "-trimpath", "-ldflags=-s -w", "-o", wasm, "./.build/helloperf")
	build(nil, "node", ".ci/press.mjs", wasm)
	build(nil, "go", "build", "-o", server, "./.build/helloperf")
	cmd := exec.Command(server, wasm+".br")
	out, err := cmd.StdoutPipe()
	if err != nil {
		b.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		b.Fatal(err)
	}
	st, err := os.Stat(wasm + ".br")
	if err != nil {
		b.Fatal(err)
	}
	return strings.TrimSpace(line), st.Size()
}

// weighed counts what comes over the line, by whether the widget starts with it.
type weighed struct {
	mu            sync.Mutex
	urls          map[network.RequestID]string
	before, after float64
	requests      int
}

func (w *weighed) hear(ev any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := ev.(type) {
	case *network.EventRequestWillBeSent:
		w.urls[e.RequestID] = e.Request.URL
	case *network.EventLoadingFinished:
		u := w.urls[e.RequestID]
		for _, part := range []string{"app.wasm", ".pack", "unpack.", "wasm_exec.js", "/app.js", "app-worker.js", "book.", "words.", "patch.", "rehearse.", "favicon"} {
			if strings.Contains(u, part) {
				w.after += e.EncodedDataLength
				return
			}
		}
		w.before += e.EncodedDataLength
		w.requests++
	}
}

const watchPage = `window.perf = {lcp: 0, longest: 0, events: []};
new PerformanceObserver(l => l.getEntries().forEach(e => perf.lcp = e.startTime)).observe({type: "largest-contentful-paint", buffered: true});
new PerformanceObserver(l => l.getEntries().forEach(e => { perf.longest = Math.max(perf.longest, e.duration); })).observe({type: "longtask", buffered: true});
new PerformanceObserver(l => l.getEntries().forEach(e => { if (e.name === "keydown" || e.name === "input" || e.name === "keypress") perf.events.push(e.duration); })).observe({type: "event", durationThreshold: 16, buffered: true});`

// measured is one opening of a page.
type measured struct {
	beforeKB, fcpMs, lcpMs, liveMs, longestMs float64
	requests                                  int
	editsMs, hastyMs                          []float64
}

// measure opens a page cold and waits until it is alive. A page that waits for
// a touch gets one.
func measure(b *testing.B, url string, on line, alive string, edits int) measured {
	b.Helper()
	w := &weighed{urls: map[network.RequestID]string{}}
	t := open(b, size{412, 823}, scriptOn)
	chromedp.ListenTarget(t.ctx, w.hear)
	t.run(network.Enable(), network.SetCacheDisabled(false), emulation.SetCPUThrottlingRate(on.cpu),
		chromedp.ActionFunc(func(ctx context.Context) error {
			_, err := page.AddScriptToEvaluateOnNewDocument(watchPage).Do(ctx)
			return err
		}),
		chromedp.Navigate(on.over(b, url)))
	var m measured
	// A person's touch ends the search for the largest paint; the one made up
	// here does not, so it is read before.
	first := eval[float64](t, `new Promise(r => requestAnimationFrame(() => requestAnimationFrame(() => r(perf.lcp))))`, awaitPromise)
	t.run(chromedp.Evaluate(`dispatchEvent(new Event("keydown"))`, nil))
	t.until("the page is alive", alive)
	get := func(js string) float64 { return eval[float64](t, js) }
	m.liveMs = get(`performance.now()`)
	m.fcpMs = get(`performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0`)
	m.lcpMs, m.longestMs = first, get(`perf.longest`)
	if woke := get(`performance.getEntriesByName("wake")[0]?.startTime ?? 0`); woke > 0 {
		m.liveMs = get(`performance.getEntriesByName("live")[0].startTime`) - woke
	}
	w.mu.Lock()
	m.beforeKB, m.requests = w.before/1000, w.requests
	w.mu.Unlock()
	if edits > 0 {
		m.editsMs, m.hastyMs = edit(t, edits, 100), edit(t, edits, 60)
	}
	// A page that is slowed keeps a processor busy, and would slow the next one.
	t.run(emulation.SetCPUThrottlingRate(1))
	return m
}

// edit steps the length up and down by the keyboard, with a pause after each
// key, and asks the browser how long each took until it was on the screen. What
// is faster than the browser notes counts as its least, 16 ms.
func edit(t *tab, n, pauseMs int) []float64 {
	t.run(chromedp.Evaluate(`perf.events.length = 0; document.getElementById("f-length").scrollIntoView({block: "center"})`, nil),
		chromedp.Focus("#f-length", chromedp.ByQuery))
	const oneWay = 20
	for i := range n {
		key := kb.ArrowUp
		if i/oneWay%2 == 1 {
			key = kb.ArrowDown
		}
		t.run(chromedp.KeyEvent(key), waits(pauseMs))
	}
	noted := eval[[]float64](t, `perf.events`)
	for len(noted) < n {
		noted = append(noted, 16)
	}
	return noted
}

func quantile(xs []float64, share float64) float64 {
	if len(xs) == 0 {
		return 0
	}
	s := append([]float64(nil), xs...)
	sort.Float64s(s)
	return s[int(share*float64(len(s)-1)+0.5)]
}

// BenchmarkPerf prints what a first visit costs, beside the framework's
// smallest page in the same run.
func BenchmarkPerf(b *testing.B) {
	helloURL, helloBytes := hello(b)
	s := serve(b)
	st, err := os.Stat("../../web/dist/app.wasm.br")
	if err != nil {
		b.Fatalf("%v: run make dist", err)
	}
	packed, err := os.Stat("../../web/dist/app.pack.br")
	if err != nil {
		b.Fatalf("%v: run make dist", err)
	}
	for range b.N {
		fmt.Printf("\nwidget %d kB, as it comes packed %d kB, smallest page %d kB, with brotli: %.3f and %.3f times\n", st.Size()/1000, packed.Size()/1000, helloBytes/1000,
			float64(st.Size())/float64(helloBytes), float64(packed.Size())/float64(helloBytes))
		fmt.Printf("%-18s %-14s %9s %9s %9s %9s %11s %12s %10s %10s %10s\n", "line", "page", "first kB", "requests", "FCP ms", "LCP ms", "live ms", "longest ms", "edit p50", "edit p98", "hasty p98")
		for _, on := range networks() {
			ours := measure(b, s.url, on, isLive, 300)
			theirs := measure(b, helloURL, on, `document.getElementById("app-wasm-loader") === null`, 0)
			for _, row := range []struct {
				name string
				m    measured
			}{{"pond check", ours}, {"smallest page", theirs}} {
				fmt.Printf("%-18s %-14s %9.1f %9d %9.0f %9.0f %11.0f %12.0f %10.0f %10.0f %10.0f\n", on.name, row.name, row.m.beforeKB, row.m.requests,
					row.m.fcpMs, row.m.lcpMs, row.m.liveMs, row.m.longestMs, quantile(row.m.editsMs, 0.5), quantile(row.m.editsMs, 0.98), quantile(row.m.hastyMs, 0.98))
			}
		}
		fmt.Println("first kB: all that comes before the widget's own files; live: from waking to answering, cold, for the smallest page from opening it.")
		fmt.Println("edit: 300 keys, the next a tenth of a second after the last was heard; hasty: after 60 ms, which a slow page is still busy in.")
	}
}
