package layout_test

import (
	"testing"

	"tarnwright/internal/core/geom"
	"tarnwright/internal/core/layout"
)

// The demo pond, measured already: contours, section and everything round it,
// for a drawing at rest and for one that follows a finger.
func BenchmarkOf_Demo(b *testing.B)  { of(b, false) }
func BenchmarkOf_Quick(b *testing.B) { of(b, true) }

func of(b *testing.B, quick bool) {
	b.Helper()
	d := demoDesign()
	rim, err := geom.NewRim(d.Outline)
	if err != nil {
		b.Fatal(err)
	}
	f := geom.NewField(rim, d.Bowl)
	m := geom.Measure(f)
	see := layout.Sight{LevelsM: []float64{0.3048, 0.6096, 0.9144, 1.2192, 1.524, 1.8288}, Quick: quick}
	for b.Loop() {
		layout.Of(d, f, m, see)
	}
}
