package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
	"tarnwright/internal/wire"
)

func open(c *httpapi.Config) {
	c.TrustedProxies = []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8")}
	c.Limits = httpapi.Limits{LeadsPerMinute: 1e9, LeadBurst: 1e9, ChecksPerMinute: 1e9, CheckBurst: 1e9}
}

// Whatever is sent, the server neither breaks nor answers anything but a
// receipt or a problem.
func FuzzPostLead_NeverBreaks(f *testing.F) {
	good, err := wire.WriteLead(enquiry())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good, `"`+key+`"`)
	f.Add([]byte("{"), `"\"`)
	f.Add([]byte(`{"schema_version":1,"contact":null}`), "")
	r := setUp(f, open)
	f.Fuzz(func(t *testing.T, body []byte, key string) {
		w := r.do(post(string(body), "Idempotency-Key", key))
		var any map[string]json.RawMessage
		if w.Code >= 500 || json.Unmarshal(w.Body.Bytes(), &any) != nil {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	})
}

func FuzzPostForm_NeverBreaksNorLetsMarkupThrough(f *testing.F) {
	f.Add("key=0123456789abcdef&name=%3Cscript%3E&consent=1&email=a%40b.example")
	f.Add("%%%;;;=&=&name")
	r := setUp(f, open)
	f.Fuzz(func(t *testing.T, body string) {
		req := httptest.NewRequest(http.MethodPost, "/lead", strings.NewReader(body))
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		w := r.do(req)
		if w.Code >= 500 || strings.Contains(w.Body.String(), "<script>") || strings.Count(w.Body.String(), "<form") > 1 {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
	})
}

// Whatever stands in the headers and in the address, the page is drawn or
// refused, in one of the languages, with its policy.
func FuzzGetPage_NeverBreaks(f *testing.F) {
	f.Add("/?length=36+ft", "es-MX,es;q=0.9", "1.2.3.4, ::1", "gzip;q=0", `"etag"`, "Mobile")
	f.Add("/assets/%2e%2e/x?%%", "*;q=nan,x-y-z;q=1e9", "[::1%eth0]:1,,", "br, *", "W/\"\"", "")
	r := setUp(f, open)
	f.Fuzz(func(t *testing.T, address, language, forwarded, encoding, match, agent string) {
		u, err := url.Parse(address)
		if err != nil {
			return
		}
		req := httptest.NewRequest(http.MethodGet, "/", nil)
		req.URL.Path, req.URL.RawQuery, req.RemoteAddr = "/"+strings.TrimLeft(u.Path, "/"), u.RawQuery, "127.0.0.1:9"
		w := r.do(with(req, "Accept-Language", language, "X-Forwarded-For", forwarded, "Accept-Encoding", encoding, "If-None-Match", match, "User-Agent", agent))
		if w.Code >= 500 || w.Header().Get("Content-Security-Policy") == "" || w.Header().Get("X-Content-Type-Options") != "nosniff" {
			t.Fatalf("%d %v", w.Code, w.Header())
		}
	})
}
