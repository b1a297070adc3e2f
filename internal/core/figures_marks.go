package core

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/sheet"
)

// markApartM is the most that depth marks may stand apart: 25 ft, as one city
// asks of public pools. Source: dallas43.
const markApartM = 7.62

// markOutM is how far out from the edge a mark reads the water: one step.
const markOutM = 0.6

// depthMarks adds the schedule of depth marks: evenly along the rim, the first
// where the deepest place is nearest, each with the depth one step out.
//
// Source: dallas43.
// Checked: a rectangle with upright walls, by hand; never further apart than
// asked on the demo.
func depthMarks(s *sheet.Sheet, w hole) {
	rim := w.field.Rim()
	around := rim.PerimeterM()
	many := int(math.Ceil(around / markApartM))
	from := rim.AlongOf(w.measures.Deepest)
	t := sheet.Table{ID: "safety.depth_marks", Columns: []sheet.Column{
		{ID: "x", Unit: sheet.Metre}, {ID: "y", Unit: sheet.Metre}, {ID: "depth", Unit: sheet.Metre},
	}}
	for i := range many {
		spot := rim.Along(math.Mod(from+float64(float64(i)*around/float64(many)), around))
		in := design.Point{XM: spot.At.XM - float64(markOutM*spot.Out.XM), YM: spot.At.YM - float64(markOutM*spot.Out.YM)}
		t.Rows = append(t.Rows, sheet.Row{Name: strconv.Itoa(i + 1), Cells: []sheet.Cell{
			{Value: sheet.Quantise(spot.At.XM, fineStep)}, {Value: sheet.Quantise(spot.At.YM, fineStep)}, {Value: sheet.Quantise(w.field.Depth(in), 0.001)},
		}})
	}
	s.Tables = append(s.Tables, t)
}
