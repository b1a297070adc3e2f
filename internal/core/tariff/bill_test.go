package tariff_test

import (
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/tariff"
)

// always is a load of so many kilowatts, day in and day out, in given hours.
func always(year int, kw float64, hours ...[2]string) design.Running {
	l := design.Load{Name: "pump", PowerKW: kw}
	for _, h := range hours {
		l.Spans = append(l.Spans, design.LoadWindow{From: "01-01", To: "12-31", Start: h[0], End: h[1]})
	}
	return design.Running{Year: year, Loads: []design.Load{l}}
}

func bill(tr tariff.Tariff, r design.Running) tariff.Year {
	return tr.Bill(power.Tally(power.Loads(r), tr.Slots(), tr.Classes()))
}

// The bill arithmetic of a constructed three-tier tariff: 500 at 0.12, 500 at
// 0.16, the rest at 0.22. A home of 800 kWh pays 108.00 and one of 1100 kWh
// 162.00, so 300 kWh more cost 54.00; the average price would say 44.18.
func TestCost_IsTheBillWithLessTheBillWithout(t *testing.T) {
	t.Parallel()
	first, second := quantity(t, "500"), quantity(t, "1000")
	tr := tariff.Tariff{Version: 1, Name: "steps", Tiers: []tariff.Tier{
		{Name: "one", UpToKWh: &first, PerKWh: price(t, "0.12")},
		{Name: "two", UpToKWh: &second, PerKWh: price(t, "0.16")},
		{Name: "three", PerKWh: price(t, "0.22")}},
		FixedPerMonth: amount(t, "9.50")}
	use := power.NewEnergy(tr.Classes())
	for m := range use {
		use[m][0] = quantity(t, "18000") // 300 kWh
	}
	c := tr.Cost(tr.Home(quantity(t, "800")), use)
	rows := []struct {
		why       string
		got, want money.Amount
	}{
		{"the home alone pays its tiers and the fixed charge", c.Without.Months[0].Total, amount(t, "117.50")},
		{"the home with the pond", c.With.Months[0].Total, amount(t, "171.50")},
		{"the pond is the difference, and the fixed charge cancels", c.Months[0], amount(t, "54.00")},
		{"twelve months", c.Year, amount(t, "648.00")},
	}
	for _, r := range rows {
		if r.got.Cmp(r.want) != 0 {
			t.Errorf("%s: %s, want %s", r.why, r.got, r.want)
		}
	}
}

func TestBill_ByHandForEachPartOfATariff(t *testing.T) {
	t.Parallel()
	night, flat := price(t, "0.10"), price(t, "0.20")
	end := quantity(t, "100")
	third := price(t, "0.015")
	rows := []struct {
		why  string
		tr   tariff.Tariff
		r    design.Running
		want string
	}{
		{"0.35 kW, 12 h a day at 16 cents is 1533 kWh and 245.28 where only the year is rounded",
			tariff.Tariff{Version: 1, Name: "flat", RestName: "all", RestPerKWh: ptr(price(t, "0.16")), Rounding: tariff.Rounding{Level: tariff.ByYear}},
			always(2025, 0.35, [2]string{"08:00", "20:00"}), "245.28"},
		{"the same by lines: 7 × 20.83 + 4 × 20.16 + 18.82", tariff.Flat("flat", price(t, "0.16")), always(2025, 0.35, [2]string{"08:00", "20:00"}), "245.27"},
		{"0.5 kW round the clock at 45 cents from 16 to 21 and 28 cents otherwise is 3.785 a day, 1381.525 a year",
			tariff.Tariff{Version: 1, Name: "hours", RestName: "other", RestPerKWh: ptr(price(t, "0.28")),
				Periods:  []tariff.Period{{Name: "peak", Hours: []tariff.Hours{{Start: "16:00", End: "21:00"}}, PerKWh: price(t, "0.45")}},
				Rounding: tariff.Rounding{Level: tariff.ByYear}}, always(2025, 0.5, [2]string{"00:00", "24:00"}), "1381.53"},
		{"12 h of it outside the peak is 1.68 a day",
			tariff.Tariff{Version: 1, Name: "hours", RestName: "other", RestPerKWh: ptr(price(t, "0.28")),
				Periods: []tariff.Period{{Name: "peak", Hours: []tariff.Hours{{Start: "16:00", End: "21:00"}}, PerKWh: price(t, "0.45")}}},
			always(2025, 0.5, [2]string{"00:00", "12:00"}), "613.20"},
		{"a run past midnight: 22 to 24 at 0.20 and 0 to 6 at 0.10, 1 kW: 1.00 a day",
			tariff.Tariff{Version: 1, Name: "night", RestName: "day", RestPerKWh: &flat,
				Periods: []tariff.Period{{Name: "night", Hours: []tariff.Hours{{Start: "00:00", End: "06:00"}}, PerKWh: night}}},
			always(2025, 1, [2]string{"22:00", "06:00"}), "365.00"},
		{"tiers add to the hour's price: 1 kW, 5 h, 150 or so a month at 0.20, and 0.01 to 100 kWh, 0.05 above: 365 + 12 + 0.05 (1825 − 1200)",
			tariff.Tariff{Version: 1, Name: "both", RestName: "all", RestPerKWh: &flat,
				Tiers: []tariff.Tier{{Name: "low", UpToKWh: &end, PerKWh: price(t, "0.01")}, {Name: "high", PerKWh: price(t, "0.05")}}},
			always(2025, 1, [2]string{"00:00", "05:00"}), "408.25"},
		{"a tax of 7.5 % on 10 kWh at 20 cents a day, rounded once at the year's end: 730 and 54.75",
			tariff.Tariff{Version: 1, Name: "tax", RestName: "all", RestPerKWh: &flat, TaxShare: quantity(t, "0.075"), Rounding: tariff.Rounding{Level: tariff.ByYear}},
			always(2025, 10, [2]string{"00:00", "01:00"}), "784.75"},
		{"the tax is on the least bill too: 12 × 10.00 × 1.10",
			tariff.Tariff{Version: 1, Name: "least", RestName: "all", RestPerKWh: &flat, MinimumPerMonth: amount(t, "10"), TaxShare: quantity(t, "0.10")},
			always(2025, 0.01, [2]string{"00:00", "01:00"}), "132.00"},
		{"a summer price in July and August only: 62 × 1 × 0.50 + 303 × 1 × 0.20",
			tariff.Tariff{Version: 1, Name: "season", RestName: "other", RestPerKWh: &flat, Periods: []tariff.Period{{Name: "summer", From: "07-01", To: "08-31", PerKWh: price(t, "0.50")}}},
			always(2025, 1, [2]string{"00:00", "01:00"}), "91.60"},
		{"a winter price round the year's end, weekends only, leap year: 0.30 on the 17 Saturdays and Sundays of January and February",
			tariff.Tariff{Version: 1, Name: "season", RestName: "other", RestPerKWh: ptr(price(t, "0")), Periods: []tariff.Period{{Name: "winter", From: "12-30", To: "02-29", Days: tariff.Weekends, PerKWh: price(t, "0.30")}}},
			always(2024, 1, [2]string{"00:00", "01:00"}), "4.80"},
		{"20 minutes a month's day at a third of a kilowatt-hour a day: 31 × 0.015 / 3 = 0.155 is a true half cent and goes up",
			tariff.Tariff{Version: 1, Name: "thirds", RestName: "all", RestPerKWh: &third},
			design.Running{Year: 2025, Loads: []design.Load{{Name: "x", PowerKW: 1, Spans: []design.LoadWindow{{From: "01-01", To: "01-31", Start: "00:00", End: "00:20"}}}}}, "0.16"},
	}
	for _, r := range rows {
		if f := r.tr.Faults(); len(f) > 0 {
			t.Errorf("%s: the tariff is refused: %v", r.why, f)
		}
		if got := bill(r.tr, r.r).Total; got.Cmp(amount(t, r.want)) != 0 {
			t.Errorf("%s: %s, want %s", r.why, got, r.want)
		}
	}
}

func ptr[T any](x T) *T { return &x }

func TestBill_LinesAddToMonthsAndMonthsToTheYear(t *testing.T) {
	t.Parallel()
	end := quantity(t, "33.3")
	tr := tariff.Tariff{Version: 1, Name: "all at once", RestName: "other", RestPerKWh: ptr(price(t, "0.1734")),
		Periods: []tariff.Period{{Name: "peak", Days: tariff.Weekdays, Hours: []tariff.Hours{{Start: "15:30", End: "21:10"}}, PerKWh: price(t, "0.3987")},
			{Name: "night", Hours: []tariff.Hours{{Start: "23:00", End: "05:20"}}, PerKWh: price(t, "0.0913")}},
		Tiers:         []tariff.Tier{{Name: "low", UpToKWh: &end, PerKWh: price(t, "0.0111")}, {Name: "high", PerKWh: price(t, "0.0333")}},
		FixedPerMonth: amount(t, "4.37"), MinimumPerMonth: amount(t, "15.01"), TaxShare: quantity(t, "0.0625")}
	y := bill(tr, always(2025, 0.137, [2]string{"00:00", "24:00"}))
	var year money.Amount
	for m, month := range y.Months {
		var sum money.Amount
		for _, l := range month.Lines {
			sum = sum.Add(l.Amount)
			if l.Amount.Cmp(l.Amount.ToCent()) != 0 {
				t.Errorf("month %d: line %s %q is %s, not whole cents", m+1, l.Kind, l.Name, l.Amount)
			}
		}
		if sum.Cmp(month.Total) != 0 {
			t.Errorf("month %d: lines make %s, the total is %s", m+1, sum, month.Total)
		}
		year = year.Add(month.Total)
	}
	if year.Cmp(y.Total) != 0 || y.Total.Sign() <= 0 {
		t.Errorf("months make %s, the year is %s", year, y.Total)
	}
}

func TestFaults_OfFilesThatCannotBill(t *testing.T) {
	t.Parallel()
	a, b := quantity(t, "100"), quantity(t, "50")
	good := tariff.Flat("flat", price(t, "0.16"))
	rows := []struct {
		why, path string
		spoil     func(*tariff.Tariff)
	}{
		{"another version", "tariff_version", func(x *tariff.Tariff) { x.Version = 2 }},
		{"no price at all", "rest_per_kwh", func(x *tariff.Tariff) { x.RestPerKWh = nil }},
		{"a price below nothing", "rest_per_kwh", func(x *tariff.Tariff) { x.RestPerKWh = ptr(price(t, "-0.1")) }},
		{"tiers that fall", "tiers[1].up_to_kwh", func(x *tariff.Tariff) {
			x.Tiers = []tariff.Tier{{UpToKWh: &a}, {UpToKWh: &b}, {}}
		}},
		{"a last tier with an end", "tiers[0].up_to_kwh", func(x *tariff.Tariff) { x.Tiers = []tariff.Tier{{UpToKWh: &a}} }},
		{"hours that are none", "periods[0].hours", func(x *tariff.Tariff) {
			x.Periods = []tariff.Period{{Name: "p", Hours: []tariff.Hours{{Start: "25:00", End: "26:00"}}}}
		}},
		{"unknown days", "periods[0].days", func(x *tariff.Tariff) { x.Periods = []tariff.Period{{Name: "p", Days: "mondays"}} }},
		{"unknown rounding", "rounding.level", func(x *tariff.Tariff) { x.Rounding.Level = "week" }},
		{"a tax above all", "tax_share", func(x *tariff.Tariff) { x.TaxShare = quantity(t, "7") }},
	}
	if f := good.Faults(); len(f) > 0 {
		t.Errorf("a good tariff is refused: %v", f)
	}
	for _, r := range rows {
		x := good
		r.spoil(&x)
		f := x.Faults()
		if len(f) == 0 || f[0].Path != r.path {
			t.Errorf("%s: faults %v, want %s first", r.why, f, r.path)
		}
	}
}

// A hundred a year, 3 % dearer each year, makes 1146.3879 in ten years: the
// series 100 (1.03^10 − 1) / 0.03. At a discount of 5 % the ten payments, each
// at its year's end, are worth 100 (1 − (1.03/1.05)^10) / (0.05 − 0.03) = 874.76
// today. Both closed forms are of common textbooks, from memory.
func TestAhead_AgainstTheClosedForms(t *testing.T) {
	t.Parallel()
	a := tariff.Ahead{Years: 10, RiseShare: 0.03, DiscountShare: 0.05}
	rows := []struct {
		why       string
		got, want money.Amount
	}{
		{"ten years at a rise", a.Total(amount(t, "100")), amount(t, "1146.39")},
		{"worth today", a.Present(amount(t, "100")), amount(t, "874.76")},
		{"no rise: ten times", tariff.Ahead{Years: 10}.Total(amount(t, "100")), amount(t, "1000")},
		{"no discount: the total", tariff.Ahead{Years: 10, RiseShare: 0.03}.Present(amount(t, "100")), amount(t, "1146.39")},
		{"a fall of 10 %: 100 (1 − 0.9^10)/0.1", tariff.Ahead{Years: 10, RiseShare: -0.1}.Total(amount(t, "100")), amount(t, "651.32")},
	}
	for _, r := range rows {
		if r.got.Cmp(r.want) != 0 {
			t.Errorf("%s: %s, want %s", r.why, r.got, r.want)
		}
	}
}

func TestPayback_IsTheDearerPriceOverTheSaving(t *testing.T) {
	t.Parallel()
	if got, ok := tariff.PaybackMonths(amount(t, "600"), amount(t, "344")); !ok || got < 20.9302 || got > 20.9303 {
		t.Errorf("600 at 344 a year: %g months, want 20.930", got)
	}
	for _, r := range []struct{ why, extra, saving string }{{"nothing is saved", "600", "0"}, {"it costs more to run", "600", "-5"}} {
		if _, ok := tariff.PaybackMonths(amount(t, r.extra), amount(t, r.saving)); ok {
			t.Errorf("%s, and yet it pays back", r.why)
		}
	}
	if got, ok := tariff.PaybackMonths(amount(t, "-10"), amount(t, "5")); !ok || got != 0 {
		t.Errorf("a cheaper pump that saves: %g, want 0 months", got)
	}
}
