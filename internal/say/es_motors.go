package say

// motorsSpanish says in Spanish what safetyMotors says.
func motorsSpanish() map[string]string {
	const decides = "El texto de la regla tiene la última palabra. Pregunte antes de comprar una bomba."
	return map[string]string{
		"finding.speed_rule.title":         "Una regla sobre motores de una velocidad",
		"finding.speed_rule.text":          "En Estados Unidos, la mayoría de los motores nuevos para bombas de alberca de 1.15 a 5 hp deben poder cambiar de velocidad. Desde el 28 de septiembre de 2027 la regla empieza en medio caballo.",
		"finding.speed_rule.defers":        decides,
		"finding.speed_rule_states.title":  "Algunos estados piden más",
		"finding.speed_rule_states.text":   "California, por ejemplo, pide dos velocidades o más en la mayoría de los motores de bombas de alberca de 1 hp o más. Otros estados hacen lo mismo. Esas reglas cambian.",
		"finding.speed_rule_states.defers": "Pregunte al estado cuál vale hoy.",
		"finding.speed_rule_met.title":     "Un motor que puede cambiar de velocidad",
		"finding.speed_rule_met.text":      "En Estados Unidos, la mayoría de los motores nuevos para bombas de alberca de 1.15 a 5 hp deben poder hacerlo. Desde el 28 de septiembre de 2027 la regla empieza en medio caballo.",
		"finding.speed_rule_met.defers":    decides,
		"finding.speed_rule_apart.title":   "Una bomba que está en el agua",
		"finding.speed_rule_apart.text":    "La regla sobre motores de bombas de alberca no la incluye. Una bomba conectada a la red, en agua donde se nada, es un riesgo grave.",
		"finding.speed_rule_apart.defers":  "Un electricista con licencia y su norma local tienen la última palabra.",
	}
}
