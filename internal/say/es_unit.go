package say

// unitSpanish is unitEnglish in the Spanish of the Americas.
func unitSpanish() map[string]string {
	return map[string]string{
		"page.lang":                            "es",
		"page.other":                           "en",
		"page.other.name":                      "English",
		"region.us":                            "Todo Estados Unidos",
		"unit.day":                             "día",
		"unit.days":                            "días",
		"unit.month":                           "mes",
		"unit.months":                          "meses",
		"unit.year":                            "año",
		"unit.years":                           "años",
		"unit.h a year":                        "h al año",
		"unit.tons":                            "toneladas",
		"unit.a day":                           "al día",
		"unit.one_in":                          "1 en {0}",
		"known.by definition":                  "por definición",
		"known.read in the source":             "leído en la fuente",
		"known.read as quoted by another text": "leído como lo cita otro texto",
		"known.from memory":                    "de memoria",
		"known.common practice, no source":     "práctica común, sin fuente",
		"known.the builder's own figure":       "cifra del constructor",
		"cited.definition":                     "Por definición",
		"cited.asked":                          "Como se pidió en el diseño",
		"cited.practice":                       "Práctica común, sin fuente",
		"cited.builder":                        "Cifra del constructor",
		"cited.tariff":                         "La tarifa del constructor o el precio de su casa: el recibo con el estanque menos el recibo sin él",

		"unit.sq ft":           "ft²",
		"unit./ sq ft":         "/ ft²",
		"unit.cu yd":           "yd³",
		"unit.gal/min a sq ft": "gal/min por ft²",
	}
}
