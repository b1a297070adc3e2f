// Package core is the calculation as one call: a design and the builder's book
// in, a sheet out. It is pure and total: no I/O, no clock, no globals, and any
// design gives a sheet. Browser, server and command line call nothing else.
package core

import (
	"reflect"

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
func Compute(d design.Design, b Book) *sheet.Sheet { return Dig(d).Sheet(b) }

// Plan is where everything stands. A design that Check faults gives an empty
// plan.
func Plan(d design.Design, see Sight) sheet.Plan { return Dig(d).Plan(see) }

// Dug is a design that was checked and measured, for callers that ask more than
// once: to see it again in another way costs half. It is for one caller at a
// time, and the design is not to be changed.
type Dug struct {
	design design.Design
	hole   hole
	sound  bool
}

// Dig checks and measures a design.
func Dig(d design.Design) Dug {
	rim, faults := lay(d)
	if len(faults) > 0 {
		return Dug{design: d}
	}
	return Dug{d, dug(rim, d), true}
}

// Again is Dig for another design in the same hole; ok is false where its
// outline or its bowl is another one.
func (g Dug) Again(d design.Design) (again Dug, ok bool) {
	if !g.sound || !reflect.DeepEqual(d.Outline, g.design.Outline) || !reflect.DeepEqual(d.Bowl, g.design.Bowl) || len(design.Validate(d)) > 0 {
		return Dug{}, false
	}
	return Dug{d, g.hole, true}, true
}

// Sheet is Compute for what was dug.
func (g Dug) Sheet(b Book) *sheet.Sheet {
	if !g.sound {
		return faulty(b)
	}
	return figures(g.design, b, g.hole)
}

// Plan is the plan of what was dug.
func (g Dug) Plan(see Sight) sheet.Plan {
	if !g.sound {
		return sheet.Plan{}
	}
	return see.of(g.design, g.hole)
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
	g := Dig(d)
	return g.Sheet(b), g.Plan(see)
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
