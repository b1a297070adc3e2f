package pump_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/pump"
)

// Duty points of lines and curves made at random against plain halving of the
// bracket, and set speeds against the duty at that speed: the quick way there
// must not lead elsewhere, however far off the flow asked for.
func TestDuty_IsWhereHalvingTheBracketEnds(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 15))
	states := map[hydraulics.State]int{}
	reached := 0
	for k := range 2000 {
		h0, most := 1+12*r.Float64(), 0.001+0.02*r.Float64()
		model := parabola(30, 0.004, 500)
		model.LeastSpeedRatio, model.MostSpeedRatio = 0.3, 1
		model.Curve = hydraulics.HeadCurve{Form: hydraulics.Smooth, Points: []hydraulics.CurvePoint{{HeadM: h0},
			{FlowM3PerS: most / 3, HeadM: h0 * (0.9 + 0.09*r.Float64())}, {FlowM3PerS: most * 0.7, HeadM: h0 * (0.5 + 0.2*r.Float64())}, {FlowM3PerS: most, HeadM: h0 * 0.3 * r.Float64()}}}
		if k%2 == 0 {
			model.Curve.Form, model.Curve.Points = hydraulics.Power, model.Curve.Points[:3]
		}
		line := func() hydraulics.Resistance {
			return hydraulics.NewResistance(design.Line{LengthM: 1 + 30*r.Float64(), InsideDiameterM: 0.02 + 0.1*r.Float64(), RoughnessM: 1.5e-6}, 20*r.Float64(), 1e-6)
		}
		s := pump.System{Count: 1 + r.IntN(3), StaticM: -1 + 8*r.Float64(), DensityKgPerM3: 998.2, Suction: line(), Discharge: line()}
		m := machine(t, model)
		speed := 0.5 + 0.5*r.Float64()
		n := float64(s.Count)
		d := m.Duty(s, speed)
		states[d.State]++
		if d.State == hydraulics.Flowing {
			want, ok := num.Root(func(q float64) float64 {
				return s.HeadM(q) - m.HeadM(pump.Working{FlowM3PerS: q / n, SpeedRatio: speed})
			}, 0, n*m.MostM3PerS(speed))
			if !ok || math.Abs(d.FlowM3PerS-want) > 1e-12*want || math.Abs(d.HeadM-s.HeadM(want)) > 1e-11*math.Abs(s.HeadM(want)) {
				t.Fatalf("system %d: %.16g m³/s at %.16g m, want %.16g at %.16g", k, d.FlowM3PerS, d.HeadM, want, s.HeadM(want))
			}
		}
		flow := n * most * math.Exp(-3+5*r.Float64()) // from a twentieth of the curve to seven times
		set, ok := m.At(s, flow)
		again := m.Duty(s, set.SpeedRatio)
		if set.State != again.State || math.Abs(set.FlowM3PerS-again.FlowM3PerS) > 1e-9*again.FlowM3PerS {
			t.Fatalf("system %d: at speed %v %s %.12g m³/s, want %s %.12g", k, set.SpeedRatio, set.State, set.FlowM3PerS, again.State, again.FlowM3PerS)
		}
		if ok {
			reached++
			if math.Abs(set.FlowM3PerS-flow) > 1e-12*flow {
				t.Fatalf("system %d: set to %.12g m³/s, want %.12g", k, set.FlowM3PerS, flow)
			}
		}
	}
	if states[hydraulics.Flowing] < 500 || states[hydraulics.DeadHead] < 100 || states[hydraulics.Beyond] < 20 || reached < 200 || reached > 1900 {
		t.Errorf("states %v and %d flows reached: too tame", states, reached)
	}
}
