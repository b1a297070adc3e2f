package hydraulics_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// People in the trade reckon S = D + 0.574 Q / D^1.5 in inches and gallons a
// minute (Hydraulic Institute 9.8, from memory).
func TestMouth_LiesAsDeepAsTheTradeReckons(t *testing.T) {
	t.Parallel()
	const inchM, gallonM3 = 0.0254, 231 * 0.0254 * 0.0254 * 0.0254
	for _, r := range []struct{ inch, galPerMin float64 }{{3.068, 160}, {4.026, 160}, {2.067, 40}, {12, 3000}} {
		want := r.inch + 0.574*r.galPerMin/math.Pow(r.inch, 1.5)
		got := hydraulics.Mouth{DiameterM: r.inch * inchM}.LeastDepthM(r.galPerMin*gallonM3/60) / inchM
		if math.Abs(got/want-1) > 2e-3 { // 0.574 is printed to three digits
			t.Errorf("%v in at %v gal/min: %.3f in, want %.3f in", r.inch, r.galPerMin, got, want)
		}
	}
	for _, q := range []float64{0, -0.01} {
		if got := (hydraulics.Mouth{DiameterM: 0.08}).LeastDepthM(q); got != 0.08 {
			t.Errorf("at %v m³/s: %v m, want the bore", q, got)
		}
	}
}
