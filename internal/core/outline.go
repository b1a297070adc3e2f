package core

import (
	"errors"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/sheet"
)

// outlineFault turns what the rim refuses into a fault at its field, with the
// place and the handles between which the outline meets itself.
func outlineFault(o design.Outline, err error) design.Fault {
	path := "outline"
	switch o.Shape {
	case design.Freehand:
		path = "outline.handles"
	case design.Polygon:
		path = "outline.vertices"
	}
	var crossing *geom.CrossingError
	if !errors.As(err, &crossing) {
		return design.Fault{Path: path, Code: "no_outline"}
	}
	return design.Fault{Path: path, Code: "crosses_itself", Args: []design.Arg{
		{Name: "x", Value: crossing.At.XM, Unit: "m"}, {Name: "y", Value: crossing.At.YM, Unit: "m"},
		{Name: "first", Value: float64(crossing.First + 1)}, {Name: "second", Value: float64(crossing.Second + 1)},
	}}
}

// Trial is the outline alone, to show one that cannot be a pond.
func Trial(o design.Outline) sheet.Plan { return layout.Trial(o) }
