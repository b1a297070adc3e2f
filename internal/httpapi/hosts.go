package httpapi

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"strings"
)

// Site is one builder's page and the names that it answers under; without
// names it answers under every name that is nobody else's.
type Site struct {
	Hosts  []string
	Server *Server
}

// Front chooses the site by the name a request came under.
type Front struct {
	sites  []Site
	byHost map[string]*Server
	rest   *Server
}

// NewFront puts sites behind one address. The first also says how the whole is.
func NewFront(sites []Site) (*Front, error) {
	f := &Front{sites: sites, byHost: map[string]*Server{}}
	for _, s := range sites {
		if len(s.Hosts) == 0 {
			if f.rest != nil {
				return nil, fmt.Errorf("two sites without a host name")
			}
			f.rest = s.Server
		}
		for _, h := range s.Hosts {
			h = strings.ToLower(h)
			if f.byHost[h] != nil {
				return nil, fmt.Errorf("two sites under %s", h)
			}
			f.byHost[h] = s.Server
		}
	}
	if len(sites) == 0 {
		return nil, fmt.Errorf("no site to serve")
	}
	return f, nil
}

// ServeHTTP answers one request.
func (f *Front) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s := f.site(r)
	if s == nil {
		w.Header().Set("Cache-Control", "no-store")
		http.Error(w, "No pond check is under this name.", http.StatusMisdirectedRequest)
		return
	}
	s.ServeHTTP(w, r)
}

// site is whose request this is, nil for nobody's. Who asks for the server's
// health asks by address and means the whole.
func (f *Front) site(r *http.Request) *Server {
	host := strings.ToLower(r.Host)
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	if s := f.byHost[strings.TrimSuffix(host, ".")]; s != nil {
		return s
	}
	if f.rest == nil && (r.URL.Path == "/healthz" || r.URL.Path == "/readyz") {
		return f.sites[0].Server
	}
	return f.rest
}

// Serve answers on a listener until the context ends; see [Server.Serve].
func (f *Front) Serve(ctx context.Context, l net.Listener) error {
	return answerUntil(ctx, l, f.sites[0].Server.httpServer(f), func() {
		for _, s := range f.sites {
			s.Server.Drain()
		}
	})
}
