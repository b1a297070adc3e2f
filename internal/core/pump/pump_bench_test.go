package pump_test

import (
	"strconv"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/pump"
)

// A cold duty point: one pump, suction and discharge, exact Colebrook–White.
// Water, lines and curve are made ready outside, as in an engine whose project
// is kept; Ready includes making them. It reports the flow.
func BenchmarkDuty_Cold(b *testing.B) {
	m, err := pump.NewMachine(three())
	if err != nil {
		b.Fatal(err)
	}
	s := loop()
	var d pump.Duty
	for b.Loop() {
		if d = m.Duty(s, 1); d.State != hydraulics.Flowing {
			b.Fatal(d.State)
		}
	}
	b.ReportMetric(d.FlowM3PerS*3600e6, "mL/h")
}

// three is a pump whose head goes through three points.
func three() pump.Model {
	m := parabola(26.25, 0.0026, 500)
	m.Curve.Points = []hydraulics.CurvePoint{{HeadM: 8}, {FlowM3PerS: 15.0 / 3600, HeadM: 6}, {FlowM3PerS: 27.0 / 3600, HeadM: 2}}
	return m
}

func loop() pump.System {
	return pump.System{Count: 1, StaticM: 1.5, DensityKgPerM3: 998.2,
		Suction:   hydraulics.NewResistance(design.Line{LengthM: 3, InsideDiameterM: 0.0779272, RoughnessM: 1.5e-6}, 2.5, 1.02193344e-6),
		Discharge: hydraulics.NewResistance(design.Line{LengthM: 12, InsideDiameterM: 0.0525018, RoughnessM: 1.5e-6}, 6, 1.02193344e-6)}
}

func BenchmarkDuty_Ready(b *testing.B) {
	model := three()
	for b.Loop() {
		m, err := pump.NewMachine(model)
		if err != nil {
			b.Fatal(err)
		}
		if d := m.Duty(loop(), 1); d.State != hydraulics.Flowing {
			b.Fatal(d.State)
		}
	}
}

// Every pump, three counts, six sizes of pipe.
func BenchmarkChoose(b *testing.B) {
	for _, n := range []int{40, 400} {
		q := question(b, n)
		b.Run(strconv.Itoa(n)+"_pumps", func(b *testing.B) {
			for b.Loop() {
				if c := pump.Choose(q); len(c.Fit) == 0 {
					b.Fatal("nothing is fit")
				}
			}
		})
	}
}
