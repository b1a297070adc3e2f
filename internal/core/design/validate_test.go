package design_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
)

// sound is a small valid design that each case spoils in one place.
func sound() design.Design {
	return design.Design{
		Version: design.Version,
		Outline: design.Outline{Shape: design.Ellipse, LengthM: 8, WidthM: 5},
		Bowl: design.Bowl{DeepM: 1.5, Wall: []design.Knot{{}, {InsetM: 0.5, DepthM: 1.5}},
			Beach: &design.Beach{BearingDeg: 270, WidthM: 2, RunPerRiseRatio: 5}},
		Circulation: design.Circulation{TurnoverH: 2, Drive: design.SingleSpeed, PumpCount: 1,
			Suction:          design.Line{LengthM: 4, InsideDiameterM: 0.078},
			Discharge:        design.Line{LengthM: 9, InsideDiameterM: 0.078},
			IntakeOpenAreaM2: 0.1, QuietFlowRatio: 0.5},
		Running: design.Running{Year: 2026, Spans: []design.Span{{From: "03-01", To: "11-30",
			Runs: []design.Run{{Mode: design.CascadeMode, Start: "10:00", End: "18:00"}}}}},
		Site: design.Site{WaterTempDegC: 20, ElectricityPerKWh: "0.16"},
	}
}

// steps is a sound flight, spoilt in one place: eight of 0.18 m go down 1.44 m.
func steps(spoil func(*design.Steps)) *design.Steps {
	s := design.Steps{BearingDeg: 200, WidthM: 1.2, TreadM: 0.35, RiserM: 0.18, Count: 8}
	spoil(&s)
	return &s
}

func TestValidate_StepsMayReachTheFloor(t *testing.T) {
	t.Parallel()
	d := sound()
	d.Bowl.Steps = steps(func(s *design.Steps) { s.RiserM, s.Count = 0.3, 5 }) // 1.5 m, as deep as the bowl
	if f := design.Validate(d); len(f) != 0 {
		t.Fatalf("faults = %+v, want none", f)
	}
}

func TestValidate_ASoundDesignHasNoFault(t *testing.T) {
	t.Parallel()
	if f := design.Validate(sound()); len(f) != 0 {
		t.Fatalf("faults = %+v, want none", f)
	}
}

func TestValidate_EachSlipIsNamedAtItsField(t *testing.T) {
	t.Parallel()
	cases := []struct {
		why, path, code string
		spoil           func(*design.Design)
	}{
		{"another version", "design_version", "other_version", func(d *design.Design) { d.Version = 9 }},
		{"a shape nobody knows", "outline.shape", "unknown_choice", func(d *design.Design) { d.Outline.Shape = "blob" }},
		{"feet typed as metres", "outline.length_m", "out_of_range", func(d *design.Design) { d.Outline.LengthM = 340 }},
		{"a length that is no number", "outline.length_m", "not_a_number", func(d *design.Design) { d.Outline.LengthM = math.NaN() }},
		{"an endless length", "outline.width_m", "not_a_number", func(d *design.Design) { d.Outline.WidthM = math.Inf(1) }},
		{"a circle with two diameters", "outline.width_m", "circle_not_round", func(d *design.Design) { d.Outline.Shape = design.Circle }},
		{"corners rounder than the pond", "outline.corner_radius_m", "out_of_range", func(d *design.Design) {
			d.Outline.Shape, d.Outline.CornerRadiusM = design.RoundedRectangle, 4
		}},
		{"a notch that leaves no arm", "outline.notch_length_m", "out_of_range", func(d *design.Design) {
			d.Outline.Shape, d.Outline.NotchLengthM, d.Outline.NotchWidthM = design.LShape, 7.9, 2
		}},
		{"two handles make no curve", "outline.handles", "wrong_count", func(d *design.Design) {
			d.Outline = design.Outline{Shape: design.Freehand, Handles: []design.Point{{}, {XM: 3}}}
		}},
		{"a vertex off the earth", "outline.vertices[1].x_m", "out_of_range", func(d *design.Design) {
			d.Outline = design.Outline{Shape: design.Polygon, Vertices: []design.Point{{}, {XM: 1e9}, {YM: 2}}}
		}},
		{"a wall that goes back up", "bowl.wall[3].depth_m", "falls", func(d *design.Design) {
			d.Bowl.Wall = []design.Knot{{}, {InsetM: 1, DepthM: -0.0}, {InsetM: 2, DepthM: 1}, {InsetM: 3, DepthM: 0.5}}
		}},
		{"a wall that does not start at the edge", "bowl.wall[0]", "starts_at_edge", func(d *design.Design) {
			d.Bowl.Wall = []design.Knot{{DepthM: 1}, {InsetM: 1, DepthM: 1.5}}
		}},
		{"a floor that doubles back", "bowl.floor.knots[1].along_m", "falls", func(d *design.Design) {
			d.Bowl.Floor = &design.Floor{Knots: []design.FloorKnot{{AlongM: 2, DepthM: 1}, {AlongM: 1, DepthM: 2}}}
		}},
		{"a beach like a wall", "bowl.beach.run_per_rise_ratio", "out_of_range", func(d *design.Design) { d.Bowl.Beach.RunPerRiseRatio = 0.1 }},
		{"steps like a ladder", "bowl.steps.tread_m", "out_of_range", func(d *design.Design) { d.Bowl.Steps = steps(func(s *design.Steps) { s.TreadM = 0.05 }) }},
		{"steps of inches typed as metres", "bowl.steps.riser_m", "out_of_range", func(d *design.Design) { d.Bowl.Steps = steps(func(s *design.Steps) { s.RiserM = 7 }) }},
		{"steps wider than any pond", "bowl.steps.width_m", "out_of_range", func(d *design.Design) { d.Bowl.Steps = steps(func(s *design.Steps) { s.WidthM = 48 }) }},
		{"no step at all", "bowl.steps.count", "wrong_count", func(d *design.Design) { d.Bowl.Steps = steps(func(s *design.Steps) { s.Count = 0 }) }},
		{"steps that go on below the floor", "bowl.steps.count", "wrong_count", func(d *design.Design) { d.Bowl.Steps = steps(func(s *design.Steps) { s.Count = 9 }) }},
		{"steps behind the compass", "bowl.steps.bearing_deg", "out_of_range", func(d *design.Design) { d.Bowl.Steps = steps(func(s *design.Steps) { s.BearingDeg = 400 }) }},
		{"a riser deeper than the pond", "bowl.steps.riser_m", "out_of_range", func(d *design.Design) {
			d.Bowl.DeepM, d.Bowl.Steps = 0.3, steps(func(s *design.Steps) { s.RiserM = 0.4 })
		}},
		{"a lip a mile long", "cascade.lip_m", "out_of_range", func(d *design.Design) {
			d.Cascade = &design.Cascade{LipM: 1609, SheetM: 0.02, Lip: design.BroadLip}
		}},
		{"a lip of no known kind", "cascade.lip", "unknown_choice", func(d *design.Design) {
			d.Cascade = &design.Cascade{LipM: 1, SheetM: 0.02, Lip: "soft"}
		}},
		{"gravel with no gaps", "regeneration_zone.pore_ratio", "out_of_range", func(d *design.Design) {
			d.Zone = &design.Zone{AreaM2: 10, DepthM: 1, LoadingMPerH: 1}
		}},
		{"no pump", "circulation.pump_count", "wrong_count", func(d *design.Design) { d.Circulation.PumpCount = 0 }},
		{"a pipe as wide as the pond", "circulation.suction.inside_diameter_m", "out_of_range", func(d *design.Design) {
			d.Circulation.Suction.InsideDiameterM = 3
		}},
		{"the thirtieth of February", "running.spans[0].from", "not_a_day", func(d *design.Design) { d.Running.Spans[0].From = "02-30" }},
		{"twenty-five o'clock", "running.spans[0].runs[0].end", "not_a_time", func(d *design.Design) { d.Running.Spans[0].Runs[0].End = "25:00" }},
		{"a mode nobody knows", "running.spans[0].runs[0].mode", "unknown_choice", func(d *design.Design) { d.Running.Spans[0].Runs[0].Mode = "loud" }},
		{"power that pays you", "site.electricity_per_kwh", "not_a_price", func(d *design.Design) { d.Site.ElectricityPerKWh = "-0.16" }},
		{"a price in words", "site.water_per_m3", "not_a_price", func(d *design.Design) { d.Site.WaterPerM3 = "cheap" }},
		{"boiling water", "site.water_temp_deg_c", "out_of_range", func(d *design.Design) { d.Site.WaterTempDegC = 100 }},
	}
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			d := sound()
			c.spoil(&d)
			got := design.Validate(d)
			if len(got) != 1 || got[0].Path != c.path || got[0].Code != c.code {
				t.Fatalf("faults = %+v, want one %s at %s", got, c.code, c.path)
			}
		})
	}
}

func TestValidate_EveryFaultIsReportedAtOnce(t *testing.T) {
	t.Parallel()
	d := sound()
	d.Outline.LengthM, d.Bowl.DeepM, d.Circulation.PumpCount = -1, 99, 0
	if got := len(design.Validate(d)); got != 3 {
		t.Fatalf("faults = %d, want 3", got)
	}
}

func FuzzTimes(f *testing.F) {
	for _, s := range []string{"", "02-29", "13-01", "24:00", "23:60", "ab:cd", "１2:00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if m, ok := design.Minute(s); ok && (m < 0 || m > 1440) {
			t.Fatalf("Minute(%q) = %d", s, m)
		}
		if m, d, ok := design.MonthDay(s); ok && (m < 1 || m > 12 || d < 1 || d > 31) {
			t.Fatalf("MonthDay(%q) = %d-%d", s, m, d)
		}
	})
}
