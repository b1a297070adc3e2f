package hydraulics

import (
	"math"

	"tarnwright/internal/core/num"
	"tarnwright/internal/core/water"
)

const gravity = water.GravityMPerS2

// The corrections of the full-width Kindsvater–Carter weir.
const (
	kbM = -0.0009
	khM = 0.001
)

// The heads at which the weir formulas are calibrated.
const (
	// LeastSharpM is the least head of the sharp-crested formula.
	LeastSharpM = 0.03
	// LeastBroadM is the least head of the broad-crested formula.
	LeastBroadM = 0.03
)

// Sharp is a full-width thin-plate weir.
type Sharp struct{ LipM, CrestM float64 } // CrestM is the crest above the bed upstream

// FlowM3PerS returns the flow over a full-width sharp-crested weir.
//
//	Q = Ce (2/3) √(2g) (b − 0.9 mm) (h + 1 mm)^1.5, Ce = 0.602 + 0.075 h/P
//
// Calibrated for h ≥ 30 mm, b ≥ 0.15 m, P ≥ 0.1 m, h/P ≤ 2.5; below 30 mm the
// sheet clings and the figure is a guess, see [Sharp.Holds]. Zero for h ≤ 0.
//
// Source: kindsvatercarter1957.
// Checked: reference/weir.json to 1e-12.
func (w Sharp) FlowM3PerS(headM float64) float64 {
	if headM <= 0 {
		return 0
	}
	ce := 0.602 + 0.075*headM/w.CrestM
	return ce * 2 / 3 * math.Sqrt(2*gravity) * (w.LipM + kbM) * math.Pow(headM+khM, 1.5)
}

// Holds says whether the formula is calibrated at this head.
func (w Sharp) Holds(headM float64) bool {
	return headM >= LeastSharpM && w.LipM >= 0.15 && w.CrestM >= 0.1 && headM <= 2.5*w.CrestM
}

// HeadM returns the head that passes a flow over the weir, to the last float;
// zero for no flow, NaN above 2 m.
//
// Source: kindsvatercarter1957.
// Checked: reference/weir.json, inverse rows, to 1e-10.
func (w Sharp) HeadM(flowM3PerS float64) float64 {
	return headOf(w.FlowM3PerS, flowM3PerS)
}

func headOf(flow func(float64) float64, want float64) float64 {
	if want <= 0 {
		return 0
	}
	h, ok := num.Root(func(h float64) float64 { return flow(h) - want }, 0, 2)
	if !ok {
		return math.NaN()
	}
	return h
}

// Broad is a broad-crested lip: a flat stone.
type Broad struct{ LipM, DischargeCoef float64 }

// FlowM3PerS returns the flow over a broad-crested lip.
//
//	Q = Cd (2/3)^1.5 √g b h^1.5
//
// Cd is 1 for the ideal crest, about 0.85 for a square-edged stone. Below about
// 30 mm the sheet clings and the figure is a guess. Zero for h ≤ 0.
//
// Source: broadcrest.
// Checked: reference/weir.json, ideal column, to 1e-4; C = 3.0876 in feet.
func (w Broad) FlowM3PerS(headM float64) float64 {
	if headM <= 0 {
		return 0
	}
	return w.DischargeCoef * math.Pow(2.0/3, 1.5) * math.Sqrt(gravity) * w.LipM * math.Pow(headM, 1.5)
}

// Holds says whether the formula is calibrated at this head.
func (w Broad) Holds(headM float64) bool { return headM >= LeastBroadM }

// HeadM returns the head that passes a flow over the lip; NaN above 2 m.
//
// Source: broadcrest.
// Checked: 50 gal/min a foot stands 1.310 in deep at Cd 1.
func (w Broad) HeadM(flowM3PerS float64) float64 { return headOf(w.FlowM3PerS, flowM3PerS) }
