package live

import (
	"net/url"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/page"
)

// TestAhead_WorksOutWhatTheComparisonShows, and that alone: the steps of each
// answer are dozens of ponds, and one pond is compared with none.
func TestAhead_WorksOutWhatTheComparisonShows(t *testing.T) {
	t.Parallel()
	cfg := FromBook(book.Demo(), say.English())
	for query, ponds := range map[string]int{"": 0, "view=compare&opt=length%3D44ft": 0, "opt=length%3D44ft": 2, "opt=length%3D44ft&opt=cascade%3Doff&steps=1": 3} {
		v, err := url.ParseQuery(query)
		if err != nil {
			t.Fatal(err)
		}
		p := &Page{cfg: cfg, asked: Answers{Book: cfg.Book}, state: page.New(v, cfg.Defaults)}
		for _, piece := range p.ahead() {
			piece()
		}
		if got := len(p.asked.sheets); got != ponds {
			t.Errorf("%q: %d ponds are worked out ahead, want %d", query, got, ponds)
		}
		if len(p.ahead()) > 0 && p.state.View != page.CompareView {
			t.Errorf("%q: it is worked out again", query)
		}
		if ponds == 0 {
			continue
		}
		p.state = page.Update(p.state, page.Action{Name: page.ActView, Arg: string(page.CompareView)})
		p.state.Steps = false
		p.work()
		if sheets, plans := len(p.asked.sheets), len(p.asked.plans); sheets != ponds || plans != ponds {
			t.Errorf("%q: then %d sheets and %d plans are there, want %d", query, sheets, plans, ponds)
		}
	}
}
