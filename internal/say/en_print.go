package say

// printEnglish words the depth marks and the printed page.
func printEnglish() map[string]string {
	return map[string]string{
		"print.kind":           "Rough design check",
		"print.size":           "{pond.length} long, {pond.width} wide, {pond.max_depth} deep",
		"print.how":            "How the figures are worked out",
		"print.know":           "To know before you swim",
		"print.also":           "Plan for these too: {0}.",
		"print.marks":          "Depth marks round the edge, from the deep end against the clock: {0}.",
		"print.volume":         "Volume",
		"print.flow":           "Flow",
		"print.turnover":       "Turnover",
		"print.head":           "Head",
		"print.power":          "Electricity",
		"print.power.how":      "{power.hours_cascade} with the cascade and {power.hours_quiet} quiet, at {0}. Single-speed {pump.power}. Variable-speed {pump.variable_power}, then {quiet.power}.",
		"print.power.how.flow": "{power.hours_cascade} at full flow and {power.hours_quiet} quiet, at {0}. Single-speed {pump.power}. Variable-speed {pump.variable_power}, then {quiet.power}.",
		"print.water":          "Water",
		"print.with":           "Discussed with",
		"print.date":           "Date",
		"print.version":        "Figures {0}, prices {1}.",

		"print.code": "Scan to open this pond",

		"paper.title":    "On paper",
		"paper.says":     "One page: drawing, figures, notes and the code of this pond.",
		"paper.says.2":   "Two pages: one for you, and one for the builder with quantities, pipes and prices.",
		"paper.both":     "Add the builder’s page",
		"paper.one":      "Leave the builder’s page out",
		"paper.builder":  "For the builder: takeoff and schedules",
		"paper.takeoff":  "Takeoff",
		"paper.quantity": "Quantity",
		"paper.amount":   "Amount",

		"marks.title": "Depth marks round the edge",
		"marks.mark":  "Mark",
		"marks.reads": "Reads",
		"marks.says":  "Each mark reads the water one step out from the edge. Mark 1 is by the deep end. The rest follow against the clock.",
	}
}
