package form_test

import (
	"math"
	"net/url"
	"reflect"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/num"
	"tarnwright/internal/form"
)

// every lists the fields a plain form shows.
func every() []form.Field {
	return []form.Field{form.Shape, form.Length, form.Width, form.Deep, form.Beach, form.BeachSlope, form.Shelf,
		form.Zone, form.ZoneArea, form.Cascade, form.Lip, form.Rise, form.Deck, form.Place, form.Power, form.Water, form.From, form.To,
		form.Pump, form.Pipe, form.Discharge, form.Fence, form.Patio, form.FirePit}
}

// sent is what a browser without script sends: what the fields show, and the
// hidden ones.
func sent(s form.State) url.Values {
	v := url.Values{"units": {string(s.System)}}
	for _, p := range s.Hidden() {
		v.Set(p.Name, p.Value)
	}
	for _, f := range every() {
		if s.Text(f) == "off" {
			continue // a checkbox without its tick is not sent
		}
		v.Set(string(f), s.Text(f))
	}
	return v
}

func TestNew_IsASoundDesign(t *testing.T) {
	t.Parallel()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Errorf("faults = %v, want none", faults)
	}
	if faults := design.Validate(d); len(faults) > 0 {
		t.Errorf("the demo design has faults: %+v", faults)
	}
}

func TestText_ShowsTheDefaultsForPeople(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo())
	us := map[form.Field]string{form.Length: "34 ft", form.Width: "21 ft", form.Deep: "6 ft 6 in", form.BeachSlope: "1 in 5",
		form.ZoneArea: "158 sq ft", form.Lip: "5 ft", form.Rise: "2 ft 6 in", form.Power: "$0.16 / kWh",
		form.Water: "$6.20 / 1,000 gal", form.From: "Mar", form.To: "Nov", form.Shape: "bean", form.Zone: "on", form.Fence: "off", form.Pipe: "3"}
	metric := map[form.Field]string{form.Length: "10.36 m", form.Width: "6.4 m", form.Deep: "1.98 m", form.ZoneArea: "14.7 m²",
		form.Lip: "1.52 m", form.Water: "$1.6379 / m³", form.From: "Mar"}
	for f, want := range us {
		if got := s.Text(f); got != want {
			t.Errorf("%s shows %q, want %q", f, got, want)
		}
	}
	s = s.With(form.Units, "metric")
	for f, want := range metric {
		if got := s.Text(f); got != want {
			t.Errorf("%s shows %q in metric, want %q", f, got, want)
		}
	}
}

func TestWith_ReadsEachFieldIntoTheDesign(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo())
	for _, c := range []struct {
		why   string
		field form.Field
		text  string
		look  func(design.Design) any
		want  any
	}{
		{"length in feet", form.Length, "40", func(d design.Design) any { return d.Outline.LengthM }, 12.192},
		{"length in metres", form.Length, "12 m", func(d design.Design) any { return d.Outline.LengthM }, 12.0},
		{"depth moves the wall's foot", form.Deep, "2 m", func(d design.Design) any { return d.Bowl.Wall[3] }, design.Knot{InsetM: 1.045, DepthM: 2}},
		{"oval", form.Shape, "oval", func(d design.Design) any { return d.Outline.Shape }, design.Ellipse},
		{"long has round ends", form.Shape, "long", func(d design.Design) any { return d.Outline.CornerRadiusM }, 3.2004},
		{"round is as wide as long", form.Shape, "round", func(d design.Design) any { return d.Outline.WidthM }, 10.3632},
		{"L keeps its arms", form.Shape, "ell", func(d design.Design) any { return d.Outline.NotchLengthM }, 4.66344},
		{"free has handles", form.Shape, "free", func(d design.Design) any { return len(d.Outline.Handles) }, 8},
		{"no beach", form.Beach, "none", func(d design.Design) any { return d.Bowl.Beach == nil }, true},
		{"beach to the east", form.Beach, "E", func(d design.Design) any { return d.Bowl.Beach.BearingDeg }, 90.0},
		{"gentler beach", form.BeachSlope, "1 in 7", func(d design.Design) any { return d.Bowl.Beach.RunPerRiseRatio }, 7.0},
		{"no shelf", form.Shelf, "off", func(d design.Design) any { return len(d.Bowl.Wall) }, 3},
		{"no zone", form.Zone, "off", func(d design.Design) any { return d.Zone == nil }, true},
		{"no manifold without a zone", form.Zone, "off", func(d design.Design) any { return d.Circulation.Discharge.OtherLossCoef }, 0.0},
		{"a manifold under the zone", form.Zone, "on", func(d design.Design) any { return d.Circulation.Discharge.OtherLossCoef }, 2.0},
		{"bigger zone", form.ZoneArea, "20 m2", func(d design.Design) any { return d.Zone.AreaM2 }, 20.0},
		{"no cascade", form.Cascade, "off", func(d design.Design) any { return d.Cascade == nil }, true},
		{"wider lip", form.Lip, "6 ft", func(d design.Design) any { return d.Cascade.LipM }, 1.8288},
		{"lower fall", form.Rise, "1 ft", func(d design.Design) any { return d.Cascade.RiseM }, 0.3048},
		{"no deck", form.Deck, "off", func(d design.Design) any { return d.Deck == nil }, true},
		{"dearer power", form.Power, "28 c", func(d design.Design) any { return d.Site.ElectricityPerKWh }, "0.28"},
		{"water by the cubic metre", form.Water, "2.10/m3", func(d design.Design) any { return d.Site.WaterPerM3 }, "2.1"},
		{"from May", form.From, "May", func(d design.Design) any { return d.Running.Spans[0].From }, "05-01"},
		{"to September", form.To, "9", func(d design.Design) any { return d.Running.Spans[len(d.Running.Spans)-1].To }, "09-30"},
		{"variable speed", form.Pump, "variable", func(d design.Design) any { return d.Circulation.Drive }, design.VariableSpeed},
		{"4 in suction", form.Pipe, "4", func(d design.Design) any { return d.Circulation.Suction.InsideDiameterM }, 0.10226},
		{"4 in discharge", form.Discharge, "4", func(d design.Design) any { return d.Circulation.Discharge.InsideDiameterM }, 0.10226},
		{"a fence", form.Fence, "on", func(d design.Design) any { return d.Site.Fence }, true},
		{"a sitting place", form.Patio, "on", func(d design.Design) any { return d.Site.Patio }, true},
		{"a fire pit", form.FirePit, "on", func(d design.Design) any { return d.Site.FirePit }, true},
	} {
		d, faults := s.With(c.field, c.text).Design()
		if len(faults) > 0 {
			t.Errorf("%s: faults %+v", c.why, faults)
		}
		if got := c.look(d); got != c.want {
			t.Errorf("%s: got %v, want %v", c.why, got, c.want)
		}
		if faults := design.Validate(d); len(faults) > 0 {
			t.Errorf("%s: the design has faults %+v", c.why, faults)
		}
	}
}

func TestWith_KeepsWhatCannotBeUsedAndTheLastGoodAnswer(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo()).With(form.Length, "36 ft")
	for _, c := range []struct {
		field      form.Field
		text, code string
	}{
		{form.Length, "", "empty"}, {form.Length, "abc", "not_a_number"}, {form.Length, "1,234", "ambiguous"},
		{form.Length, "30 lb", "unknown_unit"}, {form.Length, "3 m 6 in", "mixed_units"}, {form.Length, "5 ft", "out_of_range"},
		{form.Length, "201 ft", "out_of_range"}, {form.Length, "-34", "out_of_range"}, {form.Deep, "30 ft", "out_of_range"},
		{form.BeachSlope, "0", "out_of_range"}, {form.Lip, "0", "out_of_range"}, {form.Rise, "20 ft", "out_of_range"},
		{form.ZoneArea, "0", "out_of_range"}, {form.Power, "free", "not_a_number"}, {form.Water, "-1", "not_a_number"},
		{form.From, "13", "not_a_number"}, {form.Shape, "star", "unknown_choice"}, {form.Pipe, "7", "unknown_choice"},
		{form.Beach, "nw", "unknown_choice"}, {form.Handles, "1,2;3", "not_a_number"}, {form.Handles, "1,2;3,4", "not_a_number"},
	} {
		bad := s.With(c.field, c.text)
		f, ok := bad.Fault(c.field)
		if !ok || f.Code != c.code || f.Path != string(c.field) {
			t.Errorf("%s %q: fault %+v, want %s", c.field, c.text, f, c.code)
		}
		if bad.Text(c.field) != c.text {
			t.Errorf("%s shows %q, want %q as typed", c.field, bad.Text(c.field), c.text)
		}
		was, _ := s.Design()
		is, _ := bad.Design()
		if !reflect.DeepEqual(was, is) {
			t.Errorf("%s %q changed the design", c.field, c.text)
		}
		if _, still := bad.With(c.field, s.Text(c.field)).Fault(c.field); still {
			t.Errorf("%s: the fault stays after it was mended", c.field)
		}
	}
}

func TestFaults_ComeAllAtOnceInTheOrderOfTheForm(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo()).With(form.Water, "x").With(form.Deep, "99").With(form.Length, "")
	_, faults := s.Design()
	var paths []string
	for _, f := range faults {
		paths = append(paths, f.Path)
	}
	if got := strings.Join(paths, " "); got != "length deep water" {
		t.Errorf("faults at %q, want length deep water", got)
	}
}

func TestWith_LeavesTheOldStateAlone(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo())
	before := s.Values().Encode() + s.Text(form.Length)
	_ = s.With(form.Length, "40 ft").Step(form.Width, 1).With(form.Shape, "oval").With(form.Units, "metric")
	if after := s.Values().Encode() + s.Text(form.Length); after != before {
		t.Errorf("the old state became %q, was %q", after, before)
	}
}

func TestStep_GoesToTheNextMultiple(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why   string
		units string
		field form.Field
		from  string
		up    int
		want  string
	}{
		{"a foot longer", "us", form.Length, "34 ft", 1, "35 ft"},
		{"a foot shorter", "us", form.Length, "34 ft", -1, "33 ft"},
		{"on to the whole foot", "us", form.Length, "34 ft 3 in", 1, "35 ft"},
		{"back to the whole foot", "us", form.Length, "34 ft 3 in", -1, "34 ft"},
		{"not below the least", "us", form.Length, "6 ft", -1, "6 ft"},
		{"not above the most", "us", form.Length, "200 ft", 1, "200 ft"},
		{"half a foot deeper", "us", form.Deep, "6 ft 6 in", 1, "7 ft"},
		{"a quarter metre", "metric", form.Length, "10.36 m", 1, "10.5 m"},
		{"a decimetre", "metric", form.Deep, "2 m", -1, "1.90 m"},
		{"ten square feet", "us", form.ZoneArea, "158 sq ft", 1, "160 sq ft"},
		{"a cent", "us", form.Power, "0.16", 1, "$0.17 / kWh"},
		{"not under nothing", "us", form.Power, "0", -1, "0"},
		{"ten cents for 1,000 gal", "us", form.Water, "6.20", 1, "$6.30 / 1,000 gal"},
		{"five cents for a cubic metre", "metric", form.Water, "1.60", -1, "$1.55 / m³"},
		{"a month on", "us", form.To, "11", 1, "Dec"},
		{"round the year", "us", form.To, "12", 1, "Jan"},
		{"a gentler slope", "us", form.BeachSlope, "5", 1, "1 in 6"},
		{"the next pipe", "us", form.Pipe, "3", 1, "4"},
		{"no bigger pipe", "us", form.Pipe, "6", 1, "6"},
		{"after a slip, from the last good", "us", form.Length, "abc", 1, "35 ft"},
	} {
		s := form.New(form.Demo()).With(form.Units, c.units).With(c.field, c.from).Step(c.field, c.up)
		if got := s.Text(c.field); got != strings.ReplaceAll(c.want, "1.90", "1.9") && got != c.want {
			t.Errorf("%s: %q, want %q", c.why, got, c.want)
		}
	}
}

func TestRead_AndValuesAreEachOthersInverse(t *testing.T) {
	t.Parallel()
	d := form.Demo()
	states := []form.State{form.New(d)}
	for _, f := range every() {
		s := form.New(d)
		states = append(states, s.Step(f, 1), s.Step(f, -1), s.With(form.Units, "metric").Step(f, 1))
	}
	states = append(states,
		form.New(d).With(form.Length, "33 ft 7 1/8 in").With(form.Deep, "2.003 m").With(form.Water, "2.13/m3"),
		form.New(d).With(form.Length, "40 ft").With(form.Length, "oops"),
		form.New(d).With(form.Shape, "free").With(form.Handles, "500,60;360,290;-490,-20;30,-190"),
		form.New(d).With(form.Units, "metric").With(form.Power, "28 c").With(form.Zone, "off").With(form.Beach, "none"))
	for _, s := range states {
		v := s.Values()
		again := form.Read(v, d)
		want, _ := s.Design()
		got, _ := again.Design()
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s reads as another design:\n%+v\n%+v", v.Encode(), got, want)
		}
		if s.System != again.System || !reflect.DeepEqual(again.Values(), v) {
			t.Errorf("%s becomes %s", v.Encode(), again.Values().Encode())
		}
		if len(s.Faults()) != len(again.Faults()) {
			t.Errorf("%s: %d faults became %d", v.Encode(), len(s.Faults()), len(again.Faults()))
		}
	}
	if got := form.New(d).Values().Encode(); got != "" {
		t.Errorf("the default's address is %q, want none", got)
	}
	if got := form.New(d).With(form.Length, "40").Values().Encode(); got != "length=40ft" {
		t.Errorf("address = %q, want length=40ft", got)
	}
}

func TestUnits_ToggledAHundredTimesLoseNothing(t *testing.T) {
	t.Parallel()
	first := form.New(form.Demo()).With(form.Length, "33 ft 7 1/2 in").With(form.Water, "6.35").With(form.Rise, "0.333 m").With(form.Deep, "abc")
	want, _ := first.Design()
	s := first
	for i := range 100 {
		// With a script the state stays; without one the page is sent.
		s = form.Read(sent(s), form.Demo()).With(form.Units, []string{"metric", "us"}[i%2])
	}
	got, _ := s.Design()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("after a hundred toggles the design is\n%+v\nwant\n%+v", got, want)
	}
	if got := s.Text(form.Deep); got != "abc" {
		t.Errorf("deep shows %q, want what was typed", got)
	}
}

func TestRead_TheUnitsButtonOfAPlainFormChangesOnlyTheUnits(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo()).With(form.Width, "20 ft 5 in")
	v := sent(s)
	v.Set("units", "metric") // the fields still say feet
	got, _ := form.Read(v, form.Demo()).Design()
	want, _ := s.Design()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("the design became %+v, want %+v", got, want)
	}
}

func TestRead_ASwitchThatIsNotSentIsOff(t *testing.T) {
	t.Parallel()
	s := form.Read(url.Values{"sent": {"1"}}, form.Demo())
	for _, f := range []form.Field{form.Shelf, form.Zone, form.Cascade, form.Deck} {
		if s.On(f) {
			t.Errorf("%s is on", f)
		}
	}
	if s := form.Read(url.Values{"zone": {"off", "on"}}, form.Demo()); !s.On(form.Zone) {
		t.Error("the last value of a switch does not count")
	}
	if s := form.Read(url.Values{}, form.Demo()); !s.On(form.Zone) {
		t.Error("an address without a switch does not have its default")
	}
}

func TestRead_DoesWhatTheButtonsSay(t *testing.T) {
	t.Parallel()
	d := form.Demo()
	if got := form.Read(url.Values{"step": {"length+"}}, d).Text(form.Length); got != "35 ft" {
		t.Errorf("length+ gives %q", got)
	}
	if got := form.Read(url.Values{"step": {"deep-"}, "deep": {"5 ft"}}, d).Text(form.Deep); got != "4 ft 6 in" {
		t.Errorf("deep- gives %q", got)
	}
	if got := form.Read(url.Values{"set": {"pipe=4"}}, d).Word(form.Pipe); got != "4" {
		t.Errorf("set pipe=4 gives %q", got)
	}
	if s := form.Read(url.Values{"set": {"pipe=4;discharge=6"}}, d); s.Word(form.Pipe) != "4" || s.Word(form.Discharge) != "6" {
		t.Errorf("two changes give %q and %q", s.Word(form.Pipe), s.Word(form.Discharge))
	}
	for _, odd := range []string{"", "+", "nothing+", "length*", "length"} {
		if got := form.Read(url.Values{"step": {odd}}, d).Values().Encode(); got != "" {
			t.Errorf("step %q changes the form to %q", odd, got)
		}
	}
}

// curve is the closed uniform Catmull–Rom curve at many places, by its matrix.
func curve(p []design.Point) (lo, hi design.Point) {
	lo, hi = p[0], p[0]
	n := len(p)
	for i := range p {
		a, b, c, d := p[(i+n-1)%n], p[i], p[(i+1)%n], p[(i+2)%n]
		for k := range 4000 {
			t := float64(k) / 4000
			w := [4]float64{-t + 2*t*t - t*t*t, 2 - 5*t*t + 3*t*t*t, t + 4*t*t - 3*t*t*t, -t*t + t*t*t}
			x := (w[0]*a.XM + w[1]*b.XM + w[2]*c.XM + w[3]*d.XM) / 2
			y := (w[0]*a.YM + w[1]*b.YM + w[2]*c.YM + w[3]*d.YM) / 2
			lo, hi = design.Point{XM: math.Min(lo.XM, x), YM: math.Min(lo.YM, y)}, design.Point{XM: math.Max(hi.XM, x), YM: math.Max(hi.YM, y)}
		}
	}
	return lo, hi
}

// The reference is the curve itself, walked in small steps.
func TestFree_TheCurveHasTheSizeAskedFor(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo()).With(form.Shape, "free")
	for range 12 {
		s = s.Step(form.Length, 1).Step(form.Width, -1)
		d, _ := s.Design()
		lo, hi := curve(d.Outline.Handles)
		if got, want := hi.XM-lo.XM, s.Value(form.Length); math.Abs(got/want-1) > 1.1e-3 {
			t.Errorf("the curve is %.4f m long, want %.4f m", got, want)
		}
		if got, want := hi.YM-lo.YM, s.Value(form.Width); math.Abs(got/want-1) > 1.1e-3 {
			t.Errorf("the curve is %.4f m wide, want %.4f m", got, want)
		}
	}
}

func TestWithHandles_TakesTheRingsAndTheirSize(t *testing.T) {
	t.Parallel()
	pts := []design.Point{{XM: 5.25, YM: 0.5}, {XM: 1, YM: 3.75}, {XM: -4.5, YM: 1}, {XM: -1, YM: -3}}
	s := form.New(form.Demo()).WithHandles(pts)
	d, faults := s.Design()
	if len(faults) > 0 || d.Outline.Shape != design.Freehand || !reflect.DeepEqual(d.Outline.Handles, pts) {
		t.Errorf("outline = %+v, faults %v, want the rings as they are", d.Outline, faults)
	}
	lo, hi := curve(pts)
	if got, want := s.Value(form.Length), hi.XM-lo.XM; math.Abs(got-want) > 1e-5 {
		t.Errorf("length = %.6f m, want %.6f m", got, want)
	}
	if got := form.New(form.Demo()).WithHandles(pts[:2]); got.Word(form.Shape) != "bean" {
		t.Error("two rings make no pond, and yet the shape changed")
	}
	again := form.Read(s.Values(), form.Demo())
	if d2, _ := again.Design(); !reflect.DeepEqual(d, d2) {
		t.Errorf("%s reads as %+v, want %+v", s.Values().Encode(), d2.Outline, d.Outline)
	}
}

func TestSeason_GoesRoundTheYearsEnd(t *testing.T) {
	t.Parallel()
	for from := 1; from <= 12; from++ {
		for to := 1; to <= 12; to++ {
			s := form.New(form.Demo()).With(form.From, num.Shortest(float64(from))).With(form.To, num.Shortest(float64(to)))
			d, _ := s.Design()
			months := 0
			for _, span := range d.Running.Spans {
				m1, _, _ := design.MonthDay(span.From)
				m2, _, _ := design.MonthDay(span.To)
				months += m2 - m1 + 1
			}
			if want := (to-from+12)%12 + 1; months != want {
				t.Errorf("from %d to %d covers %d months, want %d: %+v", from, to, months, want, d.Running.Spans)
			}
			if faults := design.Validate(d); len(faults) > 0 {
				t.Errorf("from %d to %d: %+v", from, to, faults)
			}
		}
	}
}

func TestNotices_AskAboutASlipOfTheUnit(t *testing.T) {
	t.Parallel()
	s := form.New(form.Demo())
	if n := s.Notices(); len(n) > 0 {
		t.Errorf("the demo has notices: %+v", n)
	}
	n := s.With(form.Length, "34 m").Notices()
	if len(n) != 1 || n[0].Path != "length" || n[0].Code != "large" {
		t.Errorf("34 m long: notices %+v, want one, large", n)
	}
	if n := s.With(form.Deep, "4 m").Notices(); len(n) != 1 || n[0].Code != "deep" {
		t.Errorf("4 m deep: notices %+v, want one, deep", n)
	}
}

// Whatever the address says, the design is sound and the form can be written
// again.
func FuzzRead(f *testing.F) {
	f.Add("length=40ft&units=metric&zone=off&kept=deep:2m")
	f.Add("shape=free&handles=1,2;3,4;5,6&length=100")
	f.Add("step=length%2B&set=pipe%3D4&sent=1&from=11&to=2")
	f.Add("kept=length:1e300m;width:&water=1/gal&power=NaN&deep=%00")
	f.Fuzz(func(t *testing.T, query string) {
		v, err := url.ParseQuery(query)
		if err != nil {
			return
		}
		s := form.Read(v, form.Demo())
		d, _ := s.Design()
		if faults := design.Validate(d); len(faults) > 0 {
			t.Fatalf("%q gives a design with faults %+v", query, faults)
		}
		again := form.Read(s.Values(), form.Demo())
		if d2, _ := again.Design(); !reflect.DeepEqual(d, d2) {
			t.Errorf("%q becomes %q, another design:\n%+v\n%+v", query, s.Values().Encode(), d, d2)
		}
		for _, f := range every() {
			_, _ = s.Understood(f)
			_ = s.Step(f, 1).Text(f)
		}
	})
}
