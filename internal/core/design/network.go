package design

// Network is pipes and pumps between nodes, stated link by link: any system, to
// be held against another tool.
type Network struct {
	// Law is the law of friction; empty is Colebrook and White's.
	Law Law `json:"law,omitempty"`
	// ViscosityM2PerS is that of the site's water when zero. The two gravities
	// are standard when zero; another engine's rounded ones can be stated.
	ViscosityM2PerS       float64       `json:"viscosity_m2_per_s,omitempty"`
	FrictionGravityMPerS2 float64       `json:"friction_gravity_m_per_s2,omitempty"`
	MinorGravityMPerS2    float64       `json:"minor_gravity_m_per_s2,omitempty"`
	Nodes                 []NetworkNode `json:"nodes"`
	Pipes                 []NetworkPipe `json:"pipes"`
	Pumps                 []NetworkPump `json:"pumps,omitempty"`
}

// Law names a law of friction.
type Law string

// The laws.
const (
	ColebrookWhite  Law = "colebrook_white"
	SwameeJain      Law = "swamee_jain"
	HazenWilliams   Law = "hazen_williams"
	HazenWilliamsUS Law = "hazen_williams_us"
)

// NetworkNode is a junction, or a free water surface.
type NetworkNode struct {
	ID string `json:"id"`
	// Surface marks free water standing at HeadM; a junction's head is found.
	Surface bool    `json:"surface,omitempty"`
	HeadM   float64 `json:"head_m,omitempty"`
}

// NetworkPipe is a line from a node to a node.
type NetworkPipe struct {
	ID              string  `json:"id"`
	From            string  `json:"from"`
	To              string  `json:"to"`
	LengthM         float64 `json:"length_m"`
	InsideDiameterM float64 `json:"inside_diameter_m"`
	RoughnessM      float64 `json:"roughness_m,omitempty"`
	CCoef           float64 `json:"c_coef,omitempty"` // of Hazen and Williams
	// LossCoef is a sum of K, entry and exit included; named fittings add to it.
	LossCoef   float64   `json:"loss_coef,omitempty"`
	Fittings   []Fitting `json:"fittings,omitempty"`
	CheckValve bool      `json:"check_valve,omitempty"` // lets water only from From to To
}

// NetworkPump lifts from a node to a node and never lets water back.
type NetworkPump struct {
	ID         string       `json:"id"`
	From       string       `json:"from"`
	To         string       `json:"to"`
	Curve      NetworkCurve `json:"curve"`
	SpeedRatio float64      `json:"speed_ratio"` // of the speed the curve holds at
	Off        bool         `json:"off,omitempty"`
}

// NetworkCurve is a pump's head against its flow.
type NetworkCurve struct {
	// Form is how the points are joined; empty is smooth. A power curve,
	// H₀ − a Qⁿ, takes three points, the first at no flow.
	Form   CurveForm           `json:"form,omitempty"`
	Points []NetworkCurvePoint `json:"points"`
}

// CurveForm names how the points of a head curve are joined.
type CurveForm string

// The forms.
const (
	SmoothCurve   CurveForm = "smooth"
	StraightCurve CurveForm = "straight"
	PowerCurve    CurveForm = "power"
)

// NetworkCurvePoint is a point of a head curve.
type NetworkCurvePoint struct {
	FlowM3PerS float64 `json:"flow_m3_per_s"`
	HeadM      float64 `json:"head_m"`
}
