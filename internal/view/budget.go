package view

import (
	"math"
	"sort"
	"strings"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

func (v View) budget() Reading {
	r := Reading{ID: Budget, Title: v.page.Words.Say("view.budget"),
		Note:  v.line("view.budget.near"),
		How:   v.lines("view.budget.how.1", "view.budget.how.2"),
		Cited: v.cited("budget.likely")}
	low, likely, high := v.page.Sheet.Amount("budget.low"), v.page.Sheet.Amount("budget.likely"), v.page.Sheet.Amount("budget.high")
	if !v.has("budget.low") || !v.has("budget.high") {
		r.Figures = []measure.Shown{measure.None("")}
		return r
	}
	r.Figures = []measure.Shown{v.page.Terms.BudgetRange(low, high)}
	r.Staff = v.staff(low, likely, high)
	if d := v.drivers(); d != "" {
		r.How = append(r.How, v.page.Words.Say("view.budget.moves", d))
	}
	r.How = append(r.How, v.page.Words.Say("view.budget.rough"))
	return r
}

// staff rules a line wide enough for the range, at round amounts.
func (v View) staff(low, likely, high money.Amount) *Staff {
	lo, hi := low.Approx(), high.Approx()
	step := roundStep((hi - lo) / 2.5)
	from, to := math.Floor((lo-step/2)/step)*step, math.Ceil((hi+step/2)/step)*step
	from = math.Max(from, 0)
	at := func(x float64) float64 { return (x - from) / (to - from) }
	s := &Staff{Low: at(lo), Likely: at(likely.Approx()), High: at(hi),
		LowText: v.page.Terms.Budget(low).String(), HighText: v.page.Terms.Budget(high).String(), LikelyText: v.page.Terms.Budget(likely).String()}
	for n := 0.0; from+n*step <= to+step/2; n++ {
		x := from + n*step
		s.Marks = append(s.Marks, Mark{At: at(x), Text: measure.Symbol(v.page.Terms.Currency) + measure.Round(x/1000, 0) + "k"})
	}
	return s
}

// roundStep is 1, 2 or 5 times a power of ten, not below a thousand.
func roundStep(x float64) float64 {
	if !(x > 1000) {
		return 1000
	}
	p := math.Pow10(int(math.Floor(math.Log10(x))))
	switch {
	case x < 2*p:
		return 2 * p
	case x < 5*p:
		return 5 * p
	}
	return 10 * p
}

// drivers names up to three items that move the range most.
func (v View) drivers() string {
	t := v.page.Sheet.Table("budget.drivers")
	var names []string
	for _, r := range t.Rows {
		if len(names) < 3 {
			names = append(names, v.rowName(r))
		}
	}
	return strings.Join(names, "; ")
}

// rowName is a row's own words, or its code worded.
func (v View) rowName(r sheet.Row) string {
	if r.Plain != "" {
		return r.Plain
	}
	for _, key := range []string{r.Name, "row." + r.Name, "month." + r.Name, "figure." + r.Name} {
		if v.page.Words.Has(key) {
			return v.page.Words.Say(key)
		}
	}
	return r.Name
}

// Items is the budget's items, dearest first.
func (v View) Items() Table {
	t := v.page.Sheet.Table("budget.items")
	if len(t.Rows) == 0 {
		return Table{}
	}
	out := Table{Caption: v.page.Words.Say("view.budget"), Heads: []string{v.page.Words.Say("view.items.item")}}
	for _, c := range t.Columns {
		key := "view.items." + c.ID
		if c.ID == "crew_days" {
			key = "view.items.days"
		}
		out.Heads = append(out.Heads, v.page.Words.Say(key))
	}
	rows := append([]sheet.Row(nil), t.Rows...)
	sort.SliceStable(rows, func(i, j int) bool { return likely(t, rows[i]).Cmp(likely(t, rows[j])) > 0 })
	for _, r := range rows {
		out.Rows = append(out.Rows, v.cells(t, r))
	}
	return out
}

func likely(t sheet.Table, r sheet.Row) money.Amount {
	for i, c := range t.Columns {
		if c.ID == "likely" && i < len(r.Cells) {
			return r.Cells[i].Amount
		}
	}
	return money.Amount{}
}

// cells is a row of a sheet's table as text.
func (v View) cells(t sheet.Table, r sheet.Row) []string {
	row := []string{v.rowName(r)}
	for i, c := range t.Columns {
		if i >= len(r.Cells) {
			break
		}
		row = append(row, v.cell(c, r.Cells[i]))
	}
	return row
}

func (v View) cell(c sheet.Column, x sheet.Cell) string {
	switch {
	case c.Unit == sheet.Money:
		return v.page.Terms.Money(x.Amount).String()
	case strings.Contains(c.ID, "share"):
		return measure.Percent(x.Value).String()
	case c.ID == "crew_days":
		return measure.Round(x.Value, 1)
	case strings.HasSuffix(c.ID, "kwh"), strings.HasSuffix(c.ID, "hours"):
		return measure.Round(x.Value, 0)
	}
	return v.page.Words.Shown(v.page.Terms.Quantity(x.Value, c.Unit)).String()
}

// Table is a grid of texts; the first of each row names it.
type Table struct {
	Caption string
	Heads   []string
	Rows    [][]string
	// Total says that the last row closes the table.
	Total bool
}
