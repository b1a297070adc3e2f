package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"tarnwright/internal/httpapi"
)

func TestFront_ChoosesTheSiteByItsName(t *testing.T) {
	t.Parallel()
	one, two := setUp(t), setUp(t)
	one.Drain() // so that the readiness tells the two apart
	for _, c := range []struct {
		why, host, path string
		rest            bool // the second site takes every other name
		want            int
	}{
		{"its own name", "check.fernhollow.example", "/readyz", false, http.StatusServiceUnavailable},
		{"the other's name", "ponds.oakhill.example", "/readyz", false, http.StatusOK},
		{"with a port", "ponds.oakhill.example:8443", "/readyz", false, http.StatusOK},
		{"in capitals", "PONDS.OakHill.example", "/readyz", false, http.StatusOK},
		{"with the dot of the root", "ponds.oakhill.example.", "/readyz", false, http.StatusOK},
		{"with the dot and a port", "ponds.oakhill.example.:8443", "/readyz", false, http.StatusOK},
		{"a name below its own", "a.ponds.oakhill.example", "/", false, http.StatusMisdirectedRequest},
		{"an address", "10.0.0.7:8080", "/", false, http.StatusMisdirectedRequest},
		{"an address of version 6", "[::1]:8080", "/", false, http.StatusMisdirectedRequest},
		{"health by address is the whole's", "10.0.0.7:8080", "/healthz", false, http.StatusOK},
		{"readiness by address is the whole's", "10.0.0.7:8080", "/readyz", false, http.StatusServiceUnavailable},
		{"any name where one site takes the rest", "whoever.example", "/readyz", true, http.StatusOK},
	} {
		sites := []httpapi.Site{{Hosts: []string{"check.fernhollow.example"}, Server: one.Server}, {Hosts: []string{"Ponds.oakhill.example"}, Server: two.Server}}
		if c.rest {
			sites[1].Hosts = nil
		}
		f, err := httpapi.NewFront(sites)
		if err != nil {
			t.Fatal(err)
		}
		req := httptest.NewRequest(http.MethodGet, c.path, nil)
		req.Host = c.host
		w := httptest.NewRecorder()
		f.ServeHTTP(w, req)
		if w.Code != c.want {
			t.Errorf("%s: %d, want %d", c.why, w.Code, c.want)
		}
	}
}

func TestFront_RefusesSitesThatCannotBeToldApart(t *testing.T) {
	t.Parallel()
	s := setUp(t).Server
	for why, sites := range map[string][]httpapi.Site{
		"none":              nil,
		"one name twice":    {{Hosts: []string{"a.example"}, Server: s}, {Hosts: []string{"A.example"}, Server: s}},
		"two without names": {{Server: s}, {Server: s}},
	} {
		if _, err := httpapi.NewFront(sites); err == nil {
			t.Errorf("%s: served", why)
		}
	}
}
