package geom_test

import (
	"math"
	"strconv"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
)

func bean() (design.Outline, design.Bowl) {
	return design.Outline{Shape: design.Bean, LengthM: 10.3632, WidthM: 6.4008}, design.Bowl{
		DeepM: 1.9812,
		Wall: []design.Knot{
			{InsetM: 0, DepthM: 0}, {InsetM: 0.10, DepthM: 0.30}, {InsetM: 0.45, DepthM: 0.30}, {InsetM: 1.03842, DepthM: 1.9812},
		},
		Beach: &design.Beach{BearingDeg: 270, WidthM: 3.6, RunPerRiseRatio: 5, ToeDepthM: 0.45, DescentRunPerRiseRatio: 2.4},
	}
}

// The demo pond: outline, field and every figure, then with its contours.
func BenchmarkMeasure_Bean(b *testing.B) {
	o, bowl := bean()
	for b.Loop() {
		rim, err := geom.NewRim(o)
		if err != nil {
			b.Fatal(err)
		}
		geom.Measure(geom.NewField(rim, bowl))
	}
}

func BenchmarkContours_Bean(b *testing.B) {
	o, bowl := bean()
	rim, err := geom.NewRim(o)
	if err != nil {
		b.Fatal(err)
	}
	f := geom.NewField(rim, bowl)
	levels := []float64{0.3048, 0.6096, 0.9144, 1.2192, 1.524, 1.8288}
	for b.Loop() {
		f.Contours(levels)
	}
}

func BenchmarkQuickContours_Bean(b *testing.B) {
	o, bowl := bean()
	rim, err := geom.NewRim(o)
	if err != nil {
		b.Fatal(err)
	}
	f := geom.NewField(rim, bowl)
	levels := []float64{0.3048, 0.6096, 0.9144, 1.2192, 1.524, 1.8288}
	for b.Loop() {
		f.QuickContours(levels)
	}
}

// How the cost grows with the number of vertices: a pond of 10 by 6 m with a
// wavy edge.
func BenchmarkMeasure_Vertices(b *testing.B) {
	for _, n := range []int{8, 25, 80, 250, 800} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			o := design.Outline{Shape: design.Polygon}
			for i := range n {
				s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
				k := 1 + 0.1*math.Sin(6*math.Pi*float64(i)/float64(n))
				o.Vertices = append(o.Vertices, design.Point{XM: 5 * k * c, YM: 3 * k * s})
			}
			_, bowl := bean()
			for b.Loop() {
				rim, err := geom.NewRim(o)
				if err != nil {
					b.Fatal(err)
				}
				geom.Measure(geom.NewField(rim, bowl))
			}
		})
	}
}
