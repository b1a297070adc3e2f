package core

import (
	"math"
	"strings"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/sheet"
	"tarnwright/internal/core/takeoff"
)

// box is a pond whose every quantity can be worked out by hand: 10 × 5 × 2 m
// with upright walls, a zone of 4 × 4 × 1 m and one pump.
func box() design.Design {
	return design.Design{
		Version: design.Version,
		Outline: design.Outline{Shape: design.Rectangle, LengthM: 10, WidthM: 5},
		Bowl:    design.Bowl{DeepM: 2, Wall: []design.Knot{{}, {InsetM: 0, DepthM: 2}}},
		Zone:    &design.Zone{AreaM2: 16, DepthM: 1, PoreRatio: 0.4, LoadingMPerH: 1},
		Circulation: design.Circulation{
			PumpCount: 1, Suction: design.Line{LengthM: 3, InsideDiameterM: 0.1}, Discharge: design.Line{LengthM: 10, InsideDiameterM: 0.1},
		},
		Site: design.Site{WaterTempDegC: 18, Fence: true},
	}
}

func boxRates() takeoff.Rates {
	return takeoff.Rates{
		Version: 1,
		Liner:   takeoff.LinerRates{OverlapM: 1, RollStepM: 0.5, UnderlayCount: 2, UnderlayWasteRatio: 0.1, AnchorTrenchWidthM: 0.3, AnchorTrenchDepthM: 0.3},
		Dig: takeoff.DigRates{BuildUpM: 0.05, PipeTrenchWidthM: 0.3, PipeTrenchDepthM: 0.5, UsedOnSiteRatio: 0.25, LorryM3: 10,
			Soils: []takeoff.Soil{{ID: "earth", SwellRatio: 0.25}, {ID: "clay", SwellRatio: 0.4}}},
		Gravel:          []takeoff.Layer{{ID: "pebbles", ThicknessM: 0.1, BulkKgPerM3: 1600, PoreRatio: 0.4}},
		Stone:           takeoff.StoneRates{GradeM: 0.5, CourseCount: 2, VoidRatio: 0.4, SolidKgPerM3: 2600, InWaterRatio: 0.5},
		Pad:             takeoff.PadRates{PumpLengthM: 0.7, PumpWidthM: 0.3, ClearanceM: 0.45, ThicknessM: 0.1},
		Fill:            takeoff.FillRates{TankerM3: 15, HoseM3PerH: 2, CushionM: 0.5},
		ZoneBulkKgPerM3: 1600,
	}
}

func takenOff(d design.Design, r takeoff.Rates) *sheet.Sheet {
	s, b := &sheet.Sheet{}, Book{Rates: r}
	rim, _ := geom.NewRim(d.Outline)
	w := dug(rim, d)
	shapeFigures(s, d, w)
	takeoffFigures(s, d, b, w.measures)
	depthMarks(s, w)
	return s
}

// Jets bring their pipe: its length in the ground and its water.
func TestTakeoffFigures_CountJetsAndTheirPipe(t *testing.T) {
	t.Parallel()
	without, d := takenOff(box(), boxRates()), box()
	d.Circulation.Jets = &design.Jets{Count: 4, NozzleM: 0.01, NozzleHeadM: 1.5, Line: design.Line{LengthM: 8, InsideDiameterM: 0.05}}
	with := takenOff(d, boxRates())
	if without.Value("jets.count") != 0 || with.Value("jets.count") != 4 {
		t.Errorf("%v jets and %v", without.Value("jets.count"), with.Value("jets.count"))
	}
	if got := with.Value("takeoff.pipe_length"); got != 21 {
		t.Errorf("%v m of pipe, want 3 + 10 + 8", got)
	}
	if got, want := with.Value("water.net_volume")-without.Value("water.net_volume"), 8*math.Pi*0.05*0.05/4; math.Abs(got-want) > 1e-6 {
		t.Errorf("%v m³ in their pipe, want %v", got, want)
	}
}

// Every figure of the box by hand.
func TestTakeoffFigures_AgreeWithTheBoxByHand(t *testing.T) {
	t.Parallel()
	s := takenOff(box(), boxRates())
	if err := boxRates().Faults(); len(err) != 0 {
		t.Errorf("the rates have faults %v", err)
	}
	for _, c := range []struct {
		id   sheet.ID
		want float64
		why  string
	}{
		{"takeoff.rim_length", 30, "2 × (10 + 5)"},
		{"takeoff.boulder_mass", 23.4, "30 × 0.5 × 1.0 × 0.6 × 2.6"},
		{"takeoff.gravel_volume", 5, "50 × 0.1"},
		{"takeoff.gravel_mass", 8, "5 × 1.6"},
		{"takeoff.zone_gravel_mass", 25.6, "16 × 1.6"},
		{"water.pond_part", 92.5, "100 − 9 ÷ 2 − 3"},
		{"water.zone_part", 6.4, "0.4 × 16"},
		{"water.net_volume", 98.9 + 0.13*math.Pi/4, "and 13 m of 0.1 m pipe"},
		{"takeoff.liner_length", 16, "10 + 4 + 2"},
		{"takeoff.liner_width", 11, "5 + 4 + 2"},
		{"takeoff.liner_area", 176, "16 × 11"},
		{"takeoff.liner_true_area", 140 + math.Pi, "50 + 60 under water, 30 + π beyond"},
		{"takeoff.zone_liner_area", 48 + math.Pi, "16 + 16, 16 + π beyond"},
		{"takeoff.underlay_area", (188 + 2*math.Pi) * 2.2, "both, two layers and a tenth"},
		{"takeoff.pipe_length", 13, "3 + 10"},
		{"takeoff.pad_area", 1.92, "1.2 × 1.6"},
		{"takeoff.dig_depth", 2.05, "2 + 0.05"},
		{"takeoff.dig_pond", 110.342, "100 + 5.5 + 0.192 + 1.95 + 2.7"},
		{"takeoff.dig_zone", 17.6, "16 + 0.05 × 32"},
		{"takeoff.dig_bank", 127.942, "together"},
		{"takeoff.dig_loose", 159.9275, "× 1.25"},
		{"takeoff.dig_hauled", 119.945625, "three quarters of it"},
		{"takeoff.dig_loads", 12, "of 10"},
		{"takeoff.fence_length", 54, "2 × (16 + 11)"},
		{"takeoff.fill_loads", 7, "99.0 in loads of 15"},
		{"takeoff.fill_hours", (98.9 + 0.13*math.Pi/4) / 2, "at 2 an hour"},
		{"takeoff.cushion_volume", 25, "the lowest half metre"},
		{"zone.share", 16.0 / 66, "16 of 66"},
		{"site.fence", 1, "asked for"},
		{"site.lights", 0, "none"},
		{"site.uv", 0, "none"},
		{"site.water_temp", 18, "asked for"},
		{"wall.run_per_rise", 0, "upright"},
		{"wall.shelf_depth", 0, "none"},
		{"beach.toe_depth", 0, "no beach"},
		{"beach.descent_run_per_rise", 0, "no beach"},
	} {
		f, ok := s.Find(c.id)
		if !ok || math.Abs(f.Value-c.want) > 2e-6*max(1, math.Abs(c.want)) {
			t.Errorf("%s: got %.9g %s (%v), want %.9g: %s", c.id, f.Value, f.Unit, ok, c.want, c.why)
		}
	}
}

// About 1½–2 ft of water goes in gently first (common practice, no source):
// the box's half metre is that, and half as much water as 1 m of it.
func TestTakeoffFigures_CushionFollowsItsDepth(t *testing.T) {
	t.Parallel()
	r := boxRates()
	r.Fill.CushionM = 1
	if got := takenOff(box(), r).Value("takeoff.cushion_volume"); math.Abs(got-50) > 1e-5 {
		t.Errorf("cushion of 1 m: %g m3, want 50", got)
	}
}

func TestTakeoffFigures_SoilChangesTheHeapAlone(t *testing.T) {
	t.Parallel()
	d := box()
	earth := takenOff(d, boxRates())
	d.Site.Soil = "clay"
	clay := takenOff(d, boxRates())
	if got := clay.Value("takeoff.dig_loose") / earth.Value("takeoff.dig_loose"); math.Abs(got-1.4/1.25) > 1e-7 {
		t.Errorf("clay makes %g times the heap of earth, want %g", got, 1.4/1.25)
	}
	if clay.Value("takeoff.dig_bank") != earth.Value("takeoff.dig_bank") || len(clay.Findings) != 0 {
		t.Error("soil changes the dig itself")
	}
	d.Site.Soil = "cheese"
	if s := takenOff(d, boxRates()); len(s.Findings) != 1 || s.Findings[0].Code != "soil_unknown" {
		t.Errorf("findings %v, want soil_unknown", s.Findings)
	}
}

func TestTakeoffFigures_WithoutAZone(t *testing.T) {
	t.Parallel()
	d := box()
	d.Zone = nil
	s := takenOff(d, boxRates())
	for _, id := range []sheet.ID{"takeoff.dig_zone", "takeoff.zone_liner_area", "water.zone_part", "zone.share", "takeoff.zone_gravel_mass"} {
		if s.Value(id) != 0 {
			t.Errorf("%s is %g without a zone", id, s.Value(id))
		}
	}
	if got := s.Value("takeoff.dig_bank"); math.Abs(got-110.342) > 1e-5 {
		t.Errorf("dig %g m3, want 110.342", got)
	}
}

func TestSides_ReadTheWall(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why         string
		wall        []design.Knot
		run, shelfM float64
	}{
		{"upright", []design.Knot{{}, {InsetM: 0, DepthM: 2}}, 0, 0},
		{"one in two", []design.Knot{{}, {InsetM: 4, DepthM: 2}}, 2, 0},
		{"a face, a ledge, a slope", []design.Knot{{}, {InsetM: 0.1, DepthM: 0.3}, {InsetM: 0.45, DepthM: 0.3}, {InsetM: 1.05, DepthM: 1.9}}, 0.1 / 0.3, 0.3},
		{"a ledge too narrow to stand on", []design.Knot{{}, {InsetM: 0.3, DepthM: 0.3}, {InsetM: 0.45, DepthM: 0.3}, {InsetM: 2, DepthM: 2}}, 155.0 / 170, 0},
		{"no face", nil, flatRatio, 0},
	} {
		run, shelf := sides(c.wall)
		if math.Abs(run-c.run) > 1e-12 || shelf != c.shelfM {
			t.Errorf("%s: 1 in %g and a shelf at %g m, want 1 in %g and %g m", c.why, run, shelf, c.run, c.shelfM)
		}
	}
}

func TestHasLoad_ReadsWholeWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		want bool
	}{{"Lights", true}, {"pond light", true}, {"lamp by the deck", true}, {"UV", false}, {"aeration", false}, {"delightful pump", false}, {"", false}} {
		if got := hasLoad([]design.Load{{Name: c.name}}, "light", "lamp"); got != c.want {
			t.Errorf("%q: %v, want %v", c.name, got, c.want)
		}
	}
}

// Marks go evenly round, never more than 25 ft apart, and read the water one
// step out: 2 m everywhere in the box.
func TestDepthMarks_GoRoundTheBox(t *testing.T) {
	t.Parallel()
	s := takenOff(box(), boxRates())
	rows := s.Table("safety.depth_marks").Rows
	if len(rows) != 4 {
		t.Fatalf("%d marks round 30 m, want 4", len(rows))
	}
	for i, r := range rows {
		if r.Cells[2].Value != 2 {
			t.Errorf("mark %s reads %g m, want 2", r.Name, r.Cells[2].Value)
		}
		x, y := r.Cells[0].Value, r.Cells[1].Value
		if math.Abs(math.Max(math.Abs(x)/5, math.Abs(y)/2.5)-1) > 1e-6 {
			t.Errorf("mark %s at %g, %g is off the edge", r.Name, x, y)
		}
		n := rows[(i+1)%4].Cells
		if math.Hypot(n[0].Value-x, n[1].Value-y) > 25*0.3048 {
			t.Errorf("marks %d and the next are too far apart", i+1)
		}
	}
}

func TestWith_GivesEnoughDigits(t *testing.T) {
	t.Parallel()
	got := with("= %s × %s − %s ÷ %s", 1234567.891234, 0.000123456789123, 0, 2)
	if got != "= 1234567.89 × 0.000123456789 − 0 ÷ 2" {
		t.Errorf("working %q", got)
	}
	if strings.Contains(with("%s", 1e-12), "e") {
		t.Error("a working has an exponent")
	}
}
