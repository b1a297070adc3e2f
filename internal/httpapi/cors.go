package httpapi

import (
	"net/http"
	"slices"
)

// leadsPath is where enquiries go.
const leadsPath = "/api/v1/leads"

// shared lets the page of a configured origin, such as an exported one, send
// enquiries and read the answer. No cookie goes with them, and no other address
// of the server opens to another origin.
func (s *Server) shared(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == leadsPath && len(s.cfg.IntakeOrigins) > 0 {
			w.Header().Add("Vary", "Origin")
			if from := r.Header.Get("Origin"); slices.Contains(s.cfg.IntakeOrigins, from) {
				w.Header().Set("Access-Control-Allow-Origin", from)
				w.Header().Set("Access-Control-Expose-Headers", "Retry-After")
			}
		}
		next.ServeHTTP(w, r)
	})
}

// mayPostLead answers a browser that asks whether a page may send an enquiry.
// Without a header of [Server.shared] the browser takes it for a no.
func (s *Server) mayPostLead(w http.ResponseWriter, _ *http.Request) error {
	h := w.Header()
	if h.Get("Access-Control-Allow-Origin") != "" {
		h.Set("Access-Control-Allow-Methods", http.MethodPost)
		h.Set("Access-Control-Allow-Headers", "Content-Type, Idempotency-Key")
		h.Set("Access-Control-Max-Age", "600")
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// sameOrigin refuses a form or a script of another site that sends people here
// with their browser; a configured origin may send enquiries.
func (s *Server) sameOrigin(next http.Handler) http.Handler {
	strict, open := s.guard(), s.guard()
	for _, o := range s.cfg.IntakeOrigins {
		if err := open.AddTrustedOrigin(o); err != nil {
			open = strict // a wrong origin trusts nobody
			break
		}
	}
	refusing, trusting := strict.Handler(next), open.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == leadsPath {
			trusting.ServeHTTP(w, r)
			return
		}
		refusing.ServeHTTP(w, r)
	})
}

func (s *Server) guard() *http.CrossOriginProtection {
	g := http.NewCrossOriginProtection()
	g.SetDenyHandler(s.adapt(func(http.ResponseWriter, *http.Request) error {
		return &statusError{status: http.StatusForbidden, code: "other_site"}
	}))
	return g
}
