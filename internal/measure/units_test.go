package measure

import (
	"math"
	"testing"
)

// Each factor is worked out a second way, from other exact definitions. The
// definitions are from memory; each pair agrees with the other only if both
// are right.
func TestFactors_AgreeWithASecondRoute(t *testing.T) {
	t.Parallel()
	const in = 0.0254
	for _, c := range []struct {
		why       string
		got, want float64
	}{
		{"a foot is 12 inches of 25.4 mm", mPerFoot, 12 * in},
		{"a yard is 36 inches", mPerYard, 36 * in},
		{"a square foot is 144 square inches", m2PerSqFoot, 144 * in * in},
		{"a US gallon is 231 cubic inches", m3PerGallon, 231 * in * in * in},
		{"a cubic foot is 1,728 cubic inches", m3PerCubicFt, 1728 * in * in * in},
		{"a cubic foot is 7.48051948 gallons (1728/231)", m3PerCubicFt, m3PerGallon * 1728 / 231},
		{"a cubic yard is 27 cubic feet", m3PerCubicYd, 27 * m3PerCubicFt},
		{"a pound is 7,000 grains of 64.79891 mg", kgPerPound, 7000 * 64.79891e-6},
		{"a US ton is 2,000 pounds", kgPerUSTon, 2000 * kgPerPound},
		{"a psi is a pound under standard gravity on a square inch", paPerPSI, kgPerPound * 9.80665 / (in * in)},
		{"18 digits of gallons in a cubic metre", 264.172052358148415, 1 / m3PerGallon},
		{"hundreds of cubic feet in a cubic metre", 0.353146667214885903, 0.01 / m3PerCubicFt},
	} {
		if math.Abs(c.got/c.want-1) > 1e-14 {
			t.Errorf("%s: got %.17g, want %.17g", c.why, c.got, c.want)
		}
	}
}

// NIST Special Publication 811 (2008), appendix B, from memory, as printed.
func TestFactors_AgreeWithThePrintedTable(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why              string
		got, want, digit float64
	}{
		{"gallon (US), 3.785 412 E-03 m³", m3PerGallon, 3.785412e-3, 1e-9},
		{"gallon per minute, 6.309 020 E-05 m³/s", m3PerGallon / sPerMinute, 6.309020e-5, 1e-11},
		{"psi, 6.894 757 E+03 Pa", paPerPSI, 6.894757e3, 1e-3},
		{"cubic yard, 7.645 549 E-01 m³", m3PerCubicYd, 7.645549e-1, 1e-7},
		{"pound, 4.535 924 E-01 kg", kgPerPound, 4.535924e-1, 1e-7},
		{"ton, short, 9.071 847 E+02 kg", kgPerUSTon, 9.071847e2, 1e-4},
	} {
		if math.Abs(c.got-c.want) > c.digit/2*1.0001 {
			t.Errorf("%s: got %.10g", c.why, c.got)
		}
	}
}

func TestParseWater_AndItsShownPriceComeBack(t *testing.T) {
	t.Parallel()
	for _, sys := range Systems() {
		terms := Terms{System: sys, Currency: "USD"}
		for _, text := range []string{"6.20", "0.01", "123.45", "5", "7.3"} {
			per, fault := ParseWater(text, sys)
			if fault != OK {
				t.Fatalf("%q: %s", text, fault)
			}
			again, fault := ParseWater(terms.Water(per).String(), sys)
			if fault != OK || again != per {
				t.Errorf("%s %s: %s per m³ is shown as %s and read as %s", sys, text, per, terms.Water(per), again)
			}
		}
	}
}
