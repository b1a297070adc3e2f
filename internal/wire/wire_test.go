package wire_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/lead"
	"tarnwright/internal/wire"
)

func pond() design.Design {
	line := design.Line{LengthM: 5, InsideDiameterM: 0.07793, RoughnessM: 1.5e-6, Fittings: []design.Fitting{{Kind: "elbow_90", Count: 2}}}
	return design.Design{
		Version: design.Version, Name: "Alder Reach",
		Outline: design.Outline{Shape: design.Polygon, Vertices: []design.Point{{XM: 0, YM: 0}, {XM: 0.1 + 0.2, YM: 0}, {XM: 4, YM: 5e-7}}, RotationDeg: -12.5},
		Bowl: design.Bowl{DeepM: 2, Wall: []design.Knot{{}, {InsetM: 1, DepthM: 2}}, Floor: &design.Floor{AxisDeg: 3, Knots: []design.FloorKnot{{AlongM: 0, DepthM: 1}, {AlongM: 2, DepthM: 2}}},
			Beach: &design.Beach{BearingDeg: 270, WidthM: 3.6, RunPerRiseRatio: 5}},
		Zone: &design.Zone{AreaM2: 14.68, DepthM: 0.9144, PoreRatio: 0.38, LoadingMPerH: 1.5},
		Circulation: design.Circulation{TurnoverH: 2, Drive: design.SingleSpeed, PumpCount: 1, Suction: line, Discharge: line,
			IntakeOpenAreaM2: 0.1, QuietFlowRatio: 0.4},
		Running: design.Running{Year: 2026, Spans: []design.Span{{From: "03-01", To: "11-30", Runs: []design.Run{{Mode: design.QuietMode, Start: "00:00", End: "24:00"}}}}},
		Site:    design.Site{WaterTempDegC: 20, SizeToleranceRatio: 0.05, ElectricityPerKWh: "0.16"},
	}
}

func TestDesign_ReadsBackWhatItWrote(t *testing.T) {
	t.Parallel()
	raw, err := wire.WriteDesign(pond())
	if err != nil {
		t.Fatal(err)
	}
	back, faults := wire.ReadDesign("d.json", raw)
	if len(faults) > 0 || !reflect.DeepEqual(back, pond()) {
		t.Errorf("read %+v, %v; want %+v", back, faults, pond())
	}
	if again, _ := wire.WriteDesign(back); string(again) != string(raw) {
		t.Error("writing twice gives two texts")
	}
	var std design.Design
	if err := json.Unmarshal(raw, &std); err != nil || !reflect.DeepEqual(std, pond()) {
		t.Errorf("the standard decoder reads %+v, %v", std, err)
	}
	if !strings.HasPrefix(string(raw), "{\n  \"design_version\": 1,\n  \"name\": \"Alder Reach\",\n") || !strings.HasSuffix(string(raw), "}\n") {
		t.Errorf("laid out as\n%s", raw)
	}
}

func TestReadDesign_SaysWhatIsWrongWithLineAndRemedy(t *testing.T) {
	t.Parallel()
	raw, err := wire.WriteDesign(pond())
	if err != nil {
		t.Fatal(err)
	}
	good := string(raw)
	for _, c := range []struct {
		why, from, to string
		want          []string
	}{
		{"too deep", `"deep_m": 2`, `"deep_m": 20`, []string{`bowl.deep_m must lie between 0.3 m and 6 m, and is 20 m`}},
		{"another version", `"design_version": 1`, `"design_version": 2`, []string{`design_version must be 1; this program reads no other`}},
		{"an unknown shape", `"polygon"`, `"blob"`, []string{`outline.shape must be one of "bean", "ellipse", "rounded_rectangle", "freehand", "rectangle", "circle", "l_shape", "polygon", and is "blob"`}},
		{"a day that is none", `"03-01"`, `"02-30"`, []string{`running.spans[0].from must be a day of the year, like "03-31", and is "02-30"`}},
		{"a time that is none", `"24:00"`, `"24:01"`, []string{`running.spans[0].runs[0].end must be a time of day, like "07:30", and is "24:01"`}},
		{"a price with a sign", `"0.16"`, `"$0.16"`, []string{`site.electricity_per_kwh must be a price as decimal text, like "0.16", and is "$0.16"`}},
		{"two at once, in the file's own words", `"turnover_h": 2`, `"turnover": "2 h"`, []string{`circulation.turnover is not a key here; perhaps "turnover_h" was meant`}},
		{"not a number", `"turnover_h": 2`, `"turnover_h": NaN`, []string{`circulation.turnover_h must be a number, like 10.36, and is NaN`}},
	} {
		data := strings.Replace(good, c.from, c.to, 1)
		if data == good {
			t.Fatalf("%s: nothing was replaced in\n%s", c.why, good)
		}
		_, faults := wire.ReadDesign("d.json", []byte(data))
		if len(faults) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.why, faults, c.want)
			continue
		}
		line := strings.Count(data[:strings.Index(data, c.to)], "\n") + 1
		for i, f := range faults {
			if f.Text != c.want[i] || f.Line != line {
				t.Errorf("%s: line %d %q, want line %d %q", c.why, f.Line, f.Text, line, c.want[i])
			}
		}
	}
}

func TestReadDesign_FindsAnOutlineThatCrossesItself(t *testing.T) {
	t.Parallel()
	d := pond()
	d.Outline.RotationDeg = 0
	d.Outline.Vertices = []design.Point{{XM: 0, YM: 0}, {XM: 8, YM: 6}, {XM: 8, YM: 0}, {XM: 0, YM: 6}}
	raw, err := wire.WriteDesign(d)
	if err != nil {
		t.Fatal(err)
	}
	_, faults := wire.ReadDesign("d.json", raw)
	if len(faults) != 1 || faults[0].Code != "crosses_itself" || !strings.HasPrefix(faults[0].Text, "outline.vertices must not cross itself, and does near x 4.00 m, y 3.00 m, between the points 1 and 3") || faults[0].Line < 2 {
		t.Errorf("faults %v", faults)
	}
}

// Every code that the design's check can give has words of its own here.
func TestDesignFault_HasWordsForEveryCode(t *testing.T) {
	t.Parallel()
	bad := design.Design{Name: strings.Repeat("x", 99), Bowl: design.Bowl{Wall: []design.Knot{{InsetM: 1, DepthM: 1}, {}}},
		Circulation: design.Circulation{}, Running: design.Running{Spans: []design.Span{{}}}, Site: design.Site{WaterPerM3: "x"}}
	for _, shape := range []design.Shape{design.Circle, design.LShape, design.Freehand, design.Polygon, "x"} {
		bad.Outline = design.Outline{Shape: shape, LengthM: 3, WidthM: 4}
		for _, f := range design.Validate(bad) {
			if text := wire.DesignFault(f); strings.Contains(text, "is not right (") || !strings.HasPrefix(text, f.Path+" ") {
				t.Errorf("%s %s says %q", f.Path, f.Code, text)
			}
		}
	}
}

func TestLead_ReadsBackWhatItWrote(t *testing.T) {
	t.Parallel()
	want := wire.LeadRequest{Schema: 1, Contact: lead.Contact{Name: "Maren", Phone: "555 010 0199", Consent: true}, Consent: lead.Consent{Text: "Yes <b>", Language: "en"},
		Design: pond(), CoreVersion: 1, Figures: []lead.Figure{{ID: "pond.area", Value: "53.1"}}, MadeAt: "2026-11-25T09:00:00-06:00"}
	raw, err := wire.WriteLead(want)
	if err != nil {
		t.Fatal(err)
	}
	got, faults := wire.ReadLead(raw)
	if len(faults) > 0 || !reflect.DeepEqual(got, want) {
		t.Errorf("read %+v, %v", got, faults)
	}
	std, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	if got, faults := wire.ReadLead(std); len(faults) > 0 || !reflect.DeepEqual(got, want) {
		t.Errorf("from the standard encoder: %+v, %v", got, faults)
	}
	for i := range 401 {
		want.Figures = append(want.Figures, lead.Figure{ID: "x", Value: strings.Repeat("9", i)})
	}
	want.MadeAt = strings.Repeat("x", 81)
	raw, _ = wire.WriteLead(want)
	if _, faults := wire.ReadLead(raw); len(faults) != 3 {
		t.Errorf("faults %v, want the time, the count and the length of a figure", faults)
	}
}

func TestPointer_IsRFC6901(t *testing.T) {
	t.Parallel()
	for path, want := range map[string]string{"": "", "contact.email": "/contact/email", "running.spans[0].runs[12].end": "/running/spans/0/runs/12/end", "pair[1]": "/pair/1", "a/b~c": "/a~1b~0c"} {
		if got := wire.Pointer(path); got != want {
			t.Errorf("%q is %q, want %q", path, got, want)
		}
	}
}

func TestSheetJSON_KeepsEachFigureExactly(t *testing.T) {
	t.Parallel()
	cost, err := money.Parse("1234.50")
	if err != nil {
		t.Fatal(err)
	}
	s := &sheet.Sheet{CoreVersion: 3, Book: "demo/1"}
	s.Add(sheet.Figure{ID: "pond.area", Value: 1.0 / 3, Unit: sheet.SquareMetre, Working: "= a × b < c", Source: "definition"})
	s.Add(sheet.Figure{ID: "power.single_cost", Amount: cost, Unit: sheet.Money})
	s.Findings = append(s.Findings, sheet.Finding{Code: "thin", Severity: sheet.Care, Figures: []sheet.ID{"pond.area"}, Mend: []sheet.Change{{Field: "pipe", Value: "4"}}})
	s.Tables = append(s.Tables, sheet.Table{ID: "budget.items", Columns: []sheet.Column{{ID: "likely", Unit: sheet.Money}, {ID: "share", Unit: sheet.Ratio}},
		Rows: []sheet.Row{{Plain: "Liner", Cells: []sheet.Cell{{Amount: cost}, {Value: 0.25}}}}})
	raw, err := wire.SheetJSON(s, "Rough figures.", func(id sheet.ID) string { return "words of " + string(id) })
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		SheetVersion int `json:"sheet_version"`
		CoreVersion  int `json:"core_version"`
		Caution      string
		Figures      []struct {
			ID, Words, Unit, Working, Source string
			Value                            json.RawMessage
		}
		Findings []struct {
			Code, Severity string
			Figures        []string
		}
		Tables []struct {
			ID   string
			Rows []struct {
				Name   string
				Values []json.RawMessage
			}
		}
	}
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatalf("%v in\n%s", err, raw)
	}
	f := got.Figures
	if got.SheetVersion != 1 || got.Caution != "Rough figures." || got.CoreVersion != 3 || len(f) != 2 || string(f[0].Value) != "0.3333333333333333" || string(f[1].Value) != `"1234.5"` || f[0].Working != "= a × b < c" || f[0].Words != "words of pond.area" {
		t.Errorf("figures %+v", got)
	}
	if len(got.Findings) != 1 || got.Findings[0].Figures[0] != "pond.area" || got.Tables[0].Rows[0].Name != "Liner" || string(got.Tables[0].Rows[0].Values[0]) != `"1234.5"` || string(got.Tables[0].Rows[0].Values[1]) != "0.25" {
		t.Errorf("findings and tables %+v", got)
	}
}

func FuzzReadDesign_NeverPanicsAndReadsBack(f *testing.F) {
	raw, err := wire.WriteDesign(pond())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(raw)
	f.Add([]byte(`{"design_version":1}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, faults := wire.ReadDesign("x", data)
		if len(faults) > 0 {
			return
		}
		out, err := wire.WriteDesign(d)
		if err != nil {
			t.Fatal(err)
		}
		if _, faults := wire.ReadDesign("y", out); len(faults) > 0 {
			t.Fatalf("%v in\n%s", faults, out)
		}
	})
}
