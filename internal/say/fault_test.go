package say_test

import (
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
)

func plain(t string) string { return strings.ReplaceAll(t, "\u00a0", " ") }

// What the form finds wrong, as a person reads it.
func TestFault_SaysWhatWouldBeRight(t *testing.T) {
	t.Parallel()
	w := say.English()
	for _, c := range []struct {
		units string
		field form.Field
		text  string
		want  string
	}{
		{"us", form.Length, "", "Enter the length."},
		{"us", form.Length, "abc", "Length must be a number, like 12 ft 6 in."},
		{"metric", form.Length, "abc", "Length must be a number, like 3.8 m."},
		{"us", form.Length, "1,234", "Length can be read in two ways. Write 1234 or 1.234."},
		{"us", form.Length, "12 6", "Length can be read in two ways. Write it like 12 ft 6 in."},
		{"us", form.Length, "4 ft", "Length must be between 6 ft and 200 ft."},
		{"metric", form.Length, "1", "Length must be between 1.83 m and 60.96 m."},
		{"us", form.Length, "30 lb", "Length has a unit that is not known here. Write it like 12 ft 6 in."},
		{"us", form.Length, "3 m 6 in", "Length mixes units. Write it like 12 ft 6 in."},
		{"us", form.Deep, "40 ft", "Deep end must be between 1 ft and 19 ft 8 in."},
		{"us", form.BeachSlope, "99", "Beach slope must be between 0.5 and 30."},
		{"us", form.ZoneArea, "1", "Size of the regeneration zone must be between 5.4 sq ft and 21,528 sq ft."},
		{"us", form.Power, "abc", "Electricity must be a number, like $0.16 / kWh."},
		{"us", form.Water, "abc", "Water must be a number, like $6.20 / 1,000 gal."},
		{"metric", form.Water, "abc", "Water must be a number, like $1.64 / m³."},
		{"us", form.From, "Foo", "First month must be a number, like Mar."},
	} {
		s := form.New(form.Demo()).With(form.Units, c.units).With(c.field, c.text)
		f, ok := s.Fault(c.field)
		if !ok {
			t.Errorf("%s %q is no fault", c.field, c.text)
			continue
		}
		if got := plain(w.Fault(f, s.Terms())); got != c.want {
			t.Errorf("%s %q: %q, want %q", c.field, c.text, got, c.want)
		}
	}
}

// Every fault that a design can have must come out as a sentence, with no
// brace, code or path left in it.
func TestFault_WordsEveryFaultOfADesign(t *testing.T) {
	t.Parallel()
	w := say.English()
	terms := measure.Terms{System: measure.US, Currency: "USD"}
	bad := design.Design{
		Name:    strings.Repeat("x", 100),
		Outline: design.Outline{Shape: "star", CentreXM: 1e9},
		Bowl: design.Bowl{DeepM: -1, Wall: []design.Knot{{InsetM: 1}, {InsetM: 0.5, DepthM: -2}, {InsetM: 0.2, DepthM: 1}, {InsetM: 0.1, DepthM: 0.5}},
			Floor: &design.Floor{AxisDeg: 999}, Beach: &design.Beach{BearingDeg: -1, ToeDepthM: 1}},
		Zone: &design.Zone{}, Cascade: &design.Cascade{Lip: "soft"}, Deck: &design.Deck{},
		Running: design.Running{Spans: []design.Span{{From: "13-01", To: "x", Runs: []design.Run{{Mode: "wild", Start: "25:00", End: "1"}}}},
			Loads: []design.Load{{PowerKW: -1}}},
		Site: design.Site{ElectricityPerKWh: "much", AltitudeM: 1e9, WaterTempDegC: 99},
	}
	faults := design.Validate(bad)
	bad.Outline = design.Outline{Shape: design.Circle, LengthM: 10, WidthM: 9}
	faults = append(faults, design.Validate(bad)...)
	bad.Outline = design.Outline{Shape: design.Freehand}
	faults = append(faults, design.Validate(bad)...)
	codes := map[string]bool{}
	for _, f := range faults {
		codes[f.Code] = true
		got := w.Fault(f, terms)
		// The choices themselves are named as a file spells them.
		if f.Code == "unknown_choice" {
			got = strings.ReplaceAll(got, "_", " ")
		}
		if strings.ContainsAny(got, "{}_[]") || !strings.HasSuffix(got, ".") || strings.HasPrefix(got, "fault.") {
			t.Errorf("%s %s is said as %q", f.Path, f.Code, got)
		}
		if got == w.Say("fault.other", w.Label(f.Path)) {
			t.Errorf("%s has no sentence of its own", f.Code)
		}
	}
	if len(codes) < 10 {
		t.Errorf("only %d kinds of fault were tried: %v", len(codes), codes)
	}
}

func TestLabel_NamesEveryFieldOfTheForm(t *testing.T) {
	t.Parallel()
	w := say.English()
	for _, f := range []form.Field{form.Units, form.Shape, form.Length, form.Width, form.Handles, form.Deep, form.Beach, form.BeachSlope,
		form.Shelf, form.Zone, form.ZoneArea, form.Cascade, form.Lip, form.Rise, form.Deck, form.Power, form.Water, form.From, form.To,
		form.Pump, form.Pipe, form.Discharge, form.Fence, form.Patio, form.FirePit} {
		if w.Label(string(f)) == string(f) {
			t.Errorf("%s has no label", f)
		}
	}
	if got := w.Label("bowl.wall[2].inset_m"); got != "Wall" {
		t.Errorf("bowl.wall[2].inset_m is called %q, want Wall", got)
	}
}

func TestNotice_NamesTheSize(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo()).With(form.Length, "34 m")
	got := plain(say.English().Notice(s.Notices()[0], s.Terms()))
	if want := "111 ft 7 in is larger than most garden ponds. Check the unit."; got != want {
		t.Errorf("notice = %q, want %q", got, want)
	}
}

func TestFill_SaysNothingHalf(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{}
	s.Add(sheet.Figure{ID: "pond.area", Value: 53.884, Unit: sheet.SquareMetre})
	p := say.Page{Words: say.English(), Sheet: s, Terms: measure.Terms{System: measure.US}}
	if text, ok := p.Fill("view.volume.how.1"); ok {
		t.Errorf("a line without its mean depth is said: %q", text)
	}
	s.Add(sheet.Figure{ID: "pond.mean_depth", Value: 1.1684, Unit: sheet.Metre})
	if text, ok := p.Fill("view.volume.how.1"); !ok || plain(text) != "580 sq ft of water, 3 ft 10 in deep on average." {
		t.Errorf("got %q, %v", plain(text), ok)
	}
	if _, ok := p.Fill("no.such.key"); ok {
		t.Error("a key without a text can be said")
	}
}

func TestForm_SuitsEachFigure(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		id   sheet.ID
		x    float64
		unit sheet.Unit
		want string
	}{
		{"pump.head", 3.5052, sheet.Metre, "11.5 ft"},
		{"pond.max_depth", 1.9812, sheet.Metre, "6 ft 6 in"},
		{"pump.distance", 1.2192, sheet.Metre, "4 ft"},
		{"beach.run_per_rise", 5, sheet.Ratio, "1 in 5"},
		{"pond.deeper_1_2", 0.4321, sheet.Ratio, "43%"},
		{"zone.share", 0.27, sheet.Ratio, "27%"},
		{"quiet.speed", 0.59, sheet.Ratio, "59%"},
		{"weir.head", 0.025, sheet.Metre, "1 in"},
		{"suction.velocity", 1.9812, sheet.MetrePerS, "6.5 ft/s"},
		{"suction.head_saved", 1.15824, sheet.Metre, "3.8 ft"},
		{"level.overnight_drop", 6.35, sheet.Millimetre, "1/4 in"},
		{"takeoff.dig_bank", 76.4554857984, sheet.CubicMetre, "100 cu yd"},
	} {
		got := plain(say.Shown(sheet.Figure{ID: c.id, Value: c.x, Unit: c.unit}, measure.Terms{System: measure.US}).String())
		if got != c.want {
			t.Errorf("%s = %q, want %q", c.id, got, c.want)
		}
	}
}
