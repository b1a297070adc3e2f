package say

// compareEnglish is what stands where ponds are set side by side.
func compareEnglish() map[string]string {
	words := map[string]string{}
	for _, part := range []map[string]string{compareFigures(), comparePage()} {
		for key, text := range part {
			words[key] = text
		}
	}
	return words
}

func compareFigures() map[string]string {
	return map[string]string{
		"figure.value.ten_years": "Ten years, all told",
		"how.value.ten_years":    "The likely budget, ten years of the better pump and ten years of water at today’s price. Repairs and care are left out.",
		"figure.value.per_m2":    "Ten years, for each part of the surface",
		"how.value.per_m2":       "Ten years, all told, by the surface of the water.",

		"compare.volume":   "Water volume",
		"compare.surface":  "Water surface",
		"compare.flow":     "Circulation, turnover",
		"compare.duty":     "Pump duty",
		"compare.single":   "Electricity a year, single-speed",
		"compare.variable": "Electricity a year, variable-speed",
		"compare.water":    "Make-up water, a year",
		"compare.budget":   "Likely budget",
		"compare.per_ft2":  "Ten-year cost a square foot",
		"compare.per_m2":   "Ten-year cost a square meter",
		"compare.table":    "The options side by side",
		"compare.size":     "{pond.length} × {pond.width}",

		"compare.fall":          "{cascade.lip} cascade",
		"compare.fall.flow":     "no cascade",
		"compare.bill.pays":     "The variable-speed pump costs {power.extra_price} more, saves {power.saving} a year and is paid for in {0}.",
		"compare.bill.late":     "The variable-speed pump saves {power.saving} a year, so the {power.extra_price} it costs more would take {0}. Over ten years it does not pay.",
		"compare.bill.never":    "The variable-speed pump saves nothing here, so it does not pay.",
		"compare.bill.free":     "The variable-speed pump costs no more to buy and saves {power.saving} a year.",
		"compare.bill.one":      "Only one kind of pump in the catalogue suits this pond.",
		"compare.year":          "1 year",
		"compare.years":         "{0} years",
		"compare.month":         "1 month",
		"compare.months":        "{0} months",
		"compare.at_once":       "no time",
		"compare.purse":         "What each pump comes to",
		"compare.purse.kwh":     "Electricity, a year",
		"compare.purse.year":    "Its cost, a year",
		"compare.purse.extra":   "Costs more to buy",
		"compare.purse.payback": "Paid for after",
		"compare.purse.ten":     "Ten years, dearer price and all",
		"compare.purse.present": "Ten years of saving, in today’s money",
		"compare.purse.carbon":  "Carbon dioxide, a year",
	}
}

func comparePage() map[string]string {
	return map[string]string{
		"page.view.compare":     "Compare",
		"compare.title.1":       "One option so far",
		"compare.title.2":       "Two options",
		"compare.title.3":       "Three options",
		"compare.lede":          "Drawn at one scale.",
		"compare.lede.price":    "Same power and water price.",
		"compare.depth":         "Depth, {0}",
		"compare.depth.us":      "feet",
		"compare.depth.metric":  "meters",
		"compare.how":           "How these are worked out",
		"compare.drawn":         "As drawn",
		"compare.option":        "Option {0}",
		"compare.unlike":        "Unlike {0}: {1}.",
		"compare.alike":         "The same as {0}.",
		"compare.outline":       "another outline",
		"compare.best":          "Best value",
		"compare.best.2":        "Best value of the two",
		"compare.best.3":        "Best value of the three",
		"compare.best.variable": "{0}, with a variable-speed pump",
		"compare.best.single":   "{0}, with a single-speed pump",
		"compare.best.none":     "No best value can be told",
		"compare.rule":          "Likely budget, the better pump, its electricity and water over ten years, for each square foot of water. The lowest wins.",
		"compare.rule.metric":   "Likely budget, the better pump, its electricity and water over ten years, for each square meter of water. The lowest wins.",
		"compare.buy":           "better buy",
		"compare.open":          "Open in Draw",
		"compare.change":        "Name, copy, move",
		"compare.name":          "Name",
		"compare.copy":          "Duplicate",
		"compare.copied":        "{0}, copied",
		"compare.left":          "Move before",
		"compare.right":         "Move after",
		"compare.drop":          "Remove",
		"compare.link":          "Link to this option",
		"compare.add":           "Add an option",
		"compare.add.why":       "A start to look at. Open it in Draw to change it.",
		"compare.longer":        "Add: longer and narrower",
		"compare.smaller":       "Add: smaller, no cascade",
		"compare.longer.name":   "Longer swim",
		"compare.smaller.name":  "Small and still",
		"compare.add.copy":      "Add: a copy of {0}",
		"compare.side":          "Options side by side",
		"compare.months.which":  "Months of which option",
		"compare.plan":          "{0}, plan: {1}",
		"compare.spoken":        "{0}: {1}",
		"compare.in_hand":       "Draw, Pump and Safety show this one.",
		"compare.strip":         "Ten-year cost for each part of the surface: {0}",
		"compare.purse.note":    "Electricity gets {0} dearer each year. A saving counts {1} less for each year it has to wait.",
		"compare.purse.grid":    "Carbon: {0}.",
		"compare.purse.leaves":  "Repairs and a new pump are left out.",
		"compare.last_good":     "An answer of this pond cannot be read. These figures are for the last pond that could be worked out.",
		"compare.steps.title":   "What one step does to the yearly bill",
		"compare.steps.show":    "Work out the steps",
		"compare.steps.hide":    "Hide the steps",
		"compare.steps.lede":    "{0}, with the pump that is drawn: {1} a year for electricity and water. Each bar is one step up of one answer, the rest left as they are.",
		"compare.steps.what":    "Answer",
		"compare.steps.step":    "One step",
		"compare.steps.by":      "A year",
		"compare.steps.from":    "{0} to {1}",
		"compare.months.rest":   "pump resting",
		"compare.months.title":  "Pump electricity by month: {0}",
		"compare.months.single": "Single {power.single_cost}",
		"compare.months.var":    "Variable {power.variable_cost}",
	}
}
