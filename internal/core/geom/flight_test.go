package geom_test

import (
	"math"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
)

// Flights whose prisms are summed by hand beside each case.
func TestMeasure_Steps_ClosedForms(t *testing.T) {
	t.Parallel()
	box := design.Bowl{DeepM: 1, Wall: []design.Knot{{}, {DepthM: 1}}}
	slope := design.Bowl{DeepM: 2, Wall: []design.Knot{{}, {InsetM: 2, DepthM: 2}}}
	frustum := (60 + 4*8*4 + 12) * 2 / 6.0
	for _, c := range []struct {
		why                            string
		o                              design.Outline
		b                              design.Bowl
		st                             design.Steps
		volume, developed, treads, fit float64
	}{
		{
			why: "four prisms in a box: 2 × 0.3 × (0.8 + 0.6 + 0.4 + 0.2) less water; 1.6 of the wall covered, risers 4 × 0.2 × 2, cheeks 2 × 0.3 × 2",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4}, b: box,
			st:     design.Steps{BearingDeg: 270, WidthM: 2, TreadM: 0.3, RiserM: 0.2, Count: 4},
			volume: 32 - 1.2, developed: 32 + 24 - 1.6 + 1.6 + 1.2, treads: 2.4, fit: 1e-6,
		},
		{
			why: "the same anywhere else, turned",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4, RotationDeg: 30, CentreXM: 70, CentreYM: -40}, b: box,
			st:     design.Steps{BearingDeg: 240, WidthM: 2, TreadM: 0.3, RiserM: 0.2, Count: 4},
			volume: 32 - 1.2, developed: 32 + 24 - 1.6 + 1.6 + 1.2, treads: 2.4, fit: 1e-6,
		},
		{
			why: "on a slope of 1 in 1, each tread 0.4 long and 0.2 lower: ∫ max(0, t − 0.2 k) is 0.02, then 0.08, 0.16, 0.24 and 0.32, 1.5 wide; half of the first tread lies under the slope. " +
				"The slope covered, √2 × 1.5 × (0.2 + 4 × 0.4); the treads that stand clear, 1.5 × 1.8; risers 1.5 × 0.2 × 3 and 1.5 × 1.0 at the foot, of the first only what is clear of the slope, 0.2; cheeks twice 0.82",
			o: design.Outline{Shape: design.Rectangle, LengthM: 10, WidthM: 6}, b: slope,
			st: design.Steps{BearingDeg: 270, WidthM: 1.5, TreadM: 0.4, RiserM: 0.2, Count: 5},
			// After tread k the bowl is 0.4 k deep, the tread 0.2 k and the next 0.2 (k + 1): 0.2 each, and 1.0 at the foot.
			volume: frustum - 1.5*0.82, developed: 12 + 48*math.Sqrt2 - 1.5*1.8*math.Sqrt2 + 1.5*1.8 + 1.5*(4*0.2+1.0) + 2*0.82, treads: 1.5 * 1.8, fit: 1e-4,
		},
		{
			why: "all of it under a gentler bottom: nothing changes",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 10, WidthM: 6}, b: design.Bowl{DeepM: 0.5, Wall: []design.Knot{{}, {InsetM: 2.5, DepthM: 0.5}}},
			st:     design.Steps{BearingDeg: 270, WidthM: 1, TreadM: 0.4, RiserM: 0.25, Count: 2},
			volume: (60 + 4*7.5*3.5 + 5) * 0.5 / 6.0, developed: 5 + 55*math.Sqrt(1.04), fit: 1e-6,
		},
	} {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			b := c.b
			b.Steps = &c.st
			m := geom.Measure(field(t, c.o, b))
			near(t, "volume m3", m.GrossVolumeM3, c.volume, c.fit)
			near(t, "developed area m2", m.DevelopedAreaM2, c.developed, c.fit)
			if math.Abs(m.TreadAreaM2-c.treads) > 1e-6 {
				t.Errorf("treads %.6f m2, want %.6f m2", m.TreadAreaM2, c.treads)
			}
			if m.VolumeErrorRatio > 5e-3 {
				t.Errorf("the method trusts itself to %.2g only", m.VolumeErrorRatio)
			}
		})
	}
}

// What the steps take of the water, against a fine grid of points that are
// asked for their depth with the steps and without, on the flight alone; and
// that the method's own error is no smaller than what is found.
func TestMeasure_Steps_AgreeWithAGrid(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, o := range outlines {
		for _, bowl := range bowls[:5] {
			for _, bearing := range []float64{20, 140, 265} {
				with := bowl
				with.Steps = &design.Steps{BearingDeg: bearing, WidthM: 1.1, TreadM: 0.35, RiserM: 0.2, Count: 5}
				f, g := field(t, o, with), field(t, o, bowl)
				m, n := geom.Measure(f), geom.Measure(g)
				taken, treads := grid(f, g, 60)
				off := math.Abs((n.GrossVolumeM3 - m.GrossVolumeM3) - taken)
				if off > 0.01*taken+2e-3 {
					t.Errorf("%s %+v at %g°: steps take %.5f m3, the grid says %.5f m3", o.Shape, bowl, bearing, n.GrossVolumeM3-m.GrossVolumeM3, taken)
				}
				if allowed := m.VolumeErrorRatio*m.GrossVolumeM3 + 5e-4*taken + 1e-3; off > allowed {
					t.Errorf("%s at %g°: off by %.5f m3, own estimate %.5f m3", o.Shape, bearing, off, allowed)
				}
				if math.Abs(m.TreadAreaM2-treads) > 0.03*treads+0.01 {
					t.Errorf("%s at %g°: treads %.4f m2, the grid says %.4f m2", o.Shape, bearing, m.TreadAreaM2, treads)
				}
			}
		}
	}
}

// The widest steps that a design may ask for, in ponds hardly wider: the volume
// stays within what is promised of it, against the same grid.
func TestMeasure_WideSteps_KeepTheTolerance(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, o := range outlines {
		for _, bowl := range bowls[1:4] {
			for _, wide := range []float64{4, 6} {
				with := bowl
				with.Steps = &design.Steps{BearingDeg: 265, WidthM: wide, TreadM: 0.35, RiserM: 0.2, Count: 5}
				f, g := field(t, o, with), field(t, o, bowl)
				m, n := geom.Measure(f), geom.Measure(g)
				taken, _ := grid(f, g, 140)
				if off := math.Abs((n.GrossVolumeM3-m.GrossVolumeM3)-taken) / m.GrossVolumeM3; off > 3e-3 {
					t.Errorf("%s, steps %g m wide: %.4f m3 of water, off by %.2f %%", o.Shape, wide, m.GrossVolumeM3, 100*off)
				}
			}
		}
	}
}

// grid sums how much shallower f is than g over the treads, and where it is,
// at n × n places of each.
func grid(f, g *geom.Field, n int) (takenM3, treadsM2 float64) {
	for _, tread := range f.Treads() {
		c := tread.Corners
		area := math.Hypot(c[1].XM-c[0].XM, c[1].YM-c[0].YM) * math.Hypot(c[3].XM-c[0].XM, c[3].YM-c[0].YM) / float64(n*n)
		for i := range n {
			for j := range n {
				u, v := (float64(i)+0.5)/float64(n), (float64(j)+0.5)/float64(n)
				p := design.Point{
					XM: c[0].XM + u*(c[1].XM-c[0].XM) + v*(c[3].XM-c[0].XM),
					YM: c[0].YM + u*(c[1].YM-c[0].YM) + v*(c[3].YM-c[0].YM),
				}
				if less := g.Depth(p) - f.Depth(p); less > 0 {
					takenM3 += less * area
					treadsM2 += area
				}
			}
		}
	}
	return takenM3, treadsM2
}

// A section down the middle of a flight shows each tread level and each riser
// upright.
func TestBottom_ShowsEachStep(t *testing.T) {
	t.Parallel()
	f := field(t, design.Outline{Shape: design.Rectangle, LengthM: 16, WidthM: 4}, design.Bowl{
		DeepM: 1, Wall: []design.Knot{{}, {DepthM: 1}},
		Steps: &design.Steps{BearingDeg: 270, WidthM: 2, TreadM: 0.3, RiserM: 0.2, Count: 4},
	})
	bottom := f.Bottom(design.Point{XM: -8}, design.Point{XM: 8})
	for _, s := range bottom[1 : len(bottom)-1] {
		k := math.Floor(s.AlongM / 0.3)
		want := 0.2 * (k + 1)
		if k >= 4 {
			want = 1
		}
		if edge := math.Abs(s.AlongM - 0.3*math.Round(s.AlongM/0.3)); edge > 1e-4 && s.AlongM > 0.01 && math.Abs(s.DepthM-want) > 1e-9 {
			t.Errorf("%.4f m along it is %.4f m deep, want %.4f m", s.AlongM, s.DepthM, want)
		}
	}
	for i := 1; i < len(bottom); i++ {
		a, b := bottom[i-1], bottom[i]
		if b.AlongM < a.AlongM {
			t.Fatalf("the section turns back at %.4f m", b.AlongM)
		}
		if math.Abs(b.DepthM-a.DepthM) > 0.05 && b.AlongM-a.AlongM > 1e-3 {
			t.Errorf("a face of %.3f m leans over %.4f m at %.3f m along", b.DepthM-a.DepthM, b.AlongM-a.AlongM, a.AlongM)
		}
	}
}
