package pump

import (
	"math"

	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/num"
)

// Split is how a flow divides between the discharge line and the way beside
// it, and the head at the tee where they part.
type Split struct{ MainM3PerS, BesideM3PerS, HeadM float64 }

// Split divides a flow of all pumps: at the tee both ways need the same head.
//
//	static + h_discharge(Q − y) = h_beside(y)
//
// The left side falls with y and the right one rises, so there is one answer in
// the bracket; where even no flow needs more than the other way takes for all
// of it, all goes the easy way.
//
// Source: todini1988.
// Checked: the general network solver on the same lines, to 1e-9.
func (s System) Split(flowM3PerS float64) Split {
	var w ways
	h, _ := s.after(flowM3PerS, &w)
	return Split{flowM3PerS - w.beside, w.beside, h}
}

// Alone is the system with the way beside shut.
func (s System) Alone() System {
	s.Beside = nil
	return s
}

// floorM is the least head that any flow needs.
func (s *System) floorM() float64 {
	if s.Beside == nil {
		return s.StaticM
	}
	return math.Min(s.StaticM, 0)
}

// ways is what a solver remembers of both ways from the tee.
type ways struct {
	out, by hydraulics.Trace
	beside  float64 // the flow beside
}

// after is the head that the ways from the pumps ask at a flow, lift and all,
// and its slope.
func (s *System) after(q float64, w *ways) (headM, slopeSPerM2 float64) {
	if s.Beside == nil {
		h, slope := s.Discharge.At(q, &w.out)
		return s.StaticM + h, slope
	}
	if !(q > 0) {
		return s.floorM(), 0
	}
	var hd, dd, hb, db float64
	apart := func(y float64) (x, slope float64) {
		hd, dd = s.Discharge.At(q-y, &w.out)
		hb, db = s.Beside.At(y, &w.by)
		return hb - hd - s.StaticM, db + dd
	}
	y, ok := num.Newton(apart, 0, q, q*s.guess())
	w.beside = y
	apart(y) // once more at the place itself, warm
	switch {
	case !ok && y == 0:
		return s.StaticM + hd, dd
	case !ok:
		return hb, db
	}
	return hb, db * dd / (db + dd)
}

// guess is the share that would go beside without a lift, by rough losses.
func (s *System) guess() float64 {
	a, b := math.Sqrt(s.Discharge.RoughLossM(1)), math.Sqrt(s.Beside.RoughLossM(1))
	return a / (a + b)
}
