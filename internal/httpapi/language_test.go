package httpapi_test

import (
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

// Words go with the page where they are given, as data that cannot end the
// element it stands in.
func TestPage_BringsItsWords(t *testing.T) {
	t.Parallel()
	s := setUp(t, func(cfg *httpapi.Config) {
		page := cfg.Page
		cfg.Page = func(ask httpapi.Ask) httpapi.Shown {
			shown := page(ask)
			if ask.Language == "es" {
				shown.Language, shown.Words = "es", []byte(`{"a":"</script><b>"}`)
			}
			return shown
		}
	})
	es, en := s.get("/?lang=es").Body.String(), s.get("/").Body.String()
	if !strings.Contains(es, `<html lang="es"`) || !strings.Contains(es, `id="words">{"a":"\u003c/script\u003e\u003cb\u003e"}</script>`) {
		t.Errorf("no words in %s", es)
	}
	if strings.Contains(en, `id="words"`) {
		t.Errorf("words that nobody needs in %s", en)
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
