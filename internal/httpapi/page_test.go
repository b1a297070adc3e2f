package httpapi_test

import (
	"bufio"
	"compress/gzip"
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tarnwright/internal/httpapi"
)

func proxies() []netip.Prefix { return []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8")} }

const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; object-src 'none'; connect-src 'self'; frame-ancestors "

// Every route and every kind of failure carries the headers.
func TestRoutes_AnswerAsTheyShouldWithEveryHeader(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	for _, c := range []struct {
		method, path string
		status       int
		kind         string
	}{
		{"GET", "/", 200, "text/html; charset=utf-8"},
		{"HEAD", "/", 200, "text/html; charset=utf-8"},
		{"GET", "/?length=34+ft&name=x", 200, "text/html; charset=utf-8"},
		{"GET", "/?length=%zz;;&", 200, "text/html; charset=utf-8"},
		{"POST", "/", 405, "text/html; charset=utf-8"},
		{"GET", "/lead", 405, "text/html; charset=utf-8"},
		{"GET", "/api/v1/leads", 405, "application/problem+json"},
		{"GET", "/api/v1/leads/AR-7F3K2Q", 404, "application/problem+json"},
		{"DELETE", "/healthz", 405, "text/html; charset=utf-8"},
		{"TRACE", "/", 405, "text/html; charset=utf-8"},
		{"GET", "/healthz", 200, "text/plain; charset=utf-8"},
		{"GET", "/readyz", 200, "text/plain; charset=utf-8"},
		{"GET", "/robots.txt", 200, "text/plain; charset=utf-8"},
		{"GET", "/app-worker.js", 200, "text/javascript; charset=utf-8"},
		{"GET", "/app.js", 200, ""},
		{"GET", "/wasm_exec.js", 200, ""},
		{"GET", "/app.css", 200, ""},
		{"GET", "/manifest.webmanifest", 200, ""},
		{"GET", "/web/app.wasm", 200, "application/wasm"},
		{"GET", "/embed.js", 200, "text/javascript; charset=utf-8"},
		{"OPTIONS", "/api/v1/leads", 204, ""},
		{"OPTIONS", "/lead", 405, "text/html; charset=utf-8"},
		{"GET", "/web/", 404, "text/html; charset=utf-8"},
		{"GET", "/web/app.wasm.br", 404, "text/html; charset=utf-8"},
		{"GET", "/assets/", 404, "text/html; charset=utf-8"},
		{"GET", "/assets/app.css", 404, "text/html; charset=utf-8"},
		{"GET", "/assets/..%2fjs%2fboot.js", 404, "text/html; charset=utf-8"},
		{"GET", "/sitemap.xml", 404, "text/html; charset=utf-8"},
		{"GET", "/ads.txt", 404, "text/html; charset=utf-8"},
		{"GET", "/nowhere", 404, "text/html; charset=utf-8"},
	} {
		w := r.do(httptest.NewRequest(c.method, c.path, nil))
		if w.Code != c.status || (c.kind != "" && w.Header().Get("Content-Type") != c.kind) {
			t.Errorf("%s %s: %d %s, want %d %s", c.method, c.path, w.Code, w.Header().Get("Content-Type"), c.status, c.kind)
		}
		for name, want := range map[string]string{
			"Content-Security-Policy": policy + "'none'", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
			"X-Frame-Options": "DENY", "Cross-Origin-Opener-Policy": "same-origin",
			"Cross-Origin-Resource-Policy": forAll(c.path, "cross-origin", "same-origin"), "Access-Control-Allow-Origin": forAll(c.path, "*", ""),
			"Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()", "Server": "", "Set-Cookie": "",
		} {
			if got := w.Header().Get(name); got != want {
				t.Errorf("%s %s: %s is %q, want %q", c.method, c.path, name, got, want)
			}
		}
		if w.Header().Get("X-Request-Id") == "" || (w.Code == 405) != (w.Header().Get("Allow") != "") {
			t.Errorf("%s %s: request id %q, allow %q", c.method, c.path, w.Header().Get("X-Request-Id"), w.Header().Get("Allow"))
		}
	}
}

// forAll tells the few addresses that a page of any site may read.
func forAll(path, yes, no string) string {
	switch path {
	case "/app.js", "/wasm_exec.js", "/app.css", "/web/app.wasm", "/embed.js":
		return yes
	}
	return no
}

func TestFramework_IsToldOfTheFiles(t *testing.T) {
	t.Parallel()
	w := setUp(t).get("/app.js")
	if !regexp.MustCompile(`^framework /app\.js /assets/icon\.[0-9a-f]{12}\.svg [0-9a-f]{12}$`).MatchString(w.Body.String()) {
		t.Errorf("told %q", w.Body)
	}
	if w := setUp(t, func(c *httpapi.Config) { c.Framework = nil }).get("/app.js"); w.Code != http.StatusNotFound {
		t.Errorf("without a framework: %d", w.Code)
	}
}

func TestHeaders_LetOnlyConfiguredSitesFrameThePage(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) {
		c.FrameAncestors = []string{"https://builder.example", "https://www.builder.example"}
	})
	h := r.get("/").Header()
	if got := h.Get("Content-Security-Policy"); got != policy+"https://builder.example https://www.builder.example" {
		t.Errorf("policy %q", got)
	}
	if h.Get("X-Frame-Options") != "" {
		t.Error("X-Frame-Options would keep the configured sites out")
	}
}

func TestPage_IsTheTreeInAShell(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	w := r.get("/?length=34+ft&name=" + url.QueryEscape(`"><script>alert(1)</script>`))
	text := w.Body.String()
	for _, want := range []string{
		`<html lang="en" data-book="/assets/book.`, `<title>Alder Reach – Fernhollow Ponds</title>`, `<meta name="viewport" content="width=device-width, initial-scale=1">`,
		`content="A pond &amp; its figures"`, `<input name="length" value="34 ft">`, `<aside id="app-wasm-loader" hidden>`, `id="app-wasm-loader-icon"`, `id="app-wasm-loader-label"`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if strings.Contains(text, "<script>") || strings.Contains(text, " style=") {
		t.Errorf("the page holds an inline script or style:\n%s", text)
	}
	if !regexp.MustCompile(`<link rel="stylesheet" href="/assets/app\.[0-9a-f]{12}\.css">`).MatchString(text) ||
		!regexp.MustCompile(`<script src="/assets/boot\.[0-9a-f]{12}\.js" defer( data-[a-z]+="[^"]+")*></script>`).MatchString(text) {
		t.Errorf("links:\n%s", text)
	}
	if strings.Index(text, `<div id="page">`) > strings.Index(text, `app-wasm-loader`) {
		t.Error("the loader stands before the page")
	}
	address := regexp.MustCompile(`data-book="(/assets/book\.[0-9a-f]{12}\.json)"`).FindStringSubmatch(text)
	if address == nil {
		t.Fatalf("no address of the book:\n%s", text)
	}
	if b := r.get(address[1]); b.Body.String() != `{"builder":"</script><script>alert(1)</script>"}` || b.Header().Get("Content-Type") != "application/json" || !strings.Contains(b.Header().Get("Cache-Control"), "immutable") {
		t.Errorf("the book: %v %s", b.Header(), b.Body)
	}
	keys := regexp.MustCompile(`name="key" value="([^"]+)"`)
	if a, b := keys.FindStringSubmatch(text), keys.FindStringSubmatch(r.get("/").Body.String()); len(a) < 2 || len(b) < 2 || a[1] == b[1] {
		t.Errorf("two visitors got the keys %v and %v", a, b)
	}
	if w.Header().Get("Cache-Control") != "no-store" {
		t.Errorf("cached as %q", w.Header().Get("Cache-Control"))
	}
}

// A page is squeezed for who takes it, and says the same.
func TestPage_IsSqueezedForWhoTakesIt(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("a pond with a beach and a deck, ", 200)
	fixed := func(c *httpapi.Config) { c.NewID = func() string { return "id-of-sixteen-letters" } }
	address := "/?length=" + url.QueryEscape(long)
	plain, small := setUp(t, fixed).get(address), setUp(t, fixed).get(address, "Accept-Encoding", "gzip, br")
	if small.Header().Get("Content-Encoding") != "gzip" || small.Body.Len() > plain.Body.Len()/2 || small.Header().Get("Vary") != "Accept-Encoding, Accept-Language" || plain.Header().Get("Content-Encoding") != "" {
		t.Fatalf("%v, %d bytes for %d", small.Header(), small.Body.Len(), plain.Body.Len())
	}
	z, err := gzip.NewReader(small.Body)
	if err != nil {
		t.Fatal(err)
	}
	if text, err := io.ReadAll(z); err != nil || string(text) != plain.Body.String() || !strings.Contains(string(text), long) {
		t.Errorf("%v; unpacked\n%s", err, text)
	}
}

func form(values url.Values) *http.Request {
	req := httptest.NewRequest(http.MethodPost, "/lead", strings.NewReader(values.Encode()))
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return req
}

func typed() url.Values {
	return url.Values{"key": {key}, "length": {"34 ft"}, "name": {"Maren Oakes"}, "email": {"maren@oakesmail.example"}, "note": {"Slopes <south> & \"down\"."}, "consent": {"yes"}}
}

func TestPostForm_ShowsThePageAgainWithAllThatWasTyped(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) {
		c.Limits = httpapi.Limits{LeadsPerMinute: 60, LeadBurst: 7, ChecksPerMinute: 60, CheckBurst: 9}
	})
	kept := `value="Slopes &lt;south&gt; &amp; &#34;down&#34;."`
	for i, c := range []struct {
		why    string
		change func(url.Values)
		status int
		want   []string
	}{
		{"a slip in the email and no consent", func(v url.Values) { v.Set("email", "maren@oakesmail"); v.Del("consent") }, 422,
			[]string{"fault email no_ending", "fault consent not_agreed", `value="maren@oakesmail"`, `value="` + key + `"`}},
		{"a pond that cannot be read", func(v url.Values) { v.Set("length", "far too long") }, 422, []string{"trouble design", `value="far too long"`}},
		{"all well", func(url.Values) {}, 200, []string{"sent AR-"}},
		{"sent twice", func(url.Values) {}, 200, []string{"sent AR-"}},
		{"changed and sent again under the same key", func(v url.Values) { v.Set("name", "Maren O.") }, 422, []string{"trouble already_sent", `value="Maren O."`, `value="id-of-sixteen-letters-`}},
		{"a key that is none", func(v url.Values) { v.Set("key", "x") }, 400, []string{"trouble already_sent"}},
		{"no key at all", func(v url.Values) { v.Del("key"); v.Set("name", "Another") }, 200, []string{"sent AR-"}},
		{"too often", func(url.Values) {}, 429, []string{"trouble too_many"}},
	} {
		v := typed()
		c.change(v)
		w := r.do(form(v))
		if w.Code != c.status {
			t.Errorf("%s: %d, want %d", c.why, w.Code, c.status)
		}
		for _, want := range append(c.want, kept) {
			if !strings.Contains(w.Body.String(), want) {
				t.Errorf("%s: the page lacks %s:\n%s", c.why, want, w.Body)
			}
		}
		if n := len(stored(t, r.store)); i == 3 && n != 1 {
			t.Errorf("%d leads after sending twice", n)
		}
	}
	leads := stored(t, r.store)
	if len(leads) != 2 || leads[1].Consent.Channel != "form" || leads[1].Contact.Note != typed().Get("note") {
		t.Errorf("stored %+v", leads)
	}
}

func TestPostForm_RefusesWhatIsNoForm(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	for _, c := range []struct {
		why    string
		req    *http.Request
		status int
	}{
		{"JSON", with(form(typed()), "Content-Type", "application/json"), 415},
		{"a file", with(form(typed()), "Content-Type", "multipart/form-data; boundary=x"), 415},
		{"too much", form(url.Values{"note": {strings.Repeat("x", 70_000)}}), 413},
		{"another site", with(form(typed()), "Sec-Fetch-Site", "cross-site"), 403},
		{"broken", with(httptest.NewRequest("POST", "/lead", strings.NewReader("a=%zz")), "Content-Type", "application/x-www-form-urlencoded"), 400},
	} {
		if w := r.do(c.req); w.Code != c.status {
			t.Errorf("%s: %d, want %d", c.why, w.Code, c.status)
		}
	}
	if len(stored(t, r.store)) > 0 {
		t.Error("something was stored")
	}
}

// What a person types is in no log line, and neither are addresses, queries
// and headers.
func TestLog_HoldsNoPersonalData(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	e := enquiry()
	canaries := []string{"CanaryName", "canary@mail.example", "5550100777", "CanaryTown", "CanaryNote", "CanaryQuery", "CanaryAgent", "203.0.113.77", "CanaryPath", "CANARYMETHOD", "CanaryFault"}
	e.Contact.Name, e.Contact.Email, e.Contact.Phone, e.Contact.Town, e.Contact.Note = "CanaryName", "canary@mail.example", "5550100777", "CanaryTown", "CanaryNote"
	v := url.Values{"name": {"CanaryName"}, "email": {"canary@mail.example"}, "phone": {"5550100777"}, "town": {"CanaryTown"}, "note": {"CanaryNote"}, "consent": {"yes"}, "key": {"CanaryFault-CanaryFault"}}
	faulty := strings.Replace(body(t, e), `"name"`, `"CanaryFault"`, 1)
	other := typed()
	other.Set("email", "canary@mail")
	for _, req := range []*http.Request{
		post(body(t, e)), post(body(t, e)), post(faulty), post(faulty[:90]), form(v), form(other),
		httptest.NewRequest("GET", "/?name=CanaryQuery&email=canary@mail.example", nil), httptest.NewRequest("GET", "/CanaryPath", nil),
		httptest.NewRequest("GET", "/assets/CanaryPath", nil), httptest.NewRequest("CANARYMETHOD", "/", nil),
	} {
		req.Header.Set("User-Agent", "CanaryAgent")
		req.RemoteAddr = "203.0.113.77:9"
		r.do(req)
	}
	log := r.log.String()
	if n := strings.Count(log, "\n"); n < 10 {
		t.Fatalf("only %d lines were logged:\n%s", n, log)
	}
	for _, c := range canaries {
		if strings.Contains(log, c) {
			t.Errorf("the log holds %s:\n%s", c, log)
		}
	}
	if !strings.Contains(log, `"route":"POST /api/v1/leads"`) || !strings.Contains(log, `"status":201`) {
		t.Errorf("the log does not say what was answered:\n%s", log)
	}
}

func TestAssets_AreFoundByExactNameAndKept(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	css := regexp.MustCompile(`/assets/app\.[0-9a-f]{12}\.css`).FindString(r.get("/").Body.String())
	w := r.get(css)
	if w.Code != 200 || w.Header().Get("Cache-Control") != "public, max-age=31536000, immutable" || w.Header().Get("Content-Encoding") != "" || w.Body.Len() != 600 {
		t.Errorf("plain: %d %v, %d bytes", w.Code, w.Header(), w.Body.Len())
	}
	w = r.get(css, "Accept-Encoding", "br, gzip;q=0.5")
	if w.Header().Get("Content-Encoding") != "gzip" || w.Body.Len() >= 600 || w.Header().Get("Vary") != "Accept-Encoding" {
		t.Errorf("squeezed: %v, %d bytes", w.Header(), w.Body.Len())
	}
	for _, c := range []struct{ accept, coding, text string }{
		{"gzip, deflate, br", "br", "brotli"}, {"gzip", "gzip", "gzip"}, {"br;q=0, gzip;q=0", "", "\x00asm raw raw raw"}, {"", "", "\x00asm raw raw raw"}, {"sabre", "", "\x00asm raw raw raw"},
	} {
		w := r.get("/web/app.wasm", "Accept-Encoding", c.accept)
		if w.Header().Get("Content-Encoding") != c.coding || w.Body.String() != c.text || w.Header().Get("Cache-Control") != "no-cache" || w.Header().Get("X-Wasm-Length") != "16" {
			t.Errorf("%q: %v %q", c.accept, w.Header(), w.Body)
		}
		if again := r.get("/web/app.wasm", "Accept-Encoding", c.accept, "If-None-Match", w.Header().Get("ETag")); again.Code != http.StatusNotModified || again.Body.Len() > 0 {
			t.Errorf("%q asked again: %d, %d bytes", c.accept, again.Code, again.Body.Len())
		}
	}
	if a, b := r.get("/web/app.wasm", "Accept-Encoding", "br").Header().Get("ETag"), r.get("/web/app.wasm").Header().Get("ETag"); a == b {
		t.Errorf("two codings share the tag %s", a)
	}
	notes := regexp.MustCompile(`[0-9a-f]{12}`).FindString(css)
	if w := r.get("/assets/notes." + notes + ".txt"); w.Code != 404 {
		t.Errorf("a file of no known kind: %d", w.Code)
	}
}

func TestAssets_BringEveryStyleSheetInOneFile(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) {
		fs := files()
		fs["css/b.css"], fs["css/a.css"] = &fstest.MapFile{Data: []byte("p{order:3}")}, &fstest.MapFile{Data: []byte("p{order:1}")}
		fs["css/app.css"] = &fstest.MapFile{Data: []byte("p{order:2}")}
		c.Assets = fs
	})
	css := regexp.MustCompile(`/assets/app\.[0-9a-f]{12}\.css`).FindString(r.get("/").Body.String())
	if got := r.get(css).Body.String(); got != "p{order:1}\np{order:2}\np{order:3}\n" {
		t.Errorf("served %q", got)
	}
}

func TestNew_NeedsTheStyleSheet(t *testing.T) {
	t.Parallel()
	fs := files()
	delete(fs, "css/app.css")
	if _, err := httpapi.New(httpapi.Config{Assets: fs}); err == nil {
		t.Error("a server without a style sheet was made")
	}
}

func TestHTTPServer_HasATimeOutForEveryKindOfSlowness(t *testing.T) {
	t.Parallel()
	s := setUp(t).HTTPServer()
	for name, d := range map[string]time.Duration{"header": s.ReadHeaderTimeout, "read": s.ReadTimeout, "write": s.WriteTimeout, "idle": s.IdleTimeout} {
		if d <= 0 || d > time.Minute {
			t.Errorf("%s time-out is %v", name, d)
		}
	}
	if s.MaxHeaderBytes <= 0 || s.MaxHeaderBytes > 64<<10 {
		t.Errorf("headers may be %d bytes", s.MaxHeaderBytes)
	}
}

// A client that never ends its header is cut off, and the server says nothing
// of it that names the client.
func TestHTTPServer_CutsOffASlowClient(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	srv := r.HTTPServer()
	srv.ReadHeaderTimeout = 20 * time.Millisecond
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	go func() { _ = srv.Serve(l) }()
	t.Cleanup(func() { _ = srv.Close() })
	c, err := net.Dial("tcp", l.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.Write([]byte("GET / HTTP/1.1\r\nHost: x\r\nX-Slow: ")); err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(io.Discard, c); err != nil { // ends only when the server closes
		t.Logf("closed with %v", err)
	}
}

// An enquiry that has begun when the server is told to stop is stored and
// answered, and the readiness check fails meanwhile.
func TestServe_LetsARunningEnquiryEnd(t *testing.T) {
	t.Parallel()
	h := &held{began: make(chan struct{}), let: make(chan struct{})}
	r := setUp(t, func(c *httpapi.Config) { h.Store = c.Desk.Store; c.Desk.Store = h })
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- r.Serve(ctx, l) }()
	status := make(chan string, 1)
	go func() {
		c, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			status <- err.Error()
			return
		}
		req := post(body(t, enquiry()))
		req.URL.Host, req.Host = l.Addr().String(), l.Addr().String()
		if err := req.Write(c); err != nil {
			status <- err.Error()
			return
		}
		line, _ := bufio.NewReader(c).ReadString('\n')
		status <- line
	}()
	<-h.began
	stop()
	for r.get("/readyz").Code != http.StatusServiceUnavailable {
		time.Sleep(time.Millisecond) // until the stop has been seen
	}
	close(h.let)
	if got := <-status; !strings.Contains(got, "201") {
		t.Errorf("the running enquiry got %q", got)
	}
	if err := <-served; err != nil {
		t.Errorf("serve ended with %v", err)
	}
	if n := len(stored(t, r.store)); n != 1 {
		t.Errorf("%d leads are stored", n)
	}
}

// What cannot run anything is told to load nothing either; a script keeps the
// page's policy, which is a worker's own.
func TestAssets_HaveThePolicyOfWhatTheyAre(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	page := r.get("/").Body.String()
	for ending, want := range map[string]string{"css": "default-src 'none'; frame-ancestors 'none'", "svg": "default-src 'none'; frame-ancestors 'none'", "js": r.get("/").Header().Get("Content-Security-Policy")} {
		address := regexp.MustCompile(`"(/assets/[a-z.0-9]+\.` + ending + `)"`).FindStringSubmatch(page)
		if address == nil {
			t.Errorf("the page has no %s", ending)
			continue
		}
		if got := r.get(address[1]).Header().Get("Content-Security-Policy"); got != want || got == "" {
			t.Errorf("%s comes with %q, want %q", address[1], got, want)
		}
	}
}
