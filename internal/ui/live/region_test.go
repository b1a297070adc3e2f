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

// The price of a state is shown with its year and its source, a typed one as
// the reader's own; another currency has no states.
func TestFromBook_OffersTheStatesWithTheirYearAndSource(t *testing.T) {
	t.Parallel()
	shown := func(query, currency string) string {
		b := book.Demo()
		b.Currency = currency
		cfg := live.FromBook(b, say.English())
		v, err := url.ParseQuery(query)
		if err != nil {
			t.Fatal(err)
		}
		s := page.New(v, cfg.Defaults)
		asked := live.Answers{Book: b}
		return markup.HTML(page.Tree(s, page.Build(s, asked.Of(s), cfg.Kit)))
	}
	for _, c := range []struct {
		why, query, currency string
		has, lacks           string
	}{
		{"the price of a state", "state=ca", "USD", "California: the average of homes in 2023", "Your own price"},
		{"its source", "state=ca", "USD", "US Energy Information Administration", ""},
		{"in the field", "state=ca", "USD", `value="$0.2951`, ""},
		{"a typed price", "state=ca&power=0.2", "USD", "Your own price", "average of homes"},
		{"another currency", "", "EUR", `name="power"`, `name="state"`},
	} {
		html := shown(c.query, c.currency)
		if !strings.Contains(html, c.has) || c.lacks != "" && strings.Contains(html, c.lacks) {
			t.Errorf("%s: want %q and not %q on the page", c.why, c.has, c.lacks)
		}
	}
}
