package measure_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/measure"
)

// Each row is: system | text | metres, worked out by hand from 1 in = 25.4 mm
// (international yard and pound agreement, 1959), or the fault.
const lengthRows = `
us|34|10.3632
us|34 ft|10.3632
us|34ft|10.3632
us|34 feet|10.3632
us|34 foot|10.3632
us|34'|10.3632
us|34’|10.3632
us|34′|10.3632
us|34 ft.|10.3632
us|34FT|10.3632
us|34 Ft|10.3632
us| 34 |10.3632
us|34.0|10.3632
us|034|10.3632
us|34.|10.3632
us|+34|10.3632
us|34,0|10.3632
us|34,00|10.3632
us|34 ft 0 in|10.3632
us|34' 0"|10.3632
us|34-0|10.3632
us|12.5|3.81
us|12,5|3.81
us|12.50|3.81
us|12,50|3.81
us|12,5 ft|3.81
us|12½|3.81
us|12 ½|3.81
us|12½ ft|3.81
us|12 1/2|3.81
us|12 1/2 ft|3.81
us|12 1⁄2 ft|3.81
us|12½'|3.81
us|12 ft 6 in|3.81
us|12 ft 6|3.81
us|12ft6in|3.81
us|12ft 6in|3.81
us|12 ft. 6 in.|3.81
us|12 ft, 6 in|3.81
us|12 feet 6 inches|3.81
us|12 feet and 6 inches|3.81
us|12 foot 6 inch|3.81
us|12' 6"|3.81
us|12'6"|3.81
us|12' 6''|3.81
us|12’ 6”|3.81
us|12′ 6″|3.81
us|12´ 6´´|3.81
us|12'-6"|3.81
us|12' - 6"|3.81
us|12-6|3.81
us|12 - 6|3.81
us|12–6|3.81
us|12—6|3.81
us|12−6|3.81
us|12-6"|3.81
us|12-6 in|3.81
us|12'6|3.81
us|12' 6|3.81
us|12 ft 6.0 in|3.81
us|150 in|3.81
us|150"|3.81
us|150 inches|3.81
us|3.81 m|3.81
us|3,81 m|3.81
us|3.81m|3.81
us|381 cm|3.81
us|381cm|3.81
us|3810 mm|3.81
us|3 m 81 cm|3.81
us|3m 81cm|3.81
us|3 m 810 mm|3.81
us|1 yd|0.9144
us|2 yards|1.8288
us|1 inch|0.0254
us|½ in|0.0127
us|1/2 in|0.0127
us|1/2"|0.0127
us|3/8 in|0.009525
us|⅜ in|0.009525
us|¼ in|0.00635
us|¾"|0.01905
us|⅛ in|0.003175
us|⅝ in|0.015875
us|⅞ in|0.022225
us|1½ in|0.0381
us|1 1/2"|0.0381
us|6½ ft|1.9812
us|6 1/2 ft|1.9812
us|6½|1.9812
us|6-1/2 ft|1.9812
us|6.5|1.9812
us|6.5 ft|1.9812
us|6,5 ft|1.9812
us|6 ft 6 in|1.9812
us|6 ft 6 in|1.9812
us|6 ft 6 in|1.9812
us|6 ft 6½ in|1.9939
us|6 ft 6 1/2 in|1.9939
us|6' 6½"|1.9939
us|6'-6 1/2"|1.9939
us|6-6½|1.9939
us|6 ft 6.5 in|1.9939
us|6 ft 6,5 in|1.9939
us|6⅓ ft|1.9304
us|6⅔ ft|2.032
us|0.5 ft|0.1524
us|.5 ft|0.1524
us|,5 ft|0.1524
us|0 ft 6 in|0.1524
us|0' 6"|0.1524
us|6 in|0.1524
us|6"|0.1524
us|0|0
us|0 ft|0
us|200|60.96
us|200 ft|60.96
us|1000|304.8
us|1,000.5|304.9524
us|1.000,5|304.9524
us|1,234,567|376296.0216
us|1.234.567|376296.0216
us|1 234 567 ft|376296.0216
us|0,125 ft|0.0381
us|1234,5 ft|376.2756
us|12,3456 ft|3.76293888
us|3.8 m|3.8
us|3,8 m|3.8
us|380 cm|3.8
us|3 m 80 cm|3.8
us|3.8 metres|3.8
us|3.8 meters|3.8
us|3.8 metre|3.8
us|3.8 M|3.8
us|380 centimetres|3.8
us|380 centimeters|3.8
us|3800 millimetres|3.8
us|３４|10.3632
us|３４ ｆｔ|10.3632
us|１２．５|3.81
us|１２′ ６″|3.81
us|34 ft|10.3632
us|34 ft|10.3632
us|34 ft|10.3632
us|34	ft|10.3632
us|-3 ft|-0.9144
us|−3 ft|-0.9144
us|-3|-0.9144
us|- 3 ft|-0.9144
us|-12-6|-3.81
us|-3.5 m|-3.5
metric|3.8|3.8
metric|3,8|3.8
metric|3.80|3.8
metric|3,80|3.8
metric|3.8 m|3.8
metric|3,8 m|3.8
metric|3.8m|3.8
metric|380 cm|3.8
metric|3800 mm|3.8
metric|3 m 80 cm|3.8
metric|0,38|0.38
metric|0.380|0.38
metric|0,380|0.38
metric|.38|0.38
metric|10|10
metric|10 m|10
metric|10.3632|10.3632
metric|10,3632|10.3632
metric|34 ft|10.3632
metric|34'|10.3632
metric|12 ft 6 in|3.81
metric|12' 6"|3.81
metric|6 in|0.1524
metric|6½ ft|1.9812
metric|1½|1.5
metric|1 1/2|1.5
metric|1½ m|1.5
metric|3¼ m|3.25
metric|３．８|3.8
metric|1234,5|1234.5
metric|1.234,5|1234.5
metric|1,234.5|1234.5
metric|1 234.5|1234.5
metric|1 234,5|1234.5
metric|1 234|1234
metric|1.234|1.234
metric|0,125|0.125
metric|-1,5|-1.5
metric|1 yd|0.9144
us||empty
us|   |empty
us| |empty
us|​|empty
metric||empty
us|ft|not_a_number
us|abc|not_a_number
us|in 6|not_a_number
us|--3|not_a_number
us|.|not_a_number
us|,|not_a_number
us|'|not_a_number
us|"|not_a_number
us|-|not_a_number
us|12-|not_a_number
us|12 ft -|not_a_number
us|1/0|not_a_number
us|3/2 ft|not_a_number
us|1/2/3|not_a_number
us|1.5/2|not_a_number
us|1e3|unknown_unit
us|nan|not_a_number
us|inf|not_a_number
us|infinity|not_a_number
us|0x10|unknown_unit
us|1..2|not_a_number
us|1.2.3|not_a_number
us|1,2,3|not_a_number
us|1,23,456|not_a_number
us|12,34.5|not_a_number
us|1.234,567.8|not_a_number
us|<b>34</b>|not_a_number
us|34<|unknown_unit
us|34 f|unknown_unit
us|34 fet|unknown_unit
us|34 lb|unknown_unit
us|34 gal|unknown_unit
us|34 km|unknown_unit
us|34 %|unknown_unit
us|34 sq ft|unknown_unit
us|34°|unknown_unit
us|$34|not_a_number
us|12 ft 6 oz|unknown_unit
us|12 x 6|unknown_unit
us|12 ft 6 in 3|mixed_units
us|3 m 6 in|mixed_units
us|12 ft 6 cm|mixed_units
us|6 in 12 ft|mixed_units
us|12 in 6 in|mixed_units
us|12 ft 6 ft|mixed_units
us|3 m 2 m|mixed_units
us|3 cm 2 mm|mixed_units
us|1 yd 1 ft|mixed_units
us|1 ft 2 in 3 mm|mixed_units
us|1,234|ambiguous
us|1,234 ft|ambiguous
us|12,345|ambiguous
us|123,456|ambiguous
us|1,000|ambiguous
us|10,000 ft|ambiguous
us|1,234 m|ambiguous
us|1,234'|ambiguous
us|１，２３４|ambiguous
us|12 6|ambiguous
us|12 34|ambiguous
us|12 6 ft|ambiguous
us|6-1/2|ambiguous
us|6-1/2"|ambiguous
us|6-1/2 in|ambiguous
us|6 ft ½|ambiguous
us|6' 1/2|ambiguous
us|6.5 ft 6 in|ambiguous
us|6½ ft 6 in|ambiguous
us|6 ft 12 in|ambiguous
us|6 ft 14 in|ambiguous
us|6' 12"|ambiguous
us|12-12|ambiguous
us|12.5-6|ambiguous
us|3 m 80|ambiguous
us|3 m 100 cm|ambiguous
us|3.5 m 80 cm|ambiguous
metric|1,234|ambiguous
metric|1,234 m|ambiguous
metric|12,345|ambiguous
metric|12-6|ambiguous
metric|3-8|ambiguous
metric|12-6"|ambiguous
metric|3 80|ambiguous
metric|3 m 80|ambiguous
metric|3 m 6 in|mixed_units
metric|3.8 ms|unknown_unit
metric|m|not_a_number
metric|3.8.1|not_a_number
metric|zwei|not_a_number
us|99999999999999999999999999|not_a_number
us|1/2 ft|0.1524
us|⅓ yd|0.3048
us|7 ft 11 7/8 in|2.435225
us|7' 11 7/8"|2.435225
us|7-11 7/8|2.435225
us|1 mm|0.001
us|0.3048 m|0.3048
us|99 ft 11 in|30.4546
us|20 ft 10 in|6.35
us|20 ft 10 inch|6.35
us|20 ft 10 ins|6.35
us|10 yds|9.144
us|5 mtr|5
us|78 in|1.9812
us|78"|1.9812
us|2 yd 6 in|mixed_units
us|198.12 cm|1.9812
metric|6 ft 6 in|1.9812
metric|1 m 98 cm|1.98
`

func TestParseLength_ReadsWhatPeopleWrite(t *testing.T) {
	t.Parallel()
	rows := 0
	for _, row := range strings.Split(lengthRows, "\n") {
		if row == "" {
			continue
		}
		rows++
		sys, rest, _ := strings.Cut(row, "|")
		i := strings.LastIndex(rest, "|")
		text, want := rest[:i], rest[i+1:]
		got, fault := measure.ParseLength(text, measure.System(sys))
		wantM, err := strconv.ParseFloat(want, 64)
		if err != nil {
			if string(fault) != want {
				t.Errorf("%s %q = %v m, fault %q; want fault %q", sys, text, got, fault, want)
			}
			continue
		}
		if fault != measure.OK || math.Abs(got-wantM) > 1e-9 {
			t.Errorf("%s %q = %v m, fault %q; want %v m", sys, text, got, fault, wantM)
		}
	}
	t.Logf("%d lengths", rows)
	const least = 300
	if rows < least {
		t.Errorf("%d rows, want at least %d", rows, least)
	}
}

// What a person reads in a field must be what the field would read back.
func TestParseLength_ReadsBackWhatIsShown(t *testing.T) {
	t.Parallel()
	for _, sys := range measure.Systems() {
		terms := measure.Terms{System: sys}
		for n := range 4801 {
			wantM := float64(n) * 0.0127
			if sys == measure.Metric {
				wantM = float64(n) / 100
			}
			got, fault := measure.ParseLength(terms.Length(wantM).String(), sys)
			// Half an inch, the finest a field shows; the centimetre exactly.
			tolM := 0.0127 + 1e-9
			if sys == measure.Metric {
				tolM = 1e-9
			}
			if fault != measure.OK || math.Abs(got-wantM) > tolM {
				t.Errorf("%s: %v m is shown as %q and read as %v m, fault %q", sys, wantM, terms.Length(wantM), got, fault)
			}
		}
	}
}

func FuzzParseLength(f *testing.F) {
	for _, row := range strings.Split(lengthRows, "\n") {
		f.Add(row)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, sys := range measure.Systems() {
			x, fault := measure.ParseLength(text, sys)
			if math.IsNaN(x) || math.IsInf(x, 0) || (fault != measure.OK && x != 0) {
				t.Errorf("%q = %v with fault %q", text, x, fault)
			}
			_, _ = measure.ParseSlope(text)
			_, _ = measure.ParseMonth(text)
			_, _ = measure.ParseElectricity(text)
			_, _ = measure.ParseWater(text, sys)
			_, _ = measure.ParseFlow(text, sys)
			_, _ = measure.ParseArea(text, sys)
		}
	})
}
