package book

import (
	"tarnwright/internal/core"
	"tarnwright/internal/core/budget"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/jsonfile"
)

// together finds what the files ask of each other and do not get: a price or a
// rule that names a figure no sheet has would be silent for ever.
func together(b core.Book, docs map[string]*jsonfile.Doc) []Fault {
	s := core.Compute(probe(b), b)
	var faults []Fault
	add := func(file, path, code string) {
		faults = append(faults, docs[file].FaultAt(path, code, path+" "+remedy(code)))
	}
	for _, f := range budget.PriceBook.Unmet(b.Prices, s) {
		add(pricesName, f.Path, f.Code)
	}
	for _, f := range safety.Unmet(b.Rules, s) {
		add(rulesName, f.Path, f.Code)
	}
	return faults
}

// probe is a pond with every feature, so that its sheet has every figure.
func probe(b core.Book) design.Design {
	line := design.Line{LengthM: 5, InsideDiameterM: 0.0779, RoughnessM: 1.5e-6}
	d := design.Design{
		Version: design.Version, Name: "probe",
		Outline: design.Outline{Shape: design.Ellipse, LengthM: 10, WidthM: 6.5},
		Bowl: design.Bowl{
			DeepM: 2, Wall: []design.Knot{{}, {InsetM: 1, DepthM: 2}},
			Beach: &design.Beach{BearingDeg: 270, WidthM: 3, RunPerRiseRatio: 5, ToeDepthM: 0.4, DescentRunPerRiseRatio: 2.5},
		},
		Zone:    &design.Zone{AreaM2: 14, DepthM: 0.9, PoreRatio: 0.38, LoadingMPerH: 1.5},
		Cascade: &design.Cascade{LipM: 1.5, RiseM: 0.7, SheetM: 0.02, Lip: design.BroadLip},
		Deck:    &design.Deck{LengthM: 3, WidthM: 2, BearingDeg: 150},
		Circulation: design.Circulation{
			TurnoverH: 3, Drive: design.VariableSpeed, PumpCount: 1, Suction: line, Discharge: line,
			PumpAboveWaterM: 0.3, PumpFromWaterM: 3, PumpBearingDeg: 75, IntakeBearingDeg: 95, IntakeOpenAreaM2: 0.12, QuietFlowRatio: 0.5,
		},
		Running: design.Running{Year: 2026, Spans: []design.Span{{From: "03-01", To: "11-30", Runs: []design.Run{
			{Mode: design.CascadeMode, Start: "10:00", End: "18:00"}, {Mode: design.QuietMode, Start: "18:00", End: "10:00"},
		}}}},
		Site: design.Site{AltitudeM: 100, WaterTempDegC: 20, SizeToleranceRatio: 0.05, SplashRatio: 0.1, CleanOutRatio: 0.1},
	}
	if len(b.Climates) > 0 {
		d.Site.Climate = b.Climates[0].ID
	}
	if len(b.Rates.Dig.Soils) > 0 {
		d.Site.Soil = b.Rates.Dig.Soils[0].ID
	}
	return d
}
