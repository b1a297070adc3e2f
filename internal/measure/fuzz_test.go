package measure_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/measure"
)

// Whatever is typed, each reader gives a number that can be reckoned with, or
// says what is wrong.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{"1:5", "20 %", "9,000 gal/h", "34 m³/h", "158 sq ft", "$6.20 per 1,000 gal", "16 c", "1e400", "-0", "７", "March", "03", "8 hours", "", "½", "∞", "0x1p-3", "1_000", "NaN"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, in := range []measure.System{measure.US, measure.Metric} {
			numbers := map[string]func() (float64, measure.Fault){
				"slope":  func() (float64, measure.Fault) { return measure.ParseSlope(text) },
				"flow":   func() (float64, measure.Fault) { return measure.ParseFlow(text, in) },
				"area":   func() (float64, measure.Fault) { return measure.ParseArea(text, in) },
				"length": func() (float64, measure.Fault) { return measure.ParseLength(text, in) },
				"small":  func() (float64, measure.Fault) { return measure.ParseSmall(text, in) },
				"hours":  func() (float64, measure.Fault) { return measure.ParseHours(text) },
				"energy": func() (float64, measure.Fault) { return measure.ParseEnergy(text) },
			}
			for name, read := range numbers {
				if x, fault := read(); fault == measure.OK && (math.IsNaN(x) || math.IsInf(x, 0)) {
					t.Errorf("%q as %s is %g", text, name, x)
				}
			}
			prices := map[string]func() (string, measure.Fault){
				"electricity": func() (string, measure.Fault) { return measure.ParseElectricity(text) },
				"water":       func() (string, measure.Fault) { return measure.ParseWater(text, in) },
			}
			for name, read := range prices {
				if price, fault := read(); fault == measure.OK {
					if _, err := money.ParsePrice(price); err != nil {
						t.Errorf("%q as a price of %s is %q: %v", text, name, price, err)
					}
				}
			}
		}
		if month, fault := measure.ParseMonth(text); fault == measure.OK && (month < 1 || month > 12) {
			t.Errorf("%q is month %d", text, month)
		}
	})
}
