package core

import (
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

// yearsCounted is how far ahead a choice looks.
const yearsCounted = 10

// usualPerKWh ranks pumps where neither the design nor the builder's tariff
// states a price of electricity: the mean of all homes of the United States in
// 2022, 16.00 cents.
const usualPerKWh = "0.16"

// tenYears is what an option costs in ten years: pumps, pipe, and electricity
// at today's price. It ranks; the bill itself is worked out by the tariff.
func (c *circuit) tenYears(m pump.Model, o pump.Option) money.Amount {
	n, _ := money.ParseQuantity(strconv.Itoa(o.Count))
	energy, _ := money.ParseQuantity(num.Decimal(yearsCounted*c.yearKWh(o), 3))
	return m.Price.Times(n).Add(c.perKWh.Times(energy))
}

// pricePerKWh is what a kilowatt-hour more costs this home: its own price, that
// of the builder's tariff, or the usual.
func pricePerKWh(d design.Design, b Book) money.Price {
	if p, err := money.ParsePrice(d.Site.ElectricityPerKWh); err == nil {
		return p
	}
	if p, ok := b.Tariff.Marginal(exact(num.Shortest(d.Site.HouseholdKWhPerMonth))); ok {
		return p
	}
	p, _ := money.ParsePrice(usualPerKWh)
	return p
}

// yearKWh is what an option draws in a year.
func (c *circuit) yearKWh(o pump.Option) float64 {
	h := c.hours
	return (float64(h[0]*o.Wanted.PowerW) + float64(h[1]*o.Quiet.PowerW) + float64(h[2]*o.Night.PowerW) + float64(h[3]*o.Winter.PowerW)) / 1000
}

// mostPumps is how many pumps side by side the whole choice tries.
const mostPumps = 3

// choice tries every pump, count and size of pipe against the flow wanted and
// the limits of velocity, and names the cheapest over ten years, the runner-up,
// the cheapest to buy and the cheapest to run.
func (c *circuit) choice() sheet.Table {
	t := sheet.Table{ID: "pump.choice", Columns: []sheet.Column{
		{ID: "count", Unit: sheet.Count}, {ID: "bore", Unit: sheet.Millimetre}, {ID: "power", Unit: sheet.Watt},
		{ID: "quiet_power", Unit: sheet.Watt}, {ID: "price", Unit: sheet.Money}, {ID: "running", Unit: sheet.Money}, {ID: "ten_years", Unit: sheet.Money},
	}}
	q := c.question(c.b.Pumps)
	q.RunKWh = c.yearKWh
	q.Limits = pump.Limits{SuctionMPerS: suctionLimitMPerS, DischargeMPerS: dischargeLimitMPerS}
	q.Counts = nil
	for n := 1; n <= mostPumps; n++ {
		q.Counts = append(q.Counts, n)
	}
	q.Systems = nil
	for _, size := range c.b.Pipes {
		q.Systems = append(q.Systems, c.piped(size))
	}
	q.Cost = func(o pump.Option) money.Amount {
		return c.tenYears(c.b.Pumps[o.Model], o).Add(c.pipeCost(c.b.Pipes[o.System], o.Count))
	}
	answer := pump.Choose(q)
	c.add("pump.tried", float64(answer.Tried), 1, sheet.Figure{Unit: sheet.Count,
		Working: with("= pumps × numbers × pipes = %s × %s × %s", float64(len(c.b.Pumps)), mostPumps, float64(len(c.b.Pipes))), Source: "definition"})
	c.add("pump.suited", float64(len(answer.Fit)), 1, sheet.Figure{Unit: sheet.Count,
		Working: "those of them that give the flow wanted and keep to every limit", Source: "definition"})
	row := func(name string, i int) {
		if i < 0 || i >= len(answer.Fit) {
			return
		}
		o := answer.Fit[i]
		m, size := c.b.Pumps[o.Model], c.b.Pipes[o.System]
		n, _ := money.ParseQuantity(strconv.Itoa(o.Count))
		buy := m.Price.Times(n).Add(c.pipeCost(size, o.Count)).ToCent()
		t.Rows = append(t.Rows, sheet.Row{Name: name, Plain: m.Name, Cells: []sheet.Cell{
			{Value: float64(o.Count)}, {Value: sheet.Quantise(size.InsideDiameterM*1000, 1e-3)},
			{Value: sheet.Quantise(o.Wanted.PowerW, powerStep)}, {Value: sheet.Quantise(o.Quiet.PowerW, powerStep)},
			{Amount: buy}, {Amount: o.Cost.ToCent().Sub(buy)}, {Amount: o.Cost.ToCent()},
		}, Mend: []sheet.Change{{Field: "model", Value: m.ID}, {Field: "pumps", Value: strconv.Itoa(o.Count)},
			{Field: "pipe", Value: size.NominalIn}, {Field: "discharge", Value: size.NominalIn}}})
	}
	row("best", 0)
	row("runner_up", 1)
	row("to_buy", answer.ToBuy)
	row("to_run", answer.ToRun)
	return t
}

// pipeCost is the price of both lines in one size.
func (c *circuit) pipeCost(size hydraulics.Size, count int) money.Amount {
	length := float64(count)*c.suction.LengthM + c.discharge.LengthM
	q, _ := money.ParseQuantity(num.Decimal(length, 3))
	return size.PricePerM.Times(q)
}
