package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/httpapi"
	"tarnwright/internal/toll"
)

// worked does the small work that a page does for an enquiry.
func worked(key string) string {
	for w := toll.For(key); ; {
		if proof, found := w.Try(1 << 10); found {
			return proof
		}
	}
}

// clock is a time that a test moves.
type clock struct {
	mu sync.Mutex
	at time.Time
}

func (c *clock) now() time.Time { c.mu.Lock(); defer c.mu.Unlock(); return c.at }
func (c *clock) pass(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(d)
}

// counts is a watch that keeps what it was told.
type counts struct {
	mu  sync.Mutex
	got []string
}

func (c *counts) Answered(string, int, time.Duration) {}
func (c *counts) Enquiry(outcome string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.got = append(c.got, outcome)
}

func guarded(t *testing.T) (*rig, *clock, *counts) {
	t.Helper()
	c, n := &clock{at: time.Date(2026, 11, 25, 16, 0, 0, 0, time.UTC)}, &counts{}
	return setUp(t, open, func(cfg *httpapi.Config) {
		cfg.FormSecret, cfg.Watch = []byte("a secret of the server's own key"), n
		cfg.Now, cfg.Desk.Now = c.now, c.now
	}), c, n
}

func reasons(t *testing.T, r *rig) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, l := range stored(t, r.store) {
		out[l.Key] = l.Quarantine
	}
	return out
}

// What a program sends is stored and answered like any other; only the office
// sees that it was put aside.
func TestPostLead_PutsAsideWhatDidNoWork(t *testing.T) {
	t.Parallel()
	r, _, n := guarded(t)
	const idle = "a-program-that-does-no-work"
	e := enquiry()
	first := r.do(post(body(t, e), "Idempotency-Key", `"`+idle+`"`))
	e.Work = worked(key)
	second := r.do(post(body(t, e)))
	if first.Code != http.StatusCreated || second.Code != http.StatusCreated {
		t.Fatalf("answered %d and %d", first.Code, second.Code)
	}
	shape := regexp.MustCompile(`AR-[0-9A-Z]+`)
	if a, b := shape.ReplaceAllString(first.Body.String(), "X"), shape.ReplaceAllString(second.Body.String(), "X"); a != b {
		t.Errorf("the answers differ: %s and %s", a, b)
	}
	e.Work, e.Trap = worked("somebody-else's-key-and-work"), ""
	wrong := r.do(post(body(t, e), "Idempotency-Key", `"the-key-that-it-was-not-for"`))
	e.Work, e.Trap = worked("a-program-that-fills-in-all"), "Best prices"
	trapped := r.do(post(body(t, e), "Idempotency-Key", `"a-program-that-fills-in-all"`))
	if wrong.Code != http.StatusCreated || trapped.Code != http.StatusCreated {
		t.Fatalf("answered %d and %d", wrong.Code, trapped.Code)
	}
	want := map[string]string{idle: "no_work", key: "", "the-key-that-it-was-not-for": "no_work", "a-program-that-fills-in-all": "trap"}
	for k, got := range reasons(t, r) {
		if got != want[k] {
			t.Errorf("%s: put aside for %q, want %q", k, got, want[k])
		}
	}
	// The work is no part of the enquiry: a repeat without it is a repeat.
	e.Work, e.Trap = "", ""
	again := r.do(post(body(t, e)))
	if again.Code != http.StatusOK || len(stored(t, r.store)) != 4 {
		t.Errorf("a repeat gives %d and %d leads", again.Code, len(stored(t, r.store)))
	}
	if got := strings.Join(n.got, " "); got != "put_aside stored put_aside put_aside repeated" {
		t.Errorf("counted %s", got)
	}
}

var formKeyIn = regexp.MustCompile(`name="key" value="([^"]+)"`)

func postForm(r *rig, key string, more ...string) *httptest.ResponseRecorder {
	v := url.Values{"name": {"Maren Oakes"}, "email": {"maren@oakesmail.example"}, "consent": {"1"}, "key": {key}}
	for i := 0; i < len(more); i += 2 {
		v.Set(more[i], more[i+1])
	}
	req := httptest.NewRequest(http.MethodPost, "/lead", strings.NewReader(v.Encode()))
	return r.do(with(req, "Content-Type", "application/x-www-form-urlencoded"))
}

func keyOf(t *testing.T, w *httptest.ResponseRecorder) string {
	t.Helper()
	m := formKeyIn.FindStringSubmatch(w.Body.String())
	if m == nil {
		t.Fatalf("no key in %s", w.Body)
	}
	return m[1]
}

// A form without script can do no work; its time tells.
func TestPostForm_PutsAsideWhatNoPersonCanType(t *testing.T) {
	t.Parallel()
	r, c, _ := guarded(t)
	slow, fast, stuffed := keyOf(t, r.get("/")), "", keyOf(t, r.get("/"))
	forged := strings.Replace(keyOf(t, r.get("/")), ".", ".0", 1)
	c.pass(30 * time.Second)
	fast = keyOf(t, r.get("/"))
	c.pass(2 * time.Second)
	const own = "a-key-of-the-program's-own-making"
	for _, k := range []string{slow, fast, forged, own} {
		if w := postForm(r, k); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "sent AR-") {
			t.Errorf("%s: %d %s", k, w.Code, w.Body)
		}
	}
	if w := postForm(r, stuffed, toll.TrapField, "x"); !strings.Contains(w.Body.String(), "sent AR-") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	got := reasons(t, r)
	for k, want := range map[string]string{slow: "", fast: "too_fast", forged: "not_our_form", own: "not_our_form", stuffed: "trap"} {
		if reason, ok := got[k]; !ok || reason != want {
			t.Errorf("%s: put aside for %q, want %q", k, reason, want)
		}
	}
}

// Who changes something and sends the form again has had the time to type.
func TestPostForm_KeepsItsTimeWhenItIsShownAgain(t *testing.T) {
	t.Parallel()
	r, c, _ := guarded(t)
	first := keyOf(t, r.get("/"))
	c.pass(time.Minute)
	postForm(r, first)
	again := postForm(r, first, "note", "one more thing")
	next := keyOf(t, again)
	if !strings.Contains(again.Body.String(), "trouble already_sent") || next == first {
		t.Fatalf("%d %s", again.Code, again.Body)
	}
	c.pass(time.Second)
	postForm(r, next, "note", "one more thing")
	if got, ok := reasons(t, r)[next]; !ok || got != "" {
		t.Errorf("put aside for %q", got)
	}
	faulty := postForm(r, keyOf(t, r.get("/")), "email", "no-at")
	if faulty.Code != http.StatusUnprocessableEntity || keyOf(t, faulty) == "" {
		t.Errorf("a fault gives %d", faulty.Code)
	}
}

// A thousand posts of four simple kinds of program and fifty people: no person is
// put aside or refused, and fewer than one post in a thousand gets through.
func TestSieve_LetsPeopleThroughAndFewPrograms(t *testing.T) {
	t.Parallel()
	r, c, n := guarded(t)
	const people, programs = 50, 1000
	for i := range people {
		k := keyOf(t, r.get("/"))
		c.pass(time.Duration(20+i) * time.Second)
		if w := postForm(r, k, "note", "We like https://ponds.example/one"); !strings.Contains(w.Body.String(), "sent AR-") {
			t.Fatalf("a person was answered %d %s", w.Code, w.Body)
		}
	}
	for i, got := range n.got {
		if got != "stored" {
			t.Errorf("person %d: %s", i, got)
		}
	}
	through := 0
	for i := range programs {
		n.got = nil
		k := keyOf(t, r.get("/"))
		switch i % 4 {
		case 0: // posts at once
			postForm(r, k)
		case 1: // fills in every field
			c.pass(10 * time.Second)
			postForm(r, k, toll.TrapField, "http://spam.example")
		case 2: // makes the key up
			postForm(r, k+"0")
		default: // speaks JSON
			e := enquiry()
			e.Work = "12345"
			r.do(post(body(t, e), "Idempotency-Key", `"`+k+`"`))
		}
		if len(n.got) != 1 || n.got[0] != "put_aside" {
			through++
		}
	}
	if through*1000 >= programs {
		t.Errorf("%d of %d posts of programs got through", through, programs)
	}
}
