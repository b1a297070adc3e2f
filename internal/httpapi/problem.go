package httpapi

import (
	"encoding/json"
	"errors"
	"log/slog"
	"net/http"
	"strconv"
	"strings"

	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

// handler answers a request or returns why it did not. What it wrote before an
// error has been sent; so it returns errors before it writes.
type handler func(http.ResponseWriter, *http.Request) error

// statusError is an error that a client may know about.
type statusError struct {
	status int
	code   string // names its words: "server.<code>"
	retryS int    // when the client may come back
	faults []wire.Fault
	cause  error
}

func (e *statusError) Error() string {
	if e.cause != nil {
		return e.code + ": " + e.cause.Error()
	}
	return e.code
}

func (e *statusError) Unwrap() error { return e.cause }

// kindOf maps an error of another package to a status. Anything unknown is the
// server's fault, and the client learns no more than the request's id.
func kindOf(err error) *statusError {
	var own *statusError
	var tooBig *http.MaxBytesError
	var faults *lead.FaultsError
	switch {
	case errors.As(err, &own):
		return own
	case errors.As(err, &tooBig):
		return &statusError{status: http.StatusRequestEntityTooLarge, code: "too_big", cause: err}
	case errors.As(err, &faults):
		return &statusError{status: http.StatusUnprocessableEntity, code: "faults", cause: err}
	case errors.Is(err, lead.ErrKey):
		return &statusError{status: http.StatusBadRequest, code: "key", cause: err}
	case errors.Is(err, lead.ErrKeyReused):
		return &statusError{status: http.StatusUnprocessableEntity, code: "key_reused", cause: err}
	case errors.Is(err, lead.ErrBusy):
		return &statusError{status: http.StatusServiceUnavailable, code: "busy", retryS: 5, cause: err}
	}
	return &statusError{status: http.StatusInternalServerError, code: "broken", cause: err}
}

// adapt makes a handler of net/http out of one of ours.
func (s *Server) adapt(h handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if err := h(w, r); err != nil {
			s.fail(w, r, kindOf(err))
		}
	})
}

// fail answers with what went wrong: a problem for programs, a page for people.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, e *statusError) {
	if e.status >= http.StatusInternalServerError && e.cause != nil {
		s.cfg.Log.LogAttrs(r.Context(), slog.LevelError, "failed",
			slog.String("id", idOf(r)), slog.String("code", e.code), slog.String("error", safe(e.cause)))
	}
	if e.retryS > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(e.retryS))
	}
	w.Header().Set("Cache-Control", "no-store")
	if strings.HasPrefix(r.URL.Path, "/api/") || r.URL.Path == "/readyz" {
		s.problem(w, r, e)
		return
	}
	s.errorPage(w, r, e)
}

func (s *Server) problem(w http.ResponseWriter, r *http.Request, e *statusError) {
	p := wire.Problem{
		Type: "about:blank", Title: http.StatusText(e.status), Status: e.status,
		Detail: s.cfg.Words("en", "server."+e.code), Instance: "urn:request:" + idOf(r),
		Errors: wire.ProblemErrors(e.faults),
	}
	if e.code != "broken" {
		p.Type = "urn:tarnwright:problem:" + e.code
	}
	s.json(w, e.status, wire.ProblemType, p)
}

func (s *Server) json(w http.ResponseWriter, status int, kind string, v any) {
	raw, err := json.Marshal(v)
	if err != nil {
		w.WriteHeader(http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(raw)
}

// nothing answers for every address that has no route, and for a route asked
// with another method.
func (s *Server) nothing(w http.ResponseWriter, r *http.Request) error {
	var methods []string
	for _, t := range s.table() {
		m, path, ok := strings.Cut(t.pattern, " ")
		if !ok || m == r.Method || (strings.TrimSuffix(path, "{$}") != r.URL.Path) {
			continue
		}
		if methods = append(methods, m); m == http.MethodGet {
			methods = append(methods, http.MethodHead)
		}
	}
	if len(methods) > 0 {
		w.Header().Set("Allow", strings.Join(methods, ", "))
		return &statusError{status: http.StatusMethodNotAllowed, code: "method"}
	}
	return &statusError{status: http.StatusNotFound, code: "not_found"}
}

// safe is an error's text for the log. Errors of this program carry no
// personal data, but a driver's may quote a value; only the kinds of what is
// wrapped are kept from those.
func safe(err error) string {
	const most = 300
	text := err.Error()
	if len(text) > most {
		text = text[:most]
	}
	return strings.Map(func(r rune) rune {
		if r < 0x20 {
			return ' '
		}
		return r
	}, text)
}
