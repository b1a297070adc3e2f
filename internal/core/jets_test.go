package core_test

import (
	"math"
	"testing"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/water"
)

// withJets is the demo with four jets of 10 mm on a branch of their own.
func withJets(d *design.Design) {
	d.Circulation.Drive = design.VariableSpeed
	d.Circulation.Jets = &design.Jets{Count: 4, NozzleM: 0.01, NozzleHeadM: 1.5,
		Line: design.Line{LengthM: 8, InsideDiameterM: 0.04089, RoughnessM: 1.5e-6, Fittings: []design.Fitting{{Kind: "tee_branch", Count: 1}, {Kind: "ball_valve", Count: 1}}}}
}

// At the flow wanted each part gets what it wants, and the head of the pump is
// that of every way through the pipes.
func TestJets_EachPartGetsWhatItWants(t *testing.T) {
	t.Parallel()
	s := computeCirculation(t, withJets)
	value := func(id sheet.ID) float64 {
		f, ok := s.Find(id)
		if !ok {
			t.Fatalf("the sheet has no %s", id)
		}
		return f.Value
	}
	near := func(what string, got, want, tolerance float64) {
		if !(math.Abs(got-want) <= tolerance) {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	each := 0.9 * math.Pi / 4 * 1e-4 * math.Sqrt(2*9.80665*1.5)
	near("jets want", value("flow.jets"), 4*each, 1e-9)
	near("wanted", value("flow.wanted"), value("flow.cascade")+4*each, 2e-9)
	near("jets get", value("jets.flow"), value("flow.jets"), 3e-9)
	near("the cascade gets", value("flow.main"), value("flow.cascade"), 3e-9)
	near("the sheet over the lip", value("weir.head"), 0.025, 1e-6)
	near("head at the nozzles", value("jets.head"), 1.5, 1e-5)
	in := value("pump.head_suction") + value("pump.head_intake")
	d := circulationDemo()
	terms, _ := hydraulics.LineTerms(d.Circulation.Suction)
	v := value("suction.velocity")
	in += terms.FittingCoef * v * v / (2 * 9.80665)
	near("head by way of the jets", value("jets.head")+value("jets.line_head")+value("jets.held")+in, value("pump.head"), 2e-5)
	if value("jets.held") <= 0 {
		t.Error("the jets' valve holds nothing back, where the cascade asks for more")
	}
}

// A pump at full speed on both ways against the general solver of networks,
// with the valve's K as the sheet found it.
func TestJets_TheDutyPointIsTheNetworks(t *testing.T) {
	t.Parallel()
	s := computeCirculation(t, func(d *design.Design) {
		withJets(d)
		d.Circulation.Drive, d.Circulation.Pump = design.SingleSpeed, "P-150"
	})
	d := circulationDemo()
	withJets(&d)
	var b core.Book
	demoPumps(t, &b)
	var curve hydraulics.HeadCurve
	for _, p := range b.Pumps {
		if p.ID == "P-150" {
			curve = p.Curve
		}
	}
	in, out, by := d.Circulation.Suction, d.Circulation.Discharge, d.Circulation.Jets.Line
	ti, _ := hydraulics.LineTerms(in)
	to, _ := hydraulics.LineTerms(out)
	tb, _ := hydraulics.LineTerms(by)
	vj := s.Value("jets.velocity")
	held := s.Value("jets.held") / (vj * vj / (2 * 9.80665))
	area := func(m float64) float64 { return math.Pi * m * m / 4 }
	mouths := math.Pow(area(by.InsideDiameterM)/(4*0.9*area(0.01)), 2)
	a, err := hydraulics.Solve(hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: water.ViscosityM2PerS(20)},
		Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "a"}, {ID: "b"}, {ID: "lip", Surface: true, HeadM: 0.785}},
		Pipes: []hydraulics.Pipe{
			{ID: "in", From: "pond", To: "a", LengthM: in.LengthM, InsideDiameterM: in.InsideDiameterM, RoughnessM: in.RoughnessM, LossCoef: ti.SumCoef() + 0.5},
			{ID: "out", From: "b", To: "lip", LengthM: out.LengthM, InsideDiameterM: out.InsideDiameterM, RoughnessM: out.RoughnessM, LossCoef: to.SumCoef() + 1},
			{ID: "jets", From: "b", To: "pond", LengthM: by.LengthM, InsideDiameterM: by.InsideDiameterM, RoughnessM: by.RoughnessM, LossCoef: tb.SumCoef() + mouths + held},
		},
		Pumps: []hydraulics.Pump{{ID: "pump", From: "a", To: "b", SpeedRatio: 1, Curve: curve}}})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct {
		id   sheet.ID
		want float64
	}{{"flow.duty", a.PumpedM3PerS}, {"flow.main", link(t, a, "out")}, {"jets.flow", link(t, a, "jets")}} {
		if got := s.Value(r.id); math.Abs(got/r.want-1) > 1e-6 {
			t.Errorf("%s: %v m³/s, the network has %v", r.id, got, r.want)
		}
	}
}

func link(t *testing.T, a hydraulics.Solution, id string) float64 {
	t.Helper()
	l, ok := a.Link(id)
	if !ok {
		t.Fatalf("no link %s", id)
	}
	return l.FlowM3PerS
}

// In quiet hours the jets are shut, so what is left is the pond without them.
func TestJets_RestInQuietHours(t *testing.T) {
	t.Parallel()
	with, without := computeCirculation(t, withJets), computeCirculation(t, func(d *design.Design) { d.Circulation.Drive = design.VariableSpeed })
	for _, id := range []sheet.ID{"quiet.flow", "quiet.head"} {
		if a, b := with.Value(id), without.Value(id); a == 0 || math.Abs(a/b-1) > 1e-6 {
			t.Errorf("%s: %v with jets and %v without", id, a, b)
		}
	}
}

func TestJets_FindingsOfferWhatMends(t *testing.T) {
	t.Parallel()
	fast := computeCirculation(t, func(d *design.Design) { withJets(d); d.Circulation.Jets.Count = 10 })
	f := find(fast, "jets_fast")
	if f == nil || len(f.Mend) != 1 || f.Mend[0].Field != "jet_pipe" {
		t.Fatalf("ten jets on a narrow pipe: %+v", f)
	}
	if find(computeCirculation(t, withJets), "jets_fast") != nil {
		t.Error("four jets are faulted")
	}
	hard := computeCirculation(t, func(d *design.Design) { withJets(d); d.Circulation.Jets.NozzleHeadM = 4 })
	if f := find(hard, "jets_hold"); f == nil || hard.Value("pump.head_held") <= 0 {
		t.Errorf("jets that ask for more than the cascade: %+v", f)
	}
	near := func(s *sheet.Sheet) float64 {
		return s.Value("pump.head_static") + s.Value("pump.head_suction") + s.Value("pump.head_discharge") + s.Value("pump.head_fittings") +
			s.Value("pump.head_gravel") + s.Value("pump.head_intake") + s.Value("pump.head_held")
	}
	if math.Abs(near(hard)-hard.Value("pump.head")) > 1e-5 {
		t.Errorf("the parts of the head come to %v, not %v", near(hard), hard.Value("pump.head"))
	}
	weak := computeCirculation(t, func(d *design.Design) {
		withJets(d)
		d.Circulation.Jets.Count, d.Cascade.RiseM, d.Circulation.Drive, d.Circulation.Pump = 12, 5, design.SingleSpeed, "P-40"
	})
	if find(weak, "jets_take_all") == nil {
		t.Error("a cascade left dry by the jets is not told of")
	}
}

// Night and winter: their hours, the speed that gives their flow through these
// pipes, and their power times their hours in the year's electricity.
func TestModes_NightAndWinterCountByTheirOwnSpeed(t *testing.T) {
	t.Parallel()
	s := computeCirculation(t, func(d *design.Design) {
		d.Circulation.Drive, d.Circulation.NightFlowRatio, d.Circulation.WinterFlowRatio = design.VariableSpeed, 0.4, 0.3
		d.Running.Year = 2024 // a leap year
		d.Running.Spans = []design.Span{
			{From: "04-01", To: "10-31", Runs: []design.Run{{Mode: design.CascadeMode, Start: "12:00", End: "20:00"}, {Mode: design.NightMode, Start: "22:00", End: "06:00"}, {Mode: design.QuietMode, Start: "00:00", End: "24:00"}}},
			{From: "11-01", To: "03-31", Runs: []design.Run{{Mode: design.WinterMode, Start: "10:00", End: "16:00"}}},
		}
	})
	for _, r := range []struct {
		id   sheet.ID
		want float64
	}{
		// 214 days of 8 h cascade, 8 h night out of the quiet rest; 152 days, 29 February in.
		{"power.hours_cascade", 214 * 8}, {"power.hours_quiet", 214 * 8}, {"power.hours_night", 214 * 8}, {"power.hours_winter", 152 * 6},
	} {
		if got := s.Value(r.id); got != r.want {
			t.Errorf("%s = %v, want %v", r.id, got, r.want)
		}
	}
	if got, want := s.Value("winter.flow"), 0.3*s.Value("flow.wanted"); math.Abs(got-want) > 2e-9 {
		t.Errorf("winter flow %v, want %v", got, want)
	}
	if !(s.Value("winter.speed") < s.Value("quiet.speed")) || !(s.Value("winter.power") < s.Value("quiet.power")) {
		t.Errorf("winter runs at %v of full speed and draws %v W, quiet at %v and %v W", s.Value("winter.speed"), s.Value("winter.power"), s.Value("quiet.speed"), s.Value("quiet.power"))
	}
	want := (s.Value("pump.variable_power")*214*8 + s.Value("quiet.power")*214*8 + s.Value("night.power")*214*8 + s.Value("winter.power")*152*6) / 1000
	if got := s.Value("power.variable_kwh"); math.Abs(got-want) > 1e-3 {
		t.Errorf("%v kWh a year, want %v", got, want)
	}
	var months float64
	for _, r := range s.Table("power.months").Rows {
		for i, c := range s.Table("power.months").Columns {
			if c.ID == "variable_kwh" {
				months += r.Cells[i].Value
			}
		}
	}
	if math.Abs(months-want) > 1e-2 {
		t.Errorf("the months come to %v kWh, want %v", months, want)
	}
}
