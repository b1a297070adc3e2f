package live_test

import (
	"net/url"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// pageAt is the page of the demo's book at an address, as HTML.
func pageAt(t *testing.T, w say.Words, query string) string {
	t.Helper()
	v, err := url.ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	c := live.FromBook(book.Demo(), w)
	s := page.New(v, c.Defaults)
	answers := live.Answers{Book: c.Book}
	return strings.ReplaceAll(markup.HTML(page.Tree(s, page.Build(s, answers.Of(s), c.Kit))), "\u00a0", " ")
}

// The three ways of pricing, and what each asks for; hours and jets where they
// are asked, drawn and compared; in both languages.
func TestPage_ShowsPriceHoursAndJets(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, query string
		spanish    bool
		has, lacks []string
	}{
		{why: "three ways of pricing", query: "", has: []string{`id="f-bill-average" name="bill"`, `id="f-bill-own"`, `id="f-bill-tariff"`, `id="f-cascade_hours"`, `value="8 h"`, `id="f-night"`, `id="f-winter"`}},
		{why: "the tariff asks for the home's own use", query: "bill=tariff", has: []string{`value="900 kWh"`, "Alder Reach flat rate."}},
		{why: "jets under water", query: "view=pump&jets=4", has: []string{"4 × Jets", "4 mouths of 0.4 in", "Jets beside the rest, asks for the most", `id="f-nozzle"`, `id="f-jet_pipe"`, "A valve shuts the jets"}},
		{why: "no jets", query: "view=pump", lacks: []string{"× Jets", "A valve shuts the jets"}},
		{why: "a thin sheet has two ways out", query: "view=pump", has: []string{"Try a lip of 3 ft 6 in, with more water on it", "Try 1 1/4 in of water over the lip"}},
		{why: "night and winter by the pump", query: "view=pump&night=slow&winter=slow", has: []string{"Night hours, 1,224 a year", "Winter hours, 2,160 a year"}},
		{why: "night and winter where ponds are compared", query: "view=compare&night=slow&winter=slow", has: []string{"Night hours, 1,224 a year", ">Night</th>", ">Winter</th>"}},
		{why: "no night of its own", query: "view=compare", lacks: []string{"Night hours", ">Night</th>"}},
		{why: "the states' rules", query: "view=pump", has: []string{"Some states ask for more", "1605.3(g)(5)", "10 CFR 431.485"}},
		{why: "the grid's table and year", query: "view=compare", has: []string{"eGRID2022, summary table 1"}},
		{why: "in Spanish", query: "view=pump&jets=2&night=slow", spanish: true, has: []string{"2 × Chorros", "Horas de noche, 1,224 al año"}},
	} {
		w := say.English()
		if c.spanish {
			w = say.Spanish()
		}
		html := pageAt(t, w, c.query)
		for _, text := range c.has {
			if !strings.Contains(html, text) {
				t.Errorf("%s: %q is not on the page", c.why, text)
			}
		}
		for _, text := range c.lacks {
			if strings.Contains(html, text) {
				t.Errorf("%s: %q is on the page", c.why, text)
			}
		}
	}
}
