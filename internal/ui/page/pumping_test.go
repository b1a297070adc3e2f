package page_test

import (
	"net/url"
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/form"
	"tarnwright/internal/markup"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/live"
	"tarnwright/internal/ui/page"
)

// pumped is the demo's own page at an address.
func pumped(t *testing.T, query string) (page.State, page.Model) {
	t.Helper()
	v, err := url.ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	cfg := live.FromBook(book.Demo(), say.English())
	s := page.New(v, cfg.Defaults)
	d, _ := s.Form.Design()
	return s, page.Build(s, page.Answered{Sheet: core.Compute(d, cfg.Book), Plan: core.Plan(d, core.Sight{LevelsM: page.Levels(s)})}, cfg.Kit)
}

func TestPump_EverythingAskedForIsOnThePage(t *testing.T) {
	t.Parallel()
	s, m := pumped(t, "view=pump")
	html := markup.HTML(page.Tree(s, m))
	for _, want := range []string{
		"The way of the water", "Which pump, and why", "For the builder", "What asks for flow", "Prime and suction", "Before it runs",
		"Priming tee", "Check valve", "Never run the pump dry", "licensed electrician", "No one may reach a pipe that sucks",
		`name="model"`, `name="pumps"`, `name="discharge"`, "A rule on motors with one speed", "10 CFR 431.485", "easy range", "from memory",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q on the page", want)
		}
	}
	for _, n := range m.Pumping.Notes {
		if n.Title == "Fence and gate" {
			t.Error("the fence is no matter of the pump")
		}
		if n.Source == "" {
			t.Errorf("%q names no source", n.Title)
		}
	}
}

// The table and the picture name the same parts.
func TestPump_TheTableSaysWhatThePictureShows(t *testing.T) {
	t.Parallel()
	for _, q := range []string{"view=pump", "view=pump&units=metric&pumps=2", "view=pump&zone=off", "view=pump&cascade=off&zone=off"} {
		_, m := pumped(t, q)
		picture := words(m.Pumping.Pipework)
		for _, row := range m.Pumping.PipeTable.Rows {
			if !strings.Contains(picture, row[0].Text) {
				t.Errorf("%q: the picture does not show %q", q, row[0].Text)
			}
			for _, note := range strings.Split(row[1].Text, ", ") {
				if !strings.Contains(picture, note) {
					t.Errorf("%q: the picture does not say %q of %q", q, note, row[0].Text)
				}
			}
		}
		if len(m.Pumping.PipeTable.Rows) < 8 {
			t.Errorf("%q: only %d parts", q, len(m.Pumping.PipeTable.Rows))
		}
	}
}

// Each button of the choice makes the pond its row's, with and without script,
// and then offers itself no more.
func TestPump_TheButtonsDoWhatTheySay(t *testing.T) {
	t.Parallel()
	s, m := pumped(t, "view=pump&length=36+ft")
	if len(m.Pumping.Tries) < 3 {
		t.Fatalf("only %d pumps to try", len(m.Pumping.Tries))
	}
	for _, try := range m.Pumping.Tries {
		next := page.Update(s, page.Action{Name: try.Act.Name, Arg: try.Act.Arg})
		address := strings.TrimPrefix(try.Href, "/?")
		plain, after := pumped(t, address)
		a, _ := next.Form.Design()
		b, _ := plain.Form.Design()
		if a.Circulation.Pump == "" || a.Circulation.Pump != b.Circulation.Pump || a.Circulation.Suction.InsideDiameterM != b.Circulation.Suction.InsideDiameterM ||
			a.Circulation.Discharge.InsideDiameterM != a.Circulation.Suction.InsideDiameterM || a.Circulation.PumpCount != b.Circulation.PumpCount {
			t.Errorf("%s: with script %+v, without %+v", try.Label, a.Circulation, b.Circulation)
		}
		if plain.View != page.PumpView || b.Outline.LengthM != 10.9728 {
			t.Errorf("%s leaves for %s", try.Label, address)
		}
		for _, again := range after.Pumping.Tries {
			if again.Label == try.Label {
				t.Errorf("%s is drawn and still offered", try.Label)
			}
		}
		if !next.CanUndo() || page.Update(next, page.Action{Name: page.ActUndo}).Form.Values().Encode() != s.Form.Values().Encode() {
			t.Errorf("%s cannot be taken back in one step", try.Label)
		}
	}
}

// A change of both pipes is one button.
func TestPump_AChangeOfBothPipesIsOneButton(t *testing.T) {
	t.Parallel()
	_, m := pumped(t, "view=pump&pipe=1.5&discharge=1.5&pump=variable")
	for _, n := range m.Pumping.Notes {
		for _, c := range n.Mends {
			if strings.Contains(c.Act.Arg, "discharge=") {
				if len(n.Mends) != 1 || !strings.Contains(c.Act.Arg, "pipe=") || !strings.HasSuffix(c.Label, "all the way") {
					t.Errorf("%q offers %+v", n.Title, n.Mends)
				}
				return
			}
		}
	}
	t.Errorf("nobody offers wider pipe: %+v", m.Pumping.Notes)
}

// Each limit of the circulation shows on the pump's page with its figure, its
// source and a button, and the button's address opens a pond without it.
func TestPump_EachLimitHasAButtonThatMendsIt(t *testing.T) {
	t.Parallel()
	demo := func(*form.Defaults) {}
	warm := func(d *form.Defaults) {
		d.Base.Site.AltitudeM, d.Base.Site.WaterTempDegC, d.Base.Circulation.PumpAboveWaterM = 4000, 34, 2.4
	}
	for _, c := range []struct {
		code, query, label string
		base               func(*form.Defaults)
	}{
		{"suction_fast", "", "Try 4 in suction pipe", demo},
		{"discharge_fast", "&discharge=2.5", "Try 3 in discharge pipe", demo},
		{"npsh_short", "&lip=6+ft", "Try 4 in suction pipe", warm},
		{"prime_needed", "&model=P-25", "Try V-100", demo},
		{"air_drawn", "&mouth=18+in", "Try the suction mouth 1 ft 9 in under the water", demo},
		{"air_drawn_no_wider", "&mouth=10+in", "Try the suction mouth 1 ft 9 in under the water", demo},
		{"intake_fast", "&grate=0.5+sq+ft", "Try 0.8 sq ft of open grate", demo},
	} {
		for i, lang := range []say.Words{say.English(), say.Spanish()} {
			cfg := live.FromBook(book.Demo(), lang)
			c.base(&cfg.Defaults)
			at := func(query string) page.Model {
				v, err := url.ParseQuery(query)
				if err != nil {
					t.Fatal(err)
				}
				s := page.New(v, cfg.Defaults)
				d, faults := s.Form.Design()
				if len(faults) > 0 {
					t.Fatalf("%s: %v", query, faults)
				}
				return page.Build(s, page.Answered{Sheet: core.Compute(d, cfg.Book), Plan: core.Plan(d, core.Sight{LevelsM: page.Levels(s)})}, cfg.Kit)
			}
			n, ok := noted(at("view=pump"+c.query), lang, c.code)
			if !ok || n.Source == "" || len(n.Mends) == 0 {
				t.Errorf("%s: %+v has no source or no button", c.code, n)
				continue
			}
			if i == 0 && n.Mends[0].Label != c.label {
				t.Errorf("%s offers %q, want %q", c.code, n.Mends[0].Label, c.label)
			}
			for _, m := range n.Mends {
				if left, still := noted(at(strings.TrimPrefix(m.Href, "/?")), lang, c.code); still {
					t.Errorf("%s is still there after %q: %s", c.code, m.Label, left.Text)
				}
			}
		}
	}
}

// noted finds a note of the pump's page by the code of its finding: its text
// begins as the words of that code do.
func noted(m page.Model, w say.Words, code string) (page.Note, bool) {
	begins, _, _ := strings.Cut(w.Say("finding."+code+".text"), "{")
	title, _, _ := strings.Cut(w.Say("finding."+code+".title"), "{")
	for _, n := range m.Pumping.Notes {
		if strings.HasPrefix(n.Text, begins) && strings.HasPrefix(n.Title, title) && n.Care {
			return n, true
		}
	}
	return page.Note{}, false
}
