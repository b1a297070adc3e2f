package live_test

import (
	"math"
	"net/url"
	"strconv"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/form"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// frame is a page that has come to rest and follows a person from now on.
func frame(width page.Width, pace page.Pace) (cfg live.Config, s page.State, asked *live.Answers, e page.Easel) {
	cfg = live.FromBook(book.Demo(), say.English())
	s = page.New(url.Values{}, cfg.Defaults)
	s.Live = true
	asked = &live.Answers{Book: cfg.Book}
	a := asked.Of(s)
	s = s.Seeing(a)
	_, e = page.Paint(s, a, cfg.Kit, page.Easel{Width: width})
	e.Pace, asked.Quick = pace, true
	return cfg, s, asked, e
}

// What one frame of a drag costs before the browser has any part in it: a ring
// moves, the pond is worked out, worded, drawn and laid out as a tree.
func BenchmarkFrame_Drag(b *testing.B) {
	cfg, s, asked, e := frame(page.Wide, page.InHand)
	from := s.Rings[0]
	for i := 0; b.Loop(); i++ {
		x, y := from.X-0.6*(1-math.Cos(float64(i)*0.21)), from.Y+0.6*math.Sin(float64(i)*0.21)
		s = page.Update(s, page.Action{Name: page.ActRing, Arg: "0", Value: strconv.FormatFloat(x, 'f', 4, 64) + "," + strconv.FormatFloat(y, 'f', 4, 64)})
		e = shown(cfg, s.Seeing(asked.Of(s)), asked, e)
	}
}

// The same for a number that is stepped up and down: on a phone, where the plan
// alone is drawn.
func BenchmarkFrame_Typed(b *testing.B) {
	cfg, s, asked, e := frame(page.Narrow, page.Typing)
	for i := 0; b.Loop(); i++ {
		s.Form = s.Form.With(form.Length, strconv.Itoa(900+i%300)+" cm")
		e = shown(cfg, s.Seeing(asked.Of(s)), asked, e)
	}
}
