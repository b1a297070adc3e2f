package core_test

import (
	"encoding/json"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/water"
)

// demoPumps reads the demo's invented catalogue.
func demoPumps(t *testing.T, b *core.Book) {
	t.Helper()
	for _, f := range []struct {
		name string
		into any
	}{{"pumps", &struct{ Pumps *[]pump.Model }{&b.Pumps}}, {"pipes", &struct{ Pipes *[]hydraulics.Size }{&b.Pipes}}} {
		data, err := os.ReadFile("../book/demo/" + f.name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(data, f.into); err != nil {
			t.Fatal(err)
		}
	}
}

// circulationDemo is the invented pond of the demo, in its own words.
func circulationDemo() design.Design {
	return design.Design{
		Version: design.Version, Name: "Alder Reach",
		Outline: design.Outline{Shape: design.Bean, LengthM: 10.3632, WidthM: 6.4008},
		Bowl: design.Bowl{DeepM: 1.9812, Wall: []design.Knot{{}, {InsetM: 0.1, DepthM: 0.3}, {InsetM: 0.45, DepthM: 0.3}, {InsetM: 1.0384, DepthM: 1.9812}},
			Beach: &design.Beach{BearingDeg: 270, WidthM: 3.6, RunPerRiseRatio: 5, ToeDepthM: 0.45, DescentRunPerRiseRatio: 2.4}},
		Zone:    &design.Zone{AreaM2: 14.68, DepthM: 0.9144, PoreRatio: 0.38, LoadingMPerH: 1.5},
		Cascade: &design.Cascade{LipM: 1.524, RiseM: 0.76, SheetM: 0.025, Lip: design.BroadLip, BearingDeg: 10},
		Circulation: design.Circulation{
			TurnoverH: 3, Drive: design.SingleSpeed, PumpCount: 1,
			Suction: design.Line{LengthM: 5, InsideDiameterM: 0.07793, RoughnessM: 1.5e-6,
				Fittings: []design.Fitting{{Kind: "elbow_90", Count: 2}, {Kind: "ball_valve", Count: 1}, {Kind: "check_valve", Count: 1}}},
			Discharge: design.Line{LengthM: 14, InsideDiameterM: 0.07793, RoughnessM: 1.5e-6, OtherLossCoef: 1,
				Fittings: []design.Fitting{{Kind: "elbow_90", Count: 4}, {Kind: "ball_valve", Count: 1}}},
			PumpAboveWaterM: 0.3, PumpFromWaterM: 1.2, PumpBearingDeg: 75, IntakeBearingDeg: 95, IntakeOpenAreaM2: 0.12, QuietFlowRatio: 0.5,
		},
		Running: design.Running{Year: 2026, Spans: []design.Span{{From: "05-01", To: "09-30", Runs: []design.Run{
			{Mode: design.CascadeMode, Start: "10:00", End: "18:00"}, {Mode: design.QuietMode, Start: "18:00", End: "10:00"}}}}},
		Site: design.Site{AltitudeM: 120, WaterTempDegC: 20, ElectricityPerKWh: "0.16", WaterPerM3: "1.64", SizeToleranceRatio: 0.05},
	}
}

func computeCirculation(t *testing.T, change func(*design.Design)) *sheet.Sheet {
	t.Helper()
	d := circulationDemo()
	if change != nil {
		change(&d)
	}
	if faults := core.Check(d); len(faults) > 0 {
		t.Fatalf("design: %v", faults)
	}
	var b core.Book
	demoPumps(t, &b)
	return core.Compute(d, b)
}

func find(s *sheet.Sheet, code string) *sheet.Finding {
	for i := range s.Findings {
		if s.Findings[i].Code == code {
			return &s.Findings[i]
		}
	}
	return nil
}

// The duty point again by the general network solver, which is itself held to
// reference networks: two routes to one answer.
func TestCirculation_TheDutyPointIsTheNetworks(t *testing.T) {
	t.Parallel()
	s := computeCirculation(t, nil)
	d := circulationDemo()
	var b core.Book
	demoPumps(t, &b)
	var curve hydraulics.HeadCurve
	for _, p := range b.Pumps {
		if p.ID == "P-100" {
			curve = p.Curve
		}
	}
	in, out := d.Circulation.Suction, d.Circulation.Discharge
	ti, err := hydraulics.LineTerms(in)
	if err != nil {
		t.Fatal(err)
	}
	to, err := hydraulics.LineTerms(out)
	if err != nil {
		t.Fatal(err)
	}
	n := hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: water.ViscosityM2PerS(20)},
		Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "a"}, {ID: "b"}, {ID: "lip", Surface: true, HeadM: 0.785}},
		Pipes: []hydraulics.Pipe{
			{ID: "in", From: "pond", To: "a", LengthM: in.LengthM, InsideDiameterM: in.InsideDiameterM, RoughnessM: in.RoughnessM, LossCoef: ti.SumCoef() + 0.5},
			{ID: "out", From: "b", To: "lip", LengthM: out.LengthM, InsideDiameterM: out.InsideDiameterM, RoughnessM: out.RoughnessM, LossCoef: to.SumCoef() + 1},
		},
		Pumps: []hydraulics.Pump{{ID: "pump", From: "a", To: "b", SpeedRatio: 1, Curve: curve}}}
	got, err := hydraulics.Solve(n)
	if err != nil {
		t.Fatal(err)
	}
	l, _ := got.Link("pump")
	for _, c := range []struct {
		id   sheet.ID
		want float64
	}{{"flow.duty", l.FlowM3PerS}, {"pump.head", l.HeadM}} {
		if v := s.Value(c.id); math.Abs(v/c.want-1) > 1e-6 {
			t.Errorf("%s = %.9f, want %.9f", c.id, v, c.want)
		}
	}
}

// Figures worked by hand from definitions and printed constants: the flow over
// an ideal crest is 3.0876 L H^1.5 in feet; 0.4085 Q/d² is the velocity in
// ft/s; the zone's flow is area times loading.
func TestCirculation_FiguresAgreeWithHandWork(t *testing.T) {
	t.Parallel()
	s := computeCirculation(t, nil)
	const foot, gpm = 0.3048, 3.785411784e-3 / 60
	q := s.Value("flow.duty")
	head := 0.0
	for _, id := range []sheet.ID{"pump.head_static", "pump.head_suction", "pump.head_discharge", "pump.head_fittings", "pump.head_gravel", "pump.head_intake"} {
		head += s.Value(id)
	}
	vh := 2.0 * 9.80665
	v := s.Value("suction.velocity")
	for _, c := range []struct {
		id        sheet.ID
		want      float64
		tolerance float64
	}{
		{"flow.cascade", 3.0876 * (1.524 / foot) * math.Pow(0.025/foot, 1.5) * foot * foot * foot, 2e-5},
		{"flow.zone", 14.68 * 1.5 / 3600, 1e-6},
		{"flow.turnover", s.Value("water.net_volume") / 3 / 3600, 1e-6},
		{"flow.wanted", s.Value("flow.cascade"), 0},
		{"suction.velocity", 0.4085 * (q / gpm) / (3.06811 * 3.06811) * foot, 5e-5},
		{"turnover.time", s.Value("water.net_volume") / q / 3600, 1e-6},
		{"pump.head", head, 1e-9},
		{"pump.head_gravel", v * v / vh, 1e-5},
		{"pump.head_intake", 0.5 * v * v / vh, 1e-5},
		{"intake.velocity", q / 0.12, 1e-5},
		{"pump.efficiency", 998.2 * 9.80665 * q * s.Value("pump.head") / s.Value("pump.power"), 1e-5},
		{"quiet.flow", s.Value("flow.wanted") / 2, 1e-6},
	} {
		if got := s.Value(c.id); math.Abs(got-c.want) > c.tolerance*math.Abs(c.want) {
			t.Errorf("%s = %.9g, want %.9g", c.id, got, c.want)
		}
	}
	if p, w := s.Value("quiet.power"), s.Value("pump.variable_power"); !(p < w/3) {
		t.Errorf("half the flow draws %.0f W of %.0f W", p, w)
	}
	if cube := math.Pow(0.5, 3); !(s.Value("quiet.speed") > 0.5) || s.Value("quiet.power")/s.Value("pump.variable_power") < cube {
		t.Error("the lift has been forgotten: quiet hours are cheaper than the cube rule")
	}
}

// Each finding has a design that raises it and the demo, changed the other way,
// that clears it.
func TestCirculation_FindingsComeAndGo(t *testing.T) {
	t.Parallel()
	wide := func(d *design.Design) {
		d.Circulation.Suction.InsideDiameterM, d.Circulation.Discharge.InsideDiameterM = 0.10226, 0.10226
	}
	for _, c := range []struct {
		code         string
		raise, clear func(*design.Design)
		mend         sheet.Change
	}{
		{"suction_fast", nil, wide, sheet.Change{Field: "pipe", Value: "4"}},
		{"discharge_fast", func(d *design.Design) { d.Circulation.Discharge.InsideDiameterM = 0.0627 }, wide, sheet.Change{Field: "discharge", Value: "3"}},
		{"weir_thin", nil, func(d *design.Design) { d.Cascade.SheetM = 0.031; wide(d) }, sheet.Change{}},
		{"flow_short", func(d *design.Design) {
			d.Circulation.Discharge.LengthM = 100
			d.Circulation.Discharge.InsideDiameterM = 0.0525
		}, nil, sheet.Change{Field: "pipe", Value: "4"}},
		{"outside_curve", func(d *design.Design) {
			wide(d)
			d.Cascade, d.Circulation.Pump, d.Circulation.Suction.Fittings = nil, "P-25", nil
			d.Circulation.Discharge.Fittings, d.Circulation.Discharge.OtherLossCoef = nil, 0
			d.Circulation.PumpAboveWaterM = -0.5
		}, nil, sheet.Change{}},
		{"prime_needed", func(d *design.Design) { d.Circulation.PumpAboveWaterM = 3 }, nil, sheet.Change{}},
		{"prime_kept", nil, func(d *design.Design) { d.Circulation.PumpAboveWaterM = -0.2 }, sheet.Change{}},
		{"npsh_short", func(d *design.Design) {
			d.Circulation.PumpAboveWaterM, d.Site.AltitudeM, d.Site.WaterTempDegC = 5, 4000, 34
		}, nil, sheet.Change{Field: "stand", Value: "pit"}},
		{"pump_unknown", func(d *design.Design) { d.Circulation.Pump = "none such" }, nil, sheet.Change{}},
		{"fitting_unknown", func(d *design.Design) {
			d.Circulation.Suction.Fittings = append(d.Circulation.Suction.Fittings, design.Fitting{Kind: "gizmo", Count: 1})
		}, nil, sheet.Change{}},
	} {
		f := find(computeCirculation(t, c.raise), c.code)
		if f == nil {
			t.Errorf("%s does not come up", c.code)
			continue
		}
		if c.mend != (sheet.Change{}) && (len(f.Mend) == 0 || f.Mend[0] != c.mend) {
			t.Errorf("%s offers %v, want %v", c.code, f.Mend, c.mend)
		}
		if find(computeCirculation(t, c.clear), c.code) != nil {
			t.Errorf("%s does not go away", c.code)
		}
	}
	var weak core.Book
	demoPumps(t, &weak)
	weak.Pumps = weak.Pumps[:1]
	for i := range weak.Pumps[0].Curve.Points {
		weak.Pumps[0].Curve.Points[i].HeadM /= 8
	}
	s := core.Compute(circulationDemo(), weak)
	if find(s, "no_duty_point") == nil || s.Value("flow.duty") != 0 {
		t.Error("a lift above the pump's shut-off head raises no finding, or a flow is made up")
	}
	var none core.Book
	if find(core.Compute(circulationDemo(), none), "no_pump") == nil {
		t.Error("an empty catalogue raises no finding")
	}
}

// mended makes the changes that a finding or a row offers.
func mended(t *testing.T, d *design.Design, changes []sheet.Change) {
	t.Helper()
	var b core.Book
	demoPumps(t, &b)
	k := &d.Circulation
	for _, m := range changes {
		switch m.Field {
		case "pump":
			k.Drive = map[string]design.Drive{"single": design.SingleSpeed, "variable": design.VariableSpeed}[m.Value]
		case "model":
			k.Pump = ""
			for _, p := range b.Pumps {
				if p.ID == m.Value {
					k.Pump, k.Drive = p.ID, p.Drive
				}
			}
		case "pumps":
			n, err := strconv.Atoi(m.Value)
			if err != nil {
				t.Fatal(err)
			}
			k.PumpCount = n
		case "lip", "rise", "sheet":
			x, err := strconv.ParseFloat(strings.TrimSuffix(m.Value, "m"), 64)
			if err != nil {
				t.Fatal(err)
			}
			*map[string]*float64{"lip": &d.Cascade.LipM, "rise": &d.Cascade.RiseM, "sheet": &d.Cascade.SheetM}[m.Field] = x
		case "grate", "mouth", "zone_area":
			x, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(m.Value, "2"), "m"), 64)
			if err != nil {
				t.Fatal(err)
			}
			switch m.Field {
			case "grate":
				k.IntakeOpenAreaM2 = x
			case "mouth":
				k.IntakeDepthM = x
			case "zone_area":
				d.Zone.AreaM2 = x
			}
		case "stand":
			if m.Value != "pit" {
				t.Fatalf("a pump stands in a %s", m.Value)
			}
			k.PumpAboveWaterM = -0.3
		case "jets":
			if k.Jets.Count, _ = strconv.Atoi(m.Value); k.Jets.Count == 0 {
				k.Jets = nil
			}
		case "pipe", "discharge", "jet_pipe":
			line := &k.Suction
			switch m.Field {
			case "discharge":
				line = &k.Discharge
			case "jet_pipe":
				line = &k.Jets.Line
			}
			for _, size := range b.Pipes {
				if size.NominalIn == m.Value {
					line.InsideDiameterM = size.InsideDiameterM
				}
			}
		default:
			t.Fatalf("nobody knows the field %s", m.Field)
		}
	}
}

// wide lays the widest pipe that the demo's builder stocks.
func wide(d *design.Design) {
	d.Circulation.Suction.InsideDiameterM, d.Circulation.Discharge.InsideDiameterM = 0.15405, 0.15405
}

// What a finding offers must mend it.
func TestCirculation_TheMendMends(t *testing.T) {
	t.Parallel()
	for code, raise := range map[string]func(*design.Design){
		"suction_fast":          func(*design.Design) {},
		"speed_rule":            func(*design.Design) {},
		"prime_needed":          func(d *design.Design) { d.Circulation.Pump = "P-25" },
		"flow_short, one named": func(d *design.Design) { d.Circulation.Pump = "P-25" },
		"discharge_fast":        func(d *design.Design) { d.Circulation.Discharge.InsideDiameterM = 0.0627 },
		"flow_short": func(d *design.Design) {
			d.Circulation.Discharge.LengthM, d.Circulation.Discharge.InsideDiameterM = 100, 0.0525
		},
		"flow_short, one pump too few": func(d *design.Design) { wide(d); d.Cascade.LipM, d.Cascade.RiseM = 3, 4 },
		"flow_short, too high": func(d *design.Design) {
			wide(d)
			d.Cascade.LipM, d.Cascade.RiseM, d.Circulation.PumpCount = 6, 5, 3
		},
		"discharge_fast_no_wider": func(d *design.Design) {
			wide(d)
			d.Cascade.LipM, d.Cascade.RiseM, d.Circulation.PumpCount = 7, 0.2, 3
		},
		"weir_thin": func(*design.Design) {},
		"jets_fast": func(d *design.Design) { withJets(d); d.Circulation.Jets.Count = 10 },
		"jets_hold": func(d *design.Design) { withJets(d); d.Circulation.Jets.Line.InsideDiameterM = 0.03 },
		"jets_take_all": func(d *design.Design) {
			withJets(d)
			d.Circulation.Jets.Count, d.Cascade.RiseM, d.Circulation.Drive, d.Circulation.Pump = 12, 5, design.SingleSpeed, "P-40"
		},
	} {
		code, _, _ = strings.Cut(code, ",")
		f := find(computeCirculation(t, raise), code)
		if f == nil || len(f.Mend) == 0 {
			t.Errorf("%s offers nothing: %+v", code, f)
			continue
		}
		after := computeCirculation(t, func(d *design.Design) {
			raise(d)
			mended(t, d, f.Mend)
		})
		if find(after, code) != nil {
			t.Errorf("%s is still there after %v", code, f.Mend)
		}
		if len(f.Else) == 0 {
			continue
		}
		if find(computeCirculation(t, func(d *design.Design) { raise(d); mended(t, d, f.Else) }), code) != nil {
			t.Errorf("%s is still there after %v", code, f.Else)
		}
	}
}

// The demo's own catalogue and pipes must be sound.
func TestCirculation_TheDemosPumpsAreSound(t *testing.T) {
	t.Parallel()
	var b core.Book
	demoPumps(t, &b)
	if len(b.Pumps) < 8 || len(b.Pipes) < 5 {
		t.Fatalf("%d pumps, %d pipes", len(b.Pumps), len(b.Pipes))
	}
	for _, m := range b.Pumps {
		for _, err := range m.Check() {
			t.Error(err)
		}
	}
	s := computeCirculation(t, nil)
	if q := s.Value("flow.duty") * 3600 / 3.785411784e-3; q < 9500 || q > 10200 {
		t.Errorf("the demo moves %.0f gal/h", q)
	}
	rows := s.Table("pump.choice").Rows
	if len(rows) != 4 || rows[0].Cells[6].Amount.Cmp(rows[1].Cells[6].Amount) > 0 {
		t.Errorf("the choice is %v", rows)
	}
}
