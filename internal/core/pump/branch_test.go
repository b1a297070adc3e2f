package pump_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/pump"
)

// A pump on two ways against the general solver of networks, which is held to
// reference networks: flows of both ways and the head, whichever way is the
// easier, and where one of them stays dry.
func TestSplit_IsTheNetworks(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(19, 84))
	dry, easyBeside := 0, 0
	for k := range 400 {
		h0, most := 3+6*r.Float64(), 0.004+0.02*r.Float64()
		model := parabola(30, 0.004, 500)
		model.Curve = hydraulics.HeadCurve{Form: hydraulics.Power, Points: []hydraulics.CurvePoint{{HeadM: h0}, {FlowM3PerS: most / 2, HeadM: 0.8 * h0}, {FlowM3PerS: most, HeadM: 0.1 * h0}}}
		m := machine(t, model)
		lift := 3 * r.Float64()
		line := func(id, from, to string, longM float64) (hydraulics.Pipe, hydraulics.Resistance) {
			l := design.Line{LengthM: longM, InsideDiameterM: 0.03 + 0.07*r.Float64(), RoughnessM: 1.5e-6}
			coef := 1 + 20*r.Float64()
			return hydraulics.Pipe{ID: id, From: from, To: to, LengthM: l.LengthM, InsideDiameterM: l.InsideDiameterM, RoughnessM: l.RoughnessM, LossCoef: coef, CheckValve: true},
				hydraulics.NewResistance(l, coef, 1e-6)
		}
		inPipe, in := line("in", "pond", "a", 4)
		outPipe, out := line("out", "b", "lip", 14)
		byPipe, by := line("by", "b", "pond", 10)
		s := pump.System{Count: 1, StaticM: lift, DensityKgPerM3: 998.2, Suction: in, Discharge: out, Beside: &by}
		d := m.Duty(s, 1)
		want, err := hydraulics.Solve(hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: 1e-6},
			Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "a"}, {ID: "b"}, {ID: "lip", Surface: true, HeadM: lift}},
			Pipes: []hydraulics.Pipe{inPipe, outPipe, byPipe},
			Pumps: []hydraulics.Pump{{ID: "u", From: "a", To: "b", SpeedRatio: 1, Curve: model.Curve}}})
		if err != nil {
			t.Fatal(err)
		}
		if d.State != hydraulics.Flowing {
			continue
		}
		main, _ := want.Link("out")
		beside, _ := want.Link("by")
		got := s.Split(d.FlowM3PerS)
		if math.Abs(got.MainM3PerS-main.FlowM3PerS) > 1e-9*d.FlowM3PerS || math.Abs(got.BesideM3PerS-beside.FlowM3PerS) > 1e-9*d.FlowM3PerS || math.Abs(d.FlowM3PerS-want.PumpedM3PerS) > 1e-9*d.FlowM3PerS {
			t.Fatalf("system %d: %.12g and %.12g of %.12g m³/s, want %.12g and %.12g of %.12g", k, got.MainM3PerS, got.BesideM3PerS, d.FlowM3PerS,
				main.FlowM3PerS, beside.FlowM3PerS, want.PumpedM3PerS)
		}
		if main.FlowM3PerS == 0 {
			dry++
		}
		if beside.FlowM3PerS > main.FlowM3PerS {
			easyBeside++
		}
		if h := s.HeadM(d.FlowM3PerS); math.Abs(h-d.HeadM) > 1e-9*h {
			t.Fatalf("system %d: the pump gives %.12g m where the ways ask %.12g", k, d.HeadM, h)
		}
	}
	if dry < 5 || easyBeside < 50 || easyBeside > 350 {
		t.Errorf("%d with a dry line and %d with the easier way beside: too tame", dry, easyBeside)
	}
}
