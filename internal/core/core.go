// Package core is the calculation as one call: a design and the builder's book
// in, a sheet out. It is pure and total: no I/O, no clock, no globals, and any
// design gives a sheet. Browser, server and command line call nothing else.
package core

import (
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/sheet"
)

// Version is the version of the figures: it goes up when any of them moves,
// with a line in DEVELOPERS.md that says why. It is on every lead and print,
// so that an old one can be explained.
const Version = 1

// Check returns everything wrong with a design at once: what design.Validate
// finds, and an outline that crosses itself.
func Check(d design.Design) []design.Fault {
	faults := design.Validate(d)
	if len(faults) > 0 {
		return faults
	}
	if _, err := geom.NewRim(d.Outline); err != nil {
		faults = append(faults, outlineFault(d.Outline, err))
	}
	return faults
}

// Compute works out every figure of a design. A design that Check faults gives
// a sheet with no figures and one finding, "design_faulty".
func Compute(d design.Design, b Book) *sheet.Sheet {
	s := &sheet.Sheet{CoreVersion: Version, Book: b.Version}
	if len(Check(d)) > 0 {
		s.Findings = append(s.Findings, sheet.Finding{Code: "design_faulty", Severity: sheet.Care, Source: "definition"})
		return s
	}
	m := shapeFigures(s, d)
	takeoffFigures(s, d, b, m)
	u := circulationFigures(s, d, b)
	runningFigures(s, d, b, u)
	waterFigures(s, d, b)
	budgetFigures(s, d, b)
	valueFigures(s)
	safetyFindings(s, d, b)
	s.SortFindings()
	return s
}

// Plan is where everything stands, with the areas deeper than each level. A
// design that Check faults gives an empty plan.
func Plan(d design.Design, levelsM []float64) sheet.Plan {
	if len(Check(d)) > 0 {
		return sheet.Plan{}
	}
	return layout.Plan(d, levelsM)
}
