package geom_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
)

// reference is one case of testdata/reference/geometry.json; the file states
// how each was worked out.
type reference struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Shape struct {
		Type     string          `json:"type"`
		Vertices [][2]float64    `json:"vertices_m"`
		Radius   float64         `json:"radius_m"`
		A        float64         `json:"semi_axis_a_m"`
		B        float64         `json:"semi_axis_b_m"`
		Length   float64         `json:"length_m"`
		Width    float64         `json:"width_m"`
		Corner   float64         `json:"corner_radius_m"`
		Control  [][2]float64    `json:"control_points_m"`
		Bezier   [][4][2]float64 `json:"bezier_segments_m"`
	} `json:"shape"`
	Depth struct {
		Knots [][2]float64 `json:"profile_knots_inset_depth_m"`
		Max   float64      `json:"max_depth_m"`
		Beach *struct {
			X0  float64 `json:"x0_m"`
			Run float64 `json:"run_m"`
		} `json:"beach"`
	} `json:"depth"`
	Result struct {
		Volume    float64 `json:"volume_m3"`
		Area      float64 `json:"surface_area_m2"`
		Perimeter float64 `json:"perimeter_m"`
		Mean      float64 `json:"mean_depth_m"`
		Developed float64 `json:"developed_area_m2"`
		Floor     float64 `json:"flat_floor_area_m2"`
		Max       float64 `json:"max_depth_reached_m"`
	} `json:"result"`
	Stage []struct {
		Depth    float64 `json:"depth_below_full_m"`
		Area     float64 `json:"water_area_m2"`
		Drawdown float64 `json:"drawdown_volume_m3"`
	} `json:"stage"`
}

func references(t testing.TB) []reference {
	t.Helper()
	raw, err := os.ReadFile("../../../testdata/reference/geometry.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []reference `json:"cases"`
	}
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	return file.Cases
}

func points(ps [][2]float64) []design.Point {
	out := make([]design.Point, len(ps))
	for i, p := range ps {
		out[i] = design.Point{XM: p[0], YM: p[1]}
	}
	return out
}

// outline turns a reference shape into a design's outline. A Bézier outline
// goes in as vertices on the curve, 96 a segment.
func (r reference) outline() design.Outline {
	s := r.Shape
	switch s.Type {
	case "circle":
		return design.Outline{Shape: design.Circle, LengthM: 2 * s.Radius, WidthM: 2 * s.Radius}
	case "ellipse":
		return design.Outline{Shape: design.Ellipse, LengthM: 2 * s.A, WidthM: 2 * s.B}
	case "stadium", "rounded_rectangle":
		return design.Outline{Shape: design.RoundedRectangle, LengthM: s.Length, WidthM: s.Width, CornerRadiusM: s.Corner}
	case "catmull_rom_closed_uniform":
		return design.Outline{Shape: design.Freehand, Handles: points(s.Control)}
	case "cubic_bezier_closed":
		var vs []design.Point
		for _, b := range s.Bezier {
			for k := range 96 {
				t := float64(k) / 96
				u := 1 - t
				w := [4]float64{u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t}
				var p design.Point
				for i := range b {
					p.XM += w[i] * b[i][0]
					p.YM += w[i] * b[i][1]
				}
				vs = append(vs, p)
			}
		}
		return design.Outline{Shape: design.Polygon, Vertices: vs}
	}
	return design.Outline{Shape: design.Polygon, Vertices: points(s.Vertices)}
}

func (r reference) bowl() design.Bowl {
	b := design.Bowl{DeepM: r.Depth.Max}
	for _, k := range r.Depth.Knots {
		b.Wall = append(b.Wall, design.Knot{InsetM: k[0], DepthM: k[1]})
	}
	if be := r.Depth.Beach; be != nil {
		b.Floor = &design.Floor{Knots: []design.FloorKnot{{AlongM: be.X0, DepthM: 0}, {AlongM: be.X0 + be.Run, DepthM: r.Depth.Max}}}
	}
	return b
}

func field(t testing.TB, o design.Outline, b design.Bowl) *geom.Field {
	t.Helper()
	rim, err := geom.NewRim(o)
	if err != nil {
		t.Fatal(err)
	}
	return geom.NewField(rim, b)
}

// near fails where got is further from want than tolerance times want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s: got %.9g, want %.9g, off by %.3g of it, tolerance %.3g", what, got, want, got/want-1, tolerance)
	}
}

func TestMeasure_AgreesWithReference(t *testing.T) {
	t.Parallel()
	for _, r := range references(t) {
		t.Run(r.ID+" "+r.Title, func(t *testing.T) {
			t.Parallel()
			f := field(t, r.outline(), r.bowl())
			m := geom.Measure(f)
			near(t, "area m2", m.AreaM2, r.Result.Area, 5e-4)
			near(t, "perimeter m", m.PerimeterM, r.Result.Perimeter, 5e-4)
			near(t, "volume m3", m.GrossVolumeM3, r.Result.Volume, 1e-3)
			near(t, "developed area m2", m.DevelopedAreaM2, r.Result.Developed, 1e-3)
			near(t, "mean depth m", m.MeanDepthM, r.Result.Mean, 1e-3)
			near(t, "greatest depth m", m.MaxDepthM, r.Result.Max, 1e-3)
			if off := math.Abs(m.GrossVolumeM3/r.Result.Volume - 1); off > m.VolumeErrorRatio {
				t.Errorf("volume off by %.2g, more than the method's own estimate %.2g", off, m.VolumeErrorRatio)
			}
			if math.Abs(m.FloorAreaM2-r.Result.Floor) > 2e-3*r.Result.Area {
				t.Errorf("level floor: got %.5g m2, want %.5g m2", m.FloorAreaM2, r.Result.Floor)
			}
			t.Logf("V %+.2e  dev %+.2e  area %+.2e  per %+.2e  floor %+.4f of %.4f  est %.1e", m.GrossVolumeM3/r.Result.Volume-1,
				m.DevelopedAreaM2/r.Result.Developed-1, m.AreaM2/r.Result.Area-1, m.PerimeterM/r.Result.Perimeter-1,
				m.FloorAreaM2-r.Result.Floor, r.Result.Floor, m.VolumeErrorRatio)
			var levels []float64
			for _, s := range r.Stage {
				levels = append(levels, s.Depth)
			}
			for i, s := range f.StagesAt(levels) {
				want := r.Stage[i]
				if math.Abs(s.AreaM2-want.Area) > 2e-3*r.Result.Area {
					t.Errorf("area at %.3f m: got %.6g m2, want %.6g m2", s.DepthM, s.AreaM2, want.Area)
				}
				if down := m.GrossVolumeM3 - s.VolumeM3; math.Abs(down-want.Drawdown) > 1e-3*r.Result.Volume {
					t.Errorf("volume above %.3f m: got %.6g m3, want %.6g m3", s.DepthM, down, want.Drawdown)
				}
			}
		})
	}
}
