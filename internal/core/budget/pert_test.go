package budget

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"
)

func near(t *testing.T, why string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g ± %g", why, got, want, tol)
	}
}

func threes() []Three {
	return []Three{{0, 1, 2}, {1, 1, 4}, {0.5, 2, 2}, {0.8, 1, 1.5}, {2, 2.1, 9}, {3, 3, 3}}
}

// The general beta distribution, by its shape parameters: mean, variance and
// skewness as any table of distributions has them (from memory).
func TestThree_AgreesWithTheBetaDistribution(t *testing.T) {
	t.Parallel()
	for _, c := range threes() {
		a, m, b := c.LowRatio, c.LikelyRatio, c.HighRatio
		if a == b {
			if c.MeanRatio() != a || c.VarianceRatio() != 0 || c.ThirdRatio() != 0 {
				t.Errorf("%v: a fixed figure has a spread", c)
			}
			continue
		}
		al, be := 1+4*(m-a)/(b-a), 1+4*(b-m)/(b-a)
		n, w := al+be, b-a
		v := al * be / (n * n * (n + 1)) * w * w
		skew := 2 * (be - al) * math.Sqrt(n+1) / ((n + 2) * math.Sqrt(al*be))
		near(t, "mean", c.MeanRatio(), a+w*al/n, 1e-12)
		near(t, "variance", c.VarianceRatio(), v, 1e-12)
		near(t, "third moment", c.ThirdRatio(), skew*math.Pow(v, 1.5), 1e-12)
	}
	// By hand: (1 + 4 × 2 + 6) / 6 = 2.5, (2.5 − 1)(6 − 2.5) / 7 = 0.75.
	near(t, "mean of 1, 2, 6", Three{1, 2, 6}.MeanRatio(), 2.5, 0)
	near(t, "variance of 1, 2, 6", Three{1, 2, 6}.VarianceRatio(), 0.75, 1e-15)
}

// draw takes a sample of the distribution by rejection: nothing of it is used
// but the shape of its density.
func draw(r *rand.Rand, c Three) float64 {
	w := c.HighRatio - c.LowRatio
	if w == 0 {
		return c.LowRatio
	}
	top := (c.LikelyRatio - c.LowRatio) / w
	p, q := 4*top, 4*(1-top)
	peak := math.Pow(top, p) * math.Pow(1-top, q)
	for {
		x := r.Float64()
		if r.Float64()*peak <= math.Pow(x, p)*math.Pow(1-x, q) {
			return c.LowRatio + w*x
		}
	}
}

func TestThree_AgreesWithSamples(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 11))
	for _, c := range threes() {
		const n = 200000
		sum, two, three := 0.0, 0.0, 0.0
		m := c.MeanRatio()
		for range n {
			d := draw(r, c) - m
			sum, two, three = sum+d, two+d*d, three+d*d*d
		}
		sd := math.Sqrt(c.VarianceRatio())
		near(t, "mean", sum/n, 0, 0.01*sd+1e-15)
		near(t, "variance", two/n, c.VarianceRatio(), 0.01*sd*sd+1e-15)
		near(t, "third moment", three/n, c.ThirdRatio(), 0.03*sd*sd*sd+1e-15)
	}
}

// expect is the mean of f over a size that may be off either way, by Simpson's
// rule over the density (15/16)(1 − x²)².
func expect(tau float64, f func(k float64) float64) float64 {
	const n = 2000
	sum := 0.0
	for i := 0; i <= n; i++ {
		x := -1 + 2*float64(i)/n
		w := 4.0
		if i%2 == 0 {
			w = 2
		}
		if i == 0 || i == n {
			w = 1
		}
		sum += w * 15 / 16 * (1 - x*x) * (1 - x*x) * f(1+tau*x)
	}
	return sum * 2 / n / 3
}

func TestSizePowers_AgreeWithQuadrature(t *testing.T) {
	t.Parallel()
	for _, tau := range []float64{0, 0.05, 0.2, 0.5} {
		for p, got := range sizePowers(tau) {
			near(t, "mean power of size", got, expect(tau, func(k float64) float64 { return math.Pow(k, float64(p)) }), 1e-9)
		}
	}
}

// The moments of the sum at each size, weighed over the sizes: the order of
// summing is another, so a wrong power of size shows.
func TestParts_SumAgreesWithQuadrature(t *testing.T) {
	t.Parallel()
	ps := parts{{2, 0.3, 0.1}, {1, 0.2, 0.05}, {3, 0.9, -0.4}, {0.5, 0.4, 0.7}}
	for _, tau := range []float64{0, 0.1, 0.4} {
		at := func(k float64) (m, v, third float64) {
			for e, p := range ps {
				m += p.mean * math.Pow(k, float64(e))
				v += p.variance * math.Pow(k, float64(2*e))
				third += p.third * math.Pow(k, float64(3*e))
			}
			return m, v, third
		}
		r := ps.sum(sizePowers(tau))
		near(t, "mean", r.one, expect(tau, func(k float64) float64 { m, _, _ := at(k); return m }), 1e-9)
		near(t, "mean square", r.two, expect(tau, func(k float64) float64 { m, v, _ := at(k); return v + m*m }), 1e-8)
		near(t, "mean cube", r.three, expect(tau, func(k float64) float64 { m, v, c := at(k); return c + 3*v*m + m*m*m }), 1e-7)
	}
}

// A thing that no one draws: quantiles of the gamma distribution itself. With
// shape 4 and scale 1 (skewness 1) the tables of chi-square with 8 degrees of
// freedom give 3.490, 7.344, 13.362 at 10, 50 and 90 % (from memory). The
// cube-root form is known to be off by up to 0.2 % there, and 0.8 % low down.
func TestQuantile_AgreesWithChiSquareTables(t *testing.T) {
	t.Parallel()
	r := raw{one: 8, two: 16 + 64, three: 64 + 3*16*8 + 512}
	near(t, "chi-square 8, 10 %", r.quantile(-z10), 3.490, 0.03)
	near(t, "chi-square 8, 50 %", r.quantile(0), 7.344, 0.01)
	near(t, "chi-square 8, 90 %", r.quantile(z10), 13.362, 0.027)
	n := raw{one: 5, two: 29, three: 125 + 3*4*5}
	near(t, "normal, 90 %", n.quantile(z10), 5+2*1.28155, 1e-4)
	near(t, "no spread", raw{one: 3, two: 9, three: 27}.quantile(z10), 3, 0)
}

// Nothing may jump where the skewness passes through nothing.
func TestQuantile_IsSmoothThroughNoSkewness(t *testing.T) {
	t.Parallel()
	last := math.NaN()
	for i := -20; i <= 20; i++ {
		x := raw{one: 0, two: 1, three: float64(i) * 1e-5}.quantile(z10)
		if i > -20 && math.Abs(x-last) > 2e-6 {
			t.Errorf("skewness %g: the quantile jumps by %g", float64(i)*1e-5, x-last)
		}
		last = x
	}
}

func quantileOf(samples []float64, p float64) float64 {
	sort.Float64s(samples)
	return samples[int(p*float64(len(samples)))]
}
