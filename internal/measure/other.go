package measure

import "strings"

// ParseSlope reads a slope as n of 1:n: "1 in 5", "1:5", "1/5", "20 %", "5".
func ParseSlope(text string) (runPerRiseRatio float64, fault Fault) {
	t := plain(text)
	if t == "" {
		return 0, Empty
	}
	if head, ok := strings.CutSuffix(t, "%"); ok {
		x, fault := number(head)
		if fault == OK && x == 0 {
			return 0, NotANumber
		}
		return tidy(100 / x), fault
	}
	for _, by := range []string{":", " in ", " en ", " to ", "/"} {
		if a, b, ok := strings.Cut(t, by); ok {
			rise, f1 := number(a)
			run, f2 := number(b)
			if f1 != OK || f2 != OK || rise == 0 {
				return 0, NotANumber
			}
			return tidy(run / rise), OK
		}
	}
	factor, t := sign(t)
	x, fault := number(t)
	return factor * x, fault
}

// ParseMonth reads a month: Mar, March, 3, 03.
func ParseMonth(text string) (month int, fault Fault) {
	t := strings.TrimSuffix(plain(text), ".")
	if t == "" {
		return 0, Empty
	}
	if n, ok := whole(t); ok && n >= 1 && n <= 12 {
		return n, OK
	}
	for m := 1; m <= 12; m++ {
		name := strings.ToLower(MonthName(m))
		if len(t) >= 3 && strings.HasPrefix(name, t) || t == "sept" && m == 9 {
			return m, OK
		}
	}
	return 0, NotANumber
}

// MonthName is the English name of a month from 1 to 12, "" for any other.
func MonthName(month int) string {
	names := [...]string{"", "January", "February", "March", "April", "May", "June", "July",
		"August", "September", "October", "November", "December"}
	if month < 1 || month > 12 {
		return ""
	}
	return names[month]
}

// ParseFlow reads a flow in m³/s: 9,000 gal/h, 150 gpm, 34 m³/h, 570 L/min.
// A bare number is gallons an hour or m³/h by the system.
func ParseFlow(text string, in System) (flowM3PerS float64, fault Fault) {
	x, unit, fault := quantity(text)
	if fault != OK {
		return 0, fault
	}
	per := 0.0
	switch strings.ReplaceAll(strings.ReplaceAll(unit, " per ", "/"), " ", "") {
	case "":
		per = m3PerGallon / sPerHour
		if in == Metric {
			per = 1.0 / sPerHour
		}
	case "gal/h", "gph", "gal/hr", "gal/hour", "gallons/hour", "gallonsanhour":
		per = m3PerGallon / sPerHour
	case "gal/min", "gpm", "gallons/minute", "gal/minute", "gallonsaminute":
		per = m3PerGallon / sPerMinute
	case "m3/h", "m3/hr", "m3/hour", "cubicmetres/hour":
		per = 1.0 / sPerHour
	case "m3/s":
		per = 1
	case "l/s":
		per = 0.001
	case "l/min", "lpm", "litres/minute", "liters/minute":
		per = 0.001 / sPerMinute
	case "l/h":
		per = 0.001 / sPerHour
	default:
		return 0, UnknownUnit
	}
	return x * per, OK
}

// ParseArea reads an area in m²: 158 sq ft, 14.7 m². A bare number is square
// feet or square metres by the system.
func ParseArea(text string, in System) (areaM2 float64, fault Fault) {
	x, unit, fault := quantity(text)
	if fault != OK {
		return 0, fault
	}
	switch strings.ReplaceAll(unit, ".", "") {
	case "":
		if in == Metric {
			return x, OK
		}
		return tidy(x * m2PerSqFoot), OK
	case "sq ft", "sqft", "ft2", "square feet", "square foot", "sf", "sq feet", "ft^2", "pies2", "pies cuadrados", "pie cuadrado":
		return tidy(x * m2PerSqFoot), OK
	case "m2", "sq m", "sqm", "square metres", "square meters", "square metre", "square meter", "m^2", "metros cuadrados", "metro cuadrado":
		return x, OK
	}
	return 0, UnknownUnit
}

// quantity reads one number and the words after it.
func quantity(text string) (x float64, unit string, fault Fault) {
	t := plain(text)
	if t == "" {
		return 0, "", Empty
	}
	factor, t := sign(t)
	num, unit := cut(t, "0123456789., /")
	num = strings.TrimRight(num, " /,")
	if num == "" {
		return 0, "", NotANumber
	}
	x, fault = number(num)
	return factor * x, strings.TrimSpace(unit), sideBySide(num, fault)
}
