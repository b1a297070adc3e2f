package core_test

import (
	"testing"

	"tarnwright/internal/book"
	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/form"
)

// Rules of thumb of people who build swim ponds. Common practice, no source:
// they are check values, not limits; a figure far from them wants a look.
const usGallonM3 = 231 * 0.0254 * 0.0254 * 0.0254 // 231 cubic inches, by definition

func TestPractice_TwoPumpsTurnALargePondInAboutAnHourAndAQuarter(t *testing.T) {
	t.Parallel()
	const ft = 0.3048
	d, _ := form.New(form.Demo()).Design()
	d.Outline = design.Outline{Shape: design.Rectangle, LengthM: 40 * ft, WidthM: 20 * ft}
	d.Bowl = design.Bowl{DeepM: 4.5 * ft, Wall: []design.Knot{{}, {InsetM: 0.6, DepthM: 4.5 * ft}}}
	d.Zone, d.Deck = nil, nil
	if f := core.Check(d); len(f) > 0 {
		t.Fatalf("faults: %v", f)
	}
	s := core.Compute(d, book.Demo())
	ratedM3PerH := 2 * 12000 * usGallonM3
	hours := s.Value("water.net_volume") / ratedM3PerH
	if hours < 0.5 || hours > 1.25 {
		t.Errorf("20 × 40 ft, 4½ ft deep, two pumps of 12,000 gal/h: one turn in %.2f h of rated flow, want at most about 1¼", hours)
	}
}

func TestPractice_TheDemoIsBuiltTheUsualWay(t *testing.T) {
	t.Parallel()
	d, _ := form.New(form.Demo()).Design()
	b := book.Demo()
	s := core.Compute(d, b)

	// A 3 in suction to each pump, and a discharge no wider than it.
	bore := d.Circulation.Suction.InsideDiameterM
	if nominal := nominalOf(b.Pipes, bore); nominal != "3" {
		t.Errorf("suction is %q in, want 3", nominal)
	}
	if d.Circulation.Discharge.InsideDiameterM > bore {
		t.Error("the discharge is wider than the suction")
	}
	// A check valve holds the prime where the pump stands above the water.
	if d.Circulation.PumpAboveWaterM > 0 && !has(d.Circulation.Suction, "check_valve") {
		t.Error("the pump stands above the water and has no check valve")
	}
	// About 1½ to 2 ft of water goes in gently before a fast fill: over the
	// deep end, so far less than the whole.
	const ft = 0.3048
	cushion := b.Rates.Fill.CushionM
	if cushion < 1.5*ft || cushion > 2*ft {
		t.Errorf("cushion of %.2f m, want 1½ to 2 ft", cushion)
	}
	if v := s.Value("takeoff.cushion_volume"); v <= 0 || v > s.Value("water.net_volume")/3 {
		t.Errorf("cushioning water %.1f m³ of %.1f", v, s.Value("water.net_volume"))
	}
}

func nominalOf(sizes []hydraulics.Size, boreM float64) string {
	for _, p := range sizes {
		if d := p.InsideDiameterM - boreM; d < 1e-4 && d > -1e-4 {
			return p.NominalIn
		}
	}
	return ""
}

func has(l design.Line, kind string) bool {
	for _, f := range l.Fittings {
		if f.Kind == kind && f.Count > 0 {
			return true
		}
	}
	return false
}
