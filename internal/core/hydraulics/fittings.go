package hydraulics

import (
	"fmt"
	"math"
	"strconv"
)

// The named fittings. A K is either N times fT, the friction factor of the
// pipe's size in clean steel, or a plain number.
const (
	Elbow90       = "elbow_90"
	Elbow45       = "elbow_45"
	Bend90Long    = "bend_90_long" // r/D 1.5
	Sweep90       = "sweep_90"     // r/D 3
	ReturnBend    = "return_180"
	TeeRun        = "tee_run"
	TeeBranch     = "tee_branch"
	GateValve     = "gate_valve"
	BallValve     = "ball_valve"
	Butterfly     = "butterfly_valve"
	SwingCheck    = "check_valve"
	StraightCheck = "straight_check"
	FootHinged    = "foot_valve"
	FootPoppet    = "foot_valve_poppet"
	EntranceSharp = "entrance"
	EntranceIn    = "entrance_inward"
	Exit          = "exit"
	PrimingTee    = "priming_tee"
	Union         = "union"
)

// Fittings lists the names in a fixed order.
func Fittings() []string {
	return []string{Elbow90, Elbow45, Bend90Long, Sweep90, ReturnBend, TeeRun, TeeBranch, PrimingTee, GateValve, BallValve,
		Butterfly, SwingCheck, StraightCheck, FootHinged, FootPoppet, EntranceSharp, EntranceIn, Exit, Union}
}

// multiple returns N of K = N fT, or ok false when the fitting has a plain K.
func multiple(kind string) (n float64, ok bool) {
	switch kind {
	case Elbow90:
		return 30, true
	case Elbow45:
		return 16, true
	case Bend90Long:
		return 14, true
	case Sweep90:
		return 12, true
	case ReturnBend:
		return 50, true
	case TeeRun, PrimingTee:
		return 20, true
	case TeeBranch:
		return 60, true
	case GateValve:
		return 8, true
	case BallValve:
		return 3, true
	case Butterfly:
		return 45, true
	case SwingCheck:
		return 100, true
	case StraightCheck:
		return 50, true
	case FootHinged:
		return 75, true
	case FootPoppet:
		return 420, true
	}
	return 0, false
}

func plainK(kind string) (k float64, ok bool) {
	switch kind {
	case EntranceSharp:
		return 0.5, true
	case EntranceIn:
		return 0.78, true
	case Exit:
		return 1, true
	case Union:
		return 0.04, true
	}
	return 0, false
}

// CraneRatio returns fT, the friction factor of clean commercial steel in fully
// rough flow, for a pipe of so wide a bore.
//
//	fT = Colebrook–White at Re = 7.5e6 D, ε/D = 3.41268e-5 D^−1.0112, D in m
//
// which is a fit to the printed table, from memory of the fluids library. D from
// 10 to 400 mm; outside it returns NaN.
//
// Source: crane410.
// Checked: table of fT from 1 in to 6 in, ± 0.0001.
func CraneRatio(diameterM float64) float64 {
	if !(diameterM >= 0.01 && diameterM <= 0.4) {
		return math.NaN()
	}
	f, _ := colebrook(7.5e6*diameterM, 3.4126825352925e-5*math.Pow(diameterM, -1.0112), 0)
	return f
}

// FittingCoef returns K of one named fitting on a pipe of so wide a bore; ok is
// false for a name it does not know. A union's 0.04 is common practice.
//
// Source: crane410.
// Checked: 2 in elbow 0.565, 2 in swing check 1.885, 3 in elbow 0.516.
func FittingCoef(kind string, diameterM float64) (lossCoef float64, ok bool) {
	if n, ok := multiple(kind); ok {
		return n * CraneRatio(diameterM), true
	}
	return plainK(kind)
}

// ErrFitting says that a fitting has no such name.
var ErrFitting = fmt.Errorf("no fitting of that name")

// BareK returns a K given as a number in place of a name ("k=1.9"), for a part
// whose K its test sheet states.
func bareK(kind string) (k float64, ok bool) {
	if len(kind) < 3 || kind[:2] != "k=" {
		return 0, false
	}
	k, err := strconv.ParseFloat(kind[2:], 64)
	return k, err == nil && k >= 0 && k < 1e4
}
