// Package measure turns what people write into SI and SI into what people
// read. It is the only package that has heard of feet and gallons; factors
// come from the definitions of the units, so nothing drifts.
package measure

// System is the family of units a person reads and writes.
type System string

// The systems.
const (
	US     System = "us"
	Metric System = "metric"
)

// Systems lists them in the order they are offered.
func Systems() []System { return []System{US, Metric} }

// SystemOf reads a system's name; anything else is US customary, which is
// what the page starts in.
func SystemOf(name string) (System, bool) {
	switch System(name) {
	case US:
		return US, true
	case Metric:
		return Metric, true
	}
	return US, false
}

// Terms is how one reader wants figures: the system, and the currency of the
// builder's book as its ISO code.
type Terms struct {
	System   System
	Currency string
}

// Definitions. The foot and the inch are exact by the international yard and
// pound agreement of 1959; the US gallon is exactly 231 cubic inches; the
// pound is exactly 0.45359237 kg.
const (
	mPerInch     = 0.0254
	mPerFoot     = 0.3048
	mPerYard     = 0.9144
	m2PerSqFoot  = 0.09290304
	m3PerGallon  = 0.003785411784
	m3PerCubicFt = 0.028316846592
	m3PerCubicYd = 0.764554857984
	kgPerPound   = 0.45359237
	kgPerUSTon   = 907.18474
	paPerPSI     = 6894.757293168361
	inchesPerFt  = 12
	sPerMinute   = 60
	sPerHour     = 3600
	mPerMm       = 0.001
)

// Fault says why a text cannot be read. The zero value is no fault.
type Fault string

// The faults.
const (
	OK Fault = ""
	// Empty is nothing at all.
	Empty Fault = "empty"
	// NotANumber has no number where one belongs.
	NotANumber Fault = "not_a_number"
	// Ambiguous can be read in two ways, such as 1,234.
	Ambiguous Fault = "ambiguous"
	// UnknownUnit has a word after the number that is not a unit of it.
	UnknownUnit Fault = "unknown_unit"
	// MixedUnits joins units that do not belong together, such as 3 m 6 in.
	MixedUnits Fault = "mixed_units"
)

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"

// minus is the sign a person reads.
const minus = "\u2212"

// Symbol is what stands before an amount in a currency.
func Symbol(currency string) string {
	switch currency {
	case "", "USD":
		return "$"
	case "CAD":
		return "CA$"
	case "AUD":
		return "A$"
	case "NZD":
		return "NZ$"
	case "GBP":
		return "£"
	case "EUR":
		return "€"
	}
	return currency + nbsp
}
