package httpapi

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"path"
	"sort"
	"strings"
)

// Export is what an exported page has to know that a served one does not.
type Export struct {
	// Intake is the address that enquiries go to.
	Intake string
	// Hosts are the origins whose pages may show it in a frame.
	Hosts []string
}

// ErrExport says that a file of the export could not be made.
var ErrExport = errors.New("a file of the export could not be made")

// Export writes every file of the page for a host that serves files only, by
// its path below the host's root. It asks the same routes that serve the page,
// so both are the same; what they say in headers stands in the page itself, as
// far as a page may say it.
func (s *Server) Export(e Export, write func(path string, data []byte) error) error {
	page := &Server{cfg: s.cfg, assets: s.assets, scripts: s.scripts, shell: s.shell, leads: s.leads, checks: s.checks,
		tablet: s.tablet, flying: map[string]bool{}, easels: s.easels, exported: &e}
	routes := page.routes()
	names := map[string]string{"index.html": "/", "robots.txt": "/robots.txt", "manifest.webmanifest": "/manifest.webmanifest",
		"app.js": "/app.js", "wasm_exec.js": "/wasm_exec.js", "web/app.wasm": "/web/app.wasm", "embed.js": "/embed.js"}
	for name := range s.assets.byName {
		if path.Ext(name) == ".pack" {
			continue // few hosts compress what they do not know, so such a page takes the widget as it is
		}
		names["assets/"+name] = "/assets/" + name
	}
	paths := make([]string, 0, len(names))
	for p := range names {
		paths = append(paths, p)
	}
	sort.Strings(paths)
	for _, p := range paths {
		got := &kept{header: http.Header{}, status: http.StatusOK}
		// "*" is no client's address, so nobody's share of requests is used up.
		r := (&http.Request{Method: http.MethodGet, URL: &url.URL{Path: names[p]}, Header: http.Header{}, RemoteAddr: "*"}).WithContext(context.Background())
		routes.ServeHTTP(got, r)
		if got.status != http.StatusOK {
			return errors.Join(ErrExport, errors.New(p))
		}
		if err := write(p, got.body); err != nil {
			return err
		}
	}
	if a := s.assets.app; a != nil {
		// For hosts that look for a smaller file beside the one asked for.
		for ending, data := range map[string][]byte{".br": a.br, ".gz": a.gz} {
			if len(data) == 0 {
				continue
			}
			if err := write("web/app.wasm"+ending, data); err != nil {
				return err
			}
		}
	}
	return nil
}

// kept is an answer that is kept instead of sent.
type kept struct {
	header http.Header
	status int
	body   []byte
}

func (k *kept) Header() http.Header    { return k.header }
func (k *kept) WriteHeader(status int) { k.status = status }
func (k *kept) Write(b []byte) (int, error) {
	k.body = append(k.body, b...)
	return len(b), nil
}

// policy is the exported page's own, for a host that sends none. Who may frame
// it cannot be said in a page; the script sees to that.
func (e Export) policy() string {
	to := e.Intake
	if u, err := url.Parse(e.Intake); err == nil {
		to = u.Scheme + "://" + u.Host
	}
	return strings.Join(append(ownPolicy(), "connect-src 'self' "+to), "; ")
}

// say adds what an exported page has to know.
func (e *Export) say(data []datum) []datum {
	if e == nil {
		return data
	}
	data = append(data, datum{"intake", e.Intake})
	if len(e.Hosts) > 0 {
		data = append(data, datum{"hosts", strings.Join(e.Hosts, " ")})
	}
	return data
}
