package core

import (
	"strings"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/safety"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/takeoff"
)

// dig adds the excavation, the heap that it becomes, the pad and the pipes.
func (t taking) dig() {
	g := t.r.Dig
	pipeM := float64(float64(t.d.Circulation.PumpCount)*t.d.Circulation.Suction.LengthM) + t.d.Circulation.Discharge.LengthM
	how := with("= pumps × suction + discharge = %s × %s + %s", float64(t.d.Circulation.PumpCount), t.d.Circulation.Suction.LengthM, t.d.Circulation.Discharge.LengthM)
	jets := 0.0
	if j := t.d.Circulation.Jets; j != nil {
		pipeM += j.Line.LengthM
		how += with(" + %s to the jets", j.Line.LengthM)
		jets = float64(j.Count)
	}
	t.add("takeoff.pipe_length", pipeM, sheet.Metre, "asked", how)
	t.s.Add(sheet.Figure{ID: "jets.count", Value: jets, Step: 1, Unit: sheet.Count, Working: "as asked for", Source: "asked"})
	padLengthM, padWidthM := t.pad.SidesM()
	t.add("takeoff.pad_area", t.pad.AreaM2(), sheet.SquareMetre, "practice", with("= %s × %s", padLengthM, padWidthM))
	pipes := takeoff.Trench{LengthM: pipeM, WidthM: g.PipeTrenchWidthM, DepthM: g.PipeTrenchDepthM}
	anchor := takeoff.Trench{LengthM: t.m.PerimeterM, WidthM: t.r.Liner.AnchorTrenchWidthM, DepthM: t.r.Liner.AnchorTrenchDepthM}
	e := takeoff.Excavation{
		BowlM3: t.m.GrossVolumeM3, BuildUpM3: g.BuildUpM * t.m.DevelopedAreaM2,
		PadM3: t.pad.AreaM2() * t.r.Pad.ThicknessM, TrenchM3: pipes.VolumeM3() + anchor.VolumeM3(),
	}
	if t.zone.AreaM2 > 0 {
		e.ZoneM3 = takeoff.ZoneDigM3(t.zone, g.BuildUpM)
	}
	t.add("takeoff.dig_depth", max(t.m.MaxDepthM, t.zone.DepthM)+g.BuildUpM, sheet.Metre, "definition",
		with("= deepest + build-up = %s + %s", max(t.m.MaxDepthM, t.zone.DepthM), g.BuildUpM))
	t.add("takeoff.dig_pond", e.PondM3(), sheet.CubicMetre, "definition",
		with("= bowl + build-up + pad + trenches = %s + %s + %s + %s", e.BowlM3, e.BuildUpM3, e.PadM3, e.TrenchM3))
	t.add("takeoff.dig_zone", e.ZoneM3, sheet.CubicMetre, "definition",
		with("= A d + t (A + 4 √A d), A = %s, d = %s, t = %s", t.zone.AreaM2, t.zone.DepthM, g.BuildUpM))
	t.add("takeoff.dig_bank", e.BankM3(), sheet.CubicMetre, "definition", with("= pond + zone = %s + %s", e.PondM3(), e.ZoneM3))
	loose := takeoff.LooseM3(e.BankM3(), t.soil.SwellRatio)
	t.add("takeoff.dig_loose", loose, sheet.CubicMetre, "peurifoy", with("= bank × (1 + swell) = %s × (1 + %s)", e.BankM3(), t.soil.SwellRatio))
	hauled := loose * (1 - g.UsedOnSiteRatio)
	t.add("takeoff.dig_hauled", hauled, sheet.CubicMetre, "builder", with("= loose × (1 − used here) = %s × (1 − %s)", loose, g.UsedOnSiteRatio))
	t.s.Add(sheet.Figure{ID: "takeoff.dig_loads", Value: takeoff.Loads(hauled, g.LorryM3), Step: 1, Unit: sheet.Count, Source: "builder",
		Working: with("= hauled ÷ lorry, up to a whole load = %s ÷ %s", hauled, g.LorryM3)})
	t.add("takeoff.fence_length", 2*(t.m.LengthM+t.m.WidthM)+8*fenceOffM, sheet.Metre, "practice",
		with("= 2 (L + W) + 8 × offset = 2 × (%s + %s) + 8 × %s", t.m.LengthM, t.m.WidthM, fenceOffM))
}

// fenceOffM is how far outside the water a fence is taken to stand.
const fenceOffM = 3.0

// fill adds loads, hours and the water that goes in gently first.
func (t taking) fill() {
	net, f := t.s.Value("water.net_volume"), t.r.Fill
	t.s.Add(sheet.Figure{ID: "takeoff.fill_loads", Value: takeoff.Loads(net, f.TankerM3), Step: 1, Unit: sheet.Count, Source: "builder",
		Working: with("= net ÷ tanker, up to a whole load = %s ÷ %s", net, f.TankerM3)})
	t.add("takeoff.fill_hours", takeoff.FillHours(net, f.HoseM3PerH), sheet.Hour, "builder", with("= net ÷ hose = %s ÷ %s", net, f.HoseM3PerH))
	stages := make([]takeoff.Stage, len(t.m.Stages))
	for i, s := range t.m.Stages {
		stages[i] = takeoff.Stage{DepthM: s.DepthM, AreaM2: s.AreaM2, VolumeM3: s.VolumeM3}
	}
	t.add("takeoff.cushion_volume", takeoff.StandingM3(stages, f.CushionM), sheet.CubicMetre, "hermite",
		with("= water of the depth table below %s − %s m", t.m.MaxDepthM, f.CushionM))
}

// siteFigures adds what the safety rules and the price book ask of the site and
// of the sides, most of them yes (1) or no (0).
func siteFigures(s *sheet.Sheet, d design.Design, b Book) {
	say := func(id sheet.ID, yes bool) {
		f := sheet.Figure{ID: id, Step: 1, Unit: sheet.Count, Source: "asked", Working: "= not asked for, 0"}
		if yes {
			f.Value, f.Working = 1, "= asked for, 1"
		}
		s.Add(f)
	}
	number := func(id sheet.ID, x float64, u sheet.Unit, working string) {
		if _, there := s.Find(id); !there {
			s.Add(sheet.Figure{ID: id, Value: x, Step: fineStep, Unit: u, Source: "asked", Working: working})
		}
	}
	say("site.fence", d.Site.Fence)
	say("site.patio", d.Site.Patio)
	say("site.fire_pit", d.Site.FirePit)
	s.Add(sheet.Figure{ID: "safety.adult_height", Value: safety.AdultHeightM, Step: fineStep, Unit: sheet.Metre, Source: "nchs46",
		Working: with("= the adult of the section = %s", safety.AdultHeightM)})
	say("site.lights", hasLoad(d.Running.Loads, "light", "lamp"))
	say("site.uv", hasLoad(d.Running.Loads, "uv", "ultraviolet"))
	number("site.water_temp", d.Site.WaterTempDegC, sheet.DegC, with("= as asked for, %s", d.Site.WaterTempDegC))
	zone, pond := s.Value("zone.area"), s.Value("pond.area")
	share := 0.0
	if zone > 0 {
		share = zone / (zone + pond)
	}
	number("zone.share", share, sheet.Ratio, with("= zone ÷ (zone + pond) = %s ÷ (%s + %s)", zone, zone, pond))
	run, shelf := sides(d.Bowl.Wall)
	number("wall.run_per_rise", run, sheet.Ratio, with("= least run ÷ rise of the wall profile = %s", run))
	number("wall.shelf_depth", shelf, sheet.Metre, with("= depth of the first level part of the wall profile = %s", shelf))
	toe, descent := 0.0, 0.0
	if d.Bowl.Beach != nil {
		toe, descent = d.Bowl.Beach.ToeDepthM, d.Bowl.Beach.DescentRunPerRiseRatio
	}
	number("beach.toe_depth", toe, sheet.Metre, with("= as asked for, %s", toe))
	number("beach.descent_run_per_rise", descent, sheet.Ratio, with("= as asked for, %s", descent))
	coldest(s, d, b)
}

// hasLoad says whether a load's name holds one of the words.
func hasLoad(loads []design.Load, words ...string) bool {
	for _, l := range loads {
		name := strings.ToLower(l.Name)
		for _, part := range strings.FieldsFunc(name, func(r rune) bool { return r < 'a' || r > 'z' }) {
			for _, w := range words {
				if part == w || part == w+"s" {
					return true
				}
			}
		}
	}
	return false
}

// leastRiseM and leastLedgeM are how high a face and how wide a ledge must be
// to count.
const leastRiseM, leastLedgeM = 0.25, 0.2

// sides returns how steep the wall is where it is steepest, 0 for a vertical
// face, and how deep its first ledge lies, 0 for none. A wall without any face
// counts as flat.
func sides(wall []design.Knot) (runPerRiseRatio, shelfDepthM float64) {
	runPerRiseRatio = flatRatio
	for i := 1; i < len(wall); i++ {
		run, rise := wall[i].InsetM-wall[i-1].InsetM, wall[i].DepthM-wall[i-1].DepthM
		if rise >= leastRiseM {
			runPerRiseRatio = min(runPerRiseRatio, run/rise)
		}
		if shelfDepthM == 0 && run >= leastLedgeM && rise < run/10 {
			shelfDepthM = wall[i].DepthM
		}
	}
	return runPerRiseRatio, shelfDepthM
}

// flatRatio stands for a wall that has no face at all.
const flatRatio = 1000.0
