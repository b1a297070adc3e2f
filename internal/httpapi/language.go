package httpapi

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// languageName is the language in the address, where a person has chosen one.
const languageName = "lang"

// language is the one of the page's languages that a client wants: the one in
// the address, else the dearest of its Accept-Language header, else the first.
func (s *Server) language(r *http.Request, values url.Values) string {
	offered := s.cfg.Languages
	if len(offered) == 0 {
		return "en"
	}
	if l := values.Get(languageName); slices.Contains(offered, l) {
		return l
	}
	best, most := offered[0], 0.0
	for _, part := range strings.Split(strings.Join(r.Header.Values("Accept-Language"), ","), ",") {
		tag, weight, weighted := strings.Cut(part, ";")
		q := 1.0
		if weighted {
			x, err := strconv.ParseFloat(strings.TrimPrefix(strings.TrimSpace(weight), "q="), 64)
			if err != nil {
				continue
			}
			q = x
		}
		base, _, _ := strings.Cut(strings.ToLower(strings.TrimSpace(tag)), "-")
		if q > most && slices.Contains(offered, base) {
			best, most = base, q
		}
	}
	return best
}

// speakName is the button beside the enquiry that asks for the page in another
// language where no script can do so.
const speakName = "speak"

// speaks tells whether a sent form asks for another language and for nothing
// else; then it says so to whatever reads the form after.
func (s *Server) speaks(form url.Values) bool {
	language := form.Get(speakName)
	form.Del(speakName)
	if !slices.Contains(s.cfg.Languages, language) {
		return false
	}
	form.Set(languageName, language)
	return true
}
