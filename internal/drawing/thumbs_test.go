package drawing_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
)

// Side by side, a pond that is twice as long must look twice as long: all
// three have the scale of the one that needs most room, and each is whole.
func TestAlike_DrawsEveryPondAtOneScale(t *testing.T) {
	t.Parallel()
	var plans []sheet.Plan
	for _, k := range []float64{1, 1.5, 0.7} {
		d := demo()
		d.Outline = design.Outline{Shape: design.Bean, LengthM: 10.3632 * k, WidthM: 6.4008 * k}
		plans = append(plans, plan(d))
	}
	for _, high := range []float64{210, 900} { // too low, and too narrow
		whole(t, plans, drawing.AlikeOf(plans, 300, high))
	}
	a := drawing.AlikeOf(plans, 300, 210)
	alone := drawing.AlikeOf(plans[1:2], 300, 210)
	if math.Abs(alone.ScalePxPerM-a.ScalePxPerM) > 1e-9 {
		t.Errorf("the largest alone is drawn at %g px/m, with others at %g px/m", alone.ScalePxPerM, a.ScalePxPerM)
	}
	if less := drawing.AlikeOf(plans[2:], 300, 210); less.ScalePxPerM <= a.ScalePxPerM {
		t.Errorf("the smallest alone is drawn at %g px/m, no larger than %g px/m", less.ScalePxPerM, a.ScalePxPerM)
	}
}

// whole checks that each pond is drawn at the one scale and not cut off.
func whole(t *testing.T, plans []sheet.Plan, a drawing.Alike) {
	t.Helper()
	for i, p := range plans {
		pic := a.Thumb(p, drawing.Options{ID: "t"})
		if pic.View.ScalePxPerM != a.ScalePxPerM {
			t.Errorf("pond %d is drawn at %g px/m, want %g px/m", i, pic.View.ScalePxPerM, a.ScalePxPerM)
		}
		for _, r := range p.Rim {
			x, y := pic.View.At(r)
			if x < 0 || x > pic.View.WidthPx || y < 0 || y > pic.View.HeightPx {
				t.Fatalf("pond %d runs out of its picture at %g, %g px of %g × %g px", i, x, y, pic.View.WidthPx, pic.View.HeightPx)
			}
		}
	}
}
