package hydraulics_test

import (
	"fmt"
	"strconv"
	"testing"

	"tarnwright/internal/core/hydraulics"
)

// One loop by the solver of any network, with the engine's friction law and
// constants, from check to answer. It reports the flow, which must be the
// engine's.
func BenchmarkNetwork_OneLoop(b *testing.B) {
	n := hydraulics.Network{Settings: engineSettings(),
		Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "a"}, {ID: "b"}, {ID: "lip", Surface: true, HeadM: 1.5}},
		Pipes: []hydraulics.Pipe{
			{ID: "suction", From: "pond", To: "a", LengthM: 3, InsideDiameterM: 0.0779272, RoughnessM: 1.5e-6, LossCoef: 2.5},
			{ID: "discharge", From: "b", To: "lip", LengthM: 12, InsideDiameterM: 0.0525018, RoughnessM: 1.5e-6, LossCoef: 6},
		},
		Pumps: []hydraulics.Pump{{ID: "pump", From: "a", To: "b", SpeedRatio: 1, Curve: hydraulics.HeadCurve{Form: hydraulics.Power,
			Points: []hydraulics.CurvePoint{{HeadM: 8}, {FlowM3PerS: 15 / engineM3PerH, HeadM: 6}, {FlowM3PerS: 27 / engineM3PerH, HeadM: 2}}}}}}
	n.Settings.ViscosityM2PerS = 1.02193344e-6
	var s hydraulics.Solution
	var err error
	for b.Loop() {
		if s, err = hydraulics.Solve(n); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(s.PumpedM3PerS*engineM3PerH*1e6, "mL/h")
}

// Growth: 1, 2, 4 and 8 branches.
func BenchmarkNetwork_Branches(b *testing.B) {
	for _, m := range []int{1, 2, 4, 8} {
		n := hydraulics.Network{Settings: hydraulics.Settings{ViscosityM2PerS: 1e-6},
			Nodes: []hydraulics.Node{{ID: "pond", Surface: true}, {ID: "s"}, {ID: "d"}},
			Pipes: []hydraulics.Pipe{pipe("in", "pond", "s", 5, 0.1)},
			Pumps: []hydraulics.Pump{{ID: "u", From: "s", To: "d", SpeedRatio: 1, Curve: curve(6, 0.02)}}}
		for i := range m {
			k := strconv.Itoa(i)
			n.Nodes = append(n.Nodes, hydraulics.Node{ID: "o" + k, Surface: true, HeadM: 0.2 * float64(i)})
			n.Pipes = append(n.Pipes, pipe("b"+k, "d", "o"+k, 10+float64(i), 0.05))
		}
		b.Run(strconv.Itoa(m), func(b *testing.B) {
			for b.Loop() {
				if _, err := hydraulics.Solve(n); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkNetwork_References(b *testing.B) {
	for _, c := range readCases(b) {
		set := hydraulics.Settings{Law: hydraulics.Colebrook}
		if c.Formula == "H-W" {
			set.Law = hydraulics.HazenWilliams
		}
		n := c.network(set, 3600)
		b.Run(fmt.Sprintf("%s_%d_links", c.ID, len(n.Pipes)+len(n.Pumps)), func(b *testing.B) {
			for b.Loop() {
				if _, err := hydraulics.Solve(n); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
