package hydraulics_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// testdata/reference/friction.json: Newton in 40-digit arithmetic.
func TestColebrookWhite_AgreesWithFortyDigitArithmetic(t *testing.T) {
	t.Parallel()
	var file struct {
		Colebrook []struct {
			Re, F      float64
			RR         float64 `json:"rel_roughness"`
			SwameeJain float64 `json:"swamee_jain"`
			Haaland    float64 `json:"haaland"`
		}
		Laminar []struct{ Re, F float64 }
	}
	readReference(t, "friction.json", &file)
	if len(file.Colebrook) < 100 {
		t.Fatalf("only %d rows", len(file.Colebrook))
	}
	worst := 0.0
	for _, r := range file.Colebrook {
		for _, c := range []struct {
			law       string
			got, want float64
			tolerance float64
		}{
			{"Colebrook–White", hydraulics.ColebrookWhiteRatio(r.Re, r.RR), r.F, 2e-15},
			{"Swamee–Jain", hydraulics.SwameeJainRatio(r.Re, r.RR), r.SwameeJain, 1e-13},
			{"Haaland", hydraulics.HaalandRatio(r.Re, r.RR), r.Haaland, 1e-13},
			{"Swamee–Jain against Colebrook–White", hydraulics.SwameeJainRatio(r.Re, r.RR), r.F, 0.034},
			{"Haaland against Colebrook–White", hydraulics.HaalandRatio(r.Re, r.RR), r.F, 0.0143},
		} {
			d := math.Abs(c.got-c.want) / c.want
			if c.law == "Colebrook–White" {
				worst = math.Max(worst, d)
			}
			if !(d <= c.tolerance) {
				t.Errorf("%s at Re %g, ε/D %g: f = %.17g, want %.17g (%.1e)", c.law, r.Re, r.RR, c.got, c.want, d)
			}
		}
	}
	for _, r := range file.Laminar {
		if r.Re > 2000 {
			continue // from there the house uses the transition
		}
		if got := hydraulics.LaminarRatio(r.Re); got != r.F {
			t.Errorf("laminar at Re %g: f = %v, want %v", r.Re, got, r.F)
		}
	}
	t.Logf("%d rows, worst %.1e", len(file.Colebrook), worst)
}

// The equation's own residual, from the smooth pipe to the rough.
func TestColebrookWhite_SatisfiesItsEquation(t *testing.T) {
	t.Parallel()
	for _, re := range []float64{4000, 4001, 12345, 1e5, 7.7e6, 1e8} {
		for _, rr := range []float64{0, 1e-7, 1.9e-5, 1e-3, 0.05} {
			f := hydraulics.ColebrookWhiteRatio(re, rr)
			x := 1 / math.Sqrt(f)
			if r := x + 2*math.Log10(rr/3.7+2.51/re*x); math.Abs(r) > 1e-14*x {
				t.Errorf("Re %g, ε/D %g: residual %.1e", re, rr, r)
			}
		}
	}
	for _, bad := range [][2]float64{{3999, 0}, {1.1e8, 0}, {1e5, -1e-9}, {1e5, 0.051}, {math.NaN(), 0}} {
		if f := hydraulics.ColebrookWhiteRatio(bad[0], bad[1]); !math.IsNaN(f) {
			t.Errorf("Re %g, ε/D %g is outside the law and gives %v", bad[0], bad[1], f)
		}
	}
}

// Dunlop's cubic as printed in the documentation of the EPANET engine; its
// rounded coefficients are the engine's own.
func dunlop(re, rr float64) float64 {
	y2 := rr/3.7 + 5.74/math.Pow(4000, 0.9)
	y3 := -0.86859 * math.Log(y2)
	fa := 1 / (y3 * y3)
	fb := fa * (2 - 0.00514215/(y2*y3))
	r := re / 2000
	return 7*fa - fb + r*(0.128-17*fa+2.5*fb+r*(-0.128+13*fa-2*fb+r*(0.032-3*fa+0.5*fb)))
}

func TestFriction_BetweenLaminarAndTurbulentIsDunlopsCubic(t *testing.T) {
	t.Parallel()
	for _, rr := range []float64{0, 2e-5, 1e-3, 0.02} {
		for re := 2000.0; re <= 3800; re += 100 {
			got, want := hydraulics.FrictionRatio(re, rr), dunlop(re, rr)
			if math.Abs(got-want) > 5e-6*want {
				t.Errorf("Re %g, ε/D %g: f = %.9f, want %.9f", re, rr, got, want)
			}
		}
	}
}

// No jump and no kink anywhere, and more flow always loses more head (f Re²
// rises), or a duty point would not be the only one.
func TestFriction_HasNoJumpNoKinkAndHeadRises(t *testing.T) {
	t.Parallel()
	for _, rr := range []float64{0, 1e-6, 1e-4, 1e-2, 0.05} {
		for _, re := range []float64{2000, 3800, 4000} {
			e := re * 1e-6
			below, at, above := hydraulics.FrictionRatio(re-e, rr), hydraulics.FrictionRatio(re, rr), hydraulics.FrictionRatio(re+e, rr)
			if math.Abs(above-below) > 1e-5*at {
				t.Errorf("Re %g, ε/D %g: f jumps from %v to %v", re, rr, below, above)
			}
			if left, right := (at-below)/e, (above-at)/e; math.Abs(left-right) > 2e-3*math.Max(math.Abs(left), at/re) {
				t.Errorf("Re %g, ε/D %g: slope breaks from %v to %v", re, rr, left, right)
			}
		}
		last := 0.0
		for re := 100.0; re < 6000; re *= 1.002 {
			h := hydraulics.FrictionRatio(re, rr) * re * re
			if !(h > last) {
				t.Errorf("Re %.1f, ε/D %g: head falls as flow rises", re, rr)
			}
			last = h
		}
	}
}

// Published: documentation of the open fluids library, at Re 1e5, ε/D 1e-4.
func TestFriction_PrintedValues(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why       string
		got, want float64
		tolerance float64
	}{
		{"Colebrook–White", hydraulics.ColebrookWhiteRatio(1e5, 1e-4), 0.018513866077471, 1e-13},
		// The library writes 5.74 as 6.97^0.9.
		{"Swamee–Jain", hydraulics.SwameeJainRatio(1e5, 1e-4), 0.018452424431902, 1.2e-6},
		{"Haaland", hydraulics.HaalandRatio(1e5, 1e-4), 0.018265053014794, 1e-13},
	} {
		if math.Abs(c.got/c.want-1) > c.tolerance {
			t.Errorf("%s: f = %.15f, want %.15f", c.why, c.got, c.want)
		}
	}
}
