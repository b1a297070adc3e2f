package measure_test

import (
	"testing"

	"tarnwright/internal/measure"
)

func TestParse_HoursAndEnergyAsPeopleWriteThem(t *testing.T) {
	t.Parallel()
	for _, r := range []struct {
		text  string
		read  func(string) (float64, measure.Fault)
		want  float64
		fault measure.Fault
	}{
		{"8", measure.ParseHours, 8, measure.OK}, {" 7.5 hours ", measure.ParseHours, 7.5, measure.OK}, {"6 horas", measure.ParseHours, 6, measure.OK},
		{"6 kWh", measure.ParseHours, 0, measure.UnknownUnit}, {"", measure.ParseHours, 0, measure.Empty}, {"soon", measure.ParseHours, 0, measure.NotANumber},
		{"900", measure.ParseEnergy, 900, measure.OK}, {"1200 kWh", measure.ParseEnergy, 1200, measure.OK}, {"1,200 kWh", measure.ParseEnergy, 0, measure.Ambiguous}, {"900 h", measure.ParseEnergy, 0, measure.UnknownUnit},
	} {
		if got, fault := r.read(r.text); got != r.want || fault != r.fault {
			t.Errorf("%q: %v and %q, want %v and %q", r.text, got, fault, r.want, r.fault)
		}
	}
}
