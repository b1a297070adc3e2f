package browsertest_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// site is another site's page: a builder's own, or one that means no good. It
// has another host name than the check, so that browsers keep the two apart.
type site struct{ url string }

// pageOf serves one page under the name localhost; the check answers under
// 127.0.0.1.
func pageOf(t *testing.T, body func() string) site {
	t.Helper()
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/" {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = fmt.Fprint(w, body())
	}))
	t.Cleanup(srv.Close)
	u, err := url.Parse(srv.URL)
	if err != nil {
		t.Fatal(err)
	}
	return site{"http://localhost:" + u.Port()}
}

// builders is a builder's page with the check in the middle, and the server
// that lets it.
func builders(t *testing.T) (site, *server) {
	t.Helper()
	var s *server
	host := pageOf(t, func() string { return hostPage(s.url, "") })
	s = serveWith(t, "-frame-ancestors", host.url)
	return host, s
}

// hostPage is what a builder pastes, between their own words.
func hostPage(check, attributes string) string {
	return `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Fernhollow Ponds</title>
<link rel="icon" href="data:,"><meta name="viewport" content="width=device-width, initial-scale=1">
<script>window.shifts = 0; window.heard = []; window.tasks = 0;
new PerformanceObserver(l => l.getEntries().forEach(e => { if (!e.hadRecentInput) shifts += e.value; })).observe({type: "layout-shift", buffered: true});
new PerformanceObserver(l => l.getEntries().forEach(e => tasks++)).observe({type: "longtask", buffered: true});
addEventListener("tarnwright-sent", e => heard.push(e.detail));</script>
<script src="` + check + `/embed.js" async></script></head>
<body style="margin:0 auto;max-width:1180px"><h1>Ponds you can swim in</h1><p>Draw yours and see.</p>
<tarnwright-check style="display:block;min-height:100vh" ` + attributes + `><a href="` + check + `/">Open the pond check</a></tarnwright-check>
<p id="after">We build from May to October.</p></body></html>`
}

const frameHeight = `document.querySelector("iframe").getBoundingClientRect().height`

// inside attaches to the frame of a page.
func (b *tab) inside(at string) *tab {
	b.t.Helper()
	var id target.ID
	deadline := time.Now().Add(patience)
	for id == "" && time.Now().Before(deadline) {
		all, err := chromedp.Targets(b.ctx)
		if err != nil {
			b.t.Fatal(err)
		}
		for _, tg := range all {
			// Other pages of the shared browser may hold a frame of the same address.
			here := b.own == "" || tg.BrowserContextID == b.own
			if here && tg.Type == "iframe" && strings.HasPrefix(tg.URL, at) {
				id = tg.TargetID
			}
		}
		pause()
	}
	if id == "" {
		b.t.Fatalf("no frame shows %s\n%s", at, b.problems)
	}
	ctx, cancel := chromedp.NewContext(b.ctx, chromedp.WithTargetID(id))
	b.t.Cleanup(cancel)
	in := &tab{t: b.t, ctx: ctx, problems: &lines{}}
	chromedp.ListenTarget(ctx, in.hear)
	in.run(cdplog.Enable(), runtime.Enable())
	return in
}

// pause is the time between two looks at something that is to come.
func pause() { <-time.After(30 * time.Millisecond) }

// fits waits until the frame on the page is as high as what is in it.
func (b *tab) fits(in *tab) float64 {
	b.t.Helper()
	for range 200 {
		want := eval[float64](in, `Math.ceil(document.body.getBoundingClientRect().height)`)
		got := eval[float64](b, frameHeight)
		if d := got - want; d > -1.01 && d < 1.01 {
			return got
		}
		pause()
	}
	b.t.Fatalf("the frame is %v px high and what is in it %v px", eval[float64](b, frameHeight), eval[float64](in, `document.body.getBoundingClientRect().height`))
	return 0
}

// TestEmbed_OnABuildersPage walks an enquiry through the frame on a second
// origin: the frame grows and shrinks, the page hears the reference and
// nothing else, and nothing is kept.
func TestEmbed_OnABuildersPage(t *testing.T) {
	t.Parallel()
	host, s := builders(t)
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(host.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	in := b.inside(s.url)
	in.until("the widget took over", isLive)
	tall := b.fits(in)
	if !eval[bool](b, `document.querySelector("tarnwright-check a").offsetHeight === 0`) {
		t.Error("the link still shows beside the frame")
	}
	in.click("tab-pump")
	in.until("the pump page shows", `document.getElementById("tarnwright").dataset.view === "pump"`)
	pump := b.fits(in)
	in.click("tab-draw")
	in.until("the first page shows", `document.getElementById("tarnwright").dataset.view === "draw"`)
	if back := b.fits(in); pump == tall || back != tall {
		t.Errorf("heights %v, %v, %v: want another and the first again", tall, pump, back)
	}
	if over := eval[float64](in, `document.documentElement.scrollHeight - innerHeight`); over > 1 {
		t.Errorf("the frame scrolls by %v px", over)
	}

	in.click("tab-send")
	in.until("the last page shows", `document.getElementById("tarnwright").dataset.view === "send"`)
	in.fill("f-name", "Maren Oakes")
	in.fill("f-email", "maren@oakesmail.example")
	in.click("f-consent")
	in.click("send")
	in.until("it was sent", `document.getElementById("sent") !== null`)
	b.until("the page heard of it", `heard.length > 0`)
	reference := eval[string](in, `document.querySelector("[data-sent]").dataset.sent`)
	if got := eval[[]string](b, `heard`); len(got) != 1 || got[0] != reference || !strings.HasPrefix(reference, "FP-") {
		t.Errorf("the page heard %q, the frame shows %q", got, reference)
	}
	b.fits(in)
	kept := eval[string](in, `[localStorage instanceof Storage, sessionStorage instanceof Storage, document.cookie, navigator.serviceWorker instanceof ServiceWorkerContainer, typeof indexedDB, typeof caches].join()`)
	if kept != "false,false,,false,undefined,undefined" {
		t.Errorf("what the frame could keep: %s", kept)
	}
	if used := storageOf(in, s.url); used != 0 {
		t.Errorf("%v bytes are kept for the check's site", used)
	}
	b.quiet()
	in.quiet()
}

// TestEmbed_LeavesTheHostPageCalm measures what the frame costs the page that
// holds it: no shift, no long task, one request.
func TestEmbed_LeavesTheHostPageCalm(t *testing.T) {
	t.Parallel()
	host, s := builders(t)
	for _, at := range []size{{1280, 860}, {768, 1024}, {412, 823}, {320, 700}} {
		b := open(t, at, scriptOn)
		b.run(chromedp.Navigate(host.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
		in := b.inside(s.url)
		in.until("the widget took over", isLive)
		first := eval[float64](b, frameHeight)
		fits := b.fits(in)
		if shifts := eval[float64](b, `shifts`); shifts > 0.005 {
			t.Errorf("at %d px the page shifts by %.4f (the frame went from %v to %v px)", at.w, shifts, first, fits)
		}
		if over := eval[float64](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
			t.Errorf("at %d px the page runs %v px off the side", at.w, over)
		}
		t.Logf("at %d px: %v px high, shifts %.4f, long tasks of the host %d", at.w, fits, eval[float64](b, `shifts`), eval[int64](b, `tasks`))
		if got := eval[int64](b, `performance.getEntriesByType("resource").filter(e => e.initiatorType === "script" && e.name.includes("127.0.0.1")).length`); got != 1 {
			t.Errorf("%d requests of the page itself, want 1", got)
		}
	}
}

// TestEmbed_IsRefusedOnAPageThatIsNotListed.
func TestEmbed_IsRefusedOnAPageThatIsNotListed(t *testing.T) {
	t.Parallel()
	_, s := builders(t)
	hostile := pageOf(t, func() string { return hostPage(s.url, "") })
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(hostile.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	refused := false
	for range 200 {
		if refused = strings.Contains(b.problems.String(), "frame-ancestors") || strings.Contains(b.problems.String(), "Framing"); refused {
			break
		}
		pause()
	}
	if !refused {
		t.Errorf("nothing was refused:\n%s", b.problems)
	}
	if !eval[bool](b, `document.querySelector("tarnwright-check a").offsetHeight > 0`) {
		t.Error("the link is gone, and the frame shows nothing")
	}
	if eval[bool](b.inside(s.url), `document.querySelector("#tarnwright, form, link") !== null`) {
		t.Error("the page shows in a frame of a hostile one")
	}
}

// TestEmbed_IgnoresForgedMessages sends the page what the frame never would,
// and what it would from where it never is.
func TestEmbed_IgnoresForgedMessages(t *testing.T) {
	t.Parallel()
	host, s := builders(t)
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(host.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	in := b.inside(s.url)
	in.until("the widget took over", isLive)
	b.fits(in)
	settled := func() { // every message before this one has been read
		b.run(chromedp.Evaluate(`new Promise(r => { addEventListener("message", e => e.data === "last" && r(1)); postMessage("last", "*"); })`, nil, awaitPromise))
	}
	before := eval[float64](b, frameHeight)
	// From the page itself, from a frame of another origin, from a stray frame
	// of the right one: none is the frame.
	b.run(chromedp.Evaluate(`postMessage({tarnwright: 1, height: 321, sent: "FP-AAAAAA"}, "*");
		for (const h of [NaN, Infinity, -5, 0, 1e9, "400", null, {}, []]) postMessage({tarnwright: 1, height: h}, "*");
		for (let i = 0; i < 1000; i++) postMessage({tarnwright: i % 3, height: 100 + i, sent: String(i)}, "*");
		new Promise(r => { const f = document.createElement("iframe"); f.hidden = true; f.srcdoc = "<script>parent.postMessage({tarnwright: 1, height: 321, sent: 'FP-AAAAAA'}, '*'); parent.postMessage('stray', '*')<\/script>";
			addEventListener("message", e => e.data === "stray" && r(1)); document.body.append(f); })`, nil, awaitPromise))
	settled()
	if got, heard := eval[float64](b, frameHeight), eval[int64](b, `heard.length`); got != before || heard != 0 {
		t.Errorf("forged messages moved the frame from %v to %v px, or were heard: %d", before, got, heard)
	}
	// From the frame's own window: only a plain number of sensible size, and
	// only a reference.
	in.run(chromedp.Evaluate(`for (const h of [NaN, Infinity, -5, 0, 20001, 1e9, "400", null, {}, [400], true]) parent.postMessage({tarnwright: 1, height: h}, "*");
		for (const what of [null, 7, "height", {height: 400}, {tarnwright: 2, height: 400}, {tarnwright: "1", height: 400}]) parent.postMessage(what, "*");
		for (const ref of ["", "maren@oakesmail.example", "FP AAAAAA", "<b>FP-AAAAAA</b>", "F".repeat(17), {}, 1234567, null]) parent.postMessage({tarnwright: 1, sent: ref}, "*");
		parent.postMessage("last", "*")`, nil))
	settled()
	if got, heard := eval[float64](b, frameHeight), eval[int64](b, `heard.length`); got != before || heard != 0 {
		t.Errorf("wild messages moved the frame from %v to %v px, or were heard: %d", before, got, heard)
	}
	// The same frame is believed when it speaks as it should, within a pixel.
	in.run(chromedp.Evaluate(fmt.Sprintf(`parent.postMessage({tarnwright: 1, height: %v}, "*"); parent.postMessage({tarnwright: 1, sent: "FP-7F3K2Q"}, "*")`, before+1), nil))
	b.until("the true one is heard", `heard.length === 1 && heard[0] === "FP-7F3K2Q"`)
	if got := eval[float64](b, frameHeight); got != before {
		t.Errorf("one pixel moved the frame from %v to %v", before, got)
	}
	in.run(chromedp.Evaluate(`for (let i = 1; i <= 60; i++) parent.postMessage({tarnwright: 1, height: 6000 + 10 * i}, "*"); parent.postMessage("last", "*")`, nil))
	b.until("the frame grew", frameHeight+` > 6000`)
	settled()
	if got := eval[float64](b, frameHeight); got > 6000+10*20 {
		t.Errorf("a frame that grows without end reached %v px", got)
	}
}

// TestEmbed_WhereStorageIsDenied: third-party storage throws, and the widget
// still starts.
func TestEmbed_WhereStorageIsDenied(t *testing.T) {
	t.Parallel()
	var s *server
	host := pageOf(t, func() string {
		return hostPage(s.url, "")
	})
	s = serveWith(t, "-frame-ancestors", host.url)
	b := openWith(t, size{1280, 860}, scriptOn,
		chromedp.Flag("disable-features", "ThirdPartyStoragePartitioning"),
		chromedp.Flag("test-third-party-cookie-phaseout", true))
	b.run(chromedp.Navigate(host.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	in := b.inside(s.url + "/?")
	in.until("the widget took over", isLive)
	// The stand-in hides what the browser does; its own getter tells.
	denied := eval[string](in, `(() => { const f = document.createElement("iframe"); document.body.append(f);
		try { f.contentWindow.localStorage.length; return "open"; } catch (e) { return e.name; } finally { f.remove(); } })()`)
	if denied != "SecurityError" {
		t.Errorf("storage is %s here: the test proves nothing", denied)
	}
	before := in.reading("volume")
	in.fill("f-length", "44 ft")
	in.changes("volume", before, "a longer pond")
	b.fits(in)
}

// TestEmbed_InASandboxWithoutAnOrigin: some sites frame everything so.
func TestEmbed_InASandboxWithoutAnOrigin(t *testing.T) {
	t.Parallel()
	var s *server
	host := pageOf(t, func() string {
		return `<!doctype html><title>x</title><link rel="icon" href="data:,"><iframe width="1200" height="900" sandbox="allow-scripts allow-forms" src="` + s.url + `/"></iframe>`
	})
	s = serveWith(t, "-frame-ancestors", host.url)
	b := open(t, size{1280, 860}, scriptOn)
	b.run(chromedp.Navigate(host.url), chromedp.WaitReady("iframe", chromedp.ByQuery))
	in := b.inside(s.url)
	in.until("the widget took over", isLive)
	before := in.reading("volume")
	in.fill("f-length", "44 ft")
	in.changes("volume", before, "a longer pond")
}

// TestEmbed_WithoutScript: the builder's page shows the link; a plain frame
// answers as a form.
func TestEmbed_WithoutScript(t *testing.T) {
	t.Parallel()
	var s *server
	host := pageOf(t, func() string {
		return hostPage(s.url, "") + `<iframe id="plain" src="` + s.url + `/?length=30+ft"></iframe>`
	})
	s = serveWith(t, "-frame-ancestors", host.url)
	b := open(t, size{1280, 860}, scriptOff)
	b.run(chromedp.Navigate(host.url))
	if !eval[bool](b, `document.querySelector("tarnwright-check a").offsetHeight > 0 && document.querySelector("tarnwright-check iframe") === null`) {
		t.Error("no link without script")
	}
	in := b.inside(s.url)
	if got := eval[string](in, `document.getElementById("f-length").value`); got != "30 ft" {
		t.Errorf("the plain frame shows %q", got)
	}
	first := in.reading("volume")
	in.fill("f-length", "44 ft")
	in.run(loads(chromedp.Click("#update", chromedp.ByQuery)))
	if got := in.reading("volume"); got == first || eval[string](in, `document.getElementById("f-length").value`) != "44 ft" {
		t.Errorf("a longer pond still reads %q", got)
	}
}

// storageOf is how many bytes the browser keeps for a site.
func storageOf(b *tab, origin string) float64 {
	b.t.Helper()
	var used float64
	b.run(chromedp.ActionFunc(func(ctx context.Context) error {
		u, err := usage(ctx, origin)
		used = u
		return err
	}))
	return used
}
