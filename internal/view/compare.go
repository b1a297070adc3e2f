package view

import (
	"strings"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Contender is one of several ponds set side by side.
type Contender struct {
	Size  string            // "34 ft × 21 ft, 5 ft cascade"
	Cells [][]measure.Shown // under Comparison.Labels
	// Bars are the single-speed and the variable-speed pump; Share is of the
	// longest of all ponds.
	Bars    []Bar
	Better  string // which of them is the better buy: "single", "variable" or ""
	PerArea measure.Shown
	Dot     float64 // the same as a place on the strip
	Bill    string  // what the pump's bill comes to, in plain words
}

// Comparison is several ponds as a person reads them.
type Comparison struct {
	Labels   []string // of each row; the bars and the closing row come by name
	Single   string
	Variable string
	PerArea  string
	Ponds    []Contender
	Best     int // the best value, -1 where none can be told
	Table    Table
}

// Places of the rows before and after the two bars.
const (
	rowsBeforeBars = 4
	rowsAfterBars  = 2
)

// Compare sets views of ponds side by side. The best value is the one that
// costs least in ten years for each part of its surface.
func Compare(vs []View, names []string) Comparison {
	if len(vs) == 0 {
		return Comparison{Best: -1}
	}
	w := vs[0].page.Words
	c := Comparison{Best: -1, Single: w.Say("compare.single"), Variable: w.Say("compare.variable"), PerArea: vs[0].perAreaLabel()}
	for _, key := range []string{"volume", "surface", "flow", "duty", "water", "budget"} {
		c.Labels = append(c.Labels, w.Say("compare."+key))
	}
	most := 0.0
	for _, v := range vs {
		most = max(most, v.page.Sheet.Amount("power.single_cost").Approx(), v.page.Sheet.Amount("power.variable_cost").Approx())
	}
	var least money.Amount
	for i, v := range vs {
		c.Ponds = append(c.Ponds, v.contender(most))
		if f, ok := v.page.Sheet.Find("value.per_m2"); ok && (c.Best < 0 || f.Amount.Cmp(least) < 0) {
			c.Best, least = i, f.Amount
		}
	}
	c.Table = c.grid(names, w.Say("compare.table"))
	return c
}

func (v View) perAreaLabel() string {
	if v.page.Terms.System == measure.Metric {
		return v.page.Words.Say("compare.per_m2")
	}
	return v.page.Words.Say("compare.per_ft2")
}

func (v View) contender(most float64) Contender {
	duty := v.figure("pump.head")
	duty.Unit = strings.TrimSpace(duty.Unit)
	low, high := v.page.Sheet.Amount("budget.low"), v.page.Sheet.Amount("budget.high")
	c := Contender{
		Size: v.line("compare.size") + ", " + v.line(v.falling("compare.fall")),
		Cells: [][]measure.Shown{
			{v.form("water.net_volume", "", sheet.CubicMetre)}, {v.form("pond.area", "", sheet.SquareMetre)},
			{v.form("flow.duty", "", sheet.CubicMPerS), v.form("turnover.time", "", sheet.Hour)},
			{v.form("flow.duty", "minute", sheet.CubicMPerS), duty},
			{v.figure("water.cost")},
			{v.figure("budget.likely"), {Unit: v.page.Terms.BudgetRange(low, high).String()}},
		},
		Better:  v.better(),
		PerArea: v.figure("value.per_m2"),
		Bill:    v.bill(),
	}
	if v.page.Terms.System == measure.US {
		c.PerArea = v.page.Terms.PerArea(v.page.Sheet.Amount("value.per_m2"))
	}
	if !v.has("value.per_m2") {
		c.PerArea = measure.None("")
	}
	c.Dot = v.perArea()
	for _, kind := range []string{"single", "variable"} {
		id := sheet.ID("power." + kind + "_cost")
		b := Bar{Label: v.page.Words.Say("compare." + kind), Amount: v.figure(id), Solid: kind == "variable"}
		if most > 0 {
			b.Share = v.page.Sheet.Amount(id).Approx() / most
		}
		c.Bars = append(c.Bars, b)
	}
	return c
}

// perArea is the ten-year cost of a unit of surface as a number, for the strip.
func (v View) perArea() float64 {
	const m2PerSqFoot = 0.09290304
	x := v.page.Sheet.Amount("value.per_m2").Approx()
	if v.page.Terms.System == measure.US {
		x *= m2PerSqFoot
	}
	return x
}

// better is the pump that costs less in ten years, its price and all.
func (v View) better() string {
	switch {
	case !v.has("power.ten_year_single"):
		return ""
	case v.page.Sheet.Amount("power.ten_year_variable").Cmp(v.page.Sheet.Amount("power.ten_year_single")) <= 0:
		return "variable"
	}
	return "single"
}

// bill says in one sentence what the dearer pump does for this pond's bill.
func (v View) bill() string {
	saving, extra := v.page.Sheet.Amount("power.saving"), v.page.Sheet.Amount("power.extra_price")
	key := "compare.bill.pays"
	switch {
	case !v.has("pump.head"):
		return v.page.Words.Say("view.duty.none")
	case !v.has("power.saving"):
		key = "compare.bill.one"
	case extra.Sign() <= 0 && v.better() == "variable":
		key = "compare.bill.free"
	case saving.Sign() <= 0:
		key = "compare.bill.never"
	case v.better() == "single":
		key = "compare.bill.late"
	}
	return v.line(key, v.payback())
}

// payback is how long the dearer pump takes to pay for itself.
func (v View) payback() string {
	months := int(v.page.Sheet.Value("power.payback_months") + 0.5)
	years, rest := months/12, months%12
	w := v.page.Words
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{{years, "compare.year", "compare.years"}, {rest, "compare.month", "compare.months"}} {
		switch p.n {
		case 0:
		case 1:
			parts = append(parts, w.Say(p.one))
		default:
			parts = append(parts, w.Say(p.many, measure.Round(float64(p.n), 0)))
		}
	}
	if len(parts) == 0 {
		return w.Say("compare.at_once")
	}
	return strings.Join(parts, " ")
}

// grid is the same as a table, for those who cannot see columns and bars.
func (c Comparison) grid(names []string, caption string) Table {
	t := Table{Caption: caption, Heads: append([]string{""}, names...), Total: true}
	row := func(label string, of func(Contender) string) {
		r := []string{label}
		for _, p := range c.Ponds {
			r = append(r, of(p))
		}
		t.Rows = append(t.Rows, r)
	}
	cell := func(i int) func(Contender) string {
		return func(p Contender) string { return joined(p.Cells[i]) }
	}
	for i := range rowsBeforeBars {
		row(c.Labels[i], cell(i))
	}
	row(c.Single, func(p Contender) string { return p.Bars[0].Amount.String() })
	row(c.Variable, func(p Contender) string { return p.Bars[1].Amount.String() })
	for i := rowsBeforeBars; i < rowsBeforeBars+rowsAfterBars; i++ {
		row(c.Labels[i], cell(i))
	}
	row(c.PerArea, func(p Contender) string { return p.PerArea.Number })
	return t
}

func joined(figures []measure.Shown) string {
	var parts []string
	for _, f := range figures {
		parts = append(parts, strings.TrimSpace(strings.TrimLeft(f.String(), "\u00a0")))
	}
	return strings.Join(parts, ", ")
}

// Purse is what each pump comes to over the years: bought, run, paid back, and
// what the grid gives off for it.
func (v View) Purse() Table {
	w := v.page.Words
	t := Table{Caption: w.Say("compare.purse"), Heads: []string{"", w.Say("view.power.single"), w.Say("view.power.var")}}
	if !v.has("power.single_cost") {
		return Table{}
	}
	pair := func(key, single, variable string) {
		t.Rows = append(t.Rows, []string{w.Say(key), single, variable})
	}
	both := func(key string, single, variable sheet.ID) {
		pair(key, v.figure(single).String(), v.figure(variable).String())
	}
	none := measure.None("").String()
	if modes := v.Powers().Rows; len(modes) > 0 { // each mode with its hours, the year's bill left out
		t.Rows = append(t.Rows, modes[:len(modes)-1]...)
	}
	both("compare.purse.kwh", "power.single_kwh", "power.variable_kwh")
	both("compare.purse.year", "power.single_cost", "power.variable_cost")
	if v.has("power.saving") {
		pair("compare.purse.extra", none, v.figure("power.extra_price").String())
		back := none
		if v.has("power.payback_months") {
			back = v.payback()
		}
		pair("compare.purse.payback", none, back)
		both("compare.purse.ten", "power.ten_year_single", "power.ten_year_variable")
		pair("compare.purse.present", none, v.figure("power.present_saving").String())
	}
	both("compare.purse.carbon", "power.carbon_single", "power.carbon_variable")
	return t
}

// Workings are the figures of a comparison, each with how it is worked out.
func (v View) Workings() []string {
	var out []string
	for _, id := range []sheet.ID{"water.net_volume", "pond.area", "flow.duty", "turnover.time", "pump.head",
		"power.single_cost", "power.variable_cost", "water.cost", "budget.likely", "value.ten_years", "value.per_m2"} {
		if how := v.page.Words.How(id); how != "" {
			out = append(out, v.page.Words.Name(id)+": "+how)
		}
	}
	return out
}
