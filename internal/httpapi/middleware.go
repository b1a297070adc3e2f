package httpapi

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/netip"
	"runtime/debug"
	"strings"
	"time"
)

type idKey struct{}

// idOf is the id of a request, for the log and for who asks about it.
func idOf(r *http.Request) string {
	id, _ := r.Context().Value(idKey{}).(string)
	return id
}

// requestTime is the longest that one request may take; the server's own
// time-outs for slow clients are in [Serve].
const requestTime = 20 * time.Second

// wrap puts what every request passes around the routes, outermost first.
func (s *Server) wrap(h http.Handler) http.Handler {
	return s.identify(s.logged(s.recovered(s.secured(s.shared(s.sameOrigin(h))))))
}

func (s *Server) identify(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		id := s.cfg.NewID()
		w.Header().Set("X-Request-Id", id)
		ctx, cancel := context.WithTimeout(context.WithValue(r.Context(), idKey{}, id), requestTime)
		defer cancel()
		next.ServeHTTP(w, r.WithContext(ctx))
	})
}

// counted remembers what was answered.
type counted struct {
	http.ResponseWriter
	status, bytes int
}

func (c *counted) WriteHeader(status int) {
	if c.status == 0 {
		c.status = status
	}
	c.ResponseWriter.WriteHeader(status)
}

func (c *counted) Write(b []byte) (int, error) {
	if c.status == 0 {
		c.status = http.StatusOK
	}
	n, err := c.ResponseWriter.Write(b)
	c.bytes += n
	return n, err
}

// Unwrap lets http.ResponseController reach the connection.
func (c *counted) Unwrap() http.ResponseWriter { return c.ResponseWriter }

// logged writes one line a request, from an allow-list: no address, no query,
// no header, no body, so no personal data can get in.
func (s *Server) logged(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		start := s.cfg.Now()
		c := &counted{ResponseWriter: w}
		seen := r // the mux notes the pattern on the request it is given
		next.ServeHTTP(c, seen)
		route := seen.Pattern
		if route == "" || route == "/" {
			route = "none"
		}
		s.cfg.Log.LogAttrs(r.Context(), slog.LevelInfo, "answered",
			slog.String("id", idOf(r)), slog.String("method", method(r.Method)), slog.String("route", route),
			slog.Int("status", c.status), slog.Int("bytes", c.bytes),
			slog.Int64("ms", s.cfg.Now().Sub(start).Milliseconds()))
		s.cfg.Watch.Answered(route, c.status, s.cfg.Now().Sub(start))
	})
}

// method keeps a made-up method out of the log.
func method(m string) string {
	switch m {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch, http.MethodDelete, http.MethodOptions:
		return m
	}
	return "other"
}

// recovered turns a panic into an answer and a line in the log with its place,
// not its value, which may hold what a person typed.
func (s *Server) recovered(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			v := recover()
			if v == nil {
				return
			}
			if v == http.ErrAbortHandler {
				panic(v)
			}
			s.cfg.Log.LogAttrs(r.Context(), slog.LevelError, "panicked",
				slog.String("id", idOf(r)), slog.String("kind", fmt.Sprintf("%T", v)), slog.String("stack", places(debug.Stack())))
			if c, ok := w.(*counted); !ok || c.status == 0 {
				s.fail(w, r, &statusError{status: http.StatusInternalServerError, code: "broken"})
			}
		}()
		next.ServeHTTP(w, r)
	})
}

// places keeps the file lines of a stack and drops the calls, whose arguments
// it would otherwise show.
func places(stack []byte) string {
	var at []string
	for _, line := range strings.Split(string(stack), "\n") {
		if strings.HasPrefix(line, "\t") {
			at = append(at, strings.TrimSpace(line))
		}
	}
	const most = 24
	return strings.Join(at[:min(len(at), most)], " ")
}

// ownPolicy is what the page may load, whoever serves it.
func ownPolicy() []string {
	return []string{
		"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "img-src 'self' data:",
		"manifest-src 'self'", "worker-src 'self'", "form-action 'self'", "base-uri 'none'", "object-src 'none'",
	}
}

// framable tells the addresses that a configured site may show in a frame:
// the page, before and after a form is sent.
func framable(path string) bool { return path == "/" || path == "/lead" }

// secured sets the headers of every answer.
func (s *Server) secured(next http.Handler) http.Handler {
	policy := func(ancestors string) string {
		return strings.Join(append(ownPolicy(), "connect-src 'self'", "frame-ancestors "+ancestors), "; ")
	}
	alone, framed := policy("'none'"), policy(strings.Join(s.cfg.FrameAncestors, " "))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=()")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if s.overTLS(r) {
			const years = 2 * 365 * 24 * 3600
			h.Set("Strict-Transport-Security", "max-age="+itoa(years))
		}
		if len(s.cfg.FrameAncestors) > 0 && framable(r.URL.Path) {
			h.Set("Content-Security-Policy", framed)
		} else {
			h.Set("Content-Security-Policy", alone)
			h.Set("X-Frame-Options", "DENY")
			h.Set("Cross-Origin-Opener-Policy", "same-origin")
		}
		next.ServeHTTP(w, r)
	})
}

// overTLS tells whether the person's own connection is encrypted, as far as
// this server or a proxy that is believed can say. Over a plain one browsers
// would not heed the promise anyway.
func (s *Server) overTLS(r *http.Request) bool {
	if r.TLS != nil {
		return true
	}
	ap, err := netip.ParseAddrPort(r.RemoteAddr)
	return err == nil && s.trusted(ap.Addr()) && r.Header.Get("X-Forwarded-Proto") == "https"
}
