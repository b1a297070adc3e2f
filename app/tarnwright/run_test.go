package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// spoken is a writer that many may write to and read from.
type spoken struct {
	mu  sync.Mutex
	buf bytes.Buffer
	new chan struct{}
}

func hear() *spoken { return &spoken{new: make(chan struct{}, 1000)} }

func (s *spoken) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	select {
	case s.new <- struct{}{}:
	default:
	}
	return s.buf.Write(b)
}

func (s *spoken) String() string { s.mu.Lock(); defer s.mu.Unlock(); return s.buf.String() }

func noEnv(string) string { return "" }

func call(args ...string) (code int, out, err string) {
	o, e := hear(), hear()
	code = run(context.Background(), args, tools{out: o, err: e, env: noEnv})
	return code, o.String(), e.String()
}

func demoDesign(t *testing.T) (design.Design, string) {
	t.Helper()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	raw, err := wire.WriteDesign(d)
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "design.json")
	if err := os.WriteFile(name, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	return d, name
}

func TestSheet_PrintsForPeopleAndForPrograms(t *testing.T) {
	t.Parallel()
	d, name := demoDesign(t)
	code, out, errs := call("sheet", name)
	if code != 0 || errs != "" || !strings.Contains(out, "pond.gross_volume") {
		t.Fatalf("code %d, %s\n%s", code, errs, out)
	}
	code, raw, _ := call("sheet", "-json", name)
	if !strings.Contains(out, "Not a quotation") || !strings.Contains(raw, `"caution": "Rough figures`) {
		t.Errorf("a sheet goes without its caution:\n%.300s\n%.300s", out, raw)
	}
	var got struct {
		Figures []struct {
			ID, Unit, Working, Source, Words string
			Value                            json.RawMessage
		} `json:"figures"`
	}
	if err := json.Unmarshal([]byte(raw), &got); err != nil || code != 0 {
		t.Fatalf("code %d, %v", code, err)
	}
	s := core.Compute(d, book.Demo())
	if len(got.Figures) != len(s.Figures) {
		t.Fatalf("%d figures, the core has %d", len(got.Figures), len(s.Figures))
	}
	figures := lead.FiguresOf(s)
	for i, f := range got.Figures {
		if strings.Trim(string(f.Value), `"`) != figures[i].Value || f.Unit == "" || f.Working == "" || f.Source == "" || f.Words == "" {
			t.Errorf("%+v, value %s; want %s", f, f.Value, figures[i].Value)
		}
		if !strings.Contains(out, f.ID) {
			t.Errorf("the printed sheet lacks %s", f.ID)
		}
	}
}

func TestCheck_PrintsEachFaultWithItsLine(t *testing.T) {
	t.Parallel()
	_, good := demoDesign(t)
	raw, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.json")
	text := strings.Replace(strings.Replace(string(raw), `"turnover_h"`, `"turnover"`, 1), `"deep_m": `, `"deep_m": 9`, 1)
	if err := os.WriteFile(bad, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	code, out, errs := call("check", good, bad)
	if code != 1 || !strings.Contains(out, good+": ok") || !regexp.MustCompile(`(?m)^`+regexp.QuoteMeta(bad)+`:\d+:\d+: circulation\.turnover is not a key here; perhaps "turnover_h" was meant$`).MatchString(errs) {
		t.Errorf("code %d, out %q, err %q", code, out, errs)
	}
	folder := filepath.Join(dir, "book")
	if err := os.CopyFS(folder, book.DemoFiles()); err != nil {
		t.Fatal(err)
	}
	if code, out, errs := call("check", folder); code != 0 || out != folder+": ok\n" {
		t.Errorf("the demo folder: %d, %q, %q", code, out, errs)
	}
	if err := os.Remove(filepath.Join(folder, "pumps.json")); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := call("check", folder); code != 1 || !strings.Contains(errs, filepath.Join(folder, "pumps.json")+": this file is missing") {
		t.Errorf("without pumps: %d, %q", code, errs)
	}
	if code, _, errs := call("sheet", "-book", folder, good); code != 1 || !strings.Contains(errs, "pumps.json") {
		t.Errorf("a sheet from a broken folder: %d, %q", code, errs)
	}
}

func TestRun_SaysHowItIsUsed(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args []string
		code int
		err  string
	}{
		{nil, 2, "tarnwright serve"}, {[]string{"help"}, 0, "tarnwright leads"}, {[]string{"swim"}, 2, "tarnwright check"},
		{[]string{"sheet"}, 2, "name one design file"}, {[]string{"sheet", "nowhere.json"}, 1, "no such file"}, {[]string{"check"}, 2, "name design files"},
		{[]string{"serve", "-addr", "x"}, 1, "must be an address"}, {[]string{"serve", "left over"}, 2, "is not an option"}, {[]string{"leads", "-data", "/nowhere"}, 1, "no database"},
		{[]string{"serve", "-h"}, 0, "TARNWRIGHT_ADDR"},
	} {
		if code, _, errs := call(c.args...); code != c.code || !strings.Contains(errs, c.err) {
			t.Errorf("%v: %d, %q; want %d, %q", c.args, code, errs, c.code, c.err)
		}
	}
}

// The whole of it: the server starts on a free port, the page answers, an
// enquiry by form and one by script are stored once each and listed, and the
// server stops in order.
func TestServe_TakesAnEnquiryFromPageToList(t *testing.T) {
	t.Parallel()
	data := filepath.Join(t.TempDir(), "data")
	ctx, stop := context.WithCancel(context.Background())
	out, errs := hear(), hear()
	done := make(chan int, 1)
	go func() {
		done <- run(ctx, []string{"serve", "-addr", "127.0.0.1:0", "-data", data}, tools{out: out, err: errs, env: noEnv})
	}()
	select {
	case <-out.new:
	case code := <-done:
		t.Fatalf("it stopped with %d: %s", code, errs)
	}
	at := regexp.MustCompile(`http://127\.0\.0\.1:\d+`).FindString(out.String())
	page := get(t, at+"/")
	for _, want := range []string{"Fernhollow Ponds", "Alder Reach", `name="length"`, `data-book="`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	send := get(t, at+"/?view=send")
	key := regexp.MustCompile(`name="key" value="([0-9a-f]{32}\.[0-9a-z]+\.[0-9a-f]{16})"`).FindStringSubmatch(send)
	if key == nil {
		t.Fatalf("the form holds no key:\n%s", send)
	}
	typed := url.Values{"key": {key[1]}, "name": {"Maren Oakes"}, "email": {"maren@oakesmail"}, "consent": {"on"}, "length": {"40 ft"}, "sent": {"1"}}
	status, text := postForm(t, at+"/lead", typed)
	if status != http.StatusUnprocessableEntity || !strings.Contains(text, "The end seems to be missing") || !strings.Contains(text, `value="Maren Oakes"`) || !strings.Contains(text, "40 ft") {
		t.Errorf("a slip: %d\n%s", status, text)
	}
	typed.Set("email", "maren@oakesmail.example")
	status, text = postForm(t, at+"/lead", typed)
	ref := regexp.MustCompile(`FP-[0-9A-Z]{6}`).FindString(text)
	if _, err := lead.ReadReference("FP", ref); status != http.StatusOK || err != nil {
		t.Errorf("sent: %d, reference %q, %v", status, ref, err)
	}
	if _, text = postForm(t, at+"/lead", typed); regexp.MustCompile(`FP-[0-9A-Z]{6}`).FindString(text) != ref {
		t.Error("sending twice gave another reference")
	}
	byScript(t, at)
	stop()
	if code := <-done; code != 0 {
		t.Errorf("it ended with %d: %s", code, errs)
	}
	code, list, _ := call("leads", "-data", data)
	if lines := strings.Count(list, "\n"); code != 0 || lines != 3 || !strings.Contains(list, ref) || !strings.Contains(list, "maren@oakesmail.example") {
		t.Errorf("the list, code %d:\n%s", code, list)
	}
	code, one, _ := call("leads", "-data", data, strings.ToLower(ref))
	if code != 0 || !strings.Contains(one, `"length_m": 12.192`) || !strings.Contains(one, `"id": "pond.gross_volume"`) || !strings.Contains(one, "Fernhollow Ponds may use these details") {
		t.Errorf("one enquiry, code %d:\n%.3000s", code, one)
	}
	if log := errs.String(); strings.Contains(log, "Maren") || strings.Contains(log, "oakesmail") || strings.Contains(log, "40") && strings.Contains(log, "40 ft") {
		t.Errorf("the log names a person:\n%s", log)
	}
}

func get(t *testing.T, address string) string {
	t.Helper()
	res, err := http.Get(address) //nolint:noctx // a test against its own server
	if err != nil {
		t.Fatal(err)
	}
	return read(t, res)
}

func read(t *testing.T, res *http.Response) string {
	t.Helper()
	defer func() { _ = res.Body.Close() }()
	raw, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

func postForm(t *testing.T, address string, v url.Values) (int, string) {
	t.Helper()
	res, err := http.PostForm(address, v) //nolint:noctx // a test against its own server
	if err != nil {
		t.Fatal(err)
	}
	return res.StatusCode, read(t, res)
}

// byScript sends an enquiry as the widget does, with the figures it worked out
// from the book that the page names.
func byScript(t *testing.T, at string) {
	t.Helper()
	d, _ := demoDesign(t)
	address := regexp.MustCompile(`data-book="([^"]+)"`).FindStringSubmatch(get(t, at+"/"))
	if address == nil {
		t.Fatal("the page names no book")
	}
	b, err := book.Decode([]byte(get(t, at+address[1])))
	if err != nil {
		t.Fatal(err)
	}
	body, err := wire.WriteLead(wire.LeadRequest{
		Schema: wire.Schema, Contact: lead.Contact{Name: "Maren Oakes", Phone: "555 010 0199", Consent: true},
		Consent: lead.Consent{Text: "yes", Language: "en", Channel: "page"}, Design: d, CoreVersion: core.Version, Figures: lead.FiguresOf(core.Compute(d, b)),
	})
	if err != nil {
		t.Fatal(err)
	}
	req, err := http.NewRequest(http.MethodPost, at+"/api/v1/leads", bytes.NewReader(body)) //nolint:noctx // a test against its own server
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Idempotency-Key", `"made-by-the-page-0001"`)
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	text := read(t, res)
	if res.StatusCode != http.StatusCreated || !strings.Contains(text, `"figures_differ":false`) {
		t.Errorf("by script: %d %s", res.StatusCode, text)
	}
}
