package say

// spanish gathers the parts of the catalogue in Spanish, as english does.
func spanish() []map[string]string {
	return []map[string]string{
		askSpanish(),
		budgetSpanish(),
		circulationSpanish(),
		compareSpanish(),
		faultSpanish(),
		guideSpanish(),
		handSpanish(),
		officeSpanish(),
		jetsSpanish(),
		motorsSpanish(),
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
