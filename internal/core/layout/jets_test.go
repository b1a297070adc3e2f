package layout_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/sheet"
)

// Jets sit in the wall, clear of beach, steps, deck, cascade and intake, and a
// dry pipe joins them to the pump.
func TestPlan_JetsSitInTheWallWithTheirPipe(t *testing.T) {
	t.Parallel()
	for _, d := range designs() {
		for _, n := range []int{1, 4, 8} {
			d.Circulation.Jets = &design.Jets{Count: n, NozzleM: 0.01, NozzleHeadM: 1.5}
			p := layout.Plan(d, nil)
			if len(p.Jets) != n {
				t.Fatalf("%s %.1f m: %d jets on the plan, want %d", d.Outline.Shape, d.Outline.LengthM, len(p.Jets), n)
			}
			for i, j := range p.Jets {
				if off := math.Abs(fromRim(j.At, p.Rim)); off > 1e-6 {
					t.Errorf("%s: a jet %.4f m off the edge", d.Outline.Shape, off)
				}
				in := sheet.XY{X: j.At.X + 0.01*j.In.X, Y: j.At.Y + 0.01*j.In.Y}
				if math.Abs(math.Hypot(j.In.X, j.In.Y)-1) > 1e-9 || fromRim(in, p.Rim) > 0 {
					t.Errorf("%s: a jet blows %v, which is not into the water", d.Outline.Shape, j.In)
				}
				if i > 0 && math.Hypot(j.At.X-p.Jets[i-1].At.X, j.At.Y-p.Jets[i-1].At.Y) < 0.1 {
					t.Errorf("%s %.1f m: two jets in one place", d.Outline.Shape, d.Outline.LengthM)
				}
				if d.Outline.LengthM > 9 && n <= 4 { // where there is room
					for name, ring := range map[string][]sheet.XY{"deck": p.Deck, "cascade": p.Cascade} {
						if fromRim(j.At, ring) < 0 {
							t.Errorf("%s %.1f m turned %.0f: a jet under the %s", d.Outline.Shape, d.Outline.LengthM, d.Outline.RotationDeg, name)
						}
					}
					if math.Hypot(j.At.X-p.Intake.X, j.At.Y-p.Intake.Y) < 1 {
						t.Errorf("%s %.1f m: a jet at the intake", d.Outline.Shape, d.Outline.LengthM)
					}
					for k := p.BeachFrom; k != p.BeachTo; k = (k + 1) % len(p.Rim) {
						if q := p.Rim[k]; math.Hypot(j.At.X-q.X, j.At.Y-q.Y) < 0.05 {
							t.Errorf("%s %.1f m: a jet in the beach", d.Outline.Shape, d.Outline.LengthM)
							break
						}
					}
				}
			}
			if len(p.JetPipe) < 2 || p.JetPipe[0] != p.Pump {
				t.Fatalf("%s: the pipe to the jets does not begin at the pump", d.Outline.Shape)
			}
			for _, q := range p.JetPipe {
				if off := fromRim(q, p.Rim); off < -0.02 {
					t.Errorf("%s %.1f m turned %.0f: the pipe to the jets is %.3f m under water", d.Outline.Shape, d.Outline.LengthM, d.Outline.RotationDeg, -off)
					break
				}
			}
		}
		d.Circulation.Jets = nil
		if p := layout.Plan(d, nil); len(p.Jets) > 0 || len(p.JetPipe) > 0 {
			t.Errorf("%s: jets where there are none", d.Outline.Shape)
		}
	}
}
