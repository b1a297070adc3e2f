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

// What one frame of a drag costs before the browser has any part in it: a ring
// moves, the pond is worked out, worded, drawn and laid out as a tree.
func BenchmarkFrame_Drag(b *testing.B) {
	cfg := live.FromBook(book.Demo(), say.English())
	s := page.New(url.Values{}, cfg.Defaults)
	s.Live = true
	asked := live.Answers{Book: cfg.Book}
	a := asked.Of(s)
	s = s.Seeing(a)
	e := page.Easel{Width: page.Wide}
	_, e = page.Paint(s, a, cfg.Kit, e)
	e.Pace, asked.Quick = page.InHand, true
	from := s.Rings[0]
	for i := 0; b.Loop(); i++ {
		x, y := from.X-0.6*(1-math.Cos(float64(i)*0.21)), from.Y+0.6*math.Sin(float64(i)*0.21)
		s = page.Update(s, page.Action{Name: page.ActRing, Arg: "0", Value: strconv.FormatFloat(x, 'f', 4, 64) + "," + strconv.FormatFloat(y, 'f', 4, 64)})
		a = asked.Of(s)
		s = s.Seeing(a)
		var m page.Model
		m, e = page.Paint(s, a, cfg.Kit, e)
		page.Tree(s, m)
	}
}

// The same for a number that is stepped up and down: on a phone, where the plan
// alone is drawn.
func BenchmarkFrame_Typed(b *testing.B) {
	cfg := live.FromBook(book.Demo(), say.English())
	s := page.New(url.Values{}, cfg.Defaults)
	s.Live = true
	asked := live.Answers{Book: cfg.Book}
	a := asked.Of(s)
	s = s.Seeing(a)
	e := page.Easel{Width: page.Narrow}
	_, e = page.Paint(s, a, cfg.Kit, e)
	e.Pace, asked.Quick = page.Typing, true
	for i := 0; b.Loop(); i++ {
		s.Form = s.Form.With(form.Length, strconv.Itoa(900+i%300)+" cm")
		a = asked.Of(s)
		s = s.Seeing(a)
		var m page.Model
		m, e = page.Paint(s, a, cfg.Kit, e)
		page.Tree(s, m)
	}
}
