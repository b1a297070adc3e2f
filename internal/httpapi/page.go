package httpapi

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"html/template"
	"mime"
	"net/http"
	"net/url"
	"strings"
	"time"

	"tarnwright/internal/lead"
	"tarnwright/internal/sieve"
	"tarnwright/internal/toll"
)

// shell is the page around the tree. The framework puts its own in the place of
// the body's first element, which therefore is an empty one, and its loader
// must exist for it to start; both stay hidden: the page is there already.
const shell = `<!doctype html>
<html lang="{{.Language}}"{{range .Data}} data-{{.Name}}="{{.Value}}"{{end}}>
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
{{with .Policy}}<meta http-equiv="Content-Security-Policy" content="{{.}}">
<meta name="referrer" content="no-referrer">
{{end}}<title>{{.Title}}</title>
{{with .Description}}<meta name="description" content="{{.}}">
{{end}}<meta name="color-scheme" content="light">
<link rel="stylesheet" href="{{.CSS}}">
{{with .Theme}}<link rel="stylesheet" href="{{.}}">
{{end}}{{with .Icon}}<link rel="icon" href="{{.}}">
{{end}}{{if .Tablet}}<link rel="manifest" href="/manifest.webmanifest">
<meta name="apple-mobile-web-app-capable" content="yes">
{{with .TouchIcon}}<link rel="apple-touch-icon" href="{{.}}">
{{end}}{{end}}{{with .Boot}}<script src="{{.}}" defer{{with $.Queue}} data-queue="{{.}}"{{end}}{{with $.SealKey}} data-seal="{{.}}"{{end}} data-patch="{{$.Patch}}" data-rehearse="{{$.Rehearse}}"{{with $.Packed}} data-packed="{{.}}" data-unpack="{{$.Unpack}}"{{end}}></script>
{{end}}</head>
<body>
{{if .Boot}}<div hidden></div>
{{end}}{{with .NoScript}}<noscript><p class="lastgood">{{.}}</p></noscript>
{{end}}<div id="page">{{.Tree}}</div>
{{if .Boot}}<aside id="app-wasm-loader" hidden><img id="app-wasm-loader-icon" src="{{.Icon}}" alt=""><p id="app-wasm-loader-label"></p></aside>
{{end}}</body>
</html>
`

func parseShell() (*template.Template, error) { return template.New("shell").Parse(shell) }

type shellData struct {
	Title, Description, Language string
	CSS, Theme, Icon, Boot       string
	Queue, SealKey, TouchIcon    string
	Patch                        string // of what keeps the page in step with the widget
	Rehearse                     string // of what compiles the widget beside the page
	Packed, Unpack               string // the widget as it comes to that, and what unpacks it
	Tablet                       bool
	Policy, NoScript             string // of an exported page
	Data                         []datum
	Tree                         template.HTML
}

// datum is something the page's script has to know.
type datum struct{ Name, Value string }

// page answers GET /: the page with the design that the address asks for.
func (s *Server) page(w http.ResponseWriter, r *http.Request) error {
	if err := s.limited(s.checks, r); err != nil {
		return err
	}
	values, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		values = url.Values{} // a broken address still gives the page
	}
	return s.draw(w, r, http.StatusOK, Ask{Values: values, Key: s.formKey(s.cfg.Now()), Language: s.language(r, values)})
}

// narrow tells whether the page will stand in a narrow place: the frame that
// asks for it says so, or the browser says that it is a phone's. A wrong guess
// costs the size of the drawing until the script takes over.
func narrow(r *http.Request, values url.Values) bool {
	switch values.Get("at") {
	case "narrow":
		return true
	case "wide":
		return false
	}
	if hint := r.Header.Get("Sec-CH-UA-Mobile"); hint != "" {
		return hint == "?1"
	}
	agent := r.Header.Get("User-Agent")
	return strings.Contains(agent, "Mobile") && !strings.Contains(agent, "iPad")
}

func (s *Server) draw(w http.ResponseWriter, r *http.Request, status int, ask Ask) error {
	ask.Narrow, ask.Logo = narrow(r, ask.Values), s.assets.logo
	if s.exported == nil { // an exported page does not know where it will stand
		ask.Origin = origin(r)
	}
	shown, tree, err := s.paint(r.Context(), ask)
	if err != nil {
		return err
	}
	data := []datum{{"book", s.assets.bookIn(shown.Language)}, {"words", s.assets.words[shown.Language]}}
	if s.assets.logo != "" {
		data = append(data, datum{"logo", s.assets.logo})
	}
	icon := ""
	if len(s.assets.icons) > 0 {
		icon = s.assets.icons[0].Source
	}
	policy, noScript, packed := "", "", s.assets.packed
	if s.exported != nil {
		packed = ""
		policy, noScript = s.exported.policy(), s.cfg.Words(shown.Language, "server.no_script")
	}
	return s.write(w, r, status, shellData{
		Policy: policy, NoScript: noScript,
		Queue: s.assets.queue, Patch: s.assets.patch, Rehearse: s.assets.rehearse, Packed: packed, Unpack: s.assets.unpack, SealKey: s.cfg.SealKey, TouchIcon: icon, Tablet: asTablet(ask.Values),
		Title: shown.Title, Description: shown.Description, Language: shown.Language,
		CSS: s.assets.css, Theme: s.assets.theme, Icon: s.assets.icon, Boot: s.assets.boot,
		Data: s.exported.say(data),
		Tree: template.HTML(tree), //nolint:gosec // the writer escapes every text and attribute
	})
}

// paint draws a page when it is its turn. As many are drawn at a time as there
// are processors: more would only wait for each other, each of them longer. The
// turn is over before the page goes out, which may be slow.
func (s *Server) paint(ctx context.Context, ask Ask) (shown Shown, tree string, err error) {
	select {
	case s.easels <- struct{}{}:
		defer func() { <-s.easels }()
	case <-ctx.Done():
		return Shown{}, "", fmt.Errorf("%w: too many pages to draw", lead.ErrBusy)
	}
	shown = s.cfg.Page(ask)
	return shown, s.cfg.HTML(shown.Tree), nil
}

func (s *Server) write(w http.ResponseWriter, r *http.Request, status int, data shellData) error {
	var b bytes.Buffer
	if err := s.shell.Execute(&b, data); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	// The page holds a key that must not be handed to two people.
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Vary", "Accept-Encoding, Accept-Language")
	body := b.Bytes()
	// A page is mostly drawing, a quarter of its size when squeezed. It holds
	// no secret that its length could give away: the key in it is new each time.
	if accepts(r, "gzip") {
		if small := gzipped(body, gzip.DefaultCompression); small != nil {
			w.Header().Set("Content-Encoding", "gzip")
			body = small
		}
	}
	w.Header().Set("Content-Length", itoa(len(body)))
	w.WriteHeader(status)
	_, _ = w.Write(body)
	return nil
}

// errorPage is what people see when there is no page to show.
func (s *Server) errorPage(w http.ResponseWriter, r *http.Request, e *statusError) {
	language := s.language(r, r.URL.Query())
	text := template.HTMLEscapeString(s.cfg.Words(language, "server."+e.code))
	back := template.HTMLEscapeString(s.cfg.Words(language, "server.back"))
	body := `<main class="error"><h1>` + text + `</h1><p><a href="/">` + back + `</a></p><p class="quiet">` + template.HTMLEscapeString(idOf(r)) + `</p></main>`
	err := s.write(w, r, e.status, shellData{
		Title: s.cfg.Words(language, "server."+e.code), Language: language, CSS: s.assets.css, Theme: s.assets.theme, Icon: s.assets.icon,
		Tree: template.HTML(body), //nolint:gosec // escaped above
	})
	if err != nil {
		w.WriteHeader(http.StatusInternalServerError)
	}
}

// maxFormBytes bounds a posted form.
const maxFormBytes = 64 << 10

// postForm takes an enquiry from a page without script. Whatever happens, the
// answer is the page with everything that was typed.
func (s *Server) postForm(w http.ResponseWriter, r *http.Request) error {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" {
		return &statusError{status: http.StatusUnsupportedMediaType, code: "not_form"}
	}
	r.Body = http.MaxBytesReader(w, r.Body, maxFormBytes)
	if err := r.ParseForm(); err != nil {
		var tooBig *http.MaxBytesError
		if errors.As(err, &tooBig) {
			return err
		}
		return &statusError{status: http.StatusBadRequest, code: "not_form", cause: err}
	}
	speaks := s.speaks(r.PostForm)
	contact := contactOf(r.PostForm)
	ask := Ask{Values: r.PostForm, Posted: true, Language: s.language(r, r.PostForm), Contact: contact, Key: r.PostForm.Get("key")}
	made, ours := s.madeAt(ask.Key)
	if ask.Key == "" {
		ask.Key = s.cfg.NewID()
	}
	if speaks {
		if err := s.limited(s.checks, r); err != nil {
			return s.again(w, r, ask, kindOf(err))
		}
		return s.draw(w, r, http.StatusOK, ask)
	}
	if err := s.limited(s.leads, r); err != nil {
		return s.again(w, r, ask, kindOf(err))
	}
	d, faults := s.cfg.Design(r.PostForm)
	ask.Faults = lead.Check(lead.Clean(contact))
	if len(faults) > 0 {
		ask.Trouble = "design"
	}
	if len(faults) > 0 || len(ask.Faults) > 0 {
		s.cfg.Watch.Enquiry("faults")
		return s.draw(w, r, http.StatusUnprocessableEntity, ask)
	}
	answer, err := s.accept(r, lead.Request{
		Key: ask.Key, Contact: contact, Design: d, Consent: s.cfg.Consent(ask.Language, d),
		Quarantine: sieve.PutAside(sieve.Enquiry{Contact: lead.Clean(contact), Trap: r.PostForm.Get(toll.TrapField),
			Dated: len(s.cfg.FormSecret) > 0, Ours: ours, Age: s.cfg.Now().Sub(made)}),
	})
	if err != nil {
		return s.again(w, r, ask, kindOf(err))
	}
	ask.Sent = &answer
	return s.draw(w, r, http.StatusOK, ask)
}

// again shows the page once more, with what kept the enquiry from being taken.
func (s *Server) again(w http.ResponseWriter, r *http.Request, ask Ask, e *statusError) error {
	switch e.code {
	case "too_many", "busy":
		ask.Trouble = e.code
	case "key_reused", "key":
		// The person changed something and sent it again: that is a new
		// enquiry, if they say so once more. The form is as old as it was.
		made, ours := s.madeAt(ask.Key)
		if !ours {
			made = s.cfg.Now()
		}
		ask.Trouble, ask.Key = "already_sent", s.formKey(made)
	default:
		return e
	}
	s.cfg.Watch.Enquiry(e.code)
	if e.retryS > 0 {
		w.Header().Set("Retry-After", itoa(e.retryS))
	}
	return s.draw(w, r, e.status, ask)
}

func contactOf(v url.Values) lead.Contact {
	return lead.Contact{
		Name: v.Get(lead.FieldName), Email: v.Get(lead.FieldEmail), Phone: v.Get(lead.FieldPhone),
		Town: v.Get(lead.FieldTown), Start: v.Get(lead.FieldStart), Note: v.Get(lead.FieldNote),
		Consent: v.Get(lead.FieldConsent) != "",
	}
}

// healthy answers as long as the process does.
func (s *Server) healthy(w http.ResponseWriter, r *http.Request) error {
	return fixed("text/plain; charset=utf-8", "ok\n")(w, r)
}

// ready answers when a lead could be stored now.
func (s *Server) ready(w http.ResponseWriter, r *http.Request) error {
	if s.draining.Load() {
		return &statusError{status: http.StatusServiceUnavailable, code: "stopping", retryS: 5}
	}
	const patience = 2 * time.Second
	ctx, cancel := context.WithTimeout(r.Context(), patience)
	defer cancel()
	if err := s.cfg.Desk.Store.Ready(ctx); err != nil {
		return &statusError{status: http.StatusServiceUnavailable, code: "busy", retryS: 5, cause: err}
	}
	return s.healthy(w, r)
}
