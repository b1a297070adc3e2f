package measure_test

import (
	"testing"

	"tarnwright/internal/measure"
)

func TestParseSmall_TakesABareNumberAsInchesOrMillimetres(t *testing.T) {
	t.Parallel()
	for _, r := range []struct {
		text string
		in   measure.System
		want float64
	}{{"1 1/4", measure.US, 0.03175}, {"1.25 in", measure.Metric, 0.03175}, {"32", measure.Metric, 0.032}, {"3.2 cm", measure.US, 0.032}, {"0.1 ft", measure.US, 0.03048}} {
		if got, fault := measure.ParseSmall(r.text, r.in); fault != measure.OK || got != r.want {
			t.Errorf("%q in %s: %v and %q, want %v", r.text, r.in, got, fault, r.want)
		}
	}
	if _, fault := measure.ParseSmall("thin", measure.US); fault == measure.OK {
		t.Error("a word was read")
	}
}

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
