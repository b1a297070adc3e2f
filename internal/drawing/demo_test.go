package drawing_test

import (
	"math"
	"strconv"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/layout"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/drawing"
)

const footM = 0.3048

// demo is an invented pond with everything on it.
func demo() design.Design {
	return design.Design{
		Version: 1,
		Outline: design.Outline{Shape: design.Bean, LengthM: 34 * footM, WidthM: 21 * footM},
		Bowl: design.Bowl{
			DeepM: 6.5 * footM,
			Wall:  []design.Knot{{}, {InsetM: 0.10, DepthM: 0.30}, {InsetM: 0.45, DepthM: 0.30}, {InsetM: 1.03842, DepthM: 1.9812}},
			Beach: &design.Beach{BearingDeg: 270, WidthM: 3.6, RunPerRiseRatio: 5, ToeDepthM: 0.45, DescentRunPerRiseRatio: 2.4},
		},
		Zone:    &design.Zone{AreaM2: 14.68, DepthM: 0.9144, PoreRatio: 0.38, LoadingMPerH: 1.5},
		Cascade: &design.Cascade{LipM: 5 * footM, RiseM: 0.76, SheetM: 0.025, Lip: design.BroadLip, BearingDeg: 10},
		Deck:    &design.Deck{LengthM: 11 * footM, WidthM: 7 * footM, BearingDeg: 150},
		Circulation: design.Circulation{
			TurnoverH: 2, PumpFromWaterM: 1.2, PumpBearingDeg: 75, IntakeBearingDeg: 95, PumpCount: 1, Drive: design.SingleSpeed, QuietFlowRatio: 0.4,
		},
	}
}

func plan(d design.Design) sheet.Plan {
	var levels []float64
	for z := footM; z < d.Bowl.DeepM; z += footM {
		levels = append(levels, z)
	}
	return layout.Plan(d, levels)
}

func feet(m float64) string {
	in := int(math.Round(m / footM * 12))
	switch {
	case in%12 == 0:
		return strconv.Itoa(in/12) + " ft"
	case in < 12:
		return strconv.Itoa(in) + " in"
	}
	return strconv.Itoa(in/12) + " ft " + strconv.Itoa(in%12) + " in"
}

func number(m float64) string {
	return strconv.FormatFloat(math.Round(m/footM*10)/10, 'f', -1, 64)
}

func options(d design.Design) drawing.Options {
	return drawing.Options{
		ID: "t", Rings: drawing.Drag,
		Words: drawing.Words{
			Title: "Plan and section of the pond", Description: "A bean of 34 by 21 ft with a beach in the west.",
			Zone: "Regeneration zone", ZoneNote: "158 sq ft, planted gravel", Cascade: "Cascade", CascadeNote: "5 ft lip",
			Deck: "Timber deck", Steps: "Steps", DeckNote: "11 × 7 ft", Beach: "Pebble beach", Pump: "Pump", Intake: "Intake", DeepEnd: "Deep end",
			North: "N", Depth: "Depth", Section: "Section, beach to deep end", DepthEvery: func(m float64) string { return "Depth every " + feet(m) },
			Adult: "Adult, 5 ft 9 in", Child: "Child, 3 ft 11 in", WaterLine: "Water line", Liner: "Liner", Gravel: "Gravel, 4 in",
			LengthText: feet(d.Outline.LengthM), WidthText: feet(d.Outline.WidthM), DeepAt: feet(d.Bowl.DeepM),
			Ring: func(i int) string { return "Ring " + strconv.Itoa(i+1) }, Length: feet, Number: number,
		},
	}
}
