package hydraulics

import "math"

// Nozzle is the mouth of a jet: smooth inside and rounded.
type Nozzle struct{ DiameterM float64 }

// nozzleCoef is the coefficient of discharge of a smooth, rounded outlet.
const nozzleCoef = 0.9

// FlowM3PerS returns the flow of one nozzle at a head.
//
//	Q = 0.9 (π/4) d² √(2 g h)
//
// h is the head at the nozzle over that of the water it blows into. Holds for a
// smooth, rounded mouth running full; a sharp edge passes a tenth to a quarter
// less. Zero for h ≤ 0.
//
// Source: nfpa291.
// Checked: 29.83 gal/min of a 1 in mouth at 1 psi with a coefficient of 1.
func (n Nozzle) FlowM3PerS(headM float64) float64 {
	if headM <= 0 {
		return 0
	}
	return nozzleCoef * n.areaM2() * math.Sqrt(2*gravity*headM)
}

// VelocityMPerS returns the mean velocity of the water in the mouth.
//
// Source: definition.
func (n Nozzle) VelocityMPerS(flowM3PerS float64) float64 { return flowM3PerS / n.areaM2() }

// LossCoef returns the K of so many nozzles side by side at the end of a line,
// referred to the line's own velocity head; it is all of the exit's loss.
//
//	K = (A_line / (n 0.9 A_nozzle))²
//
// Source: nfpa291.
// Checked: the head that K asks at a flow is the one at which FlowM3PerS gives it.
func (n Nozzle) LossCoef(count int, lineDiameterM float64) float64 {
	r := math.Pi * lineDiameterM * lineDiameterM / 4 / (float64(count) * nozzleCoef * n.areaM2())
	return r * r
}

func (n Nozzle) areaM2() float64 { return math.Pi * n.DiameterM * n.DiameterM / 4 }
