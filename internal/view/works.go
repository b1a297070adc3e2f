package view

import (
	"math"
	"sort"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/measure"
)

// Moves is what is behind the rough budget: where the money goes, what spreads
// the range, what could be left out, and the days.
type Moves struct {
	Shares  Table // every item, the largest part first
	Drivers Table // what spreads the range most
	Savings Table // what each feature left out would save
	Works   Works
}

// Works is the order of the works in working days.
type Works struct {
	Title, Says string
	Phases      []Phase
	Ends        float64 // the last working day
	Table       Table
}

// Phase is one step of the works, in working days.
type Phase struct {
	Name                             string
	Start, Work, Weather, Inspection float64
}

// Moves reads the budget's tables; it is empty where the sheet has none.
func (v View) Moves() Moves {
	if !v.has("budget.likely") {
		return Moves{}
	}
	return Moves{Shares: v.shares(), Drivers: v.swings(), Savings: v.savings(), Works: v.works()}
}

// head is a table with its heads worded by key.
func (v View) heads(caption string, keys ...string) Table {
	t := Table{Caption: v.page.Words.Say(caption)}
	for _, k := range keys {
		t.Heads = append(t.Heads, v.page.Words.Say(k))
	}
	return t
}

func (v View) shares() Table {
	t := v.page.Sheet.Table("budget.items")
	out := v.heads("moves.items", "view.items.item", "view.items.likely", "view.items.share")
	rows := append([]sheet.Row(nil), t.Rows...)
	sort.SliceStable(rows, func(i, j int) bool { return cellOf(t, rows[i], "share").Value > cellOf(t, rows[j], "share").Value })
	for _, r := range rows {
		out.Rows = append(out.Rows, []string{v.rowName(r), v.worth(cellOf(t, r, "likely").Amount), percent(cellOf(t, r, "share").Value)})
	}
	return out
}

// percent is a share of one; what is there and rounds to nothing says so.
func percent(share float64) string {
	if share > 0 && share < 0.005 {
		return "< 1%"
	}
	return measure.Percent(share).String()
}

// worth is an amount to the hundred: an item's cents would say too much.
func (v View) worth(a money.Amount) string { return v.page.Terms.Money(a.ToStep(100)).String() }

func (v View) swings() Table {
	t := v.page.Sheet.Table("budget.drivers")
	out := v.heads("moves.drivers", "moves.driver", "moves.swing")
	for _, r := range t.Rows {
		out.Rows = append(out.Rows, []string{v.rowName(r), "± " + v.worth(cellOf(t, r, "swing").Amount)})
	}
	return out
}

func (v View) savings() Table {
	t := v.page.Sheet.Table("budget.savings")
	out := v.heads("moves.savings", "moves.feature", "moves.saves")
	rows := append([]sheet.Row(nil), t.Rows...)
	sort.SliceStable(rows, func(i, j int) bool {
		return cellOf(t, rows[i], "saving").Amount.Cmp(cellOf(t, rows[j], "saving").Amount) > 0
	})
	for _, r := range rows {
		out.Rows = append(out.Rows, []string{v.rowName(r), v.worth(cellOf(t, r, "saving").Amount)})
	}
	return out
}

func (v View) works() Works {
	t := v.page.Sheet.Table("budget.works")
	w := Works{Title: v.page.Words.Say("works.title"), Says: v.line("works.says")}
	w.Table = v.heads("works.title", "works.phase", "works.start", "works.work", "works.weather", "works.inspection", "view.items.days")
	for _, r := range t.Rows {
		day := func(column string) float64 { return cellOf(t, r, column).Value }
		p := Phase{Name: v.rowName(r), Start: day("start"), Work: day("build"), Weather: day("weather"), Inspection: day("inspection")}
		w.Phases = append(w.Phases, p)
		w.Ends = math.Max(w.Ends, p.Start+p.Work+p.Weather+p.Inspection)
		w.Table.Rows = append(w.Table.Rows, []string{p.Name, halves(p.Start), halves(p.Work), halves(p.Weather), halves(p.Inspection), measure.Round(day("crew_days"), 1)})
	}
	return w
}

// halves shows days, with a half where there is one.
func halves(days float64) string {
	if days == math.Trunc(days) {
		return measure.Round(days, 0)
	}
	return measure.Round(days, 1)
}

// cellOf is a row's cell in a column, or an empty one.
func cellOf(t sheet.Table, r sheet.Row, column string) sheet.Cell {
	for i, c := range t.Columns {
		if c.ID == column && i < len(r.Cells) {
			return r.Cells[i]
		}
	}
	return sheet.Cell{}
}

// DepthMark is where a mark of the schedule stands and what it reads.
type DepthMark struct {
	At           sheet.XY
	Number, Text string
}

// DepthMarks is the schedule of depth marks round the rim, and the same as a
// table.
func (v View) DepthMarks() ([]DepthMark, Table) {
	t := v.page.Sheet.Table("safety.depth_marks")
	out := v.heads("marks.title", "marks.mark", "marks.reads")
	var marks []DepthMark
	for _, r := range t.Rows {
		m := DepthMark{At: sheet.XY{X: cellOf(t, r, "x").Value, Y: cellOf(t, r, "y").Value}, Number: r.Name,
			Text: v.page.Terms.Depth(cellOf(t, r, "depth").Value).String()}
		marks = append(marks, m)
		out.Rows = append(out.Rows, []string{m.Number, m.Text})
	}
	return marks, out
}
