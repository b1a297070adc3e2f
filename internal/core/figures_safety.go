package core

import (
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
)

// safetyFindings reads the core's rules and the builder's own against the
// figures.
func safetyFindings(s *sheet.Sheet, _ design.Design, b Book) {
	s.Findings = append(s.Findings, safety.Evaluate(safety.All(b.Rules), s)...)
}

// otherKind offers a pump of variable speed, if one serves, where a rule speaks
// against one of a single speed.
func otherKind(s *sheet.Sheet, u duty) {
	for i, f := range s.Findings {
		if (f.Code == "speed_rule" || f.Code == "speed_rule_states") && u.Variable.Fits {
			s.Findings[i].Mend = []sheet.Change{{Field: "pump", Value: "variable"}}
		}
	}
}
