// Package desk is the office's pages: signing in, the list of enquiries, one
// enquiry with all that is known of it, and files to take away. The server
// draws them whole, so they need no script. It knows no database.
package desk

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"html/template"
	"log/slog"
	"net/http"
	"time"

	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/lead"
	"tarnwright/internal/office"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/page"
)

// Config is everything an office is made of.
type Config struct {
	// Site names the office in the log.
	Site   string
	Door   office.Door
	Inbox  lead.Inbox
	Outbox lead.Outbox
	// In is what is the builder's own, in a language.
	In func(language string) Own
	// Languages are those the pages are written in; the first is for those who
	// ask for none of them.
	Languages []string
	// Styles is the look: the page's own sheets, the office's, the builder's.
	Styles []byte
	// Icon and Logo are pictures with their media types, or nothing.
	Icon, Logo Picture
	Now        func() time.Time
	Log        *slog.Logger
}

// Own is what is the builder's own: the book works an enquiry out again, and
// the rest draws it as the page does.
type Own struct {
	Book     core.Book
	Defaults form.Defaults
	Kit      page.Kit
}

// Picture is a small picture.
type Picture struct {
	Type string
	Data []byte
}

// Desk answers every address below /office/.
type Desk struct {
	cfg   Config
	mux   *http.ServeMux
	shell *template.Template
	// What a page takes, by its address, which changes with it.
	assets          map[string]Picture
	css, icon, logo string // addresses
}

// New puts an office together.
func New(cfg Config) (*Desk, error) {
	shell, err := template.New("office").Parse(shellText)
	if err != nil {
		return nil, err
	}
	d := &Desk{cfg: cfg, mux: http.NewServeMux(), shell: shell, assets: map[string]Picture{}}
	d.css = d.put("look", Picture{"text/css; charset=utf-8", cfg.Styles})
	d.icon, d.logo = d.put("icon", cfg.Icon), d.put("logo", cfg.Logo)
	for _, r := range d.table() {
		d.mux.Handle(r.pattern, d.adapt(r.handle))
	}
	return d, nil
}

// put keeps a picture under an address that holds its hash.
func (d *Desk) put(name string, p Picture) string {
	if len(p.Data) == 0 {
		return ""
	}
	sum := sha256.Sum256(p.Data)
	at := "/office/assets/" + name + "." + hex.EncodeToString(sum[:6])
	d.assets[at] = p
	return at
}

// ServeHTTP answers one request.
func (d *Desk) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	secured(w.Header())
	d.mux.ServeHTTP(w, r)
}

// Open tells whether anybody was ever asked in; while nobody was, there is no
// office at all.
func (d *Desk) Open(ctx context.Context) bool {
	some, err := d.cfg.Door.Store.Anyone(ctx)
	return some || err != nil // a store in trouble is for the pages to say
}

// secured sets the headers of every answer. No site may frame these pages, and
// they need no script.
func secured(h http.Header) {
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "same-origin")
	h.Set("X-Robots-Tag", "noindex, nofollow")
	h.Set("Cache-Control", "no-store")
}

// route is one line of what the office answers.
type route struct {
	pattern string
	handle  handler
}

// table lists every route in one place. What is not let in goes to the door.
func (d *Desk) table() []route {
	return []route{
		{"GET /office/{$}", d.in(d.list)},
		{"POST /office/find", d.in(d.sent(d.find))},
		{"GET /office/untold", d.in(d.untold)},
		{"GET /office/files/{file}", d.in(d.listFile)},
		{"GET /office/leads/{reference}", d.in(d.enquiry)},
		{"GET /office/leads/{reference}/files/{file}", d.in(d.leadFile)},
		{"GET /office/leads/{reference}/open", d.in(d.open)},
		{"GET /office/leads/{reference}/delete", d.in(d.askDelete)},
		{"POST /office/leads/{reference}/delete", d.in(d.sent(d.delete))},
		{"POST /office/leads/{reference}/handling", d.in(d.sent(d.handling))},
		{"POST /office/leads/{reference}/note", d.in(d.sent(d.note))},
		{"POST /office/leads/{reference}/release", d.in(d.sent(d.release))},
		{"POST /office/leads/{reference}/resend", d.in(d.sent(d.resend))},
		{"GET /office/password", d.in(d.password)},
		{"POST /office/password", d.in(d.sent(d.change))},
		{"POST /office/sign-out", d.in(d.sent(d.signOut))},
		{"GET " + signInPath, d.door},
		{"POST " + signInPath, d.signIn},
		{"GET /office/join/{token}", d.invitation},
		{"POST /office/join/{token}", d.join},
		{"GET /office/assets/{name}", d.asset},
		{"/office/", func(*visit) error { return &refusal{http.StatusNotFound, "office.no_page", nil} }},
	}
}

const signInPath = "/office/sign-in"

// visit is one request: in which language, and as whom.
type visit struct {
	w     http.ResponseWriter
	r     *http.Request
	own   Own
	words say.Words
	pass  office.Pass // nobody's before the door
}

func (v *visit) say(key string, args ...string) string { return v.words.Say(key, args...) }

// handler answers a visit, or returns why it did not before it wrote anything.
type handler func(*visit) error

// refusal is an error that the visitor is told of.
type refusal struct {
	status int
	key    string
	cause  error
}

func (e *refusal) Error() string {
	if e.cause != nil {
		return e.key + ": " + e.cause.Error()
	}
	return e.key
}

func (e *refusal) Unwrap() error { return e.cause }

// maxFormBytes bounds a form: the longest note fits.
const maxFormBytes = 32 << 10

func (d *Desk) adapt(h handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, maxFormBytes)
		own := d.cfg.In(d.language(w, r))
		v := &visit{w: w, r: r, own: own, words: own.Kit.Words}
		if err := h(v); err != nil {
			d.fail(v, err)
		}
	})
}

// fail shows what went wrong.
func (d *Desk) fail(v *visit, err error) {
	e := kindOf(err)
	if e.status >= http.StatusInternalServerError {
		d.cfg.Log.LogAttrs(v.r.Context(), slog.LevelError, "office failed", slog.String("site", d.cfg.Site), slog.String("kind", e.key))
	}
	d.trouble(v, e)
}

func kindOf(err error) *refusal {
	var own *refusal
	var tooBig *http.MaxBytesError
	switch {
	case errors.As(err, &own):
		return own
	case errors.As(err, &tooBig):
		return &refusal{http.StatusRequestEntityTooLarge, "office.too_big", err}
	case errors.Is(err, lead.ErrNotFound):
		return &refusal{http.StatusNotFound, "office.no_lead", err}
	case errors.Is(err, lead.ErrBusy), errors.Is(err, context.DeadlineExceeded):
		return &refusal{http.StatusServiceUnavailable, "office.busy", err}
	}
	return &refusal{http.StatusInternalServerError, "office.broken", err}
}

// noted writes one line of who did what with which enquiry: ids and the
// reference, and nothing of a person.
func (d *Desk) noted(v *visit, act, reference string) {
	d.cfg.Log.LogAttrs(v.r.Context(), slog.LevelInfo, "office", slog.String("site", d.cfg.Site),
		slog.Int64("user", v.pass.User.ID), slog.String("act", act), slog.String("reference", reference))
}

// asset answers with a style sheet or a picture.
func (d *Desk) asset(v *visit) error {
	p, ok := d.assets[v.r.URL.Path]
	if !ok {
		return &refusal{http.StatusNotFound, "office.no_page", nil}
	}
	v.w.Header().Set("Content-Type", p.Type)
	v.w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	_, _ = v.w.Write(p.Data)
	return nil
}
