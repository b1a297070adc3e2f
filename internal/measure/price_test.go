package measure_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"tarnwright/internal/measure"
)

// Each row is: text | decimal text per kWh, or the fault.
const electricityRows = `
0.16|0.16
$0.16|0.16
$ 0.16|0.16
0.16/kWh|0.16
$0.16/kWh|0.16
$0.16 / kWh|0.16
0.16 per kWh|0.16
$0.16 per kWh|0.16
0.16 $/kWh|0.16
0.16 USD/kWh|0.16
USD 0.16|0.16
US$0.16|0.16
0.16 dollars per kWh|0.16
0.16 a kWh|0.16
0.16 kWh|0.16
16 c|0.16
16c|0.16
16 ¢|0.16
16¢|0.16
16 ct|0.16
16 ct/kWh|0.16
16 cents|0.16
16 cents per kWh|0.16
16 cents a kilowatt hour|0.16
16.5 c|0.165
16,5 c|0.165
0,16|0.16
0,165|0.165
.16|0.16
0.1647|0.1647
$0.1647 per kWh|0.1647
€0,28|0.28
0,28 €/kWh|0.28
0,28 €|0.28
£0.27|0.27
27 p|0.27
27 pence per kWh|0.27
160/MWh|0.16
0|0
$1|1
０．１６|0.16
|empty
$|empty
abc|not_a_number
-0.16|not_a_number
$-0.16|not_a_number
0.16/gal|unknown_unit
0.16/m3|unknown_unit
0.16 bananas|unknown_unit
0.1.6|not_a_number
1,234|ambiguous
1e-3|unknown_unit
`

// Each row is: system | text | what one cubic metre costs; the US rows are
// price × 264.1720523581484 gal/m³, and 1 m³ = 1000 L, by hand.
const waterRows = `
us|6.20|1.6378667246
us|$6.20|1.6378667246
us|6.2|1.6378667246
us|6,20|1.6378667246
us|$6.20 / 1,000 gal|1.6378667246
us|$6.20 per 1,000 gal|1.6378667246
us|6.20 per 1000 gal|1.6378667246
us|6.20 per 1000 gallons|1.6378667246
us|6.20 per 1,000 gallons|1.6378667246
us|6.20 per thousand gallons|1.6378667246
us|6.20/1000gal|1.6378667246
us|6.20/kgal|1.6378667246
us|0.62 c/gal|1.6378667246
us|0.0062/gal|1.6378667246
us|0.0062 per gallon|1.6378667246
us|1.64/m3|1.64
us|$1.64 / m³|1.64
us|1.64 per cubic metre|1.64
us|1.64 per cubic meter|1.64
us|1.64 per m^3|1.64
us|0.164 c/L|1.64
us|4.64 per ccf|1.6386005359
us|0|0
metric|1.64|1.64
metric|€1,64|1.64
metric|1,64 €/m³|1.64
metric|1.64/m3|1.64
metric|1.64 per 1000 L|1.64
metric|1.64 per 1000 litres|1.64
metric|6.20 per 1,000 gal|1.6378667246
metric|6.20/kgal|1.6378667246
us||empty
us|water|not_a_number
us|6.20/kWh|unknown_unit
us|6.20 per 100 gal|unknown_unit
us|6.20 per bucket|unknown_unit
us|-6|not_a_number
us|6,200|ambiguous
`

func rowsOf(text string) [][]string {
	var rows [][]string
	for _, line := range strings.Split(text, "\n") {
		if line != "" {
			rows = append(rows, strings.Split(line, "|"))
		}
	}
	return rows
}

func TestParseElectricity_ReadsWhatPeopleWrite(t *testing.T) {
	t.Parallel()
	for _, r := range rowsOf(electricityRows) {
		got, fault := measure.ParseElectricity(r[0])
		if got != r[1] && string(fault) != r[1] {
			t.Errorf("%q = %q per kWh, fault %q; want %q", r[0], got, fault, r[1])
		}
	}
}

func TestParseWater_ReadsWhatPeopleWrite(t *testing.T) {
	t.Parallel()
	for _, r := range rowsOf(waterRows) {
		got, fault := measure.ParseWater(r[1], measure.System(r[0]))
		if got != r[2] && string(fault) != r[2] {
			t.Errorf("%s %q = %q per m³, fault %q; want %q", r[0], r[1], got, fault, r[2])
		}
	}
}

// Each row is: what | system | text | the value in SI, or the fault.
const otherRows = `
slope||1 in 5|5
slope||1:5|5
slope||1/5|5
slope||1 to 5|5
slope||5|5
slope||5.0|5
slope||1 : 5|5
slope||1∶5|5
slope||1 in 7.5|7.5
slope||2:10|5
slope||20 %|5
slope||20%|5
slope||12.5 %|8
slope||1 in 4½|4.5
slope||-5|-5
slope|||empty
slope||steep|not_a_number
slope||0:5|not_a_number
slope||0 %|not_a_number
slope||1 in x|not_a_number
month||3|3
month||03|3
month||Mar|3
month||mar.|3
month||March|3
month||MARCH|3
month||marc|3
month||Sept|9
month||sep|9
month||12|12
month||Dec|12
month||June|6
month||Jul|7
month||may|5
month|||empty
month||0|not_a_number
month||13|not_a_number
month||ma|not_a_number
month||Marchy|not_a_number
month||3.5|not_a_number
flow|us|9000|0.0094635295
flow|us|9,000.0 gal/h|0.0094635295
flow|us|9000 gph|0.0094635295
flow|us|150 gal/min|0.0094635295
flow|us|150 gpm|0.0094635295
flow|us|150 gallons per minute|0.0094635295
flow|us|34.0687061 m³/h|0.0094635295
flow|us|567.811768 L/min|0.0094635295
flow|us|9.4635295 L/s|0.0094635295
flow|metric|36|0.01
flow|metric|36 m3/h|0.01
flow|metric|36 m³/h|0.01
flow|metric|600 L/min|0.01
flow|metric|10 l/s|0.01
flow|metric|36000 l/h|0.01
flow|metric|0.01 m3/s|0.01
flow|us|9,000|ambiguous
flow|us|9 ft|unknown_unit
flow|us||empty
area|us|158|14.67868032
area|us|158 sq ft|14.67868032
area|us|158 sq. ft.|14.67868032
area|us|158 sqft|14.67868032
area|us|158 ft²|14.67868032
area|us|158 ft2|14.67868032
area|us|158 square feet|14.67868032
area|us|14.68 m²|14.68
area|us|14.68 sq m|14.68
area|metric|14.68|14.68
area|metric|14,68 m²|14.68
area|metric|14.68 m2|14.68
area|metric|158 sq ft|14.67868032
area|us|158 ft|unknown_unit
area|us|1,580|ambiguous
area|us|lots|not_a_number
`

func TestParse_ReadsSlopesMonthsFlowsAndAreas(t *testing.T) {
	t.Parallel()
	read := map[string]func(string, measure.System) (float64, measure.Fault){
		"slope": func(s string, _ measure.System) (float64, measure.Fault) { return measure.ParseSlope(s) },
		"month": func(s string, _ measure.System) (float64, measure.Fault) {
			m, fault := measure.ParseMonth(s)
			return float64(m), fault
		},
		"flow": measure.ParseFlow,
		"area": measure.ParseArea,
	}
	for _, r := range rowsOf(otherRows) {
		got, fault := read[r[0]](r[2], measure.System(r[1]))
		want, err := strconv.ParseFloat(r[3], 64)
		if err != nil {
			if string(fault) != r[3] {
				t.Errorf("%s %q = %v, fault %q; want fault %q", r[0], r[2], got, fault, r[3])
			}
			continue
		}
		if fault != measure.OK || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s %q = %v, fault %q; want %v", r[0], r[2], got, fault, want)
		}
	}
}
