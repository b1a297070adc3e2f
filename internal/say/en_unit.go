package say

// unitEnglish words the few units that are words, and the language itself.
func unitEnglish() map[string]string {
	return map[string]string{
		"page.lang":       "en",
		"page.other":      "es",
		"page.other.name": "Español",
		"region.us":       "All of the United States",
		"unit.day":        "day",
		"unit.days":       "days",
		"unit.month":      "month",
		"unit.months":     "months",
		"unit.year":       "year",
		"unit.years":      "years",
		"unit.h a year":   "h a year",
		"unit.tons":       "tons",
		"unit.a day":      "a day",
		"unit.one_in":     "1 in {0}",
		// How a number is known: package source names the ways.
		"known.by definition":                  "by definition",
		"known.read in the source":             "read in the source",
		"known.read as quoted by another text": "read as quoted by another text",
		"known.from memory":                    "from memory",
		"known.common practice, no source":     "common practice, no source",
		"known.the builder's own figure":       "the builder's own figure",
		"cited.definition":                     "By definition",
		"cited.asked":                          "As asked for in the design",
		"cited.practice":                       "Common practice, no source",
		"cited.builder":                        "The builder's own figure",
		"cited.tariff":                         "The builder's tariff, or the home's own price: the bill with the pond less the bill without it",

		"unit.sq ft":           "sq ft",
		"unit./ sq ft":         "/ sq ft",
		"unit.cu yd":           "cu yd",
		"unit.gal/min a sq ft": "gal/min a sq\u00a0ft",
	}
}
