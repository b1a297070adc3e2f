package httpapi_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

func answer(t *testing.T, raw []byte) wire.LeadAnswer {
	t.Helper()
	var a wire.LeadAnswer
	if err := json.Unmarshal(raw, &a); err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	return a
}

func TestPostLead_StoresOnceAndRepeatsTheFirstAnswer(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	w := r.do(post(body(t, enquiry())))
	first := answer(t, w.Body.Bytes())
	if _, err := lead.ReadReference("AR", first.Reference); w.Code != http.StatusCreated || err != nil || first.Received != "2026-11-25T16:00:00Z" || first.Differs {
		t.Fatalf("%d %+v, %v", w.Code, first, err)
	}
	w = r.do(post(body(t, enquiry())))
	if again := answer(t, w.Body.Bytes()); w.Code != http.StatusOK || again != first {
		t.Errorf("the repeat: %d %+v, want 200 %+v", w.Code, again, first)
	}
	other := enquiry()
	other.Contact.Note = "Something else."
	w = r.do(post(body(t, other)))
	if p := problem(t, w); w.Code != http.StatusUnprocessableEntity || p.Type != "urn:tarnwright:problem:key_reused" {
		t.Errorf("other content under the key: %d %+v", w.Code, p)
	}
	leads := stored(t, r.store)
	if len(leads) != 1 || leads[0].Contact != enquiry().Contact || leads[0].Consent.Text != "Fernhollow Ponds may reply." || leads[0].Design.Name != "Alder Reach" {
		t.Errorf("stored %+v", leads)
	}
}

// The server works the pond out itself and only notes what the page thought.
func TestPostLead_RecomputesTheSheet(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	e := enquiry()
	e.Figures = []lead.Figure{{ID: "pond.length", Value: "11"}, {ID: "invented", Value: "1"}}
	w := r.do(post(body(t, e)))
	if a := answer(t, w.Body.Bytes()); w.Code != http.StatusCreated || !a.Differs {
		t.Errorf("%d %+v, want a noted difference", w.Code, a)
	}
	l := stored(t, r.store)[0]
	if len(l.Differences) != 2 || l.Differences[0] != (lead.Difference{ID: "pond.length", Client: "11", Server: "10"}) {
		t.Errorf("differences %+v", l.Differences)
	}
	var sh struct {
		Caution string `json:"caution"`
		Figures []struct {
			ID    string  `json:"id"`
			Value float64 `json:"value"`
		} `json:"figures"`
	}
	if err := json.Unmarshal(l.SheetJSON, &sh); err != nil || len(sh.Figures) != 1 || sh.Figures[0].Value != 10 || sh.Caution != "words of page.rough" || l.CoreVersion != 1 || l.Book != "demo/1" {
		t.Errorf("sheet %s, core %d, book %q, %v", l.SheetJSON, l.CoreVersion, l.Book, err)
	}
}

func TestPostLead_ListsEveryFaultWithItsPointer(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	e := enquiry()
	e.Contact = lead.Contact{Email: "maren@oakesmail", Phone: "12"}
	e.Consent.Text = ""
	e.Design.Bowl.DeepM = 60
	e.Design.Running.Spans = []design.Span{{From: "02-30", To: "03-01"}}
	w := r.do(post(body(t, e)))
	p := problem(t, w)
	var got []string
	for _, x := range p.Errors {
		got = append(got, x.Pointer+" "+x.Code)
		if x.Detail == "" {
			t.Errorf("%s has no words", x.Pointer)
		}
	}
	want := "/contact/name missing|/contact/phone too_few_digits|/contact/email no_ending|/contact/consent not_agreed|/consent_given/text missing|/design/bowl/deep_m out_of_range|/design/running/spans/0/from not_a_day"
	if w.Code != http.StatusUnprocessableEntity || strings.Join(got, "|") != want {
		t.Errorf("%d\n got %s\nwant %s", w.Code, strings.Join(got, "|"), want)
	}
	if p.Errors[2].Detail != "words of contact.email.no_ending" {
		t.Errorf("the email's fault says %q", p.Errors[2].Detail)
	}
	if len(stored(t, r.store)) > 0 {
		t.Error("a faulty enquiry was stored")
	}
}

func TestPostLead_RefusesEachKindOfBadRequest(t *testing.T) {
	t.Parallel()
	good := body(t, enquiry())
	for _, c := range []struct {
		why    string
		data   string
		head   []string
		status int
		code   string
	}{
		{"no key", good, []string{"Idempotency-Key", ""}, 400, "key"},
		{"a bare key", good, []string{"Idempotency-Key", key}, 400, "key"},
		{"a short key", good, []string{"Idempotency-Key", `"short"`}, 400, "key"},
		{"a key with a quote inside", good, []string{"Idempotency-Key", `"0123456789"abcdefgh"`}, 400, "key"},
		{"plain text", good, []string{"Content-Type", "text/plain"}, 415, "not_json"},
		{"a form", good, []string{"Content-Type", "application/x-www-form-urlencoded"}, 415, "not_json"},
		{"no type", good, []string{"Content-Type", ""}, 415, "not_json"},
		{"not JSON", good[:len(good)-1], nil, 400, "faults"},
		{"nothing", "", nil, 400, "faults"},
		{"an unknown key", strings.Replace(good, `"name":"Maren`, `"title":"Dr","name":"Maren`, 1), nil, 422, "faults"},
		{"a later schema", strings.Replace(good, `"schema_version":1`, `"schema_version":2`, 1), nil, 422, "faults"},
		{"too much", strings.Replace(good, "Slopes", strings.Repeat("x", 300_000), 1), nil, 413, "too_big"},
		{"another site's script", good, []string{"Sec-Fetch-Site", "cross-site"}, 403, "other_site"},
		{"another site's form", good, []string{"Origin", "https://elsewhere.example"}, 403, "other_site"},
	} {
		r := setUp(t)
		w := r.do(post(c.data, c.head...))
		if p := problem(t, w); w.Code != c.status || p.Type != "urn:tarnwright:problem:"+c.code {
			t.Errorf("%s: %d %s, want %d %s", c.why, w.Code, p.Type, c.status, c.code)
		}
		if len(stored(t, r.store)) > 0 {
			t.Errorf("%s: something was stored", c.why)
		}
	}
}

func TestPostLead_AcceptsAnEscapedKeyAndACharset(t *testing.T) {
	t.Parallel()
	r := setUp(t)
	w := r.do(post(body(t, enquiry()), "Idempotency-Key", ` "a-\"quoted\"-\\key-of-length" `, "Content-Type", "application/json; charset=utf-8"))
	if w.Code != http.StatusCreated || stored(t, r.store)[0].Key != `a-"quoted"-\key-of-length` {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

func TestPostLead_SlowsDownWhoAsksTooOften(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) {
		c.Limits = httpapi.Limits{LeadsPerMinute: 6, LeadBurst: 2, ChecksPerMinute: 6, CheckBurst: 2}
	})
	send := func(address string, n int) int {
		req := post(body(t, enquiry()), "Idempotency-Key", fmt.Sprintf(`"key-of-sixteen-letters-%d"`, n))
		req.RemoteAddr = address
		w := r.do(req)
		if w.Code == http.StatusTooManyRequests {
			if problem(t, w); w.Header().Get("Retry-After") != "11" {
				t.Errorf("Retry-After %q, want 11", w.Header().Get("Retry-After"))
			}
		}
		return w.Code
	}
	for i, c := range []struct {
		address string
		status  int
	}{
		{"192.0.2.1:1000", 201}, {"192.0.2.1:2000", 201}, {"192.0.2.1:3000", 429}, {"192.0.2.2:1", 201},
		{"[2001:db8:1:2::1]:1", 201}, {"[2001:db8:1:2:ffff::9]:1", 201}, {"[2001:db8:1:2::77]:1", 429}, {"[2001:db8:1:3::1]:1", 201},
		{"[::ffff:192.0.2.1]:9", 429},
	} {
		if got := send(c.address, i); got != c.status {
			t.Errorf("request %d from %s: %d, want %d", i, c.address, got, c.status)
		}
	}
}

func TestPostLead_BelievesOnlyAConfiguredProxy(t *testing.T) {
	t.Parallel()
	limit := func(c *httpapi.Config) {
		c.Limits = httpapi.Limits{LeadsPerMinute: 1, LeadBurst: 1, ChecksPerMinute: 60, CheckBurst: 9}
	}
	send := func(r *rig, n int, peer, forwarded string) int {
		req := post(body(t, enquiry()), "Idempotency-Key", fmt.Sprintf(`"key-of-sixteen-letters-%d"`, n), "X-Forwarded-For", forwarded)
		req.RemoteAddr = peer
		return r.do(req).Code
	}
	plain := setUp(t, limit)
	if a, b := send(plain, 1, "192.0.2.1:1", "203.0.113.1"), send(plain, 2, "192.0.2.1:1", "203.0.113.2"); a != 201 || b != 429 {
		t.Errorf("a forged header gave another bucket: %d, %d", a, b)
	}
	behind := setUp(t, limit, func(c *httpapi.Config) { c.TrustedProxies = proxies() })
	if a, b := send(behind, 1, "10.0.0.9:1", "203.0.113.1"), send(behind, 2, "10.0.0.9:1", "203.0.113.2"); a != 201 || b != 201 {
		t.Errorf("two people behind the proxy share a bucket: %d, %d", a, b)
	}
	if c := send(behind, 3, "10.0.0.9:1", "198.51.100.7, 203.0.113.1, 10.0.0.8"); c != 429 {
		t.Errorf("a forged first hop gave another bucket: %d", c)
	}
}

// held is a store whose Put waits until it is let go.
type held struct {
	lead.Store
	began, let chan struct{}
}

func (h *held) Put(ctx context.Context, l lead.Lead) (lead.Lead, bool, error) {
	h.began <- struct{}{}
	<-h.let
	return h.Store.Put(ctx, l)
}

func TestPostLead_SaysConflictWhileTheFirstRuns(t *testing.T) {
	t.Parallel()
	h := &held{began: make(chan struct{}), let: make(chan struct{})}
	r := setUp(t, func(c *httpapi.Config) { h.Store = c.Desk.Store; c.Desk.Store = h })
	done := make(chan int)
	go func() { done <- r.do(post(body(t, enquiry()))).Code }()
	<-h.began
	w := r.do(post(body(t, enquiry())))
	if p := problem(t, w); w.Code != http.StatusConflict || p.Type != "urn:tarnwright:problem:in_flight" || w.Header().Get("Retry-After") != "1" {
		t.Errorf("%d %+v", w.Code, p)
	}
	close(h.let)
	if first := <-done; first != http.StatusCreated {
		t.Errorf("the first got %d", first)
	}
	go func() { <-h.began }()
	if w := r.do(post(body(t, enquiry()))); w.Code != http.StatusOK {
		t.Errorf("after it: %d", w.Code)
	}
}

// failing is a store that cannot.
type failing struct {
	lead.Store
	err error
}

func (f failing) Put(context.Context, lead.Lead) (lead.Lead, bool, error) {
	return lead.Lead{}, false, f.err
}

func (f failing) Ready(context.Context) error { return f.err }

func TestPostLead_TellsBusyFromBrokenAndGivesNothingAway(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		err    error
		status int
		typ    string
	}{
		{fmt.Errorf("%w: the lock", lead.ErrBusy), 503, "urn:tarnwright:problem:busy"},
		{errors.New("table leads is gone"), 500, "about:blank"},
	} {
		r := setUp(t, func(cfg *httpapi.Config) { cfg.Desk.Store = failing{cfg.Desk.Store, c.err} })
		w := r.do(post(body(t, enquiry())))
		p := problem(t, w)
		if w.Code != c.status || p.Type != c.typ || strings.Contains(w.Body.String(), "leads is gone") {
			t.Errorf("%v: %d %+v", c.err, w.Code, p)
		}
		if id := strings.TrimPrefix(p.Instance, "urn:request:"); !strings.Contains(r.log.String(), id) || !strings.Contains(r.log.String(), c.err.Error()) {
			t.Errorf("the log does not tie %s to %v:\n%s", id, c.err, r.log)
		}
		if w := r.get("/readyz"); w.Code != http.StatusServiceUnavailable {
			t.Errorf("ready says %d", w.Code)
		}
		if w := r.get("/healthz"); w.Code != http.StatusOK {
			t.Errorf("healthy says %d", w.Code)
		}
	}
}

func TestPostLead_SurvivesAPanicInTheCalculation(t *testing.T) {
	t.Parallel()
	r := setUp(t, func(c *httpapi.Config) {
		c.Compute = func(d design.Design) *sheet.Sheet { panic("design of Maren Oakes, maren@oakesmail.example") }
	})
	w := r.do(post(body(t, enquiry())))
	if problem(t, w); w.Code != http.StatusInternalServerError {
		t.Errorf("status %d", w.Code)
	}
	if log := r.log.String(); !strings.Contains(log, "panicked") || !strings.Contains(log, "leads_test.go") || strings.Contains(log, "Maren") {
		t.Errorf("log:\n%s", log)
	}
	// The key is free again.
	if w := r.do(post(body(t, enquiry()))); w.Code != http.StatusInternalServerError {
		t.Errorf("the second try: %d, want another 500 and not a conflict", w.Code)
	}
}
