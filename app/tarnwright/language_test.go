package main

import (
	"encoding/json"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core/design"
	"tarnwright/internal/httpapi"
	"tarnwright/internal/markup"
	"tarnwright/internal/ui/page"
)

func shown(t *testing.T, p pages, language, query string) (httpapi.Shown, string) {
	t.Helper()
	v, err := url.ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	got := p.page(httpapi.Ask{Values: v, Key: "key-of-sixteen-letters", Language: language})
	return got, markup.HTML(got.Tree)
}

// Every view is drawn in Spanish with the same figures, keeps the language in
// its links and forms, and leaves no key unworded and no English behind, the
// builder's own names among them.
func TestPages_AreDrawnInSpanish(t *testing.T) {
	t.Parallel()
	p := newPages(book.Demo(), book.DemoWords())
	number := regexp.MustCompile(`\d[\d,.]*`)
	tags := regexp.MustCompile(`(?s)<svg.*?</svg>|<p class="src">.*?</p>|<[^>]*>`) // books are cited by their own titles
	key := regexp.MustCompile(`\b(page|view|send|ask|print|moves|works|marks|compare|plan|finding|unit)\.[a-z_]+`)
	english := regexp.MustCompile(`\b(the|your|with|water|pump|depth|days|months)\b`)
	for _, query := range []string{"", "view=pump", "view=compare", "view=send"} {
		es, html := shown(t, p, "es", query+"&lang=es")
		_, plain := shown(t, p, "en", query)
		if es.Language != "es" || !strings.Contains(es.Title, "Fernhollow") {
			t.Errorf("%s: language %q, title %q", query, es.Language, es.Title)
		}
		words := tags.ReplaceAllString(html, " ")
		if m := key.FindString(words); m != "" {
			t.Errorf("%s: a key without words, %s", query, m)
		}
		if english.MatchString(words) {
			at := english.FindStringIndex(words)
			t.Errorf("English in the Spanish page: …%s…", words[max(0, at[0]-60):min(len(words), at[1]+60)])
		}
		if !strings.Contains(html, "lang=es") || !strings.Contains(html, `name="lang" value="es"`) {
			t.Errorf("%s: the language is lost on the way", query)
		}
		a, b := number.FindAllString(tags.ReplaceAllString(plain, " "), -1), number.FindAllString(words, -1)
		if len(a) < 20 || len(a) > len(b)+20 || len(b) > len(a)+20 {
			t.Errorf("%s: %d numbers in English, %d in Spanish", query, len(a), len(b))
		}
	}
}

// What is agreed to is stored in the language it was read in.
func TestConsent_IsInTheLanguageThatWasRead(t *testing.T) {
	t.Parallel()
	p := newPages(book.Demo(), book.DemoWords())
	en, es := p.consent("en", design.Design{}), p.consent("es", design.Design{})
	if en.Language != "en" || es.Language != "es" || en.Text == es.Text || !strings.Contains(es.Text, "Alder Reach") {
		t.Errorf("%+v, %+v", en, es)
	}
}

// The widget gets every text that a page may say, and no more.
func TestTexts_AreWhatAPageSays(t *testing.T) {
	t.Parallel()
	p := newPages(book.Demo(), book.DemoWords())
	for _, language := range page.Languages() {
		raw := p.texts()[language]
		var texts map[string]string
		if err := json.Unmarshal(raw, &texts); err != nil {
			t.Errorf("%s: %v", language, err)
		}
		if texts["page.lang"] != language {
			t.Errorf("%s: these are the words of %q", language, texts["page.lang"])
		}
		for _, key := range []string{"send.go", "finding.ice.text", "how.pond.area"} {
			if texts[key] == "" {
				t.Errorf("%s: the widget lacks %s", language, key)
			}
		}
		if texts["server.busy"] != "" || texts["letter.see"] != "" {
			t.Errorf("%s: the widget carries words that no page says", language)
		}
		t.Logf("%s: %d texts, %d bytes", language, len(texts), len(raw))
	}
}
