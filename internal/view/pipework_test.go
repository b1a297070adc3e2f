package view_test

import (
	"strings"
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/measure"
	"tarnwright/internal/say"
	"tarnwright/internal/view"
)

// plumbed is the view of the demo with its circulation changed.
func plumbed(t *testing.T, terms measure.Terms, change func(*design.Design)) view.View {
	t.Helper()
	d, faults := form.New(form.Demo()).Design()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if change != nil {
		change(&d)
	}
	return view.Of(core.Compute(d, book.Demo()), say.English(), terms)
}

func kinds(p view.Pipework) string {
	var all []string
	for _, x := range p.Parts {
		all = append(all, x.Kind)
	}
	return strings.Join(all, " ")
}

func TestPipework_IsInOrderOfFlow(t *testing.T) {
	t.Parallel()
	const in = "intake suction_pipe ball_valve check_valve priming_tee union pump_self_priming discharge_pipe ball_valve union"
	for _, c := range []struct {
		why, parts, place string
		lines             int
		change            func(*design.Design)
	}{
		{"through the gravel and over the lip", in + " zone cascade", "pad", 1, nil},
		{"three pumps, three suction lines", in + " zone cascade", "pad", 3, func(d *design.Design) { d.Circulation.PumpCount, d.Circulation.Pump = 3, "P-40" }},
		{"no gravel", in + " cascade", "pad", 1, func(d *design.Design) { d.Zone = nil }},
		{"gravel only", in + " zone", "pad", 1, func(d *design.Design) { d.Cascade = nil }},
		{"straight back", in + " return", "pad", 1, func(d *design.Design) { d.Zone, d.Cascade = nil, nil }},
		{"jets", in + " zone cascade jets", "pad", 1, func(d *design.Design) { d.Circulation.JetsFlowM3PerS = 0.0005 }},
		{"below the water line", in + " zone cascade", "pit", 1, func(d *design.Design) { d.Circulation.PumpAboveWaterM = -0.4 }},
	} {
		p := plumbed(t, us(), c.change).Pipework()
		if kinds(p) != c.parts || p.Lines != c.lines || p.Place != c.place {
			t.Errorf("%s: %s with %d lines, pumps on %s", c.why, kinds(p), p.Lines, p.Place)
		}
		if len(p.Table.Rows) != len(p.Parts) || p.Says == "" || p.Title == "" {
			t.Errorf("%s: %d rows for %d parts, said as %q", c.why, len(p.Table.Rows), len(p.Parts), p.Says)
		}
		for i, x := range p.Parts {
			if row := p.Table.Rows[i]; row[0] != x.Name || row[1] != strings.Join(x.Notes, ", ") || strings.HasPrefix(x.Name, "part.") {
				t.Errorf("%s: the table says %v of %+v", c.why, row, x)
			}
		}
	}
}

// The words carry the sheet's own figures: flow, speed, bore and height.
func TestPipework_SaysWhatTheSheetSays(t *testing.T) {
	t.Parallel()
	notes := func(p view.Pipework, kind string) string {
		for _, x := range p.Parts {
			if x.Kind == kind {
				return spaces(strings.Join(x.Notes, " | "))
			}
		}
		return ""
	}
	p := plumbed(t, us(), nil).Pipework()
	for kind, want := range map[string]string{
		// 165 gal/min in 3.068 in pipe moves at 0.408511 × 165.2 / 3.068² = 7.17 ft/s.
		"suction_pipe": "3.1 in inside, 16 ft 5 in long | 165 gal/min, 7.2 ft/s | 2 bends",
		"cascade":      "165 gal/min | 2 ft 6 in above the water",
		"check_valve":  "",
	} {
		if got := notes(p, kind); got != want {
			t.Errorf("%s: %q, want %q", kind, got, want)
		}
	}
	two := plumbed(t, measure.Terms{System: measure.Metric, Currency: "USD"}, func(d *design.Design) { d.Circulation.PumpCount, d.Circulation.Pump = 2, "P-60" }).Pipework()
	if got := notes(two, "suction_pipe"); !strings.HasPrefix(got, "78 mm inside, 5 m long | ") || !strings.HasSuffix(got, " | 2 bends") {
		t.Errorf("each of two suction pipes is said as %q", got)
	}
	if got := notes(two, "pump_self_priming"); !strings.Contains(got, " each") {
		t.Errorf("two pumps are said as %q", got)
	}
}

func TestSchedule_ListsEveryFittingAndThePad(t *testing.T) {
	t.Parallel()
	v := plumbed(t, us(), nil)
	table, advice := v.Schedule()
	seen := map[string]string{}
	for _, r := range table.Rows {
		if len(r) != len(table.Heads) || strings.Contains(r[0], "part.") {
			t.Errorf("the row %v under %v", r, table.Heads)
		}
		seen[r[0]] += r[1] + " "
	}
	for part, want := range map[string]string{"Check valve": "1 ", "Priming tee": "1 ", "90° long bend": "2 4 ", "Ball valve": "1 1 "} {
		if seen[part] != want {
			t.Errorf("%s: %q of it, want %q", part, seen[part], want)
		}
	}
	all := strings.Join(advice, " ")
	for _, want := range []string{"rises all the way", "air line", "K values"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %q", want, all)
		}
	}
	if !strings.HasPrefix(all, "Pad for the pump: ") {
		t.Errorf("no pad in %q", all)
	}
}

func TestAsks_NamesThePartThatGoverns(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, governs string
		rows         int
		change       func(*design.Design)
	}{
		{"the cascade", "Cascade, asks for the most", 3, nil},
		{"the gravel", "Gravel bed, asks for the most", 2, func(d *design.Design) { d.Cascade = nil }},
		{"the turnover", "One turn in the time asked for, asks for the most", 1, func(d *design.Design) { d.Cascade, d.Zone = nil, nil }},
		{"the jets", "Jets, asks for the most", 4, func(d *design.Design) { d.Circulation.JetsFlowM3PerS = 0.012 }},
	} {
		table := plumbed(t, us(), c.change).Asks()
		n := 0
		for _, r := range table.Rows {
			if strings.Contains(r[0], "asks for the most") {
				n++
				if r[0] != c.governs {
					t.Errorf("%s: %v governs", c.why, r)
				}
			}
		}
		if n != 1 || len(table.Rows) != c.rows {
			t.Errorf("%s: %d parts govern in %v", c.why, n, table.Rows)
		}
	}
}

func TestSuction_ShowsWhatThereIsBesideWhatIsNeeded(t *testing.T) {
	t.Parallel()
	bars, lines := plumbed(t, us(), nil).Suction()
	// 8.647 m there is and 2.436 m needed are 28.4 ft and 8.0 ft.
	if len(bars) != 2 || spaces(bars[0].Amount.String()) != "28.4 ft" || spaces(bars[1].Amount.String()) != "8.0 ft" || bars[0].Share != 1 || bars[1].Share < 0.27 || bars[1].Share > 0.29 {
		t.Errorf("the bars are %+v", bars)
	}
	if len(lines) != 2 || !strings.Contains(lines[0], "primes itself") {
		t.Errorf("said as %v", lines)
	}
	_, below := plumbed(t, us(), func(d *design.Design) { d.Circulation.PumpAboveWaterM = -0.5 }).Suction()
	if len(below) == 0 || !strings.Contains(below[0], "below the water line") {
		t.Errorf("a pump in a pit is said as %v", below)
	}
}

func TestEasy_SaysWhereThePumpRuns(t *testing.T) {
	t.Parallel()
	at := func(flow float64) string {
		s := &sheet.Sheet{}
		for id, x := range map[sheet.ID]float64{"flow.duty": flow, "pump.easy_from": 0.007, "pump.easy_to": 0.012} {
			s.Add(sheet.Figure{ID: id, Value: x, Unit: sheet.CubicMPerS})
		}
		return view.Of(s, say.English(), us()).Easy()
	}
	for flow, want := range map[float64]string{0.005: "below its easy range", 0.01: "in its easy range", 0.013: "past its easy range"} {
		if got := at(flow); !strings.Contains(got, want) {
			t.Errorf("at %v m³/s: %q, want %q", flow, got, want)
		}
	}
	if got := at(0); got != "" {
		t.Errorf("without a flow: %q", got)
	}
}

// chosen is a sheet with a choice of rows given as best, runner-up, least to
// buy and least to run: pump, price and running.
func chosen(t *testing.T, rows [4][3]string) *sheet.Sheet {
	t.Helper()
	table := sheet.Table{ID: "pump.choice", Columns: []sheet.Column{{ID: "count", Unit: sheet.Count}, {ID: "bore", Unit: sheet.Millimetre}, {ID: "power", Unit: sheet.Watt},
		{ID: "quiet_power", Unit: sheet.Watt}, {ID: "price", Unit: sheet.Money}, {ID: "running", Unit: sheet.Money}, {ID: "ten_years", Unit: sheet.Money}}}
	for i, name := range []string{"best", "runner_up", "to_buy", "to_run"} {
		buy, run := cash(t, rows[i][1]), cash(t, rows[i][2])
		table.Rows = append(table.Rows, sheet.Row{Name: name, Plain: rows[i][0], Mend: []sheet.Change{{Field: "model", Value: rows[i][0]}, {Field: "pipe", Value: "4"}},
			Cells: []sheet.Cell{{Value: 1}, {Value: 102.26}, {Value: 300}, {Value: 90}, {Amount: buy}, {Amount: run}, {Amount: buy.Add(run)}}})
	}
	return &sheet.Sheet{Tables: []sheet.Table{table}}
}

func TestChoice_SaysWhyInOneParagraph(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why  string
		rows [4][3]string
		want []string
		not  []string
		many int // rows of the table
	}{
		{"four pumps", [4][3]string{{"A", "1500", "1500"}, {"B", "1800", "1300"}, {"C", "900", "6000"}, {"D", "3000", "900"}},
			[]string{"A on 4 in pipe costs the least in ten years: $3,000. That is $1,500 to buy", "next best is B on 4 in pipe, at $100 more", "least to buy is C on 4 in pipe. It costs $900 now, but $3,900 more", "least to run is D on 4 in pipe. It takes $900 of power in ten years, but costs $900 more"}, []string{"also"}, 4},
		{"one wins all", [4][3]string{{"A", "900", "900"}, {"B", "950", "950"}, {"A", "900", "900"}, {"A", "900", "900"}}, []string{"It is also the least to buy and to run."}, []string{"The least to"}, 2},
		{"a tie", [4][3]string{{"A", "900", "900"}, {"B", "800", "1000"}, {"B", "800", "1000"}, {"A", "900", "900"}}, []string{"B on 4 in pipe costs just as much", "also the least to run", "least to buy is B"}, nil, 2},
	} {
		got := view.Of(chosen(t, c.rows), say.English(), us()).Choice()
		text := spaces(strings.Join(got.Why, " "))
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: no %q in %q", c.why, w, text)
			}
		}
		for _, n := range c.not {
			if strings.Contains(text, n) {
				t.Errorf("%s: %q in %q", c.why, n, text)
			}
		}
		if len(got.Table.Rows) != c.many || len(got.Tries) != c.many {
			t.Errorf("%s: %d rows and %d to try, want %d", c.why, len(got.Table.Rows), len(got.Tries), c.many)
		}
	}
	none := plumbed(t, us(), func(d *design.Design) { d.Circulation.TurnoverH = 0.5; d.Outline.LengthM = 30; d.Outline.WidthM = 20 }).Choice()
	if len(none.Why) != 1 || len(none.Table.Rows) != 0 {
		t.Errorf("a lift that no pump reaches: %+v", none)
	}
}
