package httpapi_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
	"tarnwright/internal/store/sqlite"
	"tarnwright/internal/wire"
)

// rig is a server with a database of its own and small stand-ins for the page
// and the calculation.
type rig struct {
	*httpapi.Server
	store lead.Store
	log   *journal
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

func files() fstest.MapFS {
	return fstest.MapFS{
		"css/app.css":      {Data: []byte(strings.Repeat("body{margin:0}\n", 40))},
		"js/boot.js":       {Data: []byte("\"use strict\";\n")},
		"host/embed.js":    {Data: []byte("// for the builder's page\n(() => {})();\n")},
		"img/icon.svg":     {Data: []byte("<svg xmlns='http://www.w3.org/2000/svg'/>")},
		"js/rehearse.js":   {Data: []byte("\"use strict\"; // rehearse\n")},
		"js/patch.js":      {Data: []byte("\"use strict\"; // patch\n")},
		"js/queue.js":      {Data: []byte("\"use strict\"; // queue\n")},
		"worker/worker.js": {Data: []byte("const version = \"VERSION\", files = [\"FILES\"];\n")},
		"img/app-192.png":  {Data: []byte("png")},
		"img/notes.txt":    {Data: []byte("not for visitors")},
		"dist/app.wasm":    {Data: []byte("\x00asm raw raw raw")},
		"dist/app.wasm.br": {Data: []byte("brotli")},
		"dist/app.wasm.gz": {Data: []byte("gzip")},
		"dist/app.pack":    {Data: []byte("packed packed")},
		"dist/app.pack.br": {Data: []byte("packed brotli")},
		"js/unpack.js":     {Data: []byte("\"use strict\"; // unpack\n")},
	}
}

// pond is a small valid design.
func pond() design.Design {
	line := design.Line{LengthM: 5, InsideDiameterM: 0.07793, RoughnessM: 1.5e-6}
	return design.Design{
		Version: design.Version, Name: "Alder Reach",
		Outline: design.Outline{Shape: design.Ellipse, LengthM: 10, WidthM: 6},
		Bowl:    design.Bowl{DeepM: 2, Wall: []design.Knot{{}, {InsetM: 1, DepthM: 2}}},
		Circulation: design.Circulation{TurnoverH: 2, Drive: design.SingleSpeed, PumpCount: 1, Suction: line, Discharge: line,
			IntakeOpenAreaM2: 0.1, QuietFlowRatio: 0.4},
		Running: design.Running{Year: 2026},
		Site:    design.Site{WaterTempDegC: 20, SizeToleranceRatio: 0.05},
	}
}

func compute(d design.Design) *sheet.Sheet {
	s := &sheet.Sheet{CoreVersion: 1, Book: "demo/1"}
	s.Add(sheet.Figure{ID: "pond.length", Value: d.Outline.LengthM, Unit: sheet.Metre, Working: "as asked", Source: "definition"})
	return s
}

// tree shows all that the page was asked, so that a test can see it.
func tree(ask httpapi.Ask) httpapi.Shown {
	var kids []markup.Node
	for _, name := range []string{"length", "name", "email", "phone", "note"} {
		kids = append(kids, markup.E("input", markup.A("name", name), markup.A("value", ask.Values.Get(name))))
	}
	for _, f := range ask.Faults {
		kids = append(kids, markup.E("p", "fault "+f.Field+" "+f.Code))
	}
	if ask.Trouble != "" {
		kids = append(kids, markup.E("p", "trouble "+ask.Trouble))
	}
	if ask.Sent != nil {
		kids = append(kids, markup.E("p", "sent "+ask.Sent.Reference))
	}
	kids = append(kids, markup.E("input", markup.A("name", "key"), markup.A("value", ask.Key)))
	return httpapi.Shown{Title: "Alder Reach – Fernhollow Ponds", Description: "A pond & its figures", Language: "en", Tree: markup.E("form", kids)}
}

func write(n markup.Node) string {
	if n.Tag == "" {
		return html.EscapeString(n.Text)
	}
	var b strings.Builder
	b.WriteString("<" + n.Tag)
	for _, a := range n.Attrs {
		fmt.Fprintf(&b, ` %s="%s"`, a.Name, html.EscapeString(a.Value))
	}
	b.WriteString(">")
	for _, k := range n.Kids {
		b.WriteString(write(k))
	}
	return b.String() + "</" + n.Tag + ">"
}

func setUp(t testing.TB, change ...func(*httpapi.Config)) *rig {
	t.Helper()
	store, err := sqlite.Open(context.Background(), filepath.Join(t.TempDir(), "leads.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = store.Close() })
	log := &journal{}
	var mu sync.Mutex
	n := uint32(0)
	next := func() uint32 { mu.Lock(); defer mu.Unlock(); n++; return n }
	now := func() time.Time { return time.Date(2026, 11, 25, 16, 0, 0, 0, time.UTC) }
	cfg := httpapi.Config{
		Desk:    lead.Desk{Store: store, Now: now, NewReference: func() string { return lead.Reference("AR", next()) }},
		Compute: compute,
		Design: func(v url.Values) (design.Design, []design.Fault) {
			d := pond()
			if v.Get("length") == "far too long" {
				return d, []design.Fault{{Path: "outline.length_m", Code: "not_a_number"}}
			}
			return d, nil
		},
		Page: tree, HTML: write, Book: []byte(`{"builder":"</script><script>alert(1)</script>"}`),
		Consent: func(string, design.Design) lead.Consent {
			return lead.Consent{Text: "You may reply.", Language: "en", Channel: "form"}
		},
		Assets: files(),
		Framework: func(f httpapi.Files) http.Handler {
			return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				_, _ = w.Write([]byte("framework " + r.URL.Path + " " + f.Icon + " " + f.Version))
			})
		},
		Log: slog.New(slog.NewJSONHandler(log, nil)), Now: now,
		NewID: func() string { return fmt.Sprintf("id-of-sixteen-letters-%d", next()) },
		Words: func(_, key string) string { return "words of " + key }, Languages: []string{"en", "es"},
	}
	for _, c := range change {
		c(&cfg)
	}
	s, err := httpapi.New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	return &rig{s, cfg.Desk.Store, log}
}

func (r *rig) do(req *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	r.ServeHTTP(w, req)
	return w
}

func (r *rig) get(path string, headers ...string) *httptest.ResponseRecorder {
	return r.do(with(httptest.NewRequest(http.MethodGet, path, nil), headers...))
}

func with(req *http.Request, headers ...string) *http.Request {
	for i := 0; i < len(headers); i += 2 {
		req.Header.Set(headers[i], headers[i+1])
	}
	return req
}

const key = "8e03978e-40d5-43dd-bc93-6894a57f9324"

func enquiry() wire.LeadRequest {
	return wire.LeadRequest{
		Schema:  wire.Schema,
		Contact: lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Note: "Slopes to the south.", Consent: true},
		Consent: lead.Consent{Text: "Fernhollow Ponds may reply.", Language: "en", Channel: "page"},
		Design:  pond(), CoreVersion: 1, Figures: []lead.Figure{{ID: "pond.length", Value: "10"}},
	}
}

func body(t *testing.T, e wire.LeadRequest) string {
	t.Helper()
	raw, err := wire.WriteLead(e)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

func post(data string, headers ...string) *http.Request {
	req := httptest.NewRequest(http.MethodPost, "/api/v1/leads", strings.NewReader(data))
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Idempotency-Key", `"`+key+`"`)
	return with(req, headers...)
}

func problem(t *testing.T, w *httptest.ResponseRecorder) wire.Problem {
	t.Helper()
	var p wire.Problem
	if w.Header().Get("Content-Type") != wire.ProblemType {
		t.Errorf("type %q, want a problem; %s", w.Header().Get("Content-Type"), w.Body)
	} else if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil || p.Status != w.Code || p.Instance == "" || p.Detail == "" || p.Title == "" {
		t.Errorf("problem %+v with status %d, %v", p, w.Code, err)
	}
	return p
}

func stored(t *testing.T, s lead.Store) []lead.Lead {
	t.Helper()
	leads, err := s.List(context.Background(), "", 1000)
	if err != nil {
		t.Fatal(err)
	}
	return leads
}
