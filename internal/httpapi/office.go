package httpapi

import (
	"net/http"
	"strings"
)

// office hands a request to the builder's own pages. While nobody was asked in
// there are none. Who tries passwords from one address has to slow down.
func (s *Server) office(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Office == nil || !s.cfg.Office.Open(r.Context()) {
		return s.nothing(w, r)
	}
	if r.Method == http.MethodPost && (r.URL.Path == "/office/sign-in" || strings.HasPrefix(r.URL.Path, "/office/join/")) {
		if err := s.limited(s.signIns, r); err != nil {
			return err
		}
	}
	s.cfg.Office.ServeHTTP(w, r)
	return nil
}
