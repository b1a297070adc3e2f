package design_test

import (
	"math"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
)

// loop is a pond, a pump and a lip.
func loop() *design.Network {
	return &design.Network{
		Nodes: []design.NetworkNode{{ID: "pond", Surface: true}, {ID: "a"}, {ID: "b"}, {ID: "lip", Surface: true, HeadM: 1}},
		Pipes: []design.NetworkPipe{{ID: "in", From: "pond", To: "a", LengthM: 4, InsideDiameterM: 0.08}, {ID: "out", From: "b", To: "lip", LengthM: 9, InsideDiameterM: 0.08, LossCoef: 4}},
		Pumps: []design.NetworkPump{{ID: "pump", From: "a", To: "b", SpeedRatio: 1, Curve: design.NetworkCurve{
			Points: []design.NetworkCurvePoint{{HeadM: 6}, {FlowM3PerS: 0.004, HeadM: 4}, {FlowM3PerS: 0.008, HeadM: 1}}}}},
	}
}

func TestValidate_EachSlipInANetworkIsNamedAtItsField(t *testing.T) {
	t.Parallel()
	d := sound()
	d.Network = loop()
	if f := design.Validate(d); len(f) != 0 {
		t.Fatalf("faults = %+v, want none", f)
	}
	for _, c := range []struct {
		why, path, code string
		spoil           func(*design.Network)
	}{
		{"a law nobody knows", "network.law", "unknown_choice", func(n *design.Network) { n.Law = "guess" }},
		{"honey", "network.viscosity_m2_per_s", "out_of_range", func(n *design.Network) { n.ViscosityM2PerS = 2e-3 }},
		{"gravity of the moon", "network.friction_gravity_m_per_s2", "out_of_range", func(n *design.Network) { n.FrictionGravityMPerS2 = 1.62 }},
		{"gravity in feet", "network.minor_gravity_m_per_s2", "out_of_range", func(n *design.Network) { n.MinorGravityMPerS2 = 32.2 }},
		{"a joint without a name", "network.nodes[4].id", "empty", func(n *design.Network) { n.Nodes = append(n.Nodes, design.NetworkNode{}) }},
		{"a joint twice", "network.nodes[4].id", "named_twice", func(n *design.Network) { n.Nodes = append(n.Nodes, n.Nodes[1]) }},
		{"a name like a novel", "network.pipes[0].id", "too_long", func(n *design.Network) { n.Pipes[0].ID = strings.Repeat("x", 41) }},
		{"water on the moon", "network.nodes[3].head_m", "out_of_range", func(n *design.Network) { n.Nodes[3].HeadM = 3e8 }},
		{"no open water", "network.nodes", "no_surface", func(n *design.Network) { n.Nodes[0].Surface, n.Nodes[3].Surface = false, false }},
		{"no pipes", "network.pipes", "wrong_count", func(n *design.Network) { n.Pipes = nil }},
		{"a pipe and a pump of one name", "network.pumps[0].id", "named_twice", func(n *design.Network) { n.Pumps[0].ID = "in" }},
		{"a pipe from nowhere", "network.pipes[0].from", "unknown_node", func(n *design.Network) { n.Pipes[0].From = "z" }},
		{"a pipe to nowhere", "network.pipes[1].to", "unknown_node", func(n *design.Network) { n.Pipes[1].To = "" }},
		{"a pump round itself", "network.pumps[0].to", "runs_nowhere", func(n *design.Network) { n.Pumps[0].To = "a" }},
		{"a length below nothing", "network.pipes[0].length_m", "out_of_range", func(n *design.Network) { n.Pipes[0].LengthM = -1 }},
		{"a bore in millimetres", "network.pipes[0].inside_diameter_m", "out_of_range", func(n *design.Network) { n.Pipes[0].InsideDiameterM = 80 }},
		{"a pipe rougher than wide", "network.pipes[0].roughness_m", "out_of_range", func(n *design.Network) { n.Pipes[0].RoughnessM = 0.01 }},
		{"a loss that is no number", "network.pipes[0].loss_coef", "not_a_number", func(n *design.Network) { n.Pipes[0].LossCoef = math.NaN() }},
		{"a pipe of nothing", "network.pipes[0].length_m", "no_loss", func(n *design.Network) { n.Pipes[0].LengthM = 0 }},
		{"fewer than no bends", "network.pipes[0].fittings[0].count", "wrong_count", func(n *design.Network) {
			n.Pipes[0].Fittings = []design.Fitting{{Kind: "elbow_90", Count: -1}}
		}},
		{"no C where the law wants one", "network.pipes[1].c_coef", "out_of_range", func(n *design.Network) { n.Law, n.Pipes[0].CCoef = design.HazenWilliams, 150 }},
		{"a pump that stands", "network.pumps[0].speed_ratio", "out_of_range", func(n *design.Network) { n.Pumps[0].SpeedRatio = 0 }},
		{"a curve of one point", "network.pumps[0].curve.points", "wrong_count", func(n *design.Network) { n.Pumps[0].Curve.Points = n.Pumps[0].Curve.Points[:1] }},
		{"a power curve of two", "network.pumps[0].curve.points", "wrong_count", func(n *design.Network) {
			n.Pumps[0].Curve.Form, n.Pumps[0].Curve.Points = design.PowerCurve, n.Pumps[0].Curve.Points[:2]
		}},
		{"a power curve that begins late", "network.pumps[0].curve.points[0].flow_m3_per_s", "out_of_range", func(n *design.Network) {
			n.Pumps[0].Curve.Form, n.Pumps[0].Curve.Points[0].FlowM3PerS = design.PowerCurve, 0.001
		}},
		{"a curve of no known form", "network.pumps[0].curve.form", "unknown_choice", func(n *design.Network) { n.Pumps[0].Curve.Form = "bent" }},
		{"flow that goes back", "network.pumps[0].curve.points[2].flow_m3_per_s", "falls", func(n *design.Network) { n.Pumps[0].Curve.Points[2].FlowM3PerS = 0.004 }},
		{"head that rises", "network.pumps[0].curve.points[1].head_m", "rises", func(n *design.Network) { n.Pumps[0].Curve.Points[1].HeadM = 7 }},
	} {
		d := sound()
		d.Network = loop()
		c.spoil(d.Network)
		got := design.Validate(d)
		if len(got) != 1 || got[0].Path != c.path || got[0].Code != c.code {
			t.Errorf("%s: faults = %+v, want one %s at %s", c.why, got, c.code, c.path)
		}
	}
}
