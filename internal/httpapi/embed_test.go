package httpapi_test

import (
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/httpapi"
)

// What another site's page takes has one address, is kept for minutes and may
// be read by all.
func TestEmbed_IsKeptForMinutesAndReadByAll(t *testing.T) {
	t.Parallel()
	w := setUp(t).get("/embed.js")
	if h := w.Header(); w.Body.String() != "(() => {})();\n" || h.Get("Cache-Control") != "public, max-age=300" || h.Get("ETag") == "" {
		t.Errorf("%q with %v", w.Body, h)
	}
	bare := files()
	delete(bare, "host/embed.js")
	if w := setUp(t, func(c *httpapi.Config) { c.Assets = bare }).get("/embed.js"); w.Code != 404 {
		t.Errorf("without the file: %d", w.Code)
	}
}

// The plan is drawn once, for the width that the asking browser or the frame
// around the page lets the server expect.
func TestPage_IsDrawnForTheWidthThatIsExpected(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, path, name, value string
		narrow                 bool
	}{
		{"nothing known", "/", "", "", false},
		{"a phone says so", "/", "Sec-CH-UA-Mobile", "?1", true},
		{"a desk says so", "/", "Sec-CH-UA-Mobile", "?0", false},
		{"a phone by its name", "/", "User-Agent", "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) Mobile/15E148", true},
		{"a tablet by its name", "/", "User-Agent", "Mozilla/5.0 (iPad; CPU OS 12_2 like Mac OS X) Mobile/15E148", false},
		{"a narrow frame on a desk", "/?at=narrow", "Sec-CH-UA-Mobile", "?0", true},
		{"a wide page asked for by a phone", "/?at=wide", "Sec-CH-UA-Mobile", "?1", false},
	} {
		var asked httpapi.Ask
		r := setUp(t, func(cfg *httpapi.Config) {
			cfg.Page = func(a httpapi.Ask) httpapi.Shown { asked = a; return tree(a) }
		})
		r.get(c.path, c.name, c.value)
		if asked.Narrow != c.narrow {
			t.Errorf("%s: narrow %v, want %v", c.why, asked.Narrow, c.narrow)
		}
	}
}

// The builder's own look comes as files of their own, after ours.
func TestPage_NamesTheBuildersThemeAndLogo(t *testing.T) {
	t.Parallel()
	var asked httpapi.Ask
	r := setUp(t, func(c *httpapi.Config) {
		c.Theme, c.Logo = []byte(":root{--ink:#102030}"), httpapi.Picture{Name: "mark.svg", Data: []byte("<svg/>")}
		c.Page = func(a httpapi.Ask) httpapi.Shown { asked = a; return tree(a) }
	})
	text := r.get("/").Body.String()
	theme := regexp.MustCompile(`<link rel="stylesheet" href="(/assets/theme\.[0-9a-f]{12}\.css)">`).FindStringSubmatch(text)
	logo := regexp.MustCompile(`data-logo="(/assets/logo\.[0-9a-f]{12}\.svg)"`).FindStringSubmatch(text)
	if theme == nil || logo == nil || asked.Logo != logo[1] || strings.Index(text, "/assets/app.") > strings.Index(text, "/assets/theme.") {
		t.Fatalf("theme %v, logo %v, asked %q:\n%s", theme, logo, asked.Logo, text)
	}
	if w := r.get(theme[1]); w.Body.String() != ":root{--ink:#102030}" || w.Header().Get("Content-Type") != "text/css; charset=utf-8" {
		t.Errorf("the theme: %v %s", w.Header(), w.Body)
	}
	if w := r.get(logo[1]); w.Body.String() != "<svg/>" || w.Header().Get("Content-Type") != "image/svg+xml; charset=utf-8" {
		t.Errorf("the logo: %v %s", w.Header(), w.Body)
	}
}
