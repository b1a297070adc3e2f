package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarnwright/internal/core/design"
	"tarnwright/internal/core/geom"
)

// closed forms, worked out by hand beside each case.
func TestMeasure_ClosedForms(t *testing.T) {
	t.Parallel()
	const ft = 0.3048
	straight := func(run, deep float64) design.Bowl {
		return design.Bowl{DeepM: deep, Wall: []design.Knot{{}, {InsetM: run, DepthM: deep}}}
	}
	for _, c := range []struct {
		why                     string
		o                       design.Outline
		b                       design.Bowl
		volume, volTolerance    float64
		developed, devTolerance float64
	}{
		{
			why: "prismoid 40x20 to 20x8 ft, 8 ft deep, 3520 cubic feet (handbook table of prismoids): unequal slopes, so by a floor each way; here the equal-slope one, 40x20 to 28x8: (800 + 4·34·14 + 224)·8/6",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 40 * ft, WidthM: 20 * ft}, b: straight(6*ft, 8*ft),
			volume: (800 + 4*34*14 + 224) * 8 / 6.0 * ft * ft * ft, volTolerance: 1e-9,
			developed: (224 + (800-224)*math.Sqrt(1+64.0/36)) * ft * ft, devTolerance: 1e-9,
		},
		{
			why: "cone frustum R 10, r 4, h 6: 980.17690792 (handbook table)",
			o:   design.Outline{Shape: design.Circle, LengthM: 20, WidthM: 20}, b: straight(6, 6),
			volume: 980.17690792, volTolerance: 2e-4,
			developed: math.Pi*16 + math.Pi*14*math.Sqrt(72), devTolerance: 2e-4,
		},
		{
			why: "whole cone R 5, h 2, never reaching 3",
			o:   design.Outline{Shape: design.Circle, LengthM: 10, WidthM: 10}, b: straight(7.5, 3),
			volume: math.Pi * 25 * 2 / 3, volTolerance: 3e-4,
			developed: math.Pi * 5 * math.Sqrt(29), devTolerance: 2e-4,
		},
		{
			why: "pyramid on a square of 6, 1 in 2",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 6, WidthM: 6}, b: straight(8, 4),
			volume: 36 * 1.5 / 3, volTolerance: 1e-9, developed: 36 * math.Sqrt(1.25), devTolerance: 1e-9,
		},
		{
			why:    "cylinder R 3, 1.5 deep",
			o:      design.Outline{Shape: design.Circle, LengthM: 6, WidthM: 6},
			b:      design.Bowl{DeepM: 1.5, Wall: []design.Knot{{}, {DepthM: 1.5}}},
			volume: math.Pi * 9 * 1.5, volTolerance: 1e-4, developed: math.Pi*9 + math.Pi*6*1.5, devTolerance: 1e-4,
		},
		{
			why: "box with a beach over its whole short side, 1 in 5 to the floor: 8x4, 1 deep, wedge of 5",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4},
			b: design.Bowl{
				DeepM: 1, Wall: []design.Knot{{}, {DepthM: 1}},
				Beach: &design.Beach{BearingDeg: 270, WidthM: 4, RunPerRiseRatio: 5},
			},
			volume: 4 * (5*0.5 + 3), volTolerance: 1e-4,
			developed: 4*math.Sqrt(26) + 12 + 2*(2.5+3) + 4, devTolerance: 1e-4,
		},
		{
			why: "the same with a toe at 0.4 and then 1 in 2: wedge 2 long, then 1.2 long",
			o:   design.Outline{Shape: design.Rectangle, LengthM: 8, WidthM: 4},
			b: design.Bowl{
				DeepM: 1, Wall: []design.Knot{{}, {DepthM: 1}},
				Beach: &design.Beach{BearingDeg: 270, WidthM: 4, RunPerRiseRatio: 5, ToeDepthM: 0.4, DescentRunPerRiseRatio: 2},
			},
			volume: 4 * (2*0.2 + 1.2*0.7 + 4.8), volTolerance: 1e-4,
			developed: 4*(math.Sqrt(4.16)+math.Sqrt(1.8)+4.8) + 2*(2*0.2+1.2*0.7+4.8) + 4, devTolerance: 1e-3,
		},
	} {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			m := geom.Measure(field(t, c.o, c.b))
			near(t, "volume m3", m.GrossVolumeM3, c.volume, c.volTolerance)
			near(t, "developed area m2", m.DevelopedAreaM2, c.developed, c.devTolerance)
		})
	}
}

// A prismoid whose ends slope otherwise than its sides: 40x20 to 20x8 ft over
// 8 ft, 3520 cubic feet. The sides are walls of 6 in 8; the ends, 10 in 8, are
// the floor's fall along the axis at either end.
func TestMeasure_PrismoidOfTheHandbook(t *testing.T) {
	t.Parallel()
	const ft = 0.3048
	m := geom.Measure(field(t,
		design.Outline{Shape: design.Rectangle, LengthM: 40 * ft, WidthM: 20 * ft},
		design.Bowl{
			DeepM: 8 * ft, Wall: []design.Knot{{}, {InsetM: 6 * ft, DepthM: 8 * ft}},
			Floor: &design.Floor{Knots: []design.FloorKnot{
				{AlongM: -20 * ft, DepthM: 0}, {AlongM: -10 * ft, DepthM: 8 * ft},
				{AlongM: 10 * ft, DepthM: 8 * ft}, {AlongM: 20 * ft, DepthM: 0},
			}},
		}))
	near(t, "volume cubic feet", m.GrossVolumeM3/(ft*ft*ft), 3520, 1e-4)
}

// handbook: an L of six corners, 576 square feet, either way round.
func TestRim_ShoelaceOfTheHandbook(t *testing.T) {
	t.Parallel()
	l := []design.Point{{}, {XM: 30}, {XM: 30, YM: 12}, {XM: 18, YM: 12}, {XM: 18, YM: 24}, {YM: 24}}
	back := make([]design.Point, len(l))
	for i, p := range l {
		back[len(l)-1-i] = p
	}
	for _, vs := range [][]design.Point{l, back} {
		rim, err := geom.NewRim(design.Outline{Shape: design.Polygon, Vertices: vs})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "area", rim.AreaM2(), 576, 1e-12)
		near(t, "perimeter", rim.PerimeterM(), 108, 1e-12)
	}
}

// some returns outlines and bowls of every kind.
func some() (outlines []design.Outline, bowls []design.Bowl) {
	l := reference{}
	l.Shape.Vertices = [][2]float64{{0, 0}, {7, 0}, {7, 4}, {4.2, 2.2}, {2.5, 4.8}, {-0.4, 3.1}}
	outlines = []design.Outline{
		{Shape: design.Bean, LengthM: 10.3632, WidthM: 6.4008},
		{Shape: design.Ellipse, LengthM: 8, WidthM: 5},
		{Shape: design.RoundedRectangle, LengthM: 9, WidthM: 4, CornerRadiusM: 1.2},
		{Shape: design.LShape, LengthM: 8, WidthM: 6, NotchLengthM: 4, NotchWidthM: 2.5},
		{Shape: design.Freehand, Handles: []design.Point{{YM: 0.4}, {XM: 1.8, YM: -0.7}, {XM: 4.2, YM: -0.3}, {XM: 6.2, YM: 0.6}, {XM: 6.5, YM: 3}, {XM: 4, YM: 3.4}, {XM: 2.8, YM: 2.5}, {XM: 1, YM: 3.6}}},
		{Shape: design.Polygon, Vertices: points(l.Shape.Vertices)},
	}
	wall := []design.Knot{{}, {DepthM: 0.3}, {InsetM: 0.4, DepthM: 0.35}, {InsetM: 0.4, DepthM: 0.6}, {InsetM: 1, DepthM: 1.5}}
	bowls = []design.Bowl{
		{DeepM: 1.5, Wall: wall},
		{DeepM: 1.5, Wall: wall, Beach: &design.Beach{BearingDeg: 265, WidthM: 3, RunPerRiseRatio: 4}},
		{DeepM: 1.5, Wall: wall, Beach: &design.Beach{BearingDeg: 40, WidthM: 3, RunPerRiseRatio: 4, ToeDepthM: 0.35, DescentRunPerRiseRatio: 2}},
		{DeepM: 1.5, Wall: wall, Floor: &design.Floor{AxisDeg: 20, Knots: []design.FloorKnot{{AlongM: -2, DepthM: 0.4}, {AlongM: 2, DepthM: 1.6}}}},
		{DeepM: 1.5, Wall: []design.Knot{{}, {InsetM: 9, DepthM: 1.5}}, Beach: &design.Beach{BearingDeg: 265, WidthM: 2, RunPerRiseRatio: 3}},
		{DeepM: 1.5, Wall: wall, Steps: &design.Steps{BearingDeg: 100, WidthM: 1.2, TreadM: 0.33, RiserM: 0.17, Count: 5}},
		// Steps partly on a beach, and on a floor that falls.
		{
			DeepM: 1.5, Wall: wall, Beach: &design.Beach{BearingDeg: 40, WidthM: 3, RunPerRiseRatio: 4, ToeDepthM: 0.35, DescentRunPerRiseRatio: 2},
			Steps: &design.Steps{BearingDeg: 75, WidthM: 1.5, TreadM: 0.4, RiserM: 0.2, Count: 6},
			Floor: &design.Floor{AxisDeg: 20, Knots: []design.FloorKnot{{AlongM: -2, DepthM: 0.4}, {AlongM: 2, DepthM: 1.6}}},
		},
	}
	return outlines, bowls
}

// The strips against plain quadrature of the depth field they claim to sum.
func TestMeasure_AgreesWithQuadrature(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, o := range outlines {
		for bi, b := range bowls {
			t.Run(string(o.Shape)+" "+string(rune('a'+bi)), func(t *testing.T) {
				t.Parallel()
				f := field(t, o, b)
				m := geom.Measure(f)
				q := quadrature(f, 400)
				near(t, "volume m3", m.GrossVolumeM3, q.volume, 2e-3)
				near(t, "sloped surface m2", m.DevelopedAreaM2-m.FaceAreaM2, q.surface, 1e-2)
				near(t, "share deeper than 0.6 m", m.Deeper06Share, q.deeper/q.area, 6e-3)
				if m.MaxDepthM < q.deepest-1e-3 || m.MaxDepthM > b.DeepM+1e-9 {
					t.Errorf("greatest depth %.6f m, quadrature found %.6f m, bowl %.6f m", m.MaxDepthM, q.deepest, b.DeepM)
				}
				if got := f.Depth(m.Deepest); got < m.MaxDepthM-2e-3 {
					t.Errorf("deepest place is %.5f m deep, greatest depth %.5f m", got, m.MaxDepthM)
				}
			})
		}
	}
}

type quad struct{ area, volume, surface, deeper, deepest float64 }

// quadrature sums the field over a jittered grid; the slope from differences,
// left out where they meet a face.
func quadrature(f *geom.Field, n float64) quad {
	var q quad
	r := rand.New(rand.NewPCG(1, 2))
	lo, hi := design.Point{XM: 1e9, YM: 1e9}, design.Point{XM: -1e9, YM: -1e9}
	for _, p := range f.Rim().Points() {
		lo = design.Point{XM: min(lo.XM, p.XM), YM: min(lo.YM, p.YM)}
		hi = design.Point{XM: max(hi.XM, p.XM), YM: max(hi.YM, p.YM)}
	}
	h := math.Max(hi.XM-lo.XM, hi.YM-lo.YM) / n
	const e = 1e-4
	for y := lo.YM; y < hi.YM; y += h {
		for x := lo.XM; x < hi.XM; x += h {
			p := design.Point{XM: x + h*r.Float64(), YM: y + h*r.Float64()}
			d := f.Depth(p)
			if d <= 0 {
				continue
			}
			q.area += h * h
			q.volume += d * h * h
			q.deepest = math.Max(q.deepest, d)
			if d >= 0.6 {
				q.deeper += h * h
			}
			gx := (f.Depth(design.Point{XM: p.XM + e, YM: p.YM}) - d) / e
			gy := (f.Depth(design.Point{XM: p.XM, YM: p.YM + e}) - d) / e
			if g := gx*gx + gy*gy; g < 400 {
				q.surface += math.Sqrt(1+g) * h * h
			} else {
				q.surface += h * h
			}
		}
	}
	return q
}

func TestMeasure_ScalesAndTurns(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, o := range outlines {
		for bi, b := range bowls {
			m := geom.Measure(field(t, o, b))
			moved := o
			moved.CentreXM, moved.CentreYM = 412.7, -388.1
			compare(t, "moved", m, geom.Measure(field(t, moved, b)), 1)
			turned, turnedBowl := o, b
			turned.RotationDeg = 33.3
			if b.Beach != nil {
				beach := *b.Beach
				beach.BearingDeg -= 33.3
				turnedBowl.Beach = &beach
			}
			if b.Steps != nil {
				steps := *b.Steps
				steps.BearingDeg -= 33.3
				turnedBowl.Steps = &steps
			}
			compare(t, "turned", m, geom.Measure(field(t, turned, turnedBowl)), 1)
			const k = 3.7
			compare(t, "scaled "+string(rune('a'+bi)), m, geom.Measure(field(t, scaledOutline(o, k), scaledBowl(b, k))), k)
		}
	}
}

// compare holds lengths to k, areas to k² and volumes to k³ within 1e-6.
func compare(t *testing.T, why string, a, b geom.Measures, k float64) {
	t.Helper()
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"area", b.AreaM2, a.AreaM2 * k * k},
		{"perimeter", b.PerimeterM, a.PerimeterM * k},
		{"volume", b.GrossVolumeM3, a.GrossVolumeM3 * k * k * k},
		{"developed area", b.DevelopedAreaM2, a.DevelopedAreaM2 * k * k},
		{"greatest depth", b.MaxDepthM, a.MaxDepthM * k},
		{"flat area", b.FlatAreaM2, a.FlatAreaM2 * k * k},
		{"treads", b.TreadAreaM2, a.TreadAreaM2 * k * k},
		{"smallest rectangle", b.RectangleLengthM * b.RectangleWidthM, a.RectangleLengthM * a.RectangleWidthM * k * k},
	} {
		near(t, why+" "+c.what, c.got, c.want, 1e-6)
	}
}

func scaledOutline(o design.Outline, k float64) design.Outline {
	o.LengthM, o.WidthM, o.CornerRadiusM = o.LengthM*k, o.WidthM*k, o.CornerRadiusM*k
	o.NotchLengthM, o.NotchWidthM = o.NotchLengthM*k, o.NotchWidthM*k
	o.Handles, o.Vertices = scaledPoints(o.Handles, k), scaledPoints(o.Vertices, k)
	return o
}

func scaledPoints(ps []design.Point, k float64) []design.Point {
	var out []design.Point
	for _, p := range ps {
		out = append(out, design.Point{XM: p.XM * k, YM: p.YM * k})
	}
	return out
}

func scaledBowl(b design.Bowl, k float64) design.Bowl {
	out := design.Bowl{DeepM: b.DeepM * k}
	for _, w := range b.Wall {
		out.Wall = append(out.Wall, design.Knot{InsetM: w.InsetM * k, DepthM: w.DepthM * k})
	}
	if b.Beach != nil {
		beach := *b.Beach
		beach.WidthM, beach.ToeDepthM = beach.WidthM*k, beach.ToeDepthM*k
		out.Beach = &beach
	}
	if b.Steps != nil {
		steps := *b.Steps
		steps.WidthM, steps.TreadM, steps.RiserM = steps.WidthM*k, steps.TreadM*k, steps.RiserM*k
		out.Steps = &steps
	}
	if b.Floor != nil {
		floor := design.Floor{AxisDeg: b.Floor.AxisDeg}
		for _, w := range b.Floor.Knots {
			floor.Knots = append(floor.Knots, design.FloorKnot{AlongM: w.AlongM * k, DepthM: w.DepthM * k})
		}
		out.Floor = &floor
	}
	return out
}

// Turning the vertices themselves, rather than the outline, must not matter
// either: nothing is tied to the axes.
func TestMeasure_TurnedVertices(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, o := range outlines {
		if o.Shape != design.Polygon && o.Shape != design.Freehand {
			continue
		}
		a := geom.Measure(field(t, o, bowls[0]))
		s, c := math.Sincos(0.83)
		for _, ps := range []*[]design.Point{&o.Handles, &o.Vertices} {
			var out []design.Point
			for _, p := range *ps {
				out = append(out, design.Point{XM: p.XM*c - p.YM*s + 51, YM: p.XM*s + p.YM*c - 17})
			}
			*ps = out
		}
		compare(t, "turned vertices", a, geom.Measure(field(t, o, bowls[0])), 1)
	}
}

// More depth anywhere means more water, less or equal area at each level
// further down, and stages that fall.
func TestMeasure_MonotoneInDepth(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, o := range outlines {
		for _, b := range bowls {
			last := 0.0
			for _, deep := range []float64{0.5, 0.8, 1.1, 1.4, 1.5} {
				b.DeepM = deep
				m := geom.Measure(field(t, o, b))
				if m.GrossVolumeM3 < last*(1-1e-4) {
					t.Errorf("%s %.1f m deep holds %.4f m3, less than before, %.4f m3", o.Shape, deep, m.GrossVolumeM3, last)
				}
				last = m.GrossVolumeM3
				for i := 1; i < len(m.Stages); i++ {
					if m.Stages[i].AreaM2 > m.Stages[i-1].AreaM2+1e-9 || m.Stages[i].VolumeM3 > m.Stages[i-1].VolumeM3+1e-9 {
						t.Errorf("%s: stage %d grows: %+v after %+v", o.Shape, i, m.Stages[i], m.Stages[i-1])
					}
				}
				near(t, "volume at the top stage", m.Stages[0].VolumeM3, m.GrossVolumeM3, 1e-9)
			}
		}
	}
}

// The contours that are drawn enclose the areas of the table within the table's
// own tolerance, 2 in 1000 of the surface, and those drawn while a finger moves
// nearly.
func TestContours_EncloseTheAreasOfTheTable(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	levels := []float64{0, 0.1, 0.3048, 0.5, 0.6096, 0.9144, 1.2192, 1.45}
	for _, o := range outlines {
		for bi, b := range bowls {
			f := field(t, o, b)
			stages := f.StagesAt(levels)
			for _, kind := range []struct {
				name  string
				drawn []geom.Contour
				share float64
			}{{"contour", f.Contours(levels), 2e-3}, {"quick contour", f.QuickContours(levels), 1e-2}} {
				for i, c := range kind.drawn {
					if off := enclosed(c) - stages[i].AreaM2; math.Abs(off) > kind.share*stages[0].AreaM2 {
						t.Errorf("%s bowl %c: %s at %.4f m encloses %.4f m2 more than the table's %.4f m2, %.2g of the surface",
							o.Shape, 'a'+bi, kind.name, c.LevelM, off, stages[i].AreaM2, off/stages[0].AreaM2)
					}
				}
			}
		}
	}
}

// Where contours and table differ most it is the table that is off, still
// within its tolerance: a fine grid of depths agrees with the contours to 5 in
// 10,000 of the surface, slivers narrower than a square of the lattice included.
func TestContours_AgreeWithAGrid(t *testing.T) {
	t.Parallel()
	outlines, bowls := some()
	for _, c := range []struct {
		o, b  int
		level float64
	}{{0, 1, 1.2192}, {2, 2, 1.2192}, {2, 6, 1.2192}, {3, 1, 1.45}, {3, 2, 1.2192}, {5, 5, 0.9144}} {
		f := field(t, outlines[c.o], bowls[c.b])
		const h = 0.012
		deep, r := 0.0, rand.New(rand.NewPCG(3, 4)) // anywhere in its square, so that no edge runs along a row
		for x := -6.0; x < 8; x += h {
			for y := -4.0; y < 6; y += h {
				if f.Depth(design.Point{XM: x + h*r.Float64(), YM: y + h*r.Float64()}) >= c.level {
					deep += h * h
				}
			}
		}
		got := enclosed(f.Contours([]float64{c.level})[0])
		if math.Abs(got-deep) > 5e-4*f.Rim().AreaM2() {
			t.Errorf("%s bowl %c at %.4f m: encloses %.4f m2, the grid says %.4f m2", outlines[c.o].Shape, 'a'+c.b, c.level, got, deep)
		}
	}
}

func enclosed(c geom.Contour) (areaM2 float64) {
	for _, ring := range c.Rings {
		for k, p := range ring {
			q := ring[(k+1)%len(ring)]
			areaM2 += (p.XM*q.YM - q.XM*p.YM) / 2
		}
	}
	return areaM2
}
