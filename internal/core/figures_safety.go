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
