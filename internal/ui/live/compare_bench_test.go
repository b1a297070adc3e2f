package live_test

import (
	"net/url"
	"strconv"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/form"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

const threePonds = "view=compare&opt=length%3D44ft%26width%3D19ft&opt=length%3D28ft%26cascade%3Doff"

func opened(b *testing.B, query string) (live.Config, page.State) {
	b.Helper()
	cfg := live.FromBook(book.Demo(), say.English())
	v, err := url.ParseQuery(query)
	if err != nil {
		b.Fatal(err)
	}
	return cfg, page.New(v, cfg.Defaults)
}

func shown(cfg live.Config, s page.State, asked *live.Answers, e page.Easel) page.Easel {
	m, e := page.Paint(s, asked.Of(s), cfg.Kit, e)
	page.Tree(s, m)
	return e
}

// BenchmarkCompare is three ponds worked out, worded and drawn: all of them
// anew, and with one of them changed since.
func BenchmarkCompare(b *testing.B) {
	b.Run("three", func(b *testing.B) {
		cfg, s := opened(b, threePonds)
		for b.Loop() {
			asked := live.Answers{Book: cfg.Book}
			shown(cfg, s, &asked, page.Easel{Width: page.Wide})
		}
	})
	b.Run("one changed", func(b *testing.B) {
		cfg, s := opened(b, threePonds)
		asked := live.Answers{Book: cfg.Book}
		e := shown(cfg, s, &asked, page.Easel{Width: page.Wide})
		i := 0
		for b.Loop() {
			i++
			s.Form = s.Form.With(form.Deep, strconv.Itoa(150+i%1000)+" cm")
			e = shown(cfg, s, &asked, e)
		}
	})
	b.Run("steps", func(b *testing.B) {
		cfg, s := opened(b, threePonds+"&steps=1")
		for b.Loop() {
			asked := live.Answers{Book: cfg.Book}
			shown(cfg, s, &asked, page.Easel{Width: page.Wide})
		}
	})
}
