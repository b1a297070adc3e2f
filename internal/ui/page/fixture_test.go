package page_test

import (
	"net/url"

	"tarnwright/internal/core/money"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/form"
	"tarnwright/internal/say"
	"tarnwright/internal/ui/page"
)

// sample is a sheet with the invented demo's figures, near enough to look at.
func sample() *sheet.Sheet {
	s := &sheet.Sheet{CoreVersion: 1}
	for _, f := range []sheet.Figure{
		{ID: "water.net_volume", Value: 67.8, Unit: sheet.CubicMetre}, {ID: "water.pond_part", Value: 62.65, Unit: sheet.CubicMetre},
		{ID: "water.zone_part", Value: 5.11, Unit: sheet.CubicMetre}, {ID: "pond.gross_volume", Value: 64, Unit: sheet.CubicMetre},
		{ID: "pond.area", Value: 53.9, Unit: sheet.SquareMetre}, {ID: "pond.mean_depth", Value: 1.17, Unit: sheet.Metre},
		{ID: "flow.duty", Value: 0.00946, Unit: sheet.CubicMPerS}, {ID: "flow.cascade", Value: 0.00946, Unit: sheet.CubicMPerS},
		{ID: "flow.wanted", Value: 0.00946, Unit: sheet.CubicMPerS}, {ID: "cascade.lip", Value: 1.524, Unit: sheet.Metre},
		{ID: "turnover.time", Value: 1.99, Unit: sheet.Hour}, {ID: "pump.head", Value: 3.5, Unit: sheet.Metre},
		{ID: "pump.head_static", Value: 0.79, Unit: sheet.Metre}, {ID: "pump.head_gravel", Value: 0.52, Unit: sheet.Metre},
		{ID: "pump.head_suction", Value: 0.4, Unit: sheet.Metre}, {ID: "pump.head_discharge", Value: 0.45, Unit: sheet.Metre},
		{ID: "pump.head_fittings", Value: 0.8, Unit: sheet.Metre}, {ID: "pump.head_intake", Value: 0.54, Unit: sheet.Metre},
		{ID: "pump.power", Value: 745, Unit: sheet.Watt}, {ID: "pump.variable_power", Value: 632, Unit: sheet.Watt}, {ID: "quiet.power", Value: 173, Unit: sheet.Watt},
		{ID: "quiet.flow", Value: 0.00473, Unit: sheet.CubicMPerS}, {ID: "quiet.head", Value: 1.46, Unit: sheet.Metre}, {ID: "quiet.speed", Value: 0.59, Unit: sheet.Ratio},
		{ID: "power.hours_cascade", Value: 1712, Unit: sheet.HourPerYear}, {ID: "power.hours_quiet", Value: 3424, Unit: sheet.HourPerYear},
		{ID: "water.top_up", Value: 69.6, Unit: sheet.CubicMetre},
		{ID: "power.single_cost", Amount: cash("612.00"), Unit: sheet.Money}, {ID: "power.variable_cost", Amount: cash("268.00"), Unit: sheet.Money},
		{ID: "water.cost", Amount: cash("114.00"), Unit: sheet.Money},
		{ID: "budget.low", Amount: cash("72000"), Unit: sheet.Money}, {ID: "budget.likely", Amount: cash("91000"), Unit: sheet.Money}, {ID: "budget.high", Amount: cash("118000"), Unit: sheet.Money},
	} {
		s.Add(f)
	}
	s.Tables = append(s.Tables, sheet.Table{ID: "budget.items", Columns: []sheet.Column{{ID: "likely", Unit: sheet.Money}, {ID: "share", Unit: sheet.Ratio}},
		Rows: []sheet.Row{{Plain: "Digging", Cells: []sheet.Cell{{Amount: cash("2000")}, {Value: 0.6}}}, {Plain: "Liner", Cells: []sheet.Cell{{Amount: cash("1500")}, {Value: 0.4}}}}})
	s.Findings = []sheet.Finding{
		{Code: "a", Severity: sheet.Care, Title: "Over head height at the deep end", Text: "6 ft 6 in at the deep end. Keep the ladder, and mark the 4 ft line with pale stones.", Place: sheet.AtDeepEnd},
		{Code: "b", Severity: sheet.Care, Title: "No diving from the deck", Text: "The water here is too shallow to dive into. Plan a sign and a low bench along this edge.", Place: sheet.AtDeck},
		{Code: "c", Severity: sheet.Care, Title: "Water in the 3 in pipe moves at 6.5 ft/s", Text: "In 4 in pipe it would move slower and need less head.", Place: sheet.AtPump, Mend: []sheet.Change{{Field: "pipe", Value: "4"}}},
		{Code: "d", Severity: sheet.Care, Title: "Fence and gate", Text: "Most towns want a barrier round open water. One is not in this budget yet.", Place: sheet.AroundGround, Mend: []sheet.Change{{Field: "fence", Value: "on"}}},
		{Code: "e", Severity: sheet.Fine, Title: "Beach slopes 1 in 5", Text: "Easy to walk in and out, with small round pebbles underfoot.", Place: sheet.AtBeach},
		{Code: "f", Severity: sheet.Fine, Title: "Gentle intake", Text: "A wide grate drawing under 0.5 ft/s, too slow to pull at hair or hands.", Place: sheet.AtIntake},
	}
	return s
}

func cash(text string) money.Amount {
	a, err := money.Parse(text)
	if err != nil {
		panic(err)
	}
	return a
}

func kit() page.Kit {
	return page.Kit{Words: say.English(), Project: "Alder Reach", Builder: page.Builder{
		Name: "Fernhollow Ponds", Short: "Fernhollow", Email: "hello@fernhollow.example", PrivacyURL: "/privacy", RetentionMonths: "18", Invented: true}}
}

func start(query string) page.State {
	v, err := url.ParseQuery(query)
	if err != nil {
		panic(err)
	}
	return page.New(v, form.Demo())
}

func built(s page.State) page.Model {
	return page.Build(s, page.Answered{Sheet: sample()}, kit())
}
