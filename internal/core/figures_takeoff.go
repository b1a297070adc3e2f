package core

import (
	"math"
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/num"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/source"
	"tarnwright/internal/core/takeoff"
)

// fineStep is the step of quantities: a thousandth of a litre, a thousandth of
// a millimetre.
const fineStep = 1e-6

// taking gathers what the takeoff needs, so that each figure is one short line.
type taking struct {
	s *sheet.Sheet
	d design.Design
	r takeoff.Rates
	m geom.Measures

	zone     takeoff.Bed
	boulders takeoff.Boulders
	pad      takeoff.Pad
	soil     takeoff.Soil
}

// takeoffFigures adds water, liner, digging, stone, pad and fill, and what the
// site itself is like.
func takeoffFigures(s *sheet.Sheet, d design.Design, b Book, m geom.Measures) {
	t := taking{s: s, d: d, r: b.Rates, m: m}
	if d.Zone != nil {
		t.zone = takeoff.Bed{AreaM2: d.Zone.AreaM2, DepthM: d.Zone.DepthM, PoreRatio: d.Zone.PoreRatio}
	}
	st := b.Rates.Stone
	t.boulders = takeoff.Boulders{RimM: max(0, m.PerimeterM-m.BeachWidthM-t.stepsM()), GradeM: st.GradeM, CourseCount: st.CourseCount, VoidRatio: st.VoidRatio, SolidKgPerM3: st.SolidKgPerM3}
	p := b.Rates.Pad
	t.pad = takeoff.Pad{PumpCount: d.Circulation.PumpCount, PumpLengthM: p.PumpLengthM, PumpWidthM: p.PumpWidthM, ClearanceM: p.ClearanceM}
	t.soil = t.soilClass()
	t.stone()
	t.water()
	t.liner()
	t.dig()
	t.fill()
	siteFigures(s, d, b)
}

// add puts one quantity on the sheet.
func (t taking) add(id sheet.ID, x float64, u sheet.Unit, key source.Key, working string) {
	t.s.Add(sheet.Figure{ID: id, Value: x, Step: fineStep, Unit: u, Working: working, Source: key})
}

// soilClass is the design's swell class; without one, or with one the builder
// does not have, it is the builder's first, and the latter is a finding.
func (t taking) soilClass() takeoff.Soil {
	if soil, ok := t.r.Soil(t.d.Site.Soil); ok {
		return soil
	}
	if t.d.Site.Soil != "" {
		t.s.Findings = append(t.s.Findings, sheet.Finding{Code: "soil_unknown", Severity: sheet.Care, Source: "builder"})
	}
	if len(t.r.Dig.Soils) == 0 {
		return takeoff.Soil{}
	}
	return t.r.Dig.Soils[0]
}

// stepsM is how much of the rim the steps take.
func (t taking) stepsM() float64 {
	if t.d.Bowl.Steps == nil {
		return 0
	}
	return t.d.Bowl.Steps.WidthM
}

// stone adds the rim, its boulders and the gravel.
func (t taking) stone() {
	b := t.boulders
	rim := with("= P − beach = %s − %s", t.m.PerimeterM, t.m.BeachWidthM)
	if t.stepsM() > 0 {
		rim = with("= P − beach − steps = %s − %s − %s", t.m.PerimeterM, t.m.BeachWidthM, t.stepsM())
	}
	t.add("takeoff.rim_length", b.RimM, sheet.Metre, "definition", rim)
	t.add("takeoff.boulder_mass", b.MassT(), sheet.Tonne, "hec23",
		with("= rim × grade × courses × grade × (1 − gaps) × density ÷ 1000 = %s × %s × %s × %s × (1 − %s) × %s ÷ 1000",
			b.RimM, b.GradeM, float64(b.CourseCount), b.GradeM, b.VoidRatio, b.SolidKgPerM3))
	volume, mass, volumes, masses := 0.0, 0.0, "=", "= ("
	for i, g := range t.r.Gravel {
		bed := takeoff.Bed{AreaM2: t.m.FlatAreaM2, DepthM: g.ThicknessM, PoreRatio: g.PoreRatio}
		volume += bed.VolumeM3()
		mass += takeoff.MassT(bed.VolumeM3(), g.BulkKgPerM3)
		if i > 0 {
			volumes, masses = volumes+" +", masses+" + "
		}
		volumes += with(" %s × %s", t.m.FlatAreaM2, g.ThicknessM)
		masses += with("%s × %s × %s", t.m.FlatAreaM2, g.ThicknessM, g.BulkKgPerM3)
	}
	if len(t.r.Gravel) == 0 {
		volumes, masses = "= 0", "= (0"
	}
	t.add("takeoff.gravel_volume", volume, sheet.CubicMetre, "definition", volumes)
	t.add("takeoff.gravel_mass", mass, sheet.Tonne, "definition", masses+") ÷ 1000")
	t.add("takeoff.zone_gravel_mass", takeoff.MassT(t.zone.VolumeM3(), t.r.ZoneBulkKgPerM3), sheet.Tonne, "definition",
		with("= %s × %s × %s ÷ 1000", t.zone.AreaM2, t.zone.DepthM, t.r.ZoneBulkKgPerM3))
}

// water adds the net volume and its parts.
func (t taking) water() {
	c := takeoff.Contents{GrossM3: t.m.GrossVolumeM3, StoneM3: t.boulders.DrownedM3(t.r.Stone.InWaterRatio, t.m.MaxDepthM), ZoneWaterM3: t.zone.WaterM3()}
	for _, g := range t.r.Gravel {
		c.GravelM3 += takeoff.Bed{AreaM2: t.m.FlatAreaM2, DepthM: g.ThicknessM, PoreRatio: g.PoreRatio}.SolidM3()
	}
	suction, discharge := t.d.Circulation.Suction, t.d.Circulation.Discharge
	c.PipeM3 = float64(float64(t.d.Circulation.PumpCount)*takeoff.PipeM3(suction.InsideDiameterM, suction.LengthM)) + takeoff.PipeM3(discharge.InsideDiameterM, discharge.LengthM)
	if j := t.d.Circulation.Jets; j != nil {
		c.PipeM3 += takeoff.PipeM3(j.Line.InsideDiameterM, j.Line.LengthM)
	}
	t.add("water.pond_part", c.PondM3(), sheet.CubicMetre, "definition",
		with("= gross − stone − gravel grains = %s − %s − %s", c.GrossM3, c.StoneM3, c.GravelM3))
	t.add("water.zone_part", c.ZoneWaterM3, sheet.CubicMetre, "groundwaterproject",
		with("= pores × A × d = %s × %s × %s", t.zone.PoreRatio, t.zone.AreaM2, t.zone.DepthM))
	t.add("water.net_volume", c.NetM3(), sheet.CubicMetre, "definition",
		with("= pond + zone + pipes = %s + %s + %s", c.PondM3(), c.ZoneWaterM3, c.PipeM3))
}

// liner adds what to order and what it covers.
func (t taking) liner() {
	l := t.r.Liner
	long := takeoff.Side{AcrossM: t.m.RectangleLengthM, DepthM: t.m.MaxDepthM, OverlapM: l.OverlapM, RollStepM: l.RollStepM}
	wide := long
	wide.AcrossM = t.m.RectangleWidthM
	side := func(id sheet.ID, s takeoff.Side) {
		t.add(id, s.OrderM(), sheet.Metre, "practice",
			with("= across + 2 depth + 2 overlap = %s + 2 × %s + 2 × %s, up to steps of %s", s.AcrossM, s.DepthM, s.OverlapM, s.RollStepM))
	}
	side("takeoff.liner_length", long)
	side("takeoff.liner_width", wide)
	t.add("takeoff.liner_area", long.OrderM()*wide.OrderM(), sheet.SquareMetre, "definition", with("= %s × %s", long.OrderM(), wide.OrderM()))
	apron := takeoff.Apron{DevelopedM2: t.m.DevelopedAreaM2, PerimeterM: t.m.PerimeterM, OverlapM: l.OverlapM}
	t.add("takeoff.liner_true_area", apron.CoverM2(), sheet.SquareMetre, "steiner1840",
		with("= A_d + P o + π o² = %s + %s × %s + π × %s²", apron.DevelopedM2, apron.PerimeterM, apron.OverlapM, apron.OverlapM))
	zone := takeoff.Apron{DevelopedM2: takeoff.ZoneSurfaceM2(t.zone), PerimeterM: 4 * math.Sqrt(t.zone.AreaM2), OverlapM: l.OverlapM}
	if t.zone.AreaM2 == 0 {
		zone = takeoff.Apron{}
	}
	t.add("takeoff.zone_liner_area", zone.CoverM2(), sheet.SquareMetre, "steiner1840",
		with("= A + 4 √A d + 4 √A o + π o², A = %s, d = %s, o = %s", t.zone.AreaM2, t.zone.DepthM, zone.OverlapM))
	cover := apron.CoverM2() + zone.CoverM2()
	t.add("takeoff.underlay_area", takeoff.UnderlayM2(cover, l.UnderlayCount, l.UnderlayWasteRatio), sheet.SquareMetre, "builder",
		with("= liner × layers × (1 + waste) = %s × %s × (1 + %s)", cover, float64(l.UnderlayCount), l.UnderlayWasteRatio))
}

// with puts numbers into a working, one for each %s, each with enough digits
// that a pocket calculator lands on the figure. A sheet has some hundred of
// these and is made anew at every move, so it is written into one piece.
func with(format string, numbers ...float64) string {
	text := make([]byte, 0, len(format)+16*len(numbers))
	for _, x := range numbers {
		before, after, _ := strings.Cut(format, "%s")
		text, format = appendDigits(append(text, before...), x), after
	}
	return string(append(text, format...))
}

// digits writes a number with nine significant digits and no tail of zeros.
func digits(x float64) string { return string(appendDigits(nil, x)) }

func appendDigits(text []byte, x float64) []byte {
	if x != 0 && !math.IsNaN(x) && !math.IsInf(x, 0) {
		decimals := min(15, max(0, 8-int(math.Floor(math.Log10(math.Abs(x))))))
		x = sheet.Quantise(x, math.Pow10(-decimals))
	}
	return num.AppendShortest(text, x)
}
