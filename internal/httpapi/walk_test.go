package httpapi_test

import (
	"crypto/tls"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

// reached are addresses of every kind that the server answers.
func reached(t *testing.T, r *rig) []string {
	t.Helper()
	page := r.get("/").Body.String()
	found := regexp.MustCompile(`(?:href|src|data-[a-z]+)="(/[^"]+)"`).FindAllStringSubmatch(page, -1)
	all := []string{"/", "/nowhere", "/robots.txt", "/healthz", "/readyz", "/manifest.webmanifest", "/app-worker.js", "/embed.js", "/api/v1/leads", "/web/app.wasm", "/office/", "/shell"}
	for _, m := range found {
		all = append(all, m[1])
	}
	const fewest = 15
	if len(all) < fewest {
		t.Errorf("only %v", all)
	}
	return all
}

// Every body says what it is, and every text in which characters.
func TestWalk_EveryBodySaysItsTypeAndCharset(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	for _, at := range reached(t, r) {
		w := r.get(at)
		kind := w.Header().Get("Content-Type")
		text := strings.HasPrefix(kind, "text/") || strings.Contains(kind, "xml")
		if kind == "" || (text && !strings.HasSuffix(kind, "; charset=utf-8")) {
			t.Errorf("%s: %d bytes of type %q", at, w.Body.Len(), kind)
		}
	}
}

// The server traces nothing, lists nothing and shows nothing of its sources.
func TestWalk_ShowsNothingOfTheMachine(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	trace := r.do(with(httptest.NewRequest(http.MethodTrace, "/", nil), "X-Canary", "canary-of-a-trace"))
	if trace.Code != http.StatusMethodNotAllowed || strings.Contains(trace.Body.String(), "canary-of-a-trace") {
		t.Errorf("TRACE: %d %s", trace.Code, trace.Body)
	}
	for _, at := range []string{"/.git/config", "/.env", "/go.mod", "/assets/", "/web/", "/assets/../go.mod", "/leads.db", "/seal-key.pem", "/debug/pprof/", "/debug/vars", "/metrics"} {
		w := r.get(at)
		if w.Code == http.StatusOK || strings.Contains(w.Body.String(), "goroutine") || strings.Contains(w.Body.String(), "module ") {
			t.Errorf("%s: %d %s", at, w.Code, w.Body)
		}
	}
}

// A person who came by TLS is asked to come so again; a stranger's header is
// not believed, and nothing is promised over a plain connection.
func TestHeaders_AskForTLSWhereItIs(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) { c.TrustedProxies = []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8")} })
	for _, c := range []struct {
		why, from, proto string
		tls              bool
		want             string
	}{
		{"plain", "192.0.2.9:1", "", false, ""},
		{"a stranger who says so", "192.0.2.9:1", "https", false, ""},
		{"a proxy that says so", "10.1.2.3:1", "https", false, "max-age=63072000"},
		{"a proxy that says plain", "10.1.2.3:1", "http", false, ""},
		{"TLS itself", "192.0.2.9:1", "", true, "max-age=63072000"},
	} {
		for _, at := range []string{"/", "/nowhere", "/api/v1/leads", "/healthz"} {
			req := with(httptest.NewRequest(http.MethodGet, at, nil), "X-Forwarded-Proto", c.proto)
			req.RemoteAddr = c.from
			if c.tls {
				req.TLS = &tls.ConnectionState{}
			}
			if got := r.do(req).Header().Get("Strict-Transport-Security"); got != c.want {
				t.Errorf("%s, %s: %q, want %q", c.why, at, got, c.want)
			}
		}
	}
}

// Only the page itself may be shown in a frame, whoever is configured.
func TestHeaders_FrameNothingButThePage(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) { c.FrameAncestors = []string{"https://builder.example"} })
	for _, at := range reached(t, r) {
		h := r.get(at).Header()
		framed := strings.HasSuffix(h.Get("Content-Security-Policy"), "frame-ancestors https://builder.example")
		alone := strings.HasSuffix(h.Get("Content-Security-Policy"), "frame-ancestors 'none'") && h.Get("X-Frame-Options") == "DENY"
		if (at == "/") != framed || framed == alone {
			t.Errorf("%s: %q, %q", at, h.Get("Content-Security-Policy"), h.Get("X-Frame-Options"))
		}
	}
}
