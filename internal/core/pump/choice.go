package pump

import (
	"sort"
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
)

// Question is what a choice is made for.
type Question struct {
	Models []Model
	// Systems are the lines, one for each size of pipe tried; their Count is
	// not looked at.
	Systems []System
	// Counts are the numbers of pumps side by side that are tried.
	Counts []int
	// FlowM3PerS is the flow wanted of all pumps; the others are those of the
	// slower hours, when the way beside is shut. Zero is a mode nobody asks for.
	FlowM3PerS, QuietFlowM3PerS, NightFlowM3PerS, WinterFlowM3PerS float64
	// NPSHBeforeLossM is the suction head there would be without the line.
	NPSHBeforeLossM float64
	PumpAboveWaterM float64
	Limits          Limits
	// Cost is what an option costs in ten years.
	Cost func(Option) money.Amount
	// RunKWh is what an option draws in a year; nil ranks by the power in
	// cascade hours.
	RunKWh func(Option) float64
}

// Limits are the velocities not to be passed; zero is no limit.
type Limits struct{ SuctionMPerS, DischargeMPerS float64 }

// Fault says why an option is not fit.
type Fault string

// The faults, in the order they are looked for.
const (
	TooSmall     Fault = "flow_short"
	OutsideCurve Fault = "outside_curve"
	SuctionFast  Fault = "suction_fast"
	ReturnFast   Fault = "discharge_fast"
	NPSHShort    Fault = "npsh_short"
	NoPrime      Fault = "prime_needed"
)

// Option is one pump model, so many of it, on one size of pipe.
type Option struct {
	Model, System int // places in the question's lists
	Count         int
	// Full is the duty at full speed; Wanted is the one in cascade hours, at
	// the speed that just delivers the flow wanted where the speed can be set;
	// Quiet, Night and Winter are those of the slower hours.
	Full, Wanted, Quiet, Night, Winter Duty
	SuctionMPerS                       float64
	DischargeMPerS                     float64
	NPSHAvailableM                     float64
	Fault                              Fault // empty when fit
	Cost                               money.Amount
	buy                                money.Amount
	id                                 string
	machine                            *Machine
}

// Machine is the pump made ready; nil for an option that Choose did not make.
func (o Option) Machine() *Machine { return o.machine }

// Choice is the answer: the fit options by cost, cheapest first.
type Choice struct {
	Tried int
	Fit   []Option
	// ToBuy and ToRun are places in Fit: the cheapest pumps to buy, and the
	// least electricity. −1 when nothing is fit.
	ToBuy, ToRun int
	// Nearest is the option that comes closest when nothing is fit.
	Nearest Option
}

// Choose tries every pump, count and size. Ties go by the pump's id, then the
// count, then the size's place in the list.
func Choose(q Question) Choice {
	c := Choice{ToBuy: -1, ToRun: -1}
	for i, m := range q.Models {
		ready, err := NewMachine(m)
		if err != nil {
			continue
		}
		for _, n := range q.Counts {
			for j, s := range q.Systems {
				s.Count = n
				o := q.option(ready, s, Option{Model: i, System: j, Count: n, id: m.ID, machine: ready})
				c.Tried++
				if o.Fault != "" {
					c.Nearest = nearer(c.Nearest, o)
					continue
				}
				o.buy = m.Price.Times(quantity(n))
				o.Cost = q.Cost(o)
				c.Fit = append(c.Fit, o)
			}
		}
	}
	c.Fit = sorted(c.Fit)
	for i, o := range c.Fit {
		if c.ToBuy < 0 || o.buy.Cmp(c.Fit[c.ToBuy].buy) < 0 {
			c.ToBuy = i
		}
		if c.ToRun < 0 || q.runs(o) < q.runs(c.Fit[c.ToRun]) {
			c.ToRun = i
		}
	}
	return c
}

// runs ranks options by what they draw.
func (q Question) runs(o Option) float64 {
	if q.RunKWh == nil {
		return o.Wanted.PowerW
	}
	return q.RunKWh(o)
}

// sorted orders options by way of their places, which are cheaper to move.
func sorted(fit []Option) []Option {
	order := make([]int, len(fit))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return before(&fit[order[i]], &fit[order[j]]) })
	out := make([]Option, len(fit))
	for i, k := range order {
		out[i] = fit[k]
	}
	return out
}

func before(a, b *Option) bool {
	if k := a.Cost.Cmp(b.Cost); k != 0 {
		return k < 0
	}
	if a.id != b.id {
		return a.id < b.id
	}
	if a.Count != b.Count {
		return a.Count < b.Count
	}
	return a.System < b.System
}

// nearer keeps the option that flows; of two, the one with more flow.
func nearer(a, b Option) Option {
	flows := func(o Option) bool { return o.Full.State == hydraulics.Flowing }
	switch {
	case a.Count == 0 || flows(b) && !flows(a):
		return b
	case flows(a) == flows(b) && b.Full.FlowM3PerS > a.Full.FlowM3PerS:
		return b
	}
	return a
}

func quantity(n int) money.Quantity {
	q, _ := money.ParseQuantity(strconv.Itoa(n))
	return q
}

// option works out one combination and says what is wrong with it.
func (q Question) option(m *Machine, s System, o Option) Option {
	o.Full = m.Duty(s, m.Model.MostSpeedRatio)
	o.Wanted = m.paced(s, o.Full, q.FlowM3PerS, false)
	slow, full := s, o.Full
	if s.Beside != nil {
		slow = s.Alone()
		full = m.Duty(slow, m.Model.MostSpeedRatio)
	}
	o.Quiet = m.paced(slow, full, q.QuietFlowM3PerS, true)
	if q.NightFlowM3PerS > 0 {
		o.Night = m.paced(slow, full, q.NightFlowM3PerS, true)
	}
	if q.WinterFlowM3PerS > 0 {
		o.Winter = m.paced(slow, full, q.WinterFlowM3PerS, true)
	}
	each := o.Wanted.FlowM3PerS / float64(o.Count)
	o.SuctionMPerS = s.Suction.VelocityMPerS(each)
	o.DischargeMPerS = s.Discharge.VelocityMPerS(o.Wanted.FlowM3PerS)
	o.NPSHAvailableM = q.NPSHBeforeLossM - s.Suction.LossM(each)
	switch {
	case beyond(o.Wanted, o.Quiet, o.Night, o.Winter):
		o.Fault = OutsideCurve
	case o.Full.State != hydraulics.Flowing || o.Wanted.FlowM3PerS < q.FlowM3PerS*(1-1e-12):
		o.Fault = TooSmall
	case q.Limits.SuctionMPerS > 0 && o.SuctionMPerS > q.Limits.SuctionMPerS:
		o.Fault = SuctionFast
	case q.Limits.DischargeMPerS > 0 && o.DischargeMPerS > q.Limits.DischargeMPerS:
		o.Fault = ReturnFast
	case o.NPSHAvailableM < o.Wanted.NPSHRequiredM:
		o.Fault = NPSHShort
	case q.PumpAboveWaterM > m.Model.MostLiftM && q.PumpAboveWaterM > 0:
		o.Fault = NoPrime
	}
	return o
}

// paced is the duty at the speed that gives a flow, where the speed can be set,
// and the one at full speed otherwise. nearest takes the slowest speed where
// even that gives more.
func (m *Machine) paced(s System, full Duty, flowM3PerS float64, nearest bool) Duty {
	// What full speed does not reach, no speed does.
	if m.Model.Drive != design.VariableSpeed || full.State != hydraulics.Beyond && !(full.FlowM3PerS >= flowM3PerS) {
		return full
	}
	if d, ok := m.At(s, flowM3PerS); ok || nearest {
		return d
	}
	return full
}

// beyond says whether any of the duties lies past the end of the pump's curve.
func beyond(duties ...Duty) bool {
	for _, d := range duties {
		if d.State == hydraulics.Beyond {
			return true
		}
	}
	return false
}
