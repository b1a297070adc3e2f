package measure_test

import (
	"math"
	"testing"

	"tarnwright/internal/measure"
)

// A person who reads the page in Spanish writes the units in Spanish.
func TestParse_ReadsUnitsInSpanish(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text string
		in   measure.System
		want float64
		read func(string, measure.System) (float64, measure.Fault)
	}{
		{"34 pies", measure.US, 10.3632, measure.ParseLength}, {"1 pie", measure.US, 0.3048, measure.ParseLength},
		{"6 pies 6 pulgadas", measure.US, 1.9812, measure.ParseLength}, {"6 pies 6 pulg", measure.Metric, 1.9812, measure.ParseLength},
		{"18 pulg.", measure.US, 0.4572, measure.ParseLength}, {"2 yardas", measure.US, 1.8288, measure.ParseLength},
		{"10,4 metros", measure.US, 10.4, measure.ParseLength}, {"1 metro", measure.US, 1, measure.ParseLength},
		{"45 centímetros", measure.US, 0.45, measure.ParseLength}, {"45 centimetros", measure.US, 0.45, measure.ParseLength},
		{"Pies 6", measure.US, -1, measure.ParseLength}, {"6 pulgadas 6 pies", measure.US, -1, measure.ParseLength},
		{"158 pies cuadrados", measure.Metric, 14.6787, measure.ParseArea}, {"158 pies²", measure.US, 14.6787, measure.ParseArea},
		{"158 ft²", measure.Metric, 14.6787, measure.ParseArea}, {"14,7 metros cuadrados", measure.US, 14.7, measure.ParseArea},
	} {
		got, fault := c.read(c.text, c.in)
		if c.want < 0 {
			if fault == measure.OK {
				t.Errorf("%q is read as %g", c.text, got)
			}
			continue
		}
		if fault != measure.OK || math.Abs(got-c.want) > 1e-4 {
			t.Errorf("%q: %g, %v; want %g", c.text, got, fault, c.want)
		}
	}
}
