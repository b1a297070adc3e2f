package desk_test

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/office"
	"tarnwright/internal/office/desk"
	"tarnwright/internal/say"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/ui/page"
	"tarnwright/internal/wire"
)

const (
	anna   = "anna@fernhollow.example"
	words  = "four herons by the weir"
	first  = "FP-00000A" // an enquiry
	second = "FP-00000B" // one that was put aside
	who    = "Odalys Canarywell"
)

// rig is an office over a database of its own, with a time that a test moves.
type rig struct {
	*desk.Desk
	t     testing.TB
	store *sqlite.Store
	door  office.Door
	log   *journal
	at    time.Time
	host  string
	jar   map[string]*http.Cookie
	form  string // of the page that was last shown
}

type journal struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

func (j *journal) Write(b []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.buf.Write(b)
}

func (j *journal) String() string { j.mu.Lock(); defer j.mu.Unlock(); return j.buf.String() }

func own(language string) desk.Own {
	w := say.English()
	if language == "es" {
		w = say.Spanish()
	}
	return desk.Own{Book: book.Demo(), Defaults: form.Demo(), Kit: page.Kit{Words: w, Project: "Alder Reach"}}
}

func setUp(t testing.TB) *rig {
	t.Helper()
	store, err := sqlite.Open(context.Background(), filepath.Join(t.TempDir(), "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = store.Close() })
	r := &rig{t: t, store: store, log: &journal{}, at: time.Date(2026, 11, 30, 7, 30, 0, 0, time.UTC), host: "check.fernhollow.example", jar: map[string]*http.Cookie{}}
	now := func() time.Time { return r.at }
	r.door = office.Door{Store: store, Now: now}
	r.Desk, err = desk.New(desk.Config{
		Site: "main", Door: r.door, Inbox: store, Outbox: store, In: own, Languages: []string{"en", "es"}, Styles: []byte("body{}"),
		Icon: desk.Picture{Type: "image/svg+xml", Data: []byte("<svg/>")}, Now: now, Log: slog.New(slog.NewJSONHandler(r.log, nil)),
	})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// filled puts two enquiries in, the second one aside.
func (r *rig) filled() {
	r.t.Helper()
	d, _ := form.New(form.Demo()).Design()
	sh := core.Compute(d, book.Demo())
	raw, err := wire.SheetJSON(sh, "", nil)
	if err != nil {
		r.t.Fatal(err)
	}
	for n, ref := range []string{first, second} {
		l := lead.Lead{Key: fmt.Sprintf("key-of-enquiry-number-%d", n), Digest: "d", Reference: ref, Received: r.at.Add(-time.Hour), Design: d, SheetJSON: raw,
			CoreVersion: sh.CoreVersion, Book: sh.Book, Contact: lead.Contact{Name: who, Email: "odalys@canarywell.example", Phone: "+1 555 0142", Note: "<script>alert(1)</script>", Consent: true},
			Consent: lead.Consent{Text: "You may reply.", Language: "en", Channel: "page"}}
		if ref == second {
			l.Quarantine, l.Contact.Name = "trap, something_new", "Cheap Meds"
		}
		if _, _, err := r.store.Put(context.Background(), l); err != nil {
			r.t.Fatal(err)
		}
	}
}

// do sends a request with the cookies that were given, and keeps new ones.
func (r *rig) do(method, path string, f url.Values, headers ...string) *httptest.ResponseRecorder {
	r.t.Helper()
	req := httptest.NewRequest(method, path, strings.NewReader(f.Encode()))
	req.Host = r.host
	if method == http.MethodPost {
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	for _, c := range r.jar {
		req.AddCookie(&http.Cookie{Name: c.Name, Value: c.Value})
	}
	w := httptest.NewRecorder()
	r.ServeHTTP(w, req)
	for _, c := range w.Result().Cookies() {
		if r.jar[c.Name] = c; c.MaxAge < 0 {
			delete(r.jar, c.Name)
		}
	}
	if m := regexp.MustCompile(`name="form" value="([^"]+)"`).FindStringSubmatch(w.Body.String()); m != nil {
		r.form = m[1]
	}
	return w
}

func (r *rig) get(path string, headers ...string) *httptest.ResponseRecorder {
	r.t.Helper()
	return r.do(http.MethodGet, path, nil, headers...)
}

// post sends a form with the proof of the page last shown.
func (r *rig) post(path string, pairs ...string) *httptest.ResponseRecorder {
	r.t.Helper()
	f := url.Values{"form": {r.form}}
	for i := 0; i < len(pairs); i += 2 {
		f.Set(pairs[i], pairs[i+1])
	}
	return r.do(http.MethodPost, path, f)
}

// joined has Anna in, by an invitation.
func (r *rig) joined() {
	r.t.Helper()
	token, _, err := r.door.Invite(context.Background(), anna)
	if err != nil {
		r.t.Fatal(err)
	}
	r.get("/office/join/" + token)
	if w := r.post("/office/join/"+token, "password", words, "again", words); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/office/" {
		r.t.Fatalf("joining: %d, %s", w.Code, w.Body)
	}
	r.get("/office/") // for its form
}

func (r *rig) lead(ref string) lead.Case {
	r.t.Helper()
	c, err := r.store.Case(context.Background(), ref)
	if err != nil {
		r.t.Fatal(err)
	}
	return c
}

// says fails when a page lacks a text.
func says(t *testing.T, w *httptest.ResponseRecorder, status int, texts ...string) {
	t.Helper()
	if w.Code != status {
		t.Errorf("status %d, want %d", w.Code, status)
	}
	for _, text := range texts {
		if !strings.Contains(w.Body.String(), text) {
			t.Errorf("the page does not say %q", text)
		}
	}
}
