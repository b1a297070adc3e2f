package pump_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/pump"
)

// By calculus: Q (h₀ − k Q²) is greatest at √(h₀/3k) where the power is the same
// all along; with power a + b Q it is greatest where 2 k b Q³ + 3 k a Q² = h₀ a,
// which for h₀ 80, k 0.008, a 300 and b 6 (feet, gal/min, watts) is 24 000: at
// Q = 45.541 it is 0.096 × 94 452 + 7.2 × 2 074.0 = 9 067 + 14 933.
func TestBestM3PerS_AgreesWithCalculus(t *testing.T) {
	t.Parallel()
	const h0, k, a, b = 80, 0.008, 300, 6
	even := parabola(h0, k, a)
	rising := parabola(h0, k, a)
	end := rising.Power[1].FlowM3PerS
	rising.Power = []pump.PowerPoint{{PowerW: a}, {FlowM3PerS: end / 2, PowerW: a + b*end/2/gpm}, {FlowM3PerS: end, PowerW: a + b*end/gpm}}
	steep := parabola(h0, 1e-9, a) // flat: still gaining at its end
	for _, c := range []struct {
		why   string
		model pump.Model
		speed float64
		want  float64 // gal/min
		tol   float64
	}{
		{"even power", even, 1, math.Sqrt(h0 / (3 * k)), 1e-9},
		{"half the speed, half the flow", even, 0.5, math.Sqrt(h0/(3*k)) / 2, 1e-9},
		{"rising power moves it back", rising, 1, 45.541, 1e-5},
		{"a flat curve is the same law, far out", steep, 1, math.Sqrt(h0 / 3e-9), 1e-6},
	} {
		got := machine(t, c.model).BestM3PerS(c.speed)
		near(t, c.why, got/gpm, c.want, c.tol)
	}
}

// No flow of a fine sweep does better.
func TestBestM3PerS_NothingDoesBetter(t *testing.T) {
	t.Parallel()
	for _, model := range shop(t, 12) {
		m := machine(t, model)
		best := m.BestM3PerS(1)
		gain := func(q float64) float64 {
			w := pump.Working{FlowM3PerS: q, SpeedRatio: 1}
			return q * m.HeadM(w) / m.PowerW(w)
		}
		for i := range 3001 {
			q := m.MostM3PerS(1) * float64(i) / 3000
			if gain(q) > gain(best)*(1+1e-12) {
				t.Fatalf("%s gains %.9g at %.9g m³/s, more than %.9g at its best, %.9g", model.ID, gain(q), q, gain(best), best)
			}
		}
	}
}
