package hydraulics

import (
	"errors"
	"math"

	"tarnwright/internal/core/num"
)

// CurveForm says how the points of a head curve are joined.
type CurveForm string

// The forms.
const (
	// Smooth is a monotone cubic through the points, and the default.
	Smooth CurveForm = "smooth"
	// Straight joins the points by straight lines.
	Straight CurveForm = "straight"
	// Power is H0 − a Qⁿ through exactly three points, the first at no flow.
	Power CurveForm = "power"
)

// CurvePoint is a point of a head curve.
type CurvePoint struct {
	FlowM3PerS float64 `json:"flow_m3_per_s"`
	HeadM      float64 `json:"head_m"`
}

// HeadCurve is the head of a pump against its flow at full speed.
type HeadCurve struct {
	Form   CurveForm    `json:"form,omitempty"`
	Points []CurvePoint `json:"points"`
}

// ErrCurve says that points cannot be a pump's head curve.
var ErrCurve = errors.New("a head curve needs three points or more, flow rising from zero and head falling")

// Head is a head curve made ready.
type Head struct {
	form        CurveForm
	h0, a, n    float64
	points      []CurvePoint
	smooth      num.Monotone
	most, least float64
}

// NewHead makes a curve ready, or says what is wrong with its points. "power"
// takes exactly three, the others two at least.
func NewHead(c HeadCurve) (Head, error) {
	p := c.Points
	if len(p) < 2 || p[0].FlowM3PerS < 0 || p[0].FlowM3PerS > 0 && c.Form == Power {
		return Head{}, ErrCurve
	}
	for i := 1; i < len(p); i++ {
		if !(p[i].FlowM3PerS > p[i-1].FlowM3PerS && p[i].HeadM < p[i-1].HeadM) {
			return Head{}, ErrCurve
		}
	}
	h := Head{form: c.Form, points: p, most: p[len(p)-1].FlowM3PerS, least: p[0].FlowM3PerS, h0: p[0].HeadM}
	switch c.Form {
	case Power:
		if len(p) != 3 {
			return Head{}, ErrCurve
		}
		h.n = math.Log((p[0].HeadM-p[2].HeadM)/(p[0].HeadM-p[1].HeadM)) / math.Log(p[2].FlowM3PerS/p[1].FlowM3PerS)
		h.a = (p[0].HeadM - p[1].HeadM) / math.Pow(p[1].FlowM3PerS, h.n)
		return h, nil
	case Straight:
		return h, nil
	case Smooth, "":
		x, y := make([]float64, len(p)), make([]float64, len(p))
		for i, q := range p {
			x[i], y[i] = q.FlowM3PerS, q.HeadM
		}
		var err error
		h.form = Smooth
		h.smooth, err = num.NewMonotone(x, y)
		return h, err
	}
	return Head{}, ErrCurve
}

// MostM3PerS returns the flow of the curve's last point at full speed, beyond
// which a pump is refused.
//
// Source: builder.
func (h *Head) MostM3PerS() float64 { return h.most }

// ShutOffM returns the head at no flow at full speed.
//
// Source: builder.
func (h *Head) ShutOffM() float64 {
	v, _ := h.full(0)
	return v
}

// At returns the head and its slope at a speed, as a share of full speed, by
// the affinity laws: s² h(Q/s). Beyond the last point it goes on as the form
// does, for the sake of solvers; callers refuse such answers. A power curve of
// an exponent under 1 begins upright; its slope is held to that of a wall.
//
// Source: affinity.
// Checked: reference/hydraulics.json, cases at speeds 0.6 to 1.1; Crane TP-410
// example 7-33.
func (h *Head) At(flowM3PerS, speedRatio float64) (headM, slopeSPerM2 float64) {
	if speedRatio == 1 {
		return h.full(flowM3PerS)
	}
	v, s := h.full(flowM3PerS / speedRatio)
	return speedRatio * speedRatio * v, speedRatio * s
}

// Fall is what a power curve remembers of the flow it was last asked about, so
// that a flow close by costs no logarithm. Its zero value remembers nothing.
type Fall struct{ flow, headM float64 }

// Near is At for the inside of a solver, with a memory of its own.
//
// Source: affinity.
// Checked: At, to the last two digits, over steps of every size.
func (h *Head) Near(flowM3PerS, speedRatio float64, f *Fall) (headM, slopeSPerM2 float64) {
	if h.form != Power || !(flowM3PerS > 0) {
		return h.At(flowM3PerS, speedRatio)
	}
	i := 1 / speedRatio
	q := flowM3PerS * i
	p := h.fallNear(q, f)
	f.flow, f.headM = q, p
	v, slope := h.fallen(q, p)
	return speedRatio * speedRatio * v, speedRatio * slope
}

// fallNear is a Qⁿ by the first terms of the binomial series about the flow
// remembered, where what is left out is under the last digit; else from nothing.
func (h *Head) fallNear(q float64, f *Fall) float64 {
	const near, mostPower = 0.01, 8
	d := (q - f.flow) / f.flow
	if !(d > -near && d < near) || h.n > mostPower { // not a number while nothing is remembered
		return h.fall(q)
	}
	n := h.n
	high := 1 + (n-4)*(d*(1.0/5))*(1+(n-5)*(d*(1.0/6))*(1+(n-6)*(d*(1.0/7))))
	return f.headM * (1 + n*d*(1+(n-1)*(d/2)*(1+(n-2)*(d*(1.0/3))*(1+(n-3)*(d/4)*high))))
}

// fall is a Qⁿ of a power curve.
func (h *Head) fall(q float64) float64 {
	return h.a * math.Exp(h.n*math.Log(q)) // a fifth of the time of math.Pow
}

// fallen is the head left of a power curve and its slope.
func (h *Head) fallen(q, fallM float64) (v, slope float64) {
	if slope = h.n * fallM / q; slope > wallSPerM2 {
		slope = wallSPerM2
	}
	return h.h0 - fallM, -slope
}

func (h *Head) full(q float64) (v, slope float64) {
	switch h.form {
	case Power:
		if q <= 0 {
			return h.h0, 0
		}
		return h.fallen(q, h.fall(q))
	case Smooth:
		return h.smooth.At(q)
	}
	p := h.points
	i := 0
	for i < len(p)-2 && q > p[i+1].FlowM3PerS {
		i++
	}
	slope = (p[i+1].HeadM - p[i].HeadM) / (p[i+1].FlowM3PerS - p[i].FlowM3PerS)
	return p[i].HeadM + slope*(q-p[i].FlowM3PerS), slope
}
