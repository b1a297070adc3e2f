package num_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/num"
)

// A straight line must come back as itself, knots exactly, and nothing between
// two knots may pass them; the slope is that of a fine difference.
func TestMonotone_NeverOvershoots(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		var x, y []float64
		at := 0.0
		for range 2 + r.IntN(8) {
			at += 0.05 + r.Float64()
			x, y = append(x, at), append(y, 10*r.Float64())
		}
		m, err := num.NewMonotone(x, y)
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(x); i++ {
			lo, hi := min(y[i-1], y[i])-1e-12, max(y[i-1], y[i])+1e-12
			for k := 0; k <= 20; k++ {
				p := x[i-1] + (x[i]-x[i-1])*float64(k)/20
				v, d := m.At(p)
				if v < lo || v > hi {
					t.Fatalf("at %v the curve is %v, outside [%v, %v]", p, v, lo, hi)
				}
				if k == 0 || k == 20 {
					continue
				}
				a, _ := m.At(p - 1e-6)
				b, _ := m.At(p + 1e-6)
				if math.Abs((b-a)/2e-6-d) > 1e-4*(1+math.Abs(d)) {
					t.Fatalf("at %v the slope is %v, want %v", p, d, (b-a)/2e-6)
				}
			}
		}
		for i := range x {
			if v, _ := m.At(x[i]); math.Abs(v-y[i]) > 1e-12 {
				t.Fatalf("knot %d is %v, want %v", i, v, y[i])
			}
		}
	}
	line, err := num.NewMonotone([]float64{0, 1, 5, 6}, []float64{1, 3, 11, 13})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []float64{-1, 0.3, 2, 4.9, 5.5, 8} {
		if v, d := line.At(p); math.Abs(v-(1+2*p)) > 1e-12 || math.Abs(d-2) > 1e-12 {
			t.Errorf("a straight line at %v is %v with slope %v", p, v, d)
		}
	}
	for why, k := range map[string][2][]float64{"one knot": {{1}, {1}}, "x twice": {{1, 1}, {1, 2}}, "lengths": {{1, 2}, {1}}} {
		if _, err := num.NewMonotone(k[0], k[1]); !errors.Is(err, num.ErrKnots) {
			t.Errorf("%s: %v", why, err)
		}
	}
}

// Newton against closed forms, from good guesses and bad ones, and on a kink.
func TestNewton_FindsTheRootFromAnyGuess(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why    string
		f      func(float64) (float64, float64)
		lo, hi float64
		want   float64
	}{
		{"square root of two", func(x float64) (float64, float64) { return x*x - 2, 2 * x }, 0, 100, math.Sqrt2},
		{"cube root", func(x float64) (float64, float64) { return x*x*x - 5, 3 * x * x }, 0, 10, math.Cbrt(5)},
		{"flat then steep", func(x float64) (float64, float64) { return math.Pow(x, 9) - 1e-9, 9 * math.Pow(x, 8) }, 0, 1, 0.1},
		{"a kink", func(x float64) (float64, float64) {
			if x < 1 {
				return x - 1.5, 1
			}
			return 20*(x-1) - 0.5, 20
		}, 0, 9, 1.025},
	} {
		for _, guess := range []float64{-5, c.lo + 1e-9, (c.lo + c.hi) / 2, c.hi - 1e-9, math.NaN()} {
			got, ok := num.Newton(c.f, c.lo, c.hi, guess)
			if !ok || math.Abs(got-c.want) > 1e-14*c.want {
				t.Errorf("%s from %v: %.17g, %v; want %.17g", c.why, guess, got, ok, c.want)
			}
		}
	}
	rising := func(x float64) (float64, float64) { return x - 5, 1 }
	if x, ok := num.Newton(rising, 0, 3, 1); ok || x != 3 {
		t.Errorf("below zero all the way: %v, %v; want 3 and no", x, ok)
	}
	if x, ok := num.Newton(rising, 7, 9, 8); ok || x != 7 {
		t.Errorf("above zero all the way: %v, %v; want 7 and no", x, ok)
	}
}
