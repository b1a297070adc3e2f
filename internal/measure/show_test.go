package measure_test

import (
	"math"
	"strings"
	"testing"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

func amount(t *testing.T, text string) money.Amount {
	t.Helper()
	a, err := money.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Each value was converted by hand from the definitions of the units.
func TestShow_RoundsForPeople(t *testing.T) {
	t.Parallel()
	us := measure.Terms{System: measure.US, Currency: "USD"}
	metric := measure.Terms{System: measure.Metric, Currency: "EUR"}
	for _, c := range []struct {
		why  string
		got  measure.Shown
		want string
	}{
		{"volume to 100 gal", us.Volume(67.75), "17,900 gal"},
		{"half a step goes up", us.Volume(3.785411784 * 17.95), "18,000 gal"},
		{"under 1,000 gal to 10", us.Volume(3.2), "850 gal"},
		{"999 gal is 1,000 gal", us.Volume(3.785411784 * 0.999), "1,000 gal"},
		{"no water", us.Volume(0), "0 gal"},
		{"metric volume", metric.Volume(67.75), "67.8 m³"},
		{"big metric volume", metric.Volume(12345.6), "12,346 m³"},
		{"parts to 50 gal", us.VolumeFine(3.785411784 * 1.333), "1,350 gal"},
		{"depth is never decimal feet", us.Depth(1.9812), "6 ft 6 in"},
		{"whole feet", us.Depth(1.8288), "6 ft"},
		{"only inches", us.Depth(0.1524), "6 in"},
		{"11.6 in is the next foot", us.Depth(0.3048*2 - 0.01), "2 ft"},
		{"metric depth", metric.Depth(1.9812), "1.98 m"},
		{"metric depth keeps its places", metric.Depth(2), "2.00 m"},
		{"length", us.Length(10.3632), "34 ft"},
		{"nothing", us.Length(0), "0 ft"},
		{"below the water", us.Length(-0.3048), "−1 ft"},
		{"a negative hair is nought", us.Length(-1e-9), "0 ft"},
		{"metric length", metric.Length(10.3632), "10.36 m"},
		{"metric length without zeros", metric.Length(3.6), "3.6 m"},
		{"head is decimal", us.Head(3.5052), "11.5 ft"},
		{"metric head", metric.Head(3.5052), "3.51 m"},
		{"area", us.Area(53.884), "580 sq ft"},
		{"metric area", metric.Area(53.884), "53.9 m²"},
		{"a grate", us.Area(0.12), "1.3 sq ft"},
		{"a metric grate", metric.Area(0.12), "0.12 m²"},
		{"flow by the hour", us.Flow(0.0094635295), "9,000 gal/h"},
		{"metric flow", metric.Flow(0.0094635295), "34.1 m³/h"},
		{"flow by the minute", us.FlowByMinute(0.0094635295), "150 gal/min"},
		{"metric flow by the minute", metric.FlowByMinute(0.0094635295), "568 L/min"},
		{"velocity", us.Velocity(1.9812), "6.5 ft/s"},
		{"metric velocity", metric.Velocity(1.9812), "1.98 m/s"},
		{"turnover", measure.Hours(1.9667), "2.0 h"},
		{"a quick turn is in minutes", measure.Hours(0.0123), "1 min"},
		{"no time", measure.Hours(0), "0.0 h"},
		{"watts", measure.Power(745.4), "745 W"},
		{"energy", measure.Energy(3826.3), "3,826 kWh"},
		{"percent", measure.Percent(0.385), "39%"},
		{"slope", measure.Slope(5), "1 in 5"},
		{"slope in halves", measure.Slope(7.5), "1 in 7.5"},
		{"3/8 in of gravel", us.Small(0.009525), "3/8 in"},
		{"an inch and a half", us.Small(0.0381), "1 1/2 in"},
		{"a quarter in eighths", us.Small(0.00635), "1/4 in"},
		{"a 3 in pipe is a little wider inside", us.Bore(0.07793), "3.1 in"},
		{"metric pipe", metric.Bore(0.07793), "78 mm"},
		{"a sheet of 25 mm", metric.Small(0.025), "25 mm"},
		{"earth", us.Earth(76.4554857984), "100 cu yd"},
		{"stone", us.Mass(9071.8474), "10.0 tons"},
		{"a stone", us.Mass(45.359237), "100 lb"},
		{"metric stone", metric.Mass(9071.8), "9.1 t"},
		{"warm", us.Temperature(20), "68 °F"},
		{"metric warm", metric.Temperature(20), "20 °C"},
		{"money to the dollar", us.Money(amount(t, "612.49")), "$612"},
		{"half a dollar goes up", us.Money(amount(t, "612.50")), "$613"},
		{"thousands", us.Money(amount(t, "12345.67")), "$12,346"},
		{"less than nothing", us.Money(amount(t, "-344.2")), "−$344"},
		{"not minus nought", us.Money(amount(t, "-0.2")), "$0"},
		{"to the cent", us.Exact(amount(t, "1234.5")), "$1,234.50"},
		{"euros", metric.Money(amount(t, "612")), "€612"},
		{"budget", us.Budget(amount(t, "90678")), "$91,000"},
		{"budget's ends", us.BudgetRange(amount(t, "71700"), amount(t, "118200")), "$72,000 – 118,000"},
		{"electricity", us.Electricity("0.16"), "$0.16 / kWh"},
		{"fine electricity", us.Electricity("0.1647"), "$0.1647 / kWh"},
		{"whole electricity", us.Electricity("1"), "$1.00 / kWh"},
		{"no price", us.Electricity("?"), "– / kWh"},
		{"water", us.Water("1.6378667246"), "$6.20 / 1,000 gal"},
		{"metric water", metric.Water("1.6378667246"), "€1.6379 / m³"},
		{"psi", us.Quantity(6894.757, sheet.Pascal), "1.0 psi"},
		{"kPa", metric.Quantity(6894.757, sheet.Pascal), "6.9 kPa"},
		{"loading, 1 m/h is 0.409 gpm a sq ft", us.Quantity(1.5, sheet.MetrePerH), "0.61 gal/min a sq ft"},
		{"one month", us.Quantity(1, sheet.Month), "1 month"},
		{"months", us.Quantity(40.2, sheet.Month), "40 months"},
		{"an amount a square foot", us.PerArea(amount(t, "1781.06")), "$165 / sq ft"},
		{"an amount a square metre", measure.Terms{System: measure.Metric}.PerArea(amount(t, "1781.06")), "$1,781 / m²"},
		{"a figure of money", us.Figure(sheet.Figure{Unit: sheet.Money, Amount: amount(t, "612.18")}), "$612"},
		{"a figure of a price", us.Figure(sheet.Figure{Unit: sheet.MoneyPerKWh, Amount: amount(t, "0.1647")}), "$0.1647 / kWh"},
		{"a figure of water's price", us.Figure(sheet.Figure{Unit: sheet.MoneyPerM3, Amount: amount(t, "1.6378667246")}), "$6.20 / 1,000 gal"},
		{"a figure of a drop", us.Figure(sheet.Figure{Unit: sheet.Millimetre, Value: 6.35}), "1/4 in"},
		{"tonnes", us.Figure(sheet.Figure{Unit: sheet.Tonne, Value: 9.0718474}), "10.0 tons"},
		{"hours of a year", us.Figure(sheet.Figure{Unit: sheet.HourPerYear, Value: 5136}), "5,136 h a year"},
		{"not known", us.Volume(math.NaN()), "– gal"},
	} {
		if got := strings.ReplaceAll(c.got.String(), "\u00a0", " "); got != c.want {
			t.Errorf("%s: got %q, want %q", c.why, got, c.want)
		}
		if strings.Contains(c.got.String(), "  ") {
			t.Errorf("%s: two blanks in %q", c.why, c.got)
		}
	}
}

// A number and its unit must not be parted at a line's end.
func TestShow_NumberAndUnitStayTogether(t *testing.T) {
	t.Parallel()
	us := measure.Terms{System: measure.US}
	for _, s := range []measure.Shown{us.Volume(60), us.Depth(1.9812), us.Area(50), us.Flow(0.01), us.Small(0.0381), us.Earth(10), measure.Slope(5)} {
		if strings.Contains(s.String(), " ") {
			t.Errorf("%q has a blank that may break", s)
		}
	}
}

func TestPlain_KeepsTheStepAndPartsThousands(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		f    sheet.Figure
		want string
	}{
		{sheet.Figure{Value: 95490, Step: 10, Unit: sheet.Ratio}, "95 490"},
		{sheet.Figure{Value: 0.01826, Step: 0.00001, Unit: sheet.Ratio}, "0.01826"},
		{sheet.Figure{Value: 1.194, Step: 0.001, Unit: sheet.MetrePerS}, "1.194"},
		{sheet.Figure{Value: -1234.5, Step: 0.5, Unit: sheet.Metre}, "-1 234.5"},
		{sheet.Figure{Value: 12, Step: 1, Unit: sheet.Count}, "12"},
		{sheet.Figure{Value: 62.6, Step: 1e-6, Unit: sheet.CubicMetre}, "62.600000"},
		{sheet.Figure{Unit: sheet.Money, Amount: amount(t, "612")}, "612.00"},
		{sheet.Figure{Unit: sheet.MoneyPerKWh, Amount: amount(t, "0.1647")}, "0.1647"},
	} {
		if got := measure.Plain(c.f).Number; got != c.want {
			t.Errorf("%v at %v = %q, want %q", c.f.Value, c.f.Step, got, c.want)
		}
	}
}
