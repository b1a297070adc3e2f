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
const Version = 2

// Check returns everything wrong with a design at once: what design.Validate
// finds, and an outline that crosses itself.
func Check(d design.Design) []design.Fault {
	_, faults := lay(d)
	return faults
}

// Compute works out every figure of a design. A design that Check faults gives
// a sheet with no figures and one finding, "design_faulty".
func Compute(d design.Design, b Book) *sheet.Sheet {
	rim, faults := lay(d)
	if len(faults) > 0 {
		return faulty(b)
	}
	return figures(d, b, dug(rim, d))
}

// Plan is where everything stands. A design that Check faults gives an empty
// plan.
func Plan(d design.Design, see Sight) sheet.Plan {
	rim, faults := lay(d)
	if len(faults) > 0 {
		return sheet.Plan{}
	}
	return see.of(d, dug(rim, d))
}

// Sight is what a plan is to show beside the water: the depths of its
// contours, and the bearings of the section's two ends; without those it runs
// through the deepest place. Quick draws the contours coarser, for a drawing
// that follows a finger: no figure depends on it.
type Sight struct {
	LevelsM, CutDeg []float64
	Quick           bool
}

func (see Sight) of(d design.Design, w hole) sheet.Plan {
	return layout.Of(d, w.field, w.measures, layout.Sight{LevelsM: see.LevelsM, CutDeg: see.CutDeg, Quick: see.Quick})
}

// Answer is Compute and Plan in one, which measures the pond once.
func Answer(d design.Design, b Book, see Sight) (*sheet.Sheet, sheet.Plan) {
	rim, faults := lay(d)
	if len(faults) > 0 {
		return faulty(b), sheet.Plan{}
	}
	w := dug(rim, d)
	return figures(d, b, w), see.of(d, w)
}

// lay is the water's edge of a design, or everything wrong with it.
func lay(d design.Design) (geom.Rim, []design.Fault) {
	faults := design.Validate(d)
	if len(faults) > 0 {
		return geom.Rim{}, faults
	}
	rim, err := geom.NewRim(d.Outline)
	if err != nil {
		faults = append(faults, outlineFault(d.Outline, err))
	}
	return rim, faults
}

func faulty(b Book) *sheet.Sheet {
	return &sheet.Sheet{CoreVersion: Version, Book: b.Version, Findings: []sheet.Finding{
		{Code: "design_faulty", Severity: sheet.Care, Source: "definition"}}}
}

// hole is a pond dug under its edge, and measured.
type hole struct {
	rim      geom.Rim
	field    *geom.Field
	measures geom.Measures
}

func dug(rim geom.Rim, d design.Design) hole {
	f := geom.NewField(rim, d.Bowl)
	return hole{rim, f, geom.Measure(f)}
}

func figures(d design.Design, b Book, w hole) *sheet.Sheet {
	s := &sheet.Sheet{CoreVersion: Version, Book: b.Version}
	shapeFigures(s, d, w)
	takeoffFigures(s, d, b, w.measures)
	depthMarks(s, w)
	u := circulationFigures(s, d, b)
	networkFigures(s, d)
	runningFigures(s, d, b, u)
	waterFigures(s, d, b)
	budgetFigures(s, d, b)
	valueFigures(s)
	safetyFindings(s, d, b)
	mendRules(s, u)
	s.SortFindings()
	return s
}
