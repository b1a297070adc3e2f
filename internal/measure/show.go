package measure

import (
	"math"
	"strconv"
	"strings"

	"tarnwright/internal/core/sheet"
)

// Shown is a figure as a person reads it, the unit apart so that it can be
// set smaller.
type Shown struct{ Number, Unit string }

// String joins number and unit so that no line breaks between them. Signs
// that belong to the number, such as a dollar sign, are in Number.
func (s Shown) String() string {
	if s.Unit == "" {
		return s.Number
	}
	return s.Number + nbsp + s.Unit
}

// None stands where a figure is not known.
func None(unit string) Shown { return Shown{"–", unit} }

// Round writes x with so many decimals, half away from zero, groups of three
// parted by commas, and a true minus sign.
func Round(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	x = sheet.Quantise(x, math.Pow10(-decimals))
	t := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	if x < 0 {
		return minus + group(t)
	}
	return group(t)
}

// group puts commas between thousands of plain decimal text.
func group(t string) string {
	head, tail, dotted := strings.Cut(t, ".")
	var b strings.Builder
	b.Grow(len(t) + len(head)/3)
	for i := range len(head) {
		if i > 0 && (len(head)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteByte(head[i])
	}
	if dotted {
		b.WriteByte('.')
		b.WriteString(tail)
	}
	return b.String()
}

// nearest writes x to whole steps.
func nearest(x, step float64) string {
	return Round(sheet.Quantise(x, step), 0)
}

// Volume shows water: to 100 gal, or 10 gal below 1,000; to 0.1 m³, or whole
// ones from 1,000.
func (t Terms) Volume(volumeM3 float64) Shown {
	if t.System == Metric {
		if volumeM3 >= 1000 {
			return Shown{Round(volumeM3, 0), "m³"}
		}
		return Shown{Round(volumeM3, 1), "m³"}
	}
	gal := volumeM3 / m3PerGallon
	if math.Abs(gal) < 1000 {
		return Shown{nearest(gal, 10), "gal"}
	}
	return Shown{nearest(gal, 100), "gal"}
}

// VolumeFine shows parts of a volume, to 50 gal, so that the parts of a round
// sum are not rounder than they need be.
func (t Terms) VolumeFine(volumeM3 float64) Shown {
	if t.System == Metric {
		return Shown{Round(volumeM3, 1), "m³"}
	}
	gal := volumeM3 / m3PerGallon
	if math.Abs(gal) < 1000 {
		return Shown{nearest(gal, 10), "gal"}
	}
	return Shown{nearest(gal, 50), "gal"}
}

// Earth shows dug or laid volume, in cubic yards or cubic metres.
func (t Terms) Earth(volumeM3 float64) Shown {
	if t.System == Metric {
		return Shown{Round(volumeM3, 1), "m³"}
	}
	return Shown{Round(volumeM3/m3PerCubicYd, 0), "cu" + nbsp + "yd"}
}

// Length shows a length as feet and whole inches, never decimal feet, or as
// metres to the centimetre.
func (t Terms) Length(lengthM float64) Shown {
	if t.System == Metric {
		return Shown{shortest(Round(lengthM, 2)), "m"}
	}
	inches := int64(math.Round(math.Abs(lengthM) / mPerInch))
	ft, in := inches/inchesPerFt, inches%inchesPerFt
	lead := ""
	if lengthM < 0 && inches > 0 {
		lead = minus
	}
	switch {
	case in == 0:
		return Shown{lead + group(strconv.FormatInt(ft, 10)), "ft"}
	case ft == 0:
		return Shown{lead + strconv.FormatInt(in, 10), "in"}
	}
	return Shown{lead + group(strconv.FormatInt(ft, 10)) + nbsp + "ft" + nbsp + strconv.FormatInt(in, 10), "in"}
}

// Depth shows a depth: 6 ft 6 in, or 1.98 m.
func (t Terms) Depth(depthM float64) Shown {
	if t.System == Metric {
		return Shown{Round(depthM, 2), "m"}
	}
	return t.Length(depthM)
}

// Small shows a thickness or a drop: eighths of an inch, or millimetres.
func (t Terms) Small(lengthM float64) Shown {
	if t.System == Metric {
		return Shown{Round(lengthM/mPerMm, 0), "mm"}
	}
	eighths := int64(math.Round(math.Abs(lengthM) / mPerInch * 8))
	lead := ""
	if lengthM < 0 && eighths > 0 {
		lead = minus
	}
	in, rest := eighths/8, eighths%8
	if rest == 0 {
		return Shown{lead + strconv.FormatInt(in, 10), "in"}
	}
	den := int64(8)
	for rest%2 == 0 {
		rest, den = rest/2, den/2
	}
	frac := strconv.FormatInt(rest, 10) + "/" + strconv.FormatInt(den, 10)
	if in == 0 {
		return Shown{lead + frac, "in"}
	}
	return Shown{lead + strconv.FormatInt(in, 10) + nbsp + frac, "in"}
}

// Bore shows the inside of a pipe: tenths of an inch, or millimetres.
func (t Terms) Bore(diameterM float64) Shown {
	if t.System == Metric {
		return Shown{Round(diameterM/mPerMm, 0), "mm"}
	}
	return Shown{Round(diameterM/mPerInch, 1), "in"}
}

// Head shows a head of water in decimal feet or metres, as pump curves are
// printed.
func (t Terms) Head(headM float64) Shown {
	if t.System == Metric {
		return Shown{Round(headM, 2), "m"}
	}
	return Shown{Round(headM/mPerFoot, 1), "ft"}
}

// fineM2 is below which an area is shown a digit finer: a grate is no pond.
const fineM2 = 0.9

// Area shows a surface: square feet or tenths of a square metre, and a digit
// more of what is as small as a grate.
func (t Terms) Area(areaM2 float64) Shown {
	more := 0
	if areaM2 != 0 && areaM2 < fineM2 {
		more = 1
	}
	if t.System == Metric {
		if areaM2 >= 1000 {
			return Shown{Round(areaM2, 0), "m²"}
		}
		return Shown{Round(areaM2, 1+more), "m²"}
	}
	return Shown{Round(areaM2/m2PerSqFoot, more), "sq" + nbsp + "ft"}
}

// Flow shows a flow by the hour: to 100 gal/h (10 below 1,000), or 0.1 m³/h.
func (t Terms) Flow(flowM3PerS float64) Shown {
	if t.System == Metric {
		return Shown{Round(flowM3PerS*sPerHour, 1), "m³/h"}
	}
	return Shown{t.Volume(flowM3PerS * sPerHour).Number, "gal/h"}
}

// FlowByMinute shows a flow as pumps are rated: gal/min or L/min.
func (t Terms) FlowByMinute(flowM3PerS float64) Shown {
	if t.System == Metric {
		return Shown{Round(flowM3PerS*sPerMinute*1000, 0), "L/min"}
	}
	return Shown{Round(flowM3PerS*sPerMinute/m3PerGallon, 0), "gal/min"}
}

// Velocity shows how fast water moves.
func (t Terms) Velocity(velocityMPerS float64) Shown {
	if t.System == Metric {
		return Shown{Round(velocityMPerS, 2), "m/s"}
	}
	return Shown{Round(velocityMPerS/mPerFoot, 1), "ft/s"}
}

// Hours shows a time to a tenth of an hour, and what is less in minutes.
func Hours(timeH float64) Shown {
	if timeH > 0 && timeH < 0.1 {
		return Shown{Round(math.Ceil(timeH*sPerHour/sPerMinute), 0), "min"}
	}
	return Shown{Round(timeH, 1), "h"}
}

// Power shows watts.
func Power(powerW float64) Shown { return Shown{Round(powerW, 0), "W"} }

// Energy shows whole kilowatt-hours.
func Energy(energyKWh float64) Shown { return Shown{Round(energyKWh, 0), "kWh"} }

// Percent shows a share of one.
func Percent(share float64) Shown { return Shown{Round(share*100, 0) + "%", ""} }

// Mass shows a load: tons or tonnes, pounds or kilograms below one of them.
func (t Terms) Mass(massKg float64) Shown {
	if t.System == Metric {
		if math.Abs(massKg) < 1000 {
			return Shown{Round(massKg, 0), "kg"}
		}
		return Shown{Round(massKg/1000, 1), "t"}
	}
	if math.Abs(massKg) < kgPerUSTon {
		return Shown{nearest(massKg/kgPerPound, 10), "lb"}
	}
	return Shown{Round(massKg/kgPerUSTon, 1), "tons"}
}

// Temperature shows °F or °C.
func (t Terms) Temperature(tempDegC float64) Shown {
	if t.System == Metric {
		return Shown{Round(tempDegC, 0), "°C"}
	}
	return Shown{Round(tempDegC*9/5+32, 0), "°F"}
}

// Slope shows n of 1:n: 1 in 5.
func Slope(runPerRiseRatio float64) Shown {
	return Shown{"1" + nbsp + "in" + nbsp + shortest(Round(runPerRiseRatio, 1)), ""}
}
