package num

import (
	"errors"
	"math"
)

// ErrKnots says that knots cannot carry a curve.
var ErrKnots = errors.New("needs at least two knots, each x above the last")

// Monotone is a smooth curve through knots that never overshoots: between two
// knots it stays between their values (Steffen's cubic). It is not defined
// outside its knots.
type Monotone struct{ x, y, d, a, b []float64 }

// NewMonotone takes at least two knots with rising x.
func NewMonotone(x, y []float64) (Monotone, error) {
	n := len(x)
	if n < 2 || len(y) != n {
		return Monotone{}, ErrKnots
	}
	for i := 1; i < n; i++ {
		if !(x[i] > x[i-1]) {
			return Monotone{}, ErrKnots
		}
	}
	all := make([]float64, 5*n-2) // in one piece: every look at a pond makes dozens of curves
	m := Monotone{x: all[:n:n], y: all[n : 2*n : 2*n], d: all[2*n : 3*n : 3*n], a: all[3*n : 4*n-1 : 4*n-1], b: all[4*n-1:]}
	copy(m.x, x)
	copy(m.y, y)
	slope := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	for i := 1; i < n-1; i++ {
		a, b := slope(i-1), slope(i)
		ha, hb := x[i]-x[i-1], x[i+1]-x[i]
		p := (a*hb + b*ha) / (ha + hb)
		m.d[i] = (sign(a) + sign(b)) * math.Min(math.Min(math.Abs(a), math.Abs(b)), math.Abs(p)/2)
	}
	if n == 2 {
		m.d[0], m.d[1] = slope(0), slope(0)
		m.ready()
		return m, nil
	}
	m.d[0] = endSlope(slope(0), slope(1), x[1]-x[0], x[2]-x[1])
	m.d[n-1] = endSlope(slope(n-2), slope(n-3), x[n-1]-x[n-2], x[n-2]-x[n-3])
	m.ready()
	return m, nil
}

// ready works out the cubic of each interval.
func (m *Monotone) ready() {
	for i := range m.a {
		h := m.x[i+1] - m.x[i]
		s := (m.y[i+1] - m.y[i]) / h
		m.a[i] = (m.d[i] + m.d[i+1] - 2*s) / (h * h)
		m.b[i] = (3*s - 2*m.d[i] - m.d[i+1]) / h
	}
}

func endSlope(near, far, hNear, hFar float64) float64 {
	p := near*(1+hNear/(hNear+hFar)) - far*hNear/(hNear+hFar)
	switch {
	case p*near <= 0:
		return 0
	case math.Abs(p) > 2*math.Abs(near):
		return 2 * near
	}
	return p
}

func sign(v float64) float64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// Ends returns the first and the last knot's x.
func (m *Monotone) Ends() (lo, hi float64) { return m.x[0], m.x[len(m.x)-1] }

// At returns the value and the slope; beyond its ends the curve goes on
// straight, so that a solver may look past them. A caller who must not
// extrapolate asks Ends.
func (m *Monotone) At(x float64) (y, slope float64) {
	n := len(m.x)
	switch {
	case x <= m.x[0]:
		return m.y[0] + m.d[0]*(x-m.x[0]), m.d[0]
	case x >= m.x[n-1]:
		return m.y[n-1] + m.d[n-1]*(x-m.x[n-1]), m.d[n-1]
	}
	i := 0
	for x > m.x[i+1] {
		i++
	}
	a, b, t := m.a[i], m.b[i], x-m.x[i]
	return m.y[i] + t*(m.d[i]+t*(b+t*a)), m.d[i] + t*(2*b+3*t*a)
}

// Newton returns the zero of a rising f between lo and hi, starting at guess. f
// gives value and slope. A step is Newton's where that stays inside the bracket
// and halves it otherwise, so it cannot fail on a bracket that holds a zero. It
// ends when Newton's step is under 1e-8 of x: what is left after that step is
// its square, below the last digit; or when the last two steps say the same of
// the next. It never ends on the first guess, where f may not be quite warm. ok
// is false when f is below zero at hi or above it at lo; then x is that end. The
// ends are only asked when a step would pass them.
func Newton(f func(float64) (y, slope float64), lo, hi, guess float64) (x float64, ok bool) {
	x = guess
	if !(x > lo && x < hi) {
		x = lo + (hi-lo)/2
	}
	var askedLo, askedHi bool
	last, newton := 2*(hi-lo), 0.0 // the last step; the same if it was Newton's own
	for k := 0; ; k++ {
		y, slope := f(x)
		switch {
		case y == 0:
			if k == 0 {
				continue // once more, warm
			}
			return x, true
		case y < 0:
			lo, askedLo = x, true
		default:
			hi, askedHi = x, true
		}
		next := x - y/slope
		step := math.Abs(next - x)
		switch {
		case k > 0 && next >= lo && next <= hi && settled(step, newton, math.Abs(x)):
			return next, true
		case next >= hi && !askedHi:
			askedHi = true
			if y, _ := f(hi); y < 0 {
				return hi, false
			}
		case next <= lo && !askedLo:
			askedLo = true
			if y, _ := f(lo); y > 0 {
				return lo, false
			}
		}
		if !(next > lo && next < hi) || step > last/2 {
			next = lo + (hi-lo)/2
			if next <= lo || next >= hi {
				return next, true
			}
			step = (hi - lo) / 2
			newton = 0
		} else {
			newton = step
		}
		last = step
		x = next
	}
}

// settled says whether nothing is left after a step of Newton's: its square is
// below the last digit of x, or by the rate from the step before it the next
// would be.
func settled(step, before, x float64) bool {
	return step <= 1e-8*x || step < before/10 && step*step*step <= 1e-16*x*before*before
}
