package main

import (
	"context"
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tarnwright/internal/book"
	"tarnwright/internal/config"
	"tarnwright/internal/lead"
)

// A letter is in the language that the office reads, with the same figures;
// what the person wrote and agreed to stays as it is.
func TestLetter_IsInTheOfficesLanguage(t *testing.T) {
	t.Parallel()
	d, _ := demoDesign(t)
	l := lead.Lead{Reference: "FP-7F3K2Q", Design: d, Received: time.Date(2026, 11, 29, 16, 0, 0, 0, time.UTC),
		Contact: lead.Contact{Name: "Maren Oakes", Email: "maren@oakesmail.example", Note: "Slopes to the south."}, Consent: lead.Consent{Text: "You may call me."}}
	letters := map[string]string{}
	for language, subject := range map[string]string{"en": "Pond enquiry FP-7F3K2Q: Maren Oakes", "es": "Consulta de estanque FP-7F3K2Q: Maren Oakes"} {
		letter, err := letterOf(config.Site{MailLanguage: language}, book.Demo())
		if err != nil {
			t.Fatal(err)
		}
		got, text := letter(l, "tarnwright leads FP-7F3K2Q")
		if got != subject {
			t.Errorf("%s: the subject is %q, want %q", language, got, subject)
		}
		letters[language] = text
	}
	for _, own := range []string{"> Slopes to the south.", "> You may call me."} {
		if !strings.Contains(letters["es"], own) {
			t.Errorf("the person's own %q is not in the letter:\n%s", own, letters["es"])
		}
	}
	english := regexp.MustCompile(`\b(the pond|your|with|water|pump|depth|days|months)\b`)
	if m := english.FindString(letters["es"]); m != "" {
		t.Errorf("English in the Spanish letter: %q\n%s", m, letters["es"])
	}
	number := regexp.MustCompile(`\d[\d,.]*`)
	en, es := number.FindAllString(letters["en"], -1), number.FindAllString(letters["es"], -1)
	slices.Sort(en) // sentences may name theirs in another order
	slices.Sort(es)
	if len(en) < 12 || !slices.Equal(en, es) {
		t.Errorf("the figures are %v in English, %v in Spanish", en, es)
	}
}

// A letter leads to the enquiry's page in the office where there is one to be
// found, and otherwise names the command that shows the same.
func TestWhereIs_IsTheOfficeOrTheCommand(t *testing.T) {
	t.Parallel()
	hosts := []string{"check.fernhollow.example", "www.fernhollow.example"}
	for _, c := range []struct {
		what string
		site config.Site
		open bool
		err  error
		want string
	}{
		{"a name and an office", config.Site{ID: "main", Hosts: hosts}, true, nil, "https://check.fernhollow.example/office/leads/FP-7F3K2Q"},
		{"nobody asked in", config.Site{ID: "main", Hosts: hosts}, false, nil, "tarnwright leads FP-7F3K2Q"},
		{"no name", config.Site{ID: "main"}, true, nil, "tarnwright leads FP-7F3K2Q"},
		{"no name, another site", config.Site{ID: "oak-hill"}, true, nil, "tarnwright leads -site oak-hill FP-7F3K2Q"},
		{"a database that does not answer", config.Site{ID: "main", Hosts: hosts}, false, errors.New("busy"), "https://check.fernhollow.example/office/leads/FP-7F3K2Q"},
	} {
		got := whereIs(t.Context(), c.site, "FP-7F3K2Q", func(context.Context) (bool, error) { return c.open, c.err })
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}
