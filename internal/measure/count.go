package measure

import "strings"

// ParseHours reads hours: 8, 8 h, 7.5 hours.
func ParseHours(text string) (hours float64, fault Fault) {
	return amountWith(text, "h", "hr", "hrs", "hour", "hours", "hora", "horas")
}

// ParseEnergy reads an energy in kilowatt-hours: 900, 900 kWh.
func ParseEnergy(text string) (energyKWh float64, fault Fault) {
	return amountWith(text, "kwh", "kw h", "kilowatt-hours", "kilowatt hours", "unit", "units")
}

// ParseSmall reads a thickness in m. A bare number is inches or millimetres by
// the system: 1 1/4, 32 mm.
func ParseSmall(text string, in System) (lengthM float64, fault Fault) {
	if t := plain(text); t != "" && strings.Trim(t, "0123456789.,/ ") == "" {
		unit := " in"
		if in == Metric {
			unit = " mm"
		}
		text = t + unit
	}
	return ParseLength(text, in)
}

// amountWith reads a number that may have one of some units behind it.
func amountWith(text string, units ...string) (x float64, fault Fault) {
	x, unit, fault := quantity(text)
	if fault != OK || unit == "" {
		return x, fault
	}
	for _, u := range units {
		if strings.TrimSuffix(unit, ".") == u {
			return x, OK
		}
	}
	return 0, UnknownUnit
}
