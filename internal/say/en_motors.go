package say

const motorsDecide = "The rule’s own text has the last word. Ask before you buy a pump."

// safetyMotors words the rules on motors of pool pumps.
func safetyMotors() map[string]string {
	return map[string]string{
		"speed_rule.title":         "A rule on motors with one speed",
		"speed_rule.text":          "In the United States, most new motors for pool pumps of 1.15 to 5 hp must be able to change speed. From 28 September 2027 the rule starts at half a horsepower.",
		"speed_rule.defers":        motorsDecide,
		"speed_rule_states.title":  "Some states ask for more",
		"speed_rule_states.text":   "California, for one, asks for two speeds or more in most pool pump motors of 1 hp and up. Some states do the same. Such rules change.",
		"speed_rule_states.defers": "Ask the state which one holds now.",
		"speed_rule_met.title":     "A motor that can change speed",
		"speed_rule_met.text":      "In the United States, most new motors for pool pumps of 1.15 to 5 hp must be able to. From 28 September 2027 the rule starts at half a horsepower.",
		"speed_rule_met.defers":    motorsDecide,
		"speed_rule_apart.title":   "A pump that stands in the water",
		"speed_rule_apart.text":    "The rule on motors for pool pumps leaves it out. A mains pump in water that people swim in is a grave risk.",
		"speed_rule_apart.defers":  electricianDecides,
	}
}
