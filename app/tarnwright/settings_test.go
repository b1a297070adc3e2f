package main

import (
	"context"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// settingsFile writes a settings file into a folder of its own.
func settingsFile(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "tarnwright.toml")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestSettings_AreCheckedAndPrintedWithoutSecrets(t *testing.T) {
	t.Parallel()
	good := settingsFile(t, "addr = \"127.0.0.1:9000\"\n[site.main]\nwebhook = \"https://crm.example/told\"\nwebhook_secret = \"whsec_hunter2\"\n")
	code, out, errs := call("settings", "-settings", good)
	if code != 0 || !strings.Contains(out, `addr = '127.0.0.1:9000'`) || !strings.Contains(out, "[site.main]") || !strings.Contains(out, "•••") || strings.Contains(out+errs, "hunter2") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if code, out, errs := call("check", good); code != 0 || out != good+": ok\n" {
		t.Errorf("%d %s %s", code, out, errs)
	}
	bad := settingsFile(t, "addr = \"9000\"\n[site.main]\nboook = \"x\"\n")
	code, _, errs = call("check", bad)
	if code != 1 || !strings.Contains(errs, bad+`:1:1: addr is not right: "9000" must be an address and a port, like 127.0.0.1:8080`) || !strings.Contains(errs, bad+`:3:1: site.main.boook is not a key here; perhaps "book" was meant`) {
		t.Errorf("%d %s", code, errs)
	}
	if code, _, errs := call("serve", "-settings", bad); code != 2 || !strings.Contains(errs, "site.main.boook") {
		t.Errorf("serve: %d %s", code, errs)
	}
}

// serving starts a server and gives the addresses it prints.
func serving(t *testing.T, args ...string) (addresses []string, log *spoken) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	out, log, done := hear(), hear(), make(chan int, 1)
	go func() { done <- run(ctx, append([]string{"serve"}, args...), tools{out: out, err: log, env: noEnv}) }()
	t.Cleanup(func() {
		stop()
		if code := <-done; code != 0 {
			t.Errorf("serve ended with %d: %s", code, log)
		}
	})
	eventually(t, "the start", func() bool { return strings.Contains(out.String(), "/metrics\n") })
	return regexp.MustCompile(`127\.0\.0\.1:\d+`).FindAllString(out.String(), -1), log
}

func fetched(t *testing.T, address string) (status int, text string) {
	t.Helper()
	res, err := http.Get(address) //nolint:noctx // a test against its own server
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = res.Body.Close() }()
	raw, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	return res.StatusCode, string(raw)
}

// The figures are told at their own address and only there, and with the log
// they hold nothing of a person.
func TestServe_TellsFiguresAndNothingOfAPerson(t *testing.T) {
	t.Parallel()
	data := t.TempDir()
	at, log := serving(t, "-addr", "127.0.0.1:0", "-metrics-addr", "127.0.0.1:0", "-data", data)
	if len(at) != 2 {
		t.Fatalf("addresses %v", at)
	}
	d, _ := demoDesign(t)
	const key = "canary-key-of-a-person"
	raw, err := wire.WriteLead(wire.LeadRequest{Schema: wire.Schema, Design: d, Work: worked(key), Consent: lead.Consent{Text: "yes", Language: "en"},
		Contact: lead.Contact{Name: "CanaryName", Email: "canary@mail.example", Phone: "5550100777", Town: "CanaryTown", Note: "CanaryNote", Consent: true}})
	if err != nil {
		t.Fatal(err)
	}
	s := &senders{t: t, at: at[0], design: d, answered: map[string]string{}}
	for range 2 {
		req, err := http.NewRequest(http.MethodPost, "http://"+at[0]+"/api/v1/leads?q=CanaryQuery", strings.NewReader(string(raw))) //nolint:noctx // a test against its own server
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Content-Type", "application/json")
		req.Header.Set("Idempotency-Key", `"`+key+`"`)
		req.Header.Set("User-Agent", "CanaryAgent")
		res, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		_ = res.Body.Close()
	}
	if _, err := s.send("a-key-with-no-work-in-it", idle(t, s), rand.New(rand.NewPCG(1, 2))); err != nil {
		t.Error(err)
	}
	if code, list, errs := call("leads", "-data", data); code != 0 || strings.Count(list, "put aside: no_work") != 1 {
		t.Errorf("the list: %d %s %s", code, list, errs)
	}
	if status, _ := fetched(t, "http://"+at[0]+"/metrics"); status != http.StatusNotFound {
		t.Errorf("the page's own address tells figures: %d", status)
	}
	if status, _ := fetched(t, "http://"+at[0]+"/CanaryPath?name=CanaryName"); status != http.StatusNotFound {
		t.Errorf("no such page: %d", status)
	}
	status, text := fetched(t, "http://"+at[1]+"/metrics")
	for _, want := range []string{
		`tarnwright_enquiries_total{site="main",outcome="stored"} 1`, `tarnwright_enquiries_total{site="main",outcome="repeated"} 1`,
		`tarnwright_enquiries_total{site="main",outcome="put_aside"} 1`, `tarnwright_store_ready{site="main"} 1`,
		`tarnwright_http_requests_total{route="POST /api/v1/leads",class="2xx"} 3`, `tarnwright_http_requests_total{route="none",class="4xx"} 2`,
	} {
		if status != http.StatusOK || !strings.Contains(text, want+"\n") {
			t.Errorf("%d, without %s:\n%s", status, want, text)
		}
	}
	for _, canary := range []string{"Canary", "canary", "5550100777", "CANARY"} {
		if strings.Contains(text, canary) || strings.Contains(log.String(), canary) {
			t.Errorf("%q is told:\n%s\n%s", canary, text, log)
		}
	}
}

// idle is an enquiry without the work.
func idle(t *testing.T, s *senders) []byte {
	t.Helper()
	raw, err := wire.WriteLead(wire.LeadRequest{Schema: wire.Schema, Design: s.design, Consent: lead.Consent{Text: "yes", Language: "en"},
		Contact: lead.Contact{Name: "Sender", Email: "sender@oakesmail.example", Consent: true}})
	if err != nil {
		t.Fatal(err)
	}
	return raw
}
