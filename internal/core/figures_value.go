package core

import (
	"strconv"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/sheet"
)

// valueFigures adds what ten years of a pond cost, all told and for each
// square metre of water, so that ponds of different size can be set side by
// side:
//
//	ten years = likely budget + ten years of the better pump + 10 × a year's water
//
// The better pump is the one with the lower ten years; those of variable speed
// already hold what the pump costs more to buy, which the budget leaves out.
// Water is at today's price. Repairs, care and the worth of money over time are
// left out. A pond without a budget or without a pump gets neither figure.
//
// Source: definition.
// Checked: three ponds by hand.
func valueFigures(s *sheet.Sheet) {
	single, found := s.Find("power.ten_year_single")
	if _, priced := s.Find("budget.likely"); !found || !priced {
		return
	}
	pump := single.Amount
	if v, ok := s.Find("power.ten_year_variable"); ok && v.Amount.Cmp(pump) <= 0 {
		pump = v.Amount
	}
	budget, water := s.Amount("budget.likely"), s.Amount("water.cost")
	years, _ := money.ParseQuantity(strconv.Itoa(yearsCounted))
	total := budget.Add(pump).Add(water.Times(years)).ToCent()
	s.Add(sheet.Figure{ID: "value.ten_years", Amount: total, Unit: sheet.Money, Source: "definition",
		Working: "= budget + pump + 10 × water = " + budget.Fixed(2) + " + " + pump.Fixed(2) + " + 10 × " + water.Fixed(2)})
	area := s.Value("pond.area")
	text := num.Decimal(area, 6)
	surface, err := money.Parse(text)
	if err != nil || surface.Sign() <= 0 {
		return
	}
	perM2, ok := money.Ratio(total, surface, 4)
	if !ok {
		return
	}
	amount, _ := money.Parse(perM2.String())
	s.Add(sheet.Figure{ID: "value.per_m2", Amount: amount.ToCent(), Unit: sheet.Money, Source: "definition",
		Working: "= ten years ÷ surface = " + total.Fixed(2) + " ÷ " + text + " m²"})
}
