package pump_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/water"
)

const (
	foot  = 0.3048
	gpm   = 3.785411784e-3 / 60
	horse = 745.69987158
)

func near(t *testing.T, why string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s = %.9g, want %.9g within %.1e", why, got, want, relative)
	}
}

func amount(t testing.TB, text string) money.Amount {
	t.Helper()
	a, err := money.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// parabola is a pump of head h0 − k Q² in feet and gallons a minute, by three
// points of the power form, drawing watts all along.
func parabola(h0, k, watts float64) pump.Model {
	at := func(q float64) hydraulics.CurvePoint {
		return hydraulics.CurvePoint{FlowM3PerS: q * gpm, HeadM: (h0 - k*q*q) * foot}
	}
	most := math.Sqrt(0.99 * h0 / k)
	return pump.Model{ID: "X", Name: "X", Class: pump.SelfPriming, Drive: design.VariableSpeed,
		Curve:           hydraulics.HeadCurve{Form: hydraulics.Power, Points: []hydraulics.CurvePoint{at(0), at(most / 2), at(most)}},
		Power:           []pump.PowerPoint{{PowerW: watts}, {FlowM3PerS: most * gpm, PowerW: watts}},
		NPSH:            []pump.NPSHPoint{{HeadM: 2}, {FlowM3PerS: most * gpm, HeadM: 2}},
		LeastSpeedRatio: 0.2, MostSpeedRatio: 1, MostLiftM: 3}
}

func machine(t testing.TB, m pump.Model) *pump.Machine {
	t.Helper()
	r, err := pump.NewMachine(m)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// quadratic is a system of static + k Q² in feet and gallons a minute: all of
// it is one K, so no law of friction enters.
func quadratic(static, k float64) pump.System {
	const bore = 0.05
	v := hydraulics.VelocityMPerS(gpm, bore)
	coef := k * foot * 2 * water.GravityMPerS2 / (v * v)
	return pump.System{Count: 1, StaticM: static * foot, DensityKgPerM3: 998.2,
		Suction:   hydraulics.NewResistance(design.Line{LengthM: 1e-9, InsideDiameterM: bore}, 0, 1e-6),
		Discharge: hydraulics.NewResistance(design.Line{LengthM: 1e-9, InsideDiameterM: bore}, coef, 1e-6)}
}

// Worked by the quadratic: 80 − 0.008 Q² meets 12 + 0.004 Q² at 75.2773 gal/min
// and 34.6667 ft; two side by side at 106.458 and 57.333; 95 − 0.0045 Q² meets
// 0.0082 Q² at 86.4888 and 61.3386.
func TestDuty_AgreesWithWorkedExamples(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why                        string
		h0, k, static, ks          float64
		count                      int
		wantGPM, wantFt, tolerance float64
	}{
		{"one pump", 80, 0.008, 12, 0.004, 1, 75.2773, 34.6667, 2e-6},
		{"two side by side", 80, 0.008, 12, 0.004, 2, 106.458, 57.333, 1e-5},
		{"no lift", 95, 0.0045, 0, 0.0082, 1, 86.4888, 61.3386, 2e-6},
	} {
		s := quadratic(c.static, c.ks)
		s.Count = c.count
		d := machine(t, parabola(c.h0, c.k, 500)).Duty(s, 1)
		if d.State != hydraulics.Flowing {
			t.Errorf("%s: %s", c.why, d.State)
		}
		near(t, c.why+", gal/min", d.FlowM3PerS/gpm, c.wantGPM, c.tolerance)
		near(t, c.why+", ft", d.HeadM/foot, c.wantFt, c.tolerance)
	}
}

// Crane TP-410 example 7-33, printed: 400 gal/min, 126 ft and 17.5 hp at 3500
// turns are 194.2857 gal/min, 29.7257 ft and 2.00531 hp at 1700.
func TestAffinity_AgreesWithAPrintedExample(t *testing.T) {
	t.Parallel()
	m := parabola(126/(1-0.4*0.4), 0, 0)
	m.Curve = hydraulics.HeadCurve{Form: hydraulics.Straight, Points: []hydraulics.CurvePoint{{HeadM: 150 * foot}, {FlowM3PerS: 400 * gpm, HeadM: 126 * foot}, {FlowM3PerS: 500 * gpm, HeadM: 100 * foot}}}
	m.Power = []pump.PowerPoint{{PowerW: 10 * horse}, {FlowM3PerS: 400 * gpm, PowerW: 17.5 * horse}, {FlowM3PerS: 500 * gpm, PowerW: 18 * horse}}
	m.NPSH = []pump.NPSHPoint{{HeadM: 1}, {FlowM3PerS: 400 * gpm, HeadM: 4}, {FlowM3PerS: 500 * gpm, HeadM: 5}}
	r := machine(t, m)
	const s = 1700.0 / 3500
	w := pump.Working{FlowM3PerS: 194.2857142857 * gpm, SpeedRatio: s}
	near(t, "head, ft", r.HeadM(w)/foot, 29.7257, 1e-5)
	near(t, "power, hp", r.PowerW(w)/horse, 2.00531, 1e-5)
	near(t, "suction head required, m", r.NPSHRequiredM(w), 4*s*s, 1e-12)
	near(t, "end of the curve, gal/min", r.MostM3PerS(s)/gpm, 500*s, 1e-12)
	near(t, "shut-off head, ft", r.ShutOffM(s)/foot, 150*s*s, 1e-12)
}

// Crane TP-410 example 7-32 as the fluids library answers it, 13.887 ft; and a
// pond pump at 80 °F, 3 ft above the water with 2 ft of loss, at sea level and
// at 5280 ft: 27.84 and 21.83 ft.
func TestNPSH_AgreesWithPrintedExamples(t *testing.T) {
	t.Parallel()
	const psi, pound = 6894.757293168, 0.45359237
	got := pump.NPSHAvailableM(pump.Intake{AirPressurePa: 101325 + 5*psi, VapourPressurePa: 0.256 * psi,
		DensityKgPerM3: 62.364 * pound / (foot * foot * foot), PumpAboveWaterM: 25 * foot, LossM: 6 * foot})
	near(t, "suction head, ft", got/foot, 13.887, 1e-4)
	for _, c := range []struct{ altitudeFt, want float64 }{{0, 27.84}, {5280, 21.83}} {
		got := pump.NPSHAvailableM(pump.Intake{AirPressurePa: water.AirPressurePa(c.altitudeFt * foot), VapourPressurePa: water.VapourPressurePa(80.0*5/9 - 32.0*5/9),
			DensityKgPerM3: water.DensityKgPerM3(26.67), PumpAboveWaterM: 3 * foot, LossM: 2 * foot})
		near(t, "suction head of a pond pump, ft", got/foot, c.want, 1e-3)
	}
}

// 60 gal/min at 40 ft takes 451.8 W at 998.2 kg/m³.
func TestWaterPower_AgreesWithAWorkedExample(t *testing.T) {
	t.Parallel()
	near(t, "water power, W", pump.WaterPowerW(998.2, pump.Lift{FlowM3PerS: 60 * gpm, HeadM: 40 * foot}), 451.8, 2e-4)
}

// The single-loop networks of the reference, each pump against its two lines,
// by exact Colebrook–White; the general solver and this one are apart.
func TestDuty_AgreesWithTheReferenceNetworks(t *testing.T) {
	t.Parallel()
	var file struct {
		Cases []struct {
			ID, Topology, Formula string
			Viscosity             float64 `json:"kinematic_viscosity_m2_s"`
			Inputs                struct {
				Nodes []struct {
					ID   string
					Head float64 `json:"head_m"`
				}
				Links []struct {
					ID, Type, Curve string
					Length          float64 `json:"length_m"`
					Bore            float64 `json:"id_mm"`
					K, Speed        float64
					Rough           float64 `json:"roughness_mm"`
				}
				Curves map[string]struct {
					Interpolation string
					PointsSI      [][2]float64 `json:"points_si"`
				}
			}
			Alt map[string]struct {
				Total float64 `json:"total_pumped_m3h"`
			} `json:"alt_conventions"`
		}
	}
	data, err := os.ReadFile("../../../testdata/reference/hydraulics.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, c := range file.Cases {
		want, ok := c.Alt["dw_colebrook_exact_g9.80665"]
		if !ok || c.Topology != "single" {
			continue
		}
		compared++
		s := pump.System{Count: 1, DensityKgPerM3: 998}
		m := parabola(80, 0.008, 500)
		speed := 1.0
		for _, n := range c.Inputs.Nodes {
			if n.ID == "LIP" {
				s.StaticM += n.Head
			}
			if n.ID == "POND" {
				s.StaticM -= n.Head
			}
		}
		for _, l := range c.Inputs.Links {
			line := hydraulics.NewResistance(design.Line{LengthM: l.Length, InsideDiameterM: l.Bore / 1000, RoughnessM: l.Rough / 1000}, l.K, c.Viscosity)
			switch l.ID {
			case "SUC":
				s.Suction = line
			case "DIS":
				s.Discharge = line
			default:
				speed = l.Speed
				m.Curve.Form, m.Curve.Points = hydraulics.Power, nil
				if c.Inputs.Curves[l.Curve].Interpolation == "piecewise-linear" {
					m.Curve.Form = hydraulics.Straight
				}
				for _, p := range c.Inputs.Curves[l.Curve].PointsSI {
					m.Curve.Points = append(m.Curve.Points, hydraulics.CurvePoint{FlowM3PerS: p[0] / 3600, HeadM: p[1]})
				}
			}
		}
		near(t, c.ID+", m³/h", machine(t, m).Duty(s, speed).FlowM3PerS*3600, want.Total, 1e-9)
	}
	if compared < 7 {
		t.Errorf("only %d cases were compared", compared)
	}
}

func TestDuty_SaysWhereThereIsNone(t *testing.T) {
	t.Parallel()
	m := machine(t, parabola(80, 0.008, 500))
	if d := m.Duty(quadratic(81, 0.004), 1); d.State != hydraulics.DeadHead || d.FlowM3PerS != 0 {
		t.Errorf("a lift above shut-off is %s with %v m³/s", d.State, d.FlowM3PerS)
	}
	if d := m.Duty(quadratic(0, 1e-6), 1); d.State != hydraulics.Beyond {
		t.Errorf("a system too easy for the curve is %s", d.State)
	}
}

// The speed for a flow must bring that flow back, lift and all, and needs more
// than the cube of the flow's share in power.
func TestAt_FindsTheSpeedThatGivesTheFlow(t *testing.T) {
	t.Parallel()
	m := machine(t, parabola(80, 0.008, 500))
	s := quadratic(12, 0.004)
	full := m.Duty(s, 1)
	for _, share := range []float64{1, 0.9, 0.7, 0.5, 0.3} {
		d, ok := m.At(s, share*full.FlowM3PerS)
		if !ok {
			t.Errorf("no speed gives %g of the flow", share)
			continue
		}
		near(t, "flow at that speed, m³/s", m.Duty(s, d.SpeedRatio).FlowM3PerS, share*full.FlowM3PerS, 1e-9)
		if share < 1 && d.SpeedRatio <= share {
			t.Errorf("speed %g for a flow of %g: the lift has been forgotten", d.SpeedRatio, share)
		}
	}
	if _, ok := m.At(s, 1.01*full.FlowM3PerS); ok {
		t.Error("more than full speed gives is promised")
	}
	if d, ok := m.At(quadratic(0, 0.004), 0.001*full.FlowM3PerS); ok || d.SpeedRatio != 0.2 {
		t.Errorf("under the least speed: speed %g, %v; want the least and no", d.SpeedRatio, ok)
	}
}

func TestDuty_FallsAsTheLiftRisesAndRisesWithTheBore(t *testing.T) {
	t.Parallel()
	m := machine(t, parabola(80, 0.008, 500))
	last := math.Inf(1)
	for lift := 0.0; lift < 80; lift += 2 {
		q := m.Duty(quadratic(lift, 0.004), 1).FlowM3PerS
		if !(q < last) {
			t.Errorf("flow does not fall at a lift of %g ft", lift)
		}
		last = q
	}
	last = 0
	for bore := 0.03; bore < 0.12; bore += 0.005 {
		s := quadratic(12, 0)
		s.Discharge = hydraulics.NewResistance(design.Line{LengthM: 20, InsideDiameterM: bore, RoughnessM: 1.5e-6}, 5, 1e-6)
		q := m.Duty(s, 1).FlowM3PerS
		if !(q > last) {
			t.Errorf("flow does not rise at a bore of %g m", bore)
		}
		last = q
	}
}

func TestModel_CheckFindsEveryFault(t *testing.T) {
	t.Parallel()
	if f := parabola(80, 0.008, 500).Check(); len(f) > 0 {
		t.Fatalf("a sound pump is faulted: %v", f)
	}
	for why, spoil := range map[string]func(*pump.Model){
		"no id":            func(m *pump.Model) { m.ID = "" },
		"class":            func(m *pump.Model) { m.Class = "magic" },
		"drive":            func(m *pump.Model) { m.Drive = "" },
		"single at speeds": func(m *pump.Model) { m.Drive = design.SingleSpeed },
		"curve":            func(m *pump.Model) { m.Curve.Points[2].HeadM = 99 },
		"no power":         func(m *pump.Model) { m.Power = nil },
		"power below 0":    func(m *pump.Model) { m.Power[0].PowerW = -1 },
		"speed":            func(m *pump.Model) { m.LeastSpeedRatio = 0 },
		"price":            func(m *pump.Model) { m.Price = amount(t, "-1") },
	} {
		m := parabola(80, 0.008, 500)
		spoil(&m)
		if len(m.Check()) == 0 {
			t.Errorf("%s: no fault", why)
		}
	}
}
