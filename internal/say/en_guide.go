package say

// guideEnglish leads from question to question.
func guideEnglish() map[string]string {
	return map[string]string{
		"guide.steps":     "Steps",
		"guide.at":        "Step {0} of {1}",
		"guide.back":      "Back",
		"guide.next":      "Next: {0}",
		"guide.end":       "Safety & send",
		"guide.ask.steps": "Ask one step at a time",
		"guide.ask.all":   "Show all questions at once",

		"begin.choose": "Choose a shape to begin",
		"begin.starts": "It starts at {0} × {1} and {2} deep. Change anything after.",
	}
}
