package say

// printSpanish is printEnglish in the Spanish of the Americas.
func printSpanish() map[string]string {
	return map[string]string{
		"print.kind":           "Revisión aproximada del diseño",
		"print.size":           "{pond.length} de largo, {pond.width} de ancho, {pond.max_depth} de fondo",
		"print.how":            "Cómo se calculan las cifras",
		"print.know":           "Lo que hay que saber antes de nadar",
		"print.also":           "Prevea también: {0}.",
		"print.marks":          "Marcas de profundidad en la orilla, desde la parte honda en sentido contrario al reloj: {0}.",
		"print.volume":         "Volumen",
		"print.flow":           "Caudal",
		"print.turnover":       "Renovación",
		"print.head":           "Carga",
		"print.power":          "Electricidad",
		"print.power.how":      "{power.hours_cascade} con la cascada y {power.hours_quiet} en calma, a {0}. Una velocidad {pump.power}. Velocidad variable {pump.variable_power}, luego {quiet.power}.",
		"print.power.how.flow": "{power.hours_cascade} a caudal completo y {power.hours_quiet} en calma, a {0}. Una velocidad {pump.power}. Velocidad variable {pump.variable_power}, luego {quiet.power}.",
		"print.water":          "Agua",
		"print.with":           "Revisado con",
		"print.date":           "Fecha",
		"print.version":        "Cifras {0}, precios {1}.",
		"print.code":           "Escanee para abrir este estanque",
		"paper.title":          "En papel",
		"paper.says":           "Una página: dibujo, cifras, notas y el código de este estanque.",
		"paper.says.2":         "Dos páginas: una para usted y otra para el constructor, con cantidades, tuberías y precios.",
		"paper.both":           "Agregar la página del constructor",
		"paper.one":            "Quitar la página del constructor",
		"paper.builder":        "Para el constructor: cantidades y listas",
		"paper.takeoff":        "Cantidades",
		"paper.quantity":       "Concepto",
		"paper.amount":         "Cantidad",
		"marks.title":          "Marcas de profundidad en la orilla",
		"marks.mark":           "Marca",
		"marks.reads":          "Dice",
		"marks.says":           "Cada marca dice la profundidad a un paso de la orilla. La marca 1 está junto a la parte honda. Las demás siguen en sentido contrario al reloj.",
	}
}
