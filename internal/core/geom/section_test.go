package geom_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
)

func TestMeasure_LongestSectionAndDeepestPlace(t *testing.T) {
	t.Parallel()
	cone := []design.Knot{{}, {InsetM: 9, DepthM: 9}}
	for _, c := range []struct {
		why       string
		o         design.Outline
		b         design.Bowl
		at        design.Point
		section   float64
		tolerance float64
	}{
		{
			why: "a square's pyramid: the diagonal through its middle",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 6, WidthM: 6}, b: design.Bowl{DeepM: 9, Wall: cone},
			section: 6 * math.Sqrt2, tolerance: 1e-4,
		},
		{
			why: "a circle: its diameter, wherever it has been moved",
			o:   design.Outline{Shape: design.Circle, LengthM: 5, WidthM: 5, CentreXM: 40, CentreYM: -30}, b: design.Bowl{DeepM: 9, Wall: cone},
			at: design.Point{XM: 40, YM: -30}, section: 5, tolerance: 1e-3,
		},
		{
			why: "a level floor: its middle, and the diagonal of the water",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4}, b: design.Bowl{DeepM: 1, Wall: []design.Knot{{}, {DepthM: 1}}},
			section: math.Sqrt(80), tolerance: 1e-4,
		},
		{
			why: "a triangle of 3, 4 and 5: the incentre, 1 from each side; the longest line leaves by the far corner",
			o:   design.Outline{Shape: design.Polygon, Vertices: []design.Point{{}, {XM: 4}, {YM: 3}}}, b: design.Bowl{DeepM: 9, Wall: cone},
			// From the corner (4, 0) through (1, 1): at x = 0, y is 4/3.
			at: design.Point{XM: 1, YM: 1}, section: math.Sqrt(16 + 16.0/9), tolerance: 1e-3,
		},
	} {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			m := geom.Measure(field(t, c.o, c.b))
			near(t, "longest section m", m.LongestSectionM, c.section, c.tolerance)
			if off := math.Hypot(m.Deepest.XM-c.at.XM, m.Deepest.YM-c.at.YM); off > 0.01 {
				t.Errorf("deepest place %+v, want %+v, %.4f m off", m.Deepest, c.at, off)
			}
		})
	}
}

func TestRim_SmallestRectangle(t *testing.T) {
	t.Parallel()
	s, c := math.Sincos(0.6)
	turn := func(x, y float64) design.Point { return design.Point{XM: x*c - y*s + 5, YM: x*s + y*c} }
	for _, tc := range []struct {
		why           string
		vertices      []design.Point
		length, width float64
	}{
		{"a turned rectangle of 7 by 3 is its own", []design.Point{turn(0, 0), turn(7, 0), turn(7, 3), turn(0, 3)}, 7, 3},
		{"and so with a bite out of it", []design.Point{turn(0, 0), turn(7, 0), turn(7, 3), turn(4, 3), turn(3.5, 1), turn(3, 3), turn(0, 3)}, 7, 3},
		{"a diamond of half axes 4 and 2: along a side, of √20, 32/√20 by 16/√20, against 8 by 4 along its axes", []design.Point{{XM: 4}, {YM: 2}, {XM: -4}, {YM: -2}}, 32 / math.Sqrt(20), 16 / math.Sqrt(20)},
	} {
		t.Run(tc.why, func(t *testing.T) {
			t.Parallel()
			rim, err := geom.NewRim(design.Outline{Shape: design.Polygon, Vertices: tc.vertices})
			if err != nil {
				t.Fatal(err)
			}
			got := rim.Smallest()
			near(t, "area", got.LengthM*got.WidthM, tc.length*tc.width, 1e-9)
		})
	}
}

// Down one wall and up the other of a box with a shelf, by hand.
func TestBottom_ShowsTheFaces(t *testing.T) {
	t.Parallel()
	f := field(t, design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4}, design.Bowl{
		DeepM: 1.5, Wall: []design.Knot{{}, {DepthM: 0.3}, {InsetM: 1, DepthM: 0.3}, {InsetM: 1, DepthM: 1.5}},
	})
	from, to := f.Rim().Chord(design.Point{}, design.Point{XM: 1})
	last := geom.Sample{}
	for _, s := range f.Bottom(from, to) {
		want := 1.5
		if in := math.Min(s.AlongM, 8-s.AlongM); in < 1e-4 {
			want = s.DepthM // at the very edge: anything down the face
		} else if in < 1-1e-4 {
			want = 0.3
		} else if in < 1+1e-4 {
			want = s.DepthM
		}
		if math.Abs(s.DepthM-want) > 1e-9 || s.DepthM < 0 || s.DepthM > 1.5 {
			t.Errorf("at %.5f m: %.5f m deep, want %.5f m", s.AlongM, s.DepthM, want)
		}
		if s.AlongM-last.AlongM > 0.06 {
			t.Errorf("no sample between %.3f m and %.3f m", last.AlongM, s.AlongM)
		}
		last = s
	}
	near(t, "length m", last.AlongM, 8, 1e-9)
}
