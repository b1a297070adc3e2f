package core

import (
	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
)

// mostDrivers is how many drivers of the spread are shown.
const mostDrivers = 5

// budgetFigures adds the rough budget: three figures, what it is rounded to,
// days, and its tables.
func budgetFigures(s *sheet.Sheet, d design.Design, b Book) {
	e := budget.Make(b.Prices, s, d.Site.SizeToleranceRatio)
	amount := func(id sheet.ID, a money.Amount, working string) {
		s.Add(sheet.Figure{ID: id, Unit: sheet.Money, Amount: a, Working: working, Source: "wilsonhilferty1931"})
	}
	of := func(rank string, ratio float64) string {
		return "= " + rank + " of items, market, set-aside and size together = " + digits(ratio) + " × " + e.Base.String()
	}
	amount("budget.low", e.Low, of("P10", e.LowRatio))
	amount("budget.likely", e.Likely, of("P50", e.LikelyRatio))
	amount("budget.high", e.High, of("P90", e.HighRatio))
	s.Add(sheet.Figure{ID: "budget.step", Unit: sheet.Money, Amount: money.Cents(e.StepUnits * 100), Source: "practice",
		Working: "= power of ten that the spread holds 20 times or more: " + e.High.Sub(e.Low).String()})
	s.Add(sheet.Figure{ID: "budget.crew_days", Value: e.CrewDays, Step: 0.01, Unit: sheet.Day, Source: "builder", Working: crewWorking(e)})
	s.Add(sheet.Figure{ID: "budget.calendar_days", Value: e.CalendarDays, Step: 1, Unit: sheet.Day, Source: "builder",
		Working: with("= work, weather and inspections × 7 ÷ workdays, up to a whole day = %s × 7 ÷ %s", e.WorkDays, float64(b.Prices.Works.WorkdaysPerWeek))})
	s.Tables = append(s.Tables, itemTable(e), driverTable(e), savingTable(e), worksTable(e))
}

func crewWorking(e budget.Estimate) string {
	text := "="
	for i, st := range e.Stages {
		if i > 0 {
			text += " +"
		}
		text += " " + digits(st.CrewDays)
	}
	if len(e.Stages) == 0 {
		text += " 0"
	}
	return text
}

func itemTable(e budget.Estimate) sheet.Table {
	t := sheet.Table{ID: "budget.items", Columns: []sheet.Column{
		{ID: "low", Unit: sheet.Money}, {ID: "likely", Unit: sheet.Money}, {ID: "high", Unit: sheet.Money},
		{ID: "share", Unit: sheet.Ratio}, {ID: "crew_days", Unit: sheet.Day},
	}}
	for _, l := range e.Lines {
		t.Rows = append(t.Rows, sheet.Row{Name: "item." + l.ID, Plain: l.Name, Cells: []sheet.Cell{
			{Amount: l.Range.Low}, {Amount: l.Range.Likely}, {Amount: l.Range.High}, {Value: l.MeanShare}, {Value: l.CrewDays},
		}})
	}
	return t
}

func driverTable(e budget.Estimate) sheet.Table {
	t := sheet.Table{ID: "budget.drivers", Columns: []sheet.Column{{ID: "share", Unit: sheet.Ratio}, {ID: "swing", Unit: sheet.Money}}}
	for i, dr := range e.Drivers {
		if i == mostDrivers {
			break
		}
		t.Rows = append(t.Rows, sheet.Row{Name: "driver." + dr.ID, Plain: dr.Name, Cells: []sheet.Cell{{Value: dr.VarianceShare}, {Amount: dr.Swing}}})
	}
	return t
}

func savingTable(e budget.Estimate) sheet.Table {
	t := sheet.Table{ID: "budget.savings", Columns: []sheet.Column{{ID: "saving", Unit: sheet.Money}}}
	for _, sv := range e.Savings {
		t.Rows = append(t.Rows, sheet.Row{Name: "feature." + sv.Feature, Plain: sv.Name, Cells: []sheet.Cell{{Amount: sv.Amount}}})
	}
	return t
}

func worksTable(e budget.Estimate) sheet.Table {
	t := sheet.Table{ID: "budget.works", Columns: []sheet.Column{
		{ID: "start", Unit: sheet.Day}, {ID: "build", Unit: sheet.Day}, {ID: "weather", Unit: sheet.Day}, {ID: "inspection", Unit: sheet.Day}, {ID: "crew_days", Unit: sheet.Day},
	}}
	for _, st := range e.Stages {
		t.Rows = append(t.Rows, sheet.Row{Name: "phase." + st.ID, Plain: st.Name, Cells: []sheet.Cell{
			{Value: st.StartDays}, {Value: st.BuildDays}, {Value: st.WeatherDays}, {Value: st.InspectionDays}, {Value: st.CrewDays},
		}})
	}
	return t
}
