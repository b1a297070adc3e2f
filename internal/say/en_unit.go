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
	}
}
