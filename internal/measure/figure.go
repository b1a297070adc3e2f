package measure

import (
	"math"
	"strconv"
	"strings"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
)

// Quantity shows a value in a unit of the sheet the way people most often
// read that unit; a reading that wants another form, such as a head in
// decimal feet, calls that form by name.
func (t Terms) Quantity(value float64, unit sheet.Unit) Shown {
	if f, ok := t.inUnits(unit); ok {
		return f(value)
	}
	switch unit {
	case sheet.Hour:
		return Hours(value)
	case sheet.HourPerYear:
		return Shown{Round(value, 0), "h a year"}
	case sheet.Day:
		return counted(value, "day", "days")
	case sheet.Month:
		return counted(value, "month", "months")
	case sheet.Year:
		return counted(value, "year", "years")
	case sheet.Watt:
		return Power(value)
	case sheet.KilowattHour:
		return Energy(value)
	case sheet.Ratio:
		return Shown{Round(value, 2), ""}
	case sheet.Count:
		return Shown{Round(value, 0), ""}
	case sheet.Degree:
		return Shown{Round(value, 0) + "°", ""}
	case sheet.RevPerMin:
		return Shown{Round(value, 0), "rpm"}
	}
	return Shown{Round(value, 3), string(unit)}
}

// inUnits is how a unit with two systems is shown.
func (t Terms) inUnits(unit sheet.Unit) (func(float64) Shown, bool) {
	switch unit {
	case sheet.Metre:
		return t.Length, true
	case sheet.SquareMetre:
		return t.Area, true
	case sheet.CubicMetre:
		return t.Volume, true
	case sheet.CubicMPerS:
		return t.Flow, true
	case sheet.MetrePerS:
		return t.Velocity, true
	case sheet.Millimetre:
		return func(mm float64) Shown { return t.Small(mm * mPerMm) }, true
	case sheet.MillimetrePer:
		return func(mm float64) Shown { s := t.Small(mm * mPerMm); s.Unit += nbsp + "a" + nbsp + "day"; return s }, true
	case sheet.Kilogram:
		return t.Mass, true
	case sheet.Tonne:
		return func(tonnes float64) Shown { return t.Mass(tonnes * 1000) }, true
	case sheet.DegC:
		return t.Temperature, true
	case sheet.Pascal:
		return t.pressure, true
	case sheet.MetrePerH:
		return t.loading, true
	}
	return nil, false
}

func (t Terms) pressure(pressurePa float64) Shown {
	if t.System == Metric {
		return Shown{Round(pressurePa/1000, 1), "kPa"}
	}
	return Shown{Round(pressurePa/paPerPSI, 1), "psi"}
}

// loading is a flow on an area, m/h: gallons a minute on a square foot.
func (t Terms) loading(loadingMPerH float64) Shown {
	if t.System == Metric {
		return Shown{Round(loadingMPerH, 2), "m/h"}
	}
	const gpmPerSqFt = m2PerSqFoot / m3PerGallon / (sPerHour / sPerMinute)
	return Shown{Round(loadingMPerH*gpmPerSqFt, 2), "gal/min a sq" + nbsp + "ft"}
}

func counted(n float64, one, many string) Shown {
	text := Round(n, 0)
	if text == "1" {
		return Shown{text, one}
	}
	return Shown{text, many}
}

// Figure shows a figure of the sheet.
func (t Terms) Figure(f sheet.Figure) Shown {
	switch f.Unit {
	case sheet.Money:
		return t.Money(f.Amount)
	case sheet.MoneyPerKWh:
		return t.Electricity(f.Amount.String())
	case sheet.MoneyPerM3:
		return t.Water(f.Amount.String())
	}
	return t.Quantity(f.Value, f.Unit)
}

// Plain writes a figure for the calc sheet: SI, at its own step, thousands
// parted by a thin blank so that a comma never stands for a point.
func Plain(f sheet.Figure) Shown {
	switch f.Unit {
	case sheet.Money, sheet.MoneyPerKWh, sheet.MoneyPerM3:
		return Shown{amountText(f.Amount), string(f.Unit)}
	}
	if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
		return None(string(f.Unit))
	}
	return Shown{spacedOut(strconv.FormatFloat(f.Value, 'f', decimals(f.Step), 64)), string(f.Unit)}
}

// amountText keeps an amount to the cent unless it is finer.
func amountText(a money.Amount) string {
	if text := a.String(); text != a.ToCent().String() {
		return text
	}
	return a.Fixed(2)
}

// decimals is how many a step needs: 0.001 three, 10 none; a step of nought
// shows six.
func decimals(step float64) int {
	if step <= 0 {
		return 6
	}
	for n := 0; n < 12; n++ {
		if scaled := step * math.Pow10(n); math.Abs(scaled-math.Round(scaled)) < 1e-6*scaled && scaled > 0.5 {
			return n
		}
	}
	return 12
}

// spacedOut parts the thousands of the whole part with blanks.
func spacedOut(t string) string {
	head, tail, dotted := strings.Cut(group(t), ".")
	head = strings.ReplaceAll(strings.ReplaceAll(head, "-,", "-"), ",", " ")
	if dotted {
		return head + "." + tail
	}
	return head
}
