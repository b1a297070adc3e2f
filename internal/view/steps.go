package view

import (
	"sort"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Step is a pond with one answer a step further, as it is worded.
type Step struct {
	Name, Step string // "length", "34 ft to 35 ft"
	Variable   bool   // the pump that is drawn
	View       View
}

// StepRow is what a step does to the yearly bill.
type StepRow struct {
	Name, Step, By string
	Amount         float64 // for the bar only
}

// Bill is a year of the pump that is drawn, and of water.
func (v View) Bill(variable bool) (text string, ok bool) {
	a, ok := v.bills(variable)
	return v.page.Terms.Money(a).String(), ok
}

func (v View) bills(variable bool) (money.Amount, bool) {
	id := sheet.ID("power.single_cost")
	if variable {
		id = "power.variable_cost"
	}
	return v.page.Sheet.Amount(id).Add(v.page.Sheet.Amount("water.cost")), v.has(id)
}

// Steps orders steps by what they do to this pond's bill, the most first. A
// step to a pond without a pump has no bill and is left out.
func (v View) Steps(variable bool, steps []Step) []StepRow {
	now, ok := v.bills(variable)
	if !ok {
		return nil
	}
	type change struct {
		step Step
		by   money.Amount
	}
	var all []change
	for _, s := range steps {
		if then, ok := s.View.bills(s.Variable); ok {
			all = append(all, change{s, then.Sub(now)})
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return size(all[i].by).Cmp(size(all[j].by)) > 0 })
	var rows []StepRow
	for _, c := range all {
		rows = append(rows, StepRow{Name: c.step.Name, Step: c.step.Step, By: signed(v.page.Terms, c.by), Amount: c.by.Approx()})
	}
	return rows
}

func size(a money.Amount) money.Amount {
	if a.Sign() < 0 {
		return money.Amount{}.Sub(a)
	}
	return a
}

// signed is a change of an amount with its sign, to the cent below ten.
func signed(t measure.Terms, a money.Amount) string {
	text := t.Money(a).String()
	if x := a.Approx(); x > -10 && x < 10 {
		text = t.Exact(a).String()
	}
	if a.Sign() > 0 {
		return "+" + text
	}
	return text
}
