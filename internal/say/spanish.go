package say

// spanish gathers the parts of the catalogue in Spanish, as english does.
func spanish() []map[string]string {
	return []map[string]string{
		budgetSpanish(),
		circulationSpanish(),
		compareSpanish(),
		faultSpanish(),
		guideSpanish(),
		handSpanish(),
		pageSpanish(),
		postSpanish(),
		printSpanish(),
		pumpSpanish(),
		runningSpanish(),
		safetySpanish(),
		serverSpanish(),
		shapeSpanish(),
		tabletSpanish(),
		takeoffSpanish(),
		unitSpanish(),
		viewSpanish(),
	}
}
