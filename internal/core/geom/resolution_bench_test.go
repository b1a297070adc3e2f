package geom

import (
	"math"
	"strconv"
	"testing"

	"tarnwright/internal/core/design"
)

// Time against accuracy: the demo pond with the rim sending out more and more
// rays; the error is against the finest, in parts per million of the volume.
func BenchmarkMeasure_Resolutions(b *testing.B) {
	vertices := []vec{{0, 0}, {7, 0}, {7, 4}, {4.2, 2.2}, {2.5, 4.8}, {-0.4, 3.1}}
	o := design.Outline{Shape: design.Polygon}
	for _, v := range vertices {
		o.Vertices = append(o.Vertices, design.Point{XM: v.x, YM: v.y})
	}
	rim, err := NewRim(o)
	if err != nil {
		b.Fatal(err)
	}
	f := NewField(rim, design.Bowl{
		DeepM: 1.5, Wall: []design.Knot{{}, {InsetM: 0.1, DepthM: 0.3}, {InsetM: 0.4, DepthM: 0.3}, {InsetM: 1.2, DepthM: 1.5}},
		Beach: &design.Beach{BearingDeg: 120, WidthM: 3, RunPerRiseRatio: 5, ToeDepthM: 0.4, DescentRunPerRiseRatio: 2},
	})
	exact := f.measure(5000, nil).GrossVolumeM3
	for _, steps := range []int{40, 80, 160, 640} {
		b.Run(strconv.Itoa(steps), func(b *testing.B) {
			var m measured
			for b.Loop() {
				m = f.measure(float64(steps), nil)
			}
			b.ReportMetric(1e6*math.Abs(m.GrossVolumeM3/exact-1), "ppm")
		})
	}
}
