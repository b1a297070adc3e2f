package page_test

import (
	"net/url"
	"regexp"
	"strconv"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

var placed = regexp.MustCompile(`<text class="dr-(?:name|note)" x="([\d.-]+)" y="([\d.-]+)"(?: text-anchor="(\w+)")?>([^<]+)`)

// TestLabels_StandOnNoOther: a name in the plan or the section stands on no other, however
// much there is to name. Widths are taken as five and a half px a letter, which
// no name is narrower than.
func TestLabels_StandOnNoOther(t *testing.T) {
	t.Parallel()
	for _, words := range []say.Words{say.English(), say.Spanish()} {
		cfg := live.FromBook(book.Demo(), words)
		for _, query := range []string{"", "jets=4", "jets=4&stairs=on", "jets=8&stairs=on&stairs_at=300", "stairs=on&stairs_at=110&jets=2",
			"beach=E", "beach=E&length=24+ft", "length=14+ft&width=10+ft&deep=5+ft", "length=60+ft&width=30+ft", "jets=6&beach=e", "jets=6&beach=e&stairs=on", "shape=round&jets=8&stairs=on", "shape=long&jets=4&stairs=on&fence=on&patio=on", "cascade=off&jets=4&stairs=on"} {
			v, err := url.ParseQuery(query)
			if err != nil {
				t.Fatal(err)
			}
			s := page.New(v, cfg.Defaults)
			s.Live = true
			asked := live.Answers{Book: cfg.Book}
			a := asked.Of(s)
			m, _ := page.Paint(s.Seeing(a), a, cfg.Kit, page.Easel{Width: page.Wide})
			noOverlap(t, query, markup.HTML(page.Tree(s, m)))
		}
	}
}

func noOverlap(t *testing.T, query, html string) {
	t.Helper()
	type words struct {
		text                  string
		left, right, top, low float64
	}
	var all []words
	for _, m := range placed.FindAllStringSubmatch(html, -1) {
		x, err := strconv.ParseFloat(m[1], 64)
		y, err2 := strconv.ParseFloat(m[2], 64)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		wide := 5.5 * float64(len([]rune(m[4])))
		left := map[string]float64{"": x, "start": x, "middle": x - wide/2, "end": x - wide}[m[3]]
		all = append(all, words{m[4], left, left + wide, y - 9, y})
	}
	if len(all) < 7 {
		t.Fatalf("%q: only %d names found: the drawing is written otherwise", query, len(all))
	}
	for i, a := range all {
		for _, b := range all[:i] {
			if a.left < b.right && b.left < a.right && a.top < b.low && b.top < a.low {
				t.Errorf("%q: %q stands on %q", query, a.text, b.text)
			}
		}
	}
}
