package hydraulics_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// Fire services reckon 29.83 c d² √p gallons a minute of a mouth of d inches at
// p pounds a square inch (water of 62.4 lb/ft³), c being 0.9 for a smooth,
// rounded outlet; NFPA 291, as two teaching texts give it.
func TestNozzle_GivesWhatFireServicesReckon(t *testing.T) {
	t.Parallel()
	const inchM, gallonM3, psiPa, densityKgPerM3 = 0.0254, 231 * 0.0254 * 0.0254 * 0.0254, 6894.757293168, 62.4 * 0.45359237 / (0.3048 * 0.3048 * 0.3048)
	for _, r := range []struct{ inch, psi float64 }{{1, 1}, {2.5, 20}, {0.4, 3}} {
		want := 29.83 * 0.9 * r.inch * r.inch * math.Sqrt(r.psi)
		got := hydraulics.Nozzle{DiameterM: r.inch * inchM}.FlowM3PerS(r.psi*psiPa/(densityKgPerM3*9.80665)) / gallonM3 * 60
		if math.Abs(got/want-1) > 5e-4 { // 29.83 is printed to four digits
			t.Errorf("%v in at %v psi: %.3f gal/min, want %.3f", r.inch, r.psi, got, want)
		}
	}
	if q := (hydraulics.Nozzle{DiameterM: 0.01}).FlowM3PerS(-1); q != 0 {
		t.Errorf("a nozzle under no head passes %v", q)
	}
}

func TestNozzle_AsAFittingAsksTheSameHead(t *testing.T) {
	t.Parallel()
	n := hydraulics.Nozzle{DiameterM: 0.012}
	q := n.FlowM3PerS(1.7)
	head := hydraulics.MinorLossM(n.LossCoef(5, 0.04089), hydraulics.VelocityMPerS(5*q, 0.04089))
	if math.Abs(head-1.7) > 1e-12 {
		t.Errorf("%v m, want 1.7", head)
	}
	if v := n.VelocityMPerS(q); math.Abs(v*v*math.Pi/4*0.012*0.012-v*q) > 1e-15 {
		t.Errorf("velocity %v m/s does not carry %v m³/s", v, q)
	}
}
