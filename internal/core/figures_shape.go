package core

import (
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
)

// Steps of the shape's figures: far finer than anybody reads, so that what is
// worked out from them does not feel it.
const (
	lengthStep = 1e-6
	areaStep   = 1e-5
	volumeStep = 1e-5
	shareStep  = 1e-7
)

// shapeFigures adds what the outline and the bowl come to.
func shapeFigures(s *sheet.Sheet, d design.Design, w hole) {
	a := shapeAdder{s}
	a.size(w.rim, w.measures)
	a.depths(w.field, w.measures)
	a.features(d, w.field)
	a.steps(d.Bowl.Steps, w.measures)
	a.reach(d.Bowl.DeepM, w.measures.MaxDepthM)
	s.Tables = append(s.Tables, stageTable(w.measures))
}

type shapeAdder struct{ s *sheet.Sheet }

// reach says when the sides meet before the depth that was asked for.
func (a shapeAdder) reach(askedM, reachedM float64) {
	const hardlyLessM = 0.02
	if askedM-reachedM <= hardlyLessM {
		return
	}
	a.length("pond.deep_asked", askedM, "as asked for", "asked")
	a.s.Findings = append(a.s.Findings, sheet.Finding{
		Code: "deep_not_reached", Severity: sheet.Care, Source: "definition", Place: sheet.AtDeepEnd,
		Figures: []sheet.ID{"pond.max_depth", "pond.deep_asked"},
		Mend:    []sheet.Change{{Field: "deep", Value: num.Decimal(reachedM, 2) + " m"}},
	})
}

func (a shapeAdder) length(id sheet.ID, valueM float64, working string, key source.Key) {
	a.s.Add(sheet.Figure{ID: id, Value: valueM, Step: lengthStep, Unit: sheet.Metre, Working: working, Source: key})
}

func (a shapeAdder) area(id sheet.ID, valueM2 float64, working string, key source.Key) {
	a.s.Add(sheet.Figure{ID: id, Value: valueM2, Step: areaStep, Unit: sheet.SquareMetre, Working: working, Source: key})
}

func (a shapeAdder) ratio(id sheet.ID, valueRatio float64, working string, key source.Key) {
	a.s.Add(sheet.Figure{ID: id, Value: valueRatio, Step: shareStep, Unit: sheet.Ratio, Working: working, Source: key})
}

// size adds the outline's own figures and the water's.
func (a shapeAdder) size(rim geom.Rim, m geom.Measures) {
	n := strconv.Itoa(len(rim.Points()))
	a.length("pond.length", m.LengthM, "= x max − x min, before turning", "definition")
	a.length("pond.width", m.WidthM, "= y max − y min, before turning", "definition")
	a.length("pond.rectangle_length", m.RectangleLengthM, "long side of the smallest rectangle round the water", "freeman1975")
	a.length("pond.rectangle_width", m.RectangleWidthM, "short side of the smallest rectangle round the water", "freeman1975")
	a.area("pond.area", m.AreaM2, "= ½ |Σ (x y' − x' y)| over "+n+" points of the edge", "definition")
	a.length("pond.perimeter", m.PerimeterM, "= Σ √(Δx² + Δy²) over "+n+" points of the edge", "definition")
	a.s.Add(sheet.Figure{
		ID: "pond.gross_volume", Value: m.GrossVolumeM3, Step: volumeStep, Unit: sheet.CubicMetre,
		Working: volumeWorking(m), Source: "steiner1840",
	})
	v, area := a.s.Value("pond.gross_volume"), a.s.Value("pond.area")
	a.length("pond.mean_depth", v/area, "= V / A = "+num.Decimal(v, 5)+" / "+num.Decimal(area, 5), "definition")
	a.area("pond.developed_area", m.DevelopedAreaM2,
		"= Σ ΔA √(1 + s²) + faces = "+num.Decimal(m.DevelopedAreaM2-m.FaceAreaM2, 5)+" + "+num.Decimal(m.FaceAreaM2, 5), "steiner1840")
	a.area("pond.face_area", m.FaceAreaM2, "= Σ height × length of the vertical faces", "steiner1840")
	a.area("pond.flat_area", m.FlatAreaM2, "= Σ ΔA where the bottom is no steeper than 1 in 3", "practice")
	a.area("pond.floor_area", m.FloorAreaM2, "= Σ ΔA of the level floor", "steiner1840")
	a.ratio("pond.volume_error", m.VolumeErrorRatio, "= 2 × water missed by the strips + what the chords leave", "steiner1840")
}

// volumeWorking adds up the depth table: between two stages the water is the
// mean of their areas times the step, nearly; the sum is exact.
func volumeWorking(m geom.Measures) string {
	out := "= Σ of the depth table ="
	for i := 1; i < len(m.Stages); i++ {
		if i > 1 {
			out += " +"
		}
		out += " " + num.Decimal(m.Stages[i-1].VolumeM3-m.Stages[i].VolumeM3, 6)
	}
	return out
}

// depths adds how deep it is and how much of it.
func (a shapeAdder) depths(f *geom.Field, m geom.Measures) {
	a.length("pond.max_depth", m.MaxDepthM, "deepest place of the bowl", "definition")
	a.length("pond.longest_section", m.LongestSectionM, "longest straight line over the water through the deepest place", "definition")
	levels := []float64{0.6, 1.2, 1.5, 1.8}
	ids := []sheet.ID{"pond.deeper_0_6", "pond.deeper_1_2", "pond.deeper_1_5", "pond.deeper_1_8"}
	shares := []float64{m.Deeper06Share, m.Deeper12Share, m.Deeper15Share, m.Deeper18Share}
	area := a.s.Value("pond.area")
	for i, id := range ids {
		working := "= A(" + num.Decimal(levels[i], 1) + " m) / A = " + num.Decimal(shares[i]*area, 7) + " / " + num.Decimal(area, 5)
		a.ratio(id, shares[i], working, "steiner1840")
	}
	a.length("beach.width", f.BeachWidthM(), "along the edge", "asked")
}

// features adds the sizes of what stands around the water.
func (a shapeAdder) features(d design.Design, f *geom.Field) {
	run := 0.0
	if d.Bowl.Beach != nil {
		run = d.Bowl.Beach.RunPerRiseRatio
	}
	a.ratio("beach.run_per_rise", run, "n of 1 in n", "asked")
	deck := 0.0
	working := "no deck"
	if d.Deck != nil {
		deck = d.Deck.LengthM * d.Deck.WidthM
		working = "= l w = " + num.Decimal(d.Deck.LengthM, 6) + " × " + num.Decimal(d.Deck.WidthM, 6)
	}
	a.area("deck.area", deck, working, "definition")
	a.length("deck.water_depth", layout.DeckWaterM(d, f), "depth 0.6 m out from the middle of the deck's edge", "definition")
	zone := 0.0
	if d.Zone != nil {
		zone = d.Zone.AreaM2
	}
	a.area("zone.area", zone, "as asked for", "asked")
	var lip, rise float64
	if d.Cascade != nil {
		lip, rise = d.Cascade.LipM, d.Cascade.RiseM
	}
	a.length("cascade.lip", lip, "as asked for", "asked")
	a.length("cascade.rise", rise, "as asked for", "asked")
	a.length("pump.distance", d.Circulation.PumpFromWaterM, "as asked for", "asked")
}

// steps adds the flight into the water, and says where the bottom is no deeper
// than it.
func (a shapeAdder) steps(st *design.Steps, m geom.Measures) {
	if st == nil {
		st = &design.Steps{}
	}
	a.s.Add(sheet.Figure{ID: "steps.count", Value: float64(st.Count), Step: 1, Unit: sheet.Count, Working: "as asked for", Source: "asked"})
	a.area("steps.tread_area", m.TreadAreaM2, "= Σ ΔA of the treads that stand clear of the bowl", "steiner1840")
	a.length("steps.width", st.WidthM, "as asked for", "asked")
	a.length("steps.tread", st.TreadM, "as asked for", "asked")
	a.length("steps.riser", st.RiserM, "as asked for", "asked")
	n := float64(st.Count)
	a.length("steps.foot_depth", n*st.RiserM, "= steps × riser = "+num.Decimal(n, 0)+" × "+num.Decimal(st.RiserM, 6), "definition")
	const mostlyShare = 0.5
	if n > 0 && m.TreadAreaM2 < mostlyShare*n*st.WidthM*st.TreadM {
		a.s.Findings = append(a.s.Findings, sheet.Finding{Code: "steps_buried", Severity: sheet.Care, Source: "definition",
			Figures: []sheet.ID{"steps.tread_area", "steps.foot_depth"}})
	}
}

// stageTable is the water left when the pond is drawn down.
func stageTable(m geom.Measures) sheet.Table {
	t := sheet.Table{ID: "pond.stages", Columns: []sheet.Column{
		{ID: "depth", Unit: sheet.Metre}, {ID: "area", Unit: sheet.SquareMetre}, {ID: "volume", Unit: sheet.CubicMetre},
	}}
	for _, st := range m.Stages {
		t.Rows = append(t.Rows, sheet.Row{Name: "stage", Cells: []sheet.Cell{
			{Value: sheet.Quantise(st.DepthM, lengthStep)},
			{Value: sheet.Quantise(st.AreaM2, areaStep)},
			{Value: sheet.Quantise(st.VolumeM3, volumeStep)},
		}})
	}
	return t
}
