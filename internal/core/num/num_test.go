package num_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/num"
)

// Roots against closed forms; the answer must be one of the two float64s
// either side of the true root, whatever the bracket.
func TestRoot_NarrowsToTheLastFloat(t *testing.T) {
	t.Parallel()
	cases := []struct {
		why    string
		f      func(float64) float64
		lo, hi float64
		want   float64
	}{
		{"square root of two", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		{"the same, falling", func(x float64) float64 { return 2 - x*x }, 0, 1e6, math.Sqrt2},
		{"Dottie's number, cos x = x", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{"a tiny root", func(x float64) float64 { return x - 1e-300 }, 0, 1, 1e-300},
		{"at an end", func(x float64) float64 { return x }, 0, 1, 0},
	}
	for _, c := range cases {
		got, ok := num.Root(c.f, c.lo, c.hi)
		if !ok || math.Abs(got-c.want) > 2*math.Abs(math.Nextafter(c.want, 9)-c.want) {
			t.Errorf("%s: root = %.17g, %v; want %.17g", c.why, got, ok, c.want)
		}
	}
}

func TestRoot_SaysWhenThereIsNone(t *testing.T) {
	t.Parallel()
	if x, ok := num.Root(func(x float64) float64 { return x + 1 }, 0, 5); ok || x != 0 {
		t.Errorf("root = %v, %v; want the nearer end 0 and no", x, ok)
	}
	if x, ok := num.Root(func(x float64) float64 { return x - 9 }, 0, 5); ok || x != 5 {
		t.Errorf("root = %v, %v; want the nearer end 5 and no", x, ok)
	}
}
