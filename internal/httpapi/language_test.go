package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

// The language is the one in the address, else the client's dearest of those
// there are, else the first.
func TestLanguage_IsTheOneThatIsAskedFor(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, query, header, want string }{
		{"nothing said", "", "", "en"},
		{"the address says", "?lang=es", "", "es"},
		{"the address goes before the browser", "?lang=en", "es", "en"},
		{"a browser in Spanish", "", "es-MX,es;q=0.9,en;q=0.8", "es"},
		{"a browser that likes English better", "", "es;q=0.4, en-US;q=0.9", "en"},
		{"a language there is not, then Spanish", "", "fr, es;q=0.5", "es"},
		{"none there is", "", "fr, de", "en"},
		{"an address with another", "?lang=xx", "es", "es"},
		{"a weight that is no number", "", "es;q=much", "en"},
		{"Spanish refused", "", "es;q=0", "en"},
	} {
		got := ""
		s := setUp(t, func(cfg *httpapi.Config) {
			page := cfg.Page
			cfg.Page = func(ask httpapi.Ask) httpapi.Shown {
				got = ask.Language
				return page(ask)
			}
		})
		s.get("/"+c.query, "Accept-Language", c.header)
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.why, got, c.want)
		}
	}
}

// The words of a page's language lie beside it, as data, under a name that
// changes with them; a tablet keeps those of every language.
func TestPage_NamesItsWords(t *testing.T) {
	t.Parallel()
	s := setUp(t, func(cfg *httpapi.Config) {
		page := cfg.Page
		cfg.Books = map[string][]byte{"es": []byte(`{"libro":1}`)}
		cfg.Texts = map[string][]byte{"en": []byte(`{"a":"</script><b>"}`), "es": []byte(`{"a":"ñ"}`)}
		cfg.Page = func(ask httpapi.Ask) httpapi.Shown {
			shown := page(ask)
			shown.Language = ask.Language
			return shown
		}
	})
	worker := s.get("/app-worker.js").Body.String()
	if shell := s.get("/shell?lang=es").Body.String(); !strings.Contains(shell, `<html lang="es"`) || !strings.Contains(worker, `"/shell?lang=es"`) {
		t.Errorf("a tablet keeps no page in Spanish: %.100s", shell)
	}
	bookOf := func(language string) string {
		m := regexp.MustCompile(`data-book="([^"]+)"`).FindStringSubmatch(s.get("/?lang=" + language).Body.String())
		if len(m) < 2 || !strings.Contains(worker, `"`+m[1]+`"`) {
			t.Errorf("%s: the page names the book %v, which a tablet must keep", language, m)
			return ""
		}
		return s.get(m[1]).Body.String()
	}
	if es, en := bookOf("es"), bookOf("en"); es != `{"libro":1}` || en == es || en == "" {
		t.Errorf("the book is %s in Spanish and %s in English", es, en)
	}
	for language, want := range map[string]string{"en": `{"a":"</script><b>"}`, "es": `{"a":"ñ"}`} {
		address := regexp.MustCompile(`data-words="(/assets/words\.[0-9a-f]{12}\.json)"`).FindStringSubmatch(s.get("/?lang=" + language).Body.String())
		if len(address) < 2 {
			t.Errorf("%s: the page names no words", language)
			continue
		}
		if w := s.get(address[1]); w.Body.String() != want || w.Header().Get("Content-Type") != "application/json" || !strings.Contains(w.Header().Get("Cache-Control"), "immutable") {
			t.Errorf("%s: %v %s", language, w.Header(), w.Body)
		}
		if !strings.Contains(worker, `"`+address[1]+`"`) {
			t.Errorf("a tablet does not keep the words of %s", language)
		}
	}
}

// A page that is not there says so in the client's language.
func TestErrorPage_SpeaksTheLanguage(t *testing.T) {
	t.Parallel()
	s := setUp(t, func(cfg *httpapi.Config) {
		cfg.Words = func(language, key string) string { return language + " " + key }
	})
	if body := s.get("/nowhere", "Accept-Language", "es").Body.String(); !strings.Contains(body, "es server.not_found") || !strings.Contains(body, `lang="es"`) {
		t.Errorf("%s", body)
	}
}

// Another language beside the form, without script: all that was typed comes
// back, nothing is checked and nothing is stored.
func TestForm_InAnotherLanguageKeepsWhatWasTyped(t *testing.T) {
	t.Parallel()
	var asked httpapi.Ask
	r := setUp(t, func(cfg *httpapi.Config) {
		page := cfg.Page
		cfg.Page = func(ask httpapi.Ask) httpapi.Shown {
			asked = ask
			shown := page(ask)
			shown.Language = ask.Language
			return shown
		}
	})
	typed := url.Values{"name": {"Maren Oakes"}, "email": {"maren@"}, "length": {"40 ft"}, "key": {"0123456789abcdef"}, "lang": {"en"}, "speak": {"es"}}
	req := httptest.NewRequest(http.MethodPost, "/lead", strings.NewReader(typed.Encode()))
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := r.do(req)
	body := w.Body.String()
	if w.Code != http.StatusOK || !strings.Contains(body, `<html lang="es"`) || strings.Contains(body, "fault") {
		t.Errorf("%d %.400s", w.Code, body)
	}
	if asked.Contact.Name != "Maren Oakes" || asked.Contact.Email != "maren@" || asked.Values.Get("length") != "40 ft" || asked.Values.Get("lang") != "es" || asked.Sent != nil {
		t.Errorf("the page is asked %+v", asked)
	}
}
