package say

// runningEnglish words the year's electricity, the water bill and the level.
func runningEnglish() map[string]string {
	words := map[string]string{}
	for _, part := range []map[string]string{runningPower(), runningWater(), runningLevel()} {
		for key, text := range part {
			words[key] = text
		}
	}
	return words
}

func runningPower() map[string]string {
	return map[string]string{
		"figure.power.hours_cascade":   "Hours with the cascade",
		"how.power.hours_cascade":      "Your hours on each day of your season, counted to the minute. Clock changes are left out: over a whole year they cancel.",
		"figure.power.hours_quiet":     "Quiet hours",
		"how.power.hours_quiet":        "Your quiet hours on each day of your season. Where both are set, the cascade runs.",
		"figure.power.single_kwh":      "Electricity, single-speed",
		"how.power.single_kwh":         "What the single-speed pump draws, times its hours.",
		"figure.power.variable_kwh":    "Electricity, variable-speed",
		"how.power.variable_kwh":       "What the variable-speed pump draws in each mode, times the hours of that mode.",
		"figure.power.single_cost":     "A year’s electricity, single-speed",
		"how.power.single_cost":        "Your bill with the pump less your bill without it. Each line is rounded to the cent once. Fixed charges stay the same and cancel.",
		"figure.power.variable_cost":   "A year’s electricity, variable-speed",
		"how.power.variable_cost":      "Your bill with the pump less your bill without it. Each line is rounded to the cent once. Fixed charges stay the same and cancel.",
		"figure.power.saving":          "Saved in a year by variable speed",
		"how.power.saving":             "One bill less the other. Less than nothing means it costs more.",
		"figure.power.extra_price":     "Variable speed costs more to buy",
		"how.power.extra_price":        "The price of one pump less that of the other, from the builder’s list.",
		"figure.power.payback_months":  "Months until it has paid for itself",
		"how.power.payback_months":     "What it costs more to buy, by what it saves in a month at today’s prices. Repairs are left out.",
		"figure.power.ten_year_single": "Ten years, single-speed",
		"how.power.ten_year_single":    "Ten years of electricity, dearer each year by the rise you set. Repairs and a new pump are left out.",

		"figure.power.ten_year_variable": "Ten years, variable-speed",
		"how.power.ten_year_variable":    "Ten years of electricity, dearer each year by the rise you set, and what the pump costs more to buy.",
		"figure.power.present_saving":    "Ten years of saving, in today’s money",
		"how.power.present_saving":       "Each year’s saving counts less the later it comes, by the rate you set. What the pump costs more is taken off.",
		"figure.power.other_kwh":         "Electricity for the rest",
		"how.power.other_kwh":            "Air, lights and the like: what each draws, times its hours.",
		"figure.power.other_cost":        "A year’s electricity for the rest",
		"how.power.other_cost":           "Your bill with them less your bill without them. The pump comes on top.",
		"figure.power.carbon_single":     "Carbon dioxide a year, single-speed",
		"how.power.carbon_single":        "The electricity times what your grid gives off for each unit, in the year that the builder’s file states. Grids differ by a factor of four.",
		"figure.power.carbon_variable":   "Carbon dioxide a year, variable-speed",
		"how.power.carbon_variable":      "The electricity times what your grid gives off for each unit, in the year that the builder’s file states. Grids differ by a factor of four.",

		"finding.variable_pays.title":         "Variable speed pays",
		"finding.variable_pays.text":          "It saves {0} a year and has paid for itself after {1}.",
		"finding.variable_does_not_pay.title": "Variable speed does not pay here",
		"finding.variable_does_not_pay.text":  "Over ten years it costs {0}, and single-speed {1}. The plain pump is the better buy.",
	}
}

func runningWater() map[string]string {
	return map[string]string{
		"figure.water.surface":      "Surface that dries",
		"how.water.surface":         "The pond and the planted gravel, which gives off about as much.",
		"figure.water.evaporation":  "Water into the air, a year",
		"how.water.evaporation":     "Penman’s equation for open water, month by month, from sun, wind, warmth and damp at this place in a normal year. Shade and shelter are left out.",
		"figure.water.rain":         "Rain on the water, a year",
		"how.water.rain":            "The rain of a normal year on the surface alone. Nothing is counted that runs in from around.",
		"figure.water.splash":       "Lost to splash, a year",
		"how.water.splash":          "A share of what dries, while the cascade runs. No published number was found, so set your own.",
		"figure.water.clean_out":    "Let out to clean, a year",
		"how.water.clean_out":       "A share of all the water, once a year when the season starts. Set your own share.",
		"figure.water.top_up":       "Top-up, a year",
		"how.water.top_up":          "Each month’s losses less its rain, and the clean-out. Rain that is too much runs over the edge and helps no other month. Leaks are left out.",
		"figure.water.top_up_depth": "Top-up as depth",
		"how.water.top_up_depth":    "The year’s top-up spread over the surface.",
		"figure.water.cost":         "A year’s water",
		"how.water.cost":            "Each month’s top-up on your water price, to the cent. Sewer charges and fixed charges are left out.",
	}
}

func runningLevel() map[string]string {
	return map[string]string{
		"figure.level.overnight_drop": "Drop to expect overnight",
		"how.level.overnight_drop":    "Half of what a day takes in the month that dries most. With the cascade off. It is a rule of thumb.",
		"figure.level.leak_drop":      "Drop that points to a leak",
		"how.level.leak_drop":         "Twice that, and a little for reading the mark. It is a rule of thumb.",
		"level.bucket.1":              "Fill the pond to its mark, and turn pump and filler off.",
		"level.bucket.2":              "Stand a bucket on a step in the pond, filled to the level outside it, and mark both.",
		"level.bucket.3":              "Look after a day without rain. Both dry alike, so if the pond fell further than the bucket, it leaks.",
		"level.bucket.4":              "Then do it again with the pump on. If only that shows a drop, look at pipes, cascade and planted gravel.",
	}
}
