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
