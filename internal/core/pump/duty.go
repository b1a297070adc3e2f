package pump

import (
	"math"

	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/water"
)

// System is what equal pumps side by side work against: a lift, each pump's
// own suction line, and one discharge line for all.
type System struct {
	Count     int
	StaticM   float64
	Suction   hydraulics.Resistance
	Discharge hydraulics.Resistance
	// Beside is a second way from a tee at the pumps, to outlets at the pond's
	// own level; nil where there is none.
	Beside         *hydraulics.Resistance
	DensityKgPerM3 float64
}

// HeadM returns the head the system asks of each pump at a flow of all
// together.
//
//	H = static + h_suction(Q/n) + h_discharge(Q)
//
// With a second way beside, the last two are those of [System.Split].
//
// Source: darcyweisbach.
// Checked: reference/hydraulics.json, single-loop cases.
func (s System) HeadM(flowM3PerS float64) float64 {
	in := s.Suction.LossM(flowM3PerS / float64(s.Count))
	if s.Beside != nil {
		return in + s.Split(flowM3PerS).HeadM
	}
	return s.StaticM + in + s.Discharge.LossM(flowM3PerS)
}

// Duty is where pumps and system agree.
type Duty struct {
	State      hydraulics.State // Flowing, DeadHead or Beyond
	FlowM3PerS float64          // of all pumps
	HeadM      float64
	SpeedRatio float64
	// PowerW is drawn from the socket by all pumps.
	PowerW float64
	// EfficiencyRatio is water power over power from the socket.
	EfficiencyRatio float64
	NPSHRequiredM   float64
}

// Duty finds the duty point at a speed: the one flow at which the pumps' head
// is what the system asks. The first falls and the second rises, so it is
// bracketed between no flow and the end of the curve; without a crossing there
// the state says whether the lift is too high for the pump (DeadHead) or the
// system too easy for its curve (Beyond), and nothing is extrapolated.
//
// Source: affinity.
// Checked: pump 80 − 0.008 Q² on 12 + 0.004 Q² settles at 75.2773 gal/min; two
// side by side at 106.458; reference/hydraulics.json to 1e-9.
func (m *Machine) Duty(s System, speedRatio float64) Duty {
	d := Duty{SpeedRatio: speedRatio, State: hydraulics.Flowing}
	spare := m.ShutOffM(speedRatio) - s.floorM()
	if spare <= 0 {
		d.State, d.HeadM = hydraulics.DeadHead, m.ShutOffM(speedRatio)
		return d
	}
	n := float64(s.Count)
	share := 1 / n
	var in hydraulics.Trace
	var out ways
	var fall hydraulics.Fall
	var last, hp, dp float64
	f := func(q float64) (y, slope float64) {
		each := q * share
		hs, ds := s.Suction.At(each, &in)
		hd, dd := s.after(q, &out)
		hp, dp = m.head.Near(each, speedRatio, &fall)
		last = q
		y, slope = hs+hd-hp, float64((ds-dp)*share)+dd
		return bent(y, slope*q, spare), slope
	}
	most := n * m.MostM3PerS(speedRatio)
	rough := s.Suction.RoughLossM(share) + s.Discharge.RoughLossM(1) + float64(m.fall*share*share)
	q, ok := num.Newton(f, 0, most, math.Sqrt(spare/rough))
	if !ok {
		d.State = hydraulics.Beyond
	}
	// The last step is far too small for the curve to bend on its way.
	d.FlowM3PerS, d.HeadM = q, hp+float64(dp*(q-last)*share)
	return m.worked(&s, d)
}

// bent is y so changed that Newton's step is one on logarithms, to the third
// order. Losses and the fall of the curve together go nearly with a power of
// the flow and must come to spare: y is how much they are over, slopeTimesFlow
// their slope times the flow. Far from that it is y as it is.
func bent(y, slopeTimesFlow, spare float64) float64 {
	sum := y + spare
	whole := 2 * slopeTimesFlow * sum
	part := whole - (slopeTimesFlow-sum)*y
	if part > whole/2 && part < 2*whole {
		return y * whole / part
	}
	return y
}

// worked fills a duty whose flow, head and speed are known.
func (m *Machine) worked(s *System, d Duty) Duty {
	n := float64(s.Count)
	w := Working{d.FlowM3PerS / n, d.SpeedRatio}
	d.PowerW = n * m.PowerW(w)
	d.NPSHRequiredM = m.NPSHRequiredM(w)
	d.EfficiencyRatio = WaterPowerW(s.DensityKgPerM3, Lift{d.FlowM3PerS, d.HeadM}) / d.PowerW
	return d
}

// Lift is a flow and the head it gains.
type Lift struct{ FlowM3PerS, HeadM float64 }

// WaterPowerW returns the power that goes into the water, ρ g Q H.
//
// Source: definition.
// Checked: 60 gal/min at 40 ft takes 451.8 W.
func WaterPowerW(densityKgPerM3 float64, l Lift) float64 {
	return densityKgPerM3 * water.GravityMPerS2 * l.FlowM3PerS * l.HeadM
}

// At finds the speed at which the pumps deliver a flow through the system. The
// head at a flow rises with speed, so the speed is bracketed by the pump's own
// range. ok is false when the range does not reach; then the duty is the one
// at the nearer end of the range.
func (m *Machine) At(s System, flowM3PerS float64) (d Duty, ok bool) {
	lo, hi := m.Model.LeastSpeedRatio, m.Model.MostSpeedRatio
	need := s.HeadM(flowM3PerS)
	each := flowM3PerS / float64(s.Count)
	// Under this speed the flow lies past the end of the curve.
	least := math.Max(lo, each/m.head.MostM3PerS())
	if least > hi {
		return m.Duty(s, hi), false
	}
	above := func(speed float64) (y, slope float64) {
		h, dh := m.head.At(each, speed)
		y, slope = h-need, (2*h-each*dh)/speed
		// The head less the losses goes nearly with the square of the speed: a
		// step on the square of it, where that is not far.
		if c := 1 + y/(2*slope*speed); c > 0.5 && c < 2 {
			y *= c
		}
		return y, slope
	}
	speed, ok := num.Newton(above, least, hi, hi*math.Min(1, math.Sqrt(need/m.ShutOffM(hi))+0.2))
	if !ok {
		d := m.Duty(s, speed)
		return d, math.Abs(d.FlowM3PerS-flowM3PerS) <= 1e-12*flowM3PerS
	}
	return m.worked(&s, Duty{State: hydraulics.Flowing, FlowM3PerS: flowM3PerS, HeadM: need, SpeedRatio: speed}), true
}

// Intake is what bears on the suction head of a pump.
type Intake struct{ AirPressurePa, VapourPressurePa, DensityKgPerM3, PumpAboveWaterM, LossM float64 }

// NPSHAvailableM returns the net positive suction head available.
//
//	NPSHa = (p_air − p_vapour)/(ρ g) − z − h_suction
//
// z is the pump's eye above the water, negative when it is flooded.
//
// Source: npsh.
// Checked: Crane TP-410 example 7-32, 13.887 ft; 27.84 ft and 21.83 ft at
// sea level and a mile up, water at 80 °F.
func NPSHAvailableM(i Intake) float64 {
	return (i.AirPressurePa-i.VapourPressurePa)/(i.DensityKgPerM3*water.GravityMPerS2) - i.PumpAboveWaterM - i.LossM
}
