package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

const exported = "https://pond.builder.example"

func withIntake(c *httpapi.Config) { c.IntakeOrigins = []string{exported} }

// An exported page asks before it sends, and the answer names it alone.
func TestIntake_OpensToConfiguredOriginsOnly(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, origin, allowed string
		status               int // of the enquiry itself
	}{
		{"the exported page", exported, exported, 201},
		{"another site", "https://other.example", "", 403},
		{"a name that begins the same", exported + ".evil.example", "", 403},
		{"the same name without a lock", "http://pond.builder.example", "", 403},
		{"another port", exported + ":8443", "", 403},
		{"a frame without an origin", "null", "", 403},
	} {
		r := setUp(t, withIntake)
		ask := r.do(with(httptest.NewRequest(http.MethodOptions, "/api/v1/leads", nil), "Origin", c.origin,
			"Access-Control-Request-Method", "POST", "Access-Control-Request-Headers", "content-type,idempotency-key"))
		h := ask.Header()
		if ask.Code != http.StatusNoContent || h.Get("Access-Control-Allow-Origin") != c.allowed || h.Get("Vary") != "Origin" ||
			(h.Get("Access-Control-Allow-Headers") != "") != (c.allowed != "") || h.Get("Access-Control-Allow-Credentials") != "" {
			t.Errorf("%s: asked, got %d %v", c.why, ask.Code, h)
		}
		w := r.do(post(body(t, enquiry()), "Origin", c.origin, "Sec-Fetch-Site", "cross-site"))
		if w.Code != c.status || w.Header().Get("Access-Control-Allow-Origin") != c.allowed {
			t.Errorf("%s: %d %v %s", c.why, w.Code, w.Header(), w.Body)
		}
		if n := len(stored(t, r.store)); (n == 1) != (c.status == 201) {
			t.Errorf("%s: %d enquiries stored", c.why, n)
		}
	}
}

// The door is for the enquiry's own address: nothing else opens with it.
func TestIntake_OpensNoOtherAddress(t *testing.T) {
	t.Parallel()
	r := setUp(t, withIntake)
	form := form(typed())
	if w := r.do(with(form, "Origin", exported, "Sec-Fetch-Site", "cross-site")); w.Code != http.StatusForbidden {
		t.Errorf("a form of the exported page's site: %d", w.Code)
	}
	for _, path := range []string{"/", "/lead", "/readyz", "/api/v1/leads/AR-7F3K2Q"} {
		if got := r.get(path, "Origin", exported).Header().Get("Access-Control-Allow-Origin"); got != "" {
			t.Errorf("%s may be read by %s", path, got)
		}
	}
	shut := setUp(t)
	if w := shut.do(post(body(t, enquiry()), "Origin", exported, "Sec-Fetch-Site", "cross-site")); w.Code != http.StatusForbidden || strings.Contains(w.Header().Get("Vary"), "Origin") {
		t.Errorf("nothing configured: %d %v", w.Code, w.Header())
	}
}
