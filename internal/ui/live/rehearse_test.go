package live

import (
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/browser"
)

// TestRehearse_PlaysAnyPageAndSaysOnceThatItMayStart: a rehearsal that stops
// would leave the page waiting for it.
func TestRehearse_PlaysAnyPageAndSaysOnceThatItMayStart(t *testing.T) {
	t.Parallel()
	cfg := FromBook(book.Demo(), say.English())
	for _, query := range []string{"", "view=pump", "view=compare&also=", "view=send", "shape=oval&length=44+ft&units=metric", "length=none", "%zz", "ask=steps&part=site"} {
		for _, narrow := range []bool{false, true} {
			done := 0
			Rehearse(cfg, browser.Part{Query: query, Narrow: narrow, Done: func() { done++ }})
			if done != 1 {
				t.Errorf("%q, narrow %v: the page was let in %d times", query, narrow, done)
			}
		}
	}
}
