package say

// budgetEnglish words the rough budget.
func budgetEnglish() map[string]string {
	return map[string]string{
		"figure.budget.low":           "Budget, low",
		"how.budget.low":              "One pond in ten like this one costs less. It is rough, and not a quote.",
		"figure.budget.likely":        "Budget, likely",
		"how.budget.likely":           "Half of all ponds like this one cost less, half cost more. It is rough, and not a quote.",
		"figure.budget.high":          "Budget, high",
		"how.budget.high":             "One pond in ten like this one costs more. It is rough, and not a quote.",
		"figure.budget.step":          "Rounded to",
		"how.budget.step":             "The range is wide, so small change would say too much.",
		"figure.budget.crew_days":     "Crew days",
		"how.budget.crew_days":        "Days of work for one crew, item by item.",
		"figure.budget.calendar_days": "Days from start to end",
		"how.budget.calendar_days":    "Work days, days lost to weather, waits for the inspector, and days off.",

		"driver.market":      "Prices in general",
		"driver.size":        "The true size of the pond",
		"driver.contingency": "Rock, access and soil not seen yet",
		"item.contingency":   "Set aside for rock, access and soil",
		"budget.caution":     "A rough range at this builder’s usual prices. It is not a quote. Rock, access and soil can move it a lot.",
		"budget.left_out":    "Leaving it out saves about",

		"moves.title":      "What moves the budget",
		"moves.items":      "Where the money goes",
		"moves.drivers":    "What moves the range most",
		"moves.driver":     "Cause",
		"moves.swing":      "Either way",
		"moves.savings":    "What leaving it out saves",
		"moves.feature":    "Left out",
		"moves.saves":      "Saves about",
		"moves.all":        "All items",
		"moves.share":      "The share is of the average cost, so what may run high counts for more.",
		"works.title":      "Order of the works",
		"works.says":       "About {budget.crew_days|days} of work for the crew. From start to end it takes {budget.calendar_days|days}, with time for bad weather and the inspector.",
		"works.axis":       "Working days from the start",
		"works.phase":      "Step",
		"works.start":      "Starts after",
		"works.work":       "Work",
		"works.weather":    "Weather",
		"works.inspection": "Inspection",
	}
}
