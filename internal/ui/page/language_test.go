package page_test

import (
	"strings"
	"testing"

	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/page"
)

// What a Spanish page shows in its fields is what it reads when it is sent.
func TestSpanish_FieldsReadBackWhatTheyShow(t *testing.T) {
	t.Parallel()
	s := start("lang=es")
	k := kit()
	k.Words = say.Spanish()
	m := page.Build(s, page.Answered{Sheet: sample()}, k)
	if got := m.Answers[form.BeachSlope].Text; got != "1 en 5" {
		t.Errorf("the slope reads %q", got)
	}
	query := "sent=1&lang=es"
	for f, a := range m.Answers {
		query += "&" + string(f) + "=" + strings.ReplaceAll(strings.ReplaceAll(a.Text, " ", "+"), "&", "")
	}
	again := start(query)
	if faults := again.Form.Faults(); len(faults) > 0 {
		t.Errorf("sent as shown it has faults %v", faults)
	}
	if again.Form.Value(form.BeachSlope) != 5 || again.Form.Value(form.From) != s.Form.Value(form.From) {
		t.Errorf("slope %g, first month %g", again.Form.Value(form.BeachSlope), again.Form.Value(form.From))
	}
	if again.Address() != s.Address() || s.Address() != "/?lang=es" {
		t.Errorf("address %q, at first %q", again.Address(), s.Address())
	}
}

// The language goes on to every view and form, and a new start keeps it.
func TestLanguage_GoesAlong(t *testing.T) {
	t.Parallel()
	s := start("lang=es&view=pump")
	m := built(s)
	for v, href := range m.Links {
		if !strings.Contains(href, "lang=es") {
			t.Errorf("the link to %s is %s", v, href)
		}
	}
	if m.Another != "/?lang=es" {
		t.Errorf("another start is %s", m.Another)
	}
	if start("lang=xx").Lang != "" || start("").Address() != "/" {
		t.Error("a language there is not, or none, is in the address")
	}
	if html := markup.HTML(page.Tree(s, m)); !strings.Contains(html, `name="lang" value="es"`) {
		t.Error("the form does not carry the language")
	}
}

// What moves the budget stands folded under it, on both pages that show it.
func TestMoves_StandUnderTheBudget(t *testing.T) {
	t.Parallel()
	for _, query := range []string{"", "view=send"} {
		s := start(query)
		m := built(s)
		html := markup.HTML(page.Tree(s, m))
		if want := len(sample().Table("budget.items").Rows) > 0; strings.Contains(html, `id="moves"`) != want {
			t.Errorf("%q: folded budget there %v, want %v", query, !want, want)
		}
	}
}
