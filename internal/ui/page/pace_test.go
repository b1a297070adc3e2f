package page_test

import (
	"net/url"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// paced paints two ponds one after the other, the second at a pace of its own
// and then at rest, and returns both pages as HTML beside a fresh one.
func paced(t *testing.T, pace page.Pace) (quick, rested, fresh string) {
	t.Helper()
	cfg := live.FromBook(book.Demo(), say.English())
	was := page.New(url.Values{}, cfg.Defaults)
	was.Live = true
	now := was
	now.Form = now.Form.With(form.Length, "36 ft")
	html := func(s page.State, e page.Easel) (string, page.Easel) {
		asked := live.Answers{Book: cfg.Book, Quick: e.Pace != page.Settled}
		m, e := page.Paint(s, asked.Of(s), cfg.Kit, e)
		return markup.HTML(page.Tree(s, m)), e
	}
	_, e := html(was, page.Easel{Width: page.Wide})
	e.Pace = pace
	quick, e = html(now, e)
	e.Pace = page.Settled
	rested, _ = html(now, e)
	fresh, _ = html(now, page.Easel{Width: page.Wide})
	return quick, rested, fresh
}

// section is what stands in a page from a mark on to the end of its element.
func section(t *testing.T, html, from, to string) string {
	t.Helper()
	_, rest, ok := strings.Cut(html, from)
	out, _, ok2 := strings.Cut(rest, to)
	if !ok || !ok2 {
		t.Fatalf("the page has no %q", from)
	}
	return out
}

func TestPaint_RestsWhereAFreshPageWouldStand(t *testing.T) {
	t.Parallel()
	for _, pace := range []page.Pace{page.Typing, page.InHand} {
		quick, rested, fresh := paced(t, pace)
		if rested != fresh {
			t.Errorf("pace %d: after rest the page is not a fresh one", pace)
		}
		if quick == fresh {
			t.Errorf("pace %d: nothing waited", pace)
		}
		const volume, end = `id="r-volume-t"`, `</p>`
		if got, want := section(t, quick, volume, end), section(t, fresh, volume, end); got != want {
			t.Errorf("pace %d: the volume does not follow: %s, want %s", pace, got, want)
		}
		const length = `id="f-length"`
		if got, want := section(t, quick, length, ">"), section(t, fresh, length, ">"); (got == want) != (pace == page.Typing) {
			t.Errorf("pace %d: the question reads %s", pace, got)
		}
	}
}

// The questions of other groups are left as they are while a number is typed.
// They must read as they would on a fresh page all the same, whatever is typed
// into whichever question, and whatever was there before.
func TestPaint_TypingLeavesNoQuestionBehind(t *testing.T) {
	t.Parallel()
	cfg := live.FromBook(book.Demo(), say.English())
	questions := func(s page.State, e page.Easel) (string, page.Easel) {
		asked := live.Answers{Book: cfg.Book}
		a := asked.Of(s)
		s = s.Seeing(a)
		m, e := page.Paint(s, a, cfg.Kit, e)
		return section(t, markup.HTML(page.Tree(s, m)), `<section class="in `, `<div class="guide"`), e
	}
	typed := map[form.Field][]string{
		form.Length: {"36 ft", "none", "400 ft", "2 ft"}, form.Width: {"30 ft", "", "1 ft"}, form.Deep: {"8 ft", "x", "2 ft", "40 ft"},
		form.BeachSlope: {"1 in 9", "1 in 2", "steep"}, form.ZoneArea: {"300 sq ft", "-1", "9 sq ft"}, form.Lip: {"9 ft", "?", "1 in"}, form.Rise: {"5 ft", "up", "2 in"},
		form.Power: {"31 c", "dear", "0"}, form.Water: {"$9", "wet"},
	}
	for _, from := range []string{"", "shape=free&length=44ft", "shape=rect&cascade=off&zone=off&beach=none", "length=none&deep=20ft", "units=metric&jets=2&steps=on"} {
		query, err := url.ParseQuery(from)
		if err != nil {
			t.Fatal(err)
		}
		was := page.New(query, cfg.Defaults)
		was.Live = true
		for field, texts := range typed {
			if !page.Follows(page.Action{Name: page.ActField, Arg: string(field)}) {
				t.Errorf("%s is no number that is typed", field)
			}
			now := was
			_, e := questions(was, page.Easel{Width: page.Wide})
			e.Pace = page.Typing
			for _, text := range append(texts, was.Form.Text(field)) {
				now.Form = now.Form.With(field, text)
				var got string
				got, e = questions(now, e)
				if want, _ := questions(now, page.Easel{Width: page.Wide}); got != want {
					t.Errorf("from %q, with %s %q typed the questions are\n%s\nwant\n%s", from, field, text, got, want)
				}
			}
		}
	}
}

// Small pictures that were drawn ahead are the ones that are shown, and the
// page that was there when they were drawn stays what it was.
func TestAhead_ChangesNothingThatIsShown(t *testing.T) {
	t.Parallel()
	cfg := live.FromBook(book.Demo(), say.English())
	query, err := url.ParseQuery("opt=length%3D44ft&opt=cascade%3Doff")
	if err != nil {
		t.Fatal(err)
	}
	one := page.New(query, cfg.Defaults)
	one.Live = true
	three := page.Update(one, page.Action{Name: page.ActView, Arg: string(page.CompareView)})
	asked := live.Answers{Book: cfg.Book}
	shown := func(s page.State, e page.Easel) string {
		m, _ := page.Paint(s, asked.Of(s), cfg.Kit, e)
		return markup.HTML(page.Tree(s, m))
	}
	_, easel := page.Paint(one, asked.Of(one), cfg.Kit, page.Easel{Width: page.Wide})
	before := shown(one, easel)
	ahead := page.Ahead(three, asked.Of(three), cfg.Kit, easel)
	if shown(one, ahead) != before {
		t.Error("drawing ahead changed the page that is there")
	}
	if shown(three, ahead) != shown(three, page.Easel{Width: page.Wide}) {
		t.Error("what was drawn ahead is not what is drawn on the spot")
	}
	first, _ := page.Paint(three, asked.Of(three), cfg.Kit, ahead)
	again, _ := page.Paint(three, asked.Of(three), cfg.Kit, ahead)
	for i := range first.Compare.Ponds {
		if &first.Compare.Ponds[i].Thumb.Kids[0] != &again.Compare.Ponds[i].Thumb.Kids[0] {
			t.Errorf("picture %d was drawn anew", i)
		}
	}
}
