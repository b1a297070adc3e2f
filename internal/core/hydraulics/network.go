package hydraulics

import (
	"errors"
	"fmt"
)

// Network is pipes and pumps between nodes, stated link by link, so that any
// system can be held against another tool.
type Network struct {
	Settings Settings `json:"settings"`
	Nodes    []Node   `json:"nodes"`
	Pipes    []Pipe   `json:"pipes"`
	Pumps    []Pump   `json:"pumps"`
}

// Settings fix the friction law and the water.
type Settings struct {
	// Law is the house's own when empty.
	Law             Law     `json:"law,omitempty"`
	ViscosityM2PerS float64 `json:"viscosity_m2_per_s,omitempty"`
	// FrictionGravityMPerS2 and MinorGravityMPerS2 are standard gravity when
	// zero; another engine's rounded constants can be stated for comparison.
	FrictionGravityMPerS2 float64 `json:"friction_gravity_m_per_s2,omitempty"`
	MinorGravityMPerS2    float64 `json:"minor_gravity_m_per_s2,omitempty"`
}

func (s Settings) frictionGravity() float64 {
	if s.FrictionGravityMPerS2 > 0 {
		return s.FrictionGravityMPerS2
	}
	return gravity
}

func (s Settings) minorGravity() float64 {
	if s.MinorGravityMPerS2 > 0 {
		return s.MinorGravityMPerS2
	}
	return gravity
}

// Node is a junction, or a free water surface whose level is given.
type Node struct {
	ID string `json:"id"`
	// Surface marks a free water surface at HeadM; a junction's head is found.
	Surface bool    `json:"surface,omitempty"`
	HeadM   float64 `json:"head_m,omitempty"`
}

// Pipe is a line from a node to a node. LossCoef is the sum of K, entry and
// exit included.
type Pipe struct {
	ID              string  `json:"id"`
	From            string  `json:"from"`
	To              string  `json:"to"`
	LengthM         float64 `json:"length_m"`
	InsideDiameterM float64 `json:"inside_diameter_m"`
	RoughnessM      float64 `json:"roughness_m,omitempty"`
	CCoef           float64 `json:"c_coef,omitempty"` // of Hazen–Williams
	LossCoef        float64 `json:"loss_coef,omitempty"`
	// CheckValve keeps the flow from running from To to From.
	CheckValve bool `json:"check_valve,omitempty"`
}

// Pump lifts from a node to a node; it never lets water back.
type Pump struct {
	ID         string    `json:"id"`
	From       string    `json:"from"`
	To         string    `json:"to"`
	Curve      HeadCurve `json:"curve"`
	SpeedRatio float64   `json:"speed_ratio"`
	Off        bool      `json:"off,omitempty"`
}

// State says what a link does.
type State string

// The states.
const (
	Flowing  State = "flowing"
	Still    State = "still"       // no head to move it, as in a closed end
	Checked  State = "checked"     // its check valve holds
	DeadHead State = "dead_headed" // the pump cannot open against the others
	Off      State = "off"
	Beyond   State = "outside_curve" // past its last point: refused
)

// LinkFlow is the answer for one link. HeadM is lost in a pipe and gained in a
// pump, in the direction of the flow stated from From to To.
type LinkFlow struct {
	ID            string
	FlowM3PerS    float64
	HeadM         float64
	VelocityMPerS float64
	State         State
}

// NodeHead is the answer for one node; Known is false for a node that no open
// line joins to a water surface.
type NodeHead struct {
	ID    string
	HeadM float64
	Known bool
}

// Solution is the answer: pipes first, then pumps, in the network's order.
type Solution struct {
	Links []LinkFlow
	Nodes []NodeHead
	// PumpedM3PerS is the sum of the pumps.
	PumpedM3PerS float64
	Steps        int
}

// Link returns the answer of a link.
func (s Solution) Link(id string) (LinkFlow, bool) {
	for _, l := range s.Links {
		if l.ID == id {
			return l, true
		}
	}
	return LinkFlow{}, false
}

// ErrNetwork says that a network is not well stated.
var ErrNetwork = errors.New("network is not well stated")

// Check returns everything wrong with the network.
func (n Network) Check() []error {
	var faults []error
	bad := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("%w: %s", ErrNetwork, fmt.Sprintf(format, args...)))
	}
	nodes, links := map[string]bool{}, map[string]bool{}
	surfaces := 0
	for _, v := range n.Nodes {
		if v.ID == "" || nodes[v.ID] {
			bad("node %q is without a name or there twice", v.ID)
		}
		nodes[v.ID] = true
		if v.Surface {
			surfaces++
		}
	}
	if surfaces == 0 {
		bad("no node is a water surface")
	}
	ends := func(id, from, to string) {
		if id == "" || links[id] {
			bad("link %q is without a name or there twice", id)
		}
		links[id] = true
		if !nodes[from] || !nodes[to] || from == to {
			bad("link %s runs from %q to %q", id, from, to)
		}
	}
	switch n.Settings.Law {
	case "", Colebrook, SwameeJain, HazenWilliams, HazenWilliamsUS:
	default:
		bad("no friction law %q", n.Settings.Law)
	}
	for _, p := range n.Pipes {
		ends(p.ID, p.From, p.To)
		if why := n.pipeFault(p); why != "" {
			bad("pipe %s: %s", p.ID, why)
		}
	}
	for _, p := range n.Pumps {
		ends(p.ID, p.From, p.To)
		if !(p.SpeedRatio > 0 && p.SpeedRatio <= 2) {
			bad("pump %s: speed must be above 0 and at most 2 of full", p.ID)
		}
		if _, err := NewHead(p.Curve); err != nil {
			bad("pump %s: %v", p.ID, err)
		}
	}
	return faults
}

func (n Network) pipeFault(p Pipe) string {
	williams := n.Settings.Law == HazenWilliams || n.Settings.Law == HazenWilliamsUS
	switch {
	case !(p.LengthM >= 0 && p.LengthM < 1e6):
		return "length must be from 0"
	case !(p.InsideDiameterM > 0 && p.InsideDiameterM < 20):
		return "inside diameter must be above 0"
	case !(p.LossCoef >= 0 && p.LossCoef < 1e9):
		return "K must be from 0"
	case williams && !(p.CCoef > 0):
		return "C must be above 0"
	case !williams && !(p.RoughnessM >= 0 && p.RoughnessM <= 0.05*p.InsideDiameterM):
		return "roughness must be from 0 to 0.05 of the diameter"
	case !williams && !(n.Settings.ViscosityM2PerS > 0):
		return "viscosity must be above 0"
	case p.LengthM == 0 && p.LossCoef == 0:
		return "needs a length or a K"
	}
	return ""
}
