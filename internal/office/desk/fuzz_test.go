package desk_test

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
)

// Whatever a form or an address of the office says, the answer is a page or a
// way to one, and no markup gets through.
func FuzzOffice_NeverBreaks(f *testing.F) {
	f.Add("status=new&who=-&from=2026-11-01&until=2026-11-30&aside=1&page=2&words=1", "words=Canarywell&status=%00&who=9999999999999999999999", "V2hv")
	f.Add("page=99999999999&from=2026-13-40&status=%3Cscript%3E", "note=%FF%FE&version=-1&who=%3Cscript%3E", "%%%")
	f.Add("", "words=x", "ZmlyczsiLDw+")
	f.Add("", "status=won&who=&version=abc&text="+strings.Repeat("x", 5000), "")
	r := setUp(f)
	r.filled()
	r.joined()
	f.Fuzz(func(t *testing.T, query, form, cookie string) {
		r.t = t
		v, err := url.ParseQuery(form)
		if err != nil {
			v = url.Values{"words": {form}}
		}
		v.Set("form", r.form)
		u := url.URL{RawQuery: query}
		if _, err := url.Parse("http://x/?" + query); err != nil || strings.ContainsAny(query, " \r\n") {
			u.RawQuery = url.QueryEscape(query)
		}
		for _, c := range [][2]string{{http.MethodGet, "/office/?" + u.RawQuery}, {http.MethodPost, "/office/find"}, {http.MethodPost, "/office/leads/" + first + "/handling"}, {http.MethodPost, "/office/leads/" + first + "/note"}} {
			w := r.do(c[0], c[1], v, "Cookie", "__Host-tarnwright-find="+cookie+"; __Host-tarnwright-lang="+cookie+"; __Host-tarnwright-to="+cookie)
			if w.Code >= 500 || strings.Contains(w.Body.String(), "<script") {
				t.Fatalf("%s %s with %q: %d %s", c[0], c[1], form, w.Code, w.Body)
			}
		}
		// With a session that nobody has, nothing is shown.
		session := http.Header{"Cookie": {"__Host-tarnwright-office=" + cookie}}
		req := httptest.NewRequest(http.MethodGet, "/office/leads/"+first, nil)
		req.Host, req.Header = r.host, session
		w := httptest.NewRecorder()
		r.ServeHTTP(w, req)
		if to := w.Header().Get("Location"); w.Code != http.StatusSeeOther || to != "/office/sign-in" {
			t.Fatalf("the session %q: %d to %q", cookie, w.Code, to)
		}
	})
}
