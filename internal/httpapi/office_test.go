package httpapi_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

// rooms is an office that answers with the path, open or not.
type rooms bool

func (o rooms) Open(context.Context) bool { return bool(o) }

func (o rooms) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	_, _ = w.Write([]byte("office " + r.URL.Path))
}

func withOffice(o httpapi.Office) func(*httpapi.Config) {
	return func(c *httpapi.Config) { c.Office = o }
}

func TestOffice_IsThereOnceItIsOpen(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		office httpapi.Office
		want   int
	}{{nil, http.StatusNotFound}, {rooms(false), http.StatusNotFound}, {rooms(true), http.StatusOK}} {
		for _, path := range []string{"/office/", "/office/sign-in", "/office/leads/FP-00000A"} {
			if w := setUp(t, withOffice(c.office)).get(path); w.Code != c.want {
				t.Errorf("%v %s: %d, want %d", c.office, path, w.Code, c.want)
			}
		}
	}
}

// A form that another site sends with a person's browser is not taken.
func TestOffice_RefusesFormsOfOtherSites(t *testing.T) {
	t.Parallel()
	r := setUp(t, withOffice(rooms(true)), func(c *httpapi.Config) { c.IntakeOrigins = []string{"https://pond.builder.example"} })
	post := func(headers ...string) int {
		req := httptest.NewRequest(http.MethodPost, "https://check.example/office/leads/FP-00000A/delete", nil)
		return r.do(with(req, headers...)).Code
	}
	for _, h := range [][]string{{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "https://evil.example"}, {"Origin", "null"},
		{"Origin", "https://pond.builder.example", "Sec-Fetch-Site", "cross-site"}} {
		if got := post(h...); got != http.StatusForbidden {
			t.Errorf("%v: %d", h, got)
		}
	}
	if got := post("Sec-Fetch-Site", "same-origin", "Origin", "https://check.example"); got != http.StatusOK {
		t.Errorf("its own form: %d", got)
	}
}

// Who tries passwords or invitations from one address has to slow down; others
// do not, and looking is free.
func TestOffice_SlowsDownWhoTriesPasswords(t *testing.T) {
	t.Parallel()
	r := setUp(t, withOffice(rooms(true)))
	post := func(path, from string) *httptest.ResponseRecorder {
		req := httptest.NewRequest(http.MethodPost, path, strings.NewReader(""))
		req.RemoteAddr = from
		return r.do(req)
	}
	refused := 0
	for n := range 40 {
		path := "/office/sign-in"
		if n%2 == 1 {
			path = fmt.Sprintf("/office/join/token-%d", n)
		}
		if w := post(path, "203.0.113.7:1000"); w.Code == http.StatusTooManyRequests {
			if refused++; w.Header().Get("Retry-After") == "" {
				t.Error("nothing says when to come back")
			}
		}
	}
	if refused != 28 {
		t.Errorf("%d of 40 tries were refused, want all but 12", refused)
	}
	if w := post("/office/sign-in", "203.0.113.8:1000"); w.Code != http.StatusOK {
		t.Errorf("from another address: %d", w.Code)
	}
	if w := r.get("/office/sign-in"); w.Code != http.StatusOK {
		t.Errorf("looking: %d", w.Code)
	}
}
