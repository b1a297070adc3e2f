package design

import (
	"strconv"
	"unicode/utf8"
)

// Limits of a network: wider than a garden's, so that a system of a textbook
// can be stated, and small enough to be solved at once.
const (
	maxNetworkNodes, maxNetworkPipes, maxNetworkPumps = 60, 100, 20
	maxCurvePoints                                    = 40
	maxIDRunes                                        = 40
	maxHeadM                                          = 1000.0
	maxNetworkLineM                                   = 10000.0
	minBoreM, maxBoreM                                = 0.005, 2.0
	maxRoughRatio                                     = 0.05
	maxNetworkLoss                                    = 1e6
	minLineM, minBareLoss                             = 0.001, 0.01 // a pipe has one of them
	minCCoef, maxCCoef                                = 10.0, 300.0
	minViscosity, maxViscosity                        = 1e-7, 1e-4
	minGravity, maxGravity                            = 9.7, 9.9
	minSpeedRatio, maxSpeedRatio                      = 0.05, 2.0
	maxCurveFlow                                      = 10.0
)

// network reports what is wrong with a network; without faults it can be
// solved.
func (v *checker) network(n *Network) {
	if n == nil {
		return
	}
	if n.Law != "" {
		v.choice("network.law", string(n.Law), string(ColebrookWhite), string(SwameeJain), string(HazenWilliams), string(HazenWilliamsUS))
	}
	v.unlessZero("network.viscosity_m2_per_s", n.ViscosityM2PerS, limits{minViscosity, maxViscosity, "m2/s"})
	v.unlessZero("network.friction_gravity_m_per_s2", n.FrictionGravityMPerS2, limits{minGravity, maxGravity, "m/s2"})
	v.unlessZero("network.minor_gravity_m_per_s2", n.MinorGravityMPerS2, limits{minGravity, maxGravity, "m/s2"})
	nodes, links := map[string]bool{}, map[string]bool{}
	v.count("network.nodes", len(n.Nodes), 2, maxNetworkNodes)
	surfaces := 0
	for i, k := range n.Nodes {
		path := "network.nodes[" + strconv.Itoa(i) + "]"
		v.id(path+".id", k.ID, nodes)
		v.within(path+".head_m", k.HeadM, limits{-maxHeadM, maxHeadM, "m"})
		if k.Surface {
			surfaces++
		}
	}
	if surfaces == 0 {
		v.fault("network.nodes", "no_surface")
	}
	v.count("network.pipes", len(n.Pipes), 1, maxNetworkPipes)
	for i, p := range n.Pipes {
		path := "network.pipes[" + strconv.Itoa(i) + "]"
		v.id(path+".id", p.ID, links)
		v.ends(path, p.From, p.To, nodes)
		v.networkPipe(path, p, n.Law == HazenWilliams || n.Law == HazenWilliamsUS)
	}
	v.count("network.pumps", len(n.Pumps), 0, maxNetworkPumps)
	for i, p := range n.Pumps {
		path := "network.pumps[" + strconv.Itoa(i) + "]"
		v.id(path+".id", p.ID, links)
		v.ends(path, p.From, p.To, nodes)
		v.within(path+".speed_ratio", p.SpeedRatio, limits{minSpeedRatio, maxSpeedRatio, ""})
		v.curve(path+".curve", p.Curve)
	}
}

func (v *checker) unlessZero(path string, x float64, l limits) {
	if x != 0 {
		v.within(path, x, l)
	}
}

// id reports a name that is missing, too long, or there already.
func (v *checker) id(path, id string, taken map[string]bool) {
	switch {
	case id == "":
		v.fault(path, "empty")
	case utf8.RuneCountInString(id) > maxIDRunes:
		v.fault(path, "too_long", Arg{Name: "max", Value: maxIDRunes})
	case taken[id]:
		v.fault(path, "named_twice", Arg{Name: "value", Text: id})
	}
	taken[id] = true
}

func (v *checker) ends(path, from, to string, nodes map[string]bool) {
	if !nodes[from] {
		v.fault(path+".from", "unknown_node", Arg{Name: "value", Text: from})
	}
	switch {
	case !nodes[to]:
		v.fault(path+".to", "unknown_node", Arg{Name: "value", Text: to})
	case from == to:
		v.fault(path+".to", "runs_nowhere", Arg{Name: "value", Text: to})
	}
}

func (v *checker) networkPipe(path string, p NetworkPipe, williams bool) {
	long := v.within(path+".length_m", p.LengthM, limits{0, maxNetworkLineM, "m"})
	v.within(path+".loss_coef", p.LossCoef, limits{0, maxNetworkLoss, ""})
	if v.within(path+".inside_diameter_m", p.InsideDiameterM, limits{minBoreM, maxBoreM, "m"}) {
		v.within(path+".roughness_m", p.RoughnessM, limits{0, maxRoughRatio * p.InsideDiameterM, "m"})
	}
	if williams {
		v.within(path+".c_coef", p.CCoef, limits{minCCoef, maxCCoef, ""})
	} else {
		v.within(path+".c_coef", p.CCoef, limits{0, maxCCoef, ""})
	}
	v.count(path+".fittings", len(p.Fittings), 0, 40)
	for i, f := range p.Fittings {
		v.count(path+".fittings["+strconv.Itoa(i)+"].count", f.Count, 0, 100)
	}
	if long && p.LengthM < minLineM && p.LossCoef < minBareLoss {
		v.fault(path+".length_m", "no_loss")
	}
}

// curve reports points that cannot be a pump's: flow must rise and head fall.
func (v *checker) curve(path string, c NetworkCurve) {
	if c.Form != "" {
		v.choice(path+".form", string(c.Form), string(SmoothCurve), string(StraightCurve), string(PowerCurve))
	}
	lo, hi := 2, maxCurvePoints
	if c.Form == PowerCurve {
		lo, hi = 3, 3
	}
	v.count(path+".points", len(c.Points), lo, hi)
	for i, p := range c.Points {
		at := path + ".points[" + strconv.Itoa(i) + "]"
		ok := v.within(at+".flow_m3_per_s", p.FlowM3PerS, limits{0, maxCurveFlow, "m3/s"})
		ok = v.within(at+".head_m", p.HeadM, limits{-maxHeadM, maxHeadM, "m"}) && ok
		switch {
		case !ok:
		case i == 0 && c.Form == PowerCurve && p.FlowM3PerS != 0:
			v.fault(at+".flow_m3_per_s", "out_of_range", Arg{Name: "value", Value: p.FlowM3PerS, Unit: "m3/s"},
				Arg{Name: "low", Unit: "m3/s"}, Arg{Name: "high", Unit: "m3/s"})
		case i > 0 && !(p.FlowM3PerS > c.Points[i-1].FlowM3PerS):
			v.fault(at+".flow_m3_per_s", "falls", Arg{Name: "before", Value: c.Points[i-1].FlowM3PerS, Unit: "m3/s"})
		case i > 0 && !(p.HeadM < c.Points[i-1].HeadM):
			v.fault(at+".head_m", "rises", Arg{Name: "before", Value: c.Points[i-1].HeadM, Unit: "m"})
		}
	}
}
