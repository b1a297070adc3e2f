package core

import (
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
)

// safetyFindings reads the core's rules and the builder's own against the
// figures.
func safetyFindings(s *sheet.Sheet, _ design.Design, b Book) {
	s.Findings = append(s.Findings, safety.Evaluate(safety.All(b.Rules), s)...)
}

// mendRules offers what the rules on pump and intake ask for: a pump of variable
// speed, if one serves, and a grate wide enough. The rules of the states on
// motors ask for the same pump as the country's, whose button is enough.
func mendRules(s *sheet.Sheet, u duty) {
	for i, f := range s.Findings {
		switch {
		case f.Code == "speed_rule" && u.Variable.Fits:
			s.Findings[i].Mend = []sheet.Change{{Field: "pump", Value: "variable"}}
		case f.Code == "intake_fast":
			s.Findings[i].Mend = []sheet.Change{{Field: "grate", Value: num.Decimal(s.Value("intake.least_open"), 4) + "m2"}}
		}
	}
}
