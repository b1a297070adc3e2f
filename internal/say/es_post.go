package say

// postSpanish is postEnglish in the Spanish of the Americas.
func postSpanish() map[string]string {
	return map[string]string{
		"letter.subject":  "Consulta de estanque {0}: {1}",
		"letter.opening":  "{0} pregunta por un estanque. Responda a esta carta para escribirle.",
		"letter.call":     "{0} pregunta por un estanque; se le puede llamar por teléfono.",
		"letter.name":     "Nombre",
		"letter.email":    "Correo",
		"letter.phone":    "Teléfono",
		"letter.town":     "Ciudad",
		"letter.start":    "Quisiera empezar",
		"letter.note":     "Escribió:",
		"letter.pond":     "Su estanque:",
		"letter.notes":    "Lo primero que hay que mirar:",
		"letter.more":     "y {0} más",
		"letter.differs":  "Su página mostraba otras cifras: {0}. Las de aquí son las del servidor.",
		"letter.other":    "Calculado otra vez a partir del diseño. La consulta vino con {0}, esta carta es de {1}.",
		"letter.consent":  "Estuvo de acuerdo con esto:",
		"letter.see":      "Para verlo todo, con cada cifra: {0}",
		"letter.received": "Recibida el {0} (UTC)",
	}
}
