package measure

import "strings"

// ParseLength reads a length in metres: "12 ft 6 in", 12' 6", 12-6, 6½ ft,
// 3.8 m, 380 cm. A bare number is feet or metres by the system.
func ParseLength(text string, in System) (lengthM float64, fault Fault) {
	t := plain(text)
	if t == "" {
		return 0, Empty
	}
	factor, t := sign(t)
	parts, fault := parts(t)
	if fault != OK {
		return 0, fault
	}
	switch len(parts) {
	case 1:
		lengthM, fault = alone(parts[0], in)
	case 2:
		lengthM, fault = pair(parts[0], parts[1], in)
	default:
		fault = MixedUnits
	}
	if fault != OK {
		return 0, fault
	}
	return tidy(factor * lengthM), OK
}

// part is a number and the unit after it, "" when there is none.
type part struct {
	text string
	x    float64
	unit string
	dash bool // a dash stands before it
}

func (p part) isFraction() bool {
	return strings.Contains(p.text, "/") && !strings.Contains(p.text, " ")
}
func (p part) isWhole() bool { _, ok := whole(p.text); return ok }

// parts cuts "12 ft 6 1/2 in" into numbers with their units.
func parts(t string) ([]part, Fault) {
	if t == "" {
		return nil, NotANumber
	}
	var found []part
	for t != "" {
		p := part{}
		if strings.HasPrefix(t, "-") && len(found) > 0 {
			p.dash, t = true, strings.TrimSpace(t[1:])
		}
		num, rest := cut(t, "0123456789., /")
		p.text = strings.TrimSuffix(strings.TrimSpace(num), ",")
		switch {
		case p.text == "" && len(found) > 0 && !p.dash:
			return nil, UnknownUnit // 34 sq ft
		case p.text == "":
			return nil, NotANumber
		}
		var fault Fault
		if p.x, fault = number(p.text); fault != OK {
			return nil, sideBySide(p.text, fault)
		}
		p.unit, t = unitWord(rest)
		found = append(found, p)
	}
	return found, OK
}

// cut splits t after its leading characters of set.
func cut(t, set string) (head, tail string) {
	for i, r := range t {
		if !strings.ContainsRune(set, r) {
			return t[:i], t[i:]
		}
	}
	return t, ""
}

// unitWord takes the unit at the start of t and what joins it to the next
// number: a blank, a comma, "and".
func unitWord(t string) (unit, rest string) {
	if strings.HasPrefix(t, "'") || strings.HasPrefix(t, `"`) {
		unit, rest = t[:1], t[1:]
	} else {
		n := strings.IndexAny(t, "0123456789 -,")
		if n < 0 {
			n = len(t)
		}
		unit, rest = strings.TrimSuffix(t[:n], "."), t[n:]
	}
	if unit == "" {
		return "", strings.TrimSpace(rest)
	}
	rest = strings.TrimLeft(rest, " ,")
	return unit, strings.TrimPrefix(rest, "and ")
}

// sideBySide says that two whole numbers with only a blank between could mean
// two things.
func sideBySide(num string, fault Fault) Fault {
	f := strings.Fields(num)
	if fault != NotANumber || len(f) != 2 {
		return fault
	}
	_, a := whole(f[0])
	_, b := whole(f[1])
	if a && b {
		return Ambiguous
	}
	return fault
}

// lengthUnit is the factor of a unit of length, 0 when it is none.
func lengthUnit(unit string) float64 {
	switch unit {
	case "ft", "feet", "foot", "'", "pie", "pies":
		return mPerFoot
	case "in", "ins", "inch", "inches", `"`, "pulg", "pulgada", "pulgadas":
		return mPerInch
	case "yd", "yds", "yard", "yards", "yarda", "yardas":
		return mPerYard
	case "m", "mtr", "meter", "meters", "metre", "metres", "metro", "metros":
		return 1
	case "cm", "centimeter", "centimeters", "centimetre", "centimetres", "centímetro", "centímetros", "centimetro", "centimetros":
		return 0.01
	case "mm", "millimeter", "millimeters", "millimetre", "millimetres", "milímetro", "milímetros", "milimetro", "milimetros":
		return mPerMm
	}
	return 0
}

func bareLength(in System) float64 {
	if in == Metric {
		return 1
	}
	return mPerFoot
}

func alone(p part, in System) (float64, Fault) {
	if p.unit == "" {
		return p.x * bareLength(in), OK
	}
	f := lengthUnit(p.unit)
	if f == 0 {
		return 0, UnknownUnit
	}
	return p.x * f, OK
}

// pair joins a whole number of a big unit with some of the small one. What
// could be read in two ways is not guessed at.
func pair(a, b part, in System) (float64, Fault) {
	fa, fb := lengthUnit(a.unit), lengthUnit(b.unit)
	if (a.unit != "" && fa == 0) || (b.unit != "" && fb == 0) {
		return 0, UnknownUnit
	}
	switch {
	case a.unit == "" && b.dash && b.isFraction() && fb == mPerFoot && a.isWhole():
		return (a.x + b.x) * mPerFoot, OK // 6-1/2 ft
	case a.unit == "" && (!b.dash || b.isFraction() || in == Metric):
		return 0, Ambiguous
	case b.isFraction() && b.unit == "":
		return 0, Ambiguous
	case a.unit == "":
		fa = mPerFoot // 12-6
	}
	switch {
	case fa == mPerFoot && (fb == mPerInch || b.unit == ""):
		return big(a, b, inchesPerFt, mPerInch)
	case fa == 1 && fb == 0.01:
		return big(a, b, 100, 0.01)
	case fa == 1 && fb == mPerMm:
		return big(a, b, 1000, mPerMm)
	case fa == 1 && b.unit == "":
		return 0, Ambiguous
	}
	return 0, MixedUnits
}

// big is a whole number of a big unit and fewer small ones than make one more.
func big(a, b part, perBig int, smallM float64) (float64, Fault) {
	n, ok := whole(a.text)
	if !ok || b.x >= float64(perBig) {
		return 0, Ambiguous
	}
	return (float64(n*perBig) + b.x) * smallM, OK
}
