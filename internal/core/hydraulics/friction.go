package hydraulics

import "math"

// The Reynolds numbers at which the laminar law ends and the turbulent law
// begins; between them a cubic joins the two.
const (
	laminarEnds     = 2000.0
	turbulentBegins = 4000.0
	perLog10        = 0.8685889638065036 // 2/ln 10
)

// LaminarRatio returns the Darcy friction factor of laminar flow, 64/Re. Holds
// for Re below 2000; outside it, and for Re not above zero, it returns NaN.
//
// Source: poiseuille1840.
// Checked: reference/friction.json, exactly.
func LaminarRatio(reynoldsRatio float64) float64 {
	if !(reynoldsRatio > 0 && reynoldsRatio <= laminarEnds) {
		return math.NaN()
	}
	return 64 / reynoldsRatio
}

// ColebrookWhiteRatio returns the Darcy friction factor of a round pipe running
// full in turbulent flow.
//
//	1/√f = −2 log₁₀( ε/(3.7 D) + 2.51/(Re √f) )
//
// roughnessRatio is ε/D on the inside diameter; log₁₀ is the common logarithm.
//
// Holds for 4000 ≤ Re ≤ 1e8 and 0 ≤ ε/D ≤ 0.05; outside it returns NaN,
// because the caller must choose the law, see [FrictionRatio].
//
// With x = 1/√f the equation is x + 2 log₁₀(a + b x) = 0, rising and hollow
// downwards, so there is one root; Halley's steps are taken until what is left
// is under the last digit.
//
// Source: colebrook1939.
// Checked: reference/friction.json (40-digit arithmetic) to 1e-13.
func ColebrookWhiteRatio(reynoldsRatio, roughnessRatio float64) float64 {
	if !turbulent(reynoldsRatio, roughnessRatio) {
		return math.NaN()
	}
	f, _ := colebrook(reynoldsRatio, roughnessRatio, 0)
	return f
}

func turbulent(re, rr float64) bool {
	return re >= turbulentBegins && re <= 1e8 && rr >= 0 && rr <= 0.05
}

// colebrook returns f and df/dRe; seed is 1/√f of a neighbouring flow, or 0.
//
// Halley's step is of third order and costs one logarithm; once it is under
// 1e-5 of x, what it leaves is under the last digit.
func colebrook(re, rr, seed float64) (f, slope float64) {
	x := seed
	if x <= 0 {
		x = -perLog10 * math.Log(rr/3.7+12/re)
	}
	return byRoot(re, rr, settle(re, rr, x))
}

// settle steps from x to the root 1/√f.
func settle(re, rr, x float64) float64 {
	a, b := rr/3.7, 2.51/re
	for range mostHalley {
		s := a + b*x
		k := perLog10 * b / s
		g, dg := x+perLog10*math.Log(s), 1+k
		// Far to the left of the root Halley's step would turn back; Newton's
		// does not.
		step := g * dg / (dg*dg + math.Max(g*k*b/(2*s), -dg*dg/2))
		x = math.Max(x-step, x/8)
		if math.Abs(step) <= 1e-5*x {
			break
		}
	}
	return x
}

// mostHalley bounds the steps; three are usual.
const mostHalley = 60

// byRoot turns x = 1/√f into f and df/dRe.
func byRoot(re, rr, x float64) (f, slope float64) {
	b := 2.51 / re
	k := perLog10 * b / (rr/3.7 + b*x)
	f = 1 / (x * x)
	return f, -2 * f * k / (re * (1 + k))
}

// SwameeJainRatio returns an explicit friction factor of turbulent flow.
//
//	f = 0.25 / log₁₀( ε/(3.7 D) + 5.74/Re^0.9 )²
//
// Holds for 4000 ≤ Re ≤ 1e8 and 0 ≤ ε/D ≤ 0.05, within 3.4 % of
// Colebrook–White; outside it returns NaN.
//
// Source: swameejain1976.
// Checked: reference/friction.json; 0.018452424431902 at Re 1e5, ε/D 1e-4.
func SwameeJainRatio(reynoldsRatio, roughnessRatio float64) float64 {
	if !turbulent(reynoldsRatio, roughnessRatio) {
		return math.NaN()
	}
	f, _ := swameeJain(reynoldsRatio, roughnessRatio)
	return f
}

func swameeJain(re, rr float64) (f, slope float64) {
	p := 5.74 * math.Pow(re, -0.9)
	s := rr/3.7 + p
	y := perLog10 * math.Log(s)
	f = 1 / (y * y)
	return f, -2 * f / y * perLog10 / s * (-0.9 * p / re)
}

// HaalandRatio returns an explicit friction factor of turbulent flow.
//
//	1/√f = −1.8 log₁₀( (ε/(3.7 D))^1.11 + 6.9/Re )
//
// Holds as [SwameeJainRatio] does, within 1.5 % of Colebrook–White.
//
// Source: haaland1983.
// Checked: reference/friction.json; 0.018265053014794 at Re 1e5, ε/D 1e-4.
func HaalandRatio(reynoldsRatio, roughnessRatio float64) float64 {
	if !turbulent(reynoldsRatio, roughnessRatio) {
		return math.NaN()
	}
	y := 1.8 * math.Log10(math.Pow(roughnessRatio/3.7, 1.11)+6.9/reynoldsRatio)
	return 1 / (y * y)
}

// FrictionRatio returns the Darcy friction factor at any Reynolds number above
// zero: 64/Re to 2000, Colebrook–White from 4000, and between them Dunlop's
// cubic in Re, which takes value and slope from 64/Re at 2000 and from
// Swamee–Jain at 4000. Swamee–Jain and Colebrook–White differ there by up to
// 3.4 %, so over its last 200 the cubic is drawn to Colebrook–White by a
// smooth step: no solver sees a jump or a kink. NaN where the laws do not hold.
//
// Source: dunlop1991.
// Checked: continuity of value and slope at 2000, 3800 and 4000; the cubic's
// published coefficients to 1e-6; head rises with flow all the way.
func FrictionRatio(reynoldsRatio, roughnessRatio float64) float64 {
	if !(reynoldsRatio > 0 && reynoldsRatio <= 1e8 && roughnessRatio >= 0 && roughnessRatio <= 0.05) {
		return math.NaN()
	}
	f, _ := darcy(Colebrook, reynoldsRatio, roughnessRatio, 0)
	return f
}

// darcy returns f and df/dRe by the law, in all three regimes. Beyond the
// range of the laws it goes on, so that a solver may pass through.
func darcy(law Law, re, rr, seed float64) (f, slope float64) {
	switch {
	case re <= laminarEnds:
		return 64 / re, -64 / (re * re)
	case re < turbulentBegins:
		ft, st := swameeJain(turbulentBegins, rr)
		f, slope = cubic(re, ft, st)
		if law == SwameeJain || re <= drawnFrom {
			return f, slope
		}
		return drawn(re, rr, f, slope)
	}
	return rough(law, re, rr, seed)
}

// drawnFrom is where Dunlop's cubic begins to be drawn to Colebrook–White.
const drawnFrom = 3800.0

// drawn multiplies the cubic by 1 + w (r − 1), r being Colebrook–White over
// Swamee–Jain at the same Re and w a smooth step.
func drawn(re, rr, f, slope float64) (float64, float64) {
	fc, sc := colebrook(re, rr, 0)
	fs, ss := swameeJain(re, rr)
	r := fc / fs
	dr := (sc - r*ss) / fs
	t := (re - drawnFrom) / (turbulentBegins - drawnFrom)
	w, dw := t*t*(3-2*t), 6*t*(1-t)/(turbulentBegins-drawnFrom)
	k := 1 + w*(r-1)
	return f * k, slope*k + f*(dw*(r-1)+w*dr)
}

func rough(law Law, re, rr, seed float64) (f, slope float64) {
	if law == SwameeJain {
		return swameeJain(re, rr)
	}
	return colebrook(re, rr, seed)
}

// cubic is Hermite's, from the laminar end to (4000, ft) with slope st.
func cubic(re, ft, st float64) (f, slope float64) {
	const h = turbulentBegins - laminarEnds
	const fl, sl = 64 / laminarEnds, -64 / (laminarEnds * laminarEnds)
	t := (re - laminarEnds) / h
	d := (ft - fl) / h
	a, b := sl+st-2*d, 3*d-2*sl-st
	return fl + h*t*(sl+t*(b+t*a)), sl + t*(2*b+3*t*a)
}

// Law names a friction law of a whole network.
type Law string

// The laws. Colebrook is the house's own; the others are for comparison with
// handbooks and other solvers.
const (
	Colebrook       Law = "colebrook_white"
	SwameeJain      Law = "swamee_jain"
	HazenWilliams   Law = "hazen_williams"    // SI pair 10.67, 4.8704
	HazenWilliamsUS Law = "hazen_williams_us" // 4.727, 4.871 in feet
)

// HazenWilliamsFlow is what the Hazen–Williams formula needs.
type HazenWilliamsFlow struct{ FlowM3PerS, LengthM, DiameterM, CCoef float64 }

// HazenWilliamsM returns the friction head of a pipe by Hazen–Williams.
//
//	h = 10.67 L Q^1.852 / (C^1.852 D^4.8704)
//
// Holds for water near 16 °C in turbulent flow, D ≥ 50 mm, v ≤ 3 m/s; it does
// not see temperature. It is kept for comparison with handbook tables.
//
// Source: hazenwilliams1905.
// Checked: handbook/friction_c150.csv; reference/hazen_williams.json to 1e-12.
func HazenWilliamsM(p HazenWilliamsFlow) float64 {
	return 10.67 * p.LengthM * math.Pow(p.FlowM3PerS/p.CCoef, 1.852) / math.Pow(p.DiameterM, 4.8704)
}

// HazenWilliamsUSM returns the friction head by the form in feet and cubic feet
// a second, h = 4.727 L Q^1.852 / (C^1.852 D^4.871), with the lengths here in
// metres. It is 0.1 % from [HazenWilliamsM].
//
// Source: hazenwilliams1905.
// Checked: handbook/friction_c150.csv to its printed digits.
func HazenWilliamsUSM(p HazenWilliamsFlow) (headM float64) {
	const ft = 0.3048
	cfs := p.FlowM3PerS / (ft * ft * ft)
	return 4.727 * p.LengthM * math.Pow(cfs/p.CCoef, 1.852) / math.Pow(p.DiameterM/ft, 4.871)
}

// DarcyFlow is what the Darcy–Weisbach formula needs.
type DarcyFlow struct{ FlowM3PerS, LengthM, DiameterM, RoughnessM, ViscosityM2PerS float64 }

// DarcyWeisbachM returns the friction head of a pipe.
//
//	h = f (L/D) v² / 2g, f by [FrictionRatio]
//
// Source: darcyweisbach.
// Checked: reference/hazen_williams.json, its Darcy column, to 2e-5; Crane
// TP-410 example 7-1.
func DarcyWeisbachM(p DarcyFlow) float64 {
	if p.FlowM3PerS == 0 {
		return 0
	}
	v := VelocityMPerS(p.FlowM3PerS, p.DiameterM)
	f := FrictionRatio(ReynoldsRatio(PipeFlow{p.FlowM3PerS, p.DiameterM, p.ViscosityM2PerS}), p.RoughnessM/p.DiameterM)
	return f * p.LengthM / p.DiameterM * v * v / (2 * gravity)
}

// MinorLossM returns the head lost in a fitting, K v²/2g.
//
// Source: crane410.
// Checked: minor loss run of references, 2.441 ft at 60 gal/min.
func MinorLossM(lossCoef, velocityMPerS float64) float64 {
	return lossCoef * velocityMPerS * velocityMPerS / (2 * gravity)
}
