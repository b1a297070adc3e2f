package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
	"tarnwright/internal/wire"
)

func open(c *httpapi.Config) {
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
