package tariff

import (
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/power"
)

// Line is one line of a month's bill. KWMin is what it bills, in
// kilowatt-minutes; nothing for fixed charges, the minimum and the tax.
type Line struct {
	Kind   Kind
	Name   string
	KWMin  money.Quantity
	Amount money.Amount
	exact  money.Amount // sixty times the amount, before any rounding
}

// Kind says what a line is for.
type Kind string

// The kinds.
const (
	EnergyLine  Kind = "energy"
	TierLine    Kind = "tier"
	FixedLine   Kind = "fixed"
	MinimumLine Kind = "minimum"
	TaxLine     Kind = "tax"
)

// Month is one month's bill: its lines add up to its total.
type Month struct {
	Lines []Line
	KWMin money.Quantity
	Total money.Amount
	exact money.Amount
}

// Year is a year's bills: its months add up to its total, unless the tariff
// rounds the year alone.
type Year struct {
	Months [12]Month
	Total  money.Amount
}

// Bill works out a year's bills: energy and tiers and fixed charges, then the
// minimum, then the tax, then rounding. Everything before rounding is exact.
func (t Tariff) Bill(e power.Energy) Year {
	var y Year
	var exact money.Amount
	for m := range y.Months {
		y.Months[m] = t.month(e[m])
		exact = exact.Add(y.Months[m].exact)
		y.Total = y.Total.Add(y.Months[m].Total)
	}
	if t.Rounding.Level == ByYear {
		y.Total = t.cent(exact)
	}
	return y
}

func (t Tariff) month(classes []money.Quantity) Month {
	var m Month
	for _, q := range classes {
		m.KWMin = m.KWMin.Add(q)
	}
	m.Lines = append(t.energyLines(classes), t.tierLines(m.KWMin)...)
	if t.FixedPerMonth.Sign() != 0 {
		m.Lines = append(m.Lines, Line{Kind: FixedLine, exact: sixty(t.FixedPerMonth)})
	}
	sum := total(m.Lines)
	if short := sixty(t.MinimumPerMonth).Sub(sum); t.MinimumPerMonth.Sign() > 0 && short.Sign() > 0 {
		m.Lines = append(m.Lines, Line{Kind: MinimumLine, exact: short})
		sum = sum.Add(short)
	}
	if t.TaxShare.Sign() != 0 {
		m.Lines = append(m.Lines, Line{Kind: TaxLine, exact: sum.Times(t.TaxShare)})
	}
	t.round(&m)
	return m
}

// energyLines prices each hour class; a class without use has no line.
func (t Tariff) energyLines(classes []money.Quantity) []Line {
	var lines []Line
	for c, q := range classes {
		if q.Sign() == 0 || (c == t.rest() && t.RestPerKWh == nil) {
			continue
		}
		l := Line{Kind: EnergyLine, Name: t.RestName, KWMin: q}
		if c == t.rest() {
			l.exact = t.RestPerKWh.Times(q)
		} else {
			l.Name, l.exact = t.Periods[c].Name, t.Periods[c].PerKWh.Times(q)
		}
		lines = append(lines, l)
	}
	return lines
}

// tierLines splits the month's total at the tiers' ends. What is above the last
// end, where the file leaves one, stays in the last tier.
func (t Tariff) tierLines(month money.Quantity) []Line {
	var lines []Line
	var below money.Quantity
	for i, tier := range t.Tiers {
		top := month
		if last := i == len(t.Tiers)-1; tier.UpToKWh != nil && !last {
			if end := tier.UpToKWh.Mul(power.Whole(power.HourMin)); end.Cmp(top) < 0 {
				top = end
			}
		}
		if part := top.Sub(below); part.Sign() > 0 {
			lines = append(lines, Line{Kind: TierLine, Name: tier.Name, KWMin: part, exact: tier.PerKWh.Times(part)})
			below = top
		}
	}
	return lines
}

func sixty(a money.Amount) money.Amount { return a.Times(power.Whole(power.HourMin)) }

func total(lines []Line) money.Amount {
	var sum money.Amount
	for _, l := range lines {
		sum = sum.Add(l.exact)
	}
	return sum
}

// cent divides sixtieths back and rounds as the tariff says.
func (t Tariff) cent(sixtieths money.Amount) money.Amount {
	if t.Rounding.Mode == HalfEven {
		return sixtieths.Over(power.HourMin).ToCentEven()
	}
	return sixtieths.CentsOver(power.HourMin)
}

// round sets the amounts of lines and month.
func (t Tariff) round(m *Month) {
	m.exact = total(m.Lines)
	var sum money.Amount
	for i := range m.Lines {
		l := &m.Lines[i]
		switch t.Rounding.Level {
		case ByMonth, ByYear:
			l.Amount = l.exact.Over(power.HourMin)
		default:
			l.Amount = t.cent(l.exact)
		}
		sum = sum.Add(l.Amount)
	}
	switch t.Rounding.Level {
	case ByMonth:
		m.Total = t.cent(m.exact)
	case ByYear:
		m.Total = m.exact.Over(power.HourMin)
	default:
		m.Total = sum
	}
}

// Home returns a household's own use in the tariff's classes. Its hours are not
// known, so all of it is in the rest class; hour prices do not depend on how
// much is used, so this moves no more than the rounding of a line, and the
// tiers see the whole month.
func (t Tariff) Home(kWhPerMonth money.Quantity) power.Energy {
	e := power.NewEnergy(t.Classes())
	for m := range e {
		e[m][t.rest()] = kWhPerMonth.Mul(power.Whole(power.HourMin))
	}
	return e
}

// Cost is what a use adds to a bill, by month and year. Fixed charges cancel.
// Where the tariff rounds only the year, the months are exact.
type Cost struct {
	Months [12]money.Amount
	Year   money.Amount
	// With and Without are the two bills.
	With, Without Year
}

// Cost returns the bill of both uses less the bill of the first alone.
func (t Tariff) Cost(base, use power.Energy) Cost {
	c := Cost{With: t.Bill(base.Add(use)), Without: t.Bill(base)}
	for m := range c.Months {
		c.Months[m] = c.With.Months[m].Total.Sub(c.Without.Months[m].Total)
	}
	c.Year = c.With.Total.Sub(c.Without.Total)
	return c
}

// Fault is what a builder's file has wrong, by path and code: version, missing,
// order, not_negative, span.
type Fault struct{ Path, Code string }

// Faults returns everything wrong with a tariff.
func (t Tariff) Faults() []Fault {
	var faults []Fault
	when := func(wrong bool, path, code string) {
		if wrong {
			faults = append(faults, Fault{path, code})
		}
	}
	when(t.Version != 1, "tariff_version", "version")
	when(t.Name == "", "name", "missing")
	when(t.RestPerKWh == nil && len(t.Tiers) == 0, "rest_per_kwh", "missing")
	when(t.RestPerKWh == nil && len(t.Periods) > 0, "rest_per_kwh", "missing")
	when(t.RestPerKWh != nil && t.RestPerKWh.Sign() < 0, "rest_per_kwh", "not_negative")
	when(len(t.Periods) > 40, "periods", "span")
	when(t.FixedPerMonth.Sign() < 0, "fixed_per_month", "not_negative")
	when(t.MinimumPerMonth.Sign() < 0, "minimum_per_month", "not_negative")
	when(t.TaxShare.Sign() < 0, "tax_share", "not_negative")
	when(t.TaxShare.Cmp(power.Whole(1)) > 0, "tax_share", "span")
	when(!oneOf(string(t.Rounding.Level), "", string(ByLine), string(ByMonth), string(ByYear)), "rounding.level", "span")
	when(!oneOf(string(t.Rounding.Mode), "", string(HalfUp), string(HalfEven)), "rounding.mode", "span")
	for i, p := range t.Periods {
		at := "periods[" + strconv.Itoa(i) + "]."
		when(p.Name == "", at+"name", "missing")
		when(p.PerKWh.Sign() < 0, at+"per_kwh", "not_negative")
		when(len(p.windows()) < max(1, len(p.Hours)), at+"hours", "span")
		when(!oneOf(string(p.Days), "", string(EveryDay), string(Weekdays), string(Weekends)), at+"days", "span")
	}
	for i, h := range t.Holidays {
		when(len(h) != len("2025-01-01"), "holidays["+strconv.Itoa(i)+"]", "span")
	}
	return append(faults, t.tierFaults()...)
}

func (t Tariff) tierFaults() []Fault {
	var faults []Fault
	var below money.Quantity
	for i, tier := range t.Tiers {
		at := "tiers[" + strconv.Itoa(i) + "]."
		if tier.PerKWh.Sign() < 0 {
			faults = append(faults, Fault{at + "per_kwh", "not_negative"})
		}
		last := i == len(t.Tiers)-1
		switch {
		case last && tier.UpToKWh != nil:
			faults = append(faults, Fault{at + "up_to_kwh", "span"})
		case !last && tier.UpToKWh == nil:
			faults = append(faults, Fault{at + "up_to_kwh", "missing"})
		case !last && tier.UpToKWh.Cmp(below) <= 0:
			faults = append(faults, Fault{at + "up_to_kwh", "order"})
		}
		if tier.UpToKWh != nil {
			below = *tier.UpToKWh
		}
	}
	return faults
}

func oneOf(s string, choices ...string) bool {
	for _, c := range choices {
		if s == c {
			return true
		}
	}
	return false
}
