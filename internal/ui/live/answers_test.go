package live_test

import (
	"net/url"
	"reflect"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// besides is a page that compares three ponds, and who answers it.
func besides(tb testing.TB) (live.Config, page.State, live.Answers) {
	tb.Helper()
	cfg := live.FromBook(book.Demo(), say.English())
	v, err := url.ParseQuery(threePonds)
	if err != nil {
		tb.Fatal(err)
	}
	return cfg, page.New(v, cfg.Defaults), live.Answers{Book: cfg.Book}
}

// Each pond has its own answer, and only the one that changed gets a new one.
func TestAnswers_OnlyWhatChangedIsWorkedOutAgain(t *testing.T) {
	t.Parallel()
	_, s, asked := besides(t)
	first := asked.Of(s)
	if len(first.Beside) != 3 {
		t.Fatalf("%d answers, want 3", len(first.Beside))
	}
	for i, o := range s.Options() {
		want, _ := o.Form.Design()
		if got := first.Beside[i].Sheet.Value("pond.length"); got < want.Outline.LengthM-1e-3 || got > want.Outline.LengthM+1e-3 {
			t.Errorf("option %d is worked out %g m long, want %g m", i, got, want.Outline.LengthM)
		}
		if got := 2 * first.Beside[i].Plan.Lengthwise[1].X; got < want.Outline.LengthM-0.1 || got > want.Outline.LengthM+0.1 {
			t.Errorf("option %d is drawn %g m long, want %g m", i, got, want.Outline.LengthM)
		}
	}
	s.Form = s.Form.With(form.Deep, "5 ft")
	next := asked.Of(s)
	for i := range next.Beside {
		if same := next.Beside[i].Sheet == first.Beside[i].Sheet; same != (i != s.At) {
			t.Errorf("option %d kept its answer: %v, and the one in hand is %d", i, same, s.At)
		}
	}
	s.View = page.DrawView
	if alone := asked.Of(s); len(alone.Beside) != 0 || alone.Sheet != next.Sheet {
		t.Error("drawing one pond works the others out too")
	}
}

// Of the ponds that a finger goes through only the latest is kept, and it is
// not worked out twice.
func TestAnswers_KeepOnlyTheLatestOfManyMoves(t *testing.T) {
	t.Parallel()
	cfg := live.FromBook(book.Demo(), say.English())
	s := page.New(url.Values{}, cfg.Defaults)
	asked := live.Answers{Book: cfg.Book, Quick: true}
	long := func(text string) page.Answered {
		s.Form = s.Form.With(form.Length, text)
		return asked.Of(s)
	}
	first, second := long("35 ft"), long("36 ft")
	if again := long("36 ft"); again.Sheet != second.Sheet {
		t.Error("a pond that stays the same is worked out again")
	}
	if back := long("35 ft"); back.Sheet == first.Sheet {
		t.Error("a pond that a finger left is kept")
	}
	asked.Quick = false
	if rested := long("35 ft"); rested.Sheet.Value("pond.gross_volume") != first.Sheet.Value("pond.gross_volume") {
		t.Error("at rest the figures are other ones")
	}
	s.View = page.CompareView
	asked.Quick = true
	if a, b := asked.Of(s), asked.Of(s); a.Sheet != b.Sheet {
		t.Error("a pond beside others is not kept")
	}
}

// In other units a pond is the same pond: nothing is worked out again, the
// depths that are drawn are those of the units, and answer and small pictures
// are those of a page that was opened in them.
func TestAnswers_InOtherUnitsAreTheSamePond(t *testing.T) {
	t.Parallel()
	cfg := live.FromBook(book.Demo(), say.English())
	for _, query := range []string{threePonds, threePonds + "&units=metric", "view=compare&opt=shape%3Dbean%26length%3D11.37%2520m&opt=deep%3Dsoon&opt=steps%3Don"} {
		v, err := url.ParseQuery(query)
		if err != nil {
			t.Fatal(err)
		}
		s := page.New(v, cfg.Defaults)
		asked, e := live.Answers{Book: cfg.Book}, page.Easel{Width: page.Wide}
		was := asked.Of(s)
		_, e = page.Paint(s, was, cfg.Kit, e)
		to := "metric"
		if s.Form.System == measure.Metric {
			to = "us"
		}
		s = page.Update(s, page.Action{Name: page.ActField, Arg: string(form.Units), Value: to})
		got := asked.Of(s)
		fresh := live.Answers{Book: cfg.Book}
		want := fresh.Of(s)
		for i := range want.Beside {
			if got.Beside[i].Sheet != was.Beside[i].Sheet {
				t.Errorf("%s: option %d is worked out again in %s", query, i, to)
			}
			if !reflect.DeepEqual(got.Beside[i].Plan, want.Beside[i].Plan) || !reflect.DeepEqual(got.Beside[i].Sheet, want.Beside[i].Sheet) {
				t.Errorf("%s: option %d is another one in %s", query, i, to)
			}
		}
		kept, _ := page.Paint(s, got, cfg.Kit, e)
		anew, _ := page.Paint(s, want, cfg.Kit, page.Easel{Width: page.Wide})
		if markup.HTML(page.Tree(s, kept)) != markup.HTML(page.Tree(s, anew)) {
			t.Errorf("%s: the page in %s is another one than when it is opened so", query, to)
		}
	}
}

// Whatever is answered, one answer after the other, gives what the same pond
// gives by itself: nothing is kept of a pond that is another one by now.
func TestAnswers_WhatIsKeptIsOfThisPond(t *testing.T) {
	t.Parallel()
	cfg := live.FromBook(book.Demo(), say.English())
	fields := []form.Field{form.Place, form.Power, form.Water, form.Bill, form.HomeUse, form.From, form.To, form.CascadeHours, form.Night, form.Winter,
		form.Length, form.Deep, form.Lip, form.Rise, form.Zone, form.ZoneArea, form.Beach, form.BeachSlope, form.Shelf, form.Steps, form.Deck, form.Jets,
		form.Pump, form.Pipe, form.Stand, form.Fence, form.Shape, form.Cascade}
	for _, view := range []string{"", "view=compare&opt=length%3D44ft"} {
		for _, quick := range []bool{false, true} {
			v, err := url.ParseQuery(view)
			if err != nil {
				t.Fatal(err)
			}
			s := page.New(v, cfg.Defaults)
			kept := live.Answers{Book: cfg.Book}
			_, easel := page.Paint(s, kept.Of(s), cfg.Kit, page.Easel{Width: page.Wide})
			for _, f := range fields {
				for _, up := range []int{1, -1} {
					s.Form = s.Form.Step(f, up)
					kept.Quick = quick
					got := kept.Of(s)
					fresh := live.Answers{Book: cfg.Book, Quick: quick}
					want := fresh.Of(s)
					if !reflect.DeepEqual(got, want) {
						t.Errorf("%q, quick %v, %s by %d: the answer is another one than that of the same pond by itself", view, quick, f, up)
					}
					var m page.Model
					m, easel = page.Paint(s, got, cfg.Kit, easel)
					alone, _ := page.Paint(s, want, cfg.Kit, page.Easel{Width: page.Wide})
					if markup.HTML(page.Tree(s, m)) != markup.HTML(page.Tree(s, alone)) {
						t.Errorf("%q, quick %v, %s by %d: the page is another one than that of the same pond by itself", view, quick, f, up)
					}
				}
			}
		}
	}
}

// A price leaves the ground alone: no pond is dug or planted again for it, and
// each gets a sheet of its own.
func TestAnswers_APriceLeavesTheGroundAlone(t *testing.T) {
	t.Parallel()
	_, s, asked := besides(t)
	was := asked.Of(s)
	s = page.Update(s, page.Action{Name: page.ActEach, Arg: string(form.Power), Value: "0.31"})
	now := asked.Of(s)
	for i := range was.Beside {
		if &was.Beside[i].Plan.Rim[0] != &now.Beside[i].Plan.Rim[0] {
			t.Errorf("option %d was laid out again", i)
		}
		before, after := was.Beside[i].Sheet.Amount("power.single_cost"), now.Beside[i].Sheet.Amount("power.single_cost")
		if after.Cmp(before) <= 0 {
			t.Errorf("option %d costs %v at 31 cents and %v at 16", i, after, before)
		}
	}
}
