package core

import (
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/core/tariff"
	"tarnwright/internal/core/waterbill"
)

// running gathers what the year's electricity needs.
type running struct {
	s      *sheet.Sheet
	d      design.Design
	b      Book
	tariff tariff.Tariff
	key    source.Key // of its prices
	slots  power.Slots
	base   power.Energy // home and other loads, that the pump comes on top of
	times  [modes]power.Timetable
	hours  [modes][12]int64 // minutes by month
}

// ran is a year of one kind of pump.
type ran struct {
	pumpDuty
	use     power.Energy
	cost    tariff.Cost
	tenYear money.Amount
}

// runningFigures adds hours, kilowatt-hours, bills, and what a pump of variable
// speed saves against one of single speed.
func runningFigures(s *sheet.Sheet, d design.Design, b Book, u duty) {
	r := newRunning(s, d, b)
	r.hoursFigures()
	r.otherLoads()
	single, variable := r.run(u.Single), r.run(u.Variable)
	r.pumpFigures("single", single)
	r.pumpFigures("variable", variable)
	if single.Found && variable.Found {
		r.compare(single, variable)
	}
	r.months(single, variable)
}

func newRunning(s *sheet.Sheet, d design.Design, b Book) running {
	r := running{s: s, d: d, b: b, tariff: b.Tariff, key: "tariff"}
	if p, err := money.ParsePrice(d.Site.ElectricityPerKWh); err == nil {
		r.tariff, r.key = tariff.Flat("home", p), "asked"
	}
	r.d.Running.Loads = lit(d, b)
	r.slots = r.tariff.Slots()
	r.base = r.tariff.Home(exact(num.Shortest(d.Site.HouseholdKWhPerMonth)))
	for i, m := range design.Modes() {
		r.times[i] = power.PumpTimes(d.Running, m)
		r.hours[i] = r.times[i].MonthMin()
	}
	return r
}

// lit sets the dusks and dawns of the other loads to the sun of the site.
func lit(d design.Design, b Book) []design.Load {
	c, ok := climateOf(d, b)
	if !ok {
		return d.Running.Loads
	}
	var daylightH [12]float64
	for m := range daylightH {
		daylightH[m] = waterbill.Sky{LatitudeDeg: c.LatitudeDeg, YearDay: waterbill.MidMonth(m + 1)}.DaylightHPerDay()
	}
	sun := power.SunFrom(daylightH)
	var loads []design.Load
	for _, l := range d.Running.Loads {
		loads = append(loads, power.Lit(l, sun))
	}
	return loads
}

// exact reads decimal text that the program itself wrote.
func exact(text string) money.Quantity {
	q, err := money.ParseQuantity(text)
	if err != nil {
		return money.Quantity{}
	}
	return q
}

func (r running) sum(mode int) float64 {
	var minutes int64
	for _, m := range r.hours[mode] {
		minutes += m
	}
	return float64(minutes) / power.HourMin
}

// runs says whether the year has any hour of a mode.
func (r running) runs(mode int) bool { return r.hours[mode] != [12]int64{} }

func (r running) hoursFigures() {
	days := float64(power.YearDays(r.d.Running.Year))
	for i, m := range design.Modes() {
		if i > 1 && !r.runs(i) {
			continue
		}
		id := sheet.ID("power.hours_" + string(m))
		var minutes int64
		for _, m := range r.hours[i] {
			minutes += m
		}
		r.s.Add(sheet.Figure{ID: id, Value: r.sum(i), Step: fineStep, Unit: sheet.HourPerYear, Source: "asked",
			Working: with("= minutes ÷ 60 = %s ÷ 60, year of %s days", float64(minutes), days)})
	}
}

// otherLoads adds aeration, lights and the like, and puts them under the pump.
func (r *running) otherLoads() {
	draws := power.Loads(r.d.Running)
	if len(draws) == 0 {
		return
	}
	use := power.Tally(draws, r.slots, r.tariff.Classes())
	cost := r.tariff.Cost(r.base, use)
	working := "="
	for i, l := range r.d.Running.Loads {
		if i > 0 {
			working += " +"
		}
		working += with(" %s × %s", l.PowerKW, float64(draws[i].Times.YearMin())/power.HourMin)
	}
	r.kWh("power.other_kwh", power.KWh(use.Year()), working)
	r.money("power.other_cost", cost.Year, r.key, billWorking(cost))
	r.base = r.base.Add(use)
}

func (r running) run(p pumpDuty) ran {
	y := ran{pumpDuty: p, use: power.NewEnergy(r.tariff.Classes())}
	if !p.Found {
		return y
	}
	var draws []power.Draw
	for i, w := range p.PowerW {
		if i < 2 || r.runs(i) {
			draws = append(draws, power.Draw{KW: power.Watts(w), Times: r.times[i]})
		}
	}
	y.use = power.Tally(draws, r.slots, r.tariff.Classes())
	y.cost = r.tariff.Cost(r.base, y.use)
	y.tenYear = r.ahead().Total(y.cost.Year)
	return y
}

// ahead looks as far forward as the choice of the pump.
func (r running) ahead() tariff.Ahead {
	return tariff.Ahead{Years: yearsCounted, RiseShare: r.d.Running.PriceRiseRatio, DiscountShare: r.d.Running.DiscountRatio}
}

func (r running) kWh(id sheet.ID, energyKWh float64, working string) {
	r.s.Add(sheet.Figure{ID: id, Value: energyKWh, Step: fineStep, Unit: sheet.KilowattHour, Source: "definition", Working: working})
}

func (r running) money(id sheet.ID, a money.Amount, key source.Key, working string) {
	r.s.Add(sheet.Figure{ID: id, Amount: a, Unit: sheet.Money, Source: key, Working: working})
}

func billWorking(c tariff.Cost) string {
	return "= bill with − bill without = " + c.With.Total.String() + " − " + c.Without.Total.String()
}

// pumpFigures adds a year of one kind of pump.
func (r running) pumpFigures(kind string, y ran) {
	if !y.Found {
		return
	}
	id := func(what string) sheet.ID { return sheet.ID("power." + kind + "_" + what) }
	energy := power.KWh(y.use.Year())
	r.kWh(id("kwh"), energy, r.energyWorking(y))
	r.money(id("cost"), y.cost.Year, r.key, billWorking(y.cost))
	r.s.Add(sheet.Figure{ID: sheet.ID("power.carbon_" + kind), Value: r.b.Grid.CarbonKg(sheet.Quantise(energy, fineStep)), Step: fineStep, Unit: sheet.Kilogram,
		Source: "builder", Working: with("= kWh × kg/kWh = %s × %s, grid of "+strconv.Itoa(r.b.Grid.Year), energy, r.b.Grid.KgPerKWh)})
}

// energyWorking shows each mode's power times its hours.
func (r running) energyWorking(y ran) string {
	names, numbers := "=", "="
	for i, m := range design.Modes() {
		if i > 1 && !r.runs(i) {
			continue
		}
		if i > 0 {
			names, numbers = names+" +", numbers+" +"
		}
		names += " " + string(m) + " kW × h"
		numbers += with(" %s × %s", y.PowerW[i]/1000, r.sum(i))
	}
	return names + " " + numbers
}

// compare sets a pump of variable speed beside one of single speed. The
// dearer price is part of its ten years.
func (r running) compare(single, variable ran) {
	saving, extra := single.cost.Year.Sub(variable.cost.Year), variable.Price.Sub(single.Price)
	rise := digits(1 + r.d.Running.PriceRiseRatio)
	total, present := r.ahead().Factors()
	series := func(y ran) string {
		return y.cost.Year.String() + " × " + digits(total) + ", Σ " + rise + "^k for k = 0 to 9"
	}
	r.money("power.saving", saving, r.key, "= "+single.cost.Year.String()+" − "+variable.cost.Year.String())
	r.money("power.extra_price", extra, "builder", "= "+variable.Price.String()+" − "+single.Price.String())
	r.money("power.ten_year_single", single.tenYear, r.key, "= "+series(single))
	withPrice := variable.tenYear.Add(extra)
	r.money("power.ten_year_variable", withPrice, r.key, "= "+extra.String()+" + "+series(variable))
	worth := r.ahead().Present(saving).Sub(extra)
	r.money("power.present_saving", worth, r.key, "= −"+extra.String()+" + "+saving.String()+" × "+digits(present)+", Σ "+rise+"^(k−1) ÷ "+digits(1+r.d.Running.DiscountRatio)+"^k for k = 1 to 10")
	finding := sheet.Finding{Code: "variable_does_not_pay", Severity: sheet.Care, Source: r.key,
		Figures: []sheet.ID{"power.ten_year_variable", "power.ten_year_single"}}
	if r.d.Circulation.Drive == design.VariableSpeed && single.Fits {
		finding.Mend = []sheet.Change{{Field: "pump", Value: "single"}}
	}
	if months, ok := tariff.PaybackMonths(extra, saving); ok {
		r.s.Add(sheet.Figure{ID: "power.payback_months", Value: months, Step: fineStep, Unit: sheet.Month, Source: "definition",
			Working: "= 12 × " + extra.String() + " ÷ " + saving.String()})
		if withPrice.Cmp(single.tenYear) <= 0 {
			finding = sheet.Finding{Code: "variable_pays", Severity: sheet.Fine, Source: r.key,
				Figures: []sheet.ID{"power.saving", "power.payback_months"}}
		}
	}
	r.s.Findings = append(r.s.Findings, finding)
}

// months adds the table of the year; the hours of each mode are in it where
// there are more modes than two.
func (r running) months(single, variable ran) {
	t := sheet.Table{ID: "power.months", Columns: []sheet.Column{{ID: "hours", Unit: sheet.Hour}}}
	var shown []int
	if r.runs(2) || r.runs(3) {
		for i, m := range design.Modes() {
			if r.runs(i) {
				shown = append(shown, i)
				t.Columns = append(t.Columns, sheet.Column{ID: string(m), Unit: sheet.Hour})
			}
		}
	}
	t.Columns = append(t.Columns, sheet.Column{ID: "single_kwh", Unit: sheet.KilowattHour}, sheet.Column{ID: "single_cost", Unit: sheet.Money},
		sheet.Column{ID: "variable_kwh", Unit: sheet.KilowattHour}, sheet.Column{ID: "variable_cost", Unit: sheet.Money})
	for m := range 12 {
		kWh := func(y ran) sheet.Cell { return sheet.Cell{Value: sheet.Quantise(power.KWh(y.use.Month(m)), fineStep)} }
		hours := func(minutes int64) sheet.Cell {
			return sheet.Cell{Value: sheet.Quantise(float64(minutes)/power.HourMin, fineStep)}
		}
		var all int64
		for _, months := range r.hours {
			all += months[m]
		}
		cells := []sheet.Cell{hours(all)}
		for _, i := range shown {
			cells = append(cells, hours(r.hours[i][m]))
		}
		cells = append(cells, kWh(single), sheet.Cell{Amount: single.cost.Months[m]}, kWh(variable), sheet.Cell{Amount: variable.cost.Months[m]})
		t.Rows = append(t.Rows, sheet.Row{Name: strconv.Itoa(m + 1), Cells: cells})
	}
	r.s.Tables = append(r.s.Tables, t)
}
