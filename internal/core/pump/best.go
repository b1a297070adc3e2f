package pump

import "tarnwright/internal/core/num"

// Share of the flow at best efficiency from which, and up to which, a pump
// runs easily: quiet, and kind to its bearings and seal. Common practice, no
// source.
const (
	EasyFromRatio = 0.7
	EasyToRatio   = 1.2
)

// bestSteps is in how many steps a curve is searched for its best part, before
// the place in it is found exactly.
const bestSteps = 200

// BestM3PerS returns the flow of one pump at which most of the power it draws
// reaches the water, at a speed.
//
//	the Q with the greatest Q H(Q) / P(Q)
//
// Where that still grows at the end of the curve, it is the end. The best of
// many steps is taken first, then the place beside it where the slope is zero,
// narrowed until nothing lies between.
//
// Source: definition.
// Checked: H₀ − k Q² at the same power all along is best at √(H₀ / 3k).
func (m *Machine) BestM3PerS(speedRatio float64) float64 {
	most := m.MostM3PerS(speedRatio)
	best, most2 := 0, 0.0
	for i := 1; i <= bestSteps; i++ {
		w := Working{most * float64(i) / bestSteps, speedRatio}
		if e := w.FlowM3PerS * m.HeadM(w) / m.PowerW(w); e > most2 {
			best, most2 = i, e
		}
	}
	lo, hi := most*float64(max(best-1, 0))/bestSteps, most*float64(min(best+1, bestSteps))/bestSteps
	if q, ok := num.Root(func(q float64) float64 { return m.gain(q, speedRatio) }, lo, hi); ok {
		return q
	}
	return most * float64(best) / bestSteps
}

// gain has the sign of the slope of Q H / P.
func (m *Machine) gain(q, s float64) float64 {
	h, dh := m.head.At(q, s)
	p, dp := m.power.At(within(&m.power, q/s))
	draws, slope := s*s*s*p+m.Model.DriveLossW, s*s*dp
	return float64((h+q*dh)*draws) - float64(q*h*slope)
}
