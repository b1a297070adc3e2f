package httpapi

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"hash"
	"net/http"
	"net/url"
	"strings"
)

// A salesperson's tablet opens the page at this address and puts it on the
// home screen; only there do a worker and a queue take part.
const (
	tabletMode    = "tablet"
	tabletAddress = "/?mode=" + tabletMode
	shellAddress  = "/shell"
)

// appIcon is a picture for a home screen.
type appIcon struct {
	Source  string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose,omitempty"`
}

func appIcons(address map[string]string) []appIcon {
	var out []appIcon
	for _, i := range []struct{ name, sizes, purpose string }{
		{"img/app-192.png", "192x192", ""}, {"img/app-512.png", "512x512", ""}, {"img/app-mask-512.png", "512x512", "maskable"},
	} {
		if at := address[i.name]; at != "" {
			out = append(out, appIcon{at, i.sizes, "image/png", i.purpose})
		}
	}
	return out
}

// manifest says how the page stands on a home screen.
func (s *Server) manifest(w http.ResponseWriter, r *http.Request) error {
	raw, err := json.Marshal(struct {
		ID         string    `json:"id"`
		Name       string    `json:"name"`
		ShortName  string    `json:"short_name"`
		StartURL   string    `json:"start_url"`
		Scope      string    `json:"scope"`
		Display    string    `json:"display"`
		Background string    `json:"background_color"`
		Theme      string    `json:"theme_color"`
		Icons      []appIcon `json:"icons"`
	}{tabletAddress, s.cfg.AppName, s.cfg.AppShort, tabletAddress, "/", "fullscreen", "#FBF7EF", "#FBF7EF", s.assets.icons})
	if err != nil {
		return err
	}
	return fixed("application/manifest+json", string(raw))(w, r)
}

// emptyPage is the page that a tablet keeps. It holds no key: one that is kept
// would be handed to everyone whom the tablet is shown to.
func (s *Server) emptyPage(w http.ResponseWriter, r *http.Request) error {
	return s.draw(w, r, http.StatusOK, Ask{Values: url.Values{"mode": {tabletMode}}, Language: s.language(r, r.URL.Query())})
}

// shells are the addresses of that page, one for each language.
func (s *Server) shells() []string {
	var out []string
	for _, language := range s.cfg.Languages {
		out = append(out, shellAddress+"?"+languageName+"="+language)
	}
	if len(out) == 0 {
		return []string{shellAddress}
	}
	return out
}

// keptFiles are what a tablet keeps, the page in each language first.
func (s *Server) keptFiles() []string {
	list := append(s.shells(), "/manifest.webmanifest", s.assets.css, s.assets.theme, s.assets.logo, s.assets.book, s.assets.boot, s.assets.patch, s.assets.rehearse, s.assets.queue, s.assets.icon)
	for _, language := range s.cfg.Languages {
		list = append(list, s.assets.words[language], s.assets.books[language])
	}
	for _, i := range s.assets.icons {
		list = append(list, i.Source)
	}
	if s.assets.packed != "" {
		list = append(list, s.assets.packed, s.assets.unpack)
	} else if s.assets.app != nil {
		list = append(list, "/web/app.wasm")
	}
	if s.scripts != nil {
		list = append(list, "/app.js", "/wasm_exec.js")
	}
	out := list[:0]
	for _, l := range list {
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}

// workerScript is the worker with its list of files and its version, a hash of
// all that is in them: prices or words that change make a new version.
func (s *Server) workerScript() []byte {
	list := s.keptFiles()
	sum, routes := sha256.New(), s.routes()
	for _, path := range list {
		sum.Write([]byte(path))
		file, query, _ := strings.Cut(path, "?")
		asked := &http.Request{Method: http.MethodGet, URL: &url.URL{Path: file, RawQuery: query}, Header: http.Header{}}
		routes.ServeHTTP(hashed{sum, http.Header{}}, asked)
	}
	sum.Write(s.assets.worker)
	quoted, err := json.Marshal(list)
	if err != nil {
		return nil
	}
	version := hex.EncodeToString(sum.Sum(nil)[:6])
	script := bytes.Replace(s.assets.worker, []byte(`["FILES"]`), quoted, 1)
	return bytes.Replace(script, []byte(`"VERSION"`), []byte(`"`+version+`"`), 1)
}

// hashed takes an answer's body into a hash.
type hashed struct {
	hash.Hash
	header http.Header
}

func (h hashed) Header() http.Header { return h.header }
func (h hashed) WriteHeader(int)     {}

// worker answers with the tablet's worker.
func (s *Server) worker(w http.ResponseWriter, r *http.Request) error {
	if len(s.tablet) == 0 {
		return s.nothing(w, r)
	}
	return fixed("text/javascript; charset=utf-8", string(s.tablet))(w, r)
}

// asTablet tells whether an address asks for the salesperson's page.
func asTablet(v url.Values) bool { return strings.EqualFold(v.Get("mode"), tabletMode) }
