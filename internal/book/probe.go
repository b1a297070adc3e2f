package book

import (
	"fmt"
	"slices"
	"strings"

	"tarnwright/internal/core"
	"tarnwright/internal/core/design"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/jsonfile"
)

// together finds what the files ask of each other and do not get: a price or a
// rule that names a figure no sheet has would be silent for ever.
func together(b core.Book, docs map[string]*jsonfile.Doc) []Fault {
	s := core.Compute(probe(b), b)
	figures := ids(s.Figures, func(f sheet.Figure) string { return string(f.ID) })
	prices, rules := checker{doc: docs[pricesName]}, checker{doc: docs[rulesName]}
	for _, f := range b.Prices.Unmet(s) {
		if f.Code == "unit" {
			prices.unit(f.Path, s)
			continue
		}
		prices.figure(f.Path, figures)
	}
	for _, f := range safety.Unmet(b.Rules, s) {
		rules.figure(f.Path, figures)
	}
	return append(prices.faults, rules.faults...)
}

// figure faults the name of a figure that no sheet has, by itself or in braces
// among words.
func (c *checker) figure(path string, known []string) {
	const code = "unknown_figure"
	names := braces(c.doc.TextAt(path))
	if len(names) == 0 {
		c.unlike(path, code, "the id of a figure on the sheet", known)
	}
	for _, n := range names {
		if name := strings.Trim(n, "{}"); !slices.Contains(known, name) {
			c.that(false, path, code, fmt.Sprintf("%s names %s, which is no figure on the sheet; %s", path, n, meant(name, known)))
		}
	}
}

// unit faults a unit that is not the figure's own.
func (c *checker) unit(path string, s *sheet.Sheet) {
	f, _ := s.Find(sheet.ID(c.doc.TextAt(strings.TrimSuffix(path, "unit") + "quantity")))
	c.that(false, path, "unit", fmt.Sprintf("%s must be %q, the unit of %s, and is %q", path, f.Unit, f.ID, c.doc.TextAt(path)))
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
			PumpAboveWaterM: 0.3, PumpFromWaterM: 3, PumpBearingDeg: 75, IntakeBearingDeg: 95, IntakeOpenAreaM2: 0.12, IntakeDepthM: 0.6, QuietFlowRatio: 0.5, NightFlowRatio: 0.4, WinterFlowRatio: 0.3,
			Jets: &design.Jets{Count: 4, NozzleM: 0.01, NozzleHeadM: 1.5, Line: line},
		},
		Running: design.Running{Year: 2026, Spans: []design.Span{{From: "03-01", To: "11-30", Runs: []design.Run{
			{Mode: design.CascadeMode, Start: "10:00", End: "18:00"}, {Mode: design.QuietMode, Start: "18:00", End: "10:00"}, {Mode: design.NightMode, Start: "23:00", End: "05:00"},
		}}, {From: "12-01", To: "02-28", Runs: []design.Run{{Mode: design.WinterMode, Start: "10:00", End: "16:00"}}}}},
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
