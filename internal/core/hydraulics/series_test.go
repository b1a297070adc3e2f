package hydraulics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
)

// What a solver is told while it feels its way must be what the line loses: on
// the first call close by, from the second on to the last digits, with the slope
// of a fine difference, at any flow and whatever was asked before.
func TestAt_IsTheLossOnceItIsWarm(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(41, 3))
	cold, warm := 0.0, 0.0
	for range 3000 {
		bore := 0.02 + 0.2*r.Float64()
		line := hydraulics.NewResistance(design.Line{LengthM: 50 * r.Float64(), InsideDiameterM: bore, RoughnessM: 1e-5 * r.Float64() * bore}, 10*r.Float64(), 1e-6)
		area := math.Pi * bore * bore / 4
		q := area * math.Exp(-4+6*r.Float64()) // 0.02 to 7 m/s
		var trace hydraulics.Trace
		h, _ := line.At(q, &trace)
		cold = math.Max(cold, math.Abs(h/line.LossM(q)-1))
		q *= 1 + 0.01*r.Float64()
		if re := 4 * q / (math.Pi * bore * 1e-6); math.Abs(re/4000-1) < 1e-4 {
			continue // the slope has a kink where the laws meet
		}
		h, slope := line.At(q, &trace)
		warm = math.Max(warm, math.Abs(h/line.LossM(q)-1))
		const step = 1e-5
		fine := (line.LossM(q*(1+step)) - line.LossM(q*(1-step))) / (2 * step * q)
		if !(math.Abs(slope/fine-1) <= 1e-6) {
			t.Fatalf("bore %.4f m, %.3e m³/s: slope %v, want %v", bore, q, slope, fine)
		}
		line.At(q/50, &trace) // as a search may do
		if h, _ = line.At(q, &trace); !(math.Abs(h/line.LossM(q)-1) <= 1e-5) {
			t.Fatalf("bore %.4f m, %.3e m³/s after a leap: %v m, want %v", bore, q, h, line.LossM(q))
		}
	}
	if !(cold <= 1e-5) || !(warm <= 1e-13) {
		t.Errorf("off by %.1e at first and %.1e once warm, want at most 1e-5 and 1e-13", cold, warm)
	}
	t.Logf("off by %.1e at first and %.1e once warm", cold, warm)
}

// The quick way along a power curve is the curve itself, by small steps and
// large, at any power a pump's points may have.
func TestNear_IsTheCurveAtStepsOfEverySize(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(52, 7))
	worst := 0.0
	for range 300 {
		mid := 0.2 + 0.7*r.Float64()
		head, err := hydraulics.NewHead(hydraulics.HeadCurve{Form: hydraulics.Power, Points: []hydraulics.CurvePoint{{HeadM: 8},
			{FlowM3PerS: 0.01 * mid, HeadM: 8 * (1 - 0.4*mid*r.Float64())}, {FlowM3PerS: 0.01, HeadM: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		speed := 0.4 + 0.6*r.Float64()
		q := 0.001 + 0.008*r.Float64()
		var fall hydraulics.Fall
		for range 12 {
			near, slope := head.Near(q, speed, &fall)
			want, fine := head.At(q, speed)
			worst = math.Max(worst, math.Max(math.Abs(near-want)/(8+math.Abs(want)), math.Abs(slope/fine-1)))
			q *= 1 + math.Copysign(math.Exp(-12*r.Float64()), r.Float64()-0.5)/2
		}
	}
	if !(worst <= 4e-14) {
		t.Errorf("off by %.1e, want at most 4e-14", worst)
	}
}
