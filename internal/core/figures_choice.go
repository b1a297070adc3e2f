package core

import (
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/hydraulics"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/power"
	"tarnwright/internal/core/pump"
	"tarnwright/internal/core/sheet"
)

// yearsCounted is how far ahead a choice looks.
const yearsCounted = 10

// usualPerKWh ranks pumps where the design states no price of electricity: the
// mean of all homes of the United States in 2022, 16.00 cents.
const usualPerKWh = "0.16"

// tenYears is what an option costs in ten years: pumps, pipe, and electricity
// at today's price. It ranks; the bill itself is worked out by the tariff.
func (c *circuit) tenYears(m pump.Model, o pump.Option) money.Amount {
	n, _ := money.ParseQuantity(strconv.Itoa(o.Count))
	price, err := money.ParsePrice(c.d.Site.ElectricityPerKWh)
	if err != nil {
		price, _ = money.ParsePrice(usualPerKWh)
	}
	cascade, quiet := c.hours()
	kWh := yearsCounted * (cascade*o.Wanted.PowerW + quiet*o.Quiet.PowerW) / 1000
	energy, _ := money.ParseQuantity(num.Decimal(kWh, 3))
	return m.Price.Times(n).Add(price.Times(energy))
}

// hours are the hours a year in each mode.
func (c *circuit) hours() (cascade, quiet float64) {
	if c.hoursCascade == 0 && c.hoursQuiet == 0 {
		c.hoursCascade = float64(power.PumpTimes(c.d.Running, design.CascadeMode).YearMin()) / 60
		c.hoursQuiet = float64(power.PumpTimes(c.d.Running, design.QuietMode).YearMin()) / 60
	}
	return c.hoursCascade, c.hoursQuiet
}

// mostPumps is how many pumps side by side the whole choice tries.
const mostPumps = 3

// choice tries every pump, count and size of pipe against the flow wanted and
// the limits of velocity, and names the cheapest over ten years, the runner-up,
// the cheapest to buy and the cheapest to run.
func (c *circuit) choice() sheet.Table {
	t := sheet.Table{ID: "pump.choice", Columns: []sheet.Column{
		{ID: "count", Unit: sheet.Count}, {ID: "bore", Unit: sheet.Millimetre}, {ID: "power", Unit: sheet.Watt},
		{ID: "quiet_power", Unit: sheet.Watt}, {ID: "ten_years", Unit: sheet.Money},
	}}
	q := c.question(c.b.Pumps)
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
	row := func(name string, i int) {
		if i < 0 || i >= len(answer.Fit) {
			return
		}
		o := answer.Fit[i]
		t.Rows = append(t.Rows, sheet.Row{Name: name, Plain: c.b.Pumps[o.Model].Name, Cells: []sheet.Cell{
			{Value: float64(o.Count)}, {Value: sheet.Quantise(c.b.Pipes[o.System].InsideDiameterM*1000, 1e-3)},
			{Value: sheet.Quantise(o.Wanted.PowerW, powerStep)}, {Value: sheet.Quantise(o.Quiet.PowerW, powerStep)},
			{Amount: o.Cost.ToCent()},
		}})
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
