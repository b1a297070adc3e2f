package say

// askEnglish words the questions on the pump's day and year, the price of power
// and the jets.
func askEnglish() map[string]string {
	return map[string]string{
		"ask.sheet":           "Water over it",
		"ask.jets":            "Jets",
		"ask.jets.note":       "Under water, on a pipe of their own",
		"ask.jets.0":          "None",
		"ask.nozzle":          "Mouth of a jet",
		"ask.jet_pipe":        "Pipe to the jets",
		"ask.cascade_hours":   "Cascade, a day",
		"ask.hours.note":      "From noon, in high season. Spring and fall get less.",
		"ask.night":           "At night",
		"ask.night.quiet":     "Quiet as by day",
		"ask.night.slow":      "Slower still",
		"ask.night.off":       "Off",
		"ask.winter":          "Other months",
		"ask.winter.off":      "Pump rests",
		"ask.winter.slow":     "Slow all day",
		"ask.winter.note":     "A pump that rests must be drained before frost.",
		"ask.bill":            "Price of power",
		"ask.bill.average":    "Average",
		"ask.bill.own":        "My own",
		"ask.bill.tariff":     "Tariff",
		"ask.bill.average.is": "Average price of homes in the state",
		"ask.bill.own.is":     "The price on my own bill",
		"ask.bill.tariff.is":  "The tariff that the builder has on file",
		"ask.home_use":        "Home’s own use",
		"ask.home_use.note":   "A month, without the pond",
		"ask.tariff.note":     "{0}. The pond’s part is your bill with it less your bill without it.",
		"ask.tariff.name":     "The builder’s tariff: {0}",

		"field.sheet":         "Water over the lip",
		"field.jets":          "Jets",
		"field.nozzle":        "Mouth of a jet",
		"field.jet_pipe":      "Pipe to the jets",
		"field.cascade_hours": "Hours of the cascade",
		"field.night":         "Pump at night",
		"field.winter":        "Pump in other months",
		"field.bill":          "Price of power",
		"field.home_use":      "The home’s own use",

		"field.circulation.jets":               "Jets",
		"field.circulation.jets.count":         "Number of jets",
		"field.circulation.jets.nozzle_m":      "Mouth of a jet",
		"field.circulation.jets.nozzle_head_m": "Head at the jets",
		"field.circulation.jets.line":          "Pipe to the jets",
		"field.circulation.night_flow_ratio":   "Share of the flow at night",
		"field.circulation.winter_flow_ratio":  "Share of the flow in winter",

		"try.sheet":     "Try {0} of water over the lip",
		"try.lip.sheet": "Try a lip of {0}, with more water on it",
		"try.jet_pipe":  "Try {0} in pipe to the jets",
		"try.jets.0":    "Try without jets",
	}
}
