package view_test

import (
	"strings"
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

func cash(t *testing.T, text string) money.Amount {
	t.Helper()
	a, err := money.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// pond is a sheet with the figures of the drawn demo, put in by hand.
func pond(t *testing.T) *sheet.Sheet {
	t.Helper()
	s := &sheet.Sheet{CoreVersion: 7, Book: "demo/1"}
	add := func(id sheet.ID, x float64, u sheet.Unit) {
		s.Add(sheet.Figure{ID: id, Value: x, Step: 1e-6, Unit: u, Working: "= " + string(id), Source: "definition"})
	}
	add("pond.area", 53.884, sheet.SquareMetre)
	add("pond.mean_depth", 1.1684, sheet.Metre)
	add("pond.max_depth", 1.9812, sheet.Metre)
	add("pond.gross_volume", 65, sheet.CubicMetre)
	add("water.pond_part", 62.648565, sheet.CubicMetre)
	add("water.zone_part", 5.110306, sheet.CubicMetre)
	add("water.net_volume", 67.758871, sheet.CubicMetre)
	add("cascade.lip", 1.524, sheet.Metre)
	add("flow.cascade", 0.00946353, sheet.CubicMPerS)
	add("flow.zone", 0.006, sheet.CubicMPerS)
	add("flow.turnover", 0.005, sheet.CubicMPerS)
	add("flow.wanted", 0.00946353, sheet.CubicMPerS)
	add("flow.duty", 0.00946353, sheet.CubicMPerS)
	add("turnover.time", 1.98889, sheet.Hour)
	add("pump.head", 3.5052, sheet.Metre)
	add("pump.head_static", 0.79248, sheet.Metre)
	add("pump.head_gravel", 0.51816, sheet.Metre)
	add("pump.head_suction", 0.3048, sheet.Metre)
	add("pump.head_discharge", 0.54864, sheet.Metre)
	add("pump.head_fittings", 0.79248, sheet.Metre)
	add("pump.head_intake", 0.54864, sheet.Metre)
	add("pump.power", 745, sheet.Watt)
	add("pump.variable_power", 632, sheet.Watt)
	add("quiet.power", 173, sheet.Watt)
	add("quiet.flow", 0.004731765, sheet.CubicMPerS)
	add("quiet.head", 1.46304, sheet.Metre)
	add("power.hours_cascade", 1773, sheet.HourPerYear)
	add("power.hours_quiet", 3363, sheet.HourPerYear)
	add("power.single_kwh", 3826, sheet.KilowattHour)
	add("power.variable_kwh", 1702, sheet.KilowattHour)
	add("water.top_up", 69.65, sheet.CubicMetre)
	add("water.surface", 68.6, sheet.SquareMetre)
	add("water.evaporation", 60, sheet.CubicMetre)
	add("water.splash", 6, sheet.CubicMetre)
	add("water.clean_out", 7, sheet.CubicMetre)
	add("water.rain", 20, sheet.CubicMetre)
	for _, m := range [][2]string{
		{"power.single_cost", "612.18"}, {"power.variable_cost", "268.02"}, {"water.cost", "114.08"},
		{"budget.low", "71700"}, {"budget.likely", "90600"}, {"budget.high", "118200"},
	} {
		s.Add(sheet.Figure{ID: sheet.ID(m[0]), Unit: sheet.Money, Amount: cash(t, m[1]), Working: "= " + m[1], Source: "definition"})
	}
	s.Tables = append(s.Tables,
		sheet.Table{ID: "power.months", Columns: []sheet.Column{{ID: "hours", Unit: sheet.Hour}, {ID: "single_kwh", Unit: sheet.KilowattHour},
			{ID: "single_cost", Unit: sheet.Money}, {ID: "variable_kwh", Unit: sheet.KilowattHour}, {ID: "variable_cost", Unit: sheet.Money}},
			Rows: []sheet.Row{
				{Name: "1", Cells: []sheet.Cell{{}, {}, {}, {}, {}}},
				{Name: "5", Cells: []sheet.Cell{{Value: 744}, {Value: 554.3}, {Amount: cash(t, "88.69")}, {Value: 240}, {Amount: cash(t, "38.40")}}},
			}},
		sheet.Table{ID: "budget.drivers", Columns: []sheet.Column{{ID: "share", Unit: sheet.Ratio}},
			Rows: []sheet.Row{{Name: "driver.rock", Plain: "Rock"}, {Name: "driver.dig", Plain: "Digging"}}})
	s.Findings = []sheet.Finding{
		{Code: "over_head_height", Severity: sheet.Care, Figures: []sheet.ID{"pond.max_depth"}, Source: "practice", Place: sheet.AtDeepEnd},
		{Code: "own", Severity: sheet.Fine, Title: "Wide lip, {0}", Text: "It is {0}.", Defers: "The town decides.", Cited: "A book, 3", Figures: []sheet.ID{"cascade.lip"}, Source: "builder"},
	}
	return s
}

func us() measure.Terms { return measure.Terms{System: measure.US, Currency: "USD"} }

// spaces makes blanks ordinary, for reading in a test.
func spaces(t string) string { return strings.ReplaceAll(t, "\u00a0", " ") }

func find(t *testing.T, rs []view.Reading, id string) view.Reading {
	t.Helper()
	for _, r := range rs {
		if r.ID == id {
			return r
		}
	}
	t.Fatalf("no reading %s", id)
	return view.Reading{}
}

func TestReadings_SayWhatTheDrawnPageSays(t *testing.T) {
	t.Parallel()
	rs := view.Readings(pond(t), us())
	for _, c := range []struct{ id, figures, note string }{
		{view.Volume, "17,900 gal", "Pond 16,550 + gravel bed 1,350"},
		{view.Flow, "9,000 gal/h|2.0 h", ""},
		{view.Duty, "150 gal/min|11.5 ft of head", ""},
		{view.Power, "", "Variable-speed saves $344 a year"},
		{view.Makeup, "$114", "18,400 gal, after rain"},
		{view.Budget, "$72,000 – 118,000", "Likely near $91,000"},
	} {
		r := find(t, rs, c.id)
		var got []string
		for _, f := range r.Figures {
			got = append(got, spaces(f.String()))
		}
		if strings.Join(got, "|") != c.figures || spaces(r.Note) != c.note {
			t.Errorf("%s: %q, %q; want %q, %q", c.id, strings.Join(got, "|"), spaces(r.Note), c.figures, c.note)
		}
		if len(r.How) == 0 {
			t.Errorf("%s does not say how it is worked out", c.id)
		}
		for _, l := range r.How {
			if strings.ContainsAny(l, "{}") {
				t.Errorf("%s: a brace was left in %q", c.id, l)
			}
		}
	}
	power := find(t, rs, view.Power)
	if len(power.Bars) != 2 || power.Bars[0].Share != 1 || !near(power.Bars[1].Share, 268.02/612.18) {
		t.Errorf("bars = %+v, want 1 and %.3f of the longest", power.Bars, 268.02/612.18)
	}
}

func near(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }

func TestReadings_ADearerVariablePumpIsSaidToBe(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ single, variable, want string }{
		{"100", "130.40", "Variable-speed costs $30 a year more"}, {"100", "100", "Both cost the same"}, {"100", "0", "Variable-speed saves $100 a year"},
	} {
		s := &sheet.Sheet{}
		s.Add(sheet.Figure{ID: "power.single_cost", Unit: sheet.Money, Amount: cash(t, c.single)})
		s.Add(sheet.Figure{ID: "power.variable_cost", Unit: sheet.Money, Amount: cash(t, c.variable)})
		if got := find(t, view.Readings(s, us()), view.Power).Note; got != c.want {
			t.Errorf("%s against %s: %q, want %q", c.single, c.variable, got, c.want)
		}
	}
}

func TestReadings_InMetric(t *testing.T) {
	t.Parallel()
	rs := view.Readings(pond(t), measure.Terms{System: measure.Metric, Currency: "EUR"})
	if got := find(t, rs, view.Volume).Figures[0].String(); spaces(got) != "67.8 m³" {
		t.Errorf("volume = %q", got)
	}
	if got := find(t, rs, view.Duty).Figures; spaces(got[0].String()) != "568 L/min" || spaces(got[1].String()) != "3.51 m of head" {
		t.Errorf("duty = %v", got)
	}
	if got := find(t, rs, view.Makeup).Figures[0].String(); got != "€114" {
		t.Errorf("water = %q", got)
	}
}

func TestReadings_OfAnEmptySheetShowDashesAndNoHalfSentences(t *testing.T) {
	t.Parallel()
	rs := view.Readings(&sheet.Sheet{}, us())
	if got := find(t, rs, view.Flow).Figures; got[0].Unit != "gal/h" || got[1].Unit != "h" {
		t.Errorf("the units are not in their places: %v", got)
	}
	for _, r := range rs {
		for _, f := range r.Figures {
			if !strings.HasPrefix(f.Number, "–") {
				t.Errorf("%s shows %q of nothing", r.ID, f)
			}
		}
		for _, l := range r.How {
			if strings.Contains(l, "–") || strings.ContainsAny(l, "{}") {
				t.Errorf("%s says %q of nothing", r.ID, l)
			}
		}
	}
}

func TestHead_AddsUpAndPutsLiftingFirst(t *testing.T) {
	t.Parallel()
	h := view.Of(pond(t), say.English(), us()).Head()
	if spaces(h.Title) != "Where 11.5 ft of head goes" || spaces(h.Friction) != "Friction, 8.9 ft. It fades quickly as the flow slows" {
		t.Errorf("title %q, friction %q", spaces(h.Title), spaces(h.Friction))
	}
	sum := 0.0
	for i, s := range h.Segments {
		sum += s.Share
		if s.Real != (i == 0) {
			t.Errorf("%s: real lifting is %v at place %d", s.Label, s.Real, i)
		}
	}
	if !near(sum, 1) || len(h.Segments) != 6 || len(h.Table.Rows) != 6 {
		t.Errorf("%d segments add up to %v of the head", len(h.Segments), sum)
	}
}

func TestPlain_TellsTheStoryOfThePump(t *testing.T) {
	t.Parallel()
	got := spaces(view.Of(pond(t), say.English(), us()).Plain())
	for _, want := range []string{"5 ft wide sheet of water", "moves 9,000 gal/h", "11.5 ft of head", "about a quarter of it", "falls to 4.8 ft", "173 W instead of 745 W"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
}

func TestPlain_OfAPondWithoutFallAndGravelNamesNeither(t *testing.T) {
	t.Parallel()
	s := &sheet.Sheet{}
	for _, f := range pond(t).Figures {
		switch f.ID {
		case "cascade.lip", "flow.cascade", "pump.head_static", "pump.head_gravel", "water.splash":
			f.Value = 0
		}
		s.Add(f)
	}
	v := view.Of(s, say.English(), us())
	all := v.Plain()
	for _, r := range v.Readings() {
		if r.ID == view.Power || r.ID == view.Duty || r.ID == view.Makeup {
			all += strings.Join(r.How, " ")
		}
	}
	for _, r := range v.Powers().Rows {
		all += r[0]
	}
	for _, bad := range []string{"cascade", "Cascade", "gravel", "splash", "0.0"} {
		if strings.Contains(all, bad) {
			t.Errorf("%q names %s", all, bad)
		}
	}
	if !strings.Contains(all, "none of it is real lifting") {
		t.Errorf("%q does not say that nothing is lifted", all)
	}
}

func TestMonths_NamesRestsAndAddsUp(t *testing.T) {
	t.Parallel()
	m := view.Of(pond(t), say.English(), us()).Months()
	if len(m.Months) != 2 || !m.Months[0].Rests || m.Months[1].Rests || m.Months[1].Name != "May" || m.Months[1].SingleText != "$89" {
		t.Errorf("months = %+v", m.Months)
	}
	last := m.Table.Rows[len(m.Table.Rows)-1]
	if strings.Join(last, " ") != "The year 5,136 3,826 $612 1,702 $268" {
		t.Errorf("the year's row is %q", strings.Join(last, " "))
	}
	for _, r := range m.Table.Rows {
		if len(r) != len(m.Table.Heads) {
			t.Errorf("row %q has %d cells under %d heads", r, len(r), len(m.Table.Heads))
		}
	}
}

func TestNotes_FillFiguresAndNameTheirSource(t *testing.T) {
	t.Parallel()
	notes := view.Of(pond(t), say.English(), us()).Notes()
	if len(notes) != 2 {
		t.Fatalf("notes = %+v", notes)
	}
	if n := notes[0]; !n.Care || n.Number != "1" || !strings.HasPrefix(spaces(n.Text), "6 ft 6 in at the deep end.") || n.Place != sheet.AtDeepEnd || n.Cited == "" || n.Defers == "" {
		t.Errorf("first note = %+v", n)
	}
	if n := notes[1]; n.Care || spaces(n.Title) != "Wide lip, 5 ft" || n.Defers != "The town decides." || n.Cited != "A book, 3" {
		t.Errorf("a builder's note = %+v", n)
	}
	judged := view.Of(pond(t), say.English(), us()).Judged()
	if len(judged) != 2 || !judged[0].Care || judged[1].Care {
		t.Errorf("beside the readings stand %+v", judged)
	}
}

func TestNotes_StandInTheOrderAPersonNeedsThem(t *testing.T) {
	t.Parallel()
	finding := func(code string, severity sheet.Severity, place sheet.Place, defers string) sheet.Finding {
		return sheet.Finding{Code: code, Severity: severity, Place: place, Defers: defers, Title: code, Text: code}
	}
	s := &sheet.Sheet{Findings: []sheet.Finding{
		finding("pump-care", sheet.Care, sheet.AtPump, ""),
		finding("off-care", sheet.Care, sheet.NoPlace, "town"),
		finding("plan-care", sheet.Care, sheet.AtDeck, "town"),
		finding("pump-fine", sheet.Fine, sheet.AtPump, ""),
		finding("off-fine", sheet.Fine, sheet.NoPlace, "town"),
		finding("plan-fine", sheet.Fine, sheet.AtBeach, "town"),
	}}
	var got []string
	for i, n := range view.Of(s, say.English(), us()).Notes() {
		got = append(got, n.Code)
		if n.Number != string(rune('1'+i)) {
			t.Errorf("%s is number %s at place %d", n.Code, n.Number, i+1)
		}
	}
	if want := "plan-care plan-fine pump-care pump-fine off-care off-fine"; strings.Join(got, " ") != want {
		t.Errorf("order %q, want %q", strings.Join(got, " "), want)
	}
}

func TestStaff_HoldsTheRangeBetweenRoundMarks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ low, likely, high string }{
		{"71700", "90600", "118200"}, {"900", "1200", "1900"}, {"5000", "5000", "5000"}, {"250000", "400000", "1250000"}, {"0", "10", "4000"},
	} {
		s := pond(t)
		own := &sheet.Sheet{}
		for _, f := range s.Figures {
			if !strings.HasPrefix(string(f.ID), "budget.") {
				own.Add(f)
			}
		}
		for id, text := range map[sheet.ID]string{"budget.low": c.low, "budget.likely": c.likely, "budget.high": c.high} {
			own.Add(sheet.Figure{ID: id, Unit: sheet.Money, Amount: cash(t, text)})
		}
		st := find(t, view.Readings(own, us()), view.Budget).Staff
		if st == nil || st.Low < 0 || st.Low > st.Likely || st.Likely > st.High || st.High > 1 {
			t.Errorf("%v: staff = %+v", c, st)
			continue
		}
		if n := len(st.Marks); n < 2 || n > 12 || st.Marks[0].At != 0 || !near(st.Marks[n-1].At, 1) {
			t.Errorf("%v: marks = %+v", c, st.Marks)
		}
	}
}

func TestSpoken_IsOneSentenceOfFourFigures(t *testing.T) {
	t.Parallel()
	got := view.Of(pond(t), say.English(), us()).Spoken()
	if want := "17,900 gal of water, one turn in 2.0 h, pump $612 a year, budget $72,000 – 118,000"; got != want {
		t.Errorf("spoken = %q, want %q", got, want)
	}
}

func TestCalcSheet_HoldsEveryFigureFindingAndSource(t *testing.T) {
	t.Parallel()
	s := pond(t)
	text := view.CalcSheet(s)
	for _, f := range s.Figures {
		if !strings.Contains(text, string(f.ID)) || (f.Working != "" && !strings.Contains(text, f.Working)) {
			t.Errorf("the sheet lacks %s or its working", f.ID)
		}
	}
	for _, want := range []string{"core 7   book demo/1", "Not a quotation", "67.758871 m3", "612.18 money", "over_head_height", "pond.max_depth = 1.981200 m", "POWER MONTHS"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	for _, l := range strings.Split(text, "\n") {
		if strings.HasSuffix(l, " ") {
			t.Errorf("blanks end the line %q", l)
		}
	}
	if again := view.CalcSheet(pond(t)); again != text {
		t.Error("the same sheet prints in two ways")
	}
}

func TestRows_AreDecimalTextInTheOrderOfTheSheet(t *testing.T) {
	t.Parallel()
	s := pond(t)
	rows := view.Rows(s)
	for i, f := range s.Figures {
		if rows[i].ID != string(f.ID) || strings.ContainsAny(rows[i].Value, " ,") {
			t.Errorf("row %d = %+v, want %s", i, rows[i], f.ID)
		}
	}
}
