package measure

import (
	"strings"

	"tarnwright/internal/core/money"
)

// ParseElectricity reads a price of electricity as decimal text per kWh:
// "$0.16", "16 c", "0.16/kWh".
func ParseElectricity(text string) (perKWh string, fault Fault) {
	amount, per, fault := price(text)
	if fault != OK {
		return "", fault
	}
	switch per {
	case "", "kwh", "kw h", "kw-h", "kwhr", "kilowatt hour", "kilowatt-hour", "kilowatthour", "unit":
		return amount, OK
	case "mwh":
		return scaled(amount, "0.001")
	}
	return "", UnknownUnit
}

// cubicMetresToGallons is 1 / 0.003785411784 to eighteen digits: US gallons
// in a cubic metre.
const cubicMetresToGallons = "264.172052358148415"

// ParseWater reads a price of water as decimal text per cubic metre: "$6.20",
// "6.20 per 1,000 gal", "1.64/m³". A bare amount is for 1,000 gallons or for
// a cubic metre, by the system.
func ParseWater(text string, in System) (perM3 string, fault Fault) {
	amount, per, fault := price(text)
	if fault != OK {
		return "", fault
	}
	switch per {
	case "":
		if in == Metric {
			return amount, OK
		}
		return scaled(amount, "0.264172052358148415")
	case "1000 gal", "1,000 gal", "kgal", "1 000 gal", "1000gal", "thousand gal", "1k gal":
		return scaled(amount, "0.264172052358148415")
	case "gal", "1 gal":
		return scaled(amount, cubicMetresToGallons)
	case "m3", "1 m3", "cubic m", "cu m", "kl", "1000 l":
		return amount, OK
	case "l":
		return scaled(amount, "1000")
	case "ccf", "hcf", "100 cu ft", "100 ft3":
		return scaled(amount, "0.353146667214885903")
	}
	return "", UnknownUnit
}

// scaled multiplies decimal texts and keeps ten decimals, far below a cent of
// any bill.
func scaled(amount, by string) (string, Fault) {
	p, err1 := money.ParsePrice(amount)
	q, err2 := money.ParseQuantity(by)
	if err1 != nil || err2 != nil {
		return "", NotANumber
	}
	return shortest(p.Scale(q).Amount().Fixed(10)), OK
}

// shortest drops zeros behind the decimal point.
func shortest(t string) string {
	if !strings.Contains(t, ".") {
		return t
	}
	return strings.TrimSuffix(strings.TrimRight(t, "0"), ".")
}

// price cuts a price into decimal text of the main unit of money and what it
// is for.
func price(text string) (amount, per string, fault Fault) {
	t := plain(text)
	if t == "" {
		return "", "", Empty
	}
	head, per := split(t)
	head, cents, fault := coins(head)
	if fault != OK {
		return "", "", fault
	}
	if strings.HasPrefix(head, "-") {
		return "", "", NotANumber
	}
	amount, fault = decimalText(head)
	if fault != OK {
		return "", "", fault
	}
	if cents {
		if amount, fault = scaled(amount, "0.01"); fault != OK {
			return "", "", fault
		}
	}
	if _, err := money.ParsePrice(amount); err != nil {
		return "", "", NotANumber
	}
	return shortest(amount), denominator(per), OK
}

// split parts "0.16/kwh" and "0.16 per kwh".
func split(t string) (head, per string) {
	for _, by := range []string{"/", " per ", " for ", " a ", " each "} {
		if a, b, ok := strings.Cut(t, by); ok {
			return strings.TrimSpace(a), strings.TrimSpace(b)
		}
	}
	// "0.16 kwh": the unit right after the amount.
	num, rest := cut(strings.TrimLeft(t, "$€£ "), "0123456789., ")
	if denominator(rest) == "kwh" {
		return strings.TrimSpace(num), rest
	}
	return t, ""
}

// coins takes the sign of the money away and tells whether it was cents.
func coins(t string) (rest string, cents bool, fault Fault) {
	t = strings.TrimSpace(t)
	for _, s := range []string{"us$", "ca$", "nz$", "a$", "$", "€", "£", "usd", "cad", "aud", "nzd", "eur", "gbp"} {
		if r, ok := strings.CutPrefix(t, s); ok {
			t = strings.TrimSpace(r)
			break
		}
	}
	num, word := cut(t, "0123456789., -")
	switch strings.TrimSuffix(strings.TrimSpace(word), ".") {
	case "":
		return strings.TrimSpace(num), false, OK
	case "$", "€", "£", "usd", "cad", "aud", "nzd", "eur", "gbp", "dollar", "dollars", "euro", "euros", "pound", "pounds":
		return strings.TrimSpace(num), false, OK
	case "c", "¢", "ct", "cts", "cent", "cents", "p", "pence":
		return strings.TrimSpace(num), true, OK
	}
	if strings.TrimSpace(num) == "" {
		return "", false, NotANumber
	}
	return "", false, UnknownUnit
}

// denominator brings the words for a unit to one spelling.
func denominator(t string) string {
	t = strings.TrimSuffix(strings.TrimSpace(t), ".")
	for _, w := range []string{"us gallons", "us gallon", "gallons", "gallon", "us gal", "gals"} {
		if strings.HasSuffix(t, w) {
			return strings.TrimSpace(strings.TrimSuffix(t, w) + "gal")
		}
	}
	for _, w := range []string{"cubic metres", "cubic metre", "cubic meters", "cubic meter", "m^3", "cbm"} {
		if strings.HasSuffix(t, w) {
			return strings.TrimSpace(strings.TrimSuffix(t, w) + "m3")
		}
	}
	for _, w := range []string{"litres", "litre", "liters", "liter"} {
		if strings.HasSuffix(t, w) {
			return strings.TrimSpace(strings.TrimSuffix(t, w) + "l")
		}
	}
	return t
}
