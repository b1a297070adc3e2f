package hydraulics

import "math"

// Mouth is the open end of a suction line under water.
type Mouth struct{ DiameterM float64 }

// LeastDepthM returns how far under the water a mouth must lie so that no whirl
// draws air into the line.
//
//	S = D (1 + 2.3 v / √(g D))
//
// D is the inside of the mouth and v the mean velocity in it. Holds for a plain
// mouth in water that comes to it evenly; a grate or a plate over the mouth only
// helps. D for no flow.
//
// Source: hi98.
// Checked: the same rule in inches and gal/min, S = D + 0.574 Q / D^1.5.
func (m Mouth) LeastDepthM(flowM3PerS float64) float64 {
	v := VelocityMPerS(math.Max(flowM3PerS, 0), m.DiameterM)
	return m.DiameterM * (1 + 2.3*v/math.Sqrt(gravity*m.DiameterM))
}
