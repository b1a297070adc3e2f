package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// otherBook is the demo's folder in another builder's name.
func otherBook(t *testing.T, name, short string) string {
	t.Helper()
	const from = "../../internal/book/demo"
	dir := t.TempDir()
	entries, err := os.ReadDir(from)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		raw, err := os.ReadFile(filepath.Join(from, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if e.Name() == "builder.json" {
			raw = bytes.ReplaceAll(raw, []byte("Fernhollow Ponds"), []byte(name))
			raw = bytes.ReplaceAll(raw, []byte(`"short": "Fernhollow"`), []byte(`"short": "`+short+`"`))
		}
		if err := os.WriteFile(filepath.Join(dir, e.Name()), raw, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// under asks the server by one of its names.
func under(t *testing.T, at, host, method, path, origin string, body []byte, key string) (*http.Response, string) {
	t.Helper()
	req, err := http.NewRequest(method, "http://"+at+path, bytes.NewReader(body)) //nolint:noctx // a test against its own server
	if err != nil {
		t.Fatal(err)
	}
	req.Host = host
	if origin != "" {
		req.Header.Set("Origin", origin)
	}
	if body != nil {
		req.Header.Set("Content-Type", "application/json")
		req.Header.Set("Idempotency-Key", `"`+key+`"`)
	}
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = res.Body.Close() }()
	raw, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	return res, string(raw)
}

// house is one builder's site in the test of two.
type house struct {
	id, host, framer, exported, name string
	office                           *crm
	reference                        string
}

func (h house) table(book string) string {
	text := fmt.Sprintf("[site.%s]\nhosts = [%q]\nframe_ancestors = [%q]\nintake_origins = [%q]\nwebhook = %q\nwebhook_secret = %q\nwebhook_networks = [\"127.0.0.0/8\"]\n",
		h.id, h.host, h.framer, h.exported, h.office.URL, hookSecret)
	if book != "" {
		text += fmt.Sprintf("book = %q\n", book)
	}
	return text
}

// sent sends an enquiry to a house.
func (h house) sent(t *testing.T, at string, d design.Design, key string) (*http.Response, string) {
	t.Helper()
	s := &senders{t: t, design: d}
	return under(t, at, h.host, http.MethodPost, "/api/v1/leads", h.exported, s.body(key), key)
}

// Two builders on one server: names, books, frames, origins, enquiries, keys,
// offices to tell, lists and deletions are each one's own, and a backup holds
// both.
func TestServe_KeepsTwoSitesApart(t *testing.T) {
	t.Parallel()
	d, _ := demoDesign(t)
	houses := []house{
		{id: "main", host: "check.fernhollow.example", framer: "https://fernhollow.example", exported: "https://www.fernhollow.example", name: "Fernhollow Ponds", office: newCRM(t)},
		{id: "oakhill", host: "ponds.oakhill.example", framer: "https://oakhill.example", exported: "https://www.oakhill.example", name: "Oakhill Water Gardens", office: newCRM(t)},
	}
	data := t.TempDir()
	file := settingsFile(t, fmt.Sprintf("addr = \"127.0.0.1:0\"\ndata = %q\nmetrics_addr = \"127.0.0.1:0\"\n", data)+
		houses[0].table("")+houses[1].table(otherBook(t, "Oakhill Water Gardens", "Oakhill")))
	v := &victim{t: t, bin: build(t), data: data, proxy: newLossy(t, 0)}
	v.startWith("serve", "-settings", file)
	at := v.proxy.l.Addr().String()
	const key = "the-one-key-that-both-senders-made"
	for i := range houses {
		h, other := &houses[i], houses[1-i]
		res, page := under(t, at, h.host+":8080", http.MethodGet, "/", "", nil, "")
		policy := res.Header.Get("Content-Security-Policy")
		if !strings.Contains(page, h.name) || strings.Contains(page, other.name) || !strings.Contains(policy, h.framer) || strings.Contains(policy, other.framer) {
			t.Errorf("%s shows another's page or lets another frame it: %s", h.host, policy)
		}
		res, text := h.sent(t, at, d, key)
		var answer wire.LeadAnswer
		if err := json.Unmarshal([]byte(text), &answer); err != nil || res.StatusCode != http.StatusCreated || res.Header.Get("Access-Control-Allow-Origin") != h.exported {
			t.Fatalf("%s answers %d, lets %q read: %s", h.host, res.StatusCode, res.Header.Get("Access-Control-Allow-Origin"), text)
		}
		h.reference = answer.Reference
		if _, err := lead.ReadReference(lead.Prefix(h.name), h.reference); err != nil {
			t.Errorf("%s gives the reference %s", h.host, h.reference)
		}
		stranger := *h
		stranger.exported = other.exported
		if res, text := stranger.sent(t, at, d, key+"-2"); res.StatusCode < 400 || res.Header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s takes what the other's page sends: %d %s", h.host, res.StatusCode, text)
		}
	}
	if res, _ := under(t, at, "somebody.example", http.MethodGet, "/", "", nil, ""); res.StatusCode != http.StatusMisdirectedRequest {
		t.Errorf("a name of nobody's answers %d", res.StatusCode)
	}
	for _, path := range []string{"/healthz", "/readyz"} {
		if res, text := under(t, at, "10.0.0.7:8080", http.MethodGet, path, "", nil, ""); res.StatusCode != http.StatusOK {
			t.Errorf("%s by address answers %d %s", path, res.StatusCode, text)
		}
	}
	for _, h := range houses {
		eventually(t, "the telling of "+h.id, func() bool {
			h.office.mu.Lock()
			defer h.office.mu.Unlock()
			return len(h.office.told) > 0
		})
		h.office.mu.Lock()
		if h.office.told["msg_lead_created_"+h.reference] == 0 || len(h.office.told) != 1 {
			t.Errorf("%s was told %v, want %s only", h.id, h.office.told, h.reference)
		}
		h.office.mu.Unlock()
	}
	v.stop()
	backUpBoth(t, file, data, houses)
}

// backUpBoth holds lists, a backup and a deletion against what was sent.
func backUpBoth(t *testing.T, file, data string, houses []house) {
	t.Helper()
	lists := func(flags ...string) {
		t.Helper()
		for i, h := range houses {
			_, list, _ := call(append([]string{"leads", "-site", h.id}, flags...)...)
			if strings.Count(list, "\n") != 2 || !strings.Contains(list, h.reference) || strings.Contains(list, houses[1-i].reference) {
				t.Errorf("the list of %s:\n%s", h.id, list)
			}
		}
	}
	lists("-data", data)
	copyAt, back := filepath.Join(t.TempDir(), "monday.db"), filepath.Join(t.TempDir(), "new")
	if code, out, errs := call("backup", "-settings", file, copyAt); code != 0 || !strings.Contains(out, "2 enquiries") {
		t.Fatalf("backup: %d %s %s", code, out, errs)
	}
	if code, out, errs := call("restore", "-settings", file, "-data", back, copyAt); code != 0 || !strings.Contains(out, "2 enquiries") {
		t.Fatalf("restore: %d %s %s", code, out, errs)
	}
	lists("-data", back)
	for _, name := range []string{"seal-key.pem", "seal-key-oakhill.pem"} {
		was, err1 := os.ReadFile(filepath.Join(data, name))
		is, err2 := os.ReadFile(filepath.Join(back, name))
		if err1 != nil || err2 != nil || !bytes.Equal(was, is) {
			t.Errorf("the key %s did not come back: %v, %v", name, err1, err2)
		}
	}
	if code, _, errs := call("delete", "-data", back, "-site", "oakhill", houses[0].reference); code != 1 || !strings.Contains(errs, "no such enquiry") {
		t.Errorf("deleting the other's: %d %s", code, errs)
	}
	if code, out, errs := call("delete", "-data", back, "-site=oakhill", strings.ToLower(houses[1].reference)); code != 0 || !strings.Contains(out, "is deleted") {
		t.Errorf("delete: %d %s %s", code, out, errs)
	}
	if _, list, _ := call("leads", "-data", back, "-site", "oakhill"); strings.Contains(list, houses[1].reference) {
		t.Errorf("it is listed still:\n%s", list)
	}
	if code, out, errs := call("purge", "-data", back); code != 0 || !strings.HasPrefix(out, "0 enquiries") {
		t.Errorf("purge: %d %s %s", code, out, errs)
	}
	for _, args := range [][]string{{"purge", "-site", "nobody", "-data", back}, {"leads", "-site", "../x"}, {"leads", "-site"}, {"delete", "-data", back}} {
		if code, _, errs := call(args...); code != 2 {
			t.Errorf("%v: %d %s", args, code, errs)
		}
	}
}
