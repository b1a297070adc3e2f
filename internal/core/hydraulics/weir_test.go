package hydraulics_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// testdata/reference/weir.json: ISO 1438 coefficients, worked out with scipy.
func TestWeir_AgreesWithTheReferenceTable(t *testing.T) {
	t.Parallel()
	var file struct {
		Table []struct {
			B      float64 `json:"b_m"`
			Full   float64 `json:"b_over_B"`
			P      float64 `json:"P_m"`
			H      float64 `json:"h_m"`
			Q      float64 `json:"Q_m3s"`
			Within bool    `json:"within_ISO_limits"`
			Broad  float64 `json:"broad_crested_ideal_m3h"`
		}
		Inverse []struct {
			B float64 `json:"b_m"`
			P float64 `json:"P_m"`
			Q float64 `json:"Q_m3h"`
			H float64 `json:"h_m"`
		}
	}
	readReference(t, "weir.json", &file)
	compared := 0
	for _, r := range file.Table {
		if r.Full != 1 {
			continue
		}
		compared++
		w := hydraulics.Sharp{LipM: r.B, CrestM: r.P}
		close(t, "sharp-crested flow, m³/s", w.FlowM3PerS(r.H), r.Q, 1e-12)
		if got := w.Holds(r.H); got != r.Within {
			t.Errorf("b %g P %g h %g: holds %v, want %v", r.B, r.P, r.H, got, r.Within)
		}
		// The column's constant is 1.70497, 2.2e-4 above (2/3)^1.5 √9.80665.
		close(t, "broad-crested flow, m³/h", hydraulics.Broad{LipM: r.B, DischargeCoef: 1}.FlowM3PerS(r.H)*3600, r.Broad, 2.2e-4)
	}
	if compared < 20 || len(file.Inverse) < 6 {
		t.Fatalf("only %d rows and %d inverse", compared, len(file.Inverse))
	}
	for _, r := range file.Inverse {
		w := hydraulics.Sharp{LipM: r.B, CrestM: r.P}
		close(t, "head from flow, m", w.HeadM(r.Q/3600), r.H, 1e-10)
	}
}

// In feet the ideal broad crest is Q = 3.0876 L H^1.5, and 50 gal/min a foot
// stands 1.310 in deep over it.
func TestBroadCrest_AgreesWithTheConstantInFeet(t *testing.T) {
	t.Parallel()
	w := hydraulics.Broad{LipM: foot, DischargeCoef: 1}
	close(t, "ft³/s over one foot at one foot of head", w.FlowM3PerS(foot)/(foot*foot*foot), 3.0876, 2e-5)
	close(t, "head of 50 gal/min, in", w.HeadM(50*gpm)/inch, 1.310, 1e-3)
	if h := w.HeadM(0); h != 0 {
		t.Errorf("no flow stands %v m deep", h)
	}
	if h := w.HeadM(50); !math.IsNaN(h) {
		t.Errorf("a flood over one foot stands %v m deep, want nothing", h)
	}
}
