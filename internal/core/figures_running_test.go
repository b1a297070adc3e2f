package core

import (
	"math"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/tariff"
	"tarnwright/internal/core/waterbill"
)

func cash(t *testing.T, text string) money.Amount {
	t.Helper()
	a, err := money.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// season is May to September 2026, 153 days: cascade 10 to 18, quiet the rest.
func season() design.Running {
	return design.Running{Year: 2026, PriceRiseRatio: 0.03, DiscountRatio: 0.05, Spans: []design.Span{{From: "05-01", To: "09-30", Runs: []design.Run{
		{Mode: design.CascadeMode, Start: "10:00", End: "18:00"}, {Mode: design.QuietMode, Start: "18:00", End: "10:00"}}}}}
}

// twoPumps draw 0.5 kW in every hour, and 0.4 and 0.1 kW; the second is 400 dearer.
func twoPumps(t *testing.T) duty {
	return duty{
		Single:   pumpDuty{Found: true, PowerW: [4]float64{500, 500}, Price: cash(t, "600")},
		Variable: pumpDuty{Found: true, PowerW: [4]float64{400, 100}, Price: cash(t, "1000")},
	}
}

func ranOver(r design.Running, u duty) *sheet.Sheet {
	s := &sheet.Sheet{}
	runningFigures(s, design.Design{Running: r, Site: design.Site{ElectricityPerKWh: "0.16"}}, Book{Grid: power.Grid{KgPerKWh: 0.3734, Year: 2022}}, u)
	return s
}

// By hand: 153 days × 8 h = 1224 h and × 16 h = 2448 h. 3672 h × 0.5 kW = 1836 kWh;
// 1224 × 0.4 + 2448 × 0.1 = 734.4 kWh. A day of 12 kWh costs 1.92, of 4.8 kWh
// 0.768, so months are 31 or 30 of these to the cent: 3 × 59.52 + 2 × 57.60, and
// 3 × 23.81 + 2 × 23.04. Ten years at 3 % are 11.4638793 times; 400 more buys
// the second pump.
func TestRunningFigures_AgreeWithASeasonByHand(t *testing.T) {
	t.Parallel()
	s := ranOver(season(), twoPumps(t))
	for _, r := range []struct {
		id   sheet.ID
		want float64
		tol  float64
	}{
		{"power.hours_cascade", 1224, 0}, {"power.hours_quiet", 2448, 0},
		{"power.single_kwh", 1836, 1e-9}, {"power.variable_kwh", 734.4, 1e-9},
		{"power.carbon_single", 685.5624, 1e-6}, {"power.carbon_variable", 274.22496, 1e-6},
		{"power.payback_months", 12 * 400 / 176.25, 1e-6},
	} {
		if got := s.Value(r.id); math.Abs(got-r.want) > r.tol {
			t.Errorf("%s = %.9g, want %.9g", r.id, got, r.want)
		}
	}
	for _, r := range []struct {
		id   sheet.ID
		want string
	}{
		{"power.single_cost", "293.76"}, {"power.variable_cost", "117.51"}, {"power.saving", "176.25"}, {"power.extra_price", "400"},
		{"power.ten_year_single", "3367.63"}, {"power.ten_year_variable", "1747.12"},
		// 176.25 × 8.747596 = 1541.76, less 400.
		{"power.present_saving", "1141.76"},
	} {
		if got := s.Amount(r.id); got.Cmp(cash(t, r.want)) != 0 {
			t.Errorf("%s = %s, want %s", r.id, got, r.want)
		}
	}
	if len(s.Findings) != 1 || s.Findings[0].Code != "variable_pays" {
		t.Errorf("findings %+v, want that variable speed pays", s.Findings)
	}
	if w, _ := s.Find("power.variable_kwh"); !strings.Contains(w.Working, "0.4 × 1224 + 0.1 × 2448") {
		t.Errorf("working %q", w.Working)
	}
}

func TestRunningFigures_SayWhenTheDearerPumpDoesNotPay(t *testing.T) {
	t.Parallel()
	dear := twoPumps(t)
	dear.Variable.Price = cash(t, "6000")
	thirsty := twoPumps(t)
	thirsty.Variable.PowerW[1] = 900
	none := twoPumps(t)
	none.Variable.Found = false
	for _, r := range []struct {
		why, want string
		u         duty
		payback   bool
	}{
		{"it saves, but not its price in ten years", "variable_does_not_pay", dear, true},
		{"it costs more to run", "variable_does_not_pay", thirsty, false},
		{"there is no such pump", "", none, false},
	} {
		s := ranOver(season(), r.u)
		got := ""
		if len(s.Findings) > 0 {
			got = s.Findings[0].Code
		}
		if _, payback := s.Find("power.payback_months"); got != r.want || payback != r.payback {
			t.Errorf("%s: finding %q, payback shown %t", r.why, got, payback)
		}
	}
}

func TestRunningFigures_MonthsAddUpToTheYear(t *testing.T) {
	t.Parallel()
	r := season()
	r.Loads = []design.Load{{Name: "air", PowerKW: 0.06, Spans: []design.LoadWindow{{From: "11-01", To: "03-31", Start: "00:00", End: "24:00"}}}}
	s := ranOver(r, twoPumps(t))
	var cost money.Amount
	hours, kWh := 0.0, 0.0
	for _, row := range s.Table("power.months").Rows {
		hours += row.Cells[0].Value
		kWh += row.Cells[3].Value
		cost = cost.Add(row.Cells[4].Amount)
	}
	if cost.Cmp(s.Amount("power.variable_cost")) != 0 || hours != 3672 || math.Abs(kWh-s.Value("power.variable_kwh")) > 1e-6 {
		t.Errorf("months make %s, %g h and %g kWh", cost, hours, kWh)
	}
	// 151 winter days × 24 h × 0.06 kW.
	if got := s.Value("power.other_kwh"); math.Abs(got-217.44) > 1e-9 {
		t.Errorf("other loads take %g kWh, want 217.44", got)
	}
	// By months 1.44 kWh a day at 0.16: 31 days 7.1424, 28 days 6.4512, 30 days 6.912.
	if got := s.Amount("power.other_cost"); got.Cmp(cash(t, "34.78")) != 0 {
		t.Errorf("other loads cost %s, want 34.78", got)
	}
}

// A home in its second step pays the second price for the pond, and the other
// loads lie under the pump.
func TestRunningFigures_StandOnTopOfTheHome(t *testing.T) {
	t.Parallel()
	end := exact("500")
	p := func(s string) money.Price {
		x, err := money.ParsePrice(s)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	b := Book{Tariff: tariff.Tariff{Version: 1, Name: "steps", Tiers: []tariff.Tier{{Name: "one", UpToKWh: &end, PerKWh: p("0.10")}, {Name: "two", PerKWh: p("0.30")}}}}
	s := &sheet.Sheet{}
	runningFigures(s, design.Design{Running: season(), Site: design.Site{HouseholdKWhPerMonth: 800}}, b, twoPumps(t))
	if got := s.Amount("power.single_cost"); got.Cmp(cash(t, "550.80")) != 0 {
		t.Errorf("1836 kWh at 0.30 cost %s, want 550.80", got)
	}
	// A home of 300 kWh and a load of 1 kW in May: the load fills the first step
	// from 300 to 500 and takes 544 of the second, 20.00 + 163.20, and leaves the
	// pump none of it. May: 372 × 0.30; the other months start at 300 and take 200
	// of the first step: 20.00 and 172 or 160 of the second.
	r := season()
	r.Loads = []design.Load{{Name: "air", PowerKW: 1, Spans: []design.LoadWindow{{From: "05-01", To: "05-31", Start: "00:00", End: "24:00"}}}}
	s = &sheet.Sheet{}
	runningFigures(s, design.Design{Running: r, Site: design.Site{HouseholdKWhPerMonth: 300}}, b, twoPumps(t))
	if got := s.Amount("power.other_cost"); got.Cmp(cash(t, "183.20")) != 0 {
		t.Errorf("the load costs %s, want 183.20", got)
	}
	if got := s.Amount("power.single_cost"); got.Cmp(cash(t, "390.80")) != 0 {
		t.Errorf("the pump on top costs %s, want 390.80", got)
	}
}

// still is a climate whose every month is alike.
func still(rainMm float64) waterbill.Climate {
	c := waterbill.Climate{ID: "still", LatitudeDeg: 0, AltitudeM: 0}
	for m := range c.Months {
		c.Months[m] = waterbill.Month{TMaxDegC: 30, TMinDegC: 20, RHMaxRatio: 0.9, RHMinRatio: 0.5, WindMPerS: 2, SunHPerDay: 6, RainMm: rainMm}
	}
	return c
}

func watered(t *testing.T, rainMm float64) *sheet.Sheet {
	t.Helper()
	s := &sheet.Sheet{}
	for _, f := range []sheet.Figure{{ID: "pond.area", Value: 60}, {ID: "zone.area", Value: 15}, {ID: "water.net_volume", Value: 70}} {
		s.Add(f)
	}
	d := design.Design{Running: season(), Cascade: &design.Cascade{}, Site: design.Site{Climate: "still", WaterPerM3: "2", SplashRatio: 0.3, CleanOutRatio: 0.1}}
	waterFigures(s, d, Book{Climates: []waterbill.Climate{still(0), still(rainMm)}[1:]})
	return s
}

// The sums by hand from the months' own evaporation, which has its checks in
// package waterbill.
func TestWaterFigures_AgreeWithTheMonthsByHand(t *testing.T) {
	t.Parallel()
	days := []float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	s := watered(t, 50)
	var evaporation, splash, topUp, most float64
	for m, n := range days {
		day := still(0).EvaporationMmPerDay(m + 1)
		lost := 75 * day * n / 1000
		extra := 0.0
		if m >= 4 && m <= 8 {
			extra = lost * 0.3 / 3 // 8 h of 24
		}
		evaporation, splash = evaporation+lost, splash+extra
		topUp += max(0, lost+extra-75*50/1000.0)
		most = max(most, day)
	}
	topUp += 7
	for _, r := range []struct {
		id   sheet.ID
		want float64
	}{
		{"water.surface", 75}, {"water.evaporation", evaporation}, {"water.rain", 45}, {"water.splash", splash}, {"water.clean_out", 7},
		{"water.top_up", topUp}, {"water.top_up_depth", topUp / 75}, {"level.overnight_drop", most / 2}, {"level.leak_drop", most + 3},
	} {
		if got := s.Value(r.id); math.Abs(got-r.want) > 1e-6 {
			t.Errorf("%s = %.9g, want %.9g", r.id, got, r.want)
		}
	}
	// Twelve months rounded to the cent lie within six cents of the whole.
	if got := s.Amount("water.cost").Approx(); math.Abs(got-2*topUp) > 0.06+12*0.001 {
		t.Errorf("water costs %.2f, want about %.2f", got, 2*topUp)
	}
	if c := s.Table("water.months").Rows[4].Cells[3].Value; c != 7 {
		t.Errorf("the clean-out takes %g m3 in May, want 7", c)
	}
	// A wet climate needs no top-up but the clean-out.
	if got := watered(t, 400).Value("water.top_up"); math.Abs(got-7) > 1e-9 {
		t.Errorf("under 400 mm a month the top-up is %g m3, want 7", got)
	}
}

// Lights from dusk to midnight at the equator, where the sun sets near six all
// the year by FAO-56 (N = 24/π arccos 0 = 12 h): 6 h × 365 × 0.1 kW = 219 kWh. Seven months at 18.6 × 0.16 = 2.98, four
// at 2.88 and one at 2.69 make 35.07.
func TestRunningFigures_LightsGoByTheHoursOfDark(t *testing.T) {
	t.Parallel()
	d := design.Design{Running: design.Running{Year: 2025, Loads: []design.Load{{Name: "lights", PowerKW: 0.1,
		Spans: []design.LoadWindow{{From: "01-01", To: "12-31", Start: design.Dusk, End: "24:00"}}}}},
		Site: design.Site{ElectricityPerKWh: "0.16", Climate: "equator"}}
	s := &sheet.Sheet{}
	runningFigures(s, d, Book{Climates: []waterbill.Climate{{ID: "equator", LatitudeDeg: 0}}}, duty{})
	if got := s.Value("power.other_kwh"); math.Abs(got-219) > 0.001 {
		t.Errorf("lights = %v kWh, want 219", got)
	}
	if got := s.Amount("power.other_cost").String(); got != "35.07" {
		t.Errorf("lights cost %s, want 35.07", got)
	}
}
