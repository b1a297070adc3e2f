package browsertest_test

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// wobbly stands between the browser and the server: it can be down, and it can
// lose replies after the server has done its work.
type wobbly struct {
	mu    sync.Mutex
	down  bool
	loses float64
	luck  *rand.Rand
	lost  int
	next  http.Handler
	posts chan struct{} // one for each request to store something, nil for none
	// worker changes the script of the worker on its way.
	worker func(script string) string
}

func (l *wobbly) set(change func(*wobbly)) { l.mu.Lock(); change(l); l.mu.Unlock() }

func (l *wobbly) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	l.mu.Lock()
	down, lose := l.down, r.Method == http.MethodPost && l.luck.Float64() < l.loses
	if lose && !down {
		l.lost++
	}
	worker, posts := l.worker, l.posts
	l.mu.Unlock()
	if posts != nil && r.Method == http.MethodPost {
		posts <- struct{}{}
	}
	switch {
	case down:
		cut(w)
	case worker != nil && r.URL.Path == "/app-worker.js":
		got := httptest.NewRecorder()
		r.Header.Del("Accept-Encoding")
		l.next.ServeHTTP(got, r)
		w.Header().Set("Content-Type", got.Header().Get("Content-Type"))
		_, _ = w.Write([]byte(worker(got.Body.String())))
	case lose:
		l.next.ServeHTTP(httptest.NewRecorder(), r)
		cut(w)
	default:
		l.next.ServeHTTP(w, r)
	}
}

// cut ends the connection without an answer.
func cut(w http.ResponseWriter) {
	if conn, _, err := http.NewResponseController(w).Hijack(); err == nil {
		_ = conn.Close()
	}
}

// behind gives a server an address behind a line.
func behind(t *testing.T, s *server) (*wobbly, string) {
	t.Helper()
	to, err := url.Parse(s.url)
	if err != nil {
		t.Fatal(err)
	}
	l := &wobbly{luck: rand.New(rand.NewPCG(7, 11)), next: httputil.NewSingleHostReverseProxy(to)}
	front := httptest.NewServer(l)
	t.Cleanup(front.Close)
	return l, front.URL
}

// tablet opens the salesperson's page and waits until it would open offline.
func tablet(t *testing.T, front string) *tab {
	t.Helper()
	b := open(t, size{1024, 768}, scriptOn)
	b.run(chromedp.Navigate(front + "/?mode=tablet"))
	b.until("the widget took over", isLive)
	b.until("the worker is in charge", `navigator.serviceWorker.controller !== null`)
	return b
}

func (b *tab) visit(address string) {
	b.t.Helper()
	b.run(chromedp.Navigate("about:blank"), chromedp.Navigate(address))
	b.until(address+" opened", isLive)
}

// TestTablet_OpensWithoutALine starts from nothing but what is kept, at every
// kind of address.
func TestTablet_OpensWithoutALine(t *testing.T) {
	t.Parallel()
	s := serve(t)
	l, front := behind(t, s)
	b := tablet(t, front)
	b.until("it can be put on the home screen", `document.querySelector("link[rel=manifest]") !== null`)
	b.run(chromedp.Evaluate(`caches.open("somebody-elses")`, nil))
	before := b.reading("volume")
	b.fill("f-length", "41 ft")
	longer := b.changes("volume", before, "a longer pond")
	b.until("the address has the pond", `location.hash.startsWith("#d=1.")`)
	link := eval[string](b, `location.hash`)

	l.set(func(l *wobbly) { l.down = true })
	b.visit(front + "/?mode=tablet")
	if got := b.reading("volume"); got != before {
		t.Errorf("the first page reads %q, want %q", got, before)
	}
	for _, address := range []string{"/?mode=tablet&length=41ft", "/?length=41+ft", "/" + link, "/?mode=tablet&x=1" + link} {
		b.visit(front + address)
		if got := b.reading("volume"); got != longer {
			t.Errorf("%s reads %q, want %q", address, got, longer)
		}
	}
	if kept := evalAwait[bool](b, `caches.has("somebody-elses")`); !kept {
		t.Error("another program's cache was removed")
	}
	b.shot("tablet-offline")
}

// TestTablet_OpensInItsLanguageWithoutALine: the one of the address, or else
// the one that was last asked for.
func TestTablet_OpensInItsLanguageWithoutALine(t *testing.T) {
	t.Parallel()
	s := serve(t)
	l, front := behind(t, s)
	b := tablet(t, front)
	l.set(func(l *wobbly) { l.down = true })
	for _, c := range []struct{ address, lang, says string }{
		{"/?mode=tablet", "en", "Water volume"},
		{"/?mode=tablet&lang=es&length=41ft", "es", "Volumen de agua"},
		{"/?mode=tablet", "es", "Volumen de agua"},
		{"/?lang=en", "en", "Water volume"},
		{"/?mode=tablet&lang=en", "en", "Water volume"},
		{"/?mode=tablet", "en", "Water volume"},
	} {
		b.visit(front + c.address)
		if got := eval[string](b, `document.documentElement.lang`) + " " + b.reading("volume"); !strings.HasPrefix(got, c.lang) || !strings.Contains(got, c.says) {
			t.Errorf("%s: the page is %q", c.address, got)
		}
	}
	b.run(chromedp.Evaluate(`[...document.querySelectorAll(".lang a")].find(a => a.checkVisibility()).click()`, nil))
	b.loadsItself("the other language", isLive+` && document.documentElement.lang === "es" && location.search.includes("mode=tablet")`)
}

// TestTablet_APlainPageRegistersNoWorker looks past the stand-in.
func TestTablet_APlainPageRegistersNoWorker(t *testing.T) {
	t.Parallel()
	s := serve(t)
	b := live(t, s, size{1024, 768}, "/")
	n := evalAwait[int](b, `Object.getOwnPropertyDescriptor(Navigator.prototype, "serviceWorker").get.call(navigator).getRegistrations().then(r => r.length)`)
	if n != 0 {
		t.Errorf("%d workers on a plain page", n)
	}
	if eval[bool](b, `window.tarnwrightQueue !== undefined || document.querySelector("link[rel=manifest]") !== null`) {
		t.Error("a plain page has a queue or a manifest")
	}
	b.quiet()
}

// enquire fills in the form for one person and sends it.
func (b *tab) enquire(name string) {
	b.t.Helper()
	b.click("tab-send")
	b.until("the form shows", `document.getElementById("f-name") !== null`)
	b.fill("f-name", name)
	b.fill("f-email", strings.ToLower(name)+"@oakesmail.example")
	b.click("f-consent")
	b.click("send")
}

// everything kept on this device, as text.
const keptHere = `(async () => {
	const db = await new Promise(ok => { const r = indexedDB.open("tarnwright", 1); r.onsuccess = () => ok(r.result); });
	const rows = await new Promise(ok => { const r = db.transaction("waiting").objectStore("waiting").getAll(); r.onsuccess = () => ok(r.result); });
	db.close();
	return JSON.stringify(rows) + JSON.stringify(localStorage) + JSON.stringify(sessionStorage) + location.href + document.title;
})()`

// TestQueue_EachEnquiryIsStoredOnce makes enquiries without a line, between
// reloads, and sends them over one that loses replies.
func TestQueue_EachEnquiryIsStoredOnce(t *testing.T) {
	t.Parallel()
	s := serve(t)
	l, front := behind(t, s)
	b := tablet(t, front)
	first := b.reading("volume")
	l.set(func(l *wobbly) { l.down = true })

	// One that is sealed to some other key can never be opened. It comes first
	// and must hold up nobody.
	evalAwait[bool](b, `(async () => {
		const pair = await crypto.subtle.generateKey({ name: "ECDH", namedCurve: "P-256" }, true, ["deriveBits"]);
		const raw = new Uint8Array(await crypto.subtle.exportKey("raw", pair.publicKey));
		await tarnwrightQueue.keep(btoa(String.fromCharCode(...raw)), "sealed-to-another-key", "{}", "X", new Date().toISOString());
		return true;
	})()`)

	names := []string{"Maren", "Tove", "Osric", "Wilmot"}
	for i, name := range names {
		if i == 0 {
			b.fill("f-length", "41 ft")
			b.changes("volume", first, "a longer pond")
		}
		b.enquire(name)
		b.until("it waits", `document.getElementById("queued") !== null`)
		if i == 0 {
			b.shot("tablet-queued")
			if eval[bool](b, `document.getElementById("change") !== null`) {
				t.Error("one that may have arrived can be taken back")
			}
		}
		if kept := evalAwait[string](b, keptHere); strings.Contains(kept, name) || strings.Contains(kept, "oakesmail") {
			t.Errorf("the device holds %s in the clear: %.400s", name, kept)
		}
		if i%2 == 0 {
			b.click("another")
			b.until("the next person is asked for a shape", `document.getElementById("begin") !== null && document.querySelector(".out") === null`)
			b.click("begin-bean")
			b.until("the page is the next person's", `document.getElementById("f-length") !== null`)
			if got := b.reading("volume"); got != first {
				t.Errorf("the next person sees a volume of %q, want %q", got, first)
			}
			if got := eval[string](b, `document.getElementById("undo").getAttribute("aria-disabled") + location.search + location.hash`); got != "true?mode=tablet" {
				t.Errorf("the next person finds %q", got)
			}
		} else {
			b.visit(front + "/?mode=tablet")
		}
		b.until("the queue is counted", fmt.Sprintf(`(document.getElementById("queue")?.innerText ?? "").includes(%q)`, []string{"2", "3", "4", "5"}[i]))
	}

	l.set(func(l *wobbly) { l.down, l.loses = false, 0.3 })
	b.visit(front + "/?mode=tablet")
	b.until("the one that cannot be opened is marked", `document.getElementById("bad-0") !== null`)
	for range 8 {
		if eval[bool](b, `document.getElementById("queue") === null`) {
			break
		}
		b.run(chromedp.Evaluate(`document.getElementById("send-now")?.click()`, nil))
		b.visit(front + "/?mode=tablet") // perhaps in the middle of sending
		b.until("a try came to an end", `document.getElementById("send-now") === null || true`)
	}
	b.until("nothing waits any more", `document.getElementById("queue") === null && document.getElementById("bad-0") !== null`)
	b.shot("tablet-bad")
	list := s.stored(t)
	for _, name := range names {
		if n := strings.Count(list, strings.ToLower(name)+"@oakesmail.example"); n != 1 {
			t.Errorf("%s is stored %d times:\n%s", name, n, list)
		}
	}
	l.set(func(l *wobbly) { t.Logf("%d replies lost on the way", l.lost) })
	b.click("remove-0")
	b.until("the marked one is gone", `document.getElementById("bad-0") === null`)
	if kept := evalAwait[string](b, keptHere); !strings.HasPrefix(kept, "[]") {
		t.Errorf("still kept: %.400s", kept)
	}
}

// TestQueue_AnEnquiryThatNeverLeftCanBeChanged takes one back into the form.
func TestQueue_AnEnquiryThatNeverLeftCanBeChanged(t *testing.T) {
	t.Parallel()
	s := serve(t)
	_, front := behind(t, s)
	b := tablet(t, front)
	b.run(network.Enable(), network.EmulateNetworkConditions(true, 0, 0, 0))
	b.until("the page says that the line is down", `document.getElementById("line") !== null`)
	b.enquire("Maren")
	b.until("it waits", `document.getElementById("queued") !== null`)
	b.click("change")
	b.until("it is back in the form", `document.getElementById("f-name")?.value === "Maren"`)
	b.fill("f-name", "Marina")
	b.click("send")
	b.until("it waits again", `document.getElementById("queued") !== null`)
	b.run(network.EmulateNetworkConditions(false, 0, -1, -1))
	b.until("it went by itself", `document.getElementById("sent") !== null`)
	if list := s.stored(t); strings.Count(list, "maren@") != 1 || !strings.Contains(list, "Marina") {
		t.Errorf("stored:\n%s", list)
	}
}

// TestTablet_IsClearedWhenNobodyIsThere turns the device's clock on.
func TestTablet_IsClearedWhenNobodyIsThere(t *testing.T) {
	t.Parallel()
	s := serve(t)
	_, front := behind(t, s)
	b := tablet(t, front)
	before := b.reading("volume")
	b.fill("f-length", "41 ft")
	longer := b.changes("volume", before, "a longer pond")
	b.run(chromedp.Evaluate(`(() => { const real = Date.now.bind(Date); window.aheadMs = 0; Date.now = () => real() + window.aheadMs; })()`, nil))

	b.run(chromedp.Evaluate(`window.aheadMs = 14 * 60000 + 50000; 0`, nil))
	if eval[bool](b, `document.getElementById("wipe") !== null`) {
		t.Error("it warns before its time")
	}
	b.run(chromedp.Evaluate(`window.aheadMs = 15 * 60000 + 1000; 0`, nil))
	b.until("it warns, and counts", `/ (60|59|58|57|56|55|54|53|52|51|50|4\d) /.test(document.getElementById("wipe")?.innerText ?? "")`)
	b.shot("tablet-wipe")
	if !eval[bool](b, `(() => { const r = document.getElementById("wipe").getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight && r.height > 40; })()`) {
		t.Error("the warning is out of sight")
	}
	b.click("stay")
	b.until("it stays", `document.getElementById("wipe") === null`)
	if got := b.reading("volume"); got != longer {
		t.Errorf("after staying the volume reads %q, want %q", got, longer)
	}
	b.run(chromedp.Evaluate(`window.aheadMs += 15 * 60000 + 1000; 0`, nil))
	b.until("it warns again", `document.getElementById("wipe") !== null`)
	b.run(chromedp.Evaluate(`window.aheadMs += 61000; 0`, nil))
	b.until("it is cleared", `document.getElementById("wipe") === null && document.getElementById("begin") !== null`)
	if got := eval[string](b, `location.search + location.hash + JSON.stringify(sessionStorage)`); strings.Contains(got, "41") || strings.Contains(got, "draft") {
		t.Errorf("cleared, it still has %q", got)
	}
	b.click("begin-bean")
	b.until("the next pond is the builder's own", fmt.Sprintf(`document.getElementById("f-length") !== null && `+pond+` === %q`, before))
}

// loadsItself waits through a load that the page itself begins, which ends
// whatever asks it meanwhile.
func (b *tab) loadsItself(what, js string) {
	b.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); {
		var yes bool
		err := chromedp.Run(b.ctx, chromedp.Poll(js, &yes, chromedp.WithPollingTimeout(2*time.Second)))
		if err == nil && yes {
			return
		}
	}
	b.t.Fatalf("never came true: %s\n%s", what, b.problems)
}

// TestTablet_ANewVersionWaitsForTheNextPerson offers a version with a file
// missing, and then a whole one.
func TestTablet_ANewVersionWaitsForTheNextPerson(t *testing.T) {
	t.Parallel()
	s := serve(t)
	l, front := behind(t, s)
	b := tablet(t, front)
	const caches = `caches.keys().then(k => k.sort().join(" "))`
	first := evalAwait[string](b, caches)
	before := b.reading("volume")
	b.fill("f-length", "41 ft")
	longer := b.changes("volume", before, "a longer pond")
	b.run(chromedp.Evaluate(`window.sameVisit = true`, nil))

	const look = `navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => "found", e => "refused")`
	l.set(func(l *wobbly) {
		l.worker = func(script string) string {
			return strings.Replace(strings.Replace(script, `const version = "`, `const version = "broken-`, 1), `const files = [`, `const files = ["/assets/gone.js",`, 1)
		}
	})
	evalAwait[string](b, look)
	b.until("the broken version is given up", `navigator.serviceWorker.getRegistration().then(r => !r.installing && !r.waiting && !!r.active)`)
	if now := evalAwait[string](b, caches); now != first {
		t.Errorf("after a broken version the caches are %q, were %q", now, first)
	}

	l.set(func(l *wobbly) {
		l.worker = func(script string) string {
			return strings.Replace(script, `const version = "`, `const version = "newer-`, 1)
		}
	})
	evalAwait[string](b, look)
	b.until("the page says so", `document.getElementById("newer") !== null`)
	if got := b.reading("volume"); got != longer || !eval[bool](b, `window.sameVisit === true`) {
		t.Errorf("the open pond was interrupted: %q", got)
	}
	l.set(func(l *wobbly) { l.down = true })
	b.run(chromedp.Evaluate(`document.getElementById("tab-send").click()`, nil))
	b.until("the form shows", `document.getElementById("f-name") !== null`)
	b.fill("f-name", "Maren")
	b.fill("f-email", "maren@oakesmail.example")
	b.click("f-consent")
	b.click("send")
	b.until("it waits", `document.getElementById("queued") !== null`)
	b.click("another")
	b.loadsItself("the new version is here", isLive+` && window.sameVisit === undefined`)
	if now := evalAwait[string](b, caches); !strings.HasPrefix(now, "tarnwright-newer-") || strings.Contains(now, " ") {
		t.Errorf("the caches are %q", now)
	}
	if got := b.reading("volume"); got != before {
		t.Errorf("the next person sees a volume of %q, want %q", got, before)
	}
	b.until("what waits still waits", `document.getElementById("queue") !== null`)
}
