package say

// guideSpanish is guideEnglish in the Spanish of the Americas.
func guideSpanish() map[string]string {
	return map[string]string{
		"guide.steps":     "Pasos",
		"guide.at":        "Paso {0} de {1}",
		"guide.back":      "Atrás",
		"guide.next":      "Sigue: {0}",
		"guide.end":       "Seguridad y envío",
		"guide.ask.steps": "Preguntar paso a paso",
		"guide.ask.all":   "Ver todas las preguntas",

		"begin.choose": "Elija una forma para empezar",
		"begin.starts": "Empieza con {0} × {1} y {2} de fondo. Después se puede cambiar todo.",
	}
}
