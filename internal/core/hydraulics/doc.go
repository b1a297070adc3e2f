// Package hydraulics holds friction, fittings, pipe sizes, weirs, one line of
// pipe, and networks of lines and pumps. Heads are in metres of the water that
// flows, flows in cubic metres a second.
package hydraulics

import "math"

// ReynoldsRatio returns the Reynolds number of a round pipe running full.
//
//	Re = 4 Q / (π D ν)
//
// Source: definition.
// Checked: handbook table of references, 68 °F rows, to 1e-4.
func ReynoldsRatio(f PipeFlow) float64 {
	return 4 * math.Abs(f.FlowM3PerS) / (math.Pi * f.DiameterM * f.ViscosityM2PerS)
}

// PipeFlow is a flow in a round pipe.
type PipeFlow struct{ FlowM3PerS, DiameterM, ViscosityM2PerS float64 }

// VelocityMPerS returns the mean velocity in a round pipe, 4 Q / (π D²).
//
// Source: definition.
// Checked: 60 gal/min in a 2 in pipe moves at 5.737 ft/s.
func VelocityMPerS(flowM3PerS, diameterM float64) float64 {
	return 4 * flowM3PerS / (math.Pi * diameterM * diameterM)
}
