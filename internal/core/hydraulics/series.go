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
	a, b      float64 // of Colebrook–White: 1/√f = −2 log₁₀(a + b/(Q √f))
	turbulent float64 // the flow from which that law holds; never, by other laws
	usual     Trace
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
		r.a, r.b = r.rr/3.7, 2.51/r.reynolds
		r.usual = r.first(usualMPerS * area)
		r.turbulent = math.Inf(1)
		if s.Law == Colebrook {
			r.turbulent = turbulentBegins / r.reynolds
		}
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
	switch re := r.reynolds * a; {
	case r.pipe > 0 && re <= laminarEnds: // straight, so that the least of flows divides nothing
		k := r.pipe * 64 / r.reynolds
		h, slope = h+k*a, slope+k
	case r.pipe > 0:
		f, df := darcy(r.law, re, r.rr, seed)
		h += r.pipe * f * a * a
		slope += r.pipe * a * (2*f + df*re)
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

// Trace is what a line remembers of the flow it was last asked about, so that a
// solver's next flow costs one step of the friction factor. Its zero value
// remembers nothing.
type Trace struct{ flow, inverse, root, share float64 }

// usualMPerS is a velocity that lines of ponds are not far from.
const usualMPerS = 1.5

// first is the trace of a flow worked out from nothing.
func (r *Resistance) first(flowM3PerS float64) Trace {
	f, slope := colebrook(r.reynolds*flowM3PerS, r.rr, 0)
	return Trace{flowM3PerS, 1 / flowM3PerS, 1 / math.Sqrt(f), -slope * r.reynolds * flowM3PerS / (2 * f)}
}

// foresee returns 1/√f at a flow, close enough for one of Halley's steps: by the
// trace when it is not far, by the usual flow when that is not, with ln(q/p) as
// 2 (q − p)/(q + p); else from nothing.
func (r *Resistance) foresee(flowM3PerS float64, t *Trace) float64 {
	const near, times = 0.3, 4
	if d := (flowM3PerS - t.flow) * t.inverse; t.inverse > 0 && d > -near && d < near {
		return t.root * (1 + t.share*d)
	}
	u := &r.usual
	if flowM3PerS > u.flow*times || flowM3PerS*times < u.flow {
		return r.first(flowM3PerS).root
	}
	return u.root * (1 + 2*u.share*(flowM3PerS-u.flow)/(flowM3PerS+u.flow))
}

// At returns the head lost in the line and its slope, for the inside of a
// solver. The friction factor takes one third-order step from what the trace
// foresees for this flow: good to 1e-5 when the trace is empty, and exact to the
// last digit once the flow moves by a hundredth or less. Each line has its own
// trace.
//
// Source: darcyweisbach.
// Checked: reference/hydraulics.json through the networks built of it; LossM.
func (r *Resistance) At(flowM3PerS float64, t *Trace) (headM, slopeSPerM2 float64) {
	if !(flowM3PerS >= r.turbulent) || r.turbulent == 0 {
		headM, slopeSPerM2, _ = r.loss(flowM3PerS, 0)
		return headM, slopeSPerM2
	}
	inverse := 1 / flowM3PerS
	b := r.b * inverse
	x, share := r.nearer(b, r.foresee(flowM3PerS, t))
	*t = Trace{flowM3PerS, inverse, x, share}
	pipe := r.pipe / (x * x)
	k := (pipe + r.minor) * flowM3PerS
	return k * flowM3PerS, 2 * (k - pipe*share*flowM3PerS)
}

// nearer takes one step from x towards the root of x + 2 log₁₀(a + b x) = 0, as
// settle does; share is d ln x/d ln Re there, to the
// first order.
func (r *Resistance) nearer(b, x float64) (next, share float64) {
	s := r.a + b*x
	v := b / s
	k := perLog10 * v
	g, dg := x+perLog10*math.Log(s), 1+k
	d := dg*dg + g*k*v/2
	if d < dg*dg/2 {
		d = dg * dg / 2
	}
	i := 1 / (d * dg)
	next = x - g*dg*dg*i
	if next < x/8 {
		next = x / 8
	}
	j := d * i // 1/dg
	return next, k * j * (1 + v*(x-next)*j)
}

// RoughLossM returns the head lost with a friction factor of 0.02 in turbulent
// flow whatever the flow: a first guess for a solver, and nothing more.
//
// Source: darcyweisbach.
func (r *Resistance) RoughLossM(flowM3PerS float64) float64 {
	return (r.pipe/50 + r.minor + r.williams) * flowM3PerS * flowM3PerS
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
