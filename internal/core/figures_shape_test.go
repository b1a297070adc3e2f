package core

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/sheet"
)

// A box of 8 by 4 by 1.2 m with a shelf 0.5 m wide at 0.3 m, a deck and every
// feature: each figure of the shape by hand.
func TestShapeFigures_AgreeWithTheBoxByHand(t *testing.T) {
	t.Parallel()
	d := design.Design{
		Version: design.Version,
		Outline: design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4},
		Bowl: design.Bowl{
			DeepM: 1.2, Wall: []design.Knot{{}, {DepthM: 0.3}, {InsetM: 0.5, DepthM: 0.3}, {InsetM: 0.5, DepthM: 1.2}},
		},
		Zone:        &design.Zone{AreaM2: 12, DepthM: 1, PoreRatio: 0.4, LoadingMPerH: 1},
		Cascade:     &design.Cascade{LipM: 1.5, RiseM: 0.7, SheetM: 0.02, Lip: design.BroadLip, BearingDeg: 10},
		Deck:        &design.Deck{LengthM: 3, WidthM: 2, BearingDeg: 180},
		Circulation: design.Circulation{PumpFromWaterM: 2.5, PumpBearingDeg: 90, IntakeBearingDeg: 95},
	}
	s := &sheet.Sheet{}
	rim, _ := geom.NewRim(d.Outline)
	shapeFigures(s, d, dug(rim, d))
	inner := 7.0 * 3.0
	for _, c := range []struct {
		id        sheet.ID
		want      float64
		tolerance float64
		why       string
	}{
		{"pond.length", 8, 1e-9, "as asked for"},
		{"pond.width", 4, 1e-9, "as asked for"},
		{"pond.rectangle_length", 8, 1e-9, "a rectangle is its own"},
		{"pond.rectangle_width", 4, 1e-9, "a rectangle is its own"},
		{"pond.area", 32, 1e-9, "8 × 4"},
		{"pond.perimeter", 24, 1e-9, "2 (8 + 4)"},
		{"pond.gross_volume", 32*0.3 + inner*0.9, 1e-5, "to the shelf, then within it"},
		{"pond.mean_depth", (32*0.3 + inner*0.9) / 32, 1e-5, "volume over area"},
		{"pond.max_depth", 1.2, 1e-9, "as asked for"},
		{"pond.developed_area", 32 + 24*0.3 + 20*0.9, 1e-4, "plan and two faces: round the edge and round the shelf"},
		{"pond.face_area", 24*0.3 + 20*0.9, 1e-4, "two faces"},
		{"pond.flat_area", 32, 1e-5, "floor and shelf"},
		{"pond.floor_area", inner, 1e-4, "7 × 3"},
		{"pond.longest_section", math.Sqrt(80), 1e-5, "the diagonal"},
		{"pond.deeper_0_6", inner / 32, 1e-4, "all within the shelf"},
		{"pond.deeper_1_2", inner / 32, 1e-4, "the floor lies right at it"},
		{"pond.deeper_1_5", 0, 0, "none"},
		{"pond.deeper_1_8", 0, 0, "none"},
		{"beach.width", 0, 0, "none"},
		{"beach.run_per_rise", 0, 0, "none"},
		{"deck.area", 6, 1e-9, "3 × 2"},
		{"deck.water_depth", 1.2, 1e-9, "0.25 m over the water and 0.6 m on is past the shelf"},
		{"steps.count", 0, 0, "none"},
		{"steps.tread_area", 0, 0, "none"},
		{"steps.riser", 0, 0, "none"},
		{"zone.area", 12, 1e-9, "as asked for"},
		{"cascade.lip", 1.5, 1e-9, "as asked for"},
		{"cascade.rise", 0.7, 1e-9, "as asked for"},
		{"pump.distance", 2.5, 1e-9, "as asked for"},
	} {
		f, ok := s.Find(c.id)
		if !ok {
			t.Errorf("%s is not on the sheet", c.id)
			continue
		}
		if math.Abs(f.Value-c.want) > c.tolerance*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%s: got %.9g %s, want %.9g: %s", c.id, f.Value, f.Unit, c.want, c.why)
		}
		if f.Working == "" || f.Source == "" {
			t.Errorf("%s has no working or no source", c.id)
		}
	}
	if e := s.Value("pond.volume_error"); e <= 0 || e > 1e-3 {
		t.Errorf("pond.volume_error: got %.3g, want a small share above nought", e)
	}
	stages := s.Table("pond.stages")
	if len(stages.Rows) < 8 {
		t.Fatalf("depth table of %d rows", len(stages.Rows))
	}
	for _, row := range stages.Rows {
		z := row.Cells[0].Value
		want := inner * (1.2 - z)
		if z < 0.3 {
			want += 11 * (0.3 - z)
		}
		if math.Abs(row.Cells[2].Value-want) > 1e-3 {
			t.Errorf("drawn down %.4f m: got %.5f m3, want %.5f m3", z, row.Cells[2].Value, want)
		}
	}
}

// Four steps of 0.3 by 0.2 m, 2 m wide, down the short side of a box with
// upright sides: prisms by hand.
func TestShapeFigures_StepsAgreeWithTheBoxByHand(t *testing.T) {
	t.Parallel()
	d := design.Design{
		Version: design.Version, Outline: design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4},
		Bowl: design.Bowl{DeepM: 1, Wall: []design.Knot{{}, {DepthM: 1}},
			Steps: &design.Steps{BearingDeg: 270, WidthM: 2, TreadM: 0.3, RiserM: 0.2, Count: 4}},
		Circulation: design.Circulation{PumpFromWaterM: 2, PumpBearingDeg: 90, IntakeBearingDeg: 95},
	}
	s := &sheet.Sheet{}
	rim, _ := geom.NewRim(d.Outline)
	w := dug(rim, d)
	shapeFigures(s, d, w)
	takeoffFigures(s, d, Book{}, w.measures)
	for _, c := range []struct {
		id   sheet.ID
		want float64
		why  string
	}{
		{"steps.count", 4, "as asked for"},
		{"steps.width", 2, "as asked for"},
		{"steps.tread", 0.3, "as asked for"},
		{"steps.riser", 0.2, "as asked for"},
		{"steps.foot_depth", 0.8, "four risers"},
		{"steps.tread_area", 2.4, "2 × 4 × 0.3"},
		{"pond.gross_volume", 32 - 2*0.3*(0.8+0.6+0.4+0.2), "less four prisms"},
		{"pond.developed_area", 32 + 24 - 1.6 + 1.6 + 1.2, "plan and walls, less the wall covered, with risers and cheeks"},
		{"takeoff.rim_length", 24 - 2, "no boulders where the steps are"},
	} {
		if got := s.Value(c.id); math.Abs(got-c.want) > 2e-5*math.Max(1, c.want) {
			t.Errorf("%s: got %.9g, want %.9g: %s", c.id, got, c.want, c.why)
		}
	}
	if has(s, "steps_buried") {
		t.Error("steps that all stand clear are said to be buried")
	}
	d.Bowl.Wall = []design.Knot{{}, {InsetM: 2, DepthM: 0.4}}
	d.Bowl.DeepM = 0.4
	d.Bowl.Steps.Count = 2
	flat := &sheet.Sheet{}
	shapeFigures(flat, d, dug(rim, d))
	if !has(flat, "steps_buried") {
		t.Errorf("steps under a gentle slope show %.3g m2 and nobody says so", flat.Value("steps.tread_area"))
	}
}

func has(s *sheet.Sheet, code string) bool {
	for _, f := range s.Findings {
		if f.Code == code {
			return true
		}
	}
	return false
}
