package say

// english gathers the parts of the catalogue; each subject keeps its own file.
func english() []map[string]string {
	return []map[string]string{
		handEnglish(), guideEnglish(),
		viewEnglish(), faultEnglish(), unitEnglish(),
		pageEnglish(), printEnglish(), serverEnglish(), tabletEnglish(),
		takeoffEnglish(), budgetEnglish(), safetyEnglish(), shapeEnglish(), circulationEnglish(), pumpEnglish(), runningEnglish(),
		compareEnglish(), postEnglish(), officeEnglish(), jetsEnglish(), askEnglish(),
	}
}
