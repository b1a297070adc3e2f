// Package httpapi is the server's HTTP: routes, limits, headers, and how an
// error becomes a status. It knows neither SQL nor screens: the store, the
// page and the calculation are passed in.
package httpapi

import (
	"context"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"net/netip"
	"net/url"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
	"tarnwright/internal/markup"
)

// Config is everything the server is made of.
type Config struct {
	Desk lead.Desk
	// Compute works a valid design out.
	Compute func(design.Design) *sheet.Sheet
	// Design is what a posted form asks for, with every fault.
	Design func(url.Values) (design.Design, []design.Fault)
	// Page draws the page; HTML writes its tree, escaped.
	Page func(Ask) Shown
	HTML func(markup.Node) string
	// Book is the builder's book as JSON, for the browser; Books are the same in
	// the words of the languages that the builder has words in.
	Book  []byte
	Books map[string][]byte
	// Theme is a style sheet of the builder's own colours and fonts, and Logo a
	// picture of theirs; both may be nothing.
	Theme []byte
	Logo  Picture
	// Consent is what a form without script lets people agree to.
	Consent func(language string, d design.Design) lead.Consent
	// Assets holds css, js, host, img and dist, with .br and .gz beside a file.
	Assets fs.FS
	// Framework makes what answers for the page framework's own scripts, at
	// exact paths.
	Framework func(Files) http.Handler
	// SealKey is the public key that a tablet seals enquiries to, and Unseal
	// opens one beside its idempotency key; nil takes none.
	SealKey string
	Unseal  func(sender, box, beside []byte) ([]byte, error)
	// AppName and AppShort name the page on a tablet's home screen.
	AppName, AppShort string
	// FrameAncestors are the origins that may show the page in a frame.
	FrameAncestors []string
	// IntakeOrigins are the origins of exported pages that may send enquiries.
	IntakeOrigins []string
	// TrustedProxies may say in X-Forwarded-For who the client is.
	TrustedProxies []netip.Prefix
	Limits         Limits
	Log            *slog.Logger
	Now            func() time.Time
	// NewID makes an unguessable id: of a request, or of a form.
	NewID func() string
	// FormSecret signs the time at which a form was made; empty makes forms
	// without a time.
	FormSecret []byte
	// Watch is told what the server does; nil tells nobody.
	Watch Watch
	// Office answers below /office/ once it is open; nil has none.
	Office Office
	// Languages are those the page is written in; the first is for those who
	// ask for none of them.
	Languages []string
	// Words gives the sentence of a key in a language.
	Words func(language, key string) string
	// Texts are what a page may say, as JSON by key, for each language: the
	// widget holds no words of its own.
	Texts map[string][]byte
}

// Watch counts what a server does. It is told nothing about a person: a route
// is its pattern, an outcome one of a few codes.
type Watch interface {
	Answered(route string, status int, took time.Duration)
	Enquiry(outcome string)
}

// Office is the builder's own pages. Whether it is open is asked each time,
// because the first invitation opens it while the server runs.
type Office interface {
	http.Handler
	Open(ctx context.Context) bool
}

type nobody struct{}

func (nobody) Answered(string, int, time.Duration) {}
func (nobody) Enquiry(string)                      {}

// Ask is what the page is asked for.
type Ask struct {
	Values url.Values // the address's query, or the posted form
	Posted bool
	// Language is the one of Config.Languages that the client wants.
	Language string
	// Contact is what a posted form says of a person, as typed.
	Contact lead.Contact
	Faults  []lead.Fault // of the contact
	// Trouble is a code when an enquiry was not taken though nothing is wrong
	// with the contact: "busy", "too_many", "already_sent", "design".
	Trouble string
	Sent    *lead.Answer // when it was taken
	Key     string       // the idempotency key the form carries
	// Narrow says that the page will be narrow, as far as can be known.
	Narrow bool
	Logo   string // address of the builder's logo, or nothing
	Origin string // what stands before the path of a link, or nothing where it cannot be known
}

// Picture is a small file of the builder's: its name tells its kind.
type Picture struct {
	Name string
	Data []byte
}

// Shown is the page as drawn.
type Shown struct {
	Title, Description, Language string
	Tree                         markup.Node
}

// Files is what the framework has to know of the page's files.
type Files struct {
	Icon    string // address
	Version string // of the widget; changes when it does
}

// Limits bound what one client may ask in a time.
type Limits struct {
	LeadsPerMinute, LeadBurst   float64
	ChecksPerMinute, CheckBurst float64
	// SignInsPerMinute and SignInBurst are for passwords and invitations.
	SignInsPerMinute, SignInBurst float64
}

// DefaultLimits are common practice, no source: a family fills in a form a few
// times; a page without script asks once a change; a person mistypes a password
// a few times, and an office may share an address.
func DefaultLimits() Limits {
	return Limits{LeadsPerMinute: 6, LeadBurst: 10, ChecksPerMinute: 240, CheckBurst: 120, SignInsPerMinute: 2, SignInBurst: 12}
}

// Server answers requests. Drain makes it say that it is going away.
type Server struct {
	cfg      Config
	assets   assets
	scripts  http.Handler // the framework's
	shell    *template.Template
	leads    *limiter
	checks   *limiter
	signIns  *limiter
	tablet   []byte // the worker's script
	handler  http.Handler
	exported *Export // nil for a served page
	draining atomic.Bool
	easels   chan struct{} // as many pages are drawn at a time

	mu     sync.Mutex
	flying map[string]bool // keys whose first request is still running
}

// New puts a server together. It fails when the assets lack what every page
// needs.
func New(cfg Config) (*Server, error) {
	if cfg.Limits == (Limits{}) {
		cfg.Limits = DefaultLimits()
	}
	if cfg.Watch == nil {
		cfg.Watch = nobody{}
	}
	s := &Server{cfg: cfg, flying: map[string]bool{}, easels: make(chan struct{}, runtime.GOMAXPROCS(0))}
	var err error
	if s.assets, err = loadAssets(cfg.Assets); err != nil {
		return nil, err
	}
	s.assets.own(cfg)
	if s.shell, err = parseShell(); err != nil {
		return nil, err
	}
	if cfg.Framework != nil {
		s.scripts = cfg.Framework(s.assets.known())
	}
	s.leads = newLimiter(cfg.Limits.LeadsPerMinute, cfg.Limits.LeadBurst)
	s.checks = newLimiter(cfg.Limits.ChecksPerMinute, cfg.Limits.CheckBurst)
	s.signIns = newLimiter(cfg.Limits.SignInsPerMinute, cfg.Limits.SignInBurst)
	if len(s.assets.worker) > 0 {
		s.tablet = s.workerScript()
	}
	s.handler = s.wrap(s.routes())
	return s, nil
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// Drain makes the readiness check fail, so that nobody sends more.
func (s *Server) Drain() { s.draining.Store(true) }

// route is one line of what the server answers.
type route struct {
	pattern string
	handle  handler
}

// table lists every route in one place.
func (s *Server) table() []route {
	table := []route{
		{"GET /{$}", s.page},
		{"POST /lead", s.refusing(s.postForm)},
		{"POST /api/v1/leads", s.refusing(s.postLead)},
		{"OPTIONS /api/v1/leads", s.mayPostLead},
		{"POST /api/v1/sealed", s.refusing(s.postSealed)},
		{"GET /shell", s.emptyPage},
		{"GET /manifest.webmanifest", s.manifest},
		{"GET /healthz", s.healthy},
		{"GET /readyz", s.ready},
		{"GET /robots.txt", fixed("text/plain; charset=utf-8", "User-agent: *\nDisallow: /api/\nDisallow: /lead\n")},
		{"GET /app-worker.js", s.worker},
		{"GET /embed.js", s.embed},
		{"GET /assets/{name}", s.asset},
		{"GET /web/app.wasm", s.wasm},
		{"/office/", s.office},
		{"/", s.nothing},
	}
	for _, path := range frameworkPaths() {
		table = append(table, route{"GET " + path, s.framework})
	}
	return table
}

// frameworkPaths are the only addresses the page framework answers. It would
// answer others by asking the host that a request names, which a forged
// request could point anywhere.
func frameworkPaths() []string {
	return []string{"/app.js", "/wasm_exec.js", "/app.css"}
}

func (s *Server) routes() *http.ServeMux {
	mux := http.NewServeMux()
	for _, r := range s.table() {
		mux.Handle(r.pattern, s.adapt(r.handle))
	}
	return mux
}

func fixed(kind, text string) handler {
	return func(w http.ResponseWriter, _ *http.Request) error {
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Cache-Control", "no-cache")
		_, _ = w.Write([]byte(text))
		return nil
	}
}

func (s *Server) framework(w http.ResponseWriter, r *http.Request) error {
	if s.scripts == nil {
		return s.nothing(w, r)
	}
	w.Header().Set("Cache-Control", "no-cache")
	anyOrigin(w)
	s.scripts.ServeHTTP(w, r)
	return nil
}
