// Package pump holds the builder's pumps: head, power and suction head by
// points, speed by the affinity laws, the duty point on a line of pipe, and
// the choice among pumps, counts and pipe sizes.
package pump

import (
	"errors"
	"fmt"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
)

// Class is the kind of pump.
type Class string

// The classes.
const (
	SelfPriming Class = "self_priming"
	Flooded     Class = "flooded" // must stand below the water
	Submersible Class = "submersible"
)

// Model is a pump of the builder's catalogue. Points hold at full speed.
type Model struct {
	ID    string               `json:"id"`
	Name  string               `json:"name"`
	Class Class                `json:"class"`
	Drive design.Drive         `json:"drive"`
	Curve hydraulics.HeadCurve `json:"curve"`
	// Power is what the pump draws from the socket.
	Power []PowerPoint `json:"power"`
	// NPSH is the suction head the pump requires.
	NPSH []NPSHPoint `json:"npsh_required"`
	// LeastSpeedRatio and MostSpeedRatio bound the speed as a share of full;
	// a single-speed pump has 1 and 1.
	LeastSpeedRatio float64 `json:"least_speed_ratio"`
	MostSpeedRatio  float64 `json:"most_speed_ratio"`
	// DriveLossW is what the drive itself draws at any speed.
	DriveLossW float64 `json:"drive_loss_w,omitempty"`
	// MostLiftM is how far above the water the pump primes by itself.
	MostLiftM float64 `json:"most_lift_m,omitempty"`
	// SuctionDiameterM and DischargeDiameterM are its connections.
	SuctionDiameterM   float64      `json:"suction_diameter_m"`
	DischargeDiameterM float64      `json:"discharge_diameter_m"`
	Price              money.Amount `json:"price"`
}

// PowerPoint is power from the socket at a flow.
type PowerPoint struct {
	FlowM3PerS float64 `json:"flow_m3_per_s"`
	PowerW     float64 `json:"power_w"`
}

// NPSHPoint is the suction head required at a flow.
type NPSHPoint struct {
	FlowM3PerS float64 `json:"flow_m3_per_s"`
	HeadM      float64 `json:"head_m"`
}

// ErrModel says that a pump of the catalogue is not well stated.
var ErrModel = errors.New("pump is not well stated")

// Check returns everything wrong with a model.
func (m Model) Check() []error {
	var faults []error
	bad := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("pump %s: %w: %s", m.ID, ErrModel, fmt.Sprintf(format, args...)))
	}
	if m.ID == "" {
		bad("it has no id")
	}
	switch m.Class {
	case SelfPriming, Flooded, Submersible:
	default:
		bad("no class %q", m.Class)
	}
	switch {
	case !(m.LeastSpeedRatio > 0 && m.LeastSpeedRatio <= m.MostSpeedRatio && m.MostSpeedRatio <= 1.5):
		bad("speeds must rise from above 0 to at most 1.5 of full")
	case m.Drive != design.SingleSpeed && m.Drive != design.VariableSpeed:
		bad("no drive %q", m.Drive)
	case m.Drive == design.SingleSpeed && (m.LeastSpeedRatio != 1 || m.MostSpeedRatio != 1):
		bad("a single-speed pump has speeds 1 and 1")
	}
	if len(m.Curve.Points) < 3 {
		bad("a head curve needs three points or more")
	}
	if _, err := NewMachine(m); err != nil {
		bad("%v", err)
	}
	for _, p := range m.Power {
		if !(p.PowerW > 0) {
			bad("power must be above 0")
		}
	}
	if !(m.DriveLossW >= 0) || !(m.MostLiftM >= 0) || m.Price.Sign() < 0 {
		bad("drive loss, lift and price must not be below 0")
	}
	return faults
}

// Machine is a model made ready.
type Machine struct {
	Model Model
	head  hydraulics.Head
	power num.Monotone
	npsh  num.Monotone
	fall  float64 // of head by the end of the curve, over the flow there squared
}

// NewMachine makes a model ready.
func NewMachine(m Model) (*Machine, error) {
	r := &Machine{Model: m}
	var err error
	if r.head, err = hydraulics.NewHead(m.Curve); err != nil {
		return nil, err
	}
	end, _ := r.head.At(r.head.MostM3PerS(), 1)
	r.fall = (r.head.ShutOffM() - end) / (r.head.MostM3PerS() * r.head.MostM3PerS())
	x, y := make([]float64, len(m.Power)), make([]float64, len(m.Power))
	for i, p := range m.Power {
		x[i], y[i] = p.FlowM3PerS, p.PowerW
	}
	if r.power, err = num.NewMonotone(x, y); err != nil {
		return nil, fmt.Errorf("power: %w", err)
	}
	x, y = make([]float64, len(m.NPSH)), make([]float64, len(m.NPSH))
	for i, p := range m.NPSH {
		x[i], y[i] = p.FlowM3PerS, p.HeadM
	}
	if r.npsh, err = num.NewMonotone(x, y); err != nil {
		return nil, fmt.Errorf("suction head required: %w", err)
	}
	return r, nil
}

// Working is a pump at work: its flow and its speed as a share of full.
type Working struct{ FlowM3PerS, SpeedRatio float64 }

// HeadM returns the head of one pump, s² h(Q/s).
//
// Source: affinity.
// Checked: Crane TP-410 example 7-33, 126 ft at 3500 to 29.7257 ft at 1700.
func (m *Machine) HeadM(w Working) float64 {
	h, _ := m.head.At(w.FlowM3PerS, w.SpeedRatio)
	return h
}

// MostM3PerS returns the flow at the end of one pump's curve at a speed.
//
// Source: affinity.
func (m *Machine) MostM3PerS(speedRatio float64) float64 { return m.head.MostM3PerS() * speedRatio }

// ShutOffM returns the head at no flow at a speed.
//
// Source: affinity.
func (m *Machine) ShutOffM(speedRatio float64) float64 {
	return m.head.ShutOffM() * speedRatio * speedRatio
}

// PowerW returns what one pump draws from the socket.
//
//	P = s³ P(Q/s) + drive loss
//
// Source: affinity.
// Checked: Crane TP-410 example 7-33, 17.5 hp at 3500 to 2.00531 hp at 1700.
func (m *Machine) PowerW(w Working) float64 {
	s := w.SpeedRatio
	p, _ := m.power.At(within(&m.power, w.FlowM3PerS/s))
	return s*s*s*p + m.Model.DriveLossW
}

// NPSHRequiredM returns the suction head one pump requires, s² N(Q/s).
//
// Source: affinity.
// Checked: quarter of the head at half the speed and half the flow.
func (m *Machine) NPSHRequiredM(w Working) float64 {
	s := w.SpeedRatio
	n, _ := m.npsh.At(within(&m.npsh, w.FlowM3PerS/s))
	return s * s * n
}

// within holds a flow to the ends of a curve, so nothing is extrapolated.
func within(c *num.Monotone, x float64) float64 {
	switch lo, hi := c.Ends(); {
	case x < lo:
		return lo
	case x > hi:
		return hi
	}
	return x
}
