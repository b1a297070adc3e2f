package hydraulics

import (
	"fmt"
	"math"

	"tarnwright/internal/core/design"
)

// Resistance is a line of one bore made ready for solving: pipe friction by
// Darcy–Weisbach with [FrictionRatio], and K v²/2g.
type Resistance struct {
	law       Law
	reynolds  float64 // Re per unit flow
	rr        float64
	pipe      float64 // h = pipe f Q²
	minor     float64 // h = minor Q²
	williams  float64 // h = williams Q^1.852
	diameterM float64
}

// Terms splits the K of a line.
type Terms struct {
	// FittingCoef is the sum of the named fittings, less entry and exit.
	FittingCoef float64
	// EntryCoef and ExitCoef are the entry from the pond and the exit into it.
	EntryCoef, ExitCoef float64
	// OtherCoef is the design's other loss.
	OtherCoef float64
}

// SumCoef returns the K of all of them.
//
// Source: definition.
func (t Terms) SumCoef() float64 {
	return t.FittingCoef + t.EntryCoef + t.ExitCoef + t.OtherCoef
}

// LineTerms adds up the fittings of a line, each on the line's bore. A fitting
// written "k=1.9" brings its own K.
func LineTerms(l design.Line) (Terms, error) {
	t := Terms{OtherCoef: l.OtherLossCoef}
	for _, f := range l.Fittings {
		k, ok := FittingCoef(f.Kind, l.InsideDiameterM)
		if !ok {
			k, ok = bareK(f.Kind)
		}
		if !ok {
			return t, fmt.Errorf("fitting %q: %w", f.Kind, ErrFitting)
		}
		sum := float64(f.Count) * k
		switch f.Kind {
		case EntranceSharp, EntranceIn:
			t.EntryCoef += sum
		case Exit:
			t.ExitCoef += sum
		default:
			t.FittingCoef += sum
		}
	}
	return t, nil
}

// NewResistance makes a line of the design ready, with so much K and water of
// this viscosity.
func NewResistance(l design.Line, lossCoef, viscosityM2PerS float64) Resistance {
	return ready(Pipe{LengthM: l.LengthM, InsideDiameterM: l.InsideDiameterM, RoughnessM: l.RoughnessM, LossCoef: lossCoef},
		Settings{Law: Colebrook, ViscosityM2PerS: viscosityM2PerS})
}

func ready(p Pipe, s Settings) Resistance {
	d := p.InsideDiameterM
	area := math.Pi * d * d / 4
	fg, mg := s.frictionGravity(), s.minorGravity()
	r := Resistance{law: s.Law, rr: p.RoughnessM / d, diameterM: d,
		minor: p.LossCoef / (2 * mg * area * area)}
	switch s.Law {
	case HazenWilliams:
		r.williams = HazenWilliamsM(HazenWilliamsFlow{1, p.LengthM, d, p.CCoef})
	case HazenWilliamsUS:
		r.williams = HazenWilliamsUSM(HazenWilliamsFlow{1, p.LengthM, d, p.CCoef})
	default:
		r.reynolds = 4 / (math.Pi * d * s.ViscosityM2PerS)
		r.pipe = p.LengthM / (d * 2 * fg * area * area)
	}
	return r
}

// loss returns the head lost at q and its slope, odd in q. seed is 1/√f of a
// neighbouring flow, or 0.
func (r *Resistance) loss(q, seed float64) (h, slope, next float64) {
	a := math.Abs(q)
	if a == 0 {
		if r.pipe > 0 {
			return 0, r.pipe * 64 / r.reynolds, 0
		}
		return 0, 0, 0
	}
	h, slope = r.minor*a*a, 2*r.minor*a
	if r.williams > 0 {
		p := r.williams * math.Pow(a, 1.852)
		h, slope = h+p, slope+1.852*p/a
	}
	if r.pipe > 0 {
		f, df := darcy(r.law, r.reynolds*a, r.rr, seed)
		h += r.pipe * f * a * a
		slope += r.pipe * a * (2*f + df*r.reynolds*a)
		next = 1 / math.Sqrt(f)
	}
	return math.Copysign(h, q), slope, next
}

// LossM returns the head lost in the line.
//
// Source: darcyweisbach.
// Checked: as DarcyWeisbachM and MinorLossM, whose sum it is.
func (r *Resistance) LossM(flowM3PerS float64) float64 {
	h, _, _ := r.loss(flowM3PerS, 0)
	return h
}

// At returns the head lost in the line and its slope, for the inside of a
// solver. seedCoef is 0 at first, and then the third result of the call before:
// the friction factor then takes one third-order step for each of the solver's
// own, and is exact to the last digit once the flow no longer moves.
//
// Source: darcyweisbach.
// Checked: reference/hydraulics.json through the networks built of it.
func (r *Resistance) At(flowM3PerS, seedCoef float64) (headM, slopeSPerM2, nextCoef float64) {
	re := r.reynolds * flowM3PerS
	if seedCoef <= 0 || re < turbulentBegins || r.law != Colebrook {
		return r.loss(flowM3PerS, 0)
	}
	f, df := quick(re, r.rr, seedCoef)
	h := (r.pipe*f + r.minor) * flowM3PerS * flowM3PerS
	return h, (2*(r.pipe*f+r.minor) + r.pipe*df*re) * flowM3PerS, 1 / math.Sqrt(f)
}

// Parts splits the head lost at a flow into pipe friction and K.
//
// Source: definition.
func (r *Resistance) Parts(flowM3PerS float64) (frictionM, minorM float64) {
	minorM = r.minor * flowM3PerS * flowM3PerS
	return math.Abs(r.LossM(flowM3PerS)) - minorM, minorM
}

// VelocityMPerS returns the mean velocity in the line.
//
// Source: definition.
func (r *Resistance) VelocityMPerS(flowM3PerS float64) float64 {
	return VelocityMPerS(flowM3PerS, r.diameterM)
}
