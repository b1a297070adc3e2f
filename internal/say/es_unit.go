package say

// unitSpanish is unitEnglish in the Spanish of the Americas.
func unitSpanish() map[string]string {
	return map[string]string{
		"page.lang":       "es",
		"page.other":      "en",
		"page.other.name": "English",
		"region.us":       "Todo Estados Unidos",
		"unit.day":        "día",
		"unit.days":       "días",
		"unit.month":      "mes",
		"unit.months":     "meses",
		"unit.year":       "año",
		"unit.years":      "años",
		"unit.h a year":   "h al año",
		"unit.tons":       "toneladas",
		"unit.a day":      "al día",
		"unit.one_in":     "1 en {0}",
	}
}
